"""The keys of one entry in a table of lubricants, each declared once."""

import math
from dataclasses import dataclass
from typing import Any, Literal

from engine.lubrication.lubricant import FORMS
from engine.lubrication.oil import BASES
from engine.lubrication.viscosity import ISO_VG

LONGEST_TEXT = 120


@dataclass(frozen=True)
class Key:
    """What one key is: the field of `Lubricant` that it fills, and what may stand there."""

    field: str
    kind: Literal["text", "number", "yes_no"]
    least: float = -math.inf
    greatest: float = math.inf
    choices: tuple[str, ...] = ()
    among: tuple[float, ...] = ()
    required: bool = True
    default: Any = None

    @property
    def accepted(self) -> str:
        """What may stand there, as a phrase."""
        if self.choices:
            return " or ".join(self.choices)
        if self.among:
            return "one of " + ", ".join(f"{number:g}" for number in self.among)
        if self.kind == "text":
            return f"1 to {LONGEST_TEXT} printable characters in quotes"
        return "true or false" if self.kind == "yes_no" else f"a number from {self.least:g} to {self.greatest:g}"

    def holds(self, value: object) -> bool:
        """Return whether a value of the file may stand there."""
        if self.kind == "yes_no":
            return isinstance(value, bool)
        if self.kind == "text":
            if not isinstance(value, str) or not value.isprintable() or not 0 < len(value) <= LONGEST_TEXT:
                return False
            return not self.choices or value in self.choices
        if isinstance(value, bool) or not isinstance(value, int | float):
            return False
        return self.least <= value <= self.greatest and (not self.among or value in self.among)


_COLDEST, _HOTTEST = -80.0, 350.0
KEYS = {
    "name": Key("name", "text"),
    "form": Key("form", "text", choices=FORMS),
    "base": Key("base", "text", choices=BASES),
    "iso_vg": Key("VG", "number", among=ISO_VG, required=False),
    "vi": Key("VI", "number", -100.0, 400.0, required=False),
    "nu40_mm2_s": Key("nu40", "number", 0.5, 20_000.0, required=False),
    "nu100_mm2_s": Key("nu100", "number", 0.3, 2_000.0, required=False),
    "density_15_kg_m3": Key("rho15", "number", 700.0, 1200.0),
    "ep": Key("ep", "yes_no", required=False, default=False),
    "least_degC": Key("T_least", "number", _COLDEST, _HOTTEST),
    "greatest_degC": Key("T_greatest", "number", _COLDEST, _HOTTEST),
    "nlgi": Key("nlgi", "number", among=(0, 0.5, 1, 1.5, 2, 2.5, 3), required=False),
    "thickener": Key("thickener", "text", required=False, default=""),
    "bleed": Key("bleed", "text", choices=("low", "medium", "high"), required=False, default=""),
    "note": Key("note", "text", required=False, default=""),
}
