"""Views of a chapter: what its answers come to, drawn in text."""
