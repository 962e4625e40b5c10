"""What a wide terminal shows beside the questions: the leading pairs, the chosen one's checks, what is assumed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from engine.errors import plain
from wizard import wording
from wizard.screens.choosing import beside as pair
from wizard.screens.choosing.listing import Known, marked, table
from wizard.widgets.lines import Line, fitted, line, wrapped

if TYPE_CHECKING:
    from engine.answers.document import Answers
    from engine.record.result import Result
    from wizard.glyphs import Glyphs
    from wizard.standing import Standing

#: Leading pairs where the terminal is no higher than it must be for them.
PAIRS = 8


def lines(standing: Standing, answers: Answers, glyphs: Glyphs, width: int, height: int) -> list[Line]:
    """Return the panel."""
    most = max(PAIRS, height // 5)
    found = [*_leading(standing, answers, glyphs, width, most), *_chosen(standing.result, glyphs, width)]
    return [*found, *_assumed(standing, width, height - len(found) - 2)]


def _leading(standing: Standing, answers: Answers, glyphs: Glyphs, width: int, most: int) -> list[Line]:
    title = line(fitted("Leading pairs", width), "heading")
    listed = standing.current(answers)
    if listed is None:
        return [title, line("Looking through the catalogue ...", "quiet"), line("")]
    heading, texts = table(listed.shortlist, listed.resolved.life, listed.resolved.loads_known, width)
    if not texts:
        return [title, line(fitted(wording.few(0), width), "caution"), line("")]
    first, many = listed.shortlist.evaluated, min(most, len(texts))
    pairs = [(str(first.A.designation[at]), str(first.B.designation[at])) for at in range(many)]
    rows = marked(texts[:many], [Known(standing.leading.get(pair)) for pair in pairs], glyphs, width)
    return [title, ((heading[0][0], "quiet"),), *rows, line("")]


def _chosen(result: Result | None, glyphs: Glyphs, width: int) -> list[Line]:
    if result is None:
        return []
    heading = line(fitted("The chosen pair, tightest checks first", width), "heading")
    return [heading, *pair.checks(pair.of_result(result), glyphs, width), line("")]


def _assumed(standing: Standing, width: int, room: int) -> list[Line]:
    counted = standing.counted
    if counted is None or room < 3 or not counted.resolved.assumptions:
        return []
    every = counted.resolved.assumptions
    found = [line(fitted(f"Assumed for {len(every)} open questions; t visits them", width), "heading")]
    for one in every:
        text = wrapped(plain(f"{one.label}: {one.shown}", 200), width - 2)
        if len(found) + len(text) > room:
            break
        found += [line(f" {part}", "quiet") for part in text]
    return found
