"""Ways to begin: a new session, the sessions and records worked on last, the finished example. Knows no screen."""

from __future__ import annotations

import contextlib
import re
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from wizard.keeping import rescue, shelf

#: So many records are remembered, and so many of all are offered.
MOST = 20
OFFERED = 7
_LIST = "recent.txt"


@dataclass(frozen=True)
class Offer:
    """One way to begin: what it is called, more about it, and the file to open ("" new, "demo" the example).

    Of a file also when it was changed last, its name, and the folder it lies in.
    """

    title: str
    about: str
    path: str
    changed: str = ""
    file: str = ""
    folder: str = ""


def remember(folder: Path, path: Path) -> None:
    """Put a record at the head of those worked on last."""
    path = _resolved(path)
    kept = [str(path), *(str(one) for one in _listed(folder) if one != path)]
    with contextlib.suppress(OSError, ValueError):
        folder.mkdir(parents=True, exist_ok=True)
        (folder / _LIST).write_text("".join(f"{one}\n" for one in kept[:MOST]), encoding="utf-8")


def _listed(folder: Path) -> list[Path]:
    try:
        lines = (folder / _LIST).read_text(encoding="utf-8").splitlines()
    except (OSError, ValueError):
        return []
    return list(dict.fromkeys(_resolved(Path(one)) for one in lines if one.isprintable() and one))


def _resolved(path: Path) -> Path:
    """Return a path with its folder resolved; the name stays, since a link is what was opened."""
    with contextlib.suppress(OSError, RuntimeError):
        return path.parent.resolve() / path.name
    return path


def offers(folder: Path) -> list[Offer]:
    """Return the ways to begin: new, then what was worked on last, then the example."""
    sessions = {_resolved(path): when for path, when in reversed(shelf.in_order(folder))}
    dated = [(when, path, True) for path, when in sessions.items()]
    for path in rescue.stranded():
        with contextlib.suppress(OSError):
            dated.append((path.stat().st_mtime, path, True))
    for path in _listed(folder):
        with contextlib.suppress(OSError):
            if path not in sessions:
                dated.append((path.stat().st_mtime, path, False))
    dated.sort(key=lambda one: one[0], reverse=True)  # of the same time: in the order of work
    return [
        Offer("new session", "from the first question on; saved as you go", ""),
        *(_offer(path, when, unnamed) for when, path, unnamed in dated[:OFFERED]),
        Offer("example", "finished, to look around in; kept in a copy", "demo"),
    ]


def _offer(path: Path, when: float, unnamed: bool) -> Offer:
    """Return how a file is offered."""
    title = _job(path) or (_begun(path) if unnamed else "without a job's name")
    changed, folder = f"{datetime.fromtimestamp(when):%Y-%m-%d %H:%M}", from_home(path.parent)
    record = rescue.record_of(path) if unnamed else None
    folder = folder if record is None else f"not saved in {record}; {folder}"
    return Offer(title, f"{changed}, {path.name}, {folder}", str(path), changed, path.name, folder)


def _begun(path: Path) -> str:
    """Return what a session without any name is told by: when it was begun, which its file name holds."""
    begun = re.match(r"session-(\d{4})(\d\d)(\d\d)-(\d\d)(\d\d)", path.name)
    return "unnamed, begun {}-{}-{} {}:{}".format(*begun.groups()) if begun else "unnamed"


def from_home(folder: Path) -> str:
    """Return a folder as a shell shows it, with ~ for the user's own."""
    with contextlib.suppress(OSError, RuntimeError, ValueError):
        below = folder.relative_to(Path.home().resolve())
        return "~" if below == Path() else f"~/{below.as_posix()}"
    return str(folder)


def _job(path: Path) -> str:
    """Return what the record says its job is, from its first lines only; "" where it does not."""
    with contextlib.suppress(OSError, ValueError), path.open(encoding="utf-8") as file:
        for line, _ in zip(file, range(200), strict=False):
            if line.partition(" = ")[0] == "job":
                import tomllib  # a start with nothing to go on with need not wait for it

                return str(tomllib.loads(line)["job"])
    return ""
