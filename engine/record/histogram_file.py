"""A file with a measured histogram to the answer that a record keeps."""

from pathlib import Path

import numpy as np

from engine.answers.binned import MOST_BINS, Bins
from engine.catalogue.trouble import Trouble
from engine.duty import histogram

LARGEST = 20_000_000


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
    return Bins(path.name, share, speed, level, temperature), tuple(notes)
