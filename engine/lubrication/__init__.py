"""Oil, grease, friction and heat."""
