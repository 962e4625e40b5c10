"""One module a screen, and the lines that it shows."""
