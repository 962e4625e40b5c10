"""The shortlist of a record in the form of a table of results: a row a pair, best first."""

from __future__ import annotations

from pathlib import Path

from engine.answers.resolved import resolve
from engine.catalogue import source
from engine.operating import Conditions
from engine.record.computed import best_of
from engine.record.consistent import insist
from engine.record.document import Record
from engine.record.many.outcome import Outcome, judged, with_unused

#: So many pairs are listed, as the wizard lists them.
MOST = 100


def listed(record: Record, file: str, otherwise: Path | None) -> list[Outcome]:
    """Return the pairs that pass, each with its place as `id`; raise Problems where none does or nothing is computed.

    `file` is the record's own, `otherwise` the catalogue where it names none, None the built-in one.
    """
    insist(record, file)
    rows = source.opened(source.placed(record.answers.choice.catalogue, Path(file).parent, otherwise)).rows
    conditions = Conditions.of(resolve(record.answers))
    best = best_of(record, rows, conditions, file, MOST)
    same = {"row": file, "job": record.answers.duty.job or ""}
    outcomes = [judged(same | {"id": str(at + 1)}, best.evaluated, conditions, at) for at in range(len(best))]
    return [with_unused(one, record) for one in outcomes] if record.unused else outcomes
