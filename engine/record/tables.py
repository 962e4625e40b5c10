"""Nested tables to TOML text with a layout that never depends on the values.

tomli-w decides by line length whether a list of tables is written inline; a record is read in differences, so the
headers are written here and tomli-w formats the values.
"""

from collections.abc import Iterator, Mapping
from typing import Any

import tomli_w


def to_toml(tables: Mapping[str, Any]) -> str:
    """Return TOML: plain keys first, then sub-tables in order, lists of tables always as [[headers]]."""
    return "\n".join(_lines((), tables)).strip("\n") + "\n"


def _lines(path: tuple[str, ...], table: Mapping[str, Any]) -> Iterator[str]:
    plain = {key: value for key, value in table.items() if not _is_nested(value)}
    if plain:
        yield tomli_w.dumps(plain)
    for key, value in table.items():
        if not _is_nested(value):
            continue
        header = ".".join(_key(part) for part in (*path, key))
        items = [value] if isinstance(value, Mapping) else value
        for item in items:
            if isinstance(value, list) or not item or any(not _is_nested(inner) for inner in item.values()):
                yield f"[[{header}]]" if isinstance(value, list) else f"[{header}]"
            yield from _lines((*path, key), item)


def _is_nested(value: object) -> bool:
    if isinstance(value, Mapping):
        return True
    return isinstance(value, list) and bool(value) and all(isinstance(item, Mapping) for item in value)


def _key(part: str) -> str:
    bare = part and all(c.isascii() and (c.isalnum() or c in "-_") for c in part)
    return part if bare else tomli_w.dumps({part: 0}).rpartition(" = ")[0]
