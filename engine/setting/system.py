"""One pair of catalogue rows as bodies on rollers: the system, and the spectrum of loads that it is solved under."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from engine.distribution.life_curve import Spectrum
from engine.distribution.pair_system import PairSystem, ShaftCompliance, ShaftLoads, pair_system
from engine.distribution.reference_life import CONE, CUP, Film
from engine.distribution.rows import roller_set
from engine.duty import deflection
from engine.duty.cases import LoadCases
from engine.duty.shaft import reduced
from engine.lubrication.viscosity import kinematic_viscosity_full
from engine.numerics import Floats
from engine.operating import Bearings, Conditions, load_centre
from engine.seat.recommend import POINT, ring_loads
from engine.setting.gathered import load_sizes

if TYPE_CHECKING:
    from engine.catalogue.columns import Catalogue

#: A case without any load is taken to carry this share of the rating, so that the place of the shaft is known.
LEAST_LOAD = 1e-5


class NotComputed(ValueError):  # noqa: N818 - named for what happened
    """The load distribution of a pair cannot be computed; why, in words."""


@dataclass(frozen=True)
class OnRollers:
    """A pair as a system, with the spectrum of its loads and the conditions whose cases these are."""

    system: PairSystem
    spectrum: Spectrum
    conditions: Conditions


def on_rollers(A: Catalogue, B: Catalogue, conditions: Conditions) -> OnRollers:
    """Return a pair, given as catalogues of one row each; raise NotComputed."""
    resolved = conditions.resolved
    if resolved.locating:
        raise NotComputed("two paired units are four rows of rollers, which are not computed here")
    if not resolved.loads_known or resolved.distance is None:
        raise NotComputed("the loads are not yet known")
    if not conditions.cases.running.any():
        raise NotComputed("no load case turns, so that there is no life to set the bearings for")
    try:
        a, b = (roller_set(rows, 0, resolved.between_middles) for rows in (A, B))
    except ValueError as error:
        raise NotComputed(f"the catalogue says too little of the rollers: {error}") from None
    z_A, z_B = (float(load_centre(rows, side, resolved)[0]) for rows, side in ((A, "A"), (B, "B")))
    if not z_A < z_B:
        raise NotComputed("the load centres coincide or lie the wrong way round")
    loads = _shaft_loads(conditions.cases, (z_A, z_B), LEAST_LOAD * min(a.Cr, b.Cr))
    compliance, askew = _compliance(conditions, loads, (z_A, z_B))
    cone_load, _ = ring_loads(resolved.rotating_ring, resolved.load_direction)
    spectrum = Spectrum(
        loads=loads,
        share=conditions.cases.share,
        n=conditions.cases.n,
        film=films(A, B, conditions),
        free=compliance.free,
        askew=askew,
        turning=CUP if cone_load == POINT else CONE,
    )
    return OnRollers(
        pair_system(a, b, resolved.arrangement, resolved.distance, compliance), spectrum, conditions
    )  # fmt: skip


def films(A: Catalogue, B: Catalogue, conditions: Conditions, warmer: Floats | None = None) -> tuple[Film, Film]:
    """Return the films of a pair in each case, kappa and contamination (k,); (m, k) where it is warmer by (m,) [K].

    The viscosity of a case changes in the ratio in which the lubricant's does from the case's temperature.
    """
    nu = conditions.nu
    if warmer is not None:
        oil, T = conditions.resolved.lubricated.lubricant, conditions.cases.temperature
        then, now = (kinematic_viscosity_full(at, oil.nu40, oil.nu100) for at in (T + warmer[:, None], T))
        nu = nu * then / now
    moved = replace(conditions, nu=nu)
    both = [Bearings.of(rows, side, moved) for side, rows in (("A", A), ("B", B))]
    at = slice(None) if warmer is not None else 0
    one, other = (Film(each.kappa[at], each.e_C[at], conditions.a1, conditions.resolved.ep_additive) for each in both)
    return one, other


def _shaft_loads(cases: LoadCases, z: tuple[float, float], least: float) -> ShaftLoads:
    """Return the loads on the shaft; those that turn with it are taken in the direction that adds most to the rest."""
    still, turning = (
        (parts[0] + 1j * parts[1], parts[2] + 1j * parts[3]) for parts in (cases.forces.still, cases.forces.turning)
    )
    with_still, with_turning = _reactions(still, z), _reactions(turning, z)
    along = np.sum(with_still * np.conj(with_turning), axis=0)
    turn = np.where(np.abs(along) > 0, along / np.maximum(np.abs(along), 1e-300), 1.0)
    F, M = still[0] + turn * turning[0], still[1] + turn * turning[1]
    bare = load_sizes(cases.forces) <= 0
    F, M = F + bare * least, M + bare * least * sum(z) / 2
    return ShaftLoads(F.real, F.imag, M.real, M.imag, cases.forces.F_a)


def _reactions(force: tuple[Floats, Floats], z: tuple[float, float]) -> Floats:
    """Return what both supports carry, planes y and z as one complex number, (2, k)."""
    F, M = force
    on_B = (M - F * z[0]) / (z[1] - z[0])
    return np.stack([F - on_B, on_B])


def _compliance(conditions: Conditions, loads: ShaftLoads, z: tuple[float, float]) -> tuple[ShaftCompliance, Floats]:
    """Return how the shaft bends, and what the cups' standing askew adds to its slopes (k, 4)."""
    shaft, askew = conditions.resolved.shaft, conditions.resolved.setting.misalignment
    bent = _slopes(conditions, z) if shaft.steps else np.zeros((len(conditions.cases), 4))
    tilts = askew * _along_the_load(loads, z, bent)
    if not shaft.steps:
        return ShaftCompliance(z, None, bent), tilts
    c_AA, c_AB, c_BA, c_BB = (float(c) for c in deflection.seat_compliance(_line(conditions), *z))
    return ShaftCompliance(z, np.array([[c_AA, c_AB], [c_BA, c_BB]]), bent), tilts


def _line(conditions: Conditions) -> deflection.StiffnessLine:
    shaft = conditions.resolved.shaft
    lengths, outside, inside = (
        np.array([getattr(step, name) for step in shaft.steps]) for name in ("length", "diameter", "bore")
    )
    return deflection.stepped(shaft.start, lengths, outside, inside, shaft.modulus)


def _slopes(conditions: Conditions, z: tuple[float, float]) -> Floats:
    """Return the slopes that the loads alone cause, (k, 4) in the order y_A, y_B, z_A, z_B [rad].

    Those of a spectrum's steps are those of its case, grown with the load.
    """
    cases, line = conditions.cases, _line(conditions)
    whole = []
    for elements in cases.elements:
        still = [element for element in elements if not element.rotating]
        x = np.array([element.z for element in still])
        planes = [
            deflection.Load.of(x, np.array([getattr(e, F) for e in still]), np.array([getattr(e, M) for e in still]))
            for F, M in (("F_y", "M_y"), ("F_z", "M_z"))
        ]
        whole.append(np.concatenate([deflection.bending(line, load, *z, np.array(z)).slope for load in planes]))
    at = np.array(cases.case_of)
    answered = np.array([float(load_sizes(reduced(elements))) for elements in cases.elements])[at]
    with np.errstate(divide="ignore", invalid="ignore"):
        grown = np.where(answered > 0, load_sizes(cases.forces) / answered, 0.0)
    return np.asarray(np.stack(whole)[at] * grown[:, None])


def _along_the_load(loads: ShaftLoads, z: tuple[float, float], bent: Floats) -> Floats:
    """Return the direction of each bearing's load, in the sense of the shaft's own slope there; (k, 4) as slopes."""
    F, M = np.asarray(loads.F_y) + 1j * np.asarray(loads.F_z), np.asarray(loads.M_y) + 1j * np.asarray(loads.M_z)
    carried = _reactions((F, M), z).T
    size = np.abs(carried)
    towards = np.where(size > 0, carried / np.maximum(size, 1e-300), 1.0)
    slope = bent[:, :2] + 1j * bent[:, 2:]
    sense = np.where(np.real(slope * np.conj(towards)) < 0, -1.0, 1.0)
    return np.concatenate([(sense * towards).real, (sense * towards).imag], axis=1)
