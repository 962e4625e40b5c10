"""Finding anything by typing."""
