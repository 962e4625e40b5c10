"""Roller sets out of the rows of a catalogue."""

from engine.catalogue.columns import Catalogue
from engine.catalogue.section.raceways import roller_half_angle_nu
from engine.distribution.rollers import RollerSet


def roller_set(catalogue: Catalogue, row: int, between_middles: bool = False) -> RollerSet:
    """Return the rollers of one row.

    `between_middles` says that distances are taken between bearing middles and not between cone back faces. Raises
    ValueError for what no roller set can be, an unknown profile among it.
    """
    c = catalogue
    Dwe, Dpw, alpha, T = (float(column[row]) for column in (c.Dwe, c.Dpw, c.alpha, c.T))
    return RollerSet(
        Z=int(c.Z[row]),
        Dpw=Dpw,
        Dwe=Dwe,
        Lwe=float(c.Lwe[row]),
        alpha=alpha,
        nu=float(roller_half_angle_nu(Dwe, Dpw, alpha)),
        profile=str(c.profile[row]),
        a=float(c.a[row]),
        inset=T / 2 if between_middles else 0.0,
        middle=T - float(c.C[row]) / 2,
        T=T,
        Cr=float(c.Cr[row]),
        Cu=float(c.Cu[row]),
    )
