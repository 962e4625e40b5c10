"""Every limit, in one form: demand against capacity."""
