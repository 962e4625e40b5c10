"""The keys of one entry in a table of lubricants, each declared once."""

import math
from dataclasses import dataclass
from typing import Any, Literal

from engine.lubrication.lubricant import BASES, FORMS, ISO_VG

LONGEST_TEXT = 120


@dataclass(frozen=True)
class Key:
    """What one key is: the field of `Lubricant` that it fills, what it means, and what may stand there."""

    field: str
    kind: Literal["text", "number", "yes_no"]
    means: str
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
_INDEX = "viscosity index by ASTM D2270; it goes with iso_vg"
KEYS = {
    "name": Key("name", "text", "what it is called and chosen by, no two alike"),
    "form": Key("form", "text", "an oil, or a grease", choices=FORMS),
    "base": Key("base", "text", "kind of the base oil", choices=BASES),
    "iso_vg": Key("VG", "number", "ISO VG of the oil; it goes with vi", among=ISO_VG, required=False),
    "vi": Key("VI", "number", _INDEX, -100.0, 400.0, required=False),
    "nu40_mm2_s": Key(
        "nu40", "number", "viscosity at 40 degC, in place of iso_vg and vi", 0.5, 20_000.0, required=False
    ),
    "nu100_mm2_s": Key("nu100", "number", "viscosity at 100 degC, with nu40_mm2_s", 0.3, 2_000.0, required=False),
    "density_15_kg_m3": Key("rho15", "number", "density at 15 degC", 700.0, 1200.0),
    "ep": Key("ep", "yes_no", "whether it has EP additives", required=False, default=False),
    "least_degC": Key("T_least", "number", "least temperature in lasting service", _COLDEST, _HOTTEST),
    "greatest_degC": Key("T_greatest", "number", "greatest temperature in lasting service", _COLDEST, _HOTTEST),
    "nlgi": Key("nlgi", "number", "NLGI number; of greases", among=(0, 0.5, 1, 1.5, 2, 2.5, 3), required=False),
    "thickener": Key("thickener", "text", "soap or other thickener; of greases", required=False, default=""),
    "bleed": Key(
        "bleed", "text", "how much base oil it bleeds; of greases", choices=("low", "medium", "high"),
        required=False, default="",
    ),
    "note": Key("note", "text", "what else is worth knowing", required=False, default=""),
}  # fmt: skip
