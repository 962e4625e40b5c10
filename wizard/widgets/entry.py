"""The line in which an answer is typed: its text, the caret and what the keys do to them. Knows no screen."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Entry:
    """A line of text with a caret before its `at`-th character; never longer than `longest`."""

    text: str = ""
    at: int = 0
    longest: int = 64

    @classmethod
    def of(cls, text: str, longest: int) -> "Entry":
        """Return an entry with the caret behind the text."""
        text = text[:longest]
        return cls(text, len(text), longest)

    @property
    def room(self) -> int:
        """How many more characters there is room for."""
        return self.longest - len(self.text)

    def fits(self, text: str) -> bool:
        """Return whether there is room for all that a text would put in."""
        return len(_put_in(text)) <= self.room

    def typed(self, text: str) -> "Entry":
        """Return the entry with a text put in at the caret: its first line, what is printable, as much as fits."""
        put = _put_in(text)[: self.room]
        return self._with(self.text[: self.at] + put + self.text[self.at :], self.at + len(put))

    def press(self, key: str) -> "Entry | None":
        """Return the entry after an editing key, or None where the key does not edit."""
        text, at = self.text, self.at
        if key == "backspace":
            return self._with(text[: max(at - 1, 0)] + text[at:], at - 1)
        if key == "delete":
            return self._with(text[:at] + text[at + 1 :], at)
        if key == "ctrl+u":
            return self._with(text[at:], 0)
        if key == "ctrl+k":
            return self._with(text[:at], at)
        places = {"left": at - 1, "right": at + 1, "home": 0, "ctrl+a": 0, "end": len(text), "ctrl+e": len(text)}
        return self._with(text, places[key]) if key in places else None

    def _with(self, text: str, at: int) -> "Entry":
        return Entry(text, max(0, min(at, len(text))), self.longest)

    def window(self, width: int) -> tuple[str, str, str]:
        """Return what shows in a width: the text before the caret, the character under it, the text behind it."""
        start = max(0, self.at - width + 1)
        shown = self.text[start : start + width]
        caret = self.at - start
        return shown[:caret], shown[caret : caret + 1] or " ", shown[caret + 1 :]


def _put_in(text: str) -> str:
    """Return what a text would put into an entry: its first line, as far as it is printable."""
    line = next(iter(text.splitlines()), "")
    return "".join(c for c in line if c.isprintable())
