"""Equilibrium of a body on its rollers: many load cases at once by damped Newton steps on the convex energy.

The energy of the springs less the work of the loads is convex, so that a step along a direction of descent, shortened
until the energy has fallen, cannot get lost. Members of the batch that have come to rest leave it.
"""

from dataclasses import dataclass

import numpy as np

from engine.distribution.contact import EXPONENT
from engine.distribution.springs import Reaction, Springs
from engine.numerics import Bools, Floats, Rows

#: What became of a member.
SOLVED, FREE, NOT_SETTLED, UNKNOWN = 0, 1, 2, 3
STATUS = (
    "solved",
    "free: no load, and end play that leaves the position open",
    "not settled",
    "an input is not a number",
)
#: Residual aimed at, and the greatest one accepted, relative to the forces at work.
AIM, ACCEPTED = 1e-11, 1e-9
#: Steps after which what can be accepted is, and steps after which the search ends.
_PATIENCE, _STEPS_GREATEST = 60, 400
#: Damping relative to the stiffness with every roller loaded: it only keeps a body without contact from dividing by 0.
_DAMPING = 1e-12
#: Residual to which the softened body is brought, which only has to show where contact will be made.
_ROUGH = 3e-2
#: Members that are worked on together: as many as keep their laminae in the cache of a core.
CHUNK = 64


@dataclass(frozen=True)
class Balance:
    """Where the body comes to rest: q (m, n), with status, residual relative to the forces at work, and steps."""

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


def balanced(springs: Springs, f: Floats, gap: Floats) -> Balance:
    """Return where m loads f (m, n) bring the body to rest whose rollers start with gaps (m, Z), negative if tight.

    With no load at all the body rests at q = 0 when nothing touches there, which is status FREE if there are gaps.
    """
    known = np.all(np.isfinite(f), axis=-1) & np.all(np.isfinite(gap), axis=-1)
    f, gap = np.where(known[:, None], f, 0.0), np.where(known[:, None], gap, 0.0)
    idle = ~np.any(f, axis=-1) & np.all(springs.approach(0 * f, gap).max(axis=-1) <= 0, axis=-1)
    q = np.zeros_like(f)
    residual = np.zeros(len(f))
    steps = np.zeros(len(f), dtype=np.intp)
    work = np.flatnonzero(known & ~idle)
    if work.size:
        start, softness = _start(springs, f[work], gap[work])
        soft = softness > 1
        if np.any(soft):
            at = work[soft]
            start[soft], _, steps[at] = _descend(springs, (f[at], gap[at], softness[soft]), start[soft], _ROUGH)
        ones = np.ones(work.size)
        q[work], residual[work], more = _descend(springs, (f[work], gap[work], ones), start, AIM)
        steps[work] += more
    status = np.where(residual <= ACCEPTED, SOLVED, NOT_SETTLED)
    status = np.where(idle & np.any(gap > 0, axis=-1), FREE, status)
    return Balance(q, np.where(known, status, UNKNOWN), residual, steps)


def _start(springs: Springs, f: Floats, gap: Floats) -> tuple[Floats, Floats]:
    """Return where to start, and how far to soften the springs first so that their approach bridges the gaps.

    From a soft body, in contact all over its loaded side, the true one is reached with contact never quite lost.
    """
    measure = springs.measure
    approach = 15 * np.linalg.norm(f, axis=-1) / np.trace(measure)
    with np.errstate(divide="ignore", invalid="ignore"):
        softness = np.power(3 * np.maximum(gap.max(axis=-1), 0.0) / approach, EXPONENT)
    softness = np.where(np.isfinite(softness), np.maximum(softness, 1.0), 1.0)
    start = 2 * np.linalg.solve(measure, f.T).T
    return start * np.power(softness, 1 / EXPONENT)[:, None], softness


def _descend(
    springs: Springs, member: tuple[Floats, Floats, Floats], start: Floats, aim: float
) -> tuple[Floats, Floats, Rows]:
    """Return where each member comes to rest, its residual and the steps it took."""
    f, gap, softness = member
    q, residual = start.copy(), np.full(len(f), np.inf)
    steps = np.zeros(len(f), dtype=np.intp)
    batch = _begin(springs, _Batch(np.arange(len(f)), f, gap, softness, q.copy(), *[np.zeros(len(f))] * 4))
    damping = _DAMPING * springs.measure
    for count in range(1, _STEPS_GREATEST + 1):
        trial = batch.q + batch.share[:, None] * batch.step
        answer = springs.evaluate(trial, batch.gap, batch.softness[:, None])
        over = answer.force - batch.f
        left = np.linalg.norm(over, axis=-1) / _forces_at_work(answer, batch.f)
        q[batch.row], residual[batch.row], steps[batch.row] = trial, left, count
        going = ~((left <= aim) | ((left <= ACCEPTED) & (count > _PATIENCE)))
        if not np.any(going):
            break
        _judge(batch, answer, trial, over, damping)
        batch.keep(going)
    return q, residual, steps


def _begin(springs: Springs, batch: _Batch) -> _Batch:
    answer = springs.evaluate(batch.q, batch.gap, batch.softness[:, None])
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


def _forces_at_work(answer: Reaction, f: Floats) -> Floats:
    """Return what a residual is small against: the loads, or the sum of the roller loads where those are larger."""
    return np.maximum(np.linalg.norm(f, axis=-1), np.sum(answer.Q, axis=-1))
