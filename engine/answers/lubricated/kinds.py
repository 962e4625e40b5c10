"""Questions answered with a lubricant of a list, and with a cleanliness code."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, ClassVar

from engine.answers.lubricated.own import OwnLubricant, of_table, to_table
from engine.answers.question import Plain, Question, Refused, line_of_text
from engine.answers.worded import Text
from engine.errors import nearest, plain

LONGEST_NAME = 120


@dataclass(frozen=True, kw_only=True)
class FromList(Question):
    """A lubricant of the built-in list by its name, or one of the user's own list with all its figures.

    What is typed is a name of the built-in list; whoever has a list of the user's own at hand offers it.
    """

    kind: ClassVar[str] = "from_list"

    def inner(self) -> tuple[str, ...]:
        """Return the keys of the table of a lubricant of one's own."""
        from engine.catalogue.lubricants.keys import KEYS

        return ("file", *KEYS)

    def names(self) -> tuple[str, ...]:
        """Return what may be chosen by name, in the order of the list."""
        # the first screen shows no name, so it need not wait for the list
        from engine.catalogue.lubricants.names import builtin_names

        return builtin_names()

    def accepted(self) -> str:
        """Return how a name is given."""
        return f"one of {len(self.names())} names, or words of one such as PAO 220"

    def parse(self, text: str) -> str:
        """Return the name that a text means: it in full, or words of it that stand in no other name."""
        wanted = text.strip().lower()
        known = self.names()
        found = [name for name in known if name.lower() == wanted] or self.meant(text)
        if len(found) == 1:
            return found[0]
        if not found:
            near = nearest(text.strip(), list(known))
            raise Refused(f'no lubricant is called "{plain(text)}"', f"{near}, perhaps" if near else self.accepted())
        shown = ", ".join(found[:3]) + (f" and {len(found) - 3} more" if len(found) > 3 else "")
        raise Refused(f'"{plain(text)}" fits {len(found)} lubricants: {shown}', "words that fit one only")

    def meant(self, text: str) -> list[str]:
        """Return the names that hold every word of a text."""
        words = text.lower().replace(",", " ").split()
        return [name for name in self.names() if words and set(words) <= set(name.lower().replace(",", " ").split())]

    def show(self, value: str | OwnLubricant) -> str:
        """Return the name, made safe for a screen, and the file of one's own that it is from."""
        if isinstance(value, str):
            return plain(value)
        return f"{plain(value.name)} ({plain(value.file, 30) if value.file else 'of your own'})"

    def to_plain(self, name: str, value: str | OwnLubricant) -> Plain:
        """Return the name, or the table of one's own lubricant."""
        return {name: value if isinstance(value, str) else to_table(value)}

    def from_plain(self, name: str, table: Mapping[str, Any]) -> str | OwnLubricant:
        """Return the lubricant kept: a name that the list holds, or a table that says all of it."""
        held = table[name]
        if isinstance(held, Mapping):
            return of_table(name, held)
        accepted = f"{self.accepted()}; or, of your own, a table {name} with what its entry in a lubricant file states"
        value = line_of_text(name, held, accepted, LONGEST_NAME)
        if value not in self.names():
            near = nearest(value, list(self.names()))
            raise Refused(f'no lubricant is called "{plain(value)}"', near or accepted)
        return value


@dataclass(frozen=True, kw_only=True)
class CleanlinessCode(Text):
    """A code of ISO 4406."""

    kind: ClassVar[str] = "code"

    def accepted(self) -> str:
        """Return what a code looks like."""
        return "a code such as 18/15/12 or -/15/12, the numbers for 6 and 14 um last and not rising"

    def parse(self, text: str) -> str:
        """Return the code typed."""
        return self._coded(super().parse(text))

    def from_plain(self, name: str, table: Mapping[str, Any]) -> str:
        """Return the code kept."""
        return self._coded(super().from_plain(name, table))

    def _coded(self, text: str) -> str:
        from engine.lubrication.cleanliness import numbers_of_code  # no first screen reads a code

        if numbers_of_code(text) is None:
            raise Refused(f'"{plain(text)}" is not a cleanliness code', self.accepted())
        return text.strip()
