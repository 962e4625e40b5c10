"""Questions answered with words: one of a few options, yes or no, a line of text."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, ClassVar

from engine.answers.question import Question, Refused, line_of_text, stood
from engine.errors import plain


@dataclass(frozen=True)
class Option:
    """One thing that a Choice accepts: the value kept, what the screen calls it, and what it means.

    An answer that may give does so along the options of its own `line`, which stand in their order.
    """

    value: str
    label: str
    means: str = ""
    line: str = ""


@dataclass(frozen=True, kw_only=True)
class Choice(Question):
    """One of a few named options."""

    options: tuple[Option, ...]

    kind: ClassVar[str] = "choice"

    def accepted(self) -> str:
        """Return the values that a record may hold."""
        return ", ".join(option.value for option in self.options)

    @property
    def by_number(self) -> bool:
        """Whether an option may be picked by its place; not where the options are numbers themselves."""
        return len(self.options) <= 9 and not any(option.value.isdigit() for option in self.options)

    def parse(self, text: str) -> str:
        """Return the value of the option typed: its number, its value, or an unmistakable beginning in its label."""
        wanted = text.strip().lower()
        if self.by_number and len(wanted) == 1 and wanted in "123456789"[: len(self.options)]:
            return self.options[int(wanted) - 1].value
        for option in self.options:
            if wanted in {option.value.lower(), option.label.lower()}:
                return option.value
        found = self.meant(wanted)
        if len(found) == 1:
            return found[0].value
        if found:
            raise Refused(f'"{plain(text)}" may mean several options', ", ".join(option.label for option in found))
        raise Refused(f'"{plain(text)}" is not one of the options', ", ".join(o.label for o in self.options))

    def meant(self, text: str) -> tuple[Option, ...]:
        """Return the options that a text may mean: those whose label begins with it, else those with such a word."""
        wanted = text.strip().lower()
        begins = tuple(o for o in self.options if wanted and o.label.lower().startswith(wanted))
        words = tuple(
            o for o in self.options if wanted[:1].isalpha() and f" {wanted}" in f" {o.label.lower().replace('-', ' ')}"
        )
        return begins or words

    def show(self, value: str) -> str:
        """Return the option's label."""
        return next((option.label for option in self.options if option.value == value), plain(value))

    def from_plain(self, name: str, table: Mapping[str, Any]) -> str:
        """Return the value where it is one of the options."""
        value = table[name]
        if not isinstance(value, str) or value not in {option.value for option in self.options}:
            raise Refused(f'"{plain(str(value))}" is not one of the options', self.accepted())
        return value


@dataclass(frozen=True, kw_only=True)
class YesNo(Question):
    """Yes or no."""

    kind: ClassVar[str] = "yes_no"

    options: ClassVar[tuple[Option, ...]] = (Option("yes", "yes"), Option("no", "no"))

    def accepted(self) -> str:
        """Return the two words."""
        return "yes or no (true or false in a record)"

    def parse(self, text: str) -> bool:
        """Return whether yes was typed."""
        wanted = text.strip().lower()
        if wanted in {"yes", "y", "true", "1"}:
            return True
        if wanted in {"no", "n", "false", "2"}:
            return False
        raise Refused(f'"{plain(text)}" is neither yes nor no', self.accepted())

    def show(self, value: bool) -> str:
        """Return yes or no."""
        return "yes" if value else "no"

    def from_plain(self, name: str, table: Mapping[str, Any]) -> bool:
        """Return the boolean."""
        value = table[name]
        if not isinstance(value, bool):
            raise Refused(f"{name} is not true or false{stood(value)}", self.accepted())
        return value


@dataclass(frozen=True, kw_only=True)
class Text(Question):
    """A line of words, such as a name."""

    longest: int = 60

    kind: ClassVar[str] = "text"

    def accepted(self) -> str:
        """Return the length allowed."""
        return f"up to {self.longest} printable characters"

    def parse(self, text: str) -> str:
        """Return the words typed."""
        return line_of_text("it", text.strip(), self.accepted(), self.longest)

    def show(self, value: str) -> str:
        """Return the words, made safe for a screen."""
        return plain(value)

    def from_plain(self, name: str, table: Mapping[str, Any]) -> str:
        """Return the words kept."""
        return line_of_text(name, table[name], self.accepted(), self.longest)
