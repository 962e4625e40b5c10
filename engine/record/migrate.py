"""Older records to today's layout, one small step a version, plain table to plain table, each with what it changes."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

Tables = dict[str, Any]


def _as_they_are(tables: Tables) -> Tables:
    """Return the tables of a version that only had less: what was not asked for then is an open question now."""
    return tables


@dataclass(frozen=True)
class Step:
    """The way from one version to the next: the version it leads to, what is new there, and what it does to tables."""

    to: str
    new: str
    change: Callable[[Tables], Tables] = _as_they_are


#: From each schema version ever written to the next; 1.0 is the first.
STEPS: Mapping[str, Step] = {
    "1.0": Step("1.1", "fits and setting are asked for, open questions of them are assumed, and results are sealed"),
}


def migrate(tables: Tables, version: str, wanted: str) -> tuple[Tables, str]:
    """Return the tables brought from a version to the wanted one, and in a sentence what has changed since.

    A version without a step is left as it is and nothing is said: it is the wanted one or a newer one.
    """
    was, told = version, []
    while version != wanted and version in STEPS:
        step = STEPS[version]
        tables = step.change(tables)
        told.append(f"New in {step.to}: {step.new}.")
        version = step.to
    return tables, " ".join([f"The record is of layout {was}, read as {version}.", *told]) if told else ""
