"""A result as tables, value by value: what a record holds and what is computed now take the same form."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

#: What is compared of a check and of a figure.
_OF_CHECK = ("demand", "capacity", "utilisation", "passes")
_OF_FIGURE = ("pair", "a", "b")
_WORDS = ("bearing_a", "bearing_b", "verdict")
_SIDES = {"a": "A", "b": "B", "pair": ""}


@dataclass(frozen=True)
class Value:
    """One stored or computed value: the key that finds it again, what it is called, its unit and its source."""

    key: str
    label: str
    value: Any
    unit: str = ""
    source: str = ""


def values(result: Mapping[str, Any], named: bool = True) -> dict[str, Value]:
    """Return every value of a result by its key, in order.

    Figures go by their own keys or, where not `named`, by their block and name, as records before 1.1 have them.
    What does not have the form of a result is left out; `broken` counts it.
    """
    found: dict[str, Value] = {}
    for key in _WORDS:
        if key in result:
            found[key] = Value(key, key.replace("_a", " A").replace("_b", " B"), result[key])
    for key, listed in result.items():
        # sentences of any kind: what is missing, assumed, to be minded
        if isinstance(listed, list) and all(isinstance(text, str) for text in listed):
            for text in listed:
                found.setdefault(f"{key}: {text}", Value(f"{key}: {text}", key, text))
    for one in (*_checks(result), *_figures(result, named)):
        place = one.key
        again = 2
        while place in found:
            place, again = f"{one.key} ({again})", again + 1
        found[place] = one
    return found


def _checks(result: Mapping[str, Any]) -> Iterator[Value]:
    for row in _rows(result, "checks"):
        name = f"{row.get('name', row.get('key', ''))}, {row.get('side', '')}"
        for what in _OF_CHECK:
            if what in row:
                unit = str(row.get("unit", "")) if what in {"demand", "capacity"} else ""
                key = f"check {row.get('key', '')} {row.get('side', '')} {what}"
                yield Value(key, f"{name}: {what}", row[what], unit, str(row.get("source", "")))


def _figures(result: Mapping[str, Any], named: bool) -> Iterator[Value]:
    for row in _rows(result, "figures"):
        block, name = row.get("block", ""), row.get("name", "")
        key = row.get("key", "") if named else f"{block} / {name}"
        for what in _OF_FIGURE:
            if what in row:
                side = _SIDES[what]
                label = f"{block}: {name}" + (f", {side}" if side else "")
                yield Value(f"{key} {what}", label, row[what], str(row.get("unit", "")), str(row.get("source", "")))


def _rows(result: Mapping[str, Any], key: str) -> Iterator[Mapping[str, Any]]:
    rows = result.get(key, [])
    return (row for row in (rows if isinstance(rows, list) else ()) if isinstance(row, Mapping))


def has_keys(result: Mapping[str, Any]) -> bool:
    """Return whether the figures of a result have keys of their own."""
    rows = list(_rows(result, "figures"))
    return bool(rows) and all(isinstance(row.get("key"), str) for row in rows)
