"""Oils and greases that can be bought: the table of generic ones, and a table of the user's own."""
