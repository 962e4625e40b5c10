"""Choosing among the pairs: weighing them, why one is out, what must give, side by side, what a verdict hangs on."""
