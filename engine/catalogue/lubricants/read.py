"""TOML to lubricants: every wrong entry named by file, line and key, all of them in one go."""

import functools
import re
import tomllib
from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING, Any

from engine.catalogue.lubricants.entry import Fault, lubricant_of
from engine.errors import MOST_LISTED, Problem, Problems, nearest, plain
from engine.lubrication.lubricant import Lubricant

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
    return tuple(lubricant for lubricant, _ in entries(content, file))


def read_entries(path: Path, taken: Iterable[str] = ()) -> list[tuple[Lubricant, dict[str, Any]]]:
    """Return the lubricants in a file, each with its entry; `taken` are names that no entry may have. Raises Problems.

    The names are those of another table, beside which these lubricants are offered.
    """
    return entries(_bytes(path, str(path)), str(path), taken)


def entries(content: bytes, file: str = "", taken: Iterable[str] = ()) -> list[tuple[Lubricant, dict[str, Any]]]:
    """Return the lubricants in some bytes, each with its entry; raise Problems."""
    text, tables = _tables(content, file)
    lines = _lines(text)
    problems = [
        Problem(file, None, key, "is not known here", "[[lubricant]]", nearest(key, ["lubricant"]))
        for key in tables
        if key != "lubricant"
    ]
    found: list[tuple[Lubricant, dict[str, Any]]] = []
    names: set[str] = set()
    elsewhere = frozenset(taken)
    for index, entry in enumerate(_listed(tables, file, problems)):
        lubricant, faults = lubricant_of(entry)
        name = entry.get("name")
        if isinstance(name, str) and name in names | elsewhere:
            where = "in an earlier entry" if name in names else "in the built-in list"
            faults.append(Fault("name", f'"{plain(name)}" stands {where}', "a name of its own"))
        problems += [_problem(file, index, fault, lines) for fault in faults]
        if lubricant is not None:
            found.append((lubricant, entry))
            names.add(lubricant.name)
    if problems:
        raise Problems(problems[:MOST_LISTED], max(0, len(problems) - MOST_LISTED))
    return found


def _listed(tables: dict[str, Any], file: str, problems: list[Problem]) -> list[dict[str, Any]]:
    """Return the tables of the entries; none, and a problem, where there are none or far too many."""
    listed = tables.get("lubricant", [])
    if not isinstance(listed, list) or not listed or not all(isinstance(entry, dict) for entry in listed):
        problems.append(Problem(file, None, "lubricant", "there is no entry", _ACCEPTED))
        return []
    if len(listed) > MOST_ENTRIES:
        problems.append(Problem(file, None, "lubricant", f"holds more than {MOST_ENTRIES} entries", _ACCEPTED))
        return []
    return listed


def _problem(file: str, index: int, fault: Fault, lines: dict[tuple[int, str], int]) -> Problem:
    line = lines.get((index, fault.key), lines.get((index, "")))
    path = f"lubricant[{index}]" + (f".{fault.key}" if fault.key else "")
    return Problem(file, line, path, fault.wrong, fault.accepted, fault.nearest)


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
