"""A question answered with a table: a measured load histogram, kept in the record itself."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, ClassVar

import msgspec

from engine.answers.question import Plain, Question, Refused, line_of_text
from engine.errors import plain
from engine.units import number_text

MOST_BINS = 5000
#: What was taken for granted when the file was read: so many sentences of so many characters are kept.
MOST_NOTES, LONGEST_NOTE = 20, 300
_LIFE_EXPONENT = 10 / 3
#: The columns of a histogram in a record: key, least, greatest.
COLUMNS = (
    ("share", 0.0, 1e12),
    ("speed_rpm", 0.0, 100_000.0),
    ("level", 0.0, 1e6),
    ("temperature_degC", -60.0, 400.0),
)
#: What stands in each key of a histogram.
SAID = {
    "file": "Name of the CSV file that the bins were read from.",
    "notes": "What was taken for granted of the file.",
    "share": "Share of each bin in the running time of its case; the sum is taken for the whole.",
    "speed_rpm": "Speed of each bin, in rpm.",
    "level": "What the forces of the case are multiplied by in each bin.",
    "temperature_degC": "Temperature of the bearings in each bin, in degC; left out where it is not known.",
}


class Bins(msgspec.Struct, frozen=True):
    """A histogram: the file's name, and for each bin its share [-], speed [rpm], level [-] and temperature [deg C].

    The level multiplies the forces of the case. Temperatures are none at all where the file does not state them.
    `notes` are what was taken for granted of the file, which the record then needs no more.
    """

    file: str
    share: tuple[float, ...]
    speed: tuple[float, ...]
    level: tuple[float, ...]
    temperature: tuple[float, ...] = ()
    notes: tuple[str, ...] = ()

    def __len__(self) -> int:
        return len(self.share)


@dataclass(frozen=True, kw_only=True)
class Histogram(Question):
    """A histogram out of a CSV file; what is typed is the file's name, and whoever asks reads it."""

    kind: ClassVar[str] = "histogram"
    inner: ClassVar[tuple[str, ...]] = ("file", "notes", *(key for key, *_ in COLUMNS))

    def accepted(self) -> str:
        """Return what the file must hold."""
        return "the name of a CSV file with columns such as share_percent, speed_rpm, load_factor"

    def parse(self, text: str) -> Bins:
        """Refuse: a name is not yet a histogram."""
        raise Refused(f'"{plain(text)}" has not been read', self.accepted())

    def show(self, value: Bins) -> str:
        """Return the file's name, how many bins it holds, and the one speed and load factor that they come to."""
        total = sum(value.share)
        turns = [q * n for q, n in zip(value.share, value.speed, strict=True)]
        mean = sum(turns) / total if total else 0.0
        said = f"{len(value)} bins of {plain(value.file, 30)}, mean speed {number_text(mean, 4)} rpm"
        if not sum(turns):
            return said
        # Palmgren-Miner as `engine.rating.life.mean_load` has it, without the arrays: this is shown before they load
        damage = sum(one * level**_LIFE_EXPONENT for one, level in zip(turns, value.level, strict=True)) / sum(turns)
        return f"{said}, equivalent constant load factor {number_text(damage ** (1 / _LIFE_EXPONENT), 3)}"

    def to_plain(self, name: str, value: Bins) -> Plain:
        """Return the histogram as a table of columns."""
        columns = (value.share, value.speed, value.level, value.temperature)
        kept = {key: list(column) for (key, _, _), column in zip(COLUMNS, columns, strict=True) if column}
        said = {"notes": list(value.notes)} if value.notes else {}
        return {name: {"file": value.file} | said | kept}

    def from_plain(self, name: str, table: Mapping[str, Any]) -> Bins:
        """Return the histogram kept in a record."""
        held = table[name]
        accepted = "a table with file, share, speed_rpm, level and, where known, temperature_degC and notes"
        if not isinstance(held, Mapping):
            raise Refused(f"{name} is not a table", accepted)
        unknown = set(held) - set(self.inner)
        if unknown:
            raise Refused(f"{name} has no {plain(sorted(unknown)[0])}", accepted)
        file = line_of_text(f"{name}.file", held.get("file", ""), "the name of the file", 300)
        columns = [_column(held, name, *column) for column in COLUMNS]
        if not columns[0] or any(len(column) != len(columns[0]) for column in columns[:3]):
            raise Refused(f"{name} has columns of different lengths, or none", accepted)
        if columns[3] and len(columns[3]) != len(columns[0]):
            raise Refused(f"{name}.temperature_degC has another length", accepted)
        share, speed, level, temperature = columns
        return Bins(file, share, speed, level, temperature, _notes(held, name))


def _notes(held: Mapping[str, Any], name: str) -> tuple[str, ...]:
    notes, accepted = held.get("notes", []), f"up to {MOST_NOTES} sentences of {LONGEST_NOTE} characters"
    if not isinstance(notes, list) or len(notes) > MOST_NOTES:
        raise Refused(f"{name}.notes is not a list of sentences, or too long", accepted)
    return tuple(line_of_text(f"{name}.notes[{at}]", note, accepted, LONGEST_NOTE) for at, note in enumerate(notes))


def _column(held: Mapping[str, Any], name: str, key: str, least: float, greatest: float) -> tuple[float, ...]:
    values = held.get(key, [])
    accepted = f"up to {MOST_BINS} numbers from {number_text(least)} to {number_text(greatest)}"
    if not isinstance(values, list) or len(values) > MOST_BINS:
        raise Refused(f"{name}.{key} is not a list of numbers, or too long", accepted)
    for at, value in enumerate(values):
        good = isinstance(value, int | float) and not isinstance(value, bool) and least <= value <= greatest
        if not good:
            raise Refused(f"{name}.{key}[{at}] is {plain(value, 30)}", accepted)
    return tuple(float(value) for value in values)
