"""Which pairs pass, and in what order."""
