"""What the rings are made of."""
