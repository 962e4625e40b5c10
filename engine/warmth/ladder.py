"""Between which two temperatures a heat balance settles: sure bounds for very many pairs, without solving any of them.

Made heat never rises with the temperature and shed heat never falls (see `engine.lubrication.heat`), so at a given
temperature the sign of their difference says on which side of it the balance lies. What depends on the temperature
alone is computed once for each rung of a ladder of temperatures; for a pair a few look-ups, halving the ladder, then
leave two neighbouring rungs with the balance between them.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from engine.lubrication import viscosity
from engine.lubrication.cooling import Cooling, carried
from engine.lubrication.heat import T_TOP, oil_share
from engine.numerics import Floats, Rows
from engine.operating import Conditions

#: The ladder is halved so often; it has one rung less than two to that power.
HALVINGS = 8
#: Widening of each end [K]: more than a balance is found to, and than rounding moves it.
HAIR = 1e-6
#: Numbers in one array of the search: what is looked up then stays in the cache.
_AT_A_TIME = 16_384

#: Temperature [deg C] and viscosity [mm2/s] of a housing, at its coolest or at its hottest.
End = tuple[Floats, Floats]


@dataclass(frozen=True)
class Ladder:
    """What is made and shed at m temperatures: `oil` (m, k) [W/mm3] of flow, `air` (m,) [K] of seats, `rest` (m,) [W].

    `cold` and `hot` hold temperature and viscosity at the rung below and above each place, of m + 1 places: NaN above
    the last one, where no temperature may settle.
    """

    oil: Floats
    air: Floats
    rest: Floats
    cold: End
    hot: End

    @classmethod
    def of(cls, conditions: Conditions) -> Ladder:
        """Return the ladder from the coldest that the surroundings allow to the hottest that is looked at."""
        around, n = conditions.resolved.lubricated.surroundings, conditions.cases.n
        oil = conditions.resolved.lubricated.lubricant
        lowest = min(around.ambient, around.oil_inlet) if around.oil_flow else around.ambient
        T = np.linspace(lowest, max(T_TOP, lowest), 2**HALVINGS - 1)
        still = Cooling(around.ambient, 0.0, around.area or 0.0, around.air_speed, oil_flow=around.oil_flow or 0.0,
                        oil_inlet=around.oil_inlet)  # fmt: skip
        air = T - around.ambient if around.area is None else np.zeros_like(T)
        below = np.concatenate([T[:1], T]) - HAIR
        # a hair under the top the balance itself may find that nothing settles
        above = np.concatenate([T[:-1], [np.nan, np.nan]]) + HAIR
        thin, thick = (viscosity.kinematic_viscosity_full(end, oil.nu40, oil.nu100) for end in (above, below))
        return cls(
            oil_share(T[:, None], n, oil.nu40, oil.nu100) * 1e-7 * (np.pi * n / 30_000),
            air,
            carried(T, *still.arrays())[0],
            (below, _thickest(thick, below, oil.nu40, oil.nu100)),
            (above, thin),
        )

    def places(self, flow: Floats, seats: Floats, load: Floats) -> Rows:
        """Return how many rungs are too cold for each balance, of the shape of `load`.

        flow [mm3] and seats [W/K] are of shape (..., 1), load [W] of shape (..., k).
        """
        n, k = load[..., 0].size, self.oil.shape[1]
        # worked on by case, so that numpy's inner loops run along the many balances
        flow, seats = (np.broadcast_to(column, (*load.shape[:-1], 1)).reshape(n) for column in (flow, seats))
        loads = np.moveaxis(load, -1, 0).reshape(k, n)
        found = np.empty((k, n), dtype=np.intp)
        step = max(_AT_A_TIME // k, 1)
        for start in range(0, n, step):
            some = slice(start, start + step)
            found[:, some] = self._places(flow[some], seats[some], loads[:, some])
        return np.moveaxis(found.reshape(k, *load.shape[:-1]), 0, -1)

    def _places(self, flow: Floats, seats: Floats, load: Floats) -> Rows:
        """Return the same for flow and seats (n,) and load (k, n), of shape (k, n)."""
        k, air, rest = self.oil.shape[1], self.air, self.rest
        case, oil = np.arange(k)[:, None], self.oil.ravel()
        place = np.zeros(load.shape, dtype=np.intp)
        with np.errstate(invalid="ignore"):
            for step in (2**power for power in reversed(range(HALVINGS))):
                rung = place + (step - 1)
                made = flow * oil.take(rung * k + case) + load
                # what is not known is never reached, and so has no hottest end
                reached = made <= seats * air.take(rung) + rest.take(rung)
                place += step * ~reached
        return place


def _thickest(nu: Floats, T: Floats, nu40: float, nu100: float) -> Floats:
    """Return viscosities at a coolest end, with what is too cold for the chart as thick as the chart goes."""
    with np.errstate(invalid="ignore"):
        return np.where(np.isnan(nu) & (T < 40.0) & (nu100 < nu40), viscosity.NU_GREATEST, nu)
