"""Whether what was answered agrees with itself: what is refused, and what is minded, of a duty alone."""
