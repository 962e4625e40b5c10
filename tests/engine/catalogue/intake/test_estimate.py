"""Estimates against published boundary rows, worked factors and the solids of the invented range."""

import numpy as np
import pytest

from engine.catalogue.columns import COLUMNS
from engine.catalogue.intake import estimate
from engine.catalogue.intake.check import check, load
from engine.catalogue.intake.manual import SAMPLE, format_help
from engine.catalogue.section.rollers import gap_ratio
from engine.rating.static import basic_static_rating_C0r
from tests.engine.catalogue.published_rows import PUBLISHED
from tests.printed import printed

BOUNDARY = np.array([line.split()[:6] for line in PUBLISHED.strip().splitlines()], dtype=float)


def test_ring_widths_against_the_boundary_rows_of_ISO_355():
    T, B, C, alpha = BOUNDARY[:, 2], BOUNDARY[:, 3], BOUNDARY[:, 4], BOUNDARY[:, 5]
    assert np.all(np.abs(estimate.cone_width(T) / B - 1) < 0.06)
    # steep rows have narrower cups than the rule of thumb: up to a third
    assert np.all(np.abs(estimate.cup_width(T) / C - 1)[alpha < 20] < 0.12)
    assert np.all(np.abs(estimate.cup_width(T) / C - 1) < 0.35)


def test_angle_of_Y_as_in_a_published_question():
    # an open exam question prints e = 0.29 and Y = 2.1 for one bearing: 0.4 cot(alpha) and 1.5 tan(alpha) of one angle
    assert 1.5 * np.tan(estimate.contact_angle_of_Y(2.1)) == printed("0.29")


def test_a_Y_of_no_radial_bearing_gives_no_angle():
    assert np.isnan(estimate.contact_angle_of_Y([0.39, -1.0, 0.0, np.nan])).all()


def test_rules_of_thumb_against_the_drawn_sections_of_the_invented_range(catalogue):
    c = catalogue
    for got, want, within in (
        (estimate.pitch_diameter(c.d, c.D), c.Dpw, 0.13),
        (estimate.ring_mass(c.d, c.D, c.T), c.mass, 0.20),
        (estimate.roller_diameter(c.d, c.D), c.Dwe, 0.70),
    ):
        off = np.abs(got / want - 1)
        assert np.max(off) < within and np.median(off) < 0.07


def test_estimated_rollers_fit_the_pitch_circle_and_give_the_static_rating(catalogue):
    c = catalogue
    Dwe, Dpw = estimate.roller_diameter(c.d, c.D), estimate.pitch_diameter(c.d, c.D)
    Z = estimate.roller_number(Dwe, Dpw)
    assert np.all(gap_ratio(Dwe, Dpw, Z) >= 0.15 - 1e-12)
    Lwe = estimate.roller_length(c.C0r, c.C, Dwe, Z, Dpw, c.alpha)
    free = Lwe < 0.9 * c.C / np.cos(c.alpha) - 1e-9
    assert free.mean() > 0.5
    np.testing.assert_allclose(basic_static_rating_C0r(Dwe, Lwe, Z, Dpw, c.alpha)[free], c.C0r[free], rtol=1e-9)


def test_every_estimated_cell_is_marked_and_no_other(tmp_path):
    path = tmp_path / "own.csv"
    path.write_text(
        "designation,d_mm,D_mm,T_mm,Cr_N,C0r_N,e,B_mm,steel\n"
        "P1,40,80,19.75,67000,79700,0.375,18,case\nP2,50,90,21.75,78200,102000,0.42,,\n"
    )
    got, _ = load(path)
    marked = [{column.name for column in COLUMNS if got.is_estimated(column.name)[row]} for row in range(2)]
    assert marked[1] - marked[0] == {"B", "steel"} and marked[0] < marked[1]
    assert marked[0] == {
        "cone", "cup", "system", "series", "max_temperature", "C", "alpha", "Z", "Dwe", "Lwe", "Dpw", "Cu", "Y", "Y0",
        "a", "mass", "n_grease", "n_oil", "profile",
    }  # fmt: skip
    # 0.4 cot(arctan(0.375/1.5)) = 0.4/0.25
    assert got.Y[0] == printed("1.600")
    assert not np.isnan([getattr(got, name) for name in ("alpha", "Lwe", "Z", "a", "Cu")]).any()


def test_the_sample_of_the_manual_is_sound(tmp_path):
    path = tmp_path / "sample.csv"
    path.write_text(SAMPLE)
    assert check(path).clean and check(path).accepted == 3


def test_the_manual_names_every_column_and_formula():
    text = format_help()
    assert all(f"  {column.name}" in text for column in COLUMNS)
    assert all(str(one.citation) in " ".join(text.split()) for one in estimate.ESTIMATES)
    assert max(map(len, text.splitlines())) <= 100


@pytest.mark.parametrize("one", estimate.ESTIMATES, ids=lambda one: f"{one.column} from {' '.join(one.given)}")
def test_what_is_stated_is_never_replaced(one):
    stated = {column.name: np.array([np.nan]) for column in COLUMNS if column.kind != "text"}
    stated |= {"d": np.array([40.0]), "D": np.array([80.0]), "T": np.array([20.0]), "C0r": np.array([79700.0])}
    stated |= {"e": np.array([0.4])} | {one.column: np.array([17.0])}
    values, estimated = estimate.filled(stated)
    assert values[one.column] == 17.0 and not estimated.get(one.column, np.zeros(1)).any()
