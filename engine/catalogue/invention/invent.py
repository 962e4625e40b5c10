"""Writes catalogs/metric.csv and catalogs/inch.csv: assemblies of our own invention, the same bytes every time.

Run as `python -m engine.catalogue.invention [--out catalogs]`. No row is any maker's bearing. Metric boundary
dimensions fill the classes of the ISO 355 dimension series with preferred numbers, inch ones are common fractions of
an inch; rollers fill the section (`roller_set`), and every rating is computed from the sizes as they are printed.

Names: V050-3DB-C is the metric assembly of bore 50 mm, dimension series 3DB, case-hardened (T: through-hardened), its
cone V050-3DB-C.i and its cup V050-3DB-C.o. Q112 is a series in inches with cones Q112.1 to .3 and cups Q112.6 to .7;
any cone fits any cup of the series, and Q112.1+6 is the assembly of cone 1 and cup 6.
"""

import argparse
from collections.abc import Sequence
from pathlib import Path

import numpy as np

from engine.catalogue.columns import Catalogue, Texts, join
from engine.catalogue.dimension_series import classify
from engine.catalogue.invention.invented_sizes import inch_envelope, inch_members, metric_envelope, uniform
from engine.catalogue.invention.roller_set import roller_set
from engine.catalogue.invention.rows import rated_rows
from engine.catalogue.section import Envelope, Rollers
from engine.catalogue.write import as_csv
from engine.numerics import Floats
from engine.rating.geometry import gamma

SEED = 355
METRIC_BORES = (
    *(20, 22, 25, 28, 30, 32, 35, 40, 45, 50, 55, 60, 65, 70, 75, 80, 85, 90, 95, 100, 105, 110, 120),
    *(130, 140, 150, 160, 170, 180, 190, 200),
)
#: Dimension series in the order in which a bore gets them; the first four belong to every bore.
EVERY_BORE = ("2FB", "3DB", "4CC", "7FB")
SOME_BORES = ("3EC", "2FD", "5DC", "7GC", "3CD", "4DC", "6FB", "2EC", "5FD", "4EC")
#: Over these bores [mm] the diameter letters move on by one, since D/d falls with the bore inside a letter.
HEAVIER_OVER = (100.0, 150.0)
_LETTERS = "BCDEFG"
SERIES_PER_BORE = 6
#: Heat treatments offered: case-hardened up to one bore, through-hardened over it, both inside a band [mm].
CASE_UP_TO = 60.0
BOTH_FROM, BOTH_TO = 50.0, 100.0
INCH_SERIES = 60
#: (cones, cups) of the inch series, taken in turn.
MEMBERS = ((1, 1), (2, 1), (2, 2), (3, 2), (3, 1), (2, 2), (3, 2), (1, 2), (3, 2), (2, 2))
_FIRST_INCH_SERIES = 101
_STEEL_LETTER = {"case": "C", "through": "T"}


def invent(
    metric_bores: Sequence[float] = METRIC_BORES,
    series_per_bore: int = SERIES_PER_BORE,
    inch_series: int = INCH_SERIES,
    seed: int = SEED,
) -> tuple[Catalogue, Catalogue]:
    """Return the metric and the inch catalogue of such a range; the same arguments give the same rows."""
    return metric(metric_bores, series_per_bore, seed), inch(inch_series, seed)


def metric(bores: Sequence[float], series_per_bore: int, seed: int) -> Catalogue:
    """Return metric assemblies: so many dimension series for each bore, in one or both heat treatments."""
    pairs = [(bore, series) for place, bore in enumerate(bores) for series in _series_of(bore, place, series_per_bore)]
    d = np.array([bore for bore, _ in pairs], dtype=np.float64)
    series = np.array([series for _, series in pairs])
    envelope, rollers = _metric_geometry(d, series, seed)
    fits = classify(envelope.d, envelope.D, envelope.T, envelope.alpha) == series
    if not np.all(fits):
        raise ValueError(f"no preferred dimensions for {[pairs[row] for row in np.flatnonzero(~fits)]}")
    offered = [(row, steel) for row, bore in enumerate(d.tolist()) for steel in _steels_of(bore)]
    rows = np.array([row for row, _ in offered])
    stems = [f"V{d[row]:03.0f}-{series[row]}-{_STEEL_LETTER[steel]}" for row, steel in offered]
    names = _metric_names(stems, series[rows], np.array([steel for _, steel in offered]))
    return rated_rows(names, envelope.take(rows), rollers.take(rows))


def inch(count: int, seed: int) -> Catalogue:
    """Return inch assemblies: every cone with every cup of so many series, all case-hardened."""
    base = inch_envelope(count, uniform(seed + 1, (6, count)))
    rollers = roller_set(base, uniform(seed + 2, (3, count)))
    members = [
        (place, cone, cup)
        for place in range(count)
        for cone in range(MEMBERS[place % len(MEMBERS)][0])
        for cup in range(MEMBERS[place % len(MEMBERS)][1])
    ]
    rows, cones, cups = np.array(members).T
    codes = [f"Q{_FIRST_INCH_SERIES + row}" for row in rows]
    names = {
        "designation": np.array([f"{code}.{i + 1}+{o + 6}" for code, i, o in zip(codes, cones, cups, strict=True)]),
        "cone": np.array([f"{code}.{i + 1}" for code, i in zip(codes, cones, strict=True)]),
        "cup": np.array([f"{code}.{o + 6}" for code, o in zip(codes, cups, strict=True)]),
        "system": np.full(len(rows), "inch"),
        "series": np.array(codes),
        "steel": np.full(len(rows), "case"),
    }
    return rated_rows(names, inch_members(base.take(rows), cones, cups), rollers.take(rows))


def synthetic(n: int, seed: int = SEED) -> Catalogue:
    """Return n metric-like assemblies at once in memory, for trials of size; out of the same geometry."""
    parts: list[Catalogue] = []
    made = 0
    while made < n:
        part = _synthetic_part(n - made, seed + 1000 * len(parts), made)
        parts.append(part)
        made += len(part)
    return join(parts) if parts else _synthetic_part(1, seed, 0).take([])


def _synthetic_part(wanted: int, seed: int, made: int) -> Catalogue:
    count = 2 * wanted + 16  # preferred numbers miss some narrow classes, so that more are drawn than wanted
    draws = uniform(seed + 3, (3, count))
    d = np.round(15 * np.power(20.0, draws[0]))
    every = (*EVERY_BORE, *SOME_BORES)
    picks = (draws[1] * len(every)).astype(np.intp).tolist()
    series = np.array([_heavier(every[pick], bore) for pick, bore in zip(picks, d.tolist(), strict=True)])
    envelope, rollers = _metric_geometry(d, series, seed)
    fits = classify(envelope.d, envelope.D, envelope.T, envelope.alpha) == series
    fits &= (gamma(rollers.Dwe, envelope.alpha, rollers.Dpw) < 0.30) & (rollers.Z >= 8) & (rollers.Lwe >= 2)
    rows = np.flatnonzero(fits)[:wanted]
    steel = np.where(draws[2][rows] < 0.5, "case", "through")
    stems = [f"N{made + place:06d}-{series[row]}-{_STEEL_LETTER[steel[place]]}" for place, row in enumerate(rows)]
    names = _metric_names(stems, series[rows], steel)
    return rated_rows(names, envelope.take(rows), rollers.take(rows))


def _series_of(bore: float, place: int, count: int) -> list[str]:
    # steps of 3 are prime to the 10 series, so that all of them come up along the bores
    turn = [SOME_BORES[(3 * place + more) % len(SOME_BORES)] for more in range(count - len(EVERY_BORE))]
    return [_heavier(series, bore) for series in (*EVERY_BORE[:count], *turn)]


def _heavier(series: str, bore: float) -> str:
    steps = sum(bore > over for over in HEAVIER_OVER)
    letter = _LETTERS[min(_LETTERS.index(series[1]) + steps, len(_LETTERS) - 1)]
    return series[0] + letter + series[2]


def _steels_of(bore: float) -> tuple[str, ...]:
    if BOTH_FROM <= bore <= BOTH_TO:
        return ("case", "through")
    return ("case",) if bore <= CASE_UP_TO else ("through",)


def _metric_geometry(d: Floats, series: Texts, seed: int) -> tuple[Envelope, Rollers]:
    envelope = metric_envelope(d, series, uniform(seed, (5, len(d))))
    return envelope, roller_set(envelope, uniform(seed + 4, (3, len(d))))


def _metric_names(stems: list[str], series: Texts, steel: Texts) -> dict[str, Texts]:
    return {
        "designation": np.array(stems),
        "cone": np.array([f"{stem}.i" for stem in stems]),
        "cup": np.array([f"{stem}.o" for stem in stems]),
        "system": np.full(len(stems), "metric"),
        "series": series,
        "steel": steel,
    }


def main(arguments: Sequence[str] | None = None) -> None:
    """Write both catalogues into a folder."""
    parser = argparse.ArgumentParser(prog="python -m engine.catalogue.invention", description="write the catalogues")
    parser.add_argument("--out", type=Path, default=Path("catalogs"), help="folder to write into (default: catalogs)")
    folder: Path = parser.parse_args(arguments).out
    for name, catalogue in zip(("metric.csv", "inch.csv"), invent(), strict=True):
        (folder / name).write_bytes(as_csv(catalogue))
