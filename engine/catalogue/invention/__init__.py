"""The generator of the invented range: boundary dimensions, roller sets, figures, files."""
