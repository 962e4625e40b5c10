"""Writes the files in catalogs/: assemblies and parts of our own invention, the same bytes every time.

Run as `python -m engine.catalogue.invention [--out catalogs]`. No row is any maker's bearing. Metric boundary
dimensions fill the classes of the ISO 355 dimension series with preferred numbers, inch ones are common fractions of
an inch; rollers fill the section (`roller_set`), and every rating is computed from the sizes as they are printed.

Names: V050-3DB-C is the metric assembly of bore 50 mm, dimension series 3DB, case-hardened (T: through-hardened, S:
through-hardened and stabilised; L after it: logarithmic roller profile), with cone V050-3DB-C.i and cup V050-3DB-C.o.
Q112 is a series of the inch system with cones Q112.1 to .5 and cups Q112.6 to .9; any cone fits any cup of the series,
and Q112.1+6 is the assembly of cone 1 and cup 6.
"""

import argparse
from collections.abc import Sequence
from pathlib import Path

import numpy as np

from engine.catalogue.columns import Catalogue, join
from engine.catalogue.invention.inch_series import INCH_SERIES, inch_parts
from engine.catalogue.invention.invented_sizes import uniform
from engine.catalogue.invention.metric_series import (
    EVERY_BORE,
    METRIC_BORES,
    SERIES_PER_BORE,
    SOME_BORES,
    heavier,
    metric,
    metric_geometry,
    metric_names,
)
from engine.catalogue.invention.rows import rated_rows
from engine.catalogue.parts import CONE_COLUMNS, CUP_COLUMNS, Cones, Cups
from engine.catalogue.write import as_csv

SEED = 355
_STEEL_LETTER = {"case": "C", "through": "T"}


def invent(
    metric_bores: Sequence[float] = METRIC_BORES,
    series_per_bore: int = SERIES_PER_BORE,
    inch_series: int = INCH_SERIES,
    seed: int = SEED,
) -> tuple[Catalogue, Cones, Cups]:
    """Return metric assemblies, inch cones and inch cups of such a range; the same arguments give the same rows."""
    return (metric(metric_bores, series_per_bore, seed), *inch_parts(inch_series, seed))


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
    series = np.array([heavier(every[pick], bore) for pick, bore in zip(picks, d.tolist(), strict=True)])
    envelope, rollers, good = metric_geometry(d, series, seed)
    rows = np.flatnonzero(good)[:wanted]
    steel = np.where(draws[2][rows] < 0.5, "case", "through")
    stems = [f"N{made + place:06d}-{series[row]}-{_STEEL_LETTER[steel[place]]}" for place, row in enumerate(rows)]
    names = metric_names(stems, series[rows], steel)
    return rated_rows(names, envelope.take(rows), rollers.take(rows))


def main(arguments: Sequence[str] | None = None) -> None:
    """Write all three files into a folder."""
    parser = argparse.ArgumentParser(prog="python -m engine.catalogue.invention", description="write the catalogues")
    parser.add_argument("--out", type=Path, default=Path("catalogs"), help="folder to write into (default: catalogs)")
    folder: Path = parser.parse_args(arguments).out
    assemblies, cones, cups = invent()
    (folder / "metric.csv").write_bytes(as_csv(assemblies))
    (folder / "inch_cones.csv").write_bytes(as_csv(cones, CONE_COLUMNS))
    (folder / "inch_cups.csv").write_bytes(as_csv(cups, CUP_COLUMNS))
