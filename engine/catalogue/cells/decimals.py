"""Plain decimals read by array operations, a column at a time, to the last bit as float() reads them.

A plain decimal is an optional minus, digits, and at most one sign before further digits: `-12.5`, `12,5`, `7`. A whole
mantissa of at most 15 digits over a power of ten is a division of two exact numbers, so nothing is lost. Whatever is
written otherwise is in doubt and left to a reader of single cells.
"""

from dataclasses import dataclass

import numpy as np

from engine.catalogue.cells.grid import Bytes, Places
from engine.numerics import Bools, Floats

_MOST_DIGITS = 15
_LONGEST = _MOST_DIGITS + 2
_COMMA, _POINT, _MINUS, _ZERO = b",.-0"
_POWERS = 10.0 ** np.arange(_MOST_DIGITS + 1)


@dataclass(frozen=True, eq=False)
class Decimals:
    """What some cells say: values (NaN where empty or in doubt), the sign in each, and where it could also group.

    `sign` is the byte of a comma or point, else 0. `groups` marks "1,234": one to three digits, not all of them
    zeros, then three, which is read differently in two countries. `doubtful` marks what is no plain decimal.
    """

    values: Floats
    sign: Bytes
    groups: Bools
    doubtful: Bools


def decimals(letters: Bytes, starts: Places, stops: Places) -> Decimals:
    """Return the plain decimals in the cells from `starts` up to `stops`."""
    lengths = stops - starts
    longest = min(int(lengths.max(initial=0)), _LONGEST)
    # one row a place in the cell, so that every step runs along memory
    places = np.arange(longest, dtype=np.int32)[:, None]
    letter = letters.take(starts.astype(np.int32, copy=False) + places, mode="clip")
    inside = places < lengths
    digit = letter - np.uint8(_ZERO)
    is_digit = (digit < 10) & inside
    is_sign = ((letter == _POINT) | (letter == _COMMA)) & inside
    negative = (letter[0] == _MINUS) & inside[0] if longest else np.zeros(len(starts), dtype=np.bool_)
    count = np.sum(is_digit, axis=0, dtype=np.uint8)
    signs = np.sum(is_sign, axis=0, dtype=np.uint8)
    plain = (lengths == count + signs + negative) & (signs <= 1) & (count > 0) & (count <= _MOST_DIGITS)
    mantissa, tail = _mantissa(digit, is_digit, is_sign)
    values = mantissa / _POWERS[np.minimum(tail, _MOST_DIGITS)]
    values[negative] *= -1
    values[~plain] = np.nan
    sign = np.max(letter * is_sign, axis=0, initial=0).astype(np.uint8)
    sign[~plain] = 0
    head = count - tail
    groups = plain & (sign > 0) & (tail == 3) & (head >= 1) & (head <= 3) & (mantissa >= 1000)
    return Decimals(values, sign, groups, ~plain & (lengths > 0))


def _mantissa(digit: Bytes, is_digit: Bools, is_sign: Bools) -> tuple[Floats, Bytes]:
    """Return all digits as one number, and how many of them stand behind the sign."""
    mantissa = np.zeros(digit.shape[1])
    behind = np.zeros(digit.shape[1], dtype=np.bool_)
    tail = np.zeros(digit.shape[1], dtype=np.uint8)
    times = np.where(is_digit, np.uint8(10), np.uint8(1))
    added = digit * is_digit
    for place in range(len(digit)):
        mantissa *= times[place]
        mantissa += added[place]
        tail += behind & is_digit[place]
        behind |= is_sign[place]
    return mantissa, tail
