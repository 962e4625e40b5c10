"""The rows of a CSV file one after the other, by the csv module, with the line on which each begins."""

import csv
import io
from collections.abc import Iterator

DELIMITERS = (",", ";", "\t", "|")


class Lines:
    """The lines of a file, with the number of the line on which the present row began.

    Decoded piece by piece, so that the text never stands in memory as a whole. Lines of comment are passed over
    where a row may begin; inside a quoted cell every line belongs to the cell.
    """

    def __init__(self, content: bytes, encoding: str) -> None:
        # newline="": LF, CR LF and CR end a line, and the csv module gets them as they are
        self._file = io.TextIOWrapper(io.BytesIO(content), encoding, newline="")
        self.number = 0
        self.row_begins = True
        self.start = 0

    def __iter__(self) -> Iterator[str]:
        return self

    def __next__(self) -> str:
        for line in self._file:
            self.number += 1
            if self.row_begins:
                if line.lstrip().startswith("#") or (self.number == 1 and separator_of(line)):
                    continue
                self.start = self.number
                self.row_begins = False
            return line
        raise StopIteration

    @property
    def first(self) -> str:
        """The first line, when nothing was read yet."""
        return self._file.readline(100)


def separator_of(line: str) -> str:
    """Return the sign that a line `sep=;` declares, or "" when it is no such line."""
    text = line.strip("\r\n \"'")
    if len(text) == 5 and text[:4].casefold() == "sep=" and text[4] in DELIMITERS:
        return text[4]
    return "\t" if line.strip("\r\n\"'").casefold() == "sep=\t" else ""


def csv_rows(lines: Lines, delimiter: str) -> Iterator[list[str]]:
    """Yield the rows that hold anything."""
    for row in csv.reader(lines, delimiter=delimiter, strict=True):
        if any(row) and any(map(str.strip, row)):
            yield row
        lines.row_begins = True
