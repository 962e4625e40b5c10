"""Every drawn character with its ASCII twin; the set is chosen once, before the screens are imported."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Glyphs:
    """Characters for rules, marks and bars. All one cell wide."""

    rule: str
    bar_full: str
    bar_empty: str
    passes: str
    fails: str
    caution: str
    open: str
    here: str
    between: str
    differs: str


UNICODE = Glyphs(
    rule="─", bar_full="■", bar_empty="·", passes="✓", fails="✗", caution="!", open="·", here="▸",
    between="│", differs="≠",
)  # fmt: skip
ASCII = Glyphs(
    rule="-", bar_full="#", bar_empty=".", passes="+", fails="x", caution="!", open=".", here=">",
    between="|", differs="/",
)  # fmt: skip


def chosen(ascii_only: bool) -> Glyphs:
    """Return the set for a terminal."""
    return ASCII if ascii_only else UNICODE
