"""Answers that contradict one another: each may be right by itself, but not beside the others."""

from collections.abc import Iterator
from dataclasses import dataclass

from engine.answers.document import Answers
from engine.answers.question import Refused
from engine.units import number_text

#: Shares typed as rounded percentages (33.3 three times) still count as the whole.
ROUNDING = 1.0


@dataclass(frozen=True)
class Contradiction:
    """The path of an answer that cannot stand beside the others, why not, and what would be accepted."""

    path: str
    wrong: str
    accepted: str

    def __str__(self) -> str:
        """Return it as one line."""
        return f"{self.wrong}; accepted: {self.accepted}"


def contradictions(answers: Answers) -> tuple[Contradiction, ...]:
    """Return everything in the answers that cannot be true together."""
    return tuple(_shares(answers))


def refuse_new(before: Answers, after: Answers, path: str) -> None:
    """Raise Refused where a change of the answer at `path` brought in a contradiction that was not there before."""
    known = {one.path for one in contradictions(before)}
    new = [one for one in contradictions(after) if one.path not in known or one.path == path]
    if new:
        raise Refused(new[0].wrong, new[0].accepted)


def _shares(answers: Answers) -> Iterator[Contradiction]:
    """More than the whole time cannot be shared out; what is left over belongs to a case that leaves it open."""
    total = 0.0
    for at, case in enumerate(answers.duty.cases):
        total += case.share.value if case.share is not None else 0.0
        if total > 100.0 + ROUNDING:
            yield Contradiction(
                f"duty.cases[{at}].share",
                f"the shares of time of load cases 1 to {at + 1} add up to {number_text(total)} %",
                "100 % in all; leave a share open and the case gets what the others leave",
            )
            return
