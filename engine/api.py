"""The engine for programs of your own: answers in, a computed pair out, in a few calls.

    from engine import api

    answers = api.answered({"duty.distance": "160 mm", "duty.cases[0].speed": "540 rpm",
                            "duty.cases[0].radial_y": "7.8 kN"})
    pair = api.compute(answers)                 # the best pair of the built-in catalogue
    api.value(pair, "pair.Lnmh_system")         # a figure by the key that a record gives it

Answers are keyed and typed as on the form: `api.questions()` lists the keys. Whatever is wrong raises Problems, whose
text names key, fault and what is accepted. Values are in N, mm, MPa, rpm, deg C, h, mm2/s, rad.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from functools import cache
from pathlib import Path

import msgspec

from engine.answers.document import (
    CHAPTERS,
    Answers,
    all_asked,
    items_at,
    listing_at,
    listings_of,
    put,
    question_at,
    with_items,
)
from engine.answers.lubricated.kinds import FromList
from engine.answers.lubricated.own import OwnLubricant, own
from engine.answers.question import Question, Refused, Value
from engine.answers.resolved import resolve
from engine.catalogue import source
from engine.catalogue.columns import Catalogue
from engine.catalogue.source import Source
from engine.errors import Problem, Problems, nearest
from engine.figures import Figure
from engine.operating import Conditions
from engine.record import computed as made
from engine.record import read as reading
from engine.record import write as writing
from engine.record.computed import Computed
from engine.record.document import Record
from engine.selection import screen
from engine.selection.weighing import wished_shortlist

__all__ = [
    "Answers", "Catalogue", "Computed", "Problems", "Record", "answered", "catalogue", "compute", "figures",
    "lubricants", "questions", "read", "shortlist", "utilisation", "value", "write",
]  # fmt: skip


def questions() -> dict[str, str]:
    """Return the label of every question by its key; `cases[0]` stands for the items of a list."""
    open_items = Answers()
    for path in _lists():
        open_items = with_items(open_items, path, (*items_at(open_items, path), listing_at(path).of())[:1])
    return {item.path: item.question.label for item in all_asked(open_items, every=True)}


def _lists() -> list[str]:
    chapters = ((chapter.field, type(getattr(Answers(), chapter.field))) for chapter in CHAPTERS)
    return [f"{field}.{name}" for field, kind in chapters for name in listings_of(kind)]


def lubricants(path: str | Path) -> dict[str, OwnLubricant]:
    """Return the lubricants in a file of your own by name, for `answered`. Raises Problems with file, line and key."""
    return {one.name: one for one in own(Path(path))}


def answered(texts: Mapping[str, str | OwnLubricant], base: Answers | None = None) -> Answers:
    """Return answers typed as on the form, over those of a base; "" opens a question. Raises Problems.

    Under "lubrication.lubricant" may stand one of `lubricants` as well.
    """
    answers = base if base is not None else Answers()
    problems = []
    for path, text in texts.items():
        try:
            question = question_at(path)
            answers = put(_long_enough(answers, path), path, _value(question, text))
        except KeyError:
            known = list(questions())
            problems.append(
                Problem("", None, path, "no question has this key", "see questions()", nearest(path, known))
            )
        except Refused as error:
            problems.append(Problem("", None, path, error.wrong, error.accepted))
    if problems:
        raise Problems(problems)
    return answers


def _value(question: Question, text: str | OwnLubricant) -> Value | None:
    if isinstance(text, str):
        return question.parse(text) if text else None
    if not isinstance(question, FromList):
        raise Refused(f"{question.label} is no lubricant", question.accepted())
    return text


def _long_enough(answers: Answers, path: str) -> Answers:
    """Return the answers with items added to a list up to the one that a path names."""
    head, bracket, rest = path.partition("[")
    if not bracket:
        return answers
    number, listing = int(rest.partition("]")[0]), listing_at(head)
    if number >= listing.most:
        raise Refused(f"item {number} is too many", f"at most {listing.most} {listing.many}, counted from 0")
    items = items_at(answers, head)
    return with_items(answers, head, (*items, *(listing.of() for _ in range(number + 1 - len(items)))))


@cache
def _opened(path: Path | None) -> Source:
    return source.opened(path)


def catalogue(path: str | Path | None = None) -> Catalogue:
    """Return a catalogue as columns of numpy arrays: the built-in one, or that in a CSV file. Raises Problems."""
    return _opened(Path(path) if path is not None else None).rows


def compute(
    answers: Answers | Record, pair: tuple[str, str] | None = None, catalogue: str | Path | None = None, file: str = ""
) -> Computed:
    """Compute a pair for some answers: the one named, else the chosen one, else the best. Raises Problems.

    `catalogue` is a CSV file, None the built-in one; answers that name a file of their own have that one, seen from
    the folder of `file`.
    """
    record = answers if isinstance(answers, Record) else Record(answers)
    if pair is not None:
        choice = msgspec.structs.replace(record.answers.choice, bearing_a=pair[0], bearing_b=pair[1])
        record = replace(record, answers=msgspec.structs.replace(record.answers, choice=choice))
    return made.compute(record, file, opened=_opened(Path(catalogue) if catalogue is not None else None))


def shortlist(
    answers: Answers, rank_by: str = "mass", most: int = 20, catalogue: str | Path | None = None
) -> list[tuple[str, str]]:
    """Return the names of the leading pairs, best first, by mass, size, life, cost or the weights in the answers.

    They pass every check by closed formulas; the load distribution can still fail one of them, as `compute` says.
    """
    rows = _opened(Path(catalogue) if catalogue is not None else None).rows
    conditions = Conditions.of(resolve(answers))
    choice = msgspec.structs.replace(answers.choice, rank_by=rank_by)
    listed = wished_shortlist(rows, screen.screen(rows, conditions), conditions, choice, most)
    return [
        (str(rows.designation[a]), str(rows.designation[b]))
        for a, b in zip(listed.rows_A.tolist(), listed.rows_B.tolist(), strict=True)
    ]


def figures(computed: Computed) -> dict[str, Figure]:
    """Return every figure of a computed pair by its key in a record, such as "case_1.Fr"."""
    return {f"{block.key}.{figure.key}": figure for block in computed.result.blocks for figure in block.figures}


def value(computed: Computed, key: str, side: str = "A") -> float | str | None:
    """Return a figure at one side, or of the pair; KeyError with the nearest key where there is none."""
    found = figures(computed)
    if key not in found:
        near = nearest(key, list(found))
        raise KeyError(f"{key} is no figure of this result" + (f'; did you mean "{near}"?' if near else ""))
    figure = found[key]
    return figure.A if figure.of_pair or side == "A" else figure.B


def utilisation(computed: Computed, advisory: bool = False) -> dict[tuple[str, str], float]:
    """Return demand over capacity of every check by its key and side ("A", "B" or "pair"); up to 1 passes.

    Checks that only caution are among them where `advisory` is set.
    """
    checks = (check for check in computed.result.checks if advisory or not check.advisory)
    return {(check.key, check.side): check.utilisation for check in checks}


def read(path: str | Path) -> Record:
    """Return the record in a file. Raises Problems with file, line and key."""
    return reading.read(Path(path))


def write(path: str | Path, computed: Computed) -> None:
    """Write a record with its result; a file that is there is replaced whole or not at all."""
    writing.write(Path(path), writing.to_text(computed.now, computed.result))
