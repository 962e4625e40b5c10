"""Equilibrium of a body on its rollers: many load cases at once by damped Newton steps on the convex energy.

The energy of the springs less the work of the loads is convex, so that a step along a direction of descent, shortened
until the energy has fallen, cannot get lost. Members of the batch that have come to rest leave it.
"""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from engine.distribution.contact import EXPONENT
from engine.distribution.springs import Reaction, Springs
from engine.numerics import Bools, Floats, Rows

#: What became of a member.
SOLVED, FREE, TOO_LIGHT, NOT_SETTLED, UNKNOWN = 0, 1, 2, 3, 4
STATUS = (
    "solved",
    "free: no load, and end play that leaves the position open",
    "the load is too light against the end play to be followed",
    "not settled",
    "an input is not a number",
)
#: Residual aimed at, and the greatest one accepted, of the forces relative to the loads and of the energy.
AIM, ACCEPTED = 1e-11, 1e-8
#: Share of the sum of the roller loads that stands for the loads where those are less, as in a pair under preload
#: alone: rounding leaves no more. And what keeps a body without any force from dividing by 0 [N].
_SHARE = 1e-4
_NO_FORCE = 1e-250
#: Steps after which what can be accepted is, and steps after which the search ends.
_PATIENCE, _STEPS_GREATEST = 60, 400
#: Approach of the rollers over the way to contact, below which the load is too light to be tried, and below which it is
#: to blame where a member does not settle: on a tenth of a millimetre of way that is less than the size of an atom.
_HOPELESS, _TOO_LIGHT = 1e-9, 1e-6
#: Damping relative to the stiffness with every roller loaded: it only keeps a body without contact from dividing by 0.
_DAMPING = 1e-12
#: Stages on the way (see _settled): the softened body only has to show where contact will be made. The many are for the
#: few members, one in some ten thousand of the lightest loads in the widest play, that lose contact on the short way.
_STAGES = ((1.0, 3e-2), (0.0, AIM))
_MANY_STAGES = (*((power / 10, 1e-6) for power in range(10, 0, -1)), (0.0, AIM))
#: Members that are worked on together: as many as keep their laminae in the cache of a core.
CHUNK = 64


#: Called before every step; what it raises ends the work.
Pause = Callable[[], None]


def _go_on() -> None:
    """Never stop."""


@dataclass(frozen=True)
class Balance:
    """Where the body comes to rest: q (m, n), with status, residual relative to the loads, and steps."""

    q: Floats
    status: Rows
    residual: Floats
    steps: Rows


@dataclass
class _Batch:
    """Members under way, one row each."""

    row: Rows
    f: Floats  # loads
    gap: Floats  # of every roller
    lean: Floats  # of every roller
    softness: Floats  # by which the springs are divided
    q: Floats
    step: Floats  # direction under trial
    share: Floats  # of the step under trial
    slope: Floats  # of the energy along the step, at its start
    energy: Floats  # at its start

    def keep(self, where: Bools) -> None:
        """Let the other members go."""
        for name, value in vars(self).items():
            setattr(self, name, value[where])


def balanced(springs: Springs, f: Floats, gap: Floats, lean: Floats | None = None, pause: Pause = _go_on) -> Balance:
    """Return where m loads f (m, n) bring the body to rest whose rollers start with gaps (m, Z), negative if tight.

    `lean` (m, Z) is by how much the gap at the large end of each roller exceeds that of its middle; None for nothing.
    With no load at all the body rests where nothing touches, which is status FREE if there are gaps. `pause` is called
    before every step and may raise, to stop.
    """
    lean = np.zeros_like(gap) if lean is None else lean
    known = np.all([np.all(np.isfinite(one), axis=-1) for one in (f, gap, lean)], axis=0)
    f, gap, lean = (np.where(known[:, None], one, 0.0) for one in (f, gap, lean))
    q = np.zeros_like(f)
    unloaded = ~np.any(f, axis=-1)
    idle = unloaded & _apart(springs, q, gap, lean)
    residual = np.zeros(len(f))
    steps = np.zeros(len(f), dtype=np.intp)
    with np.errstate(divide="ignore", invalid="ignore"):
        lightness = _approach(springs, f) / _way(springs, gap)
    hopeless = known & ~unloaded & (lightness < _HOPELESS)
    residual[hopeless] = np.inf
    work = np.flatnonzero(known & ~idle & ~hopeless)
    for stages in (_STAGES, _MANY_STAGES):
        if work.size:
            q[work], residual[work], more = _settled(springs, (f[work], gap[work], lean[work]), stages, pause)
            steps[work] += more
        work = work[residual[work] > ACCEPTED]
    unsettled = np.where(lightness < _TOO_LIGHT, TOO_LIGHT, NOT_SETTLED)
    status = np.where(residual <= ACCEPTED, SOLVED, unsettled)
    status = np.where(unloaded & _apart(springs, q, gap, lean) & np.any(gap > 0, axis=-1), FREE, status)
    return Balance(q, np.where(known, status, UNKNOWN), residual, steps)


def _settled(
    springs: Springs, given: tuple[Floats, Floats, Floats], stages: tuple[tuple[float, float], ...], pause: Pause
) -> tuple[Floats, Floats, Rows]:
    """Return where each member comes to rest, its residual and its steps, by way of softer springs.

    Softened until their approach bridges the gaps, the springs touch all over the loaded side; from there the true
    place is reached with contact never quite lost. A stage is a power of that softness and the residual to be reached.
    """
    f, gap, lean = given
    with np.errstate(divide="ignore", invalid="ignore"):
        softness = np.power(3 * _way(springs, gap) / _approach(springs, f), EXPONENT)
    softness = np.where(np.isfinite(softness), np.maximum(softness, 1.0), 1.0)
    q = 2 * np.linalg.solve(springs.measure, f.T).T * np.power(softness, 1 / EXPONENT)[:, None]
    residual, steps = np.full(len(f), np.inf), np.zeros(len(f), dtype=np.intp)
    for power, aim in stages:
        at = np.flatnonzero(softness > 1) if power else np.arange(len(f))
        if at.size:
            member = (f[at], gap[at], lean[at], np.power(softness[at], power))
            q[at], residual[at], more = _descend(springs, member, q[at], aim, pause)
            steps[at] += more
    return q, residual, steps


def _approach(springs: Springs, f: Floats) -> Floats:
    """Return about how far the loads bring rollers and raceways together [mm]."""
    # of the body as a rigid one: how stiff a shaft is says nothing about its rollers
    approach: Floats = 15 * np.linalg.norm(f, axis=-1) / np.trace(springs.measure[:5, :5])
    return approach


def _apart(springs: Springs, q: Floats, gap: Floats, lean: Floats) -> Bools:
    """Return whether no roller touches."""
    apart: Bools = np.all(springs.approach(q, gap, lean).max(axis=-1) <= 0, axis=-1)
    return apart


def _way(springs: Springs, gap: Floats) -> Floats:
    """Return how far the middle of the widest roller is from contact, at the height of its profile [mm]."""
    return np.maximum(np.max(gap + springs.crown * springs.shape.min(), axis=-1), 0.0)


def _descend(
    springs: Springs, member: tuple[Floats, Floats, Floats, Floats], start: Floats, aim: float, pause: Pause
) -> tuple[Floats, Floats, Rows]:
    """Return where each member comes to rest, its residual and the steps it took."""
    f, gap, lean, softness = member
    q, residual = start.copy(), np.full(len(f), np.inf)
    steps = np.zeros(len(f), dtype=np.intp)
    batch = _begin(springs, _Batch(np.arange(len(f)), f, gap, lean, softness, q.copy(), *[np.zeros(len(f))] * 4))
    damping = _DAMPING * springs.measure
    for count in range(1, _STEPS_GREATEST + 1):
        pause()
        trial = batch.q + batch.share[:, None] * batch.step
        answer = springs.evaluate(trial, batch.gap, batch.lean, batch.softness[:, None])
        over = answer.force - batch.f
        left = _residual(answer, batch.f, over)
        q[batch.row], residual[batch.row], steps[batch.row] = trial, left, count
        going = ~((left <= aim) | ((left <= ACCEPTED) & (count > _PATIENCE)))
        if not np.any(going):
            break
        _judge(batch, answer, trial, over, damping)
        batch.keep(going)
    return q, residual, steps


def _begin(springs: Springs, batch: _Batch) -> _Batch:
    answer = springs.evaluate(batch.q, batch.gap, batch.lean, batch.softness[:, None])
    over = answer.force - batch.f
    batch.step = _newton(answer, over, _DAMPING * springs.measure)
    batch.share = np.ones(len(over))
    batch.slope = np.sum(over * batch.step, axis=-1)
    batch.energy = answer.energy - np.sum(batch.f * batch.q, axis=-1)
    return batch


def _judge(batch: _Batch, answer: Reaction, trial: Floats, over: Floats, damping: Floats) -> None:
    """Go to the trial places that are lower, each with a new direction; try a shorter step from the others."""
    slope = np.sum(over * batch.step, axis=-1)
    energy = answer.energy - np.sum(batch.f * trial, axis=-1)
    # the last digits of the energy say nothing near its minimum, where the slope still does
    not_up = energy <= batch.energy + 1e-12 * np.abs(batch.energy)
    falls = energy <= batch.energy + 1e-4 * batch.share * batch.slope
    good = (slope <= 0) | falls | (not_up & (np.abs(slope) <= 0.5 * np.abs(batch.slope)))
    fresh = _newton(answer, over, damping)
    # on a convex energy the slope along the step grows; the secant through both ends shows where it is nought
    rise = np.where(good, 1.0, slope - batch.slope)
    shorter = batch.share * np.clip(-batch.slope / rise, 0.1, 0.7)
    batch.q = np.where(good[:, None], trial, batch.q)
    batch.step = np.where(good[:, None], fresh, batch.step)
    batch.share = np.where(good, 1.0, shorter)
    batch.slope = np.where(good, np.sum(over * fresh, axis=-1), batch.slope)
    batch.energy = np.where(good, energy, batch.energy)


def _newton(answer: Reaction, over: Floats, damping: Floats) -> Floats:
    step: Floats = np.linalg.solve(answer.tangent + damping, -over[..., None])[..., 0]
    return step


def _residual(answer: Reaction, f: Floats, over: Floats) -> Floats:
    """Return what is left over of the forces, relative to the loads, or of the energy, whichever is more."""
    size = np.maximum(np.linalg.norm(f, axis=-1), _SHARE * np.sum(answer.Q, axis=-1))
    force = np.linalg.norm(over, axis=-1) / np.maximum(size, _NO_FORCE)
    # far off, the energy need not be known
    return force if np.all(force > ACCEPTED) else np.maximum(force, answer.energy_off(f))
