"""One module a command; none of them reaches the screen."""
