"""Where the statements of a TOML text stand: the lines of every header and key, and the comments beside them.

Only for texts that the TOML parser has taken: what would be an error there is passed over here without a word.
"""

import re
import tomllib
from collections.abc import Iterator
from dataclasses import dataclass

from engine.errors import plain

_PART = r"""(?:[A-Za-z0-9_-]+|"(?:[^"\\\n]|\\.)*"|'[^'\n]*')"""
_NAME = rf"{_PART}(?:[ \t]*\.[ \t]*{_PART})*"
_HEADER = re.compile(rf"[ \t]*(\[\[?)[ \t]*({_NAME})[ \t]*\]\]?")
_KEY = re.compile(rf"[ \t]*({_NAME})[ \t]*=[ \t]*")
_PARTS = re.compile(_PART)
#: A text in quotes, of one line or many; a comment; or what opens and closes.
_TOKEN = re.compile(
    r'"""(?:[^\\]|\\.)*?"{3,5}|\'\'\'.*?\'{3,5}|"(?:[^"\\\n]|\\.)*"|\'[^\'\n]*\'|#[^\n]*|[\[{]|[\]}]|\n', re.DOTALL
)


@dataclass(frozen=True)
class Statement:
    """A header or key: its path, the lines from first to last (from 1), the comments above it and at its end."""

    path: str
    first: int
    last: int
    header: bool
    above: tuple[str, ...]
    comment: str


def statements(text: str) -> tuple[list[Statement], tuple[str, ...]]:
    """Return the statements of a text in order, and the comments after the last of them."""
    found: list[Statement] = []
    above: list[str] = []
    sections = _Sections()
    at, line = 0, 1
    while at < len(text):
        end = text.find("\n", at)
        end = len(text) if end < 0 else end
        stripped = text[at:end].strip()
        if not stripped or stripped.startswith("#"):
            above += [stripped] if stripped else []
        elif header := _HEADER.match(text, at):
            comment = text[header.end() : end].strip()
            path = sections.opened(_parts(header[2]), of_list=header[1] == "[[")
            found.append(Statement(path, line, line, True, tuple(above), comment))
            above = []
        elif key := _KEY.match(text, at):
            end, inner, comment = _value(text, key.end())
            path = ".".join(part for part in (sections.at, *_parts(key[1])) if part)
            last = line + text.count("\n", at, end)
            found.append(Statement(path, line, last, False, (*above, *inner), comment))
            above = []
        line += text.count("\n", at, end) + 1
        at = end + 1
    return found, tuple(above)


class _Sections:
    """The table that the keys belong to, with the numbers of the items of lists."""

    def __init__(self) -> None:
        self.at = ""
        self._items: dict[str, int] = {}

    def opened(self, parts: list[str], of_list: bool) -> str:
        path = ""
        for place, part in enumerate(parts, 1):
            path = f"{path}.{part}" if path else part
            if of_list and place == len(parts):
                self._items[path] = self._items.get(path, -1) + 1
            if path in self._items:
                path = f"{path}[{self._items[path]}]"
        self.at = path
        return path


def _parts(name: str) -> list[str]:
    return [_unquoted(part) for part in _PARTS.findall(name)]


def _unquoted(part: str) -> str:
    if part[0] not in "\"'":
        return part
    try:
        return next(iter(tomllib.loads(f"{part} = 0")))
    except tomllib.TOMLDecodeError:
        return part


def _value(text: str, at: int) -> tuple[int, list[str], str]:
    """Return where the last line of a value ends, the comments within it, and the one at its end."""
    depth = 0
    comments: list[str] = []
    for token in _TOKEN.finditer(text, at):
        sign = token[0]
        if sign in "[{":
            depth += 1
        elif sign in "]}":
            depth -= 1
        elif sign == "\n":
            if depth <= 0:
                return token.start(), comments, ""
        elif sign[0] == "#":
            if depth <= 0:
                return token.end(), comments, sign.rstrip()
            comments.append(sign.rstrip())
    return len(text), comments, ""


class Lines:
    """The line on which a key path stands, looked up as often as wanted."""

    def __init__(self, text: str) -> None:
        self._text: str | None = text
        self._exact: dict[str, int] = {}
        self._below: dict[str, int] = {}

    def of(self, path: str) -> int | None:
        """Return the line of a path: its own, else that of the value or the tables within which it stands or begins."""
        self._read()
        if path in self._exact:
            return self._exact[path]
        if path in self._below:
            return self._below[path]
        return next((self._exact[outer] for outer in _outer(path) if outer in self._exact), None)

    def _read(self) -> None:
        if self._text is None:
            return
        for statement in statements(self._text)[0]:
            # a path is looked up as a message shows it: cut where it is long, escaped where it is not printable
            self._exact.setdefault(plain(statement.path), statement.first)
            for outer in _outer(statement.path):
                self._below.setdefault(outer, statement.first)
        self._text = None


def _outer(path: str) -> Iterator[str]:
    """Walk outwards: from a.b[1].c to a.b[1], a.b, a."""
    while path:
        path = path[: path.rindex("[")] if path.endswith("]") and "[" in path else path.rpartition(".")[0]
        if path:
            yield path
