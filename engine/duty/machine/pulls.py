"""Belts, chains and wheels whose load is known as a force: pulleys, sheaves, sprockets, rope drums.

The angle of the place is the direction in which the pull points: from this shaft to the other one.
"""

from dataclasses import replace

from engine.duty import drives, mesh
from engine.duty.element import Element, Place, Step, acting, given, made
from engine.duty.machine.turning import Turning


def pull_by_factor(place: Place, turning: Turning, d: float, kind: str, k: float | None = None) -> Element:
    """Return the pull of a belt or chain on its pulley of diameter d [mm], by the pull factor of its kind or by k.

    `kind` is one of `drives.KINDS`.
    """
    if kind not in drives.PULL_FACTORS:
        raise ValueError(f"{kind!r} is no kind of drive, accepted are {', '.join(drives.KINDS)}")
    least, greatest, usual = drives.PULL_FACTORS[kind]
    Ft, steps = _transmitted(turning, d)
    factor = usual if k is None else k
    F = float(drives.pull_by_factor(Ft, factor))
    steps += [
        given("k", f"pull factor, {least:g} to {greatest:g} is usual", factor, "-"),
        made("F", "pull on the shaft", F, "N", drives.pull_by_factor),
    ]
    element = acting(kind.replace("_", " "), place, steps, outward=F)
    return replace(element, T=turning.sense * turning.T)


def pull_by_ratio(place: Place, turning: Turning, d: float, ratio: float, theta: float) -> Element:
    """Return the pull of a belt whose strands have a ratio of tensions, with theta [rad] the angle of wrap.

    The strand that runs onto a driving pulley, or off a driven one, is the tight one; it leans the pull to its side.
    """
    Ft, steps = _transmitted(turning, d)
    T1, T2 = map(float, drives.strand_tensions(Ft, ratio))
    F_c, F_x = map(float, drives.pull_of_strands(T1, T2, theta))
    steps += [
        given("ratio", "tension of the tight strand over that of the slack one", ratio, "-"),
        given("theta", "angle of wrap", theta, "rad"),
        made("T1", "tight strand", T1, "N", drives.strand_tensions),
        made("T2", "slack strand", T2, "N", drives.strand_tensions),
        made("F_c", "pull along the line of centres", F_c, "N", drives.pull_of_strands),
        made("F_x", "pull across it", F_x, "N", drives.pull_of_strands),
    ]
    # The strand that runs onto a pulley touches it a quarter turn ahead of the line of centres in the sense of
    # rotation, and leans to that side where the pulley is the smaller one. It is the tight one of a driver: -sense.
    element = acting("belt", place, steps, outward=F_c, tangential=-turning.sense * F_x)
    return replace(element, T=turning.sense * turning.T)


def wheel(place: Place, F: float, Fa: float = 0.0, d: float = 0.0, offset: float = 0.0) -> Element:
    """Return the load of a wheel or sheave that sits off the middle of its hub.

    F [N] presses the wheel towards its axis at the angle of the place (it points away from the shaft where negative, as
    a rope pulls), Fa [N] is a side force there, at the diameter d [mm], positive towards B. `offset` [mm] is how far
    the plane of the wheel lies from the hub at z, positive towards B.
    """
    steps = [
        given("F", "load of the wheel, towards its axis", F, "N"),
        given("x", "offset of the wheel from its hub, positive towards B", offset, "mm"),
    ]
    element = acting("wheel", place, steps, outward=-F, axial=Fa, r=d / 2)
    return _with_moments(element, (offset * element.F_y, offset * element.F_z), "x F") if offset else element


def plain(place: Place, F: float, Fa: float = 0.0, M: float = 0.0, r: float = 0.0) -> Element:
    """Return a plain force F [N] along the angle of the place, Fa [N] towards B at radius r [mm] and that angle.

    M [N mm] is a moment in the plane of that angle, positive where it raises the load on B in the sense of F.
    """
    element = acting("force", place, [given("F", "force", F, "N")], outward=F, axial=Fa, r=r)
    if not M:
        return element
    # a moment is resolved as a force at the same angle is
    parts = acting("moment", place, [], outward=M)
    whole = replace(element, steps=(*element.steps, given("M", "moment in the plane of the angle", M, "N mm")))
    return _with_moments(whole, (parts.F_y, parts.F_z), "M along phi")


def _with_moments(element: Element, added: tuple[float, float], formula: str) -> Element:
    """Return the element with moments in plane y and z added, and the last word on both in its steps."""
    M_y, M_z = element.M_y + added[0], element.M_z + added[1]
    told = [
        Step(symbol, f"whole moment in plane {symbol[-1]}", whole, "N mm",
             f"{symbol} = {formula}, plane {symbol[-1]}, and what the axial force makes", "Statics, sum of moments")
        for symbol, whole in (("M_y", M_y), ("M_z", M_z))
    ]  # fmt: skip
    return replace(element, M_y=M_y, M_z=M_z, steps=(*element.steps, *told))


def _transmitted(turning: Turning, d: float) -> tuple[float, list[Step]]:
    Ft = float(mesh.tangential_force(turning.T, d))
    diameter = given("d", "pitch diameter", d, "mm")
    return Ft, [*turning.steps, diameter, made("Ft", "force transmitted", Ft, "N", mesh.tangential_force)]
