"""The design record: versions, answers, the chosen pair, every computed figure and check."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from engine import __version__
from engine.answers.document import Answers
from engine.answers.plain import to_plain
from engine.record.carried.beside import Carried
from engine.record.carried.unknown import Unused
from engine.units import number_text

if TYPE_CHECKING:
    from collections.abc import Mapping

    from engine.figures import Figure
    from engine.record.carried.lines import Lines
    from engine.record.result import Result

#: Version of the record's layout: a newer first number is refused, a newer second one is read with a word of warning.
SCHEMA = "1.1"


@dataclass(frozen=True)
class Stored:
    """A check as a record holds it, for comparison with what is computed now."""

    key: str
    side: str
    utilisation: float


@dataclass(frozen=True)
class Record:
    """What was answered, with what it was computed, and what a file held beside it.

    `schema` is the version of the layout, that of the file where it is newer than ours. `found` is the file's whole
    result and `found_made_with` what it says of its making, as they stand there, `found_schema` the version of the
    layout that the file states; `carried` goes into the file again. `unused` are the keys of the file that no question
    has: whoever computes the record must say them. `lines` says where in its file a key stands.
    """

    answers: Answers
    engine: str = __version__
    catalogue: str = ""
    catalogue_hash: str = ""
    stored: tuple[Stored, ...] = ()
    warnings: tuple[str, ...] = field(default=())
    schema: str = SCHEMA
    found: Mapping[str, Any] = field(default_factory=dict, repr=False)
    found_made_with: Mapping[str, Any] = field(default_factory=dict, repr=False)
    found_schema: str = ""
    carried: Carried = field(default=Carried(), repr=False, compare=False)
    unused: Unused = field(default=Unused(), compare=False)
    lines: Lines | None = field(default=None, repr=False, compare=False)


def to_tables(record: Record, result: Result | None) -> dict[str, Any]:
    """Return the record as nested tables with a stable order of keys; the same content gives the same tables."""
    tables: dict[str, Any] = {
        "schema": record.schema,
        "made_with": {
            "conewright": record.engine,
            "catalogue": record.catalogue,
            "catalogue_sha256": record.catalogue_hash,
        },
        "answers": to_plain(record.answers),
    }
    record.carried.into_tables(tables)
    if result is not None:
        from engine.record.compared.digest import ANSWERS, SEAL, of_answers, seal

        tables["result"] = result_tables(result) | {ANSWERS: of_answers(record.answers)}
        tables["result"][SEAL] = seal(tables["made_with"], tables["result"])
    return tables


def result_tables(result: Result) -> dict[str, Any]:
    """Return a result as nested tables."""
    return {
        "bearing_a": result.bearing_A,
        "bearing_b": result.bearing_B,
        "verdict": result.verdict,
        "missing": list(result.missing),
        "assumptions": list(result.assumptions),
        "cautions": list(result.cautions),
        "steel": list(result.steels),
        "notice": NOTICE,
        "checks": [_check(check) for check in result.checks],
        "figures": [
            {"key": f"{block.key}.{figure.key}", "block": block.title} | _figure(figure)
            for block in result.blocks
            for figure in block.figures
        ],
    }


def _check(check: Any) -> dict[str, Any]:
    return {
        "key": check.key,
        "side": check.side,
        "name": check.name,
        "demand": check.demand,
        "capacity": check.capacity,
        "unit": check.unit,
        "utilisation": check.utilisation,
        "passes": check.passes,
        "advisory": check.advisory,
        "source": check.source,
    }


def _figure(figure: Any) -> dict[str, Any]:
    name = f"{figure.name}, {figure.symbol}" if figure.symbol else figure.name
    values = {"pair": figure.A} if figure.of_pair else {"a": figure.A, "b": figure.B}
    unit = {"unit": figure.unit} if figure.unit else {}
    estimated = {"estimated_for": figure.estimated} if figure.estimated else {}
    return {"name": name} | values | unit | {"source": figure.source} | estimated


def readable(value: float | str, digits: int = 4) -> str:
    """Return a figure as a person reads it."""
    if isinstance(value, str):
        return value
    if not math.isfinite(value):
        return number_text(value)
    return number_text(value, digits)


#: A life, and what follows from one, is not known better than to so many digits.
LIFE_DIGITS = 3


def rounded(value: float | str, digits: int = LIFE_DIGITS) -> str:
    """Return a figure for who reads and does not compute with it: rounded before the point too, 69 239.7 as 69 200."""
    if isinstance(value, str) or not math.isfinite(value):
        return readable(value)
    return number_text(float(f"{value:.{digits - 1}e}"))


def shown(figure: Figure, side: str) -> str:
    """Return a figure's value at one side as a person reads it; `~` leads an estimated one."""
    value = figure.A if side == "A" else figure.B
    if value is None:
        return ""
    return ("~" if side in figure.estimated else "") + readable(value, figure.digits)


NOTICE = (
    "This is a calculation by published formulas on catalogue data that may be invented or out of date. Check it "
    "against the supplier's own data and the local codes, and have a licensed engineer approve it before anything is "
    "built."
)
