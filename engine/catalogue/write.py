"""Tables of assemblies and of parts as canonical CSV: same content, same bytes."""

from collections.abc import Sequence
from typing import Any

import numpy as np
from numpy.typing import NDArray

from engine.catalogue.columns import COLUMNS, Column

_QUOTED = frozenset(',"')
# degrees come back from radians with a last digit of noise; ten decimals are finer than any angle is known
_ANGLE_DECIMALS = 10


def as_csv(table: object, columns: Sequence[Column] = COLUMNS) -> bytes:
    """Return a catalogue, or a table of parts, as UTF-8 CSV: a header, then one line per row, each ended by LF.

    Numbers stand in the shortest form that reads back to the same value; what is not known is an empty cell.
    """
    cells = [_cells(column, getattr(table, column.name)) for column in columns]
    lines = [",".join(column.header for column in columns), *map(",".join, zip(*cells, strict=True)), ""]
    return "\n".join(lines).encode()


def _cells(column: Column, values: NDArray[Any]) -> list[str]:
    if column.kind == "text":
        return [_quoted(text) for text in values.tolist()]
    if column.unit == "deg":
        values = np.round(np.degrees(values), _ANGLE_DECIMALS)
    return [_number(value) for value in values.tolist()]


def _quoted(text: str) -> str:
    return text if _QUOTED.isdisjoint(text) else '"' + text.replace('"', '""') + '"'


def _number(value: float) -> str:
    if value != value:
        return ""
    return str(int(value)) if value == int(value) and abs(value) < 1e15 else repr(value)
