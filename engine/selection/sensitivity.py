"""On which inputs the verdict hangs: each a tenth up and down, and what that does to the greatest utilisation.

An input is a name and a way to vary it: a function of the answers and a factor that gives the conditions to compute
the pair under, or None where there is nothing to vary.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from engine.answers.document import Answers, get, put, question_at
from engine.answers.measured import Measure
from engine.answers.question import Quantity
from engine.answers.resolved import resolve
from engine.answers.worded import Choice
from engine.numerics import Floats
from engine.operating import Conditions
from engine.selection.stages.blocks import Cancelled, Progress, go_on, never, untold
from engine.selection.verdict import Finding, Verdict, of_conditions

if TYPE_CHECKING:
    from engine.catalogue.columns import Catalogue

_Plane = tuple[Floats, Floats, Floats, Floats]
Vary = Callable[[Answers, float], Conditions | None]


@dataclass(frozen=True)
class Input:
    """Something that may be other than answered; `what` says what the two ends are."""

    key: str
    label: str
    what: str
    vary: Vary


@dataclass(frozen=True)
class End:
    """One end of a bar: the greatest utilisation, the check that has it, and whether the pair passes."""

    utilisation: float
    governing: Finding | None
    passes: bool


@dataclass(frozen=True)
class Bar:
    """What an input does to the greatest utilisation: less of it, more of it; None where that end cannot be.

    `own` is where the pair stands in checks that only this input asks for, which then has a utilisation of its own.
    `why` says why neither end is known.
    """

    input: Input
    less: End | None
    more: End | None
    own: End | None = None
    why: str = ""

    def swing(self, stands: End) -> float:
        """How far the utilisation moves over both ends and where it stands [-]; infinite where an end is unknown."""
        ends = [*(end for end in (self.less, self.more) if end is not None), self.own or stands]
        low, high = min(end.utilisation for end in ends), max(end.utilisation for end in ends)
        return 0.0 if low == high else high - low

    def turns(self, stands: End) -> bool:
        """Whether the verdict is another at one of the ends."""
        return any(end.passes != (self.own or stands).passes for end in (self.less, self.more) if end is not None)


@dataclass(frozen=True)
class Tornado:
    """The bars, longest first; `stands` is the pair as answered."""

    stands: End
    bars: tuple[Bar, ...]


def tornado(
    catalogue: Catalogue,
    row_A: int,
    row_B: int,
    answers: Answers,
    share: float = 0.1,
    cancelled: Cancelled = never,
    progress: Progress = untold,
    inputs: Sequence[Input] | None = None,
) -> Tornado:
    """Return what a share less and more of each input does to a pair of catalogue rows. Raises SearchCancelled."""
    A, B = catalogue.take([row_A]), catalogue.take([row_B])
    given = INPUTS if inputs is None else inputs

    def end(conditions: Conditions | None) -> End | None:
        go_on(cancelled)
        return None if conditions is None else _end(of_conditions(A, B, conditions))

    stands = _end(of_conditions(A, B, Conditions.of(resolve(answers))))
    bars = []
    for at, one in enumerate(given):
        progress(one.label, at / len(given))
        less, more = (end(one.vary(answers, factor)) for factor in (1 - share, 1 + share))
        if less is not None or more is not None:
            bars.append(Bar(one, less, more))
    progress("", 1.0)
    return Tornado(stands, _by_length(bars, stands))


def _by_length(bars: Sequence[Bar], stands: End) -> tuple[Bar, ...]:
    return tuple(sorted(bars, key=lambda bar: -bar.swing(stands)))  # stable: equal ones in the order of the inputs


def with_setting(
    found: Tornado,
    catalogue: Catalogue,
    row_A: int,
    row_B: int,
    answers: Answers,
    share: float = 0.1,
    cancelled: Cancelled = never,
) -> Tornado:
    """Return a tornado with the setting among its bars, which takes as long as all others. Raises SearchCancelled.

    Less is tighter, more is looser, by a share of the band of long life.
    """
    conditions = Conditions.of(resolve(answers))
    if not conditions.resolved.loads_known:
        return found
    # the rollers as springs are needed for this bar only
    from engine.selection.stages.other_setting import other_setting
    from engine.setting.system import NotComputed

    def tick(_: float) -> None:
        go_on(cancelled)

    label = "Setting, on its rollers"
    try:
        other = other_setting(catalogue.take([row_A]), catalogue.take([row_B]), conditions, share, tick)
    except NotComputed as why:
        bar = Bar(Input("setting", label, "a tenth of the band of long life", _not_varied), None, None, why=str(why))
    else:
        what = f"less: {other.step:.2g} mm tighter, more: looser, a tenth of the band of long life"
        ends = _end(other.tighter), _end(other.looser), _end(other.stands)
        bar = Bar(Input("setting", label, what, _not_varied), *ends)
    return Tornado(found.stands, _by_length([*found.bars, bar], found.stands))


def _not_varied(_answers: Answers, _factor: float) -> None:
    """Vary nothing: the setting is no part of the conditions of the closed formulas."""


def _end(verdict: Verdict) -> End:
    return End(verdict.utilisation, verdict.governing, verdict.passes)


def _loads(answers: Answers, factor: float) -> Conditions | None:
    """Scale every force and moment on the shaft, wherever it came from."""
    conditions = Conditions.of(resolve(answers))
    if not conditions.resolved.loads_known:
        return None
    forces = conditions.cases.forces

    def scaled(parts: _Plane) -> _Plane:
        return factor * parts[0], factor * parts[1], factor * parts[2], factor * parts[3]

    now = dataclasses.replace(
        forces,
        still=scaled(forces.still),
        turning=scaled(forces.turning),
        F_a=factor * forces.F_a,
        T=factor * forces.T,
    )
    return dataclasses.replace(conditions, cases=dataclasses.replace(conditions.cases, forces=now))


def _speeds(answers: Answers, factor: float) -> Conditions | None:
    """Scale the speed of every case, and the highest ever."""
    if not resolve(answers).loads_known:
        return None
    scaled = answers
    for at in range(len(answers.duty.cases)):
        scaled = _scaled(scaled, f"duty.cases[{at}].speed", factor) or scaled
    scaled = _scaled(scaled, "speed.overspeed", factor) or scaled
    return Conditions.of(resolve(scaled))


def _temperature(answers: Answers, factor: float) -> Conditions | None:
    """Scale the operating temperature, or the one around where it settles, and that of cases that state their own."""
    settles = answers.lubrication.temperature_by == "settled"
    scaled = _scaled(answers, f"lubrication.{'ambient' if settles else 'temperature'}", factor)
    for at, case in enumerate(answers.duty.cases):
        if scaled is not None and getattr(case, "temperature", None) is not None:
            scaled = _scaled(scaled, f"duty.cases[{at}].temperature", factor)
    return None if scaled is None else Conditions.of(resolve(scaled))


def _of_answer(path: str) -> Vary:
    """Scale one answer, or what is assumed in its stead."""

    def vary(answers: Answers, factor: float) -> Conditions | None:
        scaled = _scaled(answers, path, factor)
        return None if scaled is None else Conditions.of(resolve(scaled))

    return vary


def _scaled(answers: Answers, path: str, factor: float) -> Answers | None:
    question, value = question_at(path), _value(answers, path)
    if not isinstance(question, Measure) or not isinstance(value, Quantity):
        return None
    scaled = value.value * factor
    # a number out of the question's bounds is no answer
    return put(answers, path, Quantity(scaled)) if question.least <= scaled <= question.greatest else None


def _cleanliness(answers: Answers, factor: float) -> Conditions | None:
    """One class cleaner for less, one dirtier for more: classes have no tenths."""
    path = "lubrication.cleanliness"
    question = question_at(path)
    assert isinstance(question, Choice)
    classes = [option.value for option in question.options]
    at = classes.index(resolve(answers).cleanliness) + (1 if factor > 1 else -1)
    if not 0 <= at < len(classes):
        return None
    by_level = put(answers, "lubrication.cleanliness_by", "level")
    return Conditions.of(resolve(put(by_level, path, classes[at])))


def _value(answers: Answers, path: str) -> object:
    value = get(answers, path)
    return question_at(path).default if value is None else value


#: The inputs in asking order; more may stand here.
INPUTS: tuple[Input, ...] = (
    Input("load", "Loads", "every force on the shaft", _loads),
    Input("speed", "Speeds", "every case and the highest ever", _speeds),
    Input("distance", "Distance between the bearings", "the distance alone", _of_answer("duty.distance")),
    Input("temperature", "Operating temperature", "of its figure in degC", _temperature),
    Input("cleanliness", "Cleanliness", "one class cleaner, one dirtier", _cleanliness),
    Input("life", "Required life", "hours", _of_answer("duty.life")),
)
