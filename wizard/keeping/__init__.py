"""What is kept for the user without being asked: the sessions that have no name of their own."""
