"""What is seen before a session is open."""
