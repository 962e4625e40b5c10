"""Records held against what is computed now, and against one another."""
