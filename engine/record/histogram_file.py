"""A file with a measured histogram to the answer that a record keeps."""

from pathlib import Path

import numpy as np

from engine.answers.binned import LONGEST_NOTE, MOST_BINS, MOST_NOTES, Bins
from engine.catalogue.trouble import Trouble
from engine.duty import histogram
from engine.errors import plain

LARGEST = 20_000_000
#: What the columns are for, by key; the rest is said from the table of columns that the reader itself reads.
_MEANS = {
    "share": "how much of the time a bin takes; scaled to the whole",
    "hours": "the same as time",
    "turns": "the same as turns of the shaft or cycles; time is turns over speed",
    "n": "speed; where there is no such column every bin has the speed of the case",
    "load": "factor on the forces of the case, or a force or torque, of which the greatest one then stands for them; "
    "0 or more, since a reversed load is a case of its own with a load level below 0",
    "range": "range of a rain-flow cycle, its mean beside it; the load at the top counts, mean and half the range",
    "mean": "mean of a rain-flow cycle; where it is below 0 the amount counts, and the record says so",
    "temperature": "of the bearings, in every row or in none",
}
_SAMPLE = ("share_percent,speed_rpm,load_factor,temperature_degC", "12.5,1450,1.25,80", "37.5,1450,0.5,60",
           "50,725,0.125,55")  # fmt: skip


def format_help() -> tuple[str, ...]:
    """Return what such a file looks like, as paragraphs."""
    one_of = ", ".join(f"{histogram.by_key(key).names[0]}" for key in histogram.WEIGHTS)
    found = [
        f"A CSV file: one row of headers, then one row a bin, up to {MOST_BINS}. Columns stand in any order, parted by "
        "commas, semicolons or tabs; decimals have a point or a comma; lines that begin with # are remarks. The unit "
        "stands in the header: speed_rpm, speed [1/min], torque (kNm).",
        f"Needed: one of {one_of}; and a load, or range and mean.",
    ]
    for column in histogram.COLUMNS:
        names = ", ".join(column.names)
        units = ", ".join(unit for unit in column.units if unit != "-") or "none"
        found.append(f"{names} (units: {units}): {_MEANS[column.key]}.")
    found.append(
        "Equal bins are made one, which changes nothing. Weights do not follow the load; unbalance grows with the "
        "square of a bin's speed. The bins are kept in the record with what was taken for granted of the file, which "
        "is then needed no more."
    )
    return (*found, "Sample:", *_SAMPLE)


def read(path: Path, n: float | None) -> tuple[Bins, tuple[str, ...]]:
    """Return the bins of a file and what was taken for granted; raise Problems.

    `n` [rpm] is that of every bin where the file has no column for it. Loads in a unit of force or torque become
    factors on the greatest of them: the forces of the case are then those of that bin.
    """
    trouble = Trouble(str(path))
    content = trouble.content_of(path, LARGEST)
    held = histogram.read(content, path.name, n)
    spectrum, notes = held.spectrum, list(held.notes)
    if len(spectrum) > MOST_BINS:
        trouble.stop(f"holds {len(spectrum)} bins", f"at most {MOST_BINS}")
    if spectrum.unit != "-":
        greatest = float(spectrum.load.max())
        if not greatest > 0:
            trouble.stop("holds no load above 0", "a load in one bin at least")
        notes.append(
            f"The forces of the case are those at the greatest load of the file, {greatest:g} {spectrum.unit}."
        )
        spectrum = spectrum.factors(greatest)
    known = np.isfinite(spectrum.temperature)
    if known.any() and not known.all():
        trouble.stop("states a temperature for some bins only", "a temperature in every row or in none")
    share, speed, level = (tuple(column.tolist()) for column in (spectrum.share, spectrum.n, spectrum.load))
    temperature = tuple(spectrum.temperature.tolist()) if known.all() else ()
    kept = tuple(plain(note, LONGEST_NOTE) for note in notes[:MOST_NOTES])
    return Bins(path.name, share, speed, level, temperature, kept), tuple(notes)
