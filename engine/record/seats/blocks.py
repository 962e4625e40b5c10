"""Figures of the seats: limits with their twins, interference, pressure and tension, raceways, mounting, creep."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np

from engine.checks import fits, holding
from engine.checks.every import Evaluated
from engine.figures import Block, Figure
from engine.numerics import Floats
from engine.operating import Conditions
from engine.record.loads.origin import origin
from engine.record.seats import form
from engine.record.seats.fit import Fit
from engine.seat import creep, interference, iso286, iso492, iso578, limits, mounting, pressure, recommend, seating
from engine.seat.seating import GREATEST, LEAST, MEAN, PROBABLE_GREATEST, PROBABLE_LEAST
from engine.sources import COMMON_PRACTICE, Citation, citation_of

_UM = fits.UM
_ENDS = {
    LEAST: "least", PROBABLE_LEAST: "probable least", MEAN: "mean", PROBABLE_GREATEST: "probable greatest",
    GREATEST: "greatest",
}  # fmt: skip
Value = float | str


def blocks(evaluated: Evaluated, conditions: Conditions) -> list[Block]:
    """Return the figures of cones and cups on both sides, and how they hold in each case."""
    found = []
    for ring, title in (("cone", "Cone on the shaft"), ("cup", "Cup in the housing")):
        pair = Fit.both(ring, evaluated, conditions)
        figures = [*_limits(pair), *_interference(pair), *_stress(pair), *_mounting(pair)]
        if ring == "cone" and evaluated.states is not None:
            figures.insert(0, _level(evaluated, conditions))
        found.append(Block(f"fit_{ring}", title, tuple(figures)))
        if evaluated.loads is not None and pair[0].load != recommend.POINT:
            found.append(_holding(pair, evaluated))
    return found


def level_of(evaluated: Evaluated, at: int, conditions: Conditions) -> tuple[int, float]:
    """Return the load level that the worst case makes on one bearing, as its place in LEVELS, and that P/C."""
    assert evaluated.states is not None and evaluated.bearings is not None
    P, C = evaluated.states[at].P[0], float(evaluated.bearings[at].C[0, 0])
    running = conditions.cases.running
    worst = float(P[running].max()) if running.any() else 0.0
    return int(evaluated.states[at].level[0]), worst / C


def _level(evaluated: Evaluated, conditions: Conditions) -> Figure:
    found = [recommend.LEVELS[level_of(evaluated, at, conditions)[0]] for at in (0, 1)]
    return Figure(
        "level", "", "load level by P/C of the worst case", "", str(citation_of(recommend.load_level)), found[0],
        found[1],
    )  # fmt: skip


def _row(
    pair: tuple[Fit, Fit], key: str, name: str, unit: str, source: object, of: Callable[[Fit], Value | Floats]
) -> Figure:
    """Return a figure of both sides; lengths handed over in mm are shown in um where that is the unit."""
    values: list[Value] = []
    for fit in pair:
        value = of(fit)
        if isinstance(value, str):
            values.append(value)
            continue
        number = float(np.ravel(value)[0])
        # limits are whole micrometres; what binary fractions of a millimetre leave over says nothing
        values.append(round(number * _UM, 6) + 0.0 if unit == "um" else number)
    return Figure(f"{pair[0].ring}_{key}", "", name, unit, str(source), values[0], values[1])


def _limits(pair: tuple[Fit, Fit]) -> list[Figure]:
    cone = pair[0].is_cone
    seat, ring = ("shaft", "bore") if cone else ("housing", "outside diameter")
    by_class = citation_of(iso286.shaft_limits if cone else iso286.hole_limits)
    twin = citation_of(limits.twin_shaft_limits if cone else limits.twin_housing_limits)
    classes = citation_of(recommend.shaft_class if cone else recommend.housing_class)
    metric = citation_of(iso492.bore_limits if cone else iso492.outside_limits)
    inch = citation_of(iso578.bore_limits if cone else iso578.outside_limits)
    from_plus = any(fit.from_plus for fit in pair)
    of_ring = " or ".join({str(inch if fit.from_plus else metric): None for fit in pair})
    of_seat = " or ".join({str(twin if fit.from_plus else by_class): None for fit in pair})

    def seat_limits(fit: Fit) -> limits.SeatLimits:
        return fit.seats.shaft if cone else fit.seats.housing

    of_ring_and_load = origin(pair[0].conditions.resolved, "speed.rotating_ring", "speed.load_direction")
    turning = f"derived from which ring turns and how the load lies ({of_ring_and_load})"
    figures = [
        _row(pair, "load", "how the load goes round it", "", turning, lambda fit: fit.load),
        _row(pair, "class", f"class of the {seat}", "", by_class, lambda fit: fit.class_name),
        _row(pair, "chosen", "where the class comes from", "", classes, lambda fit: fit.chosen),
        _row(pair, "ring_upper", f"{ring}, upper deviation", "um", of_ring, lambda fit: fit.ring_limits()[0]),
        _row(pair, "ring_lower", f"{ring}, lower deviation", "um", of_ring, lambda fit: fit.ring_limits()[1]),
        _row(pair, "seat_upper", f"{seat} to make, upper limit", "um", of_seat, lambda fit: seat_limits(fit).upper),
        _row(pair, "seat_lower", f"{seat} to make, lower limit", "um", of_seat, lambda fit: seat_limits(fit).lower),
    ]
    if from_plus:
        figures += _mistake(pair, seat, (by_class, twin))
    return [*figures, *form.figures(pair)]


def _mistake(pair: tuple[Fit, Fit], seat: str, sources: tuple[Citation, Citation]) -> list[Figure]:
    """Return the limits of the metric case beside the twin's, and what using them would do to the fit."""
    by_class, twin = sources

    def on_inch(of: Callable[[Fit], Floats]) -> Callable[[Fit], Value | Floats]:
        return lambda fit: of(fit) if fit.from_plus else "-"

    return [
        _row(pair, "metric_upper", f"{seat} of metric rings, upper", "um", by_class, lambda f: f.metric_limits()[0]),
        _row(pair, "metric_lower", f"{seat} of metric rings, lower", "um", by_class, lambda f: f.metric_limits()[1]),
        _row(pair, "error_least", "these used here: loose end", "um", twin, on_inch(lambda f: f.mistaken().at_least)),
        _row(pair, "error_greatest", "these used here: tight end", "um", twin,
             on_inch(lambda f: f.mistaken().at_greatest)),
    ]  # fmt: skip


def _interference(pair: tuple[Fit, Fit]) -> list[Figure]:
    by_limits = citation_of(interference.interference_limits)
    probable = citation_of(interference.probable_limits)
    thermal = citation_of(interference.thermal_change)

    def cold(at: int) -> Callable[[Fit], Floats]:
        return lambda fit: fit.seat.cold[:, at]

    def running(at: int, over: Callable[..., Floats]) -> Callable[[Fit], Floats]:
        return lambda fit: over(fit.seat.effective[..., at], axis=-1)

    found = [
        _row(pair, f"cold_{at}", f"interference, {name}", "um", probable if "probable" in name else by_limits, cold(at))
        for at, name in _ENDS.items()
    ]
    drawn = Citation(COMMON_PRACTICE, "sizes drawn at random from their zones, what lies outside sorted out")
    for at, name in enumerate(("drawn sizes, probable least", "drawn sizes, probable greatest")):
        found.append(_row(pair, f"drawn_{at}", name, "um", drawn, _drawn(at)))
    found.append(
        _row(pair, "smoothing", "lost by smoothing, at the mean", "um", citation_of(interference.smoothed),
             lambda fit: fit.seat.cold[:, MEAN] - fit.seat.mounted[:, MEAN])
    )  # fmt: skip
    # the least of all cases at the loose ends, the greatest of all at the tight ones
    for at, over in ((LEAST, np.min), (PROBABLE_LEAST, np.min), (MEAN, np.min), (PROBABLE_GREATEST, np.max),
                     (GREATEST, np.max)):  # fmt: skip
        found.append(_row(pair, f"running_{at}", f"in operation, {_ENDS[at]}", "um", thermal, running(at, over)))
    return found


def _drawn(at: int) -> Callable[[Fit], Floats]:
    return lambda fit: np.asarray(interference.sampled_limits(*fit.zones())[at])


def _stress(pair: tuple[Fit, Fit]) -> list[Figure]:
    cone = pair[0].is_cone
    joint = citation_of(pressure.joint_pressure)
    at_seat = citation_of(pressure.hoop_at_bore if cone else pressure.hoop_under_squeeze_at_outside)
    at_raceway = citation_of(pressure.hoop_at_outside if cone else pressure.hoop_under_squeeze_at_bore)
    change = citation_of(pressure.raceway_growth if cone else pressure.raceway_shrinkage)
    moves, closing = ("growth", 1.0) if cone else ("shrinkage", -1.0)

    def hardest(values: Floats) -> Floats:
        """Return the value of greatest amount over the cases, at the tight end."""
        tight = values[..., GREATEST]
        return np.take_along_axis(tight, np.abs(tight).argmax(axis=-1)[:, None], axis=-1)[:, 0]

    def end_play(fit: Fit) -> Floats:
        return pressure.end_play_closed(closing * fit.seat.raceway_mounted[:, MEAN], fit.rows.alpha)

    return [
        _row(pair, "p_mean", "pressure, mounted, mean", "MPa", joint, lambda fit: fit.seat.pressure_mounted[:, MEAN]),
        _row(pair, "p_tight", "pressure, mounted, greatest", "MPa", joint,
             lambda fit: fit.seat.pressure_mounted[:, GREATEST]),
        _row(pair, "p_loose", "pressure in operation, least", "MPa", joint,
             lambda fit: fit.seat.pressure[..., LEAST].min(axis=-1)),
        _row(pair, "hoop_mounted", "tension at the seat, mounted", "MPa", at_seat,
             lambda fit: fit.seat.hoop_seat_mounted[:, GREATEST]),
        _row(pair, "hoop_seat", "tension at the seat, running", "MPa", at_seat,
             lambda fit: hardest(fit.seat.hoop_seat)),
        _row(pair, "hoop_raceway", "tension at the raceway, running", "MPa", at_raceway,
             lambda fit: hardest(fit.seat.hoop_raceway)),
        _row(pair, "raceway_mean", f"raceway {moves}, mounted, mean", "um", change,
             lambda fit: closing * fit.seat.raceway_mounted[:, MEAN]),
        _row(pair, "raceway_tight", f"raceway {moves}, mounted, most", "um", change,
             lambda fit: closing * fit.seat.raceway_mounted[:, GREATEST]),
        _row(pair, "raceway_running", f"raceway {moves}, running, mean", "um", change,
             lambda fit: closing * fit.seat.raceway[..., MEAN].mean(axis=-1)),
        _row(pair, "end_play", "end play closed by it, mean", "um", citation_of(pressure.end_play_closed), end_play),
    ]  # fmt: skip


def _mounting(pair: tuple[Fit, Fit]) -> list[Figure]:
    force = citation_of(mounting.axial_force)
    part = "cone" if pair[0].is_cone else "housing"
    figures = [
        _row(pair, "torque", "torque held, loose end", "N m", citation_of(creep.seat_torque),
             lambda fit: fit.seat.torque.min(axis=-1) / 1e3),
        _row(pair, "heating", f"{part} slides at", "degC", citation_of(mounting.heating_temperature),
             lambda fit: fit.seat.heating),
        _row(pair, "force_on", "force to press it on, at most", "N", force, lambda fit: fit.seat.force_on),
        _row(pair, "force_off", "force to pull it off, at most", "N", force, lambda fit: fit.seat.force_off),
    ]  # fmt: skip
    if pair[0].is_cone:
        by = Citation(COMMON_PRACTICE, "120 degC at most")
        figures.append(_row(pair, "mounting", "how it goes on", "", by, _goes_on))
    return figures


def _goes_on(fit: Fit) -> str:
    stated = fit.conditions.resolved.fits.mounting
    if stated is not None:
        return stated
    heating = float(fit.seat.heating[0])
    if np.isnan(heating):
        return "-"
    room = interference.REFERENCE_TEMPERATURE
    return "by hand" if heating <= room else "heated" if heating <= mounting.HEATING_LIMIT else "pressed"


def _holding(pair: tuple[Fit, Fit], evaluated: Evaluated) -> Block:
    """Return what each case needs and how many times it is there, of a spectrum in its hardest bin."""
    assert evaluated.loads is not None
    ring, conditions = pair[0].ring, pair[0].conditions
    held = []
    for fit, loads in zip(pair, evaluated.loads, strict=True):
        needed = holding.needed_by(fit.rows, ring, loads, conditions)
        held.append(seating.Holding(needed, creep.creep_margin(fit.seat.effective, needed[..., None])))
    figures = []
    of_creep, of_margin = citation_of(creep.interference_against_creep), citation_of(creep.creep_margin)
    case_of = np.array(conditions.cases.case_of)
    for case in range(len(conditions.cases.elements)):
        bins = np.flatnonzero(case_of == case)
        at = [bins[np.nan_to_num(one.margin[0, bins, MEAN], nan=-1.0).argmin()] for one in held]
        lead = f"case {case + 1}"
        figures.append(_held(f"{ring}_needed_{case + 1}", f"{lead}, interference needed", "um", of_creep,
                             [float(one.needed[0, i]) * _UM for one, i in zip(held, at, strict=True)]))  # fmt: skip
        for end in (LEAST, PROBABLE_LEAST, MEAN):
            margins = [_margin(one.margin[0, i, end]) for one, i in zip(held, at, strict=True)]
            key = f"{ring}_margin_{case + 1}_{end}"
            figures.append(_held(key, f"{lead}, margin, {_ENDS[end]}", "", of_margin, margins))
    return Block(f"holding_{ring}", f"{ring.capitalize()} against creep", tuple(figures))


def _margin(margin: Floats) -> Value:
    """Return a margin; a ring that needs nothing, since it stands, has none."""
    return "not needed" if np.isposinf(margin) else float(margin)


def _held(key: str, name: str, unit: str, source: object, values: Sequence[Value]) -> Figure:
    return Figure(key, "", name, unit, str(source), values[0], values[1], digits=3)
