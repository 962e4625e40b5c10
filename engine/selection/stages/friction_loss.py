"""The heat that bearings make by their friction, averaged over the time they run: what is weighed as friction loss."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from engine.lubrication import friction
from engine.numerics import Floats
from engine.operating import Conditions, Loads

if TYPE_CHECKING:
    from engine.catalogue.columns import Catalogue


def friction_loss(rows: Catalogue, loads: Loads, conditions: Conditions) -> Floats:
    """Return the power [W] of M0 + M1 of bearings under loads (..., n, k), at the viscosities of the conditions.

    It never falls when a load grows: P1 is the greater of two lines that both rise.
    """
    cases, resolved = conditions.cases, conditions.resolved
    dm = ((rows.d + rows.D) / 2)[:, None]
    bath = friction.f0_of_section(rows.d, rows.D, rows.T, rows.alpha)
    f0 = friction.f0_with_supply(bath, resolved.supply, resolved.lubricated.vertical)
    # two rows churn twice the oil and share the load
    M0 = resolved.per_side * friction.load_independent_M0(f0[:, None], conditions.nu, cases.n, dm)
    M1 = friction.load_dependent_M1(friction.F1, friction.friction_load_P1(loads.Fr, loads.Fa, rows.Y[:, None]), dm)
    power = friction.friction_power(M0 + M1, cases.n)
    running = cases.running
    if not running.any():
        return np.zeros(power.shape[:-1])
    share = cases.share[running]
    return np.asarray((power[..., running] * share).sum(axis=-1) / share.sum())
