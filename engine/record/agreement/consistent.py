"""A record whose answers contradict one another is refused by what computes it, as any other bad input is.

The wizard opens it all the same: there the contradiction can be mended.
"""

from engine.answers.contradiction import Contradiction, contradictions
from engine.answers.document import question_at
from engine.errors import Problem, Problems
from engine.record.document import Record


def insist(record: Record, file: str) -> None:
    """Raise Problems with every contradiction of the record's answers, its key and, where it was read, its line."""
    found = [_problem(one, record, file) for one in contradictions(record.answers)]
    if found:
        raise Problems(found)


def _problem(one: Contradiction, record: Record, file: str) -> Problem:
    above, _, name = one.path.rpartition(".")
    field = f"answers.{above}.{question_at(one.path).keys(name)[0]}"
    line = record.lines.of(field) if record.lines is not None else None
    return Problem(file, line, field, one.wrong, one.accepted)
