"""Boundary dimensions and roller set, of which every figure of the section is worked out."""

from dataclasses import dataclass

from engine.numerics import Floats


@dataclass(frozen=True)
class Envelope:
    """Boundary dimensions d, D, T, B, C [mm] and contact angle alpha [rad], each a number or a column."""

    d: Floats
    D: Floats
    T: Floats
    B: Floats
    C: Floats
    alpha: Floats

    def take(self, rows: Floats) -> "Envelope":
        """Return the rows at these places."""
        return Envelope(self.d[rows], self.D[rows], self.T[rows], self.B[rows], self.C[rows], self.alpha[rows])


@dataclass(frozen=True)
class Rollers:
    """Roller set: mean diameter Dwe, effective length Lwe, pitch diameter Dpw [mm] and number Z."""

    Dwe: Floats
    Lwe: Floats
    Dpw: Floats
    Z: Floats

    def take(self, rows: Floats) -> "Rollers":
        """Return the rows at these places."""
        return Rollers(self.Dwe[rows], self.Lwe[rows], self.Dpw[rows], self.Z[rows])
