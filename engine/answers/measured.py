"""Questions answered with a quantity: one value (Measure) or a range (Span)."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, ClassVar

from engine.answers.question import Limits, Plain, Quantity, Question, Refused, line_of_text, stood
from engine.errors import plain
from engine.units import Dimension, UnitError, number_text, parse, show

# an end that stands alone, typed with a sign or in the words by which it is shown
_AT_LEAST = re.compile(r"(?:>\s*=?|at least\b)\s*", re.IGNORECASE)
_AT_MOST = re.compile(r"(?:<\s*=?|at most\b)\s*", re.IGNORECASE)

# the unit at the end of what was typed: "in" of "2 1/2 in"; nothing of "-1500", ">=55" or "1e5"
_TYPED_UNIT = re.compile(r"(?![eE][+-]?\d)[^\d\s.,/+<>=-]\S*(?: \S+)?$")


def _number(key: str, value: object, accepted: str) -> float:
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise Refused(f"{key} is not a number{stood(value)}", accepted)
    try:
        number = float(value)
    except OverflowError:
        number = float("inf")
    if number - number != 0:
        raise Refused(f"{key} is not a finite number: {number}", accepted)
    return number


def _agree(key: str, stored: float, typed: float) -> None:
    if abs(stored - typed) > 1e-9 * max(abs(stored), abs(typed)):
        raise Refused(
            f"{key} = {stored!r} disagrees with what was typed, which is {typed!r}",
            "the two saying the same, or only one of them",
        )


@dataclass(frozen=True, kw_only=True)
class Measure(Question):
    """One quantity with a unit and bounds (both included)."""

    dimension: Dimension
    least: float
    greatest: float

    kind: ClassVar[str] = "measure"

    def accepted(self) -> str:
        """Return the bounds in the engine unit and an example."""
        bounds = f"{number_text(self.least)} to {show(self.greatest, self.dimension)}"
        return f"{bounds}, typed like {self.dimension.example}"

    def _bounded(self, value: float) -> float:
        if not self.least <= value <= self.greatest:
            raise Refused(f"{show(value, self.dimension)} is out of bounds", self.accepted())
        return value

    def parse(self, text: str) -> Quantity:
        """Return the quantity typed, in engine units."""
        text = text.strip()
        try:
            return Quantity(self._bounded(parse(text, self.dimension)), text)
        except UnitError as error:
            raise Refused(error.wrong, error.accepted) from None

    def show(self, value: Quantity) -> str:
        """Return '63.5 mm' or, where typed in another unit, '2 1/2 in (63.5 mm)'."""
        return _shown(show(value.value, self.dimension), value.typed, self.dimension.unit)

    def keys(self, name: str) -> tuple[str, ...]:
        """Return `name_unit` and `name_typed`."""
        return _unit_key(name, self.dimension), f"{name}_typed"

    def to_plain(self, name: str, value: Quantity) -> Plain:
        """Return the engine value and, where there is one, the typed text."""
        key, typed = self.keys(name)
        return {key: value.value} | ({typed: value.typed} if value.typed else {})

    def from_plain(self, name: str, table: Mapping[str, Any]) -> Quantity:
        """Return the quantity; the engine value and the typed text must agree where both stand."""
        key, typed_key = self.keys(name)
        typed = line_of_text(typed_key, table[typed_key], self.accepted()) if typed_key in table else ""
        if key not in table:
            return self.parse(typed)
        value = self._bounded(_number(key, table[key], self.accepted()))
        if typed:
            _agree(key, value, self.parse(typed).value)
        return Quantity(value, typed)


@dataclass(frozen=True, kw_only=True)
class Span(Question):
    """A quantity that is fixed, lies between two values, or has one limit."""

    dimension: Dimension
    least: float
    greatest: float

    kind: ClassVar[str] = "span"

    def accepted(self) -> str:
        """Return the ways to type a range, with the bounds."""
        bounds = f"{number_text(self.least)} to {show(self.greatest, self.dimension)}"
        return f"60 (fixed), 55..65 (from/to), >=55 or <=65; {bounds}"

    def parse(self, text: str) -> Limits:
        """Return the limits typed: '60', '55..65', '55 to 65 mm', '2 in .. 2 1/2 in', '>= 55', '<= 65'."""
        text = text.strip()
        least, greatest = self._ends(text)
        if least is not None and greatest is not None and least > greatest:
            raise Refused(f"from {number_text(least)} to {number_text(greatest)} runs backwards", self.accepted())
        return Limits(least, greatest, text)

    def _ends(self, text: str) -> tuple[float | None, float | None]:
        if found := _AT_LEAST.match(text):
            return self._end(text[found.end() :]), None
        if found := _AT_MOST.match(text):
            return None, self._end(text[found.end() :])
        for word in ("..", " to ", " - "):
            head, parted, tail = text.partition(word)
            if parted:
                return self._from(head.strip(), tail.strip()), self._end(tail)
        value = self._end(text)
        return value, value

    def _from(self, head: str, tail: str) -> float:
        """Return the lower end; a unit given only at the upper end ('55..65 in') serves both."""
        unit = tail.lstrip("0123456789.,+-/ ")
        bare = head[-1:].isdigit()
        return self._end(f"{head} {unit}" if bare and unit else head)

    def _end(self, text: str) -> float:
        try:
            value = parse(text, self.dimension)
        except UnitError as error:
            raise Refused(error.wrong, self.accepted()) from None
        return self._within(value)

    def _within(self, value: float) -> float:
        if not self.least <= value <= self.greatest:
            raise Refused(f"{show(value, self.dimension)} is out of bounds", self.accepted())
        return value

    def show(self, value: Limits) -> str:
        """Return '60 mm', '55 to 65 mm', 'at least 55 mm' or 'at most 65 mm', with what was typed where it differs."""
        unit = self.dimension
        if value.least is None:
            text = f"at most {show(value.greatest or 0.0, unit)}"
        elif value.greatest is None:
            text = f"at least {show(value.least, unit)}"
        elif value.least == value.greatest:
            text = show(value.least, unit)
        else:
            text = f"{number_text(value.least)} to {show(value.greatest, unit)}"
        return _shown(text, value.typed, unit.unit)

    def keys(self, name: str) -> tuple[str, ...]:
        """Return `name_from_unit`, `name_to_unit` and `name_typed`."""
        return _unit_key(f"{name}_from", self.dimension), _unit_key(f"{name}_to", self.dimension), f"{name}_typed"

    def to_plain(self, name: str, value: Limits) -> Plain:
        """Return the ends that are closed and the typed text."""
        kept = zip(self.keys(name), (value.least, value.greatest, value.typed or None), strict=True)
        return {key: item for key, item in kept if item is not None}

    def from_plain(self, name: str, table: Mapping[str, Any]) -> Limits:
        """Return the limits; the stored ends and the typed text must agree where both stand."""
        low, high, typed_key = self.keys(name)
        typed = line_of_text(typed_key, table[typed_key], self.accepted()) if typed_key in table else ""
        if low not in table and high not in table:
            return self.parse(typed)
        least, greatest = (
            self._within(_number(key, table[key], self.accepted())) if key in table else None for key in (low, high)
        )
        if least is not None and greatest is not None and least > greatest:
            raise Refused(f"{low} is above {high}", self.accepted())
        if typed:
            said = self.parse(typed)
            for key, stored, again in ((low, least, said.least), (high, greatest, said.greatest)):
                _agree(key, stored if stored is not None else -1.0, again if again is not None else -1.0)
        return Limits(least, greatest, typed)


def _unit_key(name: str, dimension: Dimension) -> str:
    return f"{name}_{dimension.suffix}" if dimension.suffix else name


def _shown(engine: str, typed: str, unit: str) -> str:
    """Return what was typed with the engine value behind it, or that value alone where both say the same."""
    found = _TYPED_UNIT.search(typed)
    said = found[0].replace(" ", "") if found else ""
    return f"{plain(typed)} ({engine})" if said and said != unit.replace(" ", "") else engine
