"""How tight: the classes of a seat side by side."""
