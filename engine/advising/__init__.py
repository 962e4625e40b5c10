"""What would change the lubrication for the better, in figures; and the curves that show where a pair runs."""
