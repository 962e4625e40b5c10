"""JSON Schema (draft 2020-12) of a record and of its answers, made from the questions themselves.

An editor that knows the schema completes keys and options, shows why each is asked, and marks what is wrong while it
is typed. A question of a kind that has no form here is accepted whatever it holds; reading judges it.
"""

import json
from functools import singledispatch
from typing import Any, get_type_hints

from engine.answers.binned import COLUMNS, LONGEST_NOTE, MOST_BINS, MOST_NOTES, SAID, Histogram
from engine.answers.document import CHAPTERS, Answers, listings_of, questions_of
from engine.answers.measured import Measure, Span
from engine.answers.question import Limits, Listing, Quantity, Question
from engine.answers.worded import Choice, Text, YesNo
from engine.record.document import SCHEMA

Schema = dict[str, Any]
DIALECT = "https://json-schema.org/draft/2020-12/schema"
FILES = {"record": "record.schema.json", "answers": "answers.schema.json"}
_TYPED = 64
_WORD = {"type": "string"}
_NUMBER = {"type": "number"}


def of_record() -> Schema:
    """Return the schema of a whole record."""
    major = SCHEMA.partition(".")[0]
    return {
        "$schema": DIALECT,
        "$id": f"urn:conewright:record:{SCHEMA}",
        "title": "Conewright design record",
        "description": f"Layout {SCHEMA}. Answers are enough; what else stands in a record is computed from them.",
        "type": "object",
        "required": ["schema"],
        "additionalProperties": False,
        "properties": {
            "schema": {
                "description": "Version of the layout.", "type": "string", "pattern": f"^{major}\\.[0-9]{{1,4}}$",
                "examples": [SCHEMA],
            },
            "made_with": _table(
                "What the result was computed with; written by the program.",
                {key: _WORD | {"maxLength": 300} for key in ("conewright", "catalogue", "catalogue_sha256")},
            ),
            "answers": _answers(),
            "result": _result(),
        },
    }  # fmt: skip


def of_answers() -> Schema:
    """Return the schema of the answers alone."""
    return {
        "$schema": DIALECT,
        "$id": f"urn:conewright:answers:{SCHEMA}",
        "title": "Answers of a Conewright design record",
    } | _answers()


def text_of(which: str) -> str:
    """Return a schema, "record" or "answers", as it stands in its file: the same bytes every time."""
    made = {"record": of_record, "answers": of_answers}[which]()
    return json.dumps(made, indent=2, ensure_ascii=True, allow_nan=False) + "\n"


def _answers() -> Schema:
    hints = get_type_hints(Answers)
    chapters = {chapter.field: (chapter, hints[chapter.field]) for chapter in CHAPTERS}
    return _table(
        "What was answered; a question left out is open.",
        {
            name: _struct(kind, f"{chapter.title}: {chapter.about}.")
            for name, (chapter, kind) in chapters.items()
        },
    )  # fmt: skip


def _table(description: str, properties: Schema) -> Schema:
    return {
        "description": description, "type": "object", "additionalProperties": False, "properties": properties,
    }  # fmt: skip


def _struct(kind: Any, description: str) -> Schema:
    properties: Schema = {}
    for name, question in questions_of(kind).items():
        about = _about(question)
        for key, form in form_of(question, name).items():
            properties[key] = about | form
    for name, listing in listings_of(kind).items():
        properties[name] = _listing(listing)
    return _table(description, properties)


def _listing(listing: Listing) -> Schema:
    items = _struct(listing.of, f"One {listing.one}.")
    many = f"{listing.many[0].upper()}{listing.many[1:]}."
    return {"description": many, "type": "array", "maxItems": listing.most, "items": items}


def _about(question: Question) -> Schema:
    assumed = ""
    if question.default is not None:
        assumed = f" Assumed while open: {question.show(question.default)} ({question.default_why})."
    elif question.default_why:
        assumed = f" While open: {question.default_why}."
    return {"title": question.label, "description": f"{question.why}{assumed}"}


@singledispatch
def form_of(question: Question, name: str) -> Schema:
    """Return the keys of a question in a record and what each may hold."""
    return {key: {} for key in question.keys(name)}


def _further(question: Question, more: str) -> Schema:
    """Return the description of a question with what its form adds to it."""
    return {"description": f"{_about(question)['description']} {more}"} if more else {}


def _number(question: Measure | Span) -> Schema:
    unit = question.dimension.unit
    return {"type": "number", "minimum": question.least, "maximum": question.greatest} | _further(
        question, f"In {unit}." if unit else ""
    )


def _typed(question: Question) -> Schema:
    words = f"As typed: {question.accepted()}. It must say the same as the number beside it, or stand alone."
    return {"type": "string", "maxLength": _TYPED, "description": words}


@form_of.register
def _(question: Measure, name: str) -> Schema:
    key, typed = question.keys(name)
    number = _number(question)
    if isinstance(question.default, Quantity):
        number["default"] = question.default.value
    return {key: number, typed: _typed(question)}


@form_of.register
def _(question: Span, name: str) -> Schema:
    low, high, typed = question.keys(name)
    number = _number(question)
    ends = question.default if isinstance(question.default, Limits) else Limits(None, None)
    lower, upper = (
        number | ({"default": end} if end is not None else {}) for end in (ends.least, ends.greatest)
    )  # fmt: skip
    return {low: lower, high: upper, typed: _typed(question)}


@form_of.register
def _(question: Choice, name: str) -> Schema:
    meaning = "; ".join(
        f"{option.value}: {option.label}" + (f", {option.means}" if option.means else "") for option in question.options
    )
    form: Schema = {"enum": [option.value for option in question.options]} | _further(question, f"{meaning}.")
    return {name: form | ({"default": question.default} if question.default is not None else {})}


@form_of.register
def _(question: YesNo, name: str) -> Schema:
    form: Schema = {"type": "boolean"}
    return {name: form | ({"default": question.default} if question.default is not None else {})}


@form_of.register
def _(question: Text, name: str) -> Schema:
    return {name: {"type": "string", "maxLength": question.longest}}


@form_of.register
def _(question: Histogram, name: str) -> Schema:
    columns = {
        key: {"description": SAID[key], "type": "array", "maxItems": MOST_BINS,
              "items": {"type": "number", "minimum": low, "maximum": high}}
        for key, low, high in COLUMNS
    }  # fmt: skip
    note = {"type": "string", "maxLength": LONGEST_NOTE}
    file = {"description": SAID["file"], "type": "string", "maxLength": 300}
    notes = {"description": SAID["notes"], "type": "array", "maxItems": MOST_NOTES, "items": note}
    table = _table(question.why, {"file": file, "notes": notes} | columns)
    return {name: table | {"required": [key for key, *_ in COLUMNS[:3]]}}


def _result() -> Schema:
    """Return the form of a result; its figures are words where a catalogue holds words."""
    value = {"type": ["number", "string"]}
    texts = {"type": "array", "items": _WORD}
    check = dict.fromkeys(("key", "side", "name", "unit", "source"), _WORD) | dict.fromkeys(
        ("demand", "capacity", "utilisation"), _NUMBER
    ) | {"passes": {"type": "boolean"}, "advisory": {"type": "boolean"}}  # fmt: skip
    figure = dict.fromkeys(("key", "block", "name", "unit", "source", "estimated_for"), _WORD) | dict.fromkeys(
        ("a", "b", "pair"), value
    )
    return _table("Written by the program; delete it as a whole and it is computed anew.", {
        "bearing_a": _WORD, "bearing_b": _WORD, "verdict": {"enum": ["passes", "fails", "incomplete"]},
        "missing": texts, "assumptions": texts, "cautions": texts, "notice": _WORD,
        "checks": {"type": "array", "items": _rows("A check: demand over capacity.", check, "key", "side")},
        "figures": {"type": "array", "items": _rows("A figure at A and B, or of the pair.", figure, "block", "name")},
        "sha256": {"type": "string", "description": "Seal of the result and of made_with."},
        "answers_sha256": {
            "type": "object", "additionalProperties": _WORD,
            "description": "Hash of each chapter's answers when the result was computed.",
        },
    }) | {"additionalProperties": True}  # fmt: skip


def _rows(description: str, properties: Schema, *required: str) -> Schema:
    return _table(description, properties) | {"required": list(required), "additionalProperties": True}
