"""A file to a Record: every problem with file, key and, where the text shows it, the line."""

import re
import tomllib
from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any

from engine.answers.document import Answers
from engine.answers.plain import from_plain
from engine.errors import Problem, Problems, plain
from engine.record.carried.beside import Carried
from engine.record.carried.lines import Lines
from engine.record.carried.unknown import MADE_WITH, parted, unused
from engine.record.document import SCHEMA, Record, Stored
from engine.record.migrate import migrate

LARGEST = 5_000_000
#: A record has four tables within one another; what is nested deeper than this was made to do harm.
_DEEPEST = 40
#: What is longer cannot be shown at all; an answer up to that is refused by its own question, with its line. In a
#: result stand the whole numbers of TOML.
_MOST_BITS, _BITS_OF_RESULT = 10_000, 64
_VERSION = re.compile(r"(\d{1,4})\.(\d{1,4})", re.ASCII)
_AT_LINE = re.compile(r"\(at line (\d+), column (\d+)\)")


def read(path: Path) -> Record:
    """Return the record in a file; raise Problems with everything that is wrong with it."""
    return parse(_bytes(path), str(path))


def _bytes(path: Path) -> bytes:
    accepted = "a Conewright design record (TOML)"
    try:
        if not path.is_file():
            wrong = "is a folder or device" if path.exists() else "there is no such file"
            raise Problems([Problem(str(path), None, "", wrong, accepted)])
        if path.stat().st_size > LARGEST:
            raise Problems([Problem(str(path), None, "", "the file is larger than 5 MB", accepted)])
        return path.read_bytes()
    except (OSError, ValueError) as error:
        wrong = getattr(error, "strerror", None) or str(error)
        raise Problems([Problem(str(path), None, "", f"cannot be read: {wrong}", accepted)]) from None


def parse(data: bytes, file: str = "") -> Record:
    """Return the record in some bytes; raise Problems.

    A key that is not known is no problem: it is kept, and goes into the file again. It may be an answer misspelt, so
    that the record says it in `unused`, and every command that uses the record says it too.
    """
    text, tables = _tables(data, file)
    lines = Lines(text)
    stated = str(tables.get("schema", ""))
    version, newer = _version(tables, file, lines)
    tables, told = migrate(tables, version, SCHEMA)
    known, unknown = parted(tables)
    problems: list[Problem] = []
    answers = Answers()
    given = known.get("answers", {})
    if isinstance(given, Mapping):
        answers, found = from_plain(given, file)
        problems += found
    else:
        problems.append(Problem(file, None, "answers", "this is not a table", "a table [answers]"))
    made, made_problems = _made_with(known.get("made_with", {}), file)
    stored, stored_problems = _stored(known.get("result", {}), file)
    problems += [*made_problems, *stored_problems]
    if problems:
        raise Problems([replace(problem, line=lines.of(problem.field)) for problem in problems])
    return Record(
        answers, made["conewright"], made["catalogue"], made["catalogue_sha256"], stored,
        (f"The record was written by a newer version ({newer}); read as {SCHEMA}.",) if newer else (told,) * bool(told),
        schema=newer or SCHEMA, found=tables.get("result", {}), found_made_with=tables.get("made_with", {}),
        found_schema=stated,
        carried=Carried.of(text, tables, unknown), unused=unused(unknown, file, lines, bool(newer)),
        lines=lines,
    )  # fmt: skip


def _tables(data: bytes, file: str) -> tuple[str, dict[str, Any]]:
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        raise Problems([Problem(file, line, "", "this is not UTF-8 text", "a TOML file saved as UTF-8")]) from None
    try:
        tables = tomllib.loads(text)
        if _deeper(tables, _DEEPEST):
            problem = Problem(file, None, "", "this is not a record: nested too deeply", "TOML tables")
        elif _bits(tables) > _MOST_BITS or _bits(tables.get("result")) > _BITS_OF_RESULT:
            problem = Problem(
                file, None, "", "this is not a record: a number too long", "whole numbers of at most 19 digits"
            )
        else:
            return text, tables
    except tomllib.TOMLDecodeError as error:
        where = _AT_LINE.search(str(error))
        wrong = plain(str(error).partition(" (at ")[0])
        # without a place it is the end of the text that came too soon
        line = int(where[1]) if where else text.rstrip().count("\n") + 1
        problem = Problem(file, line, "", f"this is not TOML: {wrong}", "key = value lines")
    except (RecursionError, ValueError):  # nested without end; an integer of a million digits
        problem = Problem(file, None, "", "this is not a record: nested too deeply or a number too long", "TOML tables")
    raise Problems([problem])


def _deeper(tables: Mapping[str, Any], most: int) -> bool:
    """Return whether tables and lists stand within one another more than so many times."""
    layer: list[Any] = [tables]
    for _ in range(most):
        held = [inner for value in layer for inner in (value.values() if isinstance(value, Mapping) else value)]
        layer = [value for value in held if isinstance(value, Mapping | list)]
        if not layer:
            return False
    return True


def _bits(value: object) -> int:
    """Return how many bits the longest whole number within tables and lists takes."""
    if isinstance(value, Mapping | list):
        return max(map(_bits, value.values() if isinstance(value, Mapping) else value), default=0)
    return value.bit_length() if isinstance(value, int) else 0


def _version(tables: dict[str, Any], file: str, lines: Lines) -> tuple[str, str]:
    """Return the version of the record, and again where it is newer than ours; raise Problems where it is none."""
    version = tables.get("schema")
    match = _VERSION.fullmatch(version) if isinstance(version, str) else None
    accepted = f'schema = "{SCHEMA}"'
    if match is None:
        wrong = "the schema version is missing" if version is None else f"{version!r} is not a schema version"
        raise Problems([Problem(file, lines.of("schema"), "schema", plain(wrong), accepted)])
    major, minor = int(match[1]), int(match[2])
    ours_major, ours_minor = (int(part) for part in SCHEMA.split("."))
    if major > ours_major:
        wrong = f"version {version} is newer than this program, which knows {SCHEMA}"
        raise Problems([Problem(file, lines.of("schema"), "schema", wrong, f"{accepted}, or a newer conewright")])
    if major < 1:
        raise Problems([Problem(file, lines.of("schema"), "schema", f"there never was a version {version}", accepted)])
    plainly = f"{major}.{minor}"
    return plainly, plainly if (major, minor) > (ours_major, ours_minor) else ""


def _made_with(table: object, file: str) -> tuple[dict[str, str], list[Problem]]:
    if not isinstance(table, Mapping):
        problem = Problem(file, None, "made_with", "this is not a table", "a table [made_with]")
        return dict.fromkeys(MADE_WITH, ""), [problem]
    problems = []
    for key, value in table.items():
        if not isinstance(value, str) or len(value) > 300:
            wrong = "this is not a line of text"
            problems.append(Problem(file, None, f"made_with.{key}", wrong, "a name or version in quotes"))
    return {key: plain(str(table.get(key, ""))) for key in MADE_WITH}, problems


def _stored(table: object, file: str) -> tuple[tuple[Stored, ...], list[Problem]]:
    """Return the stored utilisations; the rest of a result is computed anew, so it is not read."""
    accepted = "what Conewright wrote there; the whole [result] may be deleted, it is computed anew"
    checks = table.get("checks", []) if isinstance(table, Mapping) else None
    if not isinstance(checks, list):
        return (), [Problem(file, None, "result", "this does not hold checks", accepted)]
    found, problems = [], []
    for index, check in enumerate(checks):
        key, side, utilisation = (
            (check.get("key"), check.get("side"), check.get("utilisation"))
            if isinstance(check, Mapping)
            else (None,) * 3
        )
        if isinstance(key, str) and isinstance(side, str) and isinstance(utilisation, float):
            found.append(Stored(plain(key), plain(side), utilisation))
        else:
            problems.append(Problem(file, None, f"result.checks[{index}]", "this is not a stored check", accepted))
    return tuple(found), problems[:5]
