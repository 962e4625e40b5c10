"""What a question is: label, unit, bounds, options, default and help, carried by the answer's own field.

The form on the screen, the check of a file, the schema and the help text all read these objects, so a fact about a
question is stated once. The kinds stand in
`measured.py` (Measure, Span) and `worded.py` (Choice, YesNo, Text).
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, ClassVar

import msgspec

from engine.errors import plain

Plain = dict[str, Any]


class Refused(ValueError):  # noqa: N818 - named for what happened
    """An answer that cannot be taken: what was wrong, what is accepted; `inner` is the key where it is a table."""

    def __init__(self, wrong: str, accepted: str, inner: str = "") -> None:
        super().__init__(f"{wrong}; accepted: {accepted}")
        self.wrong = wrong
        self.accepted = accepted
        self.inner = inner


class Quantity(msgspec.Struct, frozen=True):
    """A value in engine units, with what the engineer typed kept beside it."""

    value: float
    typed: str = ""


class Limits(msgspec.Struct, frozen=True):
    """A range in engine units with what was typed: an open end is None, and equal ends are a fixed value."""

    least: float | None
    greatest: float | None
    typed: str = ""


Value = Quantity | Limits | str | bool | msgspec.Struct


@dataclass(frozen=True, kw_only=True)
class Question:
    """What all kinds share. `default` is what is assumed, and said to be assumed, while the question is unanswered.

    `only_if` names another question of the same table with the answers under which this one is asked at all, `and_if`
    one more that must hold as well.
    """

    label: str
    why: str
    #: How the answer may give to let more pairs in: "down", "up", "both" or "nearer_zero" of a quantity, "wider" of a
    #: range, "towards_first", "ordered" or "options" of a choice; "" where it is not to be touched.
    loosen: str = ""
    default: Any = None
    default_why: str = ""
    only_if: tuple[str, tuple[Any, ...]] | None = None
    and_if: tuple[str, tuple[Any, ...]] | None = None

    kind: ClassVar[str] = ""

    def inner(self) -> tuple[str, ...]:
        """Return the keys of the table that an answer is kept as, where it is kept as one."""
        return ()

    def accepted(self) -> str:
        """Return what may be answered, as a phrase for messages and help."""
        raise NotImplementedError

    def parse(self, text: str) -> Value:
        """Return the answer that was typed; raise Refused."""
        raise NotImplementedError

    def show(self, value: Any) -> str:
        """Return an answer as the screen shows it."""
        raise NotImplementedError

    def keys(self, name: str) -> tuple[str, ...]:
        """Return the keys by which the field `name` is kept in a record."""
        return (name,)

    def to_plain(self, name: str, value: Any) -> Plain:
        """Return an answer as record keys."""
        return {name: value}

    def from_plain(self, name: str, table: Mapping[str, Any]) -> Value:
        """Return the answer kept in a record under `keys(name)`; raise Refused. At least one key is present."""
        raise NotImplementedError


@dataclass(frozen=True, kw_only=True)
class Listing:
    """A list of alike things in a chapter, each with questions of its own: load cases, elements on the shaft."""

    of: type[msgspec.Struct]
    one: str
    many: str
    most: int
    least: int = 0
    why: str = ""  # what such a list is for
    not_copied: tuple[str, ...] = ()  # what a copy of an item does not take over
    told: Callable[[Any], str] = lambda item: getattr(item, "name", None) or ""  # what an item is, behind its number

    def copy(self, item: Any) -> Any:
        """Return a copy of an item, without what belongs to the original alone."""
        return msgspec.structs.replace(item, **dict.fromkeys(self.not_copied))

    def filled(self, items: Sequence[Any]) -> tuple[Any, ...]:
        """Return the items, with empty ones added up to the least number."""
        return (*items, *(self.of() for _ in range(self.least - len(items))))


def stood(value: object) -> str:
    """Return what stood where a number or a yes was expected, led by a colon; "" where it was no text.

    Tables, lists and dates are not shown: what is long in them has no end.
    """
    return f': "{plain(value, 60)}"' if isinstance(value, str) else ""


def line_of_text(key: str, value: object, accepted: str, longest: int = 64) -> str:
    """Return a text kept in a record, where it is one printable line; raise Refused."""
    if not isinstance(value, str):
        raise Refused(f"{key} is not a text", accepted)
    if len(value) > longest:
        raise Refused(f"{key} is longer than {longest} characters: {len(value)}", accepted)
    at = next((at for at, character in enumerate(value) if not character.isprintable()), None)
    if at is not None:
        raise Refused(f"character {at + 1} of {key}, {named(value[at])}, is not printable", accepted)
    return value


def named(character: str) -> str:
    """Return the code point of a character that cannot be shown, with its name where it has one: U+200D (...)."""
    import unicodedata

    name = unicodedata.name(character, "").lower()
    return f"U+{ord(character):04X}{f' ({name})' if name else ''}"
