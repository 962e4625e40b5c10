"""One entry in a table of lubricants, whether it stands in a file or in a record: checked, and made a lubricant.

Nothing here loads numpy unless an ISO VG with an index must become viscosities, so that a record can be read without.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from engine.catalogue.lubricants.keys import KEYS, Key
from engine.errors import nearest, plain
from engine.lubrication.lubricant import Lubricant


@dataclass(frozen=True)
class Fault:
    """What is wrong with one key of an entry ("" for the entry as a whole), and what is accepted."""

    key: str
    wrong: str
    accepted: str
    nearest: str = ""


def lubricant_of(table: Mapping[str, Any]) -> tuple[Lubricant | None, list[Fault]]:
    """Return the lubricant that an entry states, or None and everything that is wrong with it."""
    faults = [
        Fault(key, "is not known here", ", ".join(KEYS), nearest(key, list(KEYS))) for key in table if key not in KEYS
    ]
    values = {name: _value(name, key, table, faults) for name, key in KEYS.items()}
    if not faults:
        _viscosities(values, faults)
    if not faults:
        _together(values, faults)
    return None if faults else Lubricant(**{key.field: values[name] for name, key in KEYS.items()}), faults


def _value(name: str, key: Key, table: Mapping[str, Any], faults: list[Fault]) -> Any:
    value = table.get(name)
    if value is None:
        if key.required:
            faults.append(Fault(name, "is missing", key.accepted))
        return key.default
    if not key.holds(value):
        shown = str(value).lower() if isinstance(value, bool) else str(value)
        close = nearest(value, key.choices) if isinstance(value, str) else ""
        faults.append(Fault(name, f'"{plain(shown)}" cannot stand here', key.accepted, close))
        return key.default
    return float(value) if key.kind == "number" else value


def _viscosities(values: dict[str, Any], faults: list[Fault]) -> None:
    """Fill in the viscosities that a grade and an index stand for."""
    given = [values[name] is not None for name in ("iso_vg", "vi", "nu40_mm2_s", "nu100_mm2_s")]
    if given == [True, True, False, False]:
        from engine.lubrication.viscosity import nu40_of_grade
        from engine.lubrication.viscosity_index import nu100_of_index

        values["nu40_mm2_s"] = float(nu40_of_grade(values["iso_vg"]))
        values["nu100_mm2_s"] = float(nu100_of_index(values["nu40_mm2_s"], values["vi"]))
        if math.isnan(values["nu100_mm2_s"]):
            wrong = "no viscosity at 100 degC goes with this grade and index"
            faults.append(Fault("vi", wrong, "nu40_mm2_s and nu100_mm2_s"))
    elif given[2:] != [True, True] or given[:2] != [False, False]:
        faults.append(Fault("", "the viscosity is not stated once", "iso_vg and vi, or nu40_mm2_s and nu100_mm2_s"))


def _together(values: dict[str, Any], faults: list[Fault]) -> None:
    """Note figures that contradict each other."""
    if values["nu100_mm2_s"] >= values["nu40_mm2_s"]:
        faults.append(Fault("nu100_mm2_s", "is not below the viscosity at 40 degC", "an oil that thins as it warms"))
    if values["least_degC"] >= values["greatest_degC"]:
        faults.append(Fault("least_degC", "is not below the greatest temperature", "the colder of both"))
    for name in ("nlgi", "thickener", "bleed"):
        stated = values[name] not in (None, "")
        if values["form"] == "oil" and stated:
            faults.append(Fault(name, "is stated of an oil", "nothing, or form = grease"))
        if values["form"] == "grease" and not stated and name != "bleed":
            faults.append(Fault(name, "is missing", KEYS[name].accepted))
