"""Axial load of each bearing of a pair from both radial loads, both contact angles and the thrust."""

import numpy as np

from engine.numerics import Array, Floats, as_arrays
from engine.pair.arrangement import loaded_by_positive_thrust
from engine.sources import INDUCED_THRUST, STATICS, cited


@cited(INDUCED_THRUST, "induced axial load, Fr/(2 Y)")
def induced_axial_load_S(Fr: Array, Y: Array) -> Floats:
    """Axial load that a radial load induces in a tapered roller bearing whose rollers are loaded over half the ring.

    S = Fr / (2 Y)

    Parameters (any broadcastable shapes)
    ----------
    Fr : radial load [N]
    Y : axial load factor of ISO 281 [-]

    Returns
    -------
    S [N]

    Valid for Fr >= 0, Y > 0; NaN outside.

    Source: Handbook practice, induced axial load, Fr/(2 Y); recalled, confirmed by a published worked example.
    """
    Fr, Y = as_arrays(Fr, Y)
    with np.errstate(divide="ignore", invalid="ignore"):
        return np.where((Fr >= 0) & (Y > 0), Fr / (2 * Y), np.nan)


@cited(INDUCED_THRUST, "induced axial load, 0.47 Fr/K")
def induced_axial_load_us(Fr: Array, K: Array) -> Floats:
    """Induced axial load as some handbooks print it, 3.3 % below Fr/(2 Y); for comparison.

    S = 0.47 Fr / K

    Parameters (any broadcastable shapes)
    ----------
    Fr : radial load [N]
    K : ratio of radial to axial rating [-]

    Returns
    -------
    S [N]

    Valid for Fr >= 0, K > 0; NaN outside.

    Source: Handbook practice, induced axial load, 0.47 Fr/K; recalled.
    """
    Fr, K = as_arrays(Fr, K)
    with np.errstate(divide="ignore", invalid="ignore"):
        return np.where((Fr >= 0) & (K > 0), 0.47 * Fr / K, np.nan)


@cited(INDUCED_THRUST, "ratio K")
def K_factor(alpha: Array) -> Floats:
    """Ratio of the radial to the axial rating of a tapered roller bearing, as some handbooks use it.

    K = 0.389 cot(alpha)

    Parameters (any shape)
    ----------
    alpha : contact angle [rad]

    Returns
    -------
    K [-]

    Valid for 0 < alpha <= pi/4; NaN outside.

    Source: Handbook practice, ratio K; recalled.
    """
    (alpha,) = as_arrays(alpha)
    with np.errstate(divide="ignore"):
        return np.where((alpha > 0) & (alpha <= np.pi / 4), 0.389 / np.tan(alpha), np.nan)


@cited(STATICS, "axial equilibrium of a shaft between two adjusted bearings")
def axial_loads(arrangement: str, S_A: Array, S_B: Array, K_a: Array) -> tuple[Floats, Floats]:
    """Axial load of each bearing of a pair without preload or play.

    Fa_L = max(S_L, S_U + K); Fa_U = max(S_U, S_L - K), with L the bearing that the thrust K loads, U the other

    Parameters (S_A, S_B and K_a of any broadcastable shapes)
    ----------
    arrangement : "back_to_back" (O) or "face_to_face" (X) [-]
    S_A : axial load induced in A [N]
    S_B : axial load induced in B [N]
    K_a : external axial force on the shaft, positive towards B [N]

    Returns
    -------
    Fa_A, Fa_B [N]

    Valid for S_A >= 0, S_B >= 0; NaN outside.

    Source: Statics, axial equilibrium of a shaft between two adjusted bearings; the rule of every handbook.
    """
    S_A, S_B, K_a = as_arrays(S_A, S_B, K_a)
    inside = (S_A >= 0) & (S_B >= 0)
    # K: the thrust as it pushes into A; a negative one swaps the roles by itself, since the two lines are
    # each other's mirror image
    K = K_a if loaded_by_positive_thrust(arrangement) == "A" else -K_a
    Fa_A = np.where(inside, np.maximum(S_A, S_B + K), np.nan)
    Fa_B = np.where(inside, np.maximum(S_B, S_A - K), np.nan)
    return Fa_A, Fa_B
