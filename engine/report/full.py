"""The whole report of a record: what was asked, what was chosen, every figure and check, and how they were computed.

It knows questions, figures, checks and blocks only, so that a new chapter, check or block appears without a change
here.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import fields, replace
from typing import TYPE_CHECKING

from engine.answers.document import CHAPTERS, asked, items_at, listing_at, listings_of
from engine.errors import plain
from engine.record.document import NOTICE, readable, shown
from engine.report import formulas
from engine.report.brief import brief
from engine.report.calculation import verdict_sentence
from engine.report.compared import stored_caution
from engine.report.drawn import marked, section, series, shaft
from engine.report.drawn.oil import viscosity_plot
from engine.report.drawn.plots import Bar, bars_in_parts
from engine.report.order import to_order
from engine.report.parts import Cell, Formula, Items, Part, Pictures, Report, Section, Table, Text, row
from engine.report.runners_up import section_of_runners_up
from engine.report.taken.inside import inside, sources
from engine.report.taken.seats import constants
from engine.report.versions import versions
from engine.report.written.head import papers

if TYPE_CHECKING:
    from engine.answers.document import Asked
    from engine.figures import Block, Figure
    from engine.record.computed import Computed
    from engine.record.result import CheckRow

#: So many items of a list (load cases, elements, steps) stand side by side in one table.
ABREAST = 4
#: From this utilisation on a check that passes is shown as near its limit.
NEAR = 0.9
_CASE = re.compile(r"case_\d+(_bin_\d+)?")
_OF_CASE = re.compile(r"case_\d+(?=_|$)")
#: The figures of a load case that its summary shows, where they are there.
_SUMMARY = ("Fr", "Fa", "P", "P0", "kappa", "a_iso", "Lnmh")


def report(computed: Computed) -> Report:
    """Return the report of a computed record."""
    record, result = computed.record, computed.result
    assumed = (Items(tuple(map(_plain, result.assumptions))),) if result.assumptions else ()
    groups = (
        ("Result", (
            Section("Verdict", tuple(_verdict(computed))),
            Section("In short", tuple(brief(computed))),
            Section("What to order", tuple(to_order(computed))),
            Section("Drawings", tuple(_drawings(computed))),
        )),
        ("Asked", (*_answers(computed), Section("Assumed", assumed))),
        ("Checks", (Section("Checks", tuple(_checks(computed))),)),
        ("Figures", (*_figures(computed), *_sentences(computed))),
        ("Choice", (Section("Runners-up", tuple(section_of_runners_up(computed))),)),
        ("To redo it", (
            Section("Constants of the seats", tuple(constants(computed))),
            Section("Rollers, film and friction", tuple(inside(computed))),
            Section("How the figures are computed", tuple(_formulas(computed))),
        )),
        ("Made with", tuple(versions(computed, [*_sources(computed), *sources(computed)]))),
    )  # fmt: skip
    sections = tuple(replace(one, group=group) for group, members in groups for one in members if one.parts)
    title = _plain(record.answers.duty.job or "Design calculation")
    led = "" if computed.chosen else "Not chosen, the first of the shortlist. "
    pair = f"{led}Bearing at A: {_plain(result.bearing_A)}. Bearing at B: {_plain(result.bearing_B)}."
    return Report(title, pair, sections, foot(computed), papers=papers(record.answers))


def foot(computed: Computed) -> str:
    """Return the line at the foot of every page."""
    now = computed.now
    return f"Conewright {now.engine}, catalogue {_plain(now.catalogue)} {now.catalogue_hash[:12]}. {NOTICE}"


def _plain(text: object) -> str:
    return plain(text, 1000)


def _verdict(computed: Computed) -> Iterator[Part]:
    result = computed.result
    state = {"passes": "passes", "fails": "fails"}.get(result.verdict, "caution")
    unused = computed.record.unused
    yield Text(f"{verdict_sentence(result, unused)}.", "caution" if unused and state == "passes" else state)
    stored = stored_caution(computed)
    if stored:
        yield Text(_plain(stored), "caution")
    if result.missing:
        yield Text("Still missing:")
        yield Items(tuple(map(_plain, result.missing)))
    if computed.notes:
        yield Items(tuple(map(_plain, computed.notes)))
    if unused or result.cautions:
        yield Text("Mind:", "caution")
        yield Items(tuple(map(_plain, (*unused.cautions, *result.cautions))))


def _drawings(computed: Computed) -> Iterator[Part]:
    sides = computed.sides[:1] if computed.rows[0] == computed.rows[1] else computed.sides
    names = ("A and B",) if len(sides) == 1 else ("A", "B")
    found = [section.drawing(rows, side) for rows, side in zip(sides, names, strict=True)]
    drawn = tuple(one for one in found if one is not None)
    if drawn:
        yield Pictures(drawn, "Sections to scale; sizes in mm. The dashed red line is the load line.")
    whole = shaft.drawing(computed)
    if whole is not None:
        yield Pictures((whole,), f"{whole.title}. Arrows show places; directions across the shaft stand in the words.")
    for curve in (viscosity_plot(computed), *series.plots(computed.result.blocks, marked.of_setting(computed))):
        if curve is not None:
            yield Pictures((curve,), curve.title)


def _sentences(computed: Computed) -> Iterator[Section]:
    """Yield what else is said in sentences, such as which steel suits, under the name that the result gives it."""
    known = {"assumptions", "cautions", "of_duty", "missing"}  # said where the verdict and the assumptions are
    for field in fields(computed.result):
        said = getattr(computed.result, field.name)
        if field.name in known or not isinstance(said, tuple) or not said:
            continue
        if all(isinstance(one, str) for one in said):
            title = field.name.replace("_", " ").capitalize()
            yield Section(title, (Items(tuple(map(_plain, said))),))


# what was answered


def _answers(computed: Computed) -> Iterator[Section]:
    answers = computed.record.answers
    for chapter in CHAPTERS:
        items = [item for item in asked(answers, chapter.field) if item.value is not None]
        parts: list[Part] = []
        own = tuple(row(item.question.label, _shown(item)) for item in items if not item.listed)
        if own:
            parts.append(Table(("question", "answer"), own))
        for name in listings_of(type(getattr(answers, chapter.field))):
            parts += _listed(computed, f"{chapter.field}.{name}", [item for item in items if item.listed == name])
        if parts:
            yield Section(f"Answered: {chapter.title}", tuple(parts))


def _listed(computed: Computed, path: str, items: list[Asked]) -> Iterator[Table]:
    """Yield the items of a list side by side, so many to a table."""
    count = len(items_at(computed.record.answers, path)) if items else 0
    one = listing_at(path).one
    for first in range(0, count, ABREAST):
        places = range(first, min(first + ABREAST, count))
        labels = dict.fromkeys(item.question.label for item in items if item.item in places)
        shown_at = {(item.question.label, item.item): _shown(item) for item in items}
        rows = tuple(row(label, *(shown_at.get((label, at), "") for at in places)) for label in labels)
        if rows:
            yield Table((one, *(str(at + 1) for at in places)), rows)


def _shown(item: Asked) -> str:
    return _plain(item.question.show(item.value))


# checks and figures


def _checks(computed: Computed) -> Iterator[Part]:
    checks = computed.result.checks
    head = ("check", "side", "demand", "capacity", "unit", "utilisation", "", "source")
    rows = tuple(
        (
            Cell(f"{check.name}: {check.demand_is} against {check.capacity_is}"), Cell(check.side),
            Cell(readable(check.demand), f"check.{check.key}.{check.side}.demand"),
            Cell(readable(check.capacity), f"check.{check.key}.{check.side}.capacity"), Cell(check.unit),
            Cell(readable(check.utilisation, 3), f"check.{check.key}.{check.side}.utilisation", state(check)),
            Cell(_word(check), "", state(check)), Cell(check.source),
        )
        for check in checks
    )  # fmt: skip
    yield Table(head, rows, frozenset({2, 3, 5}), "A check passes up to a utilisation of 1.")
    found = [Bar(f"{one.name}, {one.side}", one.utilisation, state(one)) for one in checks]
    for drawn in bars_in_parts("Utilisation of every check", found):
        yield Pictures((drawn,), f"{drawn.title}: demand over capacity. Light bars only caution.")


def state(check: CheckRow) -> str:
    """Return how a check stands: passes, near, fails or caution."""
    if not check.judged:
        return "caution"
    if check.advisory:
        return "passes" if check.passes else "caution"
    if not check.passes:
        return "fails"
    # a size that just fits uses its limit wholly, which is nothing to mind
    return "near" if NEAR <= check.utilisation < 1.0 else "passes"


def _word(check: CheckRow) -> str:
    if not check.judged:
        return "not judged"
    return "ok" if check.passes else ("mind" if check.advisory else "FAILS")


def _figures(computed: Computed) -> Iterator[Section]:
    blocks = computed.result.blocks
    summary = _summary([block for block in blocks if _CASE.fullmatch(block.key)])
    if summary is not None:
        yield Section("Loads per case", (summary,))
    named: set[str] = set()
    titles: list[str] = []
    for block in blocks:
        if block.figures:
            titles.append(_plain(block.title))
            # two elements of one name have headings that can be told apart
            again = f" ({titles.count(titles[-1])})" if titles[-1] in titles[:-1] else ""
            yield Section(titles[-1] + again, (block_table(block),), entry=_entry(block.key, blocks, named))


def _entry(key: str, blocks: tuple[Block, ...], named: set[str]) -> str | None:
    """Return what the contents call a block: the blocks of one load case have one line, that of the first of them."""
    of_case = _OF_CASE.match(key)
    if of_case is None:
        return None
    if of_case[0] in named:
        return ""
    named.add(of_case[0])
    case = re.compile(rf"{of_case[0]}(_bin_\d+)?")
    return next((_plain(block.title) for block in blocks if case.fullmatch(block.key)), None)


def block_table(block: Block) -> Table:
    """Return the figures of a block as a table; what both bearings share stands in one column."""
    rows = tuple(
        (
            Cell(figure.symbol), Cell(_plain(figure.name)), *values(block, figure), Cell(figure.unit),
            Cell(_plain(figure.source)),
        )
        for figure in block.figures
    )  # fmt: skip
    estimated = any(figure.estimated for figure in block.figures)
    caption = "A value led by ~ is estimated, since the catalogue does not state it." if estimated else ""
    return Table(("", "figure", "A", "B", "unit", "source"), rows, frozenset({2, 3}), caption)


def values(block: Block, figure: Figure) -> tuple[Cell, Cell]:
    """Return the cells of a figure's values; one of the pair stands under A."""
    key = f"{block.key}.{figure.key}"
    if figure.of_pair:
        return Cell(_plain(shown(figure, "A")), f"{key}.pair"), Cell("")
    return Cell(_plain(shown(figure, "A")), f"{key}.a"), Cell(_plain(shown(figure, "B")), f"{key}.b")


def _summary(blocks: list[Block]) -> Table | None:
    """Return what matters most of each load case, one line a bearing."""
    keys = [key for key in _SUMMARY if any(figure.key == key for block in blocks for figure in block.figures)]
    if not keys:
        return None
    rows = []
    names: dict[str, str] = {}
    for block in blocks:
        figures = {figure.key: figure for figure in block.figures}
        names |= {key: f"{figures[key].symbol} {figures[key].unit}".strip() for key in keys if key in figures}
        for side in "AB":
            cells = [Cell(shown(figures[key], side) if key in figures else "") for key in keys]
            rows.append((Cell(_plain(block.title)), Cell(side), *cells))
    head = ("load case", "side", *(names[key] for key in keys))
    return Table(head, tuple(rows), frozenset(range(2, 2 + len(keys))))


# the rest


def _sources(computed: Computed) -> list[str]:
    figures = [figure.source for block in computed.result.blocks for figure in block.figures]
    return list(dict.fromkeys([*figures, *(check.source for check in computed.result.checks)]))


def _formulas(computed: Computed) -> Iterator[Part]:
    yield Text("Each formula as its source has it; the symbols are those of the tables above. Angles are in rad.")
    for one in formulas.behind([*_sources(computed), *sources(computed)]):
        if one.printed:
            symbols = f"{'; '.join(one.symbols)}. Gives {one.returns}. {one.valid}"
            yield Formula(f"{one.source}. {one.what}", tuple(one.printed.split("\n")), symbols)
