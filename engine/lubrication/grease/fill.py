"""How much grease, and of which consistency."""

from dataclasses import dataclass

import numpy as np

from engine.numerics import Array, Floats, as_arrays
from engine.sources import COMMON_PRACTICE, GEOMETRY, cited

STEEL_DENSITY, GREASE_DENSITY = 7.85e-6, 0.90e-3  # [kg/mm3], [g/mm3]
#: Share of the free space to fill by n dm over what grease usually reaches with rollers; common practice, no source.
FILL_STEPS = ((0.2, 0.90), (0.5, 0.50), (0.75, 0.35))
FILL_FAST = 0.25
N_DM_USUAL = 300_000.0
#: Refill by how often, as a factor of D B: common practice, no source.
REFILL = {"on regreasing": 0.005, "weekly": 0.002, "monthly": 0.003, "yearly": 0.004}


@cited(GEOMETRY, "room between bore and outside diameter, less the steel")
def free_space(d: Array, D: Array, T: Array, mass: Array) -> Floats:
    """Room for grease within a bearing.

    V = pi/4 (D^2 - d^2) T - mass / 7.85e-6

    Parameters (any broadcastable shapes)
    ----------
    d : bore diameter [mm]
    D : outside diameter [mm]
    T : width of the assembly [mm]
    mass : mass of the assembly [kg]

    Returns
    -------
    V [mm3]

    Valid for D > d > 0, T > 0, a mass that leaves room; NaN outside.

    Source: Geometry, room between bore and outside diameter, less the steel.
    """
    d, D, T, mass = as_arrays(d, D, T, mass)
    V = np.pi / 4 * (np.square(D) - np.square(d)) * T - mass / STEEL_DENSITY
    return np.where((d > 0) & (d < D) & (T > 0) & (mass > 0) & (V > 0), V, np.nan)


@cited(COMMON_PRACTICE, "share of the free space to fill")
def fill_share(n_dm: Array) -> Floats:
    """Share of a bearing's free space to fill with grease at first.

    90 % up to a fifth of the usual n dm of 300 000, 50 % up to a half, 35 % up to three quarters, 25 % above

    Parameters (any shape)
    ----------
    n_dm : speed factor [rpm mm]

    Returns
    -------
    share [-]

    Valid for n_dm >= 0; NaN outside.

    Source: Common practice, share of the free space to fill; no source.
    """
    (n_dm,) = as_arrays(n_dm)
    share = np.full_like(n_dm, FILL_FAST)
    for most, value in reversed(FILL_STEPS):
        share = np.where(n_dm <= most * N_DM_USUAL, value, share)
    return np.where(n_dm >= 0, share, np.nan)


@cited(COMMON_PRACTICE, "first filling")
def first_fill(V: Array, share: Array) -> Floats:
    """Grease for the first filling of the bearing itself; the housing beside it is filled to a third.

    m = 0.9e-3 g/mm3 times share V

    Parameters (any broadcastable shapes)
    ----------
    V : free space of the bearing [mm3]
    share : share of it to fill [-]

    Returns
    -------
    m [g]

    Valid for V > 0, 0 <= share <= 1; NaN outside.

    Source: Common practice, first filling; no source.
    """
    V, share = as_arrays(V, share)
    return np.where((V > 0) & (share >= 0) & (share <= 1), GREASE_DENSITY * V * share, np.nan)


@cited(COMMON_PRACTICE, "refill, G = 0.005 D B")
def refill(D: Array, T: Array, often: str = "on regreasing") -> Floats:
    """Grease to add at each regreasing.

    G = 0.005 D T; 0.002 weekly, 0.003 monthly, 0.004 yearly in place of 0.005

    Parameters (D and T of any broadcastable shapes)
    ----------
    D : outside diameter [mm]
    T : width of the assembly, printed as B [mm]
    often : one of REFILL [-]

    Returns
    -------
    G [g]

    Valid for D > 0, T > 0; NaN outside.

    Source: Common practice, refill, G = 0.005 D B; no source.
    """
    D, T = as_arrays(D, T)
    return np.where((D > 0) & (T > 0), REFILL[often] * D * T, np.nan)


@dataclass(frozen=True)
class Consistency:
    """Advice on the grease: NLGI number, bleed rate of the base oil in words, and why."""

    nlgi: int
    bleed: str
    reasons: tuple[str, ...]


@cited(COMMON_PRACTICE, "consistency and bleed of a grease")
def consistency(n_dm: float, T: float, T_start: float, position: str, vibration: str, central: bool) -> Consistency:
    """NLGI number and bleed of the base oil that suit a place.

    NLGI 2; 3 where grease would run out (vertical, vibration, over 100 deg C, n dm over 200 000), 1 where it must flow
    (cold start under -20 deg C, central system); bleed high where slow or cold, low where hot, fast or upright

    Parameters (one bearing)
    ----------
    n_dm : speed factor [rpm mm]
    T : temperature in running [deg C]
    T_start : temperature at the coldest start [deg C]
    position : horizontal, inclined or vertical [-]
    vibration : calm, rough or heavy [-]
    central : whether a central system pumps the grease, true or false [-]

    Returns
    -------
    advice [-]

    Valid as a first choice; the maker of the grease knows better.

    Source: Common practice, consistency and bleed of a grease; no source.
    """
    stiff = [
        reason
        for reason, holds in (
            (f"{position} shaft: grease runs down", position == "vertical"),
            (f"{vibration} vibration shakes it out", vibration != "calm"),
            (f"{T:.0f} degC softens it", T > 100),
            (f"n dm {n_dm:.0f} flings it out", n_dm > 200_000),
        )
        if holds
    ]
    soft = [
        reason
        for reason, holds in (
            ("a central system must pump it", central),
            (f"{T_start:.0f} degC stiffens it at the start", T_start < -20),
        )
        if holds
    ]
    nlgi = 1 if soft else 3 if stiff else 2
    hot = T > 100 or n_dm > 200_000 or position == "vertical"
    slow = n_dm < 30_000 or T_start < -20
    bleed = "low" if hot and not slow else "high" if slow and not hot else "medium"
    against = [f"{reason}, yet it must flow" for reason in stiff] if soft else stiff
    return Consistency(nlgi, bleed, (*soft, *against) or ("an ordinary place",))
