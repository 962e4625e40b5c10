"""A record computed: its answers on a catalogue, with the pair that was chosen or, where none is, the best one."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path

from engine import __version__
from engine.answers.resolved import resolve
from engine.catalogue import source
from engine.catalogue.columns import Catalogue
from engine.catalogue.source import Source
from engine.errors import Problem, Problems
from engine.operating import Conditions
from engine.record.compared.moved import moved
from engine.record.consistent import insist
from engine.record.document import Record
from engine.record.result import Result
from engine.record.result import compute as compute_pair
from engine.selection import screen
from engine.selection.rank import Shortlist
from engine.selection.weighing import wished_shortlist

NOT_CHOSEN = "No pair is chosen; the first of the shortlist is computed."


@dataclass(frozen=True)
class Computed:
    """A record with everything computed of it now.

    `rows` are the places of both bearings in the catalogue. `notes` tell what is worth knowing: a newer version, a
    pair merely proposed, figures that moved.
    """

    record: Record
    result: Result
    conditions: Conditions
    source: Source
    rows: tuple[int, int]
    notes: tuple[str, ...] = ()

    @property
    def chosen(self) -> bool:
        """Whether both bearings were chosen; else the pair is merely the first of the shortlist."""
        return _chosen(self.record)

    @property
    def sides(self) -> tuple[Catalogue, Catalogue]:
        """The bearing at A and the one at B, each as a catalogue of one row."""
        return self.source.rows.take([self.rows[0]]), self.source.rows.take([self.rows[1]])

    @property
    def now(self) -> Record:
        """The record as it is written with this result: the engine and the catalogue are those of now."""
        return replace(
            self.record, engine=__version__, catalogue=self.source.name, catalogue_hash=self.source.content,
        )  # fmt: skip


def compute(record: Record, file: str = "", otherwise: Path | None = None, opened: Source | None = None) -> Computed:
    """Compute a record; raise Problems where its answers contradict, or its catalogue or pair cannot be used.

    `file` is the record's own, for messages and to find a catalogue that it names. `otherwise` is the catalogue where
    it names none, None the built-in one; `opened` is a catalogue opened before, taken where the record names none.
    """
    insist(record, file)
    named = record.answers.choice.catalogue
    at_hand = opened is not None and not named
    chosen = opened if opened and at_hand else source.opened(source.placed(named, Path(file).parent, otherwise))
    conditions = Conditions.of(resolve(record.answers))
    rows, note = rows_of(record, chosen.rows, conditions, file)
    result = compute_pair(chosen.rows.take([rows[0]]), chosen.rows.take([rows[1]]), conditions)
    notes = [*record.warnings, *chosen.notes, *([note] if note else [])]
    if record.catalogue_hash and record.catalogue_hash != chosen.content:
        notes.append("The catalogue has changed since the record was written.")
    notes += moved(record, result)
    return Computed(record, result, conditions, chosen, rows, tuple(notes))


def rows_of(record: Record, catalogue: Catalogue, conditions: Conditions, file: str) -> tuple[tuple[int, int], str]:
    """Return the catalogue rows of the chosen pair, or of the best one and a note where none is chosen yet."""
    if _chosen(record):
        return _named(record, catalogue, file), ""
    best = best_of(record, catalogue, conditions, file, 1)
    return (int(best.rows_A[0]), int(best.rows_B[0])), NOT_CHOSEN


def best_of(record: Record, catalogue: Catalogue, conditions: Conditions, file: str, most: int) -> Shortlist:
    """Return the first `most` pairs that pass, as the record ranks them; raise Problems where there is none."""
    screening = screen.screen(catalogue, conditions)
    best = wished_shortlist(catalogue, screening, conditions, record.answers.choice, most)
    if not len(best):
        none = "there are too many pairs to look through" if screening.too_many else "none of the catalogue passes"
        wrong = none if _chosen(record) else f"no pair is chosen, and {none}"
        raise Problems(
            [Problem(file, None, "answers.choice", wrong, "bearing_a and bearing_b, or a duty that leaves a pair")]
        )
    return best


def _chosen(record: Record) -> bool:
    return bool(record.answers.choice.bearing_a and record.answers.choice.bearing_b)


def _named(record: Record, catalogue: Catalogue, file: str) -> tuple[int, int]:
    choice = record.answers.choice
    found, problems = [], []
    for key, name in (("bearing_a", choice.bearing_a), ("bearing_b", choice.bearing_b)):
        try:
            found.append(catalogue.index_of(name or ""))
        except Problems as error:
            problems += [
                Problem(file, None, f"answers.choice.{key}", one.wrong, one.accepted, one.nearest)
                for one in error.problems
            ]
    if problems:
        raise Problems(problems)
    return found[0], found[1]
