"""Colour by meaning. Each meaning also has a word or a sign, so a screen without colour says the same."""

#: From meaning to a style of the terminal's own palette; without colour only bold, dim, underline and reverse are left.
COLOUR = {
    "plain": "",
    "title": "bold",
    "heading": "bold cyan",
    "quiet": "bright_black",
    "answered": "bold",
    "passes": "green",
    "fails": "bold red",
    "caution": "yellow",
    "here": "reverse",
    "key": "bold",
}
MONO = {
    "plain": "",
    "title": "bold",
    "heading": "bold",
    "quiet": "",
    "answered": "bold",
    "passes": "",
    "fails": "bold",
    "caution": "bold",
    "here": "reverse",
    "key": "bold",
}


def styles(mono: bool) -> dict[str, str]:
    """Return the styles for a terminal."""
    return MONO if mono else COLOUR
