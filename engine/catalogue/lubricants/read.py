"""TOML to lubricants: every wrong entry named by file, line and key, all of them in one go."""

import functools
import math
import re
import tomllib
from pathlib import Path
from typing import TYPE_CHECKING, Any

from engine.catalogue.lubricants.keys import KEYS, Key
from engine.errors import MOST_LISTED, Problem, Problems, nearest, plain
from engine.lubrication.lubricant import Lubricant
from engine.lubrication.viscosity import nu40_of_grade
from engine.lubrication.viscosity_index import nu100_of_index

if TYPE_CHECKING:
    from importlib.resources.abc import Traversable

LARGEST_FILE = 1_000_000
MOST_ENTRIES = 2_000
_ACCEPTED = "a table of lubricants (TOML) with [[lubricant]] entries"
_AT_LINE = re.compile(r"\(at line (\d+), column (\d+)\)")
_KEY_LINE = re.compile(r"\s*([A-Za-z0-9_]+)\s*=")
_ENTRY_LINE = re.compile(r"\s*\[\[\s*lubricant\s*\]\]")


@functools.cache
def builtin() -> tuple[Lubricant, ...]:
    """Return the generic lubricants that come with the program."""
    from importlib.resources import files

    return read(files("catalogs").joinpath("lubricants.toml"))


def read(path: "str | Path | Traversable") -> tuple[Lubricant, ...]:
    """Return the lubricants in a file, or raise Problems with everything that is wrong with it."""
    source = Path(path) if isinstance(path, str) else path
    return parse(_bytes(source, str(path)), str(path))


def named(lubricants: tuple[Lubricant, ...], name: str) -> Lubricant:
    """Return the lubricant of a name; one that is not there raises Problems with the nearest spelling."""
    for lubricant in lubricants:
        if lubricant.name == name:
            return lubricant
    names = [lubricant.name for lubricant in lubricants]
    wrong = f'no lubricant is named "{plain(name)}"'
    raise Problems([Problem("", None, "lubricant", wrong, f"one of the {len(names)} names", nearest(name, names))])


def _bytes(source: "Path | Traversable", file: str) -> bytes:
    try:
        with source.open("rb") as opened:
            content = opened.read(LARGEST_FILE + 1)
    except (OSError, ValueError) as error:
        # ValueError: a path with a NUL character in it
        wrong = getattr(error, "strerror", None) or str(error)
        raise Problems([Problem(file, None, "", f"cannot be read: {wrong}", _ACCEPTED)]) from None
    if len(content) > LARGEST_FILE:
        raise Problems([Problem(file, None, "", "the file is larger than 1 MB", _ACCEPTED)])
    return content


def parse(content: bytes, file: str = "") -> tuple[Lubricant, ...]:
    """Return the lubricants in some bytes; raise Problems."""
    text, tables = _tables(content, file)
    lines = _lines(text)
    problems = [
        Problem(file, None, key, "is not known here", "[[lubricant]]", nearest(key, ["lubricant"]))
        for key in tables
        if key != "lubricant"
    ]
    entries = tables.get("lubricant", [])
    if not isinstance(entries, list) or not entries or not all(isinstance(entry, dict) for entry in entries):
        problems.append(Problem(file, None, "lubricant", "there is no entry", _ACCEPTED))
        entries = []
    if len(entries) > MOST_ENTRIES:
        problems.append(Problem(file, None, "lubricant", f"holds more than {MOST_ENTRIES} entries", _ACCEPTED))
        entries = []
    found: list[Lubricant] = []
    for index, entry in enumerate(entries):
        reading = _Entry(file, index, entry, lines)
        lubricant = reading.lubricant({one.name for one in found})
        problems += reading.problems
        if lubricant is not None:
            found.append(lubricant)
    if problems:
        raise Problems(problems[:MOST_LISTED], max(0, len(problems) - MOST_LISTED))
    return tuple(found)


def _tables(content: bytes, file: str) -> tuple[str, dict[str, Any]]:
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = content.count(b"\n", 0, error.start) + 1
        raise Problems([Problem(file, line, "", "this is not UTF-8 text", "a TOML file saved as UTF-8")]) from None
    try:
        return text, tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        where = _AT_LINE.search(str(error))
        wrong = plain(str(error).partition(" (at ")[0])
        problem = Problem(file, int(where[1]) if where else None, "", f"this is not TOML: {wrong}", "key = value lines")
    except (RecursionError, ValueError):  # nested without end; an integer of a million digits
        problem = Problem(file, None, "", "nested too deeply or a number too long", _ACCEPTED)
    raise Problems([problem])


def _lines(text: str) -> dict[tuple[int, str], int]:
    """Return the line of each key of each entry, "" for the entry itself; nothing where texts span lines."""
    found: dict[tuple[int, str], int] = {}
    if '"""' in text or "'''" in text:
        return found
    entry = -1
    for number, line in enumerate(text.split("\n"), 1):
        key = _KEY_LINE.match(line)
        if _ENTRY_LINE.match(line):
            entry += 1
            found[entry, ""] = number
        elif key:
            found.setdefault((entry, key[1]), number)
    return found


class _Entry:
    """One [[lubricant]] table: hands out its values and gathers what is wrong with them."""

    def __init__(self, file: str, index: int, table: dict[str, Any], lines: dict[tuple[int, str], int]) -> None:
        self.file, self.index, self.table, self.lines = file, index, table, lines
        self.problems: list[Problem] = []

    def wrong(self, key: str, wrong: str, accepted: str, close: str = "") -> None:
        line = self.lines.get((self.index, key), self.lines.get((self.index, "")))
        path = f"lubricant[{self.index}]" + (f".{key}" if key else "")
        self.problems.append(Problem(self.file, line, path, wrong, accepted, close))

    def lubricant(self, names: set[str]) -> Lubricant | None:
        """Return the lubricant, or None where anything was wrong."""
        for key in self.table:
            if key not in KEYS:
                self.wrong(key, "is not known here", ", ".join(KEYS), nearest(key, list(KEYS)))
        values = {name: self._value(name, key) for name, key in KEYS.items()}
        if values["name"] in names:
            self.wrong("name", f'"{plain(values["name"])}" stands in an earlier entry', "a name of its own")
        if not self.problems:
            self._viscosities(values)
        if not self.problems:
            self._together(values)
        return None if self.problems else Lubricant(**{key.field: values[name] for name, key in KEYS.items()})

    def _value(self, name: str, key: Key) -> Any:
        value = self.table.get(name)
        if value is None:
            if key.required:
                self.wrong(name, "is missing", key.accepted)
            return key.default
        if not key.holds(value):
            shown = str(value).lower() if isinstance(value, bool) else str(value)
            close = nearest(value, key.choices) if isinstance(value, str) else ""
            self.wrong(name, f'"{plain(shown)}" cannot stand here', key.accepted, close)
            return key.default
        return float(value) if key.kind == "number" else value

    def _viscosities(self, values: dict[str, Any]) -> None:
        """Fill in the viscosities that a grade and an index stand for."""
        given = [values[name] is not None for name in ("iso_vg", "vi", "nu40_mm2_s", "nu100_mm2_s")]
        if given == [True, True, False, False]:
            values["nu40_mm2_s"] = float(nu40_of_grade(values["iso_vg"]))
            values["nu100_mm2_s"] = float(nu100_of_index(values["nu40_mm2_s"], values["vi"]))
            if math.isnan(values["nu100_mm2_s"]):
                self.wrong(
                    "vi", "no viscosity at 100 degC goes with this grade and index", "nu40_mm2_s and nu100_mm2_s"
                )
        elif given[2:] != [True, True] or given[1]:
            self.wrong("", "the viscosity is not stated once", "iso_vg and vi, or nu40_mm2_s and nu100_mm2_s")

    def _together(self, values: dict[str, Any]) -> None:
        """Note figures that contradict each other."""
        if values["nu100_mm2_s"] >= values["nu40_mm2_s"]:
            self.wrong("nu100_mm2_s", "is not below the viscosity at 40 degC", "an oil that thins as it warms")
        if values["least_degC"] >= values["greatest_degC"]:
            self.wrong("least_degC", "is not below the greatest temperature", "the colder of both")
        for name in ("nlgi", "thickener", "bleed"):
            stated = values[name] not in (None, "")
            if values["form"] == "oil" and stated:
                self.wrong(name, "is stated of an oil", "nothing, or form = grease")
            if values["form"] == "grease" and not stated and name != "bleed":
                self.wrong(name, "is missing", KEYS[name].accepted)
