"""What may have gone wrong with whole columns: another unit, two columns swapped, a figure measured otherwise."""

import dataclasses
from collections.abc import Mapping
from dataclasses import dataclass

from engine.catalogue.intake.headers import UNITS, Place, Unit
from engine.numerics import Floats

#: Pairs of columns that are easily swapped.
_SWAPS = (("d", "D"), ("B", "C"), ("T", "B"), ("T", "C"), ("D", "T"), ("Cr", "C0r"), ("e", "Y"), ("Y", "Y0"),
          ("n_grease", "n_oil"))  # fmt: skip
_LENGTHS = ("d", "D", "T")
_LOADS = ("Cr", "C0r")
#: Units that a file is likely to hold by mistake; centimetres and metres are not among them.
_LIKELY = {"mm": ("mm", "in"), "N": ("N", "kN", "lbf", "kgf"), "kg": ("kg", "g", "lb"), "deg": ("deg", "rad")}


@dataclass(frozen=True)
class Correction:
    """One suspicion: what is wrong in words, the columns, and how their figures or places change.

    `factors` multiply the figures of `columns`; with `swapped` the two columns change places; with `mirrored` the
    load centre was measured from the cup back face.
    """

    words: str
    columns: tuple[str, ...]
    factor: float = 1.0
    unit: Unit | None = None
    swapped: bool = False
    mirrored: bool = False

    def on_numbers(self, numbers: Mapping[str, Floats]) -> dict[str, Floats]:
        """Return the columns of numbers as they are when the suspicion is true."""
        changed = dict(numbers)
        if self.swapped:
            one, other = self.columns
            changed[one], changed[other] = numbers[other], numbers[one]
        elif self.mirrored:
            changed["a"] = numbers["T"] - numbers["a"]
        else:
            for name in self.columns:
                changed[name] = numbers[name] * self.factor
        return changed

    def on_places(self, places: Mapping[str, Place]) -> dict[str, Place]:
        """Return where the columns stand and in which unit when the suspicion is true."""
        changed = dict(places)
        if self.swapped:
            one, other = self.columns
            changed[one] = dataclasses.replace(places[other], column=places[one].column)
            changed[other] = dataclasses.replace(places[one], column=places[other].column)
            return changed
        for name in self.columns:
            old = places[name]
            scaled = Unit(old.unit.spellings, old.unit.factor * self.factor, old.unit.offset)
            unit = old.unit if self.mirrored else self.unit or scaled
            changed[name] = dataclasses.replace(old, unit=unit, mirrored=old.mirrored != self.mirrored)
        return changed


def suspicions(places: Mapping[str, Place]) -> list[Correction]:
    """Return everything that may have gone wrong with these columns, the likelier first."""
    found: list[Correction] = []
    for group, every in ((_LENGTHS, "mm"), (_LOADS, "N")):
        joint = tuple(name for name, place in places.items() if place.column.unit == every)
        same = {places[name].unit.name for name in joint}
        if len(same) == 1 and set(group) <= set(joint):
            found += _other_units(joint, places)
            found += _other_units(group, places) if len(joint) > len(group) else []
    for name in places:
        found += _other_units((name,), places)
    for one, other in _SWAPS:
        if one in places and other in places:
            headers = f"{places[one].header} and {places[other].header}"
            found.append(Correction(f"the columns {headers} are swapped", (one, other), swapped=True))
    if "a" in places:
        found.append(
            Correction("a is measured from the cup back face, not from the cone back face", ("a",), mirrored=True)
        )
        found.append(Correction("a has the opposite sign", ("a",), factor=-1.0))
    if "alpha" in places:
        found.append(Correction("the included angle of the cup is given, not half of it", ("alpha",), factor=0.5))
    return found


def _other_units(names: tuple[str, ...], places: Mapping[str, Place]) -> list[Correction]:
    given = places[names[0]].unit
    likely = _LIKELY.get(places[names[0]].column.unit, ())
    return [
        Correction(f"{_called(unit)} given as {_called(given)}", names, unit.factor / given.factor, unit)
        for unit in UNITS[places[names[0]].column.unit]
        if unit.name in likely and unit.name != given.name and given.factor > 0
    ]


def _called(unit: Unit) -> str:
    return "inch" if unit.name == "in" else unit.name
