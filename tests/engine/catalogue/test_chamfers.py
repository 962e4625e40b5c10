"""Chamfers against the rows of ISO 355 and the limits of ISO 582, both recalled, and against the room in the rings."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.catalogue.invention.chamfer_sizes import CONE_SHARE, CUP_SHARE, usual_chamfer
from engine.catalogue.read import builtin
from engine.catalogue.section.chamfers import (
    PREFERRED,
    cone_face_height,
    cup_face_height,
    largest_axial_chamfer,
    largest_radial_chamfer,
)
from engine.catalogue.section.raceways import cup_contact_radius
from engine.catalogue.section.ribs import cone_ring
from engine.catalogue.section.sizes import Envelope, Rollers
from tests.printed import printed

ALL = builtin()
ENVELOPE = Envelope(ALL.d, ALL.D, ALL.T, ALL.B, ALL.C, ALL.alpha)
ROLLERS = Rollers(ALL.Dwe, ALL.Lwe, ALL.Dpw, ALL.Z)
IN_INCHES = (ALL.system == "inch") & (ALL.tolerance != "K")

# ISO 355 boundary rows (recalled, apart from the rule under test): d, D, r1s min, r3s min
PUBLISHED = """
20 47 1 1
30 62 1 1
40 80 1.5 1.5
50 90 1.5 1.5
60 110 2 1.5
70 125 2 1.5
80 140 2.5 2
90 160 2.5 2
100 180 3 2.5
20 52 1.5 1.5
25 62 1.5 1.5
30 72 1.5 1.5
35 80 2 1.5
40 90 2 1.5
50 110 2.5 2
60 130 3 2.5
80 170 3 2.5
30 55 1 1
40 68 1 1
50 80 1 1
60 95 1.5 1.5
80 125 1.5 1.5
100 150 2 1.5
"""
ROWS = np.array([line.split() for line in PUBLISHED.split("\n") if line], dtype=float)


@pytest.mark.parametrize(
    ("column", "share", "alike"), [(2, CONE_SHARE, 0.85), (3, CUP_SHARE, 0.65)], ids=["cone", "cup"]
)
def test_the_rule_of_the_invented_range_meets_the_published_rows(column, share, alike):
    ours = usual_chamfer((ROWS[:, 1] - ROWS[:, 0]) / 2, share, PREFERRED)
    off = np.searchsorted(PREFERRED, ours) - np.searchsorted(PREFERRED, ROWS[:, column])
    # no row is further off than one size
    assert np.all(np.abs(off) <= 1)
    assert np.mean(off == 0) > alike


@pytest.mark.parametrize(
    ("r", "diameter", "radial", "axial"),
    # ISO 582, table of tapered roller bearings (recalled): rows at either side of a step of the diameter
    [(0.3, 40, "0.7", "1.4"), (0.3, 41, "0.9", "1.6"), (1, 50, "1.6", "2.5"), (1, 55, "1.9", "3"),
     (1.5, 120, "2.3", "3"), (1.5, 250, "2.8", "3.5"), (2.5, 130, "4", "5.5"), (3, 401, "5.5", "7.5"),
     (4, 300, "6", "8"), (6, 180, "7.5", "10"), (6, 200, "9", "11")],
    ids="ISO 582 {0}".format,
)  # fmt: skip
def test_the_largest_chamfer_is_that_of_the_table(r, diameter, radial, axial):
    assert largest_radial_chamfer(r, diameter) == printed(radial)
    assert largest_axial_chamfer(r, diameter) == printed(axial)


@given(r=st.floats(0.01, 6), more=st.floats(0, 3), diameter=st.floats(3, 2000), larger=st.floats(1, 3))
def test_a_larger_chamfer_or_ring_never_has_a_smaller_limit(r, more, diameter, larger):
    for limit in (largest_radial_chamfer, largest_axial_chamfer):
        assert limit(r, diameter * larger) >= limit(r, diameter) > r
        assert not limit(r + more, diameter) < limit(r, diameter)
    assert largest_axial_chamfer(r, diameter) > largest_radial_chamfer(r, diameter)


@pytest.mark.parametrize(("r", "diameter"), [(0, 50), (-1, 50), (6.1, 50), (1, 0), (1, -5), (np.nan, 50), (1, np.nan)])
def test_outside_the_table_there_is_no_limit(r, diameter):
    assert np.isnan(largest_radial_chamfer(r, diameter))
    assert np.isnan(largest_axial_chamfer(r, diameter))


def test_scalar_and_column_agree_to_the_last_bit():
    for limit in (largest_radial_chamfer, largest_axial_chamfer):
        together = limit(ALL.r_cone, ALL.d).tolist()
        assert [float(limit(*pair)) for pair in zip(ALL.r_cone, ALL.d, strict=True)] == together


def test_metric_chamfers_are_preferred_sizes_and_inch_ones_fractions_of_an_inch():
    for values in (ALL.r_cone, ALL.r_cup):
        assert np.isin(values[~IN_INCHES], PREFERRED).all()
        parts = values[IN_INCHES] / 25.4 * 64
        assert np.allclose(parts, np.round(parts), rtol=0, atol=1e-4)
        # many sizes of either system occur
        assert len(set(values[~IN_INCHES].tolist())) >= 8
        assert len(set(values[IN_INCHES].tolist())) >= 6


def test_the_largest_chamfers_leave_a_face_and_a_seat_on_every_ring():
    cone, cup = largest_radial_chamfer(ALL.r_cone, ALL.d), largest_radial_chamfer(ALL.r_cup, ALL.D)
    assert np.all(cone < 0.65 * cone_face_height(ENVELOPE, ROLLERS))
    assert np.all(cup < 0.65 * cup_face_height(ENVELOPE, ROLLERS))
    assert np.all(largest_axial_chamfer(ALL.r_cone, ALL.d) < 0.35 * ALL.B)
    assert np.all(largest_axial_chamfer(ALL.r_cup, ALL.D) < 0.35 * ALL.C)


def test_the_largest_chamfers_leave_a_wall_all_along_every_ring():
    # the wall is walked in steps, straight chamfers from the back faces; outlines as in the drawn section
    ring = cone_ring(ENVELOPE, ROLLERS)
    radial, axial = largest_radial_chamfer(ALL.r_cone, ALL.d), largest_axial_chamfer(ALL.r_cone, ALL.d)
    at_cup, slope = cup_contact_radius(ALL.Dwe, ALL.Dpw, ALL.alpha), np.tan(ALL.alpha)
    radial_cup, axial_cup = largest_radial_chamfer(ALL.r_cup, ALL.D), largest_axial_chamfer(ALL.r_cup, ALL.D)
    for share in np.linspace(0, 1, 41):
        z = share * ALL.B
        on_track = ring.middle_radius - (z - ring.large_rib - ring.track / 2) * np.tan(ring.slope)
        outline = np.where(z < ring.large_rib, ring.large_radius, np.maximum(on_track, ring.small_radius))
        outline = np.where((z > ring.large_rib) & (z < ring.large_rib + ring.track), on_track, outline)
        depth = np.maximum(0, radial * (1 - z / axial))
        assert np.all(outline - ALL.d / 2 - depth > 0.08 * (ALL.D - ALL.d) / 2)
        # the cup from its back face on, where it is thickest
        z = share * ALL.C
        raceway = at_cup + (z - ALL.C / 2) * slope
        depth = np.maximum(0, radial_cup * (1 - z / axial_cup))
        assert np.all(ALL.D / 2 - depth - raceway > 0.08 * (ALL.D - ALL.d) / 2)


def test_chamfers_that_the_masses_leave_out_weigh_next_to_nothing():
    # rings of triangular section by the theorem of Pappus: area times the way of its centroid
    density = 7.85e-6
    cone = density * 2 * np.pi * (ALL.d / 2 + ALL.r_cone / 3) * np.square(ALL.r_cone) / 2
    cup = density * 2 * np.pi * (ALL.D / 2 - ALL.r_cup / 3) * np.square(ALL.r_cup) / 2
    assert np.max((cone + cup) / ALL.mass) < 0.012
    assert np.median((cone + cup) / ALL.mass) < 0.006
