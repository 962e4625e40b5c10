"""Two bearings working against each other."""
