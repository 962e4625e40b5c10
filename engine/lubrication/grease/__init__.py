"""How long grease lasts, how much of it, and of which kind."""
