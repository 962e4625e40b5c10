"""What a fit leaves of the setting: the end play of a pair in service for every class that one of its seats may get."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from engine.distribution.rows import roller_set
from engine.distribution.setting_chain import chain
from engine.numerics import Floats
from engine.operating import Conditions
from engine.setting.mounting import chained
from engine.setting.study import settled

if TYPE_CHECKING:
    from engine.catalogue.columns import Catalogue


@dataclass(frozen=True)
class Left:
    """End play of a pair in service, negative for preload, for n classes of one seat [mm].

    `loose` is what is left of the bench setting where that is made with loose rings, which the fit then squeezes;
    `seated` where it is made with the rings on their seats, so that only what warmth changes of the fit is felt.
    """

    loose: Floats
    seated: Floats


def bench_of(conditions: Conditions) -> float:
    """Return the bench setting that a fit is followed from [mm]: that answered, else rollers that just touch."""
    return conditions.resolved.setting.bench or 0.0


def left(
    pair: tuple[Catalogue, Catalogue], seat: tuple[str, str], mounted: Floats, conditions: Conditions
) -> Left | None:
    """Return what is left for interferences of one seat (ring, side) once mounted, (n,); None where it is not known.

    A and B are catalogues of one row each. Everything else is as answered, each seat at the mean of its fit.
    """
    resolved = conditions.resolved
    if resolved.locating or resolved.distance is None or not conditions.cases.running.any():
        return None
    try:
        warm = settled(*pair, conditions)
        rollers = (roller_set(pair[0], 0, resolved.between_middles), roller_set(pair[1], 0, resolved.between_middles))
        made = chained(*pair, rollers, warm)
    except ValueError:  # the catalogue says too little of the rollers, or no temperature settles
        return None
    ring, side = seat
    moved = replace(made.nominal, bench=bench_of(conditions), **{f"{ring}_fit_{side}": np.asarray(mounted)})
    loose, seated = (
        chain(replace(made.mounting, measured_mounted=on_seats), moved).service for on_seats in (False, True)
    )
    return Left(loose, seated)
