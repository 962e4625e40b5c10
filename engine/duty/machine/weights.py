"""Masses on a shaft: what hangs on it, and what is left of its unbalance."""

from dataclasses import replace

from engine.duty import masses
from engine.duty.element import ALWAYS, SPEED, Element, Place, acting, given, made


def weight(place: Place, m: float, tilt: float = 0.0) -> Element:
    """Return the weight of a mass m [kg] on a shaft tilted by `tilt` [rad], positive where B lies lower than A.

    The angle of the place is where down is, seen along the shaft; y drawn up has down at pi.
    """
    G_r, G_a = map(float, masses.weight_forces(m, tilt))
    steps = [
        given("m", "mass", m, "kg"),
        given("tilt", "tilt of the shaft, B lower where positive", tilt, "rad"),
        made("G_r", "weight across the shaft", G_r, "N", masses.weight_forces),
        made("G_a", "weight along the shaft", G_a, "N", masses.weight_forces),
    ]
    return replace(acting("weight", place, steps, outward=G_r, axial=G_a), follows=ALWAYS)


def unbalance(place: Place, m: float, e: float, n: float) -> Element:
    """Return the centrifugal force of a mass m [kg] whose centre lies e [mm] off the axis, at n [rpm].

    It turns with the shaft, so its angle only says how it stands to other unbalances. What is made of it: see
    `engine.duty.shaft.bearing_loads`.
    """
    F = float(masses.unbalance_force(m, e, n))
    steps = [
        given("m", "mass of the rotor", m, "kg"),
        given("e", "eccentricity of the centre of mass", e, "mm"),
        given("n", "speed", n, "rpm"),
        made("F", "centrifugal force", F, "N", masses.unbalance_force),
    ]
    return replace(acting("unbalance", place, steps, outward=F), follows=SPEED, rotating=True)


def unbalance_of_grade(place: Place, m: float, G: float, n: float) -> Element:
    """Return the unbalance that a balance quality grade G [mm/s] permits a rotor of mass m [kg] at n [rpm]."""
    e = float(masses.permissible_eccentricity(G, n))
    grade = (
        given("G", "balance quality grade", G, "mm/s"),
        made("e_per", "eccentricity that the grade permits", e, "mm", masses.permissible_eccentricity),
    )
    element = unbalance(place, m, e, n)
    return replace(element, steps=(*grade, *element.steps))
