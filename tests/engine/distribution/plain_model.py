"""The pair in plain loops, from the places of the contacts and not from load centres: the model to check against.

Every lamina is a point of the cup contact line; the shaft moves as a rigid body (small angles); the load follows
ISO/TS 16281, Q = 35948 Lwe^(8/9) delta^(10/9) for the whole roller. Sides are written out as drawn: back to back, the
small ends of A look towards B and those of B towards A; face to face, away from each other.
"""

import math

LAMINAE = 30


def forces(A, B, arrangement, distance, play, place, rows=None, askew=None):
    """Return what the shaft hands to both bearings, (F_y, F_z, F_a, M_y, M_z) about z = 0, at a place of the shaft."""
    total = [0.0] * 5
    u_y, u_z, u_a, t_y, t_z = place
    # slope of each cup in the y plane, about the place given with it
    askew = askew or {"A": (0.0, 0.0), "B": (0.0, 0.0)}
    for side, one in (("A", A), ("B", B)):
        # towards the small ends, and where the cone's back face stands
        towards_small = {"back_to_back": {"A": 1, "B": -1}, "face_to_face": {"A": -1, "B": 1}}[arrangement][side]
        plane = 0.0 if side == "A" else distance
        middle_z = plane + towards_small * (one.middle - one.inset)
        middle_r = one.Dpw / 2 + one.Dwe / 2 * math.cos(one.alpha - one.nu)
        c_s = 35948 * one.Lwe ** (8 / 9) / LAMINAE
        for j in range(one.Z):
            phi = 2 * math.pi * j / one.Z
            for k in range(LAMINAE):
                x = (k + 0.5) / LAMINAE * one.Lwe - one.Lwe / 2
                z = middle_z - towards_small * x * math.cos(one.alpha)
                r = middle_r + x * math.sin(one.alpha)
                turn = t_y * math.cos(phi) + t_z * math.sin(phi)
                cup = -askew[side][0] * math.cos(phi)
                outward = u_y * math.cos(phi) + u_z * math.sin(phi) + turn * z
                outward += cup * (z - askew[side][1])
                along = u_a - (turn + cup) * r
                drop = 0.00045 * one.Dwe * math.log(1 / (1 - (2 * x / one.Lwe) ** 2)) if one.profile == "log" else 0.0
                delta = outward * math.cos(one.alpha) + towards_small * along * math.sin(one.alpha)
                delta -= play / 2 * math.sin(one.alpha) + 2 * drop
                if delta > 0:
                    q = c_s * delta ** (10 / 9)
                    q_r, q_a = q * math.cos(one.alpha), towards_small * q * math.sin(one.alpha)
                    moment = q_r * z - q_a * r
                    for at, part in enumerate(
                        (q_r * math.cos(phi), q_r * math.sin(phi), q_a, moment * math.cos(phi), moment * math.sin(phi))
                    ):
                        total[at] += part
                    if rows is not None:
                        rows[side][j] += q
    return total
