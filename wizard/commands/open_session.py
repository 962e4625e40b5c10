"""Sessions for the wizard: new, on a record, or on the finished example."""

from __future__ import annotations

import contextlib
import itertools
import os
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from engine.record.document import Record
from wizard import wording
from wizard.commands import recent
from wizard.commands.recent import Offer, offers
from wizard.keeping import presence, rescue
from wizard.keeping.shelf import new_path, prune, state_folder
from wizard.session import Session

if TYPE_CHECKING:
    from engine.record.compared.difference import Difference
    from engine.record.compared.verify import Verification

DEMO = "ropeway_sheave.toml"
#: How alike two names are, from 0 to 1, of which one may be the other mistyped; and so many files are looked at.
_NEAR, _LOOKED_AT = 0.75, 5000


def record_or_new(name: str | None) -> tuple[Session, str]:
    """Return a session and a note to show; raise Problems where a record cannot be read.

    A name that does not exist yet starts a record of that name.
    """
    if name is None:
        return _new(), ""
    path = Path(name).absolute()
    if not path.exists() and path.parent.is_dir():
        from engine.answers.document import Answers

        return Session(Record(Answers()), path, named=True), " ".join([new_record(path), *elsewhere(path)])
    from engine.record.read import read  # a new session need not wait for what reads one

    record = read(path)
    return Session(record, path, named=True), _note(record, path)


def new_record(path: Path) -> str:
    """Return that a record of this name is new, with the record in its folder that has nearly the same name."""
    names: dict[str, str] = {}
    with contextlib.suppress(OSError):
        for entry in itertools.islice(os.scandir(path.parent), _LOOKED_AT):
            if entry.name.endswith(".toml") and not entry.name.startswith("."):
                names[entry.name.casefold()] = entry.name
    near: list[str] = []
    if names:
        from difflib import get_close_matches

        near = get_close_matches(path.name.casefold(), names, n=1, cutoff=_NEAR)
    return wording.new_record(path, names[near[0]] if near else "")


def _new() -> Session:
    from engine.answers.document import Answers

    folder = state_folder()
    prune(folder)
    return Session(Record(Answers()), new_path(folder, datetime.now()), named=False)


def ways_to_begin() -> list[Offer]:
    """Return the ways to begin: new, what was worked on last, the example."""
    return offers(state_folder())


def chosen(offer: Offer) -> tuple[Session, str]:
    """Return the session of a way to begin, and a note to show; raise Problems where its record cannot be read."""
    if offer.path == "demo":
        return demo()
    if not offer.path:
        return _new(), ""
    from engine.record.read import read

    path = Path(offer.path)
    record = read(path)
    named = path.parent != state_folder() and path not in rescue.stranded()
    if named:
        remember(path)
    return Session(record, path, named), _note(record, path) or wording.going_on(path, rescue.record_of(path))


def _note(record: Record, path: Path) -> str:
    """Return what is worth knowing of a record that is opened."""
    later = rescue.rescued_of(path)
    said = [wording.rescued(later)] if later is not None else []
    return " ".join([*elsewhere(path), *said, *record.warnings, *([record.unused.note] if record.unused else [])])


def elsewhere(path: Path) -> list[str]:
    """Return that a record is open in another session, where it is."""
    return [wording.open_elsewhere(path.name, one.process, one.since) for one in presence.others(path)[:1]]


def document(session: Session, form: str) -> Path:
    """Write a document of a session beside its record, one without a name here; raise Problems or OSError."""
    from wizard.commands.beside import beside

    return beside(session.record(), session.path, form, session.path.parent if session.named else Path.cwd())


def verified(session: Session) -> tuple[Verification, Record]:
    """Return what verifying the file of a session comes to, and what it holds; raise Problems."""
    from wizard.commands import verify
    from wizard.commands.output import stop

    if session.trouble:
        stop("", session.trouble, "a record that is saved, as w saves it under another name")
    if not session.path.exists():
        stop("", "nothing of this session stands in a file yet", "a record that is saved, as w saves it")
    return verify.verified(session.path)


def compared(session: Session, other: Record, path: Path) -> tuple[Difference, list[str]]:
    """Return how the record of a session differs from another one that was read from a file, and notes on either."""
    from engine.record.read import read
    from wizard.commands import diff

    kept = session.path.exists() and not session.trouble
    return diff.compared((read(session.path) if kept else session.record(), other), (session.path, path))


def remember(path: Path) -> None:
    """Put a record at the head of those worked on last."""
    recent.remember(state_folder(), path)


def demo() -> tuple[Session, str]:
    """Return a session on a copy of the finished example; the example itself is never changed."""
    from importlib.resources import files

    from engine.record.read import parse

    source = files("catalogs") / "examples" / DEMO
    record = parse(source.read_bytes(), DEMO)
    fresh = _new()
    return Session(record, fresh.path, named=False), "A finished example; what you change is kept in a copy of its own."
