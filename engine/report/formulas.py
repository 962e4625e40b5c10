"""The formulas behind the figures of a report, as they stand in the docstrings of the functions that compute them.

A figure names the place in a document that it comes from; every function of the engine that carries this place is
shown with its formula, the meaning and unit of its symbols, and where it is valid. So a new figure brings its formula
along, and who has only the report can redo the calculation by hand.
"""

import importlib
import inspect
import pkgutil
import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from functools import cache
from typing import Any

import engine
from engine.checks.check import Check
from engine.sources import DOCUMENTS, Citation, citation_of

_HEADS = ("Parameters", "Returns")


@dataclass(frozen=True)
class Formula:
    """A formula: what it gives, the formula as printed, its symbols with units, what it returns, where it is valid."""

    source: str
    name: str
    what: str
    printed: str
    symbols: tuple[str, ...]
    returns: str
    valid: str


def behind(sources: Iterable[str]) -> list[Formula]:
    """Return the formulas of some sources, in the order in which the sources are first named.

    A source may name several places, parted by "; " or " or ", or stand behind a formula of its own.
    """
    known = _by_source()
    found: dict[str, Formula] = {}
    for source in sources:
        for place in known:
            if place == source or place in re.split(r"; | or ", source):
                found |= {f"{place} {one.name}": one for one in known[place]}
    return list(found.values())


def named(place: str) -> Formula:
    """Return the formula of a function, or the rule of a check, by its place: "rating.life:life_in_hours".

    Raises LookupError where there is none, or where it names no source.
    """
    room, _, name = place.partition(":")
    found = getattr(importlib.import_module(f"engine.{room}"), name, None)
    if isinstance(found, Check):
        rule = f"{found.demand_is} <= {found.capacity_is}"
        return Formula(str(found.source), name, f"Check: {found.name}.", rule, (), "", "")
    if found is None:
        raise LookupError(f"engine.{room} has no {name}")
    return _formula(name, found, str(citation_of(found)))


def seen(source: str) -> str:
    """Return how the text of a source came to be known: read, derived, recalled; "" of an unknown document."""
    known = (one for one in DOCUMENTS if source == one.short or source.startswith(f"{one.short}, "))
    return next((one.seen for one in known), "")


@dataclass(frozen=True)
class Cited:
    """A document with the places of it that are cited, and how its text came to be known."""

    short: str
    title: str
    places: tuple[str, ...]
    seen: str


def documents(sources: Iterable[str]) -> list[Cited]:
    """Return every document that some sources name, in the order of the list of documents."""
    places = list(dict.fromkeys(place for source in sources for place in re.split(r"; | or |: ", source)))
    found: dict[str, list[str]] = {}
    for place in places:
        # the longest name, where one begins with another
        short = max((one.short for one in DOCUMENTS if place.startswith(one.short)), key=len, default="")
        if short:
            found.setdefault(short, []).append(place[len(short) :].strip(" ,"))
    return [
        Cited(one.short, one.title, tuple(filter(None, found[one.short])), one.seen)
        for one in DOCUMENTS
        if one.short in found
    ]


@cache
def _by_source() -> dict[str, list[Formula]]:
    found: dict[str, list[Formula]] = {}
    for room in pkgutil.walk_packages(engine.__path__, "engine."):
        if room.name.startswith(("engine.report", "engine.record", "engine.answers")) or "__main__" in room.name:
            continue
        module = importlib.import_module(room.name)
        for name, function in inspect.getmembers(module, inspect.isfunction):
            citation = getattr(function, "__citation__", None)
            if function.__module__ == room.name and isinstance(citation, Citation) and not name.startswith("_"):
                found.setdefault(str(citation), []).append(_formula(name, function, str(citation)))
    return found


def _formula(name: str, function: Callable[..., Any], source: str) -> Formula:
    text = inspect.cleandoc(function.__doc__ or "")
    paragraphs = text.split("\n\n")
    before = [one for one in paragraphs[1:] if not one.startswith(_HEADS)]
    head = next((at for at, one in enumerate(paragraphs) if one.startswith(_HEADS)), 1)
    printed = "\n".join(paragraphs[1:head]) if head > 1 else ""
    valid = next((_flat(one) for one in before if one.startswith("Valid")), "")
    return Formula(
        source, name, _flat(paragraphs[0]), printed, tuple(_entries(paragraphs, "Parameters")),
        "; ".join(_entries(paragraphs, "Returns")), valid,
    )  # fmt: skip


def _entries(paragraphs: list[str], head: str) -> list[str]:
    """Return what stands under a heading, one entry a symbol, each on one line."""
    block = next((one for one in paragraphs if one.startswith(head)), "")
    found: list[str] = []
    for line in block.split("\n")[2:]:
        if line.startswith(" ") and found:
            found[-1] = f"{found[-1]} {line.strip()}"
        else:
            found.append(line.strip())
    return found


def _flat(text: str) -> str:
    return " ".join(text.split())
