"""Pictures of the screens for the README: the golden screens as SVG, with what is drawn bold or reverse.

They are written and compared together with the golden text of the same name, so that a tour never shows an old screen.
"""

import re
from html import escape
from itertools import groupby

from tests.house.tree import ROOT
from tests.screens import golden
from tests.screens.golden import text_of

FOLDER = ROOT / ".pictures"
#: The golden screens that the README shows.
SHOWN = frozenset({"duty", "shaft_forces", "lubrication_drawn", "fits_view", "setting_view", "shortlist", "pair"})
#: A cell of the screen [px], and the base line within it.
WIDE, HIGH, BASE, ROUND = 8, 17, 13, 12
INK, PAPER = "#d8dee4", "#16191d"


def both(app):
    """Return the screen in front as text and as a picture."""
    return text_of(app), picture_of(app)


def picture_of(app):
    """Return the screen in front as an SVG of its own: no font file, nothing outside."""
    strips = app.screen._compositor.render_strips()
    columns = max(strip.cell_length for strip in strips)
    width, height = columns * WIDE + 2 * ROUND, len(strips) * HIGH + 2 * ROUND
    first = next((strip.text.strip() for strip in strips if strip.text.strip()), "")
    lines = [
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width} {height}" width="{width}" height="{height}" '
        'font-family="DejaVu Sans Mono, Menlo, Consolas, monospace" font-size="13">',
        f"<title>{escape(first)}</title>",
        f'<rect width="{width}" height="{height}" rx="8" fill="{PAPER}"/>',
    ]
    for number, strip in enumerate(strips):
        lines += _row(strip, ROUND + number * HIGH)
    return "\n".join([*lines, "</svg>"]) + "\n"


def _row(strip, top):
    """Yield the runs of one line, each set to the width of its cells."""
    cells = [(character, _look(segment.style)) for segment in strip for character in segment.text]
    at = 0
    for (bold, reverse), run in groupby(cells, key=lambda cell: cell[1]):
        text = "".join(character for character, _ in run)
        x, wide = ROUND + at * WIDE, len(text) * WIDE
        at += len(text)
        if reverse:
            yield f'<rect x="{x}" y="{top}" width="{wide}" height="{HIGH}" fill="{INK}"/>'
        weight = ' font-weight="bold"' if bold else ""
        # words one blank apart stay together, all others have a place of their own: no reader may close up the blanks
        for words in re.finditer(r"\S+(?: \S+)*", text):
            place, length = x + words.start() * WIDE, len(words[0]) * WIDE
            yield (
                f'<text x="{place}" y="{top + BASE}" textLength="{length}" lengthAdjust="spacingAndGlyphs" '
                f'fill="{PAPER if reverse else INK}"{weight}>{escape(words[0])}</text>'
            )


def _look(style):
    return bool(style and style.bold), bool(style and style.reverse)


def compare(name, seen):
    """Compare with the picture that is kept, or write it when UPDATE_SCREENS is set."""
    golden.compare(name, seen, "svg", FOLDER)
