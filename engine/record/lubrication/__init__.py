"""Figures of lubrication: lubricant and cleanliness, film and heat of each case, grease, and curves to draw."""
