"""What a record carries from the file it was read from to the file it is written to, beside its answers.

Comments stand above the statement that follows them or at its end, and go where that statement goes. Keys that are not
known, misspelt or of a newer version, are put back into the table where they stood. Both follow the items of lists when
these are moved or dropped.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from engine.record.carried.alignment import aligned

if TYPE_CHECKING:
    from engine.record.carried.lines import Statement

Tables = dict[str, Any]
#: Comparing every item with every other takes this many steps at most; beyond it items keep their places.
_MOST_COMPARED = 40_000
_IN_LIST = re.compile(r"([^\[\]]+)\[(\d+)\](.*)", re.DOTALL)


@dataclass(frozen=True)
class Unknown:
    """A key that is not known: the path to it through tables and lists, what stands there, and what is known there."""

    path: tuple[str | int, ...]
    value: Any
    choices: tuple[str, ...] = field(default=(), repr=False)

    def __str__(self) -> str:
        """Return the path as a record writes it: answers.duty.cases[0].new_key."""
        text = "".join(f"[{part}]" if isinstance(part, int) else f".{part}" for part in self.path)
        return text.removeprefix(".")


@dataclass(frozen=True)
class Carried:
    """Comments by the path of their statement, those at the end, unknown keys, and the lists they stood in."""

    remarks: tuple[Statement, ...] = ()
    tail: tuple[str, ...] = ()
    unknown: tuple[Unknown, ...] = ()
    lists: Mapping[str, list[Tables]] = field(default_factory=dict)

    @classmethod
    def of(cls, text: str, tables: Mapping[str, Any], unknown: tuple[Unknown, ...] = ()) -> Carried:
        """Return what the text of a record holds beside what is read from it."""
        remarks: tuple[Statement, ...] = ()
        tail: tuple[str, ...] = ()
        if "#" in text:  # else there is no comment, and a text without any need not be walked
            from engine.record.carried.lines import statements

            every, tail = statements(text)
            remarks = tuple(one for one in every if one.above or one.comment)
        lists = dict(_lists(tables)) if remarks or unknown else {}
        return cls(remarks, tail, unknown, lists)

    def into_tables(self, tables: Tables) -> None:
        """Put the unknown keys back into the tables of a record."""
        moves = self._moves(tables) if self.unknown else {}
        for one in self.unknown:
            _put(tables, one.path, one.value, moves)

    def into_text(self, text: str, tables: Mapping[str, Any]) -> str:
        """Return the text of a record with the comments put in; those whose statement is gone go to its table."""
        if not self.remarks and not self.tail:
            return text
        moves = self._moves(tables)
        from engine.record.carried.lines import statements

        written, _ = statements(text)
        places = {one.path: one for one in written}
        lines = text.rstrip("\n").split("\n")
        above: dict[int, list[str]] = {}
        for remark in self.remarks:
            wanted = _moved(remark.path, moves)
            place = places.get(wanted) if wanted is not None else None
            comments = list(remark.above)
            if place is not None and remark.comment:
                lines[place.last - 1] += f"  {remark.comment}"
            elif remark.comment:
                comments.append(remark.comment)
            at = place.first if place is not None else _table_of(wanted or remark.path, places)
            above.setdefault(at or len(lines) + 1, []).extend(comments)
        above.setdefault(len(lines) + 1, []).extend(self.tail)
        found = [line for at, own in enumerate(lines, 1) for line in (*above.get(at, ()), own)]
        end = above[len(lines) + 1]
        return "\n".join([*found, "", *end] if end else found) + "\n"

    def _moves(self, tables: Mapping[str, Any]) -> dict[str, dict[int, int]]:
        now = dict(_lists(tables))
        return {path: _together(items, now.get(path)) for path, items in self.lists.items()}


def _together(before: list[Tables], after: list[Tables] | None) -> dict[int, int]:
    if after is None:  # a list without a single answer is not written at all
        return {at: at for at in range(len(before))}
    if len(before) * len(after) > _MOST_COMPARED:
        return {at: at for at in range(min(len(before), len(after)))}
    return aligned(before, after)


def _lists(tables: Mapping[str, Any]) -> list[tuple[str, list[Tables]]]:
    """Return the lists of items among the answers by their paths."""
    chapters = tables.get("answers", {})
    return [
        (f"answers.{chapter}.{key}", value)
        for chapter, table in (chapters.items() if isinstance(chapters, Mapping) else ())
        if isinstance(table, Mapping)
        for key, value in table.items()
        if isinstance(value, list) and all(isinstance(item, Mapping) for item in value)
    ]


def _moved(path: str, moves: Mapping[str, Mapping[int, int]]) -> str | None:
    """Return where a path of the old record stands in the new one; None where its item is gone."""
    within = _IN_LIST.fullmatch(path)
    if within is None or within[1] not in moves:
        return path
    at = moves[within[1]].get(int(within[2]))
    return None if at is None else f"{within[1]}[{at}]{within[3]}"


def _table_of(path: str, places: Mapping[str, Statement]) -> int | None:
    """Return the line of the nearest table around a path that is still there."""
    while path:
        path = path[: path.rindex("[")] if path.endswith("]") and "[" in path else path.rpartition(".")[0]
        if path in places:
            return places[path].first
    return None


def _put(tables: Tables, path: tuple[str | int, ...], value: Any, moves: Mapping[str, Mapping[int, int]]) -> None:
    at: Any = tables
    passed = ""
    for part, following in zip(path, (*path[1:], None), strict=True):
        if isinstance(part, int):
            place = moves.get(passed, {}).get(part)
            if place is None:
                return  # the item was dropped, and what stood in it goes with it
            while len(at) <= place:
                at.append({})
            at = at[place]
            continue
        passed = f"{passed}.{part}".removeprefix(".")
        if following is None:
            at.setdefault(part, value)
            return
        at = at.setdefault(part, [] if isinstance(following, int) else {})
