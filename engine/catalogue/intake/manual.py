"""The documentation of the format, written from the tables that the reader itself reads."""

import textwrap
from collections.abc import Iterator

from engine.catalogue.columns import COLUMNS, Column
from engine.catalogue.intake.assembled import UNSTATED_STEEL, UNSTATED_TEMPERATURE
from engine.catalogue.intake.estimate import ESTIMATES
from engine.catalogue.intake.headers import ONE_OF, REQUIRED, UNITS, WORDS, spelled
from engine.catalogue.intake.rings.joining import OF_THE_CUP, ORDERS
from engine.catalogue.intake.text import LARGEST_FILE, MOST_ROWS

SAMPLE = """\
designation;d [mm];D [mm];T [mm];B [mm];C [mm];Cr [kN];C0r [kN];e;Y;mass [kg]
A-30;30;62;17,25;16;14;45,6;52,1;0,375;1,6;0,219
A-40;40;80;19,75;18;16;67,0;79,7;0,375;1,6;0,409
A-50;50;90;21,75;20;17;78,2;102,2;0,42;1,43;0,526
"""
_WIDTH = 100


def _orders() -> str:
    """Return in which order the words stand, of which an assembly has the worse."""
    orders = ["; ".join(", ".join(word for word in order if word) for order in some) for some in ORDERS.values()]
    return "the later of " + "; of ".join(orders)


_INTRODUCTION = f"""\
A catalogue of your own is a CSV file: one row of headers, then one row for each single-row assembly. Units stand in \
the header, as d_mm, d [mm], D (in) or Cr kN. Letter case counts only where it tells two columns apart (d and D, \
e and E). Columns may be parted by commas, semicolons or tabs and stand in any order; lines that begin with # are \
comments; what is empty is not known. At most {MOST_ROWS} rows and {LARGEST_FILE // 1_000_000} MB are read.

Cones and cups may stand on rows of their own: a column "part" then says cone or cup (nothing for an assembly) and the \
column "series" what fits what. Every cone is joined with every cup of its series; the cup gives \
{", ".join(OF_THE_CUP)}, the cone the rest, and masses and costs are added. Availability, steel and tolerance class \
are those of the worse part ({_orders()}), and the lower temperature counts. \
T1_mm of the cones (back face to the middle of the roller contact) and T2_mm of the cups (from there to the back face) \
give each assembly its T = T1 + T2 (T1 and T2 of ISO 355, recalled); without them T is that of the cone's row, and the \
check says where that is in doubt. The assembly is named cone first, then cup. Parts that fit none are reported.

Numbers may have a decimal point or a decimal comma, and thousands in groups ("12 500", "12.500,0", "12,500.0"). What \
can be read in two ways, as 1,234 or 45.600, is settled by the other cells of its column; where these prove nothing, \
by the other columns (one 17,25 makes 45.600 of another column 45600, and the check says so); where no cell of the \
file proves a sign, a point is a decimal point. Where the file writes both signs, or nothing settles a comma, the row \
is left out and both readings are named. Fractions of an inch may be written 1 3/8.

The load centre a is measured from the cone back face, positive into the bearing towards the small roller ends. Many \
data sheets measure it from the back face of the cup, or count it positive the other way; the check says so."""


def format_help() -> str:
    """Return the documentation of the format: columns, units, limits, and how what is missing is estimated."""
    parts = ["\n\n".join(textwrap.fill(part, _WIDTH) for part in _INTRODUCTION.split("\n\n"))]
    one_of = ", ".join(ONE_OF)
    parts.append("\n".join([f"Needed in every row ({', '.join(REQUIRED)}), and one of {one_of}:", *_listed(True)]))
    parts.append("\n".join(["May be left out, as a column or in single cells:", *_listed(False)]))
    parts.append(
        "\n".join(["Estimated where it is left out, and marked as estimated wherever it is shown:", *_estimated()])
    )
    parts.append("Sample:\n" + textwrap.indent(SAMPLE, "  ").rstrip())
    return "\n\n".join(parts) + "\n"


def _listed(needed: bool) -> Iterator[str]:
    for column in COLUMNS:
        if (column.name in (*REQUIRED, *ONE_OF)) == needed:
            text = f"{spelled(column)}: {column.what}; {_limits(column)}{_aliases(column)}"
            yield textwrap.fill(text, _WIDTH, initial_indent="  ", subsequent_indent="      ")


def _limits(column: Column) -> str:
    if column.choices:
        return " or ".join(choice for choice in column.choices if choice)
    if column.kind == "text":
        return "text"
    unit = "" if column.unit == "-" else f" {UNITS[column.unit][0].name}"
    noun = "a whole number from " if column.kind == "count" else ""
    return f"{noun}{column.least:.12g} to {column.greatest:.12g}{unit}"


def _aliases(column: Column) -> str:
    words = WORDS.get(column.name)
    return f"; also called {', '.join(words)}" if words else ""


def _estimated() -> Iterator[str]:
    for one in ESTIMATES:
        formula = (one.cited_by.__doc__ or "").strip().split("\n\n")[1].strip()
        text = f"{one.column} from {', '.join(one.given)}: {' '.join(formula.split())} ({one.citation})"
        yield textwrap.fill(text, _WIDTH, initial_indent="  ", subsequent_indent="      ")
    yield f"  max_temperature: {UNSTATED_TEMPERATURE:g} degC (common practice, no source)"
    yield f"  steel: {UNSTATED_STEEL}, the more cautious one; system: by the unit of the bore;"
    yield "      series: by ISO 355 from the dimensions; cone and cup: the designation with the word behind it"
