"""The line to the terminal: what is read from it at once, and what is not written to it."""
