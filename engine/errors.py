"""What the engine says when something handed to it is wrong: rows, all of them at once, safe to show.

No numpy here: a command that only prints a problem starts without it.
"""

import bisect
import difflib
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

#: A shown piece of data is cut here, so that a stray megabyte stays one line.
LONGEST_SHOWN = 200
#: Sentences and paths of ours are cut later than data, since they hold pieces of data and lists of what is accepted.
LONGEST_SENTENCE = 1000
#: So many problems are listed; the rest is a number.
MOST_LISTED = 50
#: Closeness is searched among at most so many names, since comparing spellings costs microseconds each.
MOST_COMPARED = 2000

# printable by Unicode's books, yet drawn as nothing: fillers and variation selectors
_UNSEEN = frozenset({0x115F, 0x1160, 0x2800, 0x3164, 0xFFA0, *range(0xFE00, 0xFE10), *range(0xE0100, 0xE01F0)})


def _visible(character: str) -> str:
    code = ord(character)
    if character.isprintable() and code not in _UNSEEN:
        return character
    if code < 0x100:
        return f"\\x{code:02x}"
    return f"\\u{code:04x}" if code < 0x10000 else f"\\U{code:08x}"


def plain(text: object, longest: int = LONGEST_SHOWN) -> str:
    r"""Return text from data made safe to show on one line of any terminal.

    Control characters, escape sequences, bidirectional controls, lone surrogates and every other character that
    is not drawn become a visible escape such as \x1b; what is longer than `longest` is cut and ends in "...".
    """
    whole = str(text)
    # every character is shown as one or more, so nothing past `longest` can be shown
    pieces = [_visible(character) for character in whole[: longest + 1]]
    if sum(map(len, pieces)) <= longest:
        return "".join(pieces)
    room = longest - 3
    kept: list[str] = []
    for piece in pieces:
        room -= len(piece)
        if room < 0:
            break
        kept.append(piece)
    return "".join(kept) + "..."


def nearest(word: str, choices: Sequence[str]) -> str:
    """Return the choice spelled most like the word, or "" when none is close."""
    folded = word.casefold()[: LONGEST_SHOWN + 1]
    pool: Sequence[str] = choices
    if len(pool) > MOST_COMPARED:
        # of very many names only those that stand near the word in the order of spelling are worth a comparison
        ordered = sorted(pool)
        place = bisect.bisect(ordered, word)
        pool = ordered[max(0, place - MOST_COMPARED // 2) : place + MOST_COMPARED // 2]
    # letter case may be all that tells two choices apart (d and D), so the exact case is tried first
    found = difflib.get_close_matches(word[: LONGEST_SHOWN + 1], pool, n=1, cutoff=0.6)
    if found:
        return found[0]
    by_folded = {choice.casefold(): choice for choice in pool}
    found = difflib.get_close_matches(folded, list(by_folded), n=1, cutoff=0.6)
    return by_folded[found[0]] if found else ""


@dataclass(frozen=True)
class Problem:
    """One thing that is wrong, where it stands, and what would be accepted.

    `path` is the file or "", `line` only ever a line that the parser gave, `field` a key path or, with
    `is_column`, the header of a column. All of them are made plain on the way in.
    """

    path: str
    line: int | None
    field: str
    wrong: str
    accepted: str
    nearest: str = ""
    is_column: bool = False

    def __post_init__(self) -> None:
        for name, longest in (
            ("path", LONGEST_SENTENCE),
            ("field", LONGEST_SHOWN),
            ("wrong", LONGEST_SENTENCE),
            ("accepted", LONGEST_SENTENCE),
            ("nearest", LONGEST_SHOWN),
        ):
            object.__setattr__(self, name, plain(getattr(self, name), longest))

    def __str__(self) -> str:
        """Return it as one line: where, what is wrong, what is accepted, the nearest spelling."""
        where = [self.path] if self.path else []
        if self.line is not None:
            where.append(f"line {self.line}")
        if self.field:
            where.append(f'column "{self.field}"' if self.is_column else self.field)
        line = f"{', '.join(where)}: {self.wrong}" if where else self.wrong
        if self.accepted:
            line += f"; accepted: {self.accepted}"
        if self.nearest:
            line += f'; did you mean "{self.nearest}"?'
        return line


class Problems(Exception):  # noqa: N818 - a collection of what is wrong, named after what it holds
    """Everything found wrong in one go; `more` counts those found beyond the ones that are held."""

    def __init__(self, problems: Iterable[Problem], more: int = 0) -> None:
        self.problems = tuple(problems)
        self.more = more
        super().__init__(self.problems, more)

    def __str__(self) -> str:
        """Return one line a problem, the first 50 of them, and how many more there are."""
        listed = self.problems[:MOST_LISTED]
        unlisted = len(self.problems) - len(listed) + self.more
        lines = [str(problem) for problem in listed]
        return "\n".join([*lines, f"and {unlisted} more"] if unlisted else lines)
