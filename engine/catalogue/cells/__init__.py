"""Bytes of a CSV file to cells, and whole columns of cells to numbers and texts at once."""
