"""The section of one bearing to scale, from its catalogue row: contours, rollers, load line, sizes."""

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from engine.catalogue.section.raceways import cup_contact_radius, roller_half_angle_nu
from engine.catalogue.section.ribs import cone_ring
from engine.catalogue.section.rollers import roller_corner
from engine.catalogue.section.sizes import Envelope, Rollers
from engine.errors import plain
from engine.report.drawn.shapes import Drawing, Point
from engine.units import number_text

if TYPE_CHECKING:
    from engine.catalogue.columns import Catalogue

_At = Callable[[float, float], Point]
#: Paper for one section [mm].
WIDTH, HEIGHT = 84.0, 92.0


@dataclass(frozen=True)
class Sizes:
    """Sizes of one assembly [mm, rad] as far as the section needs them."""

    d: float
    D: float
    T: float
    B: float
    C: float
    alpha: float
    Dwe: float
    Lwe: float
    Dpw: float
    a: float

    @classmethod
    def of(cls, rows: "Catalogue") -> "Sizes":
        """Return the sizes of a catalogue of one row."""
        return cls(**{name: float(getattr(rows, name)[0]) for name in cls.__dataclass_fields__})

    @property
    def drawable(self) -> bool:
        """Whether every size is known and they can belong to one section."""
        known = all(math.isfinite(value) for value in vars(self).values())
        return (
            known and 0 < self.d < self.Dpw < self.D and 0 < self.Dwe < (self.D - self.d) / 2
            and min(self.T, self.B, self.C, self.Lwe) > 0 and 0 < self.alpha < math.pi / 4
        )  # fmt: skip


@dataclass(frozen=True)
class Contours:
    """Outlines of the upper half in the plane of z (from the cone back face) and r; `contact` is at the cup."""

    cone: tuple[Point, ...]
    cup: tuple[Point, ...]
    roller: tuple[Point, ...]
    contact: Point


def contours(s: Sizes) -> Contours:
    """Return the outlines that the geometry of the catalogue gives: rollers and raceways are cones of one apex."""
    nu = float(roller_half_angle_nu(s.Dwe, s.Dpw, s.alpha))
    axis = s.alpha - nu
    half = s.Lwe / 2 + float(roller_corner(s.Dwe))
    middle_z = s.T - s.C / 2
    cup_r = float(cup_contact_radius(s.Dwe, s.Dpw, s.alpha))
    raceway = s.C / 2 * math.tan(s.alpha)
    cup = (
        (s.T - s.C, cup_r + raceway), (s.T, cup_r - raceway), (s.T, s.D / 2), (s.T - s.C, s.D / 2),
    )  # fmt: skip
    centre = (middle_z - s.Dwe / 2 * math.sin(axis), s.Dpw / 2)
    along, off = (math.cos(axis), -math.sin(axis)), (math.sin(axis), math.cos(axis))
    roller = tuple(
        (
            centre[0] + end * half * along[0] + side * (s.Dwe / 2 - end * half * math.tan(nu)) * off[0],
            centre[1] + end * half * along[1] + side * (s.Dwe / 2 - end * half * math.tan(nu)) * off[1],
        )
        for end, side in ((-1, 1), (1, 1), (1, -1), (-1, -1))
    )
    return Contours(_cone(s), cup, roller, (middle_z, cup_r))


def _cone(s: Sizes) -> tuple[Point, ...]:
    sizes = (np.asarray(value) for value in (s.d, s.D, s.T, s.B, s.C, s.alpha))
    rollers = Rollers(np.asarray(s.Dwe), np.asarray(s.Lwe), np.asarray(s.Dpw), np.asarray(math.nan))
    ring = cone_ring(Envelope(*sizes), rollers)
    start, track = float(ring.large_rib), float(ring.track)
    end, drop = start + track, track / 2 * math.tan(float(ring.slope))
    middle, large, small = (float(r) for r in (ring.middle_radius, ring.large_radius, ring.small_radius))
    return (
        (0.0, s.d / 2), (0.0, large), (start, large), (start, middle + drop), (end, middle - drop), (end, small),
        (s.B, small), (s.B, s.d / 2),
    )  # fmt: skip


def drawing(rows: "Catalogue", side: str) -> Drawing | None:
    """Return the full section of a bearing with its sizes; None where the catalogue does not give them all."""
    s = Sizes.of(rows)
    if not s.drawable:
        return None
    name = plain(rows.designation[0], 40)
    sheet = Drawing(f"Section of the bearing at {side}, {name}, to scale", WIDTH, HEIGHT)
    low, high = min(0.0, s.a), max(s.T, s.B, s.a)
    scale = min((WIDTH - 34.0) / (high - low), (HEIGHT - 30.0) / s.D)
    left, middle = 16.0 - low * scale + (WIDTH - 34.0 - (high - low) * scale) / 2, 14.0 + s.D / 2 * scale

    def at(z: float, r: float) -> Point:
        return left + z * scale, middle - r * scale

    outlines = contours(s)
    for sign in (1, -1):
        for pen, outline in (("cup", outlines.cup), ("cone", outlines.cone), ("roller", outlines.roller)):
            sheet.area(pen, [at(z, sign * r) for z, r in outline])
    for r in (s.d / 2, -s.d / 2):
        sheet.line("edge", at(0.0, r), at(s.B, r))
    for z in (0.0, s.B):
        sheet.line("size", at(z, s.d / 2), at(z, -s.d / 2))
    sheet.line("axis", at(low - 4 / scale, 0.0), at(high + 4 / scale, 0.0))
    sheet.line("load", at(*outlines.contact), at(s.a, 0.0))
    sheet.circle("mark", *at(s.a, 0.0), 0.8)
    _sizes(sheet, s, at)
    sheet.words(2.0, 4.0, f"{side}: {name}", size=3.2)
    angle = f"contact angle {number_text(math.degrees(s.alpha), 4)} deg"
    sheet.words(2.0, HEIGHT - 1.5, f"1 : {number_text(1 / scale, 3)}   {angle}", size=2.4)
    return sheet


def _sizes(sheet: Drawing, s: Sizes, at: _At) -> None:
    """Draw the dimensions: diameters beside, widths above and below, the load centre on the axis."""
    right, above, below = at(s.T, 0.0)[0], at(0.0, s.D / 2)[1], at(0.0, -s.D / 2)[1]
    for step, (symbol, value, z) in enumerate((("d", s.d, s.B), ("D", s.D, s.T)), 1):
        x = max(right, at(s.B, 0.0)[0]) + 3.0 + 5.5 * step
        top, bottom = at(z, value / 2), at(z, -value / 2)
        for corner in (top, bottom):
            sheet.line("size", corner, (x + 1.0, corner[1]))
        _dimension(sheet, (x, top[1]), (x, bottom[1]), f"{symbol} {_size(value)}", upright=True)
    levels = (("T", 0.0, s.T, above - 8.0), ("C", s.T - s.C, s.T, above - 3.0), ("B", 0.0, s.B, below + 4.0))
    for symbol, start, end, y in levels:
        edge = below if y > below else above
        for z in (start, end):
            sheet.line("size", (at(z, 0.0)[0], edge), (at(z, 0.0)[0], y + (1.0 if y > below else -1.0)))
        _dimension(sheet, (at(start, 0.0)[0], y), (at(end, 0.0)[0], y), f"{symbol} {_size(end - start)}")
    y = below + 9.0
    for z in (0.0, s.a):
        sheet.line("size", at(z, 0.0), (at(z, 0.0)[0], y + 1.0))
    _dimension(sheet, (at(0.0, 0.0)[0], y), (at(s.a, 0.0)[0], y), f"a {_size(s.a)}")


def _dimension(sheet: Drawing, start: Point, end: Point, text: str, upright: bool = False) -> None:
    """Draw a dimension line with a tip at both ends and its value over it."""
    middle = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
    for tip in (start, end):
        if tip != middle:
            sheet.arrow("size", middle, tip, 1.2)
    x, y = (middle[0] - 0.7, middle[1]) if upright else (middle[0], middle[1] - 0.7)
    sheet.words(x, y, text, "middle", upright=upright)


def _size(value: float) -> str:
    return number_text(value, 6)
