"""Which inch parts the invented range has: series, their cones and cups, and the sets in which they are listed."""

import numpy as np
from numpy.typing import NDArray

from engine.catalogue.columns import Catalogue, Texts
from engine.catalogue.invention.invented_sizes import inch_cones, inch_cups, inch_envelope, uniform
from engine.catalogue.invention.roller_set import roller_set
from engine.catalogue.invention.rows import METRIC_TOLERANCE, rated_rows
from engine.catalogue.invention.stock import availability, cost
from engine.catalogue.parts import Cones, Cups
from engine.catalogue.section.masses import cone_mass, cup_mass
from engine.catalogue.section.sizes import Envelope, Rollers
from engine.numerics import Floats

INCH_SERIES = 300
#: (cones, cups) of the inch series, taken in turn.
MEMBERS = ((3, 2), (4, 3), (2, 2), (5, 3), (3, 3), (4, 2), (4, 4), (2, 3), (5, 4), (3, 2))
#: One series in ten, this one, is dimensioned in millimetres.
METRIC_TURN = 6
#: Share of the series in tolerance class 4, and in 4 or 2; the rest is of class 3 (ANSI/ABMA 19.2, recalled).
_CLASS_4, _CLASS_2 = 0.8, 0.93
#: From this bore [mm] on, the rollers have a logarithmic profile.
LOG_FROM = 101.6
#: Share of the combinations that are listed beyond those that list every part once.
_LISTED = 0.32
_FIRST_SERIES, _FIRST_CONE, _FIRST_CUP = 101, 1, 6
Flags = NDArray[np.bool_]
Places = NDArray[np.intp]


def inch_parts(count: int, seed: int) -> tuple[Cones, Cups]:
    """Return the cones and the cups of so many inch series, all case-hardened."""
    place = np.arange(count)
    metric = place % len(MEMBERS) == METRIC_TURN
    base = inch_envelope(count, uniform(seed + 1, (6, count)), metric)
    rollers = roller_set(base, uniform(seed + 2, (3, count)))
    draw = uniform(seed + 7, (1, count))[0]
    tolerance = np.where(draw < _CLASS_4, "4", np.where(draw < _CLASS_2, "2", "3"))
    tolerance = np.where(metric, METRIC_TOLERANCE, tolerance)
    series, number = _members(count, 0)
    envelope = inch_cones(base.take(series), number, metric[series])
    cones = _cones(_rated(envelope, rollers.take(series), series, tolerance), series, number, seed)
    series, number = _members(count, 1)
    envelope = inch_cups(base.take(series), number, metric[series])
    cups = _cups(_rated(envelope, rollers.take(series), series, tolerance), series, number, seed)
    return cones, cups


def _members(count: int, kind: int) -> tuple[Places, Places]:
    """Series and number, from 0, of all cones (kind 0) or cups (kind 1)."""
    pairs = [(place, number) for place in range(count) for number in range(MEMBERS[place % len(MEMBERS)][kind])]
    series, number = np.array(pairs, dtype=np.intp).reshape(-1, 2).T
    return series, number


def _rated(envelope: Envelope, rollers: Rollers, series: Places, tolerance: Texts) -> Catalogue:
    """Rows of each part in an assembly with the first of its counterparts; names come later."""
    rows = len(series)
    nameless = np.full(rows, "")
    stated = {
        "designation": nameless,
        "cone": nameless,
        "cup": nameless,
        "system": np.full(rows, "inch"),
        "series": np.array([f"Q{_FIRST_SERIES + place}" for place in series]),
        "steel": np.full(rows, "case"),
        "tolerance": tolerance[series],
        "profile": np.where(envelope.d >= LOG_FROM, "log", "plain"),
    }
    return rated_rows(stated, envelope, rollers)


def _envelope(c: Catalogue) -> Envelope:
    return Envelope(c.d, c.D, c.T, c.B, c.C, c.alpha)


def _rollers(c: Catalogue) -> Rollers:
    return Rollers(c.Dwe, c.Lwe, c.Dpw, c.Z)


def _cones(c: Catalogue, series: Places, number: Places, seed: int) -> Cones:
    draws = uniform(seed + 8, (2, len(series)))
    mass = np.round(cone_mass(_envelope(c), _rollers(c)), 3)
    stocked = availability(c.d, draws[0])
    # the rollers are those of the series, so all of its cones have the profile of the first
    profile = c.profile[np.searchsorted(series, series)]
    return Cones(
        designation=_names(c.series, number + _FIRST_CONE),
        sets=_sets(series, number, seed),
        # six decimals hold half of a thirty-second of an inch
        T1=np.round(c.T - c.C / 2, 6),
        mass=mass,
        availability=stocked,
        cost=cost(mass, [profile, c.tolerance, stocked], draws[1]),
        profile=profile,
        **{name: getattr(c, name) for name in (*_SHARED, *_ROLLERS, *_RATINGS, "tolerance", "r_cone")},
    )


_SHARED = ("series", "system", "steel", "max_temperature")
_ROLLERS = ("d", "B", "a", "alpha", "Z", "Dwe", "Lwe", "Dpw", "F")
_RATINGS = ("Cr", "C0r", "Cu", "e", "Y", "Y0", "n_grease", "n_oil")


def _cups(c: Catalogue, series: Places, number: Places, seed: int) -> Cups:
    draws = uniform(seed + 9, (2, len(series)))
    mass = np.round(cup_mass(_envelope(c), _rollers(c)), 3)
    stocked = availability(c.d, draws[0])
    return Cups(
        designation=_names(c.series, number + _FIRST_CUP),
        T2=np.round(c.C / 2, 6),
        mass=mass,
        availability=stocked,
        cost=cost(mass, [c.tolerance, stocked], draws[1]),
        **{name: getattr(c, name) for name in (*_SHARED, "D", "C", "E", "tolerance", "r_cup")},
    )


def _names(series: Texts, number: Floats) -> Texts:
    return np.array([f"{code}.{part}" for code, part in zip(series.tolist(), number.tolist(), strict=True)])


def _sets(series: Places, number: Places, seed: int) -> Texts:
    """Cups with which each cone is listed: every part in one set at least, other combinations by the draw."""
    most = max(cups for _, cups in MEMBERS)
    draws = uniform(seed + 10, (most, len(series)))
    sets = []
    for row, (place, cone) in enumerate(zip(series.tolist(), number.tolist(), strict=True)):
        cones, cups = MEMBERS[place % len(MEMBERS)]
        listed = [
            str(cup + _FIRST_CUP)
            for cup in range(cups)
            if cup == cone % cups or cone == cup % cones or draws[cup, row] < _LISTED
        ]
        sets.append(" ".join(listed))
    return np.array(sets)
