"""What a user's own file goes through: cells, headers, estimates, contradictions, a corrected copy."""
