"""What the machine does to any pair."""
