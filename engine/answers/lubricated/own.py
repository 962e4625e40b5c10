"""A lubricant of the user's own list, as an answer: kept with all its figures, so that the list is needed no more.

The table is imported where it is used: the first screen needs none of it.
"""

from collections.abc import Mapping
from pathlib import Path
from typing import Any

import msgspec

from engine.answers.question import Plain, Refused, line_of_text
from engine.errors import Problems, plain
from engine.lubrication.lubricant import Lubricant

LONGEST_FILE = 300
_ACCEPTED = "a table as in a lubricant file, with file = its name"


class OwnLubricant(msgspec.Struct, frozen=True):
    """An entry of a list of the user's own: the file's name, and what the entry states, in the order of its keys."""

    file: str
    stated: tuple[tuple[str, Any], ...]

    @property
    def name(self) -> str:
        """What it is called."""
        return str(dict(self.stated)["name"])

    @property
    def form(self) -> str:
        """Whether it is an oil or a grease."""
        return str(dict(self.stated)["form"])

    @property
    def lubricant(self) -> Lubricant:
        """The lubricant with its viscosities."""
        from engine.catalogue.lubricants.entry import lubricant_of

        made, _ = lubricant_of(dict(self.stated))
        assert made is not None  # what does not hold is refused before it becomes an answer
        return made

    @property
    def source(self) -> str:
        """Where its figures come from, for whoever reads them."""
        return f"lubricant list of your own, {plain(self.file, 60)}" if self.file else "lubricant of your own"


def own(path: Path) -> tuple[OwnLubricant, ...]:
    """Return the lubricants in a file of the user's own, in its order; raise Problems.

    A name of the built-in list is refused, since a name must mean one lubricant.
    """
    from engine.catalogue.lubricants.names import builtin_names
    from engine.catalogue.lubricants.read import read_entries

    return tuple(_of(path.name, entry) for _, entry in read_entries(path, builtin_names()))


def offered(path: Path | None) -> tuple[tuple[OwnLubricant, ...], str]:
    """Return the lubricants of a list of the user's own, None for no list; none where it cannot be used, and why."""
    try:
        return (own(path) if path is not None else ()), ""
    except Problems as problems:
        more = len(problems.problems) + problems.more - 1
        return (), f"{problems.problems[0]}" + (f", and {more} more" if more else "")


def _of(file: str, entry: Mapping[str, Any]) -> OwnLubricant:
    from engine.catalogue.lubricants.keys import KEYS

    kept = ((key, entry[key]) for key in KEYS if entry.get(key) is not None)
    stated = tuple((key, float(value) if KEYS[key].kind == "number" else value) for key, value in kept)
    return OwnLubricant(plain(file, LONGEST_FILE), stated)


def to_table(value: OwnLubricant) -> Plain:
    """Return it as a table of a record."""
    return ({"file": value.file} if value.file else {}) | dict(value.stated)


def of_table(name: str, held: Mapping[str, Any]) -> OwnLubricant:
    """Return the lubricant that a table of a record states; raise Refused with the first thing that is wrong."""
    from engine.catalogue.lubricants.entry import lubricant_of

    file = line_of_text(f"{name}.file", held.get("file", ""), "the name of the file", LONGEST_FILE)
    entry = {key: value for key, value in held.items() if key != "file"}
    _, faults = lubricant_of(entry)
    if faults:
        first, close = faults[0], f"; did you mean {faults[0].nearest}?" if faults[0].nearest else ""
        raise Refused(f"{first.key or name} {first.wrong}{close}", first.accepted or _ACCEPTED, first.key)
    return _of(file, entry)
