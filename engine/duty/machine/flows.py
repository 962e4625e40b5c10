"""Impellers, rams and screws on a shaft.

`towards_B` is +1 where the force pushes the shaft towards B and -1 where towards A. A closed impeller is pushed towards
its suction.
"""

from dataclasses import replace

from engine.duty import fluid
from engine.duty.element import Element, Place, acting, given, made
from engine.duty.machine.turning import Turning


def impeller_radial(place: Place, dp: float, D2: float, b2: float, q: float) -> Element:
    """Return the radial thrust of a volute pump's impeller, along the angle of the place.

    dp [MPa] is the pressure at this flow, q the flow over that of the best efficiency, D2 and b2 [mm] the impeller's
    outside diameter and width there.
    """
    F = float(fluid.impeller_radial_thrust(dp, D2, b2, q))
    steps = [
        given("dp", "pressure that the impeller makes", dp, "MPa"),
        given("D2", "outside diameter", D2, "mm"),
        given("b2", "width at the outside", b2, "mm"),
        given("q", "flow over flow at the best efficiency", q, "-"),
        made("F", "radial thrust", F, "N", fluid.impeller_radial_thrust),
    ]
    return acting("impeller, radial", place, steps, outward=F)


def impeller_axial(
    place: Place, dp: float, D_ring: float, d_shaft: float, towards_B: int, share: float = fluid.BEHIND_IMPELLER
) -> Element:
    """Return the axial thrust of a closed impeller, of wear ring diameter D_ring and shaft d_shaft [mm]."""
    _checked(towards_B)
    F = float(fluid.impeller_axial_thrust(dp, D_ring, d_shaft, share))
    steps = [
        given("dp", "pressure that the impeller makes", dp, "MPa"),
        given("D_ring", "diameter of the wear ring", D_ring, "mm"),
        given("d_shaft", "diameter of the shaft at the seal", d_shaft, "mm"),
        given("share", "of the pressure that acts behind the impeller, 0.75 is usual", share, "-"),
        made("F", "axial thrust", F, "N", fluid.impeller_axial_thrust),
    ]
    return acting("impeller, axial", place, steps, axial=towards_B * F)


def ram(place: Place, p: float, D: float, towards_B: int) -> Element:
    """Return the thrust of a pressure p [MPa] on a circle D [mm]: a ram, a piston, or the screw of an extruder."""
    _checked(towards_B)
    F = float(fluid.pressure_thrust(p, D))
    steps = [
        given("p", "pressure", p, "MPa"),
        given("D", "diameter", D, "mm"),
        made("F", "axial thrust", F, "N", fluid.pressure_thrust),
    ]
    return acting("ram or extruder screw", place, steps, axial=towards_B * F)


def screw(place: Place, turning: Turning, d_m: float, lead: float, mu: float, hand: int) -> Element:
    """Return the thrust of a driving screw of mean diameter d_m and lead [mm], friction mu and hand +1 or -1.

    A right-hand screw that turns with rotation +1 drives its nut towards A and is itself pushed towards B.
    """
    _checked(hand)
    F = float(fluid.screw_thrust(turning.T, d_m, lead, mu))
    steps = [
        *turning.steps,
        given("d_m", "mean diameter of the thread", d_m, "mm"),
        given("lead", "advance in one turn", lead, "mm"),
        given("mu", "coefficient of friction", mu, "-"),
        given("h", "right-hand (+1) or left-hand (-1)", hand, "-"),
        made("F", "axial thrust", F, "N", fluid.screw_thrust),
    ]
    return replace(acting("press screw", place, steps, axial=-turning.sense * hand * F), T=turning.sense * turning.T)


def _checked(sign: int) -> None:
    if sign not in (1, -1):
        raise ValueError(f"the side is {sign!r}, accepted are 1 and -1")
