"""The lines that say why a pair is out, what would admit it, or what it lacks against the first of the list."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from engine.answers.document import question_at
from engine.errors import plain
from engine.units import number_text, show
from wizard.screens.choosing.asking import cut
from wizard.widgets.figures import aligned, alike, column, figure
from wizard.widgets.lines import Line, ended, fitted, line

if TYPE_CHECKING:
    from collections.abc import Sequence

    from engine.selection.stages.load_distribution import Leading
    from engine.selection.verdict import Finding, Verdict
    from engine.selection.why_not import Change, WhyNot
    from wizard.glyphs import Glyphs


@dataclass(frozen=True)
class Beside:
    """One thing of a pair beside the first of the list; less of it is better, or `more` is."""

    label: str
    unit: str
    own: float
    first: float
    more: bool = False

    @property
    def better(self) -> int:
        """Return 1 where the pair is better than the first, -1 where it is worse, 0 where they are alike."""
        if not abs(self.own - self.first) > 1e-9 * max(abs(self.own), abs(self.first)):
            return 0
        return 1 if (self.own > self.first) == self.more else -1


@dataclass(frozen=True)
class Explained:
    """What is said of a pair: its names, the verdict, and, once found, what would admit it or how it ranks.

    `so_far` are the changes found while `why` is not yet there.
    """

    names: tuple[str, str]
    verdict: Verdict
    so_far: tuple[Change, ...] = ()
    why: WhyNot | None = None
    place: int | None = None  # from 1, in the list
    beside: tuple[Beside, ...] = ()
    first: tuple[str, str] = ("", "")
    ranked: str = ""


@dataclass(frozen=True)
class Distributed:
    """What the load distribution says of a pair and of the first of the list, as far as it is known."""

    own: Leading | None = None
    first: Leading | None = None
    computing: bool = False


@dataclass
class Page:
    """Lines as they are made, those that can be marked, and what stands behind each of these."""

    lines: list[Line]
    stops: list[int]
    changes: dict[int, tuple[Change, ...]]
    meant: dict[int, str]

    def add(self, made: Line, meant: str = "", changes: tuple[Change, ...] = ()) -> None:
        """Add a line that can be marked."""
        self.stops.append(len(self.lines))
        self.meant[len(self.lines)] = meant
        if changes:
            self.changes[len(self.lines)] = changes
        self.lines.append(made)

    def heading(self, text: str, width: int) -> None:
        """Add a heading."""
        self.lines.append(cut(text, width, "heading"))


def page(
    said: Explained, running: bool, stopped: bool, glyphs: Glyphs, width: int, by: Distributed = Distributed()
) -> Page:
    """Return what is said of a pair while it is looked for, when it was stopped before its end, or all of it."""
    found = Page([], [], {}, {})
    if said.verdict.missing:
        found.lines.append(cut(" Loads are not yet known; only what needs none is checked.", width, "caution"))
    if said.verdict.failing:
        _fails(found, "It fails", said.verdict.failing, glyphs, width)
        _mending(found, said, running, width)
    else:
        _passes(found, said, by, glyphs, width)
        _ranking(found, said, running, stopped, by, width)
    return found


def _fails(found: Page, heading: str, failing: Sequence[Finding], glyphs: Glyphs, width: int) -> None:
    """Say what a pair fails, and by how much."""
    found.heading(fitted(f" {fitted(heading, width - 34)}{'demand':>10}{'capacity':>10}  by", width), width)
    for one, *cells in zip(failing, *_numbers(failing), strict=True):
        meant = "as answered" if _wish(one) else f"{one.check.demand_is} against {one.check.capacity_is}"
        found.add(_failing(one, cells, glyphs, width), f"{_name(one)}: {meant}")


def _passes(found: Page, said: Explained, by: Distributed, glyphs: Glyphs, width: int) -> None:
    """Say what a pair passes that the closed formulas let pass, and whether the load distribution does."""
    from engine.selection.verdict import finding

    word = by.own.word if by.own is not None else ""
    whole = said.verdict.missing or word == "passes"
    passed = "It passes every check" if whole else "It passes every check by the closed formulas"
    found.add(((f" {glyphs.passes} ", "passes"), (fitted(passed, width - 3), "plain")))
    outcomes = [finding(one) for one in by.own.outcomes if not one.passes] if by.own is not None else []
    cautions = [one for one in outcomes if one.check.advisory]
    for one in (*said.verdict.cautions, *cautions):
        found.add(((f" {glyphs.caution} ", "caution"), (fitted(f"to mind: {_name(one)}", width - 3), "plain")))
    if word == "fails":
        failing = [one for one in outcomes if not one.check.advisory]
        _fails(found, "By its load distribution it fails", failing, glyphs, width)
    elif not whole:
        found.lines.append(cut(f"   {_how_far(by)}", width, "caution" if by.own is not None else "quiet"))


def _how_far(by: Distributed) -> str:
    """Return why the load distribution has no last word."""
    if by.own is None:
        return "load distribution: being computed" if by.computing else "load distribution: not computed"
    return f"load distribution: {by.own.why_not or 'passes, its chance not drawn yet'}"


def _name(one: Finding) -> str:
    return one.check.name if one.side == "pair" else f"{one.check.name}, {one.side}"


def _wish(one: Finding) -> bool:
    """Whether a check has no figures: it is met or it is not."""
    return one.check.unit == "-" and one.capacity == 0 and one.demand == 1


def _numbers(failing: Sequence[Finding]) -> list[list[str]]:
    """Return the columns of what is demanded and what can be borne."""
    return [
        column(lambda most: ["" if _wish(one) else figure(one.demand, 4, most) for one in failing], 10),
        column(lambda most: ["" if _wish(one) else figure(one.capacity, 4, most) for one in failing], 10),
    ]


def _failing(one: Finding, cells: Sequence[str], glyphs: Glyphs, width: int) -> Line:
    if _wish(one):
        return ((f" {glyphs.fails} ", "fails"), (fitted(f"{_name(one)}: it is not", width - 3), "plain"))
    numbers = "".join(f"{cell:>10}" for cell in cells)
    unit = "" if one.check.unit == "-" else f" [{one.check.unit}]"
    side = "" if one.side == "pair" else f", {one.side}"
    return (
        (f" {glyphs.fails} ", "fails"),
        (ended(one.check.name, side + unit, width - 36), "plain"),
        (fitted(f"{numbers}  {_over(one.utilisation)}", 33), "plain"),
    )


def _over(utilisation: float) -> str:
    """Return by how much a check is failed."""
    over = 100 * (utilisation - 1)
    if over != over or over == float("inf"):
        return "unknown" if over != over else "all"
    return f"{over:.1f} %" if over < 10 else f"{number_text(over, 3)} %"


def _mending(found: Page, said: Explained, running: bool, width: int) -> None:
    """Say what would admit the pair."""
    why, changes = said.why, said.so_far if said.why is None else said.why.changes
    if changes:
        found.heading(" Each by itself admits it; Enter makes the marked one", width)
        for one in changes:
            found.add(_change(one, "", width), _turns(one), (one,))
    elif why is None:
        found.heading(" The smallest change of each answer that admits it", width)
    if why is None:
        looking = f"  looking for {'more' if changes else 'it'} ..."
        found.lines.append(line(looking if running else "  not looked for to the end; stopped", "quiet"))
    elif why.together:
        found.heading(" No answer by itself admits it; these do together, Enter makes them all", width)
        for at, one in enumerate(why.together, 1):
            mends = ", ".join(dict.fromkeys(key for key, _ in one.mends))
            names = {finding.key[0]: finding.check.name for finding in why.failing}
            mended = ", ".join(dict.fromkeys(names.get(key, key) for key, _ in one.mends)) if mends else ""
            found.add(_change(one, f"{at} ", width), f"mends: {mended}" if mended else "", why.together)
    elif not changes:
        found.heading(" No change of up to four answers admits it", width)


def _change(one: Change, lead: str, width: int) -> Line:
    return ((f"  {lead}", "key"), (fitted(plain(_text(one), 300), width - 2 - len(lead)), "plain"))


def _text(one: Change) -> str:
    return f"{one.step.label}: {one.step.before} to {one.step.after}"


def _turns(one: Change) -> str:
    away = f"{100 * one.away:.2g} % away" if one.turns is not None else "another option"
    dimension = getattr(question_at(one.step.path), "dimension", None)
    turns = f"; it turns at {show(one.turns, dimension)}" if one.turns is not None and dimension is not None else ""
    return f"{_text(one)} ({away}{turns})"


def _ranking(found: Page, said: Explained, running: bool, stopped: bool, by: Distributed, width: int) -> None:
    """Say where a passing pair stands, and what it lacks against the first."""
    if not said.beside:
        looked = "  where it ranks was not looked for; stopped" if stopped else ""
        found.lines.append(line("  looking where it ranks ..." if running else looked, "quiet"))
        return
    place = f"it stands at place {said.place}" if said.place else "it is not among the pairs listed"
    found.lines.append(cut(f"   {said.ranked}: {place}", width))
    if said.place == 1:
        return
    found.lines.append(cut(f"   The first is A {said.first[0]}, B {said.first[1]}", width))
    if by.first is not None and by.first.word == "fails":
        found.lines.append(cut(f"   By its load distribution the first fails: {', '.join(by.first.failing)}", width))
    name = max(14, width - 30)
    heading = f" {fitted('Against the first', name)}{'this pair':>12}{'the first':>12}"
    found.heading(heading, width)
    pairs = [alike([row.own, row.first]) for row in said.beside]
    columns = [aligned(cells) for cells in zip(*pairs, strict=True)]
    for row, own, first in zip(said.beside, *columns, strict=True):
        found.add(
            _beside(row, f"{own:>12}{first:>12}", name),
            {1: "better than the first", -1: "worse than the first", 0: "as the first"}[row.better],
        )


def _beside(row: Beside, figures: str, name: int) -> Line:
    unit = "" if row.unit == "-" else f" {row.unit}"
    sign = {1: "+", -1: "-", 0: " "}[row.better]
    return ((f" {ended(row.label, unit, name)}{figures} {sign}", "plain"),)


def steps_of(changes: Sequence[Change]) -> str:
    """Return what a step that makes some changes is called."""
    return "; ".join(f"{one.step.label}: {one.step.after}" for one in changes)
