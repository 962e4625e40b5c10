"""Load cases as arrays, one element a case, ready for any number of pairs at once."""

from dataclasses import dataclass

import numpy as np

from engine.answers.resolved import Resolved
from engine.duty import statics
from engine.numerics import Floats


@dataclass(frozen=True)
class LoadCases:
    """Shares, speeds and forces of k load cases; the forces are reduced to plane z = 0 of bearing A.

    share [-], n [rpm], F_y, F_z [N], M_y, M_z [N mm] the moments of the forces about A's reference plane, K_a [N] the
    external axial force, positive when it pushes the shaft towards B, shock [-] the factor on loads for static safety
    only, temperature [degC] of the bearings. All of shape (k,).
    """

    names: tuple[str, ...]
    share: Floats
    n: Floats
    F_y: Floats
    F_z: Floats
    M_y: Floats
    M_z: Floats
    K_a: Floats
    shock: Floats
    temperature: Floats

    def __len__(self) -> int:
        return len(self.names)

    @property
    def running(self) -> Floats:
        """Which cases consume life: those that turn for a share of the time."""
        return (self.n > 0) & (self.share > 0)

    def radial_loads(self, z_A: Floats, z_B: Floats) -> tuple[Floats, Floats]:
        """Return the radial load on A and on B per pair and case, for load centres of shape (pairs, 1)."""
        zero = np.zeros(1)
        planes = [
            statics.reactions(zero, force[:, None], moment[:, None], z_A, z_B)
            for force, moment in ((self.F_y, self.M_y), (self.F_z, self.M_z))
        ]
        (A_y, B_y), (A_z, B_z) = planes
        return statics.radial_load(A_y, A_z), statics.radial_load(B_y, B_z)


def load_cases(resolved: Resolved) -> LoadCases:
    """Return the cases of the answers as arrays."""
    cases = resolved.cases

    def column(values: list[float]) -> Floats:
        return np.array(values, dtype=np.float64)

    return LoadCases(
        names=tuple(case.name for case in cases),
        share=column([case.share for case in cases]),
        n=column([case.n for case in cases]),
        F_y=column([case.F_y for case in cases]),
        F_z=column([case.F_z for case in cases]),
        M_y=column([case.F_y * case.position for case in cases]),
        M_z=column([case.F_z * case.position for case in cases]),
        K_a=column([case.K_a for case in cases]),
        shock=column([case.shock for case in cases]),
        temperature=column([case.temperature for case in cases]),
    )
