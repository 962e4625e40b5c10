"""Limits of rings, of their widths and runouts and of their seats, whichever standard a tolerance class belongs to.

A class of ISO 286 is chosen for a ring at 0/minus. Put on an inch ring at 0/plus, the same shaft would be looser at
both ends and the same housing tighter; the twin limits move both ends so that the interference comes out the same.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from engine.numerics import Array, Bools, Floats
from engine.seat import iso286, iso492, iso578
from engine.sources import GEOMETRY, cited

Codes = NDArray[np.int64]

_NORMAL = iso492.CLASSES.index("Normal")
#: The class of a bearing that says none: Normal for metric ones, 4 for inch ones; common practice, no source.
UNSAID = {"metric": "Normal", "inch": "4"}
#: Classes of ANSI/ABMA 19.1 for metric parts within the inch system, and the class of ISO 492 whose bore and outside
#: diameter limits they share; recalled. Those of A are not at hand.
ABMA_19_1_LIKE = {"K": "Normal", "N": "Normal", "C": "5", "B": "4"}
#: Classes that are more precise than usual and call for a shaft and a housing one grade finer; common practice.
PRECISE = ("5", "4", "2"), ("3", "0", "00")


@dataclass(frozen=True)
class RingLimits:
    """Deviations of bore and outside diameter from their nominal sizes [mm], one for each row."""

    bore_upper: Floats
    bore_lower: Floats
    outside_upper: Floats
    outside_lower: Floats
    from_plus: Bools  # whether they lie at 0/plus as inch ones do
    precise: Bools


def class_codes(system: ArrayLike, tolerance: ArrayLike) -> tuple[Codes, Codes]:
    """Return the places of the classes in ISO 492 and in ISO 578, each -1 where the other standard holds or none."""
    system, tolerance = np.asarray(system), np.asarray(tolerance)
    inch = system == "inch"
    metric_code = np.full(np.broadcast(system, tolerance).shape, -1, dtype=np.int64)
    inch_code = metric_code.copy()
    for code, name in enumerate(iso492.CLASSES):
        unsaid = (tolerance == "") & (name == UNSAID["metric"])
        alike = np.isin(tolerance, [letter for letter, like in ABMA_19_1_LIKE.items() if like == name])
        metric_code[(~inch & ((tolerance == name) | unsaid)) | alike] = code
    for code, name in enumerate(iso578.CLASSES):
        unsaid = (tolerance == "") & (name == UNSAID["inch"])
        inch_code[inch & ((tolerance == name) | unsaid)] = code
    return metric_code, inch_code


def ring_limits(system: ArrayLike, tolerance: ArrayLike, d: Array, D: Array) -> RingLimits:
    """Return the limits of bore and outside diameter; NaN where those of a class are not at hand."""
    metric_code, inch_code = class_codes(system, tolerance)
    from_plus = inch_code >= 0
    bores = zip(iso578.bore_limits(d, inch_code), iso492.bore_limits(d, metric_code), strict=True)
    outsides = zip(iso578.outside_limits(D, inch_code), iso492.outside_limits(D, metric_code), strict=True)
    bore_upper, bore_lower = (np.where(from_plus, inch, metric) for inch, metric in bores)
    outside_upper, outside_lower = (np.where(from_plus, inch, metric) for inch, metric in outsides)
    precise = np.isin(metric_code, [iso492.CLASSES.index(name) for name in PRECISE[0]])
    precise |= np.isin(inch_code, [iso578.CLASSES.index(name) for name in PRECISE[1]])
    return RingLimits(bore_upper, bore_lower, outside_upper, outside_lower, from_plus, precise)


@dataclass(frozen=True)
class FormLimits:
    """Deviations of widths and greatest radial runouts of assembled bearings [mm], one for each row; NaN: not at hand.

    `inch` says that they are those of ISO 578, which has one runout for both rings.
    """

    B_upper: Floats
    B_lower: Floats
    T_upper: Floats
    T_lower: Floats
    runout_cone: Floats
    runout_cup: Floats
    inch: Bools


def form_limits(system: ArrayLike, tolerance: ArrayLike, d: Array, D: Array) -> FormLimits:
    """Return what the class allows: cone width B and assembly width T by the bore, runouts.

    Of inch cones only the width of the assembly is at hand; of the metric classes of ANSI/ABMA 19.1, which share bore
    and outside diameter with ISO 492, neither widths nor runouts are.
    """
    metric, inch_code = class_codes(system, tolerance)
    metric = np.where(np.isin(tolerance, list(ABMA_19_1_LIKE)), -1, metric)
    inch = inch_code >= 0
    B_upper, B_lower = iso492.cone_width_limits(d, metric)
    widths = zip(iso578.assembly_width_limits(d, inch_code), iso492.assembly_width_limits(d, metric), strict=True)
    T_upper, T_lower = (np.where(inch, of_inch, of_metric) for of_inch, of_metric in widths)
    of_inch = iso578.runout(D, inch_code)
    runout_cone, runout_cup = (np.where(inch, of_inch, one) for one in iso492.runouts(d, D, metric))
    return FormLimits(B_upper, B_lower, T_upper, T_lower, runout_cone, runout_cup, inch)


@dataclass(frozen=True)
class SeatLimits:
    """Deviations of a seat [mm]; `made` is false where a twin would need a tolerance zone of no width."""

    upper: Floats
    lower: Floats

    @property
    def made(self) -> Bools:
        """Whether there is a zone to work in."""
        return np.asarray(self.upper > self.lower)


@cited(GEOMETRY, "equal interference of two rings on their shafts")
def twin_shaft_limits(
    es: Array, ei: Array, upper: Array, lower: Array, twin_upper: Array, twin_lower: Array
) -> tuple[Floats, Floats]:
    """Limits of the shaft of a twin ring, so that both ends of the interference are those of the first ring.

    es' = es + (EI' - EI), ei' = ei + (ES' - ES), with EI, ES the lower and upper deviation of the bores

    Parameters (any broadcastable shapes)
    ----------
    es : upper deviation of the shaft of the first ring [mm]
    ei : lower deviation of the shaft of the first ring [mm]
    upper : upper deviation of the bore of the first ring [mm]
    lower : lower deviation of the bore of the first ring [mm]
    twin_upper : upper deviation of the bore of its twin [mm]
    twin_lower : lower deviation of the bore of its twin [mm]

    Returns
    -------
    es', ei' [mm]

    Valid where es' > ei'; else the bore of the twin is spread too widely and no shaft makes the same fit.

    Source: Geometry, equal interference of two rings on their shafts; derived here.
    """
    return np.asarray(es) + (np.asarray(twin_lower) - lower), np.asarray(ei) + (np.asarray(twin_upper) - upper)


@cited(GEOMETRY, "equal interference of two rings in their housings")
def twin_housing_limits(
    ES: Array, EI: Array, upper: Array, lower: Array, twin_upper: Array, twin_lower: Array
) -> tuple[Floats, Floats]:
    """Limits of the housing of a twin ring, so that both ends of the interference are those of the first ring.

    ES' = ES + (ei' - ei), EI' = EI + (es' - es), with ei, es the lower and upper deviation of the outside diameters

    Parameters (any broadcastable shapes)
    ----------
    ES : upper deviation of the housing of the first ring [mm]
    EI : lower deviation of the housing of the first ring [mm]
    upper : upper deviation of the outside diameter of the first ring [mm]
    lower : lower deviation of the outside diameter of the first ring [mm]
    twin_upper : upper deviation of the outside diameter of its twin [mm]
    twin_lower : lower deviation of the outside diameter of its twin [mm]

    Returns
    -------
    ES', EI' [mm]

    Valid where ES' > EI'; else the twin is spread too widely and no housing makes the same fit.

    Source: Geometry, equal interference of two rings in their housings; derived here.
    """
    return np.asarray(ES) + (np.asarray(twin_lower) - lower), np.asarray(EI) + (np.asarray(twin_upper) - upper)


def shaft_limits(d: Array, code: Array, rings: RingLimits) -> SeatLimits:
    """Return the limits of the shaft [mm] for a class: as printed for rings at 0/minus, the twin's for the others.

    The first ring of a twin is one of class Normal of ISO 492 at the same size.
    """
    es, ei = iso286.shaft_limits(d, code)
    first = iso492.bore_limits(d, _NORMAL)
    es_twin, ei_twin = twin_shaft_limits(es, ei, *first, rings.bore_upper, rings.bore_lower)
    return SeatLimits(np.where(rings.from_plus, es_twin, es), np.where(rings.from_plus, ei_twin, ei))


def housing_limits(D: Array, code: Array, rings: RingLimits) -> SeatLimits:
    """Return the limits of the housing [mm] for a class: as printed for rings at 0/minus, the twin's for the others."""
    ES, EI = iso286.hole_limits(D, code)
    first = iso492.outside_limits(D, _NORMAL)
    ES_twin, EI_twin = twin_housing_limits(ES, EI, *first, rings.outside_upper, rings.outside_lower)
    return SeatLimits(np.where(rings.from_plus, ES_twin, ES), np.where(rings.from_plus, EI_twin, EI))


@dataclass(frozen=True)
class Mistaken:
    """By how much the interference of a ring at 0/plus changes where the metric limits are used [mm].

    Negative is looser than meant, positive tighter; at the loose end and at the tight end of the fit.
    """

    at_least: Floats
    at_greatest: Floats


def shaft_mistaken(d: Array, code: Array, rings: RingLimits) -> Mistaken:
    """Return what follows on the cone from using the class as printed on a ring at 0/plus: looser at both ends."""
    es, ei = iso286.shaft_limits(d, code)
    meant = shaft_limits(d, code, rings)
    return Mistaken(np.asarray(ei - meant.lower), np.asarray(es - meant.upper))


def housing_mistaken(D: Array, code: Array, rings: RingLimits) -> Mistaken:
    """Return what follows on the cup from using the class as printed on a ring at 0/plus: tighter at both ends."""
    ES, EI = iso286.hole_limits(D, code)
    meant = housing_limits(D, code, rings)
    return Mistaken(np.asarray(meant.upper - ES), np.asarray(meant.lower - EI))
