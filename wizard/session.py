"""The document being edited: answers, undo and redo, and the file in which nothing is lost. Knows no screen."""

from __future__ import annotations

import contextlib
import os
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

import msgspec

from engine import __version__
from engine.answers.document import Answers, get, items_at, listing_at, put, question_at, with_items
from engine.errors import plain
from engine.record.document import Record
from engine.record.kept import Kept, aside
from wizard.keeping import shelf
from wizard.keeping.rescue import Rescue

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from engine.record.result import Result

#: Answers that make the application factor.
OF_APPLICATION = ("duty.driver", "duty.driven")


def record_path(text: str) -> Path:
    """Return the file that a typed name means: `~` is the home folder, and a bare name gets `.toml`."""
    path = Path(os.path.expanduser(text))
    return path.with_name(f"{path.name}.toml") if path.name and not path.suffix and not path.is_dir() else path


@dataclass(frozen=True)
class Changed:
    """One step that can be undone: what it was called and the document after it."""

    label: str
    answers: Answers


class Session:
    """Answers with their history, saved after every accepted change."""

    def __init__(self, record: Record, path: Path, named: bool) -> None:
        self.path = path
        self.named = named
        self.trouble = self._why = ""
        self._elsewhere, self._said_where = Rescue(), False
        self.notice = ""  # what happened to the file and is worth a word, until it is shown
        self._kept = Kept(path)
        self.result: Result | None = None
        #: Called with the answers after each change, before they are written: a search need not wait for the disk.
        self.on_change: Callable[[Answers], None] | None = None
        self.catalogue = (record.catalogue, record.catalogue_hash)
        #: What the file holds beside answers and result: comments, and what only a newer version knows.
        self._beside = {"schema": record.schema, "carried": record.carried}
        self._begun = record.answers
        self._fresh = not path.exists()  # what it began with was not given by anybody, so it cannot be lost
        self._safe, self._safe_in = record.answers, None if self._fresh else path  # what stands in a file, and where
        self._changed = False  # whether anything was changed since it was opened: who only looks rewrites no file
        self._noted: Path | None = None  # the name under which the shelf has this as the newest
        self._past: list[Changed] = []
        self._now = Changed("", record.answers)
        self._future: list[Changed] = []

    @property
    def answers(self) -> Answers:
        """The document as it stands."""
        return self._now.answers

    @property
    def empty(self) -> bool:
        """Whether nothing has been answered."""
        return self.answers == Answers()

    @property
    def new(self) -> bool:
        """Whether nothing is answered and no file there yet."""
        return self._safe_in is None and self.empty

    @property
    def lacking(self) -> bool:
        """Whether somebody gave answers that do not stand in the file where they belong."""
        if not self.trouble or (self._fresh and self.answers == self._begun):
            return False
        return self.answers != self._safe or self._safe_in is None or not self._safe_in.exists()

    @property
    def rescued(self) -> Path | None:
        """The file that holds the answers meanwhile, where they do not stand where they belong."""
        return self._elsewhere.holding(self.answers) if self.lacking else None

    @property
    def unsaved(self) -> bool:
        """Whether somebody gave answers that stand in no file at all."""
        return self.lacking and self.rescued is None

    @property
    def told(self) -> str:
        """What is wrong with saving, and where the answers are meanwhile; "" where nothing is."""
        kept = self.rescued
        return self.trouble if kept is None else f"NOT SAVED: {self._why}; kept in {plain(kept.name, 60)}"

    @property
    def last_change(self) -> str:
        """What the last step was called."""
        return self._now.label

    @property
    def chosen(self) -> tuple[str, str] | None:
        """The designations of the chosen pair."""
        choice = self.answers.choice
        return (choice.bearing_a, choice.bearing_b) if choice.bearing_a and choice.bearing_b else None

    def answer(self, path: str, text: str) -> tuple[str, ...]:
        """Take an answer as typed, and return what it became; raise Refused, changing nothing, where it cannot be."""
        return self.give(path, question_at(path).parse(text))

    def give(self, path: str, value: Any) -> tuple[str, ...]:
        """Take an answer as a value, and return what it became; raise Refused, changing nothing, where it cannot be."""
        # what judges answers is not needed for the first frame
        from engine.answers import contradiction
        from engine.answers.lubricated.complete import OF_CLEANLINESS, cleanliness_told

        question = question_at(path)
        contradiction.refuse_new(self.answers, put(self.answers, path, value), path)
        self.put(path, value, f"{question.label}: {question.show(value)}")
        if path in OF_CLEANLINESS:
            return (cleanliness_told(self.answers),)
        told = contradiction.shares_told(self.answers) if path.endswith(".share") else ""
        if path in OF_APPLICATION:
            from engine.answers.running import application_told

            told = application_told(self.answers)
        return (told,) if told else ()

    def read_histogram(self, path: str, name: str) -> tuple[str, ...]:
        """Take the histogram in a file as the answer at a path; return what was taken for granted; raise Problems."""
        from engine.record import histogram_file

        speed = get(self.answers, f"{path.rpartition('.')[0]}.speed")
        bins, notes = histogram_file.read(Path(os.path.expanduser(name)), speed.value if speed is not None else None)
        self.put(path, bins, f"{question_at(path).label}: {question_at(path).show(bins)}")
        return notes

    def put(self, path: str, value: Any, label: str) -> None:
        """Set an answer to a value (None opens the question)."""
        if get(self.answers, path) != value:
            self._step(label, put(self.answers, path, value))

    def take(self, changes: Sequence[tuple[str, Any]], label: str) -> None:
        """Set several answers in one step."""
        answers = self.answers
        for path, value in changes:
            answers = put(answers, path, value)
        if answers != self.answers:
            self._step(label, answers)

    def clear(self, path: str) -> None:
        """Open a question again."""
        self.put(path, None, f"{question_at(path).label} opened")

    def add_item(self, path: str, like: int | None = None) -> int:
        """Add an empty item to the list at a path ('duty.cases'), or a copy of one; return its number from 0."""
        items, listing = items_at(self.answers, path), listing_at(path)
        if len(items) >= listing.most:
            return len(items) - 1
        item = listing.of() if like is None else listing.copy(items[like])
        self._step(f"{listing.one} {len(items) + 1}", with_items(self.answers, path, (*items, item)))
        return len(items)

    def remove_item(self, path: str, at: int) -> None:
        """Remove an item of a list."""
        items = items_at(self.answers, path)
        self._step(
            f"dropping {listing_at(path).one} {at + 1}", with_items(self.answers, path, items[:at] + items[at + 1 :])
        )

    def move_item(self, path: str, at: int, by: int) -> int:
        """Move an item of a list by one place; return where it is now."""
        items = list(items_at(self.answers, path))
        to = max(0, min(len(items) - 1, at + by))
        if to != at:
            items.insert(to, items.pop(at))
            self._step(f"moving {listing_at(path).one} {at + 1}", with_items(self.answers, path, items))
        return to

    def choose(self, bearing_a: str, bearing_b: str) -> None:
        """Choose a pair."""
        choice = msgspec.structs.replace(self.answers.choice, bearing_a=bearing_a, bearing_b=bearing_b)
        self._step("choice", msgspec.structs.replace(self.answers, choice=choice))

    def undo(self) -> str:
        """Take back the last step; return what it was called, or ""."""
        if not self._past:
            return ""
        label = self._now.label
        self._future.append(self._now)
        self._now = self._past.pop()
        self._stale()
        return label

    def redo(self) -> str:
        """Bring back the step undone last; return what it is called, or ""."""
        if not self._future:
            return ""
        self._past.append(self._now)
        self._now = self._future.pop()
        self._stale()
        return self._now.label

    def _step(self, label: str, answers: Answers) -> None:
        self._past.append(self._now)
        self._now = Changed(label, answers)
        self._future.clear()
        self._stale()

    def _stale(self) -> None:
        # a result that belongs to other answers must never be saved beside these
        self.result, self._changed = None, True
        if self.on_change is not None:
            self.on_change(self.answers)
        self.save()

    def record(self) -> Record:
        """Return the record as it stands."""
        return Record(self.answers, __version__, *self.catalogue, **self._beside)  # type: ignore[arg-type]

    def save(self) -> bool:
        """Write the record; on failure keep the reason in `trouble` and go on in memory."""
        from engine.record.write import to_text, write

        if self._fresh and self.answers == self._begun and not self.named and not self.path.exists():
            self._elsewhere.drop()
            return True  # a new session or a look at the example: nobody has answered anything
        if self._kept.changed_by_another(self.path):
            theirs, self.path, self._safe_in = self.path, aside(self.path), None
            self.notice = (
                f"{plain(theirs.name, 60)} was changed by another program and is left as it is; "
                f"your answers go on in {plain(self.path.name, 80)}."
            )
        try:
            if not self.named:
                self.path.parent.mkdir(parents=True, exist_ok=True)
            write(self.path, to_text(self.record(), self.result))
            self._kept.written(self.path)
        except (OSError, ValueError) as error:  # a name that holds a null byte is a ValueError
            self._why = plain(getattr(error, "strerror", None) or str(error))
            self.trouble = f"NOT SAVED: {self._why} ({plain(str(self.path), 60)})"
            self._rescue()
            return False
        self._elsewhere.drop()
        self.trouble, self._safe, self._safe_in = "", self.answers, self.path
        if not self.named and self._noted != self.path:
            shelf.note(self.path)
            self._noted = self.path
        return True

    def _rescue(self) -> None:
        """Keep elsewhere, at once, what does not stand in its place: nobody may be there to ask when this ends."""
        from engine.record.write import to_text

        if not self.lacking:
            self._elsewhere.drop()
            return
        with contextlib.suppress(ValueError):
            self._elsewhere.keep(to_text(self.record(), self.result), self.answers, self.path)
        if self.rescued is not None and not self._said_where:
            self._said_where = True
            self.notice = (
                f"What you answer cannot be saved in {plain(self.path.name, 60)}. Until it can, it is kept in "
                f"{plain(str(self.rescued), 200)}, which the next start offers."
            )

    def save_as(self, path: Path) -> bool:
        """Keep the record under a name; the unnamed file it had before is removed once the new one is written."""
        before, was_named, kept = self.path, self.named, self._kept
        # whoever asked for this name has been asked before an existing file is replaced
        self.path, self.named, self._kept = path, True, Kept(path)
        if not self.save():
            self.path, self.named, self._kept = before, was_named, kept
            return False
        self._changed = True  # the new file is ours: figures that are found later belong into it
        if not was_named and before != path:
            with contextlib.suppress(OSError):
                before.unlink()
        return True

    def set_result(self, result: Result | None, catalogue: tuple[str, str]) -> None:
        """Keep the computed figures of the chosen pair with the record, once anything in it was changed."""
        self.catalogue = catalogue
        self.result = result
        if self._changed:
            self.save()

    def keep(self) -> bool:
        """Save before the end; a file that was only looked at stays as it is, unless it has been taken away."""
        return (not self._changed and (self._fresh or self.path.exists())) or self.save()
