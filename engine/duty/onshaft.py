"""What sits on the shaft to the forces of one load case: each kind by the module that knows it."""

import math
from collections.abc import Callable
from dataclasses import replace

from engine.answers.mounted import Mounted, Part
from engine.answers.running import Case
from engine.duty import drives
from engine.duty.element import LOAD, Element, Place, Step
from engine.duty.machine import flows, gears, pulls, weights
from engine.duty.machine.turning import Turning, by_power, by_torque

#: What frees the kinds that friction can lock, so that their forces are unknown.
UNLOCKS = {
    "worm": "a larger lead angle of the worm or a lower coefficient of friction",
    "worm_wheel": "a larger lead angle of the worm or a lower coefficient of friction",
    "screw": "a smaller lead, a larger diameter or a lower coefficient of friction",
}
#: Where down is, seen along the shaft: plane y points up.
DOWN = math.pi


def elements(mounted: Mounted, case: Case) -> tuple[Element, ...]:
    """Return the forces of everything on the shaft in a case, its own forces last.

    The load level of the case multiplies what follows the load; a negative one lets torque run the other way.
    """
    return tuple(element for _, element in numbered(mounted, case))


def numbered(mounted: Mounted, case: Case) -> tuple[tuple[int, Element], ...]:
    """Return the same, each with the number of its element among the answers; 0 for the case's own forces."""
    found = [(part.number, _scaled(element, case)) for part in mounted.parts for element in _of(part, mounted, case)]
    if case.F_y or case.F_z or case.K_a:
        found.append((0, _own(case)))
    return tuple(found)


def _own(case: Case) -> Element:
    """Return the forces stated in the case itself; they carry its level already, and are unfolded where it has one."""
    forces = (("F_y", "force in plane y", case.F_y), ("F_z", "force in plane z", case.F_z),
              ("F_a", "force along the shaft", case.K_a))  # fmt: skip
    steps = [Step("k", "load level times application factor", case.level, "-")]
    steps += [Step(symbol, f"{name}, as stated", force / case.level, "N") for symbol, name, force in forces if force]
    return Element(
        "forces of the case", case.position, F_y=case.F_y, F_z=case.F_z, F_a=case.K_a,
        steps=tuple(steps) if case.level != 1.0 else (),
    )  # fmt: skip


def _scaled(element: Element, case: Case) -> Element:
    """Return an element at the level of its case; weight and unbalance do not follow the load."""
    level = abs(case.level)
    if element.follows != LOAD or level == 1.0:
        return element
    step = Step("k", "load level times application factor", level, "-")
    return replace(element.scaled(level), steps=(*element.steps, step))


def _of(part: Part, mounted: Mounted, case: Case) -> list[Element]:
    place = Place(part.z, part.of("angle") or 0.0)
    made = _MAKERS[part.kind](part, place, mounted, case)
    return [replace(element, name=part.name) for element in made]


def _turning(part: Part, mounted: Mounted, case: Case) -> Turning:
    """Return what the part transmits; load that drives the machine turns driven parts into driving ones."""
    rotation = int(mounted.rotation * case.sense)
    driving = (part.of("flow") == "out") != (case.level < 0)
    if part.of("torque") is not None:
        return by_torque(part.of("torque"), rotation, driving)
    return by_power(part.of("power"), case.n, rotation, driving)


def _hand(part: Part) -> int:
    return gears.RIGHT if part.of("hand") == "right" else gears.LEFT


def _towards(side: str) -> int:
    return 1 if side == "B" else -1


def _force(part: Part, place: Place, mounted: Mounted, case: Case) -> list[Element]:  # noqa: ARG001
    sign = math.copysign(1.0, case.level)
    F, Fa, M = (sign * part.of(name) for name in ("force", "axial", "moment"))
    return [pulls.plain(place, F, Fa, M, (part.of("diameter") or 0.0) / 2)]


def _wheel(part: Part, place: Place, mounted: Mounted, case: Case) -> list[Element]:  # noqa: ARG001
    sign = math.copysign(1.0, case.level)
    load, side = sign * part.of("force"), sign * part.of("axial")
    return [pulls.wheel(place, load, side, part.of("diameter") or 0.0, part.of("offset"))]


def _pull(part: Part, place: Place, mounted: Mounted, case: Case) -> list[Element]:
    turning, d = _turning(part, mounted, case), part.of("diameter")
    if part.of("tension_ratio") is not None:
        return [pulls.pull_by_ratio(place, turning, d, part.of("tension_ratio"), part.of("wrap_angle"))]
    return [pulls.pull_by_factor(place, turning, d, part.kind, part.of("pull_factor"))]


def _weight(part: Part, place: Place, mounted: Mounted, case: Case) -> list[Element]:  # noqa: ARG001
    return [weights.weight(Place(place.z, DOWN), part.of("mass"), mounted.tilt)]


def _unbalance(part: Part, place: Place, mounted: Mounted, case: Case) -> list[Element]:  # noqa: ARG001
    if case.n <= 0:
        return []
    if part.of("eccentricity") is not None:
        return [weights.unbalance(place, part.of("mass"), part.of("eccentricity"), case.n)]
    return [weights.unbalance_of_grade(place, part.of("mass"), part.of("balance_grade"), case.n)]


def _impeller(part: Part, place: Place, mounted: Mounted, case: Case) -> list[Element]:  # noqa: ARG001
    dp, D2 = part.of("pressure"), part.of("diameter")
    found = [flows.impeller_radial(place, dp, D2, part.of("width"), part.of("flow_ratio"))]
    if part.of("ring_diameter"):
        ring, seal, side = part.of("ring_diameter"), part.of("seal_diameter"), _towards(part.of("thrust"))
        found.append(flows.impeller_axial(place, dp, ring, seal, side))
    return found


def _ram(part: Part, place: Place, mounted: Mounted, case: Case) -> list[Element]:  # noqa: ARG001
    return [flows.ram(place, part.of("pressure"), part.of("diameter"), _towards(part.of("thrust")))]


def _screw(part: Part, place: Place, mounted: Mounted, case: Case) -> list[Element]:
    turning = _turning(part, mounted, case)
    return [flows.screw(place, turning, part.of("diameter"), part.of("lead"), part.of("friction"), _hand(part))]


def _gear(part: Part, place: Place, mounted: Mounted, case: Case) -> list[Element]:
    turning, d, alpha_n = _turning(part, mounted, case), part.of("diameter"), part.of("pressure_angle")
    if part.kind == "spur":
        return [gears.spur(place, turning, d, alpha_n)]
    if part.kind == "helical":
        return [gears.helical(place, turning, d, alpha_n, part.of("helix_angle"), _hand(part))]
    if part.kind in {"worm", "worm_wheel"}:
        make = gears.worm if part.kind == "worm" else gears.worm_wheel
        return [make(place, turning, d, alpha_n, part.of("lead_angle"), _hand(part), part.of("friction"))]
    cone, apex = part.of("cone_angle"), _towards(part.of("apex"))
    if part.kind == "straight_bevel":
        return [gears.straight_bevel(place, turning, d, alpha_n, cone, apex)]
    return [gears.spiral_bevel(place, turning, d, alpha_n, part.of("helix_angle"), cone, _hand(part), apex)]


_GEARS = ("spur", "helical", "straight_bevel", "spiral_bevel", "worm", "worm_wheel")
_MAKERS: dict[str, Callable[[Part, Place, Mounted, Case], list[Element]]] = {
    "force": _force,
    "wheel": _wheel,
    "weight": _weight,
    "unbalance": _unbalance,
    "impeller": _impeller,
    "ram": _ram,
    "screw": _screw,
    **dict.fromkeys(drives.KINDS, _pull),
    **dict.fromkeys(_GEARS, _gear),
}
