"""What is wrong with one catalogue file, gathered while reading on."""

import heapq
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

from engine.errors import MOST_LISTED, Problem, Problems, nearest, plain

if TYPE_CHECKING:
    from importlib.resources.abc import Traversable


class Trouble:
    """Problems of one file: counts all of them, keeps those of the first lines, raises them together."""

    def __init__(self, path: str) -> None:
        self.path = path
        self.found = 0
        # a heap of the first lines, last line on top; the count keeps the order of finding within a line
        self._kept: list[tuple[int, int, Problem]] = []

    def add(
        self, line: int, header: str, wrong: str, accepted: str, misspelt: str = "", choices: Sequence[str] = ()
    ) -> None:
        """Note one problem of a cell, or of a whole line when the header is empty.

        The nearest of the choices to what was misspelt is sought only for a problem that is kept.
        """
        self.found += 1
        key = (-line, -self.found)
        if len(self._kept) >= MOST_LISTED and key < self._kept[0][:2]:
            return
        close = nearest(misspelt, choices) if choices else ""
        problem = Problem(self.path, line, header, wrong, accepted, close, is_column=bool(header))
        if len(self._kept) < MOST_LISTED:
            heapq.heappush(self._kept, (*key, problem))
        else:
            heapq.heapreplace(self._kept, (*key, problem))

    def stop_if_any(self) -> None:
        """Raise what was found, in the order of lines, when something was."""
        if self.found:
            listed = [problem for *_, problem in sorted(self._kept, key=lambda kept: kept[:2], reverse=True)]
            raise Problems(listed, self.found - len(listed))

    def stop(self, wrong: str, accepted: str, line: int | None = None) -> NoReturn:
        """Raise one problem of the whole file, after which reading on makes no sense."""
        raise Problems([Problem(self.path, line, "", wrong, accepted)])

    def content_of(self, source: "Path | Traversable", largest: int) -> bytes:
        """Return the bytes of a file; stop where it cannot be read, holds nothing, or more than `largest` bytes."""
        try:
            with source.open("rb") as file:
                content = file.read(largest + 1)
        except (OSError, ValueError) as error:
            # ValueError: a path with a NUL character in it
            reason = getattr(error, "strerror", None) or str(error)
            self.stop(f"cannot be read ({plain(reason)})", "a CSV file")
        if not content.strip():
            self.stop("is empty", "a CSV file with a header and at least one row")
        if len(content) > largest:
            self.stop(f"is larger than {largest} bytes", "a catalogue of at most that size")
        return content
