"""Gears on a shaft: spur, helical, straight and spiral bevel, worm and worm wheel.

The angle of the place is where the mate meshes. With s the sense of the tangential force on the gear (+1 in that of
the growing angle, see `Turning.sense`), h = +1 for a right-hand helix and -1 for a left-hand one:

- The flank of a tooth with helix h is normal to the direction (along the circle: 1, towards B: -h tan(beta)), so a
  tangential force s Ft comes with an axial force -s h Ft tan(beta). Reversing the rotation reverses both.
- On a cone whose apex lies towards B (apex = +1) or A (-1) the same force runs along the cone instead, and pushes the
  gear away from its apex where sigma = s h apex is +1; a cone of no angle is the helical gear again. A spiral is
  right-hand where, looked at from the apex, its outer half leans clockwise.
- A worm is a helical gear whose flanks also rub; its wheel has the same hand.

Not covered: internal teeth on this shaft, hypoid offset, and worms with two enveloping throats; the question for the
kind says so too (`engine.answers.chapters.element.NOT_COVERED`).
"""

from collections.abc import Sequence

from engine.duty import mesh
from engine.duty.element import Element, Place, Step, acting, given, made
from engine.duty.machine.turning import Turning

#: Hand of a helix or spiral.
RIGHT, LEFT = 1, -1


def spur(place: Place, turning: Turning, d: float, alpha_n: float) -> Element:
    """Return the forces of a spur gear of pitch diameter d [mm] and pressure angle alpha_n [rad]."""
    Ft, steps = _tangential(turning, d)
    Fr = float(mesh.spur_radial_force(Ft, alpha_n))
    steps += [_pressure_angle(alpha_n), made("Fr", "radial force", Fr, "N", mesh.spur_radial_force)]
    return acting("spur gear", place, steps, tangential=turning.sense * Ft, outward=-Fr, r=d / 2)


def helical(place: Place, turning: Turning, d: float, alpha_n: float, beta: float, hand: int) -> Element:
    """Return the forces of a helical gear with helix angle beta [rad] and hand RIGHT or LEFT."""
    _checked(hand=hand)
    Ft, steps = _tangential(turning, d)
    Fr, Fa = map(float, mesh.helical_forces(Ft, alpha_n, beta))
    steps += [_pressure_angle(alpha_n), given("beta", "helix angle", beta, "rad"), _hand(hand)]
    steps += _radial_and_axial(Fr, Fa, mesh.helical_forces)
    s = turning.sense
    return acting("helical gear", place, steps, tangential=s * Ft, outward=-Fr, axial=-s * hand * Fa, r=d / 2)


def straight_bevel(place: Place, turning: Turning, d_m: float, alpha_n: float, delta: float, apex: int) -> Element:
    """Return the forces of a straight bevel gear of mean diameter d_m [mm] and pitch cone angle delta [rad].

    `apex` is +1 where the apex of the cone lies towards B, -1 where towards A.
    """
    _checked(apex=apex)
    Ft, steps = _tangential(turning, d_m)
    Fr, Fa = map(float, mesh.straight_bevel_forces(Ft, alpha_n, delta))
    steps += [_pressure_angle(alpha_n), given("delta", "pitch cone angle", delta, "rad")]
    steps += _radial_and_axial(Fr, Fa, mesh.straight_bevel_forces, _away_from(apex))
    s = turning.sense
    return acting("straight bevel gear", place, steps, tangential=s * Ft, outward=-Fr, axial=-apex * Fa, r=d_m / 2)


def spiral_bevel(
    place: Place, turning: Turning, d_m: float, alpha_n: float, beta: float, delta: float, hand: int, apex: int
) -> Element:
    """Return the forces of a spiral bevel gear with spiral angle beta [rad]; the rest is as for the straight one."""
    _checked(hand=hand, apex=apex)
    Ft, steps = _tangential(turning, d_m)
    sigma = turning.sense * hand * apex
    Fr, Fa = map(float, mesh.spiral_bevel_forces(Ft, alpha_n, beta, delta, sigma))
    steps += [
        _pressure_angle(alpha_n),
        given("beta", "spiral angle", beta, "rad"),
        _hand(hand),
        given("delta", "pitch cone angle", delta, "rad"),
        given("sigma", "the spiral pushes away from the apex (+1) or towards it (-1)", sigma, "-"),
    ]
    steps += _radial_and_axial(Fr, Fa, mesh.spiral_bevel_forces, _away_from(apex))
    s = turning.sense
    return acting("spiral bevel gear", place, steps, tangential=s * Ft, outward=-Fr, axial=-apex * Fa, r=d_m / 2)


def worm(place: Place, turning: Turning, d: float, alpha_n: float, gamma_m: float, hand: int, mu: float) -> Element:
    """Return the forces of a worm of pitch diameter d [mm], lead angle gamma_m [rad] and friction mu.

    Where the worm is driven by its wheel, friction acts the other way; a worm that friction locks has no forces that
    are known.
    """
    _checked(hand=hand)
    Ft, steps = _tangential(turning, d)
    signed = mu if turning.driving else -mu
    Fr, Fa = map(float, mesh.worm_forces(Ft, alpha_n, gamma_m, signed))
    steps += [*_worm_steps(alpha_n, gamma_m, hand, signed), *_radial_and_axial(Fr, Fa, mesh.worm_forces)]
    s = turning.sense
    return acting("worm", place, steps, tangential=s * Ft, outward=-Fr, axial=-s * hand * Fa, r=d / 2)


def worm_wheel(
    place: Place, turning: Turning, d: float, alpha_n: float, gamma_m: float, hand: int, mu: float
) -> Element:
    """Return the forces of a worm wheel of pitch diameter d [mm]; lead angle, hand and friction are the worm's."""
    _checked(hand=hand)
    Ft, steps = _tangential(turning, d)
    signed = -mu if turning.driving else mu
    Fr, Fa = map(float, mesh.worm_wheel_forces(Ft, alpha_n, gamma_m, signed))
    steps += [*_worm_steps(alpha_n, gamma_m, hand, signed), *_radial_and_axial(Fr, Fa, mesh.worm_wheel_forces)]
    s = turning.sense
    return acting("worm wheel", place, steps, tangential=s * Ft, outward=-Fr, axial=-s * hand * Fa, r=d / 2)


def _checked(**signs: int) -> None:
    for name, sign in signs.items():
        if sign not in (1, -1):
            raise ValueError(f"{name} is {sign!r}, accepted are 1 and -1")


def _tangential(turning: Turning, d: float) -> tuple[float, list[Step]]:
    Ft = float(mesh.tangential_force(turning.T, d))
    diameter = given("d", "pitch diameter", d, "mm")
    return Ft, [*turning.steps, diameter, made("Ft", "tangential force", Ft, "N", mesh.tangential_force)]


def _pressure_angle(alpha_n: float) -> Step:
    return given("alpha_n", "pressure angle", alpha_n, "rad")


def _hand(hand: int) -> Step:
    return given("h", "right-hand (+1) or left-hand (-1)", hand, "-")


def _away_from(apex: int) -> str:
    return f", away from the apex, which lies towards {'B' if apex > 0 else 'A'}"


def _radial_and_axial(Fr: float, Fa: float, of: object, where: str = "") -> Sequence[Step]:
    assert callable(of)
    return made("Fr", "radial force, towards the axis", Fr, "N", of), made("Fa", f"axial force{where}", Fa, "N", of)


def _worm_steps(alpha_n: float, gamma_m: float, hand: int, mu: float) -> Sequence[Step]:
    return (
        _pressure_angle(alpha_n),
        given("gamma_m", "lead angle of the worm", gamma_m, "rad"),
        _hand(hand),
        given("mu", "coefficient of friction, negative where the wheel drives", mu, "-"),
    )
