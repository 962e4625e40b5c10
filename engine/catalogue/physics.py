"""Rows that no bearing could have: figures of a row that must lie in a band.

Bands are wide enough for another maker's way of rating and narrow enough to catch a swapped column, a lost decimal
point, a sign or a unit; where no source is named they are common practice, no source.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from engine.catalogue.columns import COLUMNS, Catalogue
from engine.catalogue.section.chamfers import cone_face_height, cup_face_height
from engine.catalogue.section.masses import STEEL_DENSITY
from engine.catalogue.section.raceways import cup_contact_radius, load_centre_distance_a
from engine.catalogue.section.rollers import gap_ratio
from engine.catalogue.section.sizes import Envelope, Rollers
from engine.catalogue.trouble import Trouble
from engine.numerics import Floats
from engine.rating.dynamic import basic_dynamic_rating_Cr
from engine.rating.fatigue_limit import fatigue_load_limit_Cu
from engine.rating.geometry import gamma
from engine.rating.static import basic_static_rating_C0r


@dataclass(frozen=True)
class Band:
    """A figure of a row, the column to blame, and the least and greatest value that a bearing can have."""

    column: str
    figure: str
    value: Callable[[Catalogue], Floats]
    least: float
    greatest: float


def _solid_mass(c: Catalogue) -> Floats:
    return STEEL_DENSITY * np.pi / 4 * (np.square(c.D) - np.square(c.d)) * c.T


def _cup_cover(c: Catalogue) -> Floats:
    return c.Lwe * np.cos(c.alpha) / c.C


def _load_line_miss(c: Catalogue) -> Floats:
    return (c.a - load_centre_distance_a(c.T, c.C, c.Dwe, c.Dpw, c.alpha)) / c.T


def _raceway(c: Catalogue, diameter: Floats) -> Floats:
    return (c.Dpw - diameter) / (c.Dwe * np.cos(c.alpha))


def _cone_chamfer(c: Catalogue) -> Floats:
    return c.r_cone / cone_face_height(*_section(c))


def _cup_chamfer(c: Catalogue) -> Floats:
    return c.r_cup / cup_face_height(*_section(c))


def _section(c: Catalogue) -> tuple[Envelope, Rollers]:
    return Envelope(c.d, c.D, c.T, c.B, c.C, c.alpha), Rollers(c.Dwe, c.Lwe, c.Dpw, c.Z)


def _Cr(c: Catalogue) -> Floats:
    return basic_dynamic_rating_Cr(c.Dwe, c.Lwe, c.Z, c.Dpw, c.alpha)


def _C0r(c: Catalogue) -> Floats:
    return basic_static_rating_C0r(c.Dwe, c.Lwe, c.Z, c.Dpw, c.alpha)


BANDS = (
    Band("D", "D/d (outside diameter over bore)", lambda c: c.D / c.d, 1.05, 5.0),
    Band("T", "T/(D - d) (width over section)", lambda c: c.T / (c.D - c.d), 0.2, 1.5),
    Band("B", "B/T (cone width over width)", lambda c: c.B / c.T, 0.5, 1.2),
    Band("C", "C/T (cup width over width)", lambda c: c.C / c.T, 0.3, 1.0),
    Band("Dpw", "(Dpw - Dwe)/d (inside of the roller set over bore)", lambda c: (c.Dpw - c.Dwe) / c.d, 1, 5),
    Band(
        "Dpw",
        "the cup contact diameter over D",
        lambda c: 2 * cup_contact_radius(c.Dwe, c.Dpw, c.alpha) / c.D,
        0.2,
        1.0,
    ),
    Band(
        "Z", "Dpw sin(pi/Z)/Dwe - 1 (gap between rollers in diameters)", lambda c: gap_ratio(c.Dwe, c.Dpw, c.Z), 0, 1.5
    ),
    Band("Lwe", "Lwe cos(alpha)/C (roller contact over cup width)", _cup_cover, 0.3, 1.0),
    Band("Dwe", "gamma (Dwe cos(alpha)/Dpw)", lambda c: gamma(c.Dwe, c.alpha, c.Dpw), 0.01, 0.30),
    # e = 1.5 tan(alpha), Y = 0.4 cot(alpha), Y0 = 0.22 cot(alpha): ISO 281 and ISO 76, within 2 % for rounded prints
    Band("e", "e/(1.5 tan(alpha))", lambda c: c.e / (1.5 * np.tan(c.alpha)), 0.98, 1.02),
    Band("Y", "Y e/0.6", lambda c: c.Y * c.e / 0.6, 0.98, 1.02),
    Band("Y0", "Y0/(0.55 Y)", lambda c: c.Y0 / (0.55 * c.Y), 0.98, 1.02),
    Band("a", "the distance of a from the drawn load line, over T,", _load_line_miss, -0.25, 0.25),
    Band("Cr", "Cr over that of ISO 281 for these rollers", lambda c: c.Cr / _Cr(c), 0.6, 1.7),
    Band("C0r", "C0r over that of ISO 76 for these rollers", lambda c: c.C0r / _C0r(c), 0.6, 1.7),
    Band("Cu", "Cu over that of ISO 281 for C0r", lambda c: c.Cu / fatigue_load_limit_Cu(c.C0r, c.Dpw), 0.4, 2.5),
    Band("mass", "mass over that of a solid steel ring", lambda c: c.mass / _solid_mass(c), 0.35, 1.0),
    Band("F", "(Dpw - F)/(Dwe cos(alpha)) (cone raceway under the rollers)", lambda c: _raceway(c, c.F), 0.6, 1.5),
    Band("E", "(E - Dpw)/(Dwe cos(alpha)) (cup raceway over the rollers)", lambda c: -_raceway(c, c.E), 0.6, 1.5),
    Band("r_cone", "r_cone over the height of the cone's back face", _cone_chamfer, 0.01, 0.7),
    Band("r_cup", "r_cup over the height of the cup's back face", _cup_chamfer, 0.01, 0.7),
    Band("n_oil", "n_oil/n_grease", lambda c: c.n_oil / c.n_grease, 1.0, 5.0),
)
_HEADER = {column.name: column.header for column in COLUMNS}


def impossible_rows(catalogue: Catalogue, lines: Sequence[int], trouble: Trouble) -> None:
    """Note every row that no bearing could have; `lines` holds the line of each row in its file."""
    with np.errstate(all="ignore"):
        for band in BANDS:
            values = band.value(catalogue)
            # a cell that may be empty is not wrong when it is; any other figure without a value is
            unknown = np.isnan(catalogue.n_grease) if band.column == "n_oil" else False
            outside = ~((values >= band.least) & (values <= band.greatest))
            outside &= ~(np.isnan(getattr(catalogue, band.column)) | unknown)
            for row in np.flatnonzero(outside).tolist():
                wrong = f"{band.figure} is {values[row]:.4g}, which no bearing has"
                accepted = f"from {band.least:g} to {band.greatest:g}"
                trouble.add(lines[row], _HEADER[band.column], wrong, accepted)
