"""The load cases that the load distribution is computed for: a measured spectrum is gathered into a few steps.

An equilibrium of all rollers takes a thousand times as long as the closed formulas, so bins of alike load count as one:
their loads by the mean that wears as they do (exponent 4, that of the lamina ratings), their speeds and temperatures by
the mean over time, their viscosities by a mean that leans to the thin films, since these take most life. Lives come out
within a few percent of those bin by bin without the film, and about a tenth with it.
"""

from dataclasses import dataclass, replace

import numpy as np

from engine.duty.cases import LoadCases
from engine.duty.shaft import Forces
from engine.numerics import Floats, Rows
from engine.operating import Conditions

#: Steps that the bins of one case are gathered into at most.
MOST_STEPS = 10
_EXPONENT = 4.0
#: Power of the viscosity by which a film spares life, about; it only steers the mean.
_FILM = 2.5


@dataclass(frozen=True)
class _Share:
    """How the bins of one step are weighed: over time, turns, wear, and the factor from mean to wearing load."""

    bins: Rows
    time: Floats
    turns: Floats
    worn: Floats
    factor: float


def gathered(conditions: Conditions) -> Conditions:
    """Return the same conditions with no more than MOST_STEPS steps for each answered case."""
    cases = conditions.cases
    groups = [group for case in range(len(cases.elements)) for group in _groups(cases, case)]
    if len(groups) == len(cases):
        return conditions
    shares = [_share(cases, group) for group in groups]
    of = [cases.case_of[group[0]] for group in groups]
    merged = LoadCases(
        names=tuple(_name(conditions, groups, of, at) for at in range(len(groups))),
        share=np.array([cases.share[group].sum() for group in groups]),
        n=_over_time(cases.n, shares),
        forces=_forces(cases.forces, shares),
        shock=np.array([cases.shock[group].max() for group in groups]),
        temperature=_over_time(cases.temperature, shares),
        elements=cases.elements,
        case_of=tuple(of),
    )
    return replace(conditions, cases=merged, nu=_thin(conditions.nu, shares))


def load_sizes(forces: Forces) -> Floats:
    """Return one number a case that grows with its loads [N]: radial, axial, and the moments over 100 mm."""
    F_y, F_z, M_y, M_z = (still + turning for still, turning in zip(forces.still, forces.turning, strict=True))
    return np.hypot(F_y, F_z) + np.abs(forces.F_a) + np.hypot(M_y, M_z) / 100.0


def _groups(cases: LoadCases, case: int) -> list[Rows]:
    """Return the bins of a case, those of alike load together, so that each step takes about as much life."""
    bins = np.flatnonzero(np.array(cases.case_of) == case)
    if len(bins) <= MOST_STEPS:
        return [bins[at : at + 1] for at in range(len(bins))]
    size = load_sizes(cases.forces)[bins]
    order = np.argsort(size, kind="stable")
    worn = (cases.share * cases.n)[bins][order] * np.power(size[order] / max(size.max(), 1e-300), _EXPONENT)
    before = np.cumsum(worn) - worn
    step = np.minimum((MOST_STEPS * before / max(worn.sum(), 1e-300)).astype(np.intp), MOST_STEPS - 1)
    return [np.sort(bins[order[step == one]]) for one in np.unique(step)]


def _share(cases: LoadCases, bins: Rows) -> _Share:
    time = _weights(cases.share[bins])
    turns = _weights(cases.share[bins] * cases.n[bins])
    size = load_sizes(cases.forces)[bins]
    mean = float(turns @ size)
    factor = float(turns @ np.power(size, _EXPONENT)) ** (1 / _EXPONENT) / mean if mean > 0 else 1.0
    return _Share(bins, time, turns, _weights(turns * np.power(size, _EXPONENT)), factor)


def _weights(values: Floats) -> Floats:
    total = values.sum()
    return values / total if total > 0 else np.full(len(values), 1.0 / len(values))


def _over_time(values: Floats, shares: list[_Share]) -> Floats:
    return np.array([one.time @ values[one.bins] for one in shares])


def _thin(nu: Floats, shares: list[_Share]) -> Floats:
    return np.array([(one.worn @ np.power(nu[one.bins], -_FILM)) ** (-1 / _FILM) for one in shares])


def _forces(forces: Forces, shares: list[_Share]) -> Forces:
    def worn(values: Floats) -> Floats:
        return np.array([one.factor * (one.turns @ values[one.bins]) for one in shares])

    still, turning = (tuple(worn(part) for part in parts) for parts in (forces.still, forces.turning))
    return Forces(still, turning, worn(forces.F_a), worn(forces.T))  # type: ignore[arg-type]


def _name(conditions: Conditions, groups: list[Rows], of: list[int], at: int) -> str:
    """Return the name of a bin that stands alone, or that of its case and which of its steps it is."""
    cases = conditions.cases
    if len(groups[at]) == 1:
        return str(cases.names[int(groups[at][0])])
    first = of.index(of[at])
    return f"{conditions.resolved.cases[of[at]].name}, step {at - first + 1} of {of.count(of[at])}"
