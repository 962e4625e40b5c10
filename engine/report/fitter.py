"""The sheet for the one who mounts the bearings: one page with parts, seats, heating, setting and grease.

It picks figures out of the blocks of a result by their keys; what was not computed is said to be missing, so that
nobody takes an empty field for "as you like".
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from itertools import accumulate
from textwrap import shorten
from typing import TYPE_CHECKING

from engine.errors import plain
from engine.pair.arrangement import BACK_TO_BACK
from engine.record.document import readable, shown
from engine.record.lubrication.cautions import UNSETTLED
from engine.report.brief import SEATS, diameter, figures_of, setting_rows, signed, value_of
from engine.report.calculation import minded, what_passed
from engine.report.compared import stored_caution
from engine.report.drawn import shaft
from engine.report.full import foot, values
from engine.report.order import order_lines, withheld
from engine.report.parts import Cell, Items, Part, Pictures, Report, Section, Table, Text, row
from engine.seat.interference import REFERENCE_TEMPERATURE
from engine.seat.mounting import HEATING_LIMIT
from engine.setting.bench import spelled, steps_of

if TYPE_CHECKING:
    from engine.figures import Figure
    from engine.record.computed import Computed
    from engine.record.result import Result

#: So many lines of cautions, of so many letters, leave the sheet on one page; one caution is so long at most.
MOST_LINES, A_LINE, LONGEST = 10, 140, 200
#: Checks whose cautions come first, by how their keys begin: rings that creep, heat that they do not stand.
_FIRST = ("creep", "stability", "heating", "lubricant_heat", "safe_speed", "oil_flow", "runaway")
#: What is done at each seat: the end of its key, what it says, its unit.
_AT_SEAT = (
    ("class", "fit as of class", ""), ("seat_upper", "seat to make, upper limit", "um"),
    ("seat_lower", "seat to make, lower limit", "um"),
    ("heating", "cone, or housing, slides on when heated to at least", "degC"), ("mounting", "how it goes on", ""),
    ("force_on", "force to press it on, at most", "N"), ("force_off", "force to pull it off, at most", "N"),
)  # fmt: skip
#: Least temperatures and greatest forces: so many digits are what a shop can keep, rounded up to stay what they are.
_UPWARD = {"heating": 0, "force_on": 2, "force_off": 2}
_LUBRICANT = (
    ("lubricant", ("lubricant", "supply")),
    ("grease", ("nlgi", "first_fill", "t_grease", "refill")),
)
_OF_A_SIDE = re.compile(r"^(.*) at ([AB])(\W.*)$", re.S)


def sheet(computed: Computed) -> Report:
    """Return the fitter's sheet of a computed record."""
    title = plain(computed.record.answers.duty.job or "Bearings of a shaft", 120)
    why = withheld(computed)
    if why:
        parts: list[Part] = [Text(why, "caution")]
        if computed.result.missing:
            parts.append(Items(tuple(f"Still missing: {plain(one, LONGEST)}" for one in computed.result.missing)))
        return Report(f"Mounting: {title}", _state(computed), (Section("Parts", tuple(parts)),), foot(computed), True)
    sections = [
        Section("Parts", (_parts(computed),)),
        Section("How they sit", tuple(_seating(computed))),
        Section("Seats and mounting", tuple(_seats(computed))),
        Section("Setting", tuple(_setting(computed))),
        Section("Lubricant", (_lubricant(computed),)),
        Section("Mind", tuple(_cautions(computed))),
        Section("Done", (_signed(),)),
    ]
    return Report(
        f"Mounting: {title}", _state(computed), tuple(one for one in sections if one.parts), foot(computed), True
    )


def _state(computed: Computed) -> str:
    result = computed.result
    if not computed.chosen:
        return "No pair is chosen: do not mount."
    if result.verdict == "passes":
        ask = "; ask before mounting" if result.not_judged else ""
        return f"The pair passes {what_passed(result)}{ask}{minded(len(_minded(result)))}."
    return f"The calculation of this pair {'FAILS' if result.verdict == 'fails' else 'is INCOMPLETE'}: do not mount."


def _parts(computed: Computed) -> Table:
    rows = tuple(row(str(one.quantity), one.what, one.name, one.sides, one.tolerance) for one in order_lines(computed))
    return Table(("quantity", "part", "designation", "for", "class"), rows, frozenset({0}))


def _seating(computed: Computed) -> Iterator[Part]:
    resolved = computed.conditions.resolved
    if resolved.locating:
        words = f"Two bearings side by side on each side; the unit at {resolved.locating} locates the shaft."
    elif resolved.arrangement == BACK_TO_BACK:
        words = "Back to back (O): the large roller ends of both cones face outwards."
    else:
        words = "Face to face (X): the large roller ends of both cones face each other."
    yield Text(words)
    drawn = shaft.drawing(computed)
    if drawn is not None:
        yield Pictures((drawn,))


def _seats(computed: Computed) -> Iterator[Part]:
    """Yield the four seats side by side."""
    of = {ring: figures_of(computed, f"fit_{ring}") for ring, *_ in SEATS}
    if not any(of.values()):
        yield Text("Fits were not computed; they must come from the drawing.", "caution")
        return
    sizes = (
        diameter(float(getattr(part, size)[0]), str(part.system[0]) == "inch")
        for _, _, size in SEATS
        for part in computed.sides
    )
    rows = [row("diameter of the seat", *sizes, "")]
    for key, words, unit in _AT_SEAT:
        texts = [_at_seat(of[ring], ring, key, side) for ring, *_ in SEATS for side in "AB"]
        rows.append(row(words, *texts, unit))
    head = ("", *(f"{seat} {side}" for _, seat, _ in SEATS for side in "AB"), "unit")
    heat = (
        f"No ring is heated above {HEATING_LIMIT:g} degC. What would slide only above that is pressed on, or its "
        "counterpart is cooled as well. At the temperature named the tightest fit slides with one IT6 of play; "
        "add what the ring cools on the way."
    )
    yield Table(head, tuple(rows), frozenset({1, 2, 3, 4}), heat)


def _at_seat(figures: dict[str, Figure], ring: str, key: str, side: str) -> str:
    """Return what stands at one seat; how a cup goes into its housing follows from where the housing slides."""
    if key.startswith("seat_"):
        return signed(figures, f"{ring}_{key}", side)
    if key in _UPWARD:
        return _upward(figures.get(f"{ring}_{key}"), side, _UPWARD[key])
    heating = figures.get(f"{ring}_heating")
    if key != "mounting" or ring != "cup" or heating is None:
        return value_of(figures, f"{ring}_{key}", side)
    at = heating.A if side == "A" else heating.B
    if not isinstance(at, float) or math.isnan(at):
        return value_of(figures, f"{ring}_{key}", side)
    if at <= REFERENCE_TEMPERATURE:
        return "by hand"
    return "pressed, or housing heated" if at <= HEATING_LIMIT else "pressed"


def _upward(figure: Figure | None, side: str, digits: int) -> str:
    """Return a figure rounded up: to whole numbers, or to so many digits where they are more than none."""
    value = None if figure is None else (figure.A if side == "A" else figure.B)
    if not isinstance(value, float) or not math.isfinite(value):
        return "-" if figure is None else plain(shown(figure, side), 60)
    step = 10.0 ** max(0, math.floor(math.log10(abs(value))) + 1 - digits) if digits and value else 1.0
    return readable(math.ceil(value / step) * step)


def _setting(computed: Computed) -> Iterator[Part]:
    rows = setting_rows(computed)
    if not rows:
        yield Text("The setting was not computed; it must come from the drawing.", "caution")
        return
    head = ("setting of the pair, cold (20 degC)", "in mm", "in inches")
    yield Table(head, tuple(row(words, spelled(at), spelled(at, inches=True)) for words, at in rows))
    if computed.result.study is not None:
        yield Items(tuple(steps_of(computed.result.study)))


def _lubricant(computed: Computed) -> Part:
    rows = []
    for block in computed.result.blocks:
        wanted = dict(_LUBRICANT).get(block.key, ())
        found = [figure for figure in block.figures if figure.key in wanted]
        for figure in sorted(found, key=lambda one: wanted.index(one.key)):
            rows.append((Cell(plain(figure.name, 100)), *values(block, figure), Cell(figure.unit)))
    if not any(cells[0].text.startswith("first filling") for cells in rows):
        none = Cell("amount"), Cell("No amount of lubricant was computed."), Cell(""), Cell("")
        rows.append(none)
    return Table(("", "A", "B", "unit"), tuple(rows), frozenset({1, 2}))


def _cautions(computed: Computed) -> Iterator[Part]:
    """Yield what to mind, what weighs most first."""
    unused = computed.record.unused
    if unused:
        yield Text(f"Keys of the record that were not used: {len(unused)}. See the report before mounting.", "caution")
    if stored_caution(computed):
        yield Text("The record holds another result than is computed now. See the report before mounting.", "caution")
    found = _minded(computed.result)
    shown = _in_the_room([_in_whole_words(one) for one in found])
    more = [f"and {len(found) - len(shown)} more in the report"] if len(found) > len(shown) else []
    if found:
        yield Items((*shown, *more))


def _in_the_room(said: list[str]) -> list[str]:
    """Return as many of the sentences, from the first on, as the sheet has lines for."""
    lines = list(accumulate(math.ceil(len(one) / A_LINE) for one in said))
    return said[: sum(line <= MOST_LINES for line in lines)]


def _minded(result: Result) -> list[str]:
    """Return the cautions by their weight: creep and heat, what no check says, then what is for who designs."""
    first = tuple(f"{check.name} at " for check in result.checks if check.key.startswith(_FIRST))
    of_checks = tuple(f"{check.name} at " for check in result.checks)
    found = _of_both_sides(list(result.cautions))
    return sorted(found, key=lambda one: 0 if one.startswith((*first, UNSETTLED)) else 1 + one.startswith(of_checks))


def _in_whole_words(text: str) -> str:
    """Return a sentence as the sheet has room for it, cut between words only."""
    whole = plain(text, 1000)
    short = shorten(whole, LONGEST, placeholder=" ...")
    return whole if len(whole) <= LONGEST else short if len(short) > LONGEST / 2 else plain(text, LONGEST)


def _of_both_sides(said: list[str]) -> list[str]:
    """Return sentences, those that are said of A and of B in the same words put into one."""
    found: dict[tuple[str, str], list[str]] = {}
    for one in said:
        match = _OF_A_SIDE.match(one)
        key = (match[1], match[3]) if match else (one, "")
        found.setdefault(key, []).extend([match[2]] if match else [])
    return [f"{first} at {' and '.join(sides)}{rest}" if sides else first for (first, rest), sides in found.items()]


def _signed() -> Table:
    head = ("step", "measured", "by", "on")
    steps = (
        "shaft and housing measured",
        "rings seated against their shoulders",
        "setting measured",
        "lubricant filled",
    )
    return Table(head, tuple(row(step, "", "", "") for step in steps))
