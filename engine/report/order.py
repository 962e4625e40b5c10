"""What to order: parts with class, execution and quantity, and what comes nearest in the other measuring system."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from engine.catalogue import equivalents
from engine.checks.every import evaluate
from engine.errors import plain
from engine.report.parts import Part, Table, Text, row
from engine.units import number_text

if TYPE_CHECKING:
    from engine.catalogue.columns import Catalogue
    from engine.record.computed import Computed

#: So many neighbours in the other system are named for each side, each size once; out of so many they are sought.
ALTERNATIVES, _SOUGHT = 2, 64


@dataclass(frozen=True)
class OrderLine:
    """One line of an order: how many, of what, with which name, for which sides, in which class and execution."""

    quantity: int
    what: str
    name: str
    sides: str
    tolerance: str
    execution: str
    availability: str


@dataclass(frozen=True)
class Alternative:
    """An assembly of the other system in place of one: as it is ordered, its sizes, and how the pair stands with it."""

    side: str
    name: str
    parts: str
    system: str
    sizes: str
    measure: float
    tolerance: str
    execution: str
    availability: str
    verdict: str


def to_order(computed: Computed) -> Iterator[Part]:
    """Yield what the report says of the order: its lines and what comes near, or why there is none."""
    why = withheld(computed)
    if why:
        yield Text(why, "caution")
        return
    lines = order_lines(computed)
    head = ("quantity", "part", "designation", "for", "class", "execution", "stock")
    rows = tuple(
        row(str(one.quantity), one.what, one.name, one.sides, one.tolerance, one.execution, one.availability)
        for one in lines
    )
    yield Table(head, rows, frozenset({0}))
    others = alternatives(computed)
    if others:
        near = (
            "for",
            "in the other system",
            "d x D x T mm",
            "difference",
            "class, execution, stock",
            "with it the pair",
        )
        rows = tuple(
            row(
                one.side, f"{one.parts} ({one.system})", one.sizes, f"{number_text(100 * one.measure, 3)} %",
                f"{one.tolerance}, {one.execution}, {one.availability}", one.verdict,
            )
            for one in others
        )  # fmt: skip
        words = (
            "The nearest in size, rating and angle, and where none of them passes the nearest that does. Seats and "
            "shoulders have to be checked before any exchange."
        )
        yield Table(near, rows, frozenset({3}), words)


def withheld(computed: Computed) -> str:
    """Return why nothing is ordered, a sentence: no pair was chosen, or the duty is incomplete; else nothing."""
    if not computed.chosen:
        return "No pair is chosen, so that there is nothing to order."
    if computed.result.missing:
        return "The duty is incomplete, so that there is nothing to order yet."
    return ""


def order_lines(computed: Computed) -> list[OrderLine]:
    """Return the parts to order; equal parts of both sides make one line. None where orders are withheld.

    Inch bearings are sold as cones and cups, and so is what is formed of parts that are not listed as a set.
    """
    if withheld(computed):
        return []
    found: dict[tuple[str, ...], tuple[int, str]] = {}
    per_side = computed.conditions.resolved.per_side
    for side, rows in zip("AB", computed.sides, strict=True):
        for what, name in _parts(rows):
            key = (what, name, _class(rows), _execution(rows), _stock(rows))
            count, sides = found.get(key, (0, ""))
            found[key] = count + per_side, f"{sides} and {side}" if sides else side
    return [
        OrderLine(count, key[0], key[1], sides, key[2], key[3], key[4]) for key, (count, sides) in found.items()
    ]  # fmt: skip


def _parts(rows: Catalogue) -> Iterator[tuple[str, str]]:
    cone, cup = _word(rows, "cone"), _word(rows, "cup")
    apart = _word(rows, "system") == "inch" or _word(rows, "listed") == "formed"
    if apart and cone and cup:
        yield "cone (inner ring with rollers)", cone
        yield "cup (outer ring)", cup
    else:
        yield "bearing, cone and cup together", _word(rows, "designation")


def _word(rows: Catalogue, column: str) -> str:
    return plain(getattr(rows, column)[0], 60)


def _class(rows: Catalogue) -> str:
    return f"class {_word(rows, 'tolerance')}" if _word(rows, "tolerance") else "class not stated"


def _execution(rows: Catalogue) -> str:
    steel = {"case": "case-hardened", "through": "through-hardened"}.get(_word(rows, "steel"), "")
    profile = _word(rows, "profile")
    return ", ".join(part for part in (steel, f"{profile} roller profile" if profile else "") if part)


def _stock(rows: Catalogue) -> str:
    return _word(rows, "availability").replace("_", " ") or "on request"


def alternatives(computed: Computed) -> list[Alternative]:
    """Return the assemblies of the other system that come nearest on each side, each computed in the pair's place.

    Nearness is by size, rating and angle only; the verdict is that of the checks that need no load distribution.
    Where none of the nearest passes, the nearest that does takes the place of the last.
    """
    same = computed.rows[0] == computed.rows[1]
    return [one for side in ("A" if same else "AB") for one in _of_side(computed, side, same)]


def _of_side(computed: Computed, side: str, same: bool) -> Iterator[Alternative]:
    catalogue, at = computed.source.rows, "AB".index(side)
    near = _each_size_once(catalogue, computed.rows[at])
    places = [place for place, _ in near]
    if not places:
        return
    rows = [places if same or i == at else [computed.rows[i]] * len(places) for i in (0, 1)]
    evaluated = evaluate(catalogue.take(rows[0]), catalogue.take(rows[1]), computed.conditions)
    passes = evaluated.passes.tolist()
    kept = list(range(len(places)))[:ALTERNATIVES]
    if not any(passes[i] for i in kept) and any(passes):
        kept[-1] = passes.index(True)
    for i in kept:
        failing = [
            f"{one.check.name} ({one.side})"
            for one in evaluated.outcomes
            if not one.check.advisory and not np.broadcast_to(np.ravel(one.passes), (len(places),))[i]
        ]
        verdict = f"fails: {', '.join(failing)}" if failing else "passes the same checks"
        one = catalogue.take([places[i]])
        sizes = " x ".join(number_text(float(getattr(one, name)[0])) for name in ("d", "D", "T"))
        yield Alternative(
            "A and B" if same else side, _word(one, "designation"), " + ".join(name for _, name in _parts(one)),
            _word(one, "system"), sizes, near[i][1], _class(one), _execution(one), _stock(one), verdict,
        )  # fmt: skip


def _each_size_once(catalogue: Catalogue, asked: int) -> list[tuple[int, float]]:
    """Return the nearest rows of the other system with their measures, of equal sizes the one most alike in steel."""
    near = equivalents.nearest_in_other_system(catalogue, asked, _SOUGHT)
    found: dict[tuple[float, ...], tuple[int, float]] = {}
    for place, measure in zip(near.rows.tolist(), near.measure.tolist(), strict=True):
        size = tuple(float(getattr(catalogue, name)[place]) for name in ("d", "D", "T"))
        before, least = found.setdefault(size, (place, measure))
        steel = catalogue.steel[asked]
        if measure == least and catalogue.steel[place] == steel != catalogue.steel[before]:
            found[size] = place, measure
    return list(found.values())
