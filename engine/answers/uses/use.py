"""What becomes of an answer, and the one way to look it up.

Formulas and clauses are not written down here: each is named by the function of the engine, or the check, that the
answer goes into, and that one carries its formula and source. So help says what is computed. The tables stand apart
from the questions, since they are needed only when help is asked for or something is looked for.
"""

import re
from dataclasses import dataclass
from functools import cache

_ITEM = re.compile(r"\[\d+\]")


@dataclass(frozen=True)
class Use:
    """What an answer does, the formulas or checks that it enters ("rating.life:life_in_hours"), other words for it.

    One that enters no formula says in `does` what else it is for.
    """

    does: str
    formulas: tuple[str, ...] = ()
    words: str = ""


def use(does: str, *formulas: str, words: str = "") -> Use:
    """Return what becomes of an answer."""
    return Use(does, formulas, words)


@cache
def uses() -> dict[str, Use]:
    """Return what becomes of every answer by its path, items of lists without their number ("duty.cases[].speed")."""
    from engine.answers.uses import fitting, loads, oil, picking

    return {**loads.USES, **oil.USES, **fitting.USES, **picking.USES}


def use_of(path: str) -> Use:
    """Return what becomes of the answer at a path; KeyError where there is no such question."""
    return uses()[_ITEM.sub("[]", path)]
