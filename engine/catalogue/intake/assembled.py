"""The rows that are taken, as a catalogue: texts that a file may leave out, and the marks of what was estimated."""

from collections.abc import Mapping
from typing import Any

import numpy as np

from engine.catalogue.columns import COLUMNS, LONGEST_TEXT, Catalogue, Texts, estimated_bit
from engine.catalogue.dimension_series import classify
from engine.catalogue.intake.headers import BY_NAME
from engine.catalogue.intake.stated import Stated
from engine.numerics import Bools, Floats, Rows

#: Steel that is taken where a file does not say: the more cautious one.
UNSTATED_STEEL = "through"
#: Temperature to which rings are stabilised [deg C] when a file does not say; common practice, no source.
UNSTATED_TEMPERATURE = 120.0
#: Texts whose want is no guess at the bearing: the mark of an estimate would say nothing.
_NO_GUESS = frozenset({"listed", "tolerance", "availability"})


def assembled(stated: Stated, values: Mapping[str, Floats], estimated: Mapping[str, Bools], taken: Bools) -> Catalogue:
    """Return the rows of the mask `taken`, with what was estimated marked by a bit for each column."""
    rows = np.flatnonzero(taken)
    columns: dict[str, Any] = {}
    bits = np.zeros(rows.size, dtype=np.int64)
    for column in COLUMNS:
        if column.kind == "text":
            columns[column.name], guessed = _text(column.name, stated, values, rows)
        elif column.name == "max_temperature":
            number = values[column.name][rows]
            guessed = np.isnan(number)
            columns[column.name] = np.where(guessed, UNSTATED_TEMPERATURE, number)
        else:
            columns[column.name] = values[column.name][rows]
            guessed = estimated.get(column.name, np.zeros(len(stated), dtype=np.bool_))[rows]
        bits |= np.where(guessed, np.int64(estimated_bit(column.name)), np.int64(0))
    return Catalogue(**columns, estimated=bits)


def _text(name: str, stated: Stated, values: Mapping[str, Floats], rows: Rows) -> tuple[Texts, Bools]:
    texts = stated.texts[name][rows] if name in stated.texts else np.full(rows.size, "", dtype="<U1")
    empty = texts == ""
    if not empty.any():
        return texts, empty
    unstated = _unstated(name, stated, values, rows)
    texts = np.where(empty, unstated, texts) if np.any(texts) else np.array(np.broadcast_to(unstated, texts.shape))
    return texts, empty & (name not in _NO_GUESS)


def _unstated(name: str, stated: Stated, values: Mapping[str, Floats], rows: Rows) -> Texts:
    if name in {"cone", "cup"}:
        designations = stated.texts["designation"][rows]
        # shortened, since a text of a catalogue has a greatest length
        shortened = designations.astype(f"<U{min(designations.itemsize // 4, LONGEST_TEXT - 5)}")
        return np.char.add(shortened, f" {name}")
    if name == "system":
        return np.array("inch" if stated.places["d"].unit.name == "in" else "metric")
    if name == "series":
        series = classify(*(values[one][rows] for one in ("d", "D", "T", "alpha")))
        return np.where(series == "", "-", series)
    return np.array(UNSTATED_STEEL if name == "steel" else BY_NAME[name].default)
