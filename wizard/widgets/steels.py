"""Both heat treatments in two columns, each cell wrapped in its own; a sign stands before what fails or cautions."""

from __future__ import annotations

from itertools import zip_longest
from typing import TYPE_CHECKING

from engine.errors import plain
from wizard.widgets.lines import Line, fitted, wrapped

if TYPE_CHECKING:
    from collections.abc import Sequence

    from engine.record.seats.both_steels import Facing
    from wizard.glyphs import Glyphs

#: Columns of the names: in a wide terminal, and in a narrow one, where they too are wrapped.
NAME, NARROW = 20, 14
#: Fewer columns than this are narrow.
ROOMY = 76


def columns(facing: Sequence[Facing], glyphs: Glyphs, width: int) -> list[Line]:
    """Return the comparison, its first line as the head."""
    name = NAME if width >= ROOMY else NARROW
    cell = (width - name - 3) // 2
    lines: list[Line] = []
    for at, one in enumerate(facing):
        signs = [_sign(meaning, glyphs) for meaning in one.meanings]
        told = [wrapped(plain(text, 200), cell - 2) for text in one.values]
        for row, (words, left, right) in enumerate(zip_longest(wrapped(one.name, name - 1), *told, fillvalue="")):
            cells = [
                _cell(text, sign if row == 0 else " ", cell) for text, sign in zip((left, right), signs, strict=True)
            ]
            meanings = ("heading", "heading") if at == 0 else one.meanings
            lines.append(
                ((f" {fitted(words, name)}", "quiet"), (cells[0], meanings[0]), (" ", "plain"), (cells[1], meanings[1]))
            )
    return lines


def _sign(meaning: str, glyphs: Glyphs) -> str:
    return {"fails": glyphs.fails, "caution": glyphs.caution, "passes": glyphs.passes}.get(meaning, " ")


def _cell(text: str, sign: str, width: int) -> str:
    return fitted(f"{sign} {text}", width)
