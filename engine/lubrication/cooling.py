"""How heat leaves a housing: still air, moved air, radiation, circulating oil, or as ISO 15312 takes it."""

from __future__ import annotations

from dataclasses import dataclass, fields

import numpy as np

from engine.lubrication.thermal_speed import OIL_HEAT, T_AMBIENT, T_BEARING, reference_heat_flow_density
from engine.lubrication.viscosity import KELVIN
from engine.numerics import Array, Floats, as_arrays
from engine.sources import HEAT_TRANSFER, ISO_15312, cited

#: Stefan-Boltzmann constant [W/(mm2 K4)].
SIGMA = 5.670374e-14
#: Air at 50 deg C: conductivity [W/(m K)], kinematic viscosity [m2/s], Prandtl number; any table of air.
AIR_K, AIR_NU, AIR_PR = 0.0278, 1.80e-5, 0.704
#: A flow along a wall turns turbulent at this Reynolds number.
RE_TURBULENT = 5e5
#: Emissivity of a painted or rusty housing; bare machined metal has about 0.3. Common practice, no source.
EMISSIVITY = 0.9


@cited(HEAT_TRANSFER, "free convection in air, h = 1.42 (dT/L)^(1/4)")
def still_air_h(rise: Array, L: Array) -> Floats:
    """Heat transfer coefficient of a wall in still air.

    h = 1.42 (|dT| / L)^(1/4), L in m

    Parameters (any broadcastable shapes)
    ----------
    rise : wall over air, or under it [K]
    L : height of the wall [mm]

    Returns
    -------
    h [W/(m2 K)]

    Valid for L > 0, laminar flow; NaN outside. Walls over about half a metre shed up to a quarter more.

    Source: Heat transfer, free convection in air, h = 1.42 (dT/L)^(1/4); simplified equation for vertical planes.
    """
    rise, L = as_arrays(rise, L)
    with np.errstate(all="ignore"):
        return np.where(L > 0, 1.42 * np.sqrt(np.sqrt(np.abs(rise) / (L / 1000))), np.nan)


@cited(HEAT_TRANSFER, "flat plate in parallel flow, laminar and mixed")
def moved_air_h(v: Array, L: Array) -> Floats:
    """Mean heat transfer coefficient of a wall along which air moves.

    Nu = 0.664 Re^(1/2) Pr^(1/3) up to Re = 500 000, (0.037 Re^(4/5) - 871) Pr^(1/3) above, at least the value there

    Parameters (any broadcastable shapes)
    ----------
    v : speed of the air [m/s]
    L : length of the wall along the flow [mm]

    Returns
    -------
    h [W/(m2 K)]

    Valid for v >= 0, L > 0, air of about 50 deg C; NaN outside.

    Source: Heat transfer, flat plate in parallel flow, laminar and mixed.
    """
    v, L = as_arrays(v, L)
    with np.errstate(all="ignore"):
        Re = v * (L / 1000) / AIR_NU
        laminar = 0.664 * np.sqrt(np.minimum(Re, RE_TURBULENT))
        mixed = 0.037 * np.power(np.maximum(Re, RE_TURBULENT), 0.8) - 871
        Nu = np.where(Re > RE_TURBULENT, np.maximum(mixed, laminar), laminar) * AIR_PR ** (1 / 3)
        return np.where((v >= 0) & (L > 0), Nu * AIR_K / (L / 1000), np.nan)


@cited(ISO_15312, "reference heat flow density over 50 K")
def reference_conductance(A_r: Array) -> Floats:
    """Heat that leaves a bearing for each kelvin over ambient, as the reference conditions of ISO 15312 take it.

    q_r A_r / 50 K

    Parameters (any shape)
    ----------
    A_r : heat emitting reference surface area [mm2]

    Returns
    -------
    conductance [W/K]

    Valid for A_r > 0; NaN outside.

    Source: ISO 15312:2018, reference heat flow density over 50 K; read in open code.
    """
    (A_r,) = as_arrays(A_r)
    return reference_heat_flow_density(A_r) * A_r / (T_BEARING - T_AMBIENT)


@dataclass(frozen=True)
class Cooling:
    """What takes heat from one housing; each figure a number or an array of (pairs, cases).

    area [mm2] of the housing towards air of `air_speed` [m/s], 0 for still air, and `emissivity`; `conductance` [W/K]
    beside it or in its place, such as `reference_conductance`; `oil_flow` [l/min] of circulating oil that enters at
    `oil_inlet` and leaves as warm as the bearing; all towards `ambient` [deg C] but the oil.
    """

    ambient: Array
    conductance: Array = 0.0
    area: Array = 0.0
    air_speed: Array = 0.0
    emissivity: Array = EMISSIVITY
    oil_flow: Array = 0.0
    oil_inlet: Array = 40.0

    def arrays(self) -> list[Floats]:
        """Return the terms by which the heat at any temperature follows, in the order that `carried` takes."""
        ambient, conductance, area, v, emissivity, flow, inlet = as_arrays(
            *(getattr(self, field.name) for field in fields(self))
        )
        # a housing without area sheds nothing, whatever its length would be
        length = np.sqrt(np.where(area > 0, area, 6e4) / 6)  # [mm], as of a cube
        square_metres = area * 1e-6
        free = still_air_h(1.0, length) * square_metres
        forced = np.power(moved_air_h(v, length) * square_metres, 3)
        inlet = np.where(flow > 0, inlet, ambient)
        known = (area >= 0) & (conductance >= 0) & (flow >= 0) & (emissivity >= 0) & (emissivity <= 1)
        conductance = np.where(known, conductance, np.nan)
        return [ambient, conductance, free, forced, emissivity * SIGMA * area, OIL_HEAT * flow, inlet]

    def at(self, T: Array) -> Floats:
        """Return the heat that leaves at a temperature [W], negative where the surroundings are warmer."""
        (T,) = as_arrays(T)
        return carried(T, *self.arrays())[0]


def _fourth(T: Floats) -> Floats:
    square = np.square(T)
    return square * square


@cited(HEAT_TRANSFER, "convection, radiation and flow side by side")
def carried(
    T: Array, ambient: Array, conductance: Array, free: Array, forced: Array, radiant: Array, oil: Array, inlet: Array
) -> tuple[Floats, Floats]:  # fmt: skip
    """Heat that leaves a housing at a temperature, and how it rises with that temperature.

    Q = G dT + (h_free^3 + h_forced^3)^(1/3) A dT + e sigma A (T^4 - Ta^4) + 28.6 V (T - T_in)

    Parameters (any broadcastable shapes)
    ----------
    T : temperature of housing, bearings and oil [deg C]
    ambient : temperature of the air and of the walls around [deg C]
    conductance : G [W/K]
    free : h A in still air at a difference of 1 K [W/K]
    forced : cube of h A in the moved air, from [W/K]
    radiant : e sigma A, which times the fourth power of a temperature in kelvin is a heat in W [-]
    oil : 28.6 V [W/K]
    inlet : temperature of the oil that enters [deg C]

    Returns
    -------
    Q, dQ/dT [W, W/K]

    Valid for temperatures above -273 deg C; housing, bearings and oil are one temperature.

    Source: Heat transfer, convection, radiation and flow side by side; free and forced flow joined as cubes (recalled).
    """
    T, ambient, conductance, free, forced, radiant, oil, inlet = as_arrays(
        T, ambient, conductance, free, forced, radiant, oil, inlet
    )
    with np.errstate(all="ignore"):
        dT = T - ambient
        size = np.abs(dT)
        root = np.sqrt(np.sqrt(size))
        free_cubed = np.power(free * root, 3)
        both = np.cbrt(free_cubed + forced)
        slope = both + np.where(both > 0, 0.25 * free_cubed / np.square(both), 0.0)
        kelvin = T + KELVIN
        Q = (conductance + both) * dT + radiant * (_fourth(kelvin) - _fourth(ambient + KELVIN)) + oil * (T - inlet)
        return Q, conductance + slope + 4 * radiant * kelvin * np.square(kelvin) + oil
