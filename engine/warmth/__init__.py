"""The temperature that settles in a pair, and what film, rib and friction come to at it."""
