"""The drawn section: lines that meet, rollers that do not, and solids integrated by scipy."""

from importlib.resources import files

import numpy as np
import pytest
from scipy.integrate import quad
from scipy.optimize import brentq

from engine.catalogue.parts import CONE_COLUMNS, CUP_COLUMNS, Cones, Cups
from engine.catalogue.read import builtin, read_table
from engine.catalogue.section.masses import cone_mass, cup_mass, steel_mass
from engine.catalogue.section.raceways import cup_contact_radius, load_centre_distance_a, roller_half_angle_nu
from engine.catalogue.section.rollers import gap_ratio, most_rollers, roller_corner
from engine.catalogue.section.sizes import Envelope, Rollers

ALL = builtin()
FOLDER = files("catalogs")
CONES = Cones(**read_table(FOLDER.joinpath("inch_cones.csv"), CONE_COLUMNS).columns)
CUPS = Cups(**read_table(FOLDER.joinpath("inch_cups.csv"), CUP_COLUMNS).columns)
A_FEW = np.linspace(0, len(ALL) - 1, 12).astype(int).tolist()


def _apex(z, r, slope):
    """Where a line through (z, r) that falls at the slope meets the axis."""
    return z + r / np.tan(slope)


@pytest.mark.parametrize("row", A_FEW, ids=lambda row: str(ALL.designation[row]))
def test_cup_raceway_roller_axis_and_cone_raceway_meet_in_one_point_on_the_axis(row):
    # plane geometry: cones roll on one another without sliding only if they share their apex
    one = ALL.take([row])
    nu = roller_half_angle_nu(one.Dwe, one.Dpw, one.alpha)[0]
    axis, radius = one.alpha[0] - nu, one.Dwe[0] / 2
    middle = one.Dpw[0] / 2
    at_cup = _apex(radius * np.sin(axis), middle + radius * np.cos(axis), one.alpha[0])
    at_cone = _apex(-radius * np.sin(axis), middle - radius * np.cos(axis), axis - nu)
    assert at_cup == pytest.approx(_apex(0.0, middle, axis), rel=1e-12)
    assert at_cone == pytest.approx(_apex(0.0, middle, axis), rel=1e-12)


@pytest.mark.parametrize("row", A_FEW, ids=lambda row: str(ALL.designation[row]))
def test_load_line_meets_the_axis_at_a(row):
    # walked by scipy along the line that stands upright on the cup raceway in the middle of the cup
    one = ALL.take([row])
    alpha = one.alpha[0]
    start = np.array([one.T[0] - one.C[0] / 2, cup_contact_radius(one.Dwe, one.Dpw, one.alpha)[0]])
    raceway = np.array([np.cos(alpha), -np.sin(alpha)])
    inward = np.array([-np.sin(alpha), -np.cos(alpha)])
    assert raceway @ inward == pytest.approx(0)
    way = brentq(lambda s: (start + s * inward)[1], 0, 10 * start[1])
    # a is printed to 0.01 mm
    assert (start + way * inward)[0] == pytest.approx(one.a[0], abs=0.005 + 1e-9)


def test_the_steeper_the_angle_the_further_out_lies_the_load_centre():
    angles = np.radians(np.linspace(10, 30, 50))
    assert np.all(np.diff(load_centre_distance_a(29.25, 19, 14.45, 79.1, angles)) < 0)


def test_load_centre_of_a_flat_contact_is_under_the_middle_of_the_cup():
    assert load_centre_distance_a(20, 16, 10, 70, 0.0) == 12


def test_no_two_rollers_of_any_row_overlap_when_set_on_their_circle():
    for Z, Dwe, Dpw in zip(ALL.Z.astype(int), ALL.Dwe, ALL.Dpw, strict=True):
        around = Dpw / 2 * np.exp(2j * np.pi * np.arange(Z) / Z)
        least = np.min(np.abs(np.diff(np.append(around, around[0]))))
        assert least > 1.05 * Dwe
        # one more would not leave the cage its gap
        assert np.abs(1 - np.exp(2j * np.pi / (Z + 1))) * Dpw / 2 < 1.141 * Dwe


def test_most_rollers_is_the_largest_count_that_keeps_the_gap():
    Dpw = np.linspace(30, 300, 60)
    Z = most_rollers(10.0, Dpw, 0.12)
    assert np.all(gap_ratio(10.0, Dpw, Z) >= 0.12 - 1e-12)
    assert np.all(gap_ratio(10.0, Dpw, Z + 1) < 0.12)


def _drawn_masses(one):
    """Masses of cone and cup of the drawn section, each solid integrated as discs along its own axis."""
    alpha, Dwe, C, B, T = one.alpha[0], one.Dwe[0], one.C[0], one.B[0], one.T[0]
    # the roller half angle found by a root finder from two circles of the roller cone
    nu = brentq(lambda nu: Dwe / (2 * np.tan(nu)) - one.Dpw[0] / (2 * np.sin(alpha - nu)), 1e-6, alpha - 1e-6)
    axis, slope = alpha - nu, alpha - 2 * nu
    long = one.Lwe[0] + 2 * (0.2 + 0.03 * Dwe)
    half_pitch = one.Dpw[0] / 2
    cup_middle = (T - C / 2, half_pitch + Dwe / 2 * np.cos(axis))
    cone_middle = (cup_middle[0] - Dwe * np.sin(axis), half_pitch - Dwe / 2 * np.cos(axis))
    track = (cone_middle[0] - long / 2 * np.cos(slope), cone_middle[0] + long / 2 * np.cos(slope))

    def cone_raceway(z):
        return cone_middle[1] - (z - cone_middle[0]) * np.tan(slope)

    def cone(z):
        if z < track[0]:
            return cone_raceway(track[0]) + 0.20 * Dwe
        return cone_raceway(z) if z <= track[1] else cone_raceway(track[1]) + 0.10 * Dwe

    def cup_bore(z):
        return cup_middle[1] - (z - cup_middle[0]) * np.tan(alpha)

    assert 0 < track[0] < track[1] < B
    cup = quad(lambda z: np.pi * ((one.D[0] / 2) ** 2 - cup_bore(z) ** 2), T - C, T)[0]
    inner = quad(lambda z: np.pi * (cone(z) ** 2 - (one.d[0] / 2) ** 2), 0, B, points=track, limit=200)[0]
    roller = quad(lambda s: np.pi * (Dwe / 2 - s * np.tan(nu)) ** 2, -long / 2, long / 2)[0]
    return (inner + one.Z[0] * roller) * 7.85e-6, cup * 7.85e-6


@pytest.mark.parametrize("row", A_FEW, ids=lambda row: str(ALL.designation[row]))
def test_masses_of_cone_and_cup_equal_the_solids_of_the_drawn_section_integrated_by_scipy(row):
    one = ALL.take([row])
    envelope = Envelope(one.d, one.D, one.T, one.B, one.C, one.alpha)
    rollers = Rollers(one.Dwe, one.Lwe, one.Dpw, one.Z)
    cone, cup = _drawn_masses(one)
    # discs of straight lines leave no difference
    assert cone_mass(envelope, rollers)[0] == pytest.approx(cone, rel=1e-6)
    assert cup_mass(envelope, rollers)[0] == pytest.approx(cup, rel=1e-6)
    # cone and cup are each printed to a gram
    assert one.mass[0] == pytest.approx(cone + cup, rel=1e-6, abs=0.001 + 1e-9)


@pytest.mark.parametrize("place", range(0, len(CONES.designation), 97), ids=lambda place: str(CONES.designation[place]))
def test_printed_masses_of_a_cone_and_of_its_cups_equal_the_integrals(place):
    name = str(CONES.designation[place])
    for row in np.flatnonzero(ALL.cone == name).tolist():
        cone, cup = _drawn_masses(ALL.take([row]))
        assert CONES.mass[place] == pytest.approx(cone, rel=1e-6, abs=0.0005 + 1e-9)
        assert CUPS.mass[CUPS.designation == ALL.cup[row]][0] == pytest.approx(cup, rel=1e-6, abs=0.0005 + 1e-9)


def test_raceways_of_every_row_lie_inside_the_widths_with_room_for_ribs_and_corners():
    nu = roller_half_angle_nu(ALL.Dwe, ALL.Dpw, ALL.alpha)
    half = (ALL.Lwe + 2 * roller_corner(ALL.Dwe)) / 2
    at_cup = ALL.T - ALL.C / 2
    on_cup = half * np.cos(ALL.alpha)
    assert np.all(on_cup < ALL.C / 2)
    on_cone, at_cone = half * np.cos(ALL.alpha - 2 * nu), at_cup - ALL.Dwe * np.sin(ALL.alpha - nu)
    # common practice, no source: the large rib holds the rollers and is the wider one
    assert np.all(at_cone - on_cone > 0.06 * ALL.B)
    assert np.all(ALL.B - at_cone - on_cone > 0.03 * ALL.B)


def test_raceway_diameters_are_those_of_the_circles_on_which_the_rollers_touch():
    # rollers of no taper would touch on circles 2 Dwe cos(alpha) apart; the taper sets them a little further apart
    assert np.all(np.abs(ALL.E - ALL.F - 2 * ALL.Dwe * np.cos(ALL.alpha)) < 0.08 * ALL.Dwe)
    assert np.allclose((ALL.E + ALL.F) / 2, ALL.Dpw, rtol=0, atol=0.01 + 1e-9)
    assert np.all((ALL.d < ALL.F) & (ALL.E < ALL.D))
    for row in A_FEW:
        one = ALL.take([row])
        # the distance of the roller middle from a raceway, by the foot of its perpendicular, is half a roller
        nu = roller_half_angle_nu(one.Dwe, one.Dpw, one.alpha)[0]
        for diameter, slope, side in ((one.E[0], one.alpha[0], 1), (one.F[0], one.alpha[0] - 2 * nu, -1)):
            normal = np.array([np.sin(slope), np.cos(slope)])
            along = np.array([np.sin(one.alpha[0] - nu), np.cos(one.alpha[0] - nu)])
            foot = np.array([0, one.Dpw[0] / 2]) + side * one.Dwe[0] / 2 * along
            assert 2 * foot[1] == pytest.approx(diameter, abs=0.005 + 1e-9)
            assert normal @ along == pytest.approx(np.cos(nu), rel=1e-9)


def test_rollers_and_walls_of_every_row_have_room():
    nu = roller_half_angle_nu(ALL.Dwe, ALL.Dpw, ALL.alpha)
    thin_edge = cup_contact_radius(ALL.Dwe, ALL.Dpw, ALL.alpha) + ALL.C / 2 * np.tan(ALL.alpha)
    height = (ALL.D - ALL.d) / 2
    assert np.all(ALL.D / 2 - thin_edge > 0.08 * height)
    length = ALL.Lwe + 2 * roller_corner(ALL.Dwe)
    under_small_ends = ALL.Dpw / 2 - ALL.Dwe / 2 * np.cos(ALL.alpha - nu) - length / 2 * np.sin(ALL.alpha - 2 * nu)
    assert np.all(under_small_ends - ALL.d / 2 > 0.10 * height)


def test_scalar_and_column_agree_to_the_last_bit():
    columns = [getattr(ALL, name) for name in ("T", "C", "Dwe", "Dpw", "alpha")]
    together = load_centre_distance_a(*columns)
    assert [float(load_centre_distance_a(*row)) for row in zip(*columns, strict=True)] == together.tolist()
    sizes = [ALL.d, ALL.D, ALL.T, ALL.B, ALL.C, ALL.alpha]
    rollers = [ALL.Dwe, ALL.Lwe, ALL.Dpw, ALL.Z]
    masses = steel_mass(Envelope(*sizes), Rollers(*rollers))
    alone = [
        float(steel_mass(Envelope(*size), Rollers(*roller)))
        for size, roller in zip(zip(*sizes, strict=True), zip(*rollers, strict=True), strict=True)
    ]
    assert alone == masses.tolist()


@pytest.mark.parametrize(
    ("Dwe", "Dpw", "alpha"), [(0, 70, 0.2), (80, 70, 0.2), (10, 70, -0.1), (10, 70, 1.6), (10, 0, 0.2)]
)
def test_outside_the_valid_range_there_is_no_value(Dwe, Dpw, alpha):
    assert np.isnan(roller_half_angle_nu(Dwe, Dpw, alpha))
    assert np.isnan(load_centre_distance_a(20, 16, Dwe, Dpw, alpha))


def test_no_gap_and_no_count_without_rollers():
    assert np.isnan(gap_ratio(10, 70, 1))
    assert np.isnan(gap_ratio(0, 70, 10))
    assert np.isnan(most_rollers(80, 70, 0.1))
