"""Pairs side by side."""
