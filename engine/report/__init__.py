"""What is printed of a record."""
