"""The screen of pairs side by side."""
