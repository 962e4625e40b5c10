"""Sections to scale hold the geometry of the bearing; curves and bars show what they are given."""

import math
from types import SimpleNamespace

import numpy as np
import pytest

from engine.catalogue.section import masses
from engine.catalogue.section.raceways import roller_half_angle_nu
from engine.catalogue.section.rollers import roller_corner
from engine.catalogue.section.sizes import Envelope, Rollers
from engine.figures import Block, Figure
from engine.report.drawn.oil import viscosity_plot
from engine.report.drawn.plots import Axis, Bar, Curve, Mark, bars, plot
from engine.report.drawn.section import Sizes, contours, drawing
from engine.report.drawn.shapes import Area, Line, Words, svg

CONES = (0, 400, 1500, 2500, 3500)


def solid(outline):
    """Return the volume of an outline turned about the axis, by Pappus: area times the way of its centroid."""
    points = np.array(outline)
    x, r = points[:, 0], points[:, 1]
    nx, nr = np.roll(x, -1), np.roll(r, -1)
    cross = x * nr - nx * r
    area = cross.sum() / 2
    centroid = ((r + nr) * cross).sum() / (6 * area)
    return abs(area) * 2 * math.pi * centroid


@pytest.mark.parametrize("row", CONES)
def test_the_drawn_rings_have_the_mass_that_the_geometry_gives(catalogue, row):
    """Pappus' theorem on the drawn outlines against the frustums of engine.catalogue.section.masses."""
    rows = catalogue.take([row])
    s = Sizes.of(rows)
    assert s.drawable
    outlines = contours(s)
    envelope = Envelope(rows.d, rows.D, rows.T, rows.B, rows.C, rows.alpha)
    rollers = Rollers(rows.Dwe, rows.Lwe, rows.Dpw, rows.Z)
    cup = masses.STEEL_DENSITY * solid(outlines.cup)
    assert cup == pytest.approx(float(masses.cup_mass(envelope, rollers)[0]), rel=1e-9)
    # the rollers are frustums too, of the length with both corners
    nu = float(roller_half_angle_nu(s.Dwe, s.Dpw, s.alpha))
    length = s.Lwe + 2 * float(roller_corner(s.Dwe))
    R, r = s.Dwe / 2 + length / 2 * math.tan(nu), s.Dwe / 2 - length / 2 * math.tan(nu)
    roller = math.pi * length * (R * R + R * r + r * r) / 3
    cone = masses.STEEL_DENSITY * (solid(outlines.cone) + float(rows.Z[0]) * roller)
    assert cone == pytest.approx(float(masses.cone_mass(envelope, rollers)[0]), rel=1e-9)


@pytest.mark.parametrize("row", CONES)
def test_rollers_lie_between_the_raceways_and_the_load_line_meets_the_axis_at_a(catalogue, row):
    rows = catalogue.take([row])
    s, outlines = Sizes.of(rows), contours(Sizes.of(rows))
    z, r = outlines.contact
    # the load line stands square on the cup raceway and meets the axis in the load centre of the catalogue
    assert z - r * math.tan(s.alpha) == pytest.approx(s.a, abs=0.02 * s.T)
    # the roller's outer edge lies on the raceway of the cup
    (z1, r1), (z2, r2) = outlines.roller[:2]
    assert (r1 - r2) / (z2 - z1) == pytest.approx(math.tan(s.alpha), rel=1e-9)
    (c1, q1), (c2, q2) = outlines.cup[:2]
    on_raceway = q1 + (q2 - q1) * (z1 - c1) / (c2 - c1)
    assert r1 == pytest.approx(on_raceway, abs=1e-9)
    assert all(0 <= x <= s.B + 1e-9 and r >= s.d / 2 - 1e-9 for x, r in outlines.cone)


def test_a_section_is_drawn_to_one_scale_and_shows_its_sizes(catalogue):
    rows = catalogue.take([1500])
    s, sheet = Sizes.of(rows), drawing(rows, "A")
    texts = {shape.text for shape in sheet.shapes if isinstance(shape, Words)}
    cups = [shape for shape in sheet.shapes if isinstance(shape, Area) and shape.pen == "cup"]
    height = max(y for one in cups for _, y in one.points) - min(y for one in cups for _, y in one.points)
    width = max(x for x, _ in cups[0].points) - min(x for x, _ in cups[0].points)
    assert height / width == pytest.approx(s.D / s.C)
    for symbol in ("d", "D", "T", "B", "C", "a"):
        assert any(text.startswith(f"{symbol} ") for text in texts), symbol


def test_a_bearing_whose_rollers_are_not_known_is_not_drawn(catalogue):
    rows = catalogue.take([0])
    unknown = type(rows)(**{**vars(rows), "Dwe": np.array([np.nan])})
    assert drawing(unknown, "A") is None


def test_a_curve_goes_through_its_points_on_either_scale():
    for log in (False, True):
        sheet = plot("t", [Curve([0, 1, 2], [1, 10, 100], "c")], Axis("x"), Axis("y", log), [Mark(1, 10, "here")])
        (curve,) = [shape for shape in sheet.shapes if isinstance(shape, Line) and shape.pen == "curve"][:1]
        (x0, y0), (x1, y1), (x2, y2) = curve.points
        assert x1 - x0 == pytest.approx(x2 - x1)
        straight = y0 - y1 == pytest.approx(y1 - y2)
        assert straight == log
        assert "here" in svg(sheet)


def test_what_has_no_place_leaves_a_gap_and_nothing_at_all_no_plot():
    sheet = plot("t", [Curve([0, 1, 2, 3, 4], [1, 2, math.nan, 4, 5])], Axis("x"), Axis("y"))
    assert len([shape for shape in sheet.shapes if isinstance(shape, Line) and shape.pen == "curve"]) == 2
    assert plot("t", [Curve([math.nan], [1.0])], Axis("x"), Axis("y")) is None
    assert plot("t", [Curve([1, 2], [0, -1])], Axis("x"), Axis("y", log=True)) is None
    flat = plot("t", [Curve([5, 5], [7, 7])], Axis("x"), Axis("y"))
    assert "nan" not in svg(flat)


def test_the_viscosity_of_a_spindle_oil_is_drawn_along_the_whole_range():
    figures = (Figure("nu40", "", "", "mm2/s", "answer", 4.6), Figure("nu100", "", "", "mm2/s", "answer", 1.6))
    drawn = viscosity_plot(SimpleNamespace(result=SimpleNamespace(blocks=(Block("lubricant", "", figures),))))
    longest = max((shape for shape in drawn.shapes if isinstance(shape, Line)), key=lambda one: len(one.points))
    across = [x for x, _ in longest.points]
    assert max(across) - min(across) > 0.6 * drawn.width  # not cut off where the oil gets thinner than 2 mm2/s


def test_bars_reach_as_far_as_the_utilisation_and_the_limit_stands_at_one():
    sheet = bars(
        "u", [Bar("a", 0.5, "passes"), Bar("b", 1.0, "near"), Bar("c", 9.0, "fails"), Bar("d", math.nan, "fails")]
    )
    found = [shape for shape in sheet.shapes if isinstance(shape, Area)]
    left = found[0].points[0][0]
    widths = [shape.points[1][0] - left for shape in found]
    (limit,) = [shape for shape in sheet.shapes if isinstance(shape, Line) and shape.pen == "limit"]
    assert widths[1] == pytest.approx(2 * widths[0]) == pytest.approx(limit.points[0][0] - left)
    assert widths[2] == widths[3] == pytest.approx(1.5 * widths[1])
    assert {"unknown", "9"} <= {shape.text for shape in sheet.shapes if isinstance(shape, Words)}
    assert bars("u", []) is None


def test_a_block_that_tells_one_thing_at_many_places_is_drawn_as_a_curve():
    from engine.figures import Block, Figure
    from engine.report.drawn.series import LEAST_PLACES, plots

    def block(count, B=None):
        figures = [
            Figure(f"life_at_{at}", "", f"life at {at * 0.01 - 0.03:+.4f} mm", "h", "Statics", 1e4 / (1 + at), B)
            for at in range(count)
        ]
        other = Figure("best", "", "setting of the longest life", "mm", "Statics", 0.0)
        return Block("setting_life", "Life against setting", (other, *figures))

    assert list(plots([block(LEAST_PLACES - 1)])) == []
    (sheet,) = plots([block(9)])
    (curve,) = [shape for shape in sheet.shapes if isinstance(shape, Line) and shape.pen == "curve"]
    assert len(curve.points) == 9
    assert [y for _, y in curve.points] == sorted(y for _, y in curve.points)  # falling life, y downwards
    texts = {shape.text for shape in sheet.shapes if isinstance(shape, Words)}
    assert {"at, mm", "life, h"} <= texts
    (both,) = plots([block(9, B=5.0)])
    pens = [shape.pen for shape in both.shapes if isinstance(shape, Line) and len(shape.points) == 9]
    assert pens == ["curve", "second"]
    assert list(plots([block(9, B="none")])) != []


def test_the_curve_of_life_is_marked_where_the_pair_runs_and_what_the_fitter_may_leave(computed):
    """The mark of the setting lies on the curve; both bands and the required life are named; axes name their units."""
    from engine.report.drawn import marked, series
    from engine.report.drawn.shapes import Circle, Words

    found = marked.of_setting(computed)["setting_life"]
    figures = {f"{b.key}.{f.key}": f.A for b in computed.result.blocks for f in b.figures}
    (at, _), *rest = found.places
    assert rest == [] and at == figures["setting.service"]
    wide = figures["setting.bench_to"] - figures["setting.bench_from"]
    fitters = next(span for span in found.spans if "bench" in span.name)
    assert fitters.high - fitters.low == pytest.approx(wide)
    assert fitters.low <= at <= fitters.high
    (drawn,) = series.plots(computed.result.blocks, {"setting_life": found})
    said = {shape.text for shape in drawn.shapes if isinstance(shape, Words)}
    for words in ("required life", "band of long life", "bench band, as it runs"):
        assert words in said
    assert [one for one in said if one.startswith("life, h")]
    assert any("setting in service, mm" in words for words in said)
    (mark,) = [shape for shape in drawn.shapes if isinstance(shape, Circle)]
    curve = next(shape for shape in drawn.shapes if getattr(shape, "pen", "") == "curve")
    near = min(zip(curve.points, curve.points[1:], strict=False), key=lambda two: abs(two[0][0] - mark.x))
    assert min(y for _, y in near) - 5 <= mark.y <= max(y for _, y in near) + 5


@pytest.mark.parametrize("most", [3.1, 40.0, 9000.0])
def test_a_logarithmic_axis_says_so_and_its_figures_are_round(most):
    from engine.report.drawn.shapes import Words

    drawn = plot("t", [Curve([0.0, 1.0], [1.2, most])], Axis("x"), Axis("y, h", log=True))
    said = [shape.text for shape in drawn.shapes if isinstance(shape, Words)]
    assert "y, h, log" in said
    upright = [float(s.text.replace(" ", "")) for s in drawn.shapes if isinstance(s, Words) and s.anchor == "end"]
    assert len(upright) >= 2
    for value in upright:
        assert value == float(f"{value:.1e}")
    assert min(upright) <= 1.2
    assert max(upright) >= most
