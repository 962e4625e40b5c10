"""What one bearing can carry, and for how long."""
