"""What a wide terminal shows of a pair beside a list: its tightest checks, then its figures as far as there is room."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from engine.errors import plain
from wizard.screens import detail
from wizard.widgets.lines import Line, ended, fitted, line

if TYPE_CHECKING:
    from collections.abc import Iterable

    from engine.checks.every import Evaluated
    from engine.figures import Block
    from engine.record.result import Result
    from engine.selection.stages.load_distribution import Leading
    from wizard.glyphs import Glyphs

CHECKS = 10
#: Columns and lines.
Room = tuple[int, int]


@dataclass(frozen=True)
class Used:
    """How much of one check is used."""

    name: str
    side: str
    share: float
    passes: bool
    judged: bool


def of_result(result: Result) -> list[Used]:
    """Return the checks of a computed pair that count for the verdict."""
    counting = (one for one in result.checks if not one.advisory)
    return [Used(one.name, one.side, one.utilisation, one.passes, one.judged) for one in counting]


def of_listed(evaluated: Evaluated, row: int) -> list[Used]:
    """Return the same for a row of the list, from what was computed to list it: nothing is computed again."""
    found = []
    for one in evaluated.outcomes:
        if not one.check.advisory:
            judged = one.judged is None or bool(one.judged[row])
            found.append(Used(one.check.name, one.side, float(one.utilisation[row]), bool(one.passes[row]), judged))
    return found


def of_leading(led: Leading | None) -> list[Used]:
    """Return the same of the load distribution, where it is known: it may fail what closed formulas let pass."""
    outcomes = [one for one in led.outcomes if not one.check.advisory] if led is not None else []
    return [Used(one.check.name, one.side, float(one.utilisation), bool(one.passes), judged=True) for one in outcomes]


def listed(
    evaluated: Evaluated,
    row: int,
    known: Result | None,
    by: tuple[Leading | None, list[Line]],
    glyphs: Glyphs,
    room: Room,
) -> list[Line]:
    """Return the panel of a pair of the list; all of its figures where it has been computed as a whole.

    `by` is what the load distribution says of it, and that in words.
    """
    (led, said), (width, height) = by, room
    from engine.record.blocks import bearings_block

    A, B = (rows.take([row]) for rows in (evaluated.A, evaluated.B))
    names = f"A {plain(str(A.designation[0]), 60)}   B {plain(str(B.designation[0]), 60)}"
    used = [*of_leading(led), *of_listed(evaluated, row)] if known is None else of_result(known)
    blocks = (bearings_block(A, B),) if known is None else known.blocks
    found = [line(fitted(names, width), "title"), *said, line("")]
    found.append(line(fitted("Tightest checks first", width), "heading"))
    found += [*checks(used, glyphs, width), line("")]
    return [*found, *figures(blocks, width, height - len(found))]


def of_pair(result: Result, glyphs: Glyphs, room: Room) -> list[Line]:
    """Return the panel of a pair that has been computed: its verdict, its tightest checks, its figures."""
    width, height = room
    names = f"A {plain(result.bearing_A, 60)}   B {plain(result.bearing_B, 60)}"
    verdict = f"The pair {result.verdict}" if result.verdict != "incomplete" else "Loads are not yet known"
    meaning = {"passes": "passes", "fails": "fails"}.get(result.verdict, "caution")
    found = [line(fitted(names, width), "title"), line(fitted(verdict, width), meaning), line("")]
    found.append(line(fitted("Tightest checks first", width), "heading"))
    found += [*checks(of_result(result), glyphs, width), line("")]
    return [*found, *figures(result.blocks, width, height - len(found))]


def checks(used: list[Used], glyphs: Glyphs, width: int) -> list[Line]:
    """Return the tightest checks, the worst first; what could not be computed is the worst of all."""
    tightest = sorted(used, key=lambda one: -one.share if one.share == one.share else float("-inf"))
    return [_check(one, glyphs, width) for one in tightest[:CHECKS]]


def _check(one: Used, glyphs: Glyphs, width: int) -> Line:
    name = ended(one.name, "" if one.side == "pair" else f", {one.side}", width - 17)
    if not one.judged:
        return ((f" {glyphs.caution} ", "caution"), (f"{name} not judged", "plain"))
    mark, meaning = (glyphs.passes, "passes") if one.passes else (glyphs.fails, "fails")
    text, bar = detail.use_bar(one.share, glyphs)
    return ((f" {mark} ", meaning), (f"{name} {text:>6} {bar}", "plain"))


def figures(blocks: Iterable[Block], width: int, height: int) -> list[Line]:
    """Return the figures, both bearings side by side, block by block as far as there is room."""
    found: list[Line] = []
    for block in blocks:
        if len(found) + 2 > height:  # no heading without a figure
            break
        found += [*detail.figures(block, width), line("")]
    return found[:height]
