"""Which metric assemblies the invented range has: dimension series for each bore, and their executions."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from engine.catalogue.columns import Catalogue, Texts
from engine.catalogue.dimension_series import classify
from engine.catalogue.invention.invented_sizes import metric_envelope, uniform
from engine.catalogue.invention.roller_set import roller_set
from engine.catalogue.invention.rows import MAX_TEMPERATURE, STABILISED_TEMPERATURE, rated_rows
from engine.catalogue.invention.stock import availability, cost
from engine.catalogue.section.sizes import Envelope, Rollers
from engine.numerics import Floats
from engine.rating.geometry import gamma

METRIC_BORES = (
    *(15, 17, 20, 22, 25, 28, 30, 32, 35, 40, 45, 50, 55, 60, 65, 70, 75, 80, 85, 90, 95, 100, 105, 110, 120),
    *(130, 140, 150, 160, 170, 180, 190, 200, 220, 240, 260, 280, 300, 320, 340, 360, 380, 400),
)
#: Dimension series in the order in which a bore gets them; the first four come to every bore.
EVERY_BORE = ("2FB", "3DB", "4CC", "7FB")
SOME_BORES = (
    *("3EC", "2FD", "5DC", "7GC", "3CD", "4DC", "6FB", "2EC", "5FD", "4EC"),
    *("3BC", "2DE", "6EC", "4FD", "2BD", "7FC"),
)
SERIES_PER_BORE = 8
#: Above this bore [mm] a size is made in three quarters of that number of series.
FEWER_OVER = 200.0
#: Over these bores [mm] the diameter letters move on by one, since D/d falls with the bore inside a letter.
HEAVIER_OVER = (100.0, 150.0)
_LETTERS = "BCDEFG"
#: Heat treatments: case-hardened up to one bore, through-hardened over it, both inside a band [mm].
CASE_UP_TO = 60.0
BOTH_FROM, BOTH_TO = 50.0, 100.0
#: Logarithmic roller profile: beside the plain one for through-hardened rings inside a band, alone over it [mm].
LOG_FROM, LOG_ALONE_OVER = 85.0, 140.0
#: From this bore [mm] on, the first series of a bore also come through-hardened and stabilised.
STABILISED_FROM, STABILISED_SERIES = 200.0, 2
#: Numbers of rollers and lengths [mm] under which a section is too small to be made.
LEAST_Z, LEAST_LWE, GREATEST_GAMMA = 8, 2.0, 0.30


@dataclass(frozen=True)
class Execution:
    """A way in which a size is made: its letters in the name, steel, roller profile and whether stabilised."""

    letters: str
    steel: str
    profile: str = "plain"
    stabilised: bool = False


def metric(bores: Sequence[float], series_per_bore: int, seed: int) -> Catalogue:
    """Return metric assemblies: so many dimension series for each bore, each in all its executions."""
    d, series, envelope, rollers = _sizes(bores, series_per_bore, seed)
    # the place of a size among those of its bore
    places = [place for bore in dict.fromkeys(d.tolist()) for place in range(int(np.count_nonzero(d == bore)))]
    made = [
        (row, execution)
        for row, (bore, place) in enumerate(zip(d.tolist(), places, strict=True))
        for execution in executions(bore, place)
    ]
    rows = np.array([row for row, _ in made])
    ways = [execution for _, execution in made]
    stems = [f"V{d[row]:03.0f}-{series[row]}-{way.letters}" for row, way in made]
    stated = metric_names(stems, series[rows], np.array([way.steel for way in ways]))
    stated["profile"] = np.array([way.profile for way in ways])
    stated["tolerance"] = _tolerances(d, series, seed)[rows]
    hottest = [STABILISED_TEMPERATURE if way.stabilised else MAX_TEMPERATURE[way.steel] for way in ways]
    stated["max_temperature"] = np.array(hottest)
    unpriced = rated_rows(stated, envelope.take(rows), rollers.take(rows))
    draws = uniform(seed + 5, (2, len(rows)))
    stabilised = np.array(["stabilised" if way.stabilised else "" for way in ways])
    stocked = availability(unpriced.d, draws[0])
    surcharged = [unpriced.steel, unpriced.profile, unpriced.tolerance, stabilised, stocked]
    return replace(unpriced, availability=stocked, cost=cost(unpriced.mass, surcharged, draws[1]))


def executions(bore: float, place: int) -> list[Execution]:
    """Return the executions of a size of this bore [mm]; `place` counts the sizes of the bore from 0."""
    ways = []
    if bore <= CASE_UP_TO or BOTH_FROM <= bore <= BOTH_TO:
        ways.append(Execution("C", "case"))
    if bore > CASE_UP_TO or BOTH_FROM <= bore <= BOTH_TO:
        if bore <= LOG_ALONE_OVER:
            ways.append(Execution("T", "through"))
        if bore >= LOG_FROM:
            ways.append(Execution("TL", "through", "log"))
    if bore >= STABILISED_FROM and place < STABILISED_SERIES:
        ways.append(Execution("SL", "through", "log", stabilised=True))
    return ways


def heavier(series: str, bore: float) -> str:
    """Return the series with its diameter letter moved on for large bores [mm]."""
    steps = sum(bore > over for over in HEAVIER_OVER)
    letter = _LETTERS[min(_LETTERS.index(series[1]) + steps, len(_LETTERS) - 1)]
    return series[0] + letter + series[2]


def metric_geometry(d: Floats, series: Texts, seed: int) -> tuple[Envelope, Rollers, NDArray[np.bool_]]:
    """Return sizes near the wanted series, and which of them meet it and can be made."""
    envelope = metric_envelope(d, series, uniform(seed, (5, len(d))))
    rollers = roller_set(envelope, uniform(seed + 4, (3, len(d))))
    good = classify(envelope.d, envelope.D, envelope.T, envelope.alpha) == series
    good &= gamma(rollers.Dwe, envelope.alpha, rollers.Dpw) < GREATEST_GAMMA
    good &= (rollers.Z >= LEAST_Z) & (rollers.Lwe >= LEAST_LWE)
    return envelope, rollers, good


def metric_names(stems: list[str], series: Texts, steel: Texts) -> dict[str, Any]:
    """Return the columns of names of metric assemblies."""
    return {
        "designation": np.array(stems),
        "cone": np.array([f"{stem}.i" for stem in stems]),
        "cup": np.array([f"{stem}.o" for stem in stems]),
        "system": np.full(len(stems), "metric"),
        "series": series,
        "steel": steel,
    }


def _sizes(bores: Sequence[float], series_per_bore: int, seed: int) -> tuple[Floats, Texts, Envelope, Rollers]:
    """Sizes of every bore: the first of its series that meet their classes and can be made."""
    pairs = [(bore, series) for place, bore in enumerate(bores) for series in _wanted(bore, place)]
    d = np.array([bore for bore, _ in pairs], dtype=np.float64)
    series = np.array([series for _, series in pairs])
    envelope, rollers, good = metric_geometry(d, series, seed)
    chosen: list[int] = []
    for bore in bores:
        most = series_per_bore if bore <= FEWER_OVER else 3 * series_per_bore // 4
        chosen += np.flatnonzero(good & (d == bore))[:most].tolist()
    rows = np.array(chosen, dtype=np.intp)
    return d[rows], series[rows], envelope.take(rows), rollers.take(rows)


def _wanted(bore: float, place: int) -> list[str]:
    # steps of 3 are prime to the 16 series, so that all of them come up along the bores
    turn = [SOME_BORES[(3 * place + more) % len(SOME_BORES)] for more in range(len(SOME_BORES))]
    return list(dict.fromkeys(heavier(series, bore) for series in (*EVERY_BORE, *turn)))


def _tolerances(d: Floats, series: Texts, seed: int) -> Texts:
    """Thin sections up to 90 mm are printed with class 6X, some sizes up to 120 mm with class 5; invented."""
    thin = np.isin([code[1] for code in series.tolist()], ["B", "C"]) & (d <= 90)
    precise = (uniform(seed + 6, (1, len(d)))[0] < 0.08) & (d <= 120)
    return np.where(precise, "5", np.where(thin, "6X", "Normal"))
