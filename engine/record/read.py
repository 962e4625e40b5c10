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
from engine.record.document import SCHEMA, Record, Stored
from engine.record.migrate import migrate

LARGEST = 5_000_000
_TOP = ("schema", "made_with", "answers", "result")
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
    """Return the record in some bytes; raise Problems."""
    text, tables = _tables(data, file)
    tables, warnings = _version(tables, file, line_of(text, "schema"))
    problems = [_unknown(file, key) for key in tables if key not in _TOP]
    answers = Answers()
    given = tables.get("answers", {})
    if isinstance(given, Mapping):
        answers, found = from_plain(given, file)
        problems += found
    else:
        problems.append(Problem(file, None, "answers", "this is not a table", "a table [answers]"))
    made, made_problems = _made_with(tables.get("made_with", {}), file)
    stored, stored_problems = _stored(tables.get("result", {}), file)
    problems += [*made_problems, *stored_problems]
    if problems:
        raise Problems([replace(problem, line=line_of(text, problem.field)) for problem in problems])
    return Record(answers, made["conewright"], made["catalogue"], made["catalogue_sha256"], stored, tuple(warnings))


def _tables(data: bytes, file: str) -> tuple[str, dict[str, Any]]:
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        raise Problems([Problem(file, line, "", "this is not UTF-8 text", "a TOML file saved as UTF-8")]) from None
    try:
        return text, tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        where = _AT_LINE.search(str(error))
        wrong = plain(str(error).partition(" (at ")[0])
        problem = Problem(file, int(where[1]) if where else None, "", f"this is not TOML: {wrong}", "key = value lines")
    except (RecursionError, ValueError):  # nested without end; an integer of a million digits
        problem = Problem(file, None, "", "this is not a record: nested too deeply or a number too long", "TOML tables")
    raise Problems([problem])


def _version(tables: dict[str, Any], file: str, line: int | None) -> tuple[dict[str, Any], list[str]]:
    version = tables.get("schema")
    match = _VERSION.fullmatch(version) if isinstance(version, str) else None
    accepted = f'schema = "{SCHEMA}"'
    if match is None:
        wrong = "the schema version is missing" if version is None else f"{version!r} is not a schema version"
        raise Problems([Problem(file, line, "schema", plain(wrong), accepted)])
    major, minor = int(match[1]), int(match[2])
    ours_major, ours_minor = (int(part) for part in SCHEMA.split("."))
    if major > ours_major:
        wrong = f"version {version} is newer than this program, which knows {SCHEMA}"
        raise Problems([Problem(file, line, "schema", wrong, f"{accepted}, or a newer conewright")])
    if major < 1:
        raise Problems([Problem(file, line, "schema", f"there never was a version {version}", accepted)])
    warnings = []
    if (major, minor) > (ours_major, ours_minor):
        warnings.append(f"The record was written by a newer version ({version}); read as {SCHEMA}.")
    return migrate(tables, major, ours_major), warnings


def _made_with(table: object, file: str) -> tuple[dict[str, str], list[Problem]]:
    keys = ("conewright", "catalogue", "catalogue_sha256")
    if not isinstance(table, Mapping):
        return dict.fromkeys(keys, ""), [Problem(file, None, "made_with", "this is not a table", "a table [made_with]")]
    problems = [
        Problem(file, None, f"made_with.{key}", "this is not a line of text", "a name or version in quotes")
        for key, value in table.items()
        if not isinstance(value, str) or len(value) > 300
    ]
    return {key: plain(str(table.get(key, ""))) for key in keys}, problems


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


def _unknown(file: str, key: str) -> Problem:
    return Problem(file, None, key, "a record has no such key or table", ", ".join(_TOP))


_HEADER = re.compile(r"\s*(\[\[?)\s*([A-Za-z0-9_.\-]+)\s*\]\]?\s*(?:#.*)?$")
_KEY = re.compile(r"\s*([A-Za-z0-9_\-]+)\s*=")


def line_of(text: str, path: str) -> int | None:
    """Return the line on which a key path stands, or None where the text does not show it plainly.

    Knows what this program writes: bare keys under [table] and [[list]] headers. Inline tables, dotted keys and
    multi-line texts give None rather than a guess.
    """
    if '"""' in text or "'''" in text:
        return None
    at: list[int] = []
    section = ""
    seen: dict[str, int] = {}
    # not splitlines(): it also breaks at characters that may stand within a TOML text
    for number, line in enumerate(text.split("\n"), 1):
        header, key = _HEADER.match(line), _KEY.match(line)
        if header:
            section = header[2]
            if header[1] == "[[":
                seen[section] = seen.get(section, -1) + 1
                section = f"{section}[{seen[section]}]"
            else:
                # a table within the last item of a list
                of = next((name for name in seen if section.startswith(f"{name}.")), None)
                section = f"{of}[{seen[of]}]{section[len(of) :]}" if of is not None else section
            if section == path:
                at.append(number)
        elif key and (f"{section}.{key[1]}" if section else key[1]) == path:
            at.append(number)
    return at[0] if len(at) == 1 else None
