"""What the report of the unfolded example prints: its tables by section, its numbers as they stand."""

import math
import re

from tests.unmoved.write_examples import UNFOLDED

TEXT = UNFOLDED.with_suffix(".md").read_text("utf-8")
#: Of a number that is used further the printed digits are all that is known: what follows from it is off by so much.
OFF = 2e-5


def _sections():
    """Return the tables of the report by section: rows of cells."""
    found = {}
    for part in TEXT.split("\n## ")[1:]:
        title, _, body = part.partition("\n")
        rows = [re.split(r"(?<!\\)\|", line)[1:-1] for line in body.splitlines() if line.startswith("| ")]
        found[title] = [[cell.strip().replace("\\", "") for cell in row] for row in rows]
    return found


SECTIONS = _sections()


def number(text):
    """Return a printed number: in brackets where what was typed stands before it in another unit."""
    within = re.search(r"\(([^()]*\d[^()]*)\)", text)
    found = re.search(r"-?\d[\d ]*(?:\.\d+)?(?:e[+-]?\d+)?", within[1] if within else text)
    return float(found[0].replace(" ", ""))


def room(text):
    """Return by how much a number may be off that is printed so: half its last digit, of three at least."""
    digits, _, power = text.replace(" ", "").lstrip("~-").partition("e")
    last = 10.0 ** (int(power or 0) - len(digits.partition(".")[2]))
    value = abs(number(text))
    # zeros at the end are not printed: 30 may stand for 30.0, never for 30.4
    return min(0.5 * last, 0.5 * 10.0 ** (math.floor(math.log10(value)) - 2)) if value and last <= 1 else 0.5 * last


def agrees(text, value, off=OFF):
    """Return whether what was redone, a number or a word, is what is printed."""
    if isinstance(value, str):
        return text == value
    if not re.search(r"\d", text):
        return False
    return abs(value - number(text)) <= room(text) + off * abs(number(text)) + 1e-12


def figures(title):
    """Return the figures of a section by name: the texts at A and at B, of the pair the same twice.

    A name that stands there twice is told by its symbol too.
    """
    rows = [row for row in SECTIONS[title] if len(row) == 6 and row[1] not in ("figure", "---")]
    names = [row[1] for row in rows]
    return {f"{row[1]}, {row[0]}" if names.count(row[1]) > 1 else row[1]: (row[2], row[3] or row[2]) for row in rows}


def of_figures():
    """Return the titles of the sections that are tables of figures."""
    return [title for title, rows in SECTIONS.items() if rows and rows[0][1:3] == ["figure", "A"]]


def sources(title):
    """Return where each figure of a section comes from, in their order."""
    return dict(
        zip(figures(title), (row[5] for row in SECTIONS[title] if row[1] not in ("figure", "---")), strict=True)
    )


def case_title(case, words=""):
    """Return the title of the section of a load case, such as its film and heat."""
    lead = f"Load case {case}: "
    return next(title for title in SECTIONS if title.startswith(lead) and title.endswith(words or NAMES[case]))


def answer(title, label, at=1):
    """Return an answer as printed; of a load case `at` is its number."""
    return next(row[at] for row in SECTIONS[f"Answered: {title}"] if row[0] == label)


def assumed(label):
    """Return what was assumed of a question that was left open, as printed."""
    line = next(line for line in TEXT.splitlines() if line.startswith(f"- {label}: "))
    return line.partition(": ")[2].partition(" (")[0]


def bearing(name):
    """Return a figure of the bearings at A and at B."""
    return tuple(number(text) for text in figures("Bearings")[name])


def taken(words, section="Rollers, film and friction"):
    """Return a constant at A and at B, found by how its line begins."""
    cells = next(row for row in SECTIONS[section] if row[0].startswith(words))
    return tuple(number(text) for text in cells[1:3])


CASES = (1, 2)
NAMES = {case: answer("Duty", "Name of the case", case) for case in CASES}
SHARES = [number(answer("Duty", "Share of running time", case)) / 100 for case in CASES]
SPEEDS = [number(answer("Duty", "Speed", case)) for case in CASES]
LIFE = number(answer("Duty", "Required life"))
