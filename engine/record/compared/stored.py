"""A result as tables, value by value: what a record holds and what is computed now take the same form."""

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

#: What is compared of a check and of a figure.
NUMBERS = ("demand", "capacity", "utilisation", "passes")
_OF_FIGURE = ("pair", "a", "b")
_WORDS = ("bearing_a", "bearing_b", "verdict")
_SIDES = {"a": "A", "b": "B", "pair": ""}
#: The words of a check and of a figure: they say what its numbers mean.
_SAID_OF_CHECK = ("name", "unit", "source", "advisory")
_SAID_OF_FIGURE = ("block", "name", "unit", "source", "estimated_for")


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
        found[_free(one.key, found)] = one
    return found


def said(result: Mapping[str, Any], named: bool = True) -> dict[str, dict[str, Value]]:
    """Return the words of a result by row and by what they are: unit, source and name of each check and figure.

    A row is a check or a figure; the notice is one by itself. `named` is as in `values`. What a row does not state is
    left out.
    """
    notice = {"notice": Value("notice", "notice", result["notice"])} if "notice" in result else {}
    found: dict[str, dict[str, Value]] = {"notice": notice}
    for row in _rows(result, "checks"):
        key, label = _check_key(row), _check_label(row)
        _add(found, key, label, row, _SAID_OF_CHECK)
    for row in _rows(result, "figures"):
        _add(found, _figure_key(row, named), f"{row.get('block', '')}: {row.get('name', '')}", row, _SAID_OF_FIGURE)
    return found


def _add(
    found: dict[str, dict[str, Value]], key: str, label: str, row: Mapping[str, Any], names: tuple[str, ...]
) -> None:
    place = _free(key, found)
    found[place] = {
        name: Value(f"{place} {name}", f"{label}: {name.replace('_', ' ')}", row[name]) for name in names if name in row
    }


def _free(key: str, taken: Mapping[str, Any]) -> str:
    """Return a key, numbered where it is taken: a block and a name do not always tell two figures apart."""
    place, again = key, 2
    while place in taken:
        place, again = f"{key} ({again})", again + 1
    return place


def _checks(result: Mapping[str, Any]) -> Iterator[Value]:
    for row in _rows(result, "checks"):
        name = _check_label(row)
        for what in NUMBERS:
            if what in row:
                unit = str(row.get("unit", "")) if what in {"demand", "capacity"} else ""
                key = f"{_check_key(row)} {what}"
                yield Value(key, f"{name}: {what}", row[what], unit, str(row.get("source", "")))


def _figures(result: Mapping[str, Any], named: bool) -> Iterator[Value]:
    for row in _rows(result, "figures"):
        block, name = row.get("block", ""), row.get("name", "")
        key = _figure_key(row, named)
        for what in _OF_FIGURE:
            if what in row:
                side = _SIDES[what]
                label = f"{block}: {name}" + (f", {side}" if side else "")
                yield Value(f"{key} {what}", label, row[what], str(row.get("unit", "")), str(row.get("source", "")))


def _check_key(row: Mapping[str, Any]) -> str:
    return f"check {row.get('key', '')} {row.get('side', '')}"


def _check_label(row: Mapping[str, Any]) -> str:
    return f"{row.get('name', row.get('key', ''))}, {row.get('side', '')}"


def _figure_key(row: Mapping[str, Any], named: bool) -> str:
    return str(row.get("key", "")) if named else f"{row.get('block', '')} / {row.get('name', '')}"


def _rows(result: Mapping[str, Any], key: str) -> Iterator[Mapping[str, Any]]:
    rows = result.get(key, [])
    return (row for row in (rows if isinstance(rows, list) else ()) if isinstance(row, Mapping))


def at_odds(before: Mapping[str, Any], after: Mapping[str, Any]) -> set[str]:
    """Return the keys of the stored checks whose numbers do not follow from one another, though those of now do.

    No edited answer and no other catalogue makes a check like that: somebody changed it by hand.
    """
    sound = {_check_key(row) for row in _rows(after, "checks") if _follows(row)}
    return {_check_key(row) for row in _rows(before, "checks") if _check_key(row) in sound and not _follows(row)}


def _follows(row: Mapping[str, Any]) -> bool:
    """Return whether a check's use is demand over capacity, and whether it passes up to a use of 1."""
    demand, capacity, use = (row.get(name) for name in ("demand", "capacity", "utilisation"))
    if not all(isinstance(one, float) and math.isfinite(one) for one in (demand, capacity, use)) or not capacity:
        return False
    assert isinstance(demand, float) and isinstance(capacity, float) and isinstance(use, float)
    return math.isclose(use, demand / capacity, rel_tol=1e-9) and row.get("passes") == (use <= 1.0)


def has_keys(result: Mapping[str, Any]) -> bool:
    """Return whether the figures of a result have keys of their own."""
    rows = list(_rows(result, "figures"))
    return bool(rows) and all(isinstance(row.get("key"), str) for row in rows)


def any_key(result: Mapping[str, Any]) -> bool:
    """Return whether any figure of a result has a key of its own."""
    return any("key" in row for row in _rows(result, "figures"))
