"""Forces at one place of a shaft, and every step that made them. Directions, stated here once.

Along the shaft z runs from A's reference plane towards B. Across it forces have a part F_y in plane y and F_z in plane
z, at right angles. The angle around the shaft grows from y towards z, which seen from A, looking towards B, is
clockwise: with y drawn up, plane z points to the right. A shaft has rotation +1 where it turns in the sense of the
growing angle, that is clockwise seen from A, and -1 otherwise; +1 is how a right-hand screw turns that goes towards B.

F_a is positive towards B. A moment M_y is positive where it raises the load on B in the sense of F_y, as a force F_y
does that stands further towards B; M_z likewise. So a force F_a at radius r and angle phi makes M_y = -r cos(phi) F_a
and M_z = -r sin(phi) F_a. A torque T is positive where it turns the shaft in the sense of rotation +1.
"""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Any

from engine.sources import citation_of

#: How a force follows its case: with the load; not at all, as weight does; or with the square of the speed.
LOAD, ALWAYS, SPEED = "load", "always", "speed"


@dataclass(frozen=True)
class Step:
    """One line of an unfolded calculation: what a figure is, its value, and the formula and source that made it.

    A figure that was given has no formula and no source.
    """

    symbol: str
    name: str
    value: float
    unit: str
    formula: str = ""
    source: str = ""


@dataclass(frozen=True)
class Place:
    """Where on the shaft: z [mm] along it and angle [rad] around it, from y towards z."""

    z: float
    angle: float = 0.0


@dataclass(frozen=True)
class Element:
    """Forces [N] and moments [N mm] on the shaft at z [mm]; the signs are those of this module's text.

    `follows` says how they grow when the case is scaled: LOAD, ALWAYS or SPEED. `rotating` forces turn with the shaft;
    their parts are those at the moment when the shaft's own mark of angle 0 lies at y. `steps` is how they came about.
    """

    name: str
    z: float
    F_y: float = 0.0
    F_z: float = 0.0
    F_a: float = 0.0
    M_y: float = 0.0
    M_z: float = 0.0
    T: float = 0.0
    follows: str = LOAD
    rotating: bool = False
    steps: tuple[Step, ...] = ()

    def scaled(self, load: float, speed: float = 1.0) -> "Element":
        """Return the element of a case with `load` times the load and `speed` times the speed.

        The steps stay those of the case that was scaled.
        """
        if load < 0 or speed < 0:
            raise ValueError("a reversed load or speed is a case of its own: teeth and belts change their sides")
        factor = {LOAD: load, ALWAYS: 1.0, SPEED: speed**2}[self.follows]
        parts = ("F_y", "F_z", "F_a", "M_y", "M_z", "T")
        return replace(self, **{part: factor * getattr(self, part) for part in parts})

    @property
    def known(self) -> bool:
        """Whether every force is a number: False where an input lies outside what a formula is valid for."""
        return all(map(math.isfinite, (self.z, self.F_y, self.F_z, self.F_a, self.M_y, self.M_z, self.T)))


def given(symbol: str, name: str, value: float, unit: str) -> Step:
    """Return the step of a figure that was given."""
    return Step(symbol, name, float(value), unit)


def made(symbol: str, name: str, value: Any, unit: str, of: Callable[..., object]) -> Step:
    """Return the step of a figure that a formula of the engine made, with the formula as its docstring prints it."""
    return Step(symbol, name, float(value), unit, _printed(symbol, of), str(citation_of(of)))


def _printed(symbol: str, of: Callable[..., object]) -> str:
    whole = " ".join((of.__doc__ or "").split("\n\n")[1].split())
    wanted = [part for part in whole.split("; ") if part.startswith(f"{symbol} =")]
    return wanted[0] if wanted else whole


def acting(
    name: str,
    place: Place,
    steps: Sequence[Step],
    tangential: float = 0.0,
    outward: float = 0.0,
    axial: float = 0.0,
    r: float = 0.0,
) -> Element:
    """Return the element of a force at radius r [mm] and at the angle of its place, with its last steps added.

    The force [N] is in three parts: `tangential` in the sense of the growing angle, `outward` away from the shaft,
    `axial` towards B.
    """
    c, s = _circle(place.angle)
    tangential, outward, axial = float(tangential), float(outward), float(axial)
    element = Element(
        name=name,
        z=place.z,
        F_y=outward * c - tangential * s,
        F_z=outward * s + tangential * c,
        F_a=axial,
        # 0.0 -: no negative zero where there is no axial force
        M_y=0.0 - r * c * axial,
        M_z=0.0 - r * s * axial,
        T=tangential * r,
    )
    parts = [
        _signed("F_t", "tangential, in the sense of the growing angle", tangential, "N", "what is tangential above"),
        _signed("F_o", "outward, away from the shaft", outward, "N", "what is radial above, outward positive"),
        given("phi", "angle around the shaft, from y towards z", place.angle, "rad"),
        _signed("F_y", "force in plane y", element.F_y, "N", "F_o cos(phi) - F_t sin(phi)"),
        _signed("F_z", "force in plane z", element.F_z, "N", "F_o sin(phi) + F_t cos(phi)"),
    ]
    if axial:
        name = "force along the shaft, positive towards B"
        parts.append(_signed("F_a", name, axial, "N", "what is axial above, towards B positive"))
    if axial and r:
        parts += [
            given("r", "radius at which it acts", r, "mm"),
            _signed("M_y", "moment in plane y", element.M_y, "N mm", "-r cos(phi) F_a"),
            _signed("M_z", "moment in plane z", element.M_z, "N mm", "-r sin(phi) F_a"),
        ]
    return replace(element, steps=(*steps, *parts))


def _signed(symbol: str, name: str, value: float, unit: str, formula: str) -> Step:
    return Step(symbol, name, value, unit, f"{symbol} = {formula}", "Statics, parts of a force on a shaft")


def _circle(angle: float) -> tuple[float, float]:
    """Return cosine and sine; exact at whole quarter turns, so that a force along an axis has no part across it."""
    quarters = angle / (math.pi / 2)
    if math.isfinite(quarters) and abs(quarters - round(quarters)) < 1e-12:
        return ((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0))[round(quarters) % 4]
    # cos of an infinite angle would be an error, not a NaN
    return (math.cos(angle), math.sin(angle)) if math.isfinite(angle) else (math.nan, math.nan)
