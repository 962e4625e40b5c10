"""A report before any format: sections of paragraphs, lists, tables and drawings."""

from collections.abc import Iterator
from dataclasses import dataclass

from engine.report.drawn.shapes import Drawing


@dataclass(frozen=True)
class Cell:
    """What stands in a cell of a table: a text, the key of the figure that it shows, and its state.

    The state is "passes", "near", "fails" or "caution" where the cell judges, else "".
    """

    text: str
    key: str = ""
    state: str = ""


@dataclass(frozen=True)
class Table:
    """A table: its header, rows of cells, and the columns that hold numbers, set to the right."""

    head: tuple[str, ...]
    rows: tuple[tuple[Cell, ...], ...]
    numbers: frozenset[int] = frozenset()
    caption: str = ""


@dataclass(frozen=True)
class Text:
    """A paragraph."""

    words: str
    state: str = ""


@dataclass(frozen=True)
class Items:
    """A list of sentences."""

    words: tuple[str, ...]


@dataclass(frozen=True)
class Pictures:
    """Drawings that stand side by side, with a caption."""

    drawings: tuple[Drawing, ...]
    caption: str = ""


@dataclass(frozen=True)
class Formula:
    """A formula as its source prints it: what it gives and where it stands, its lines, and its symbols with units."""

    head: str
    lines: tuple[str, ...]
    symbols: str


Part = Table | Text | Items | Pictures | Formula


@dataclass(frozen=True)
class Section:
    """A heading and what stands under it.

    `group` is what it belongs to in the contents; `entry` what it is called there, where that is not its title, and
    empty where the contents name it together with one before.
    """

    title: str
    parts: tuple[Part, ...]
    group: str = ""
    entry: str | None = None


@dataclass(frozen=True)
class Report:
    """A whole report: its title, a line below it, its sections, and the line at the foot of every page.

    `one_page` asks for a layout that fits on one. `papers` are the fields at its head, each with what is in it, or
    nothing for what is filled in by hand; a report with them has a list of contents too.
    """

    title: str
    subtitle: str
    sections: tuple[Section, ...]
    foot: str
    one_page: bool = False
    papers: tuple[tuple[str, str], ...] = ()

    def tables(self) -> Iterator[Table]:
        """Walk every table."""
        for section in self.sections:
            yield from (part for part in section.parts if isinstance(part, Table))


def row(*texts: str) -> tuple[Cell, ...]:
    """Return cells of plain texts."""
    return tuple(Cell(text) for text in texts)
