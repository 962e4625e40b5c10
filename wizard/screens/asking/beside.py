"""What a wide terminal shows beside the questions: the leading pairs, the chosen one's checks, what is assumed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from engine.errors import plain
from wizard import wording
from wizard.screens.choosing.listing import table
from wizard.screens.detail import use_bar
from wizard.widgets.lines import Line, fitted, line, wrapped

if TYPE_CHECKING:
    from engine.answers.document import Answers
    from engine.record.result import CheckRow, Result
    from wizard.glyphs import Glyphs
    from wizard.standing import Standing

PAIRS = 8
CHECKS = 10


def lines(standing: Standing, answers: Answers, glyphs: Glyphs, width: int, height: int) -> list[Line]:
    """Return the panel; the first column is the line that parts it from the questions."""
    inner = width - 2
    found = [*_leading(standing, answers, inner), *_chosen(standing.result, glyphs, inner)]
    found += _assumed(standing, inner, height - len(found) - 2)
    shown = [*found, *[line("")] * height][:height]
    return [((f"{glyphs.between} ", "quiet"), *one) for one in shown]


def _leading(standing: Standing, answers: Answers, width: int) -> list[Line]:
    title = line(fitted("Leading pairs", width), "heading")
    listed = standing.current(answers)
    if listed is None:
        return [title, line("Looking through the catalogue ...", "quiet"), line("")]
    heading, texts = table(listed.shortlist, listed.resolved.life, listed.resolved.loads_known, width)
    if not texts:
        return [title, line(fitted(wording.few(0), width), "caution"), line("")]
    rows = [
        ((f"{at:>4}  ", "quiet"), (fitted("".join(text), width - 6), "plain"))
        for at, text in enumerate(texts[:PAIRS], 1)
    ]
    return [title, ((heading[0][0], "quiet"),), *rows, line("")]


def _chosen(result: Result | None, glyphs: Glyphs, width: int) -> list[Line]:
    if result is None:
        return []
    binding = sorted((one for one in result.checks if not one.advisory), key=lambda one: -_used(one))[:CHECKS]
    rows = [_check(one, glyphs, width) for one in binding]
    return [line(fitted("The chosen pair, tightest checks first", width), "heading"), *rows, line("")]


def _used(check: CheckRow) -> float:
    # what could not be computed is the worst of all
    return check.utilisation if check.utilisation == check.utilisation else float("inf")


def _check(check: CheckRow, glyphs: Glyphs, width: int) -> Line:
    if not check.judged:
        name = check.name if check.side == "pair" else f"{check.name}, {check.side}"
        return ((f" {glyphs.caution} ", "caution"), (f"{fitted(name, width - 17)} not judged", "plain"))
    mark, meaning = (glyphs.passes, "passes") if check.passes else (glyphs.fails, "fails")
    name = check.name if check.side == "pair" else f"{check.name}, {check.side}"
    text, bar = use_bar(check.utilisation, glyphs)
    return ((f" {mark} ", meaning), (f"{fitted(name, width - 17)} {text:>6} {bar}", "plain"))


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
