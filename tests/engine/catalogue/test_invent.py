"""The invented catalogues: same bytes every time, figures that follow from the printed sizes."""

import csv
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.catalogue.dimension_series import classify
from engine.catalogue.invention.invent import invent, main, synthetic
from engine.catalogue.invention.rows import limiting_speed
from engine.catalogue.physics import impossible_rows
from engine.catalogue.read import builtin, read
from engine.catalogue.trouble import Trouble
from engine.catalogue.write import as_csv
from engine.rating.dynamic import basic_dynamic_rating_Cr
from engine.rating.fatigue_limit import fatigue_load_limit_Cu
from engine.rating.geometry import axial_factor_Y, limiting_ratio_e, static_axial_factor_Y0
from engine.rating.static import basic_static_rating_C0r
from tests.printed import printed

CATALOGS = Path(__file__).parents[3] / "catalogs"
FILES = ["metric.csv", "inch.csv"]

# ISO 281:2007 Table 7 (recalled): f_c for gamma = 0.05, 0.06, ... 0.24
F_C = """
74.1 76.9 79.2 81.2 82.8 84.2 85.4 86.4 87.1 87.7
88.2 88.5 88.7 88.8 88.8 88.7 88.5 88.2 87.9 87.5
"""


def printed_rows(name):
    with (CATALOGS / name).open(newline="") as file:
        return list(csv.DictReader(file))


def test_a_rerun_writes_the_committed_bytes(tmp_path):
    main(["--out", str(tmp_path)])
    for name in FILES:
        assert (tmp_path / name).read_bytes() == (CATALOGS / name).read_bytes()


@pytest.mark.parametrize("name", FILES)
def test_every_row_recomputes_from_its_printed_geometry(name):
    for row in printed_rows(name):
        Dwe, Lwe, Z, Dpw = (float(row[key]) for key in ("Dwe_mm", "Lwe_mm", "Z", "Dpw_mm"))
        alpha = np.radians(float(row["alpha_deg"]))
        assert basic_dynamic_rating_Cr(Dwe, Lwe, Z, Dpw, alpha) == printed(row["Cr_N"])
        assert basic_static_rating_C0r(Dwe, Lwe, Z, Dpw, alpha) == printed(row["C0r_N"])
        assert fatigue_load_limit_Cu(float(row["C0r_N"]), Dpw) == printed(row["Cu_N"])
        for figure, key in ((limiting_ratio_e, "e"), (axial_factor_Y, "Y"), (static_axial_factor_Y0, "Y0")):
            # trailing zeros are not written, so that four decimals are compared
            assert abs(figure(alpha) - float(row[key])) <= 0.5e-4 * (1 + 1e-9)


def test_dynamic_ratings_meet_iso_281_with_f_c_read_from_its_printed_table():
    # ISO 281:2007 clause 7.1 worked with Table 7 by linear interpolation, which between rows is within 0.1 %
    c = builtin()
    gamma = c.Dwe * np.cos(c.alpha) / c.Dpw
    inside = (gamma >= 0.05) & (gamma <= 0.24)
    assert np.count_nonzero(inside) > 0.99 * len(c)
    f_c = np.interp(gamma, np.arange(5, 25) / 100, [float(text) for text in F_C.split()])
    Cr = 1.1 * f_c * (c.Lwe * np.cos(c.alpha)) ** (7 / 9) * c.Z**0.75 * c.Dwe ** (29 / 27)
    assert np.allclose(c.Cr[inside], Cr[inside], rtol=0.0015)


@pytest.mark.parametrize(
    ("d", "D", "T", "least", "greatest"),
    [
        (50, 90, 21.75, 60e3, 100e3),
        (50, 110, 29.25, 95e3, 160e3),
        (100, 180, 37, 200e3, 320e3),
        (60, 95, 23, 65e3, 110e3),
    ],
    ids=lambda value: f"{value:g}",
)
def test_ratings_are_of_the_size_that_the_trade_expects(d, D, T, least, greatest):
    # common practice, no source: what single-row bearings of these boundary dimensions usually carry; the nearest
    # row of the catalogue is scaled by section, since the invented diameters are not those of ISO 355
    c = builtin()
    far = np.abs(np.log(c.d / d)) + np.abs(np.log(c.D / D)) + np.abs(np.log(c.T / T)) + 3 * (np.degrees(c.alpha) > 20)
    near = int(np.argmin(far))
    scaled = c.Cr[near] * ((D - d) * T / ((c.D[near] - c.d[near]) * c.T[near])) ** 0.9
    assert least < scaled < greatest


@pytest.mark.parametrize("name", FILES)
def test_names_are_unique_and_parts_belong_to_their_assembly(name):
    rows = printed_rows(name)
    assert len({row["designation"] for row in rows}) == len(rows)
    for row in rows:
        stem = row["designation"] if name == "metric.csv" else row["series"]
        assert row["cone"].startswith(stem) and row["cup"].startswith(stem)
        if name == "inch.csv":
            cone, cup = row["cone"].split(".")[1], row["cup"].split(".")[1]
            assert row["designation"] == f"{stem}.{cone}+{cup}"
            assert cone in "1234" and cup in "6789"


def test_sizes_of_the_range():
    metric, inch = (read(CATALOGS / name) for name in FILES)
    assert 230 <= len(metric) <= 290
    assert 200 <= len(inch) <= 240
    assert (metric.d.min(), metric.d.max()) == (20, 200)
    assert len(set(inch.series.tolist())) == 60
    steep = np.degrees(np.concatenate([metric.alpha, inch.alpha])) >= 25
    assert 0.1 < steep.mean() < 0.4


def test_inch_dimensions_are_fractions_of_an_inch_converted_exactly():
    inch = read(CATALOGS / "inch.csv")
    for values, parts in ((inch.d, 16), (inch.D, 8), (inch.T, 32), (inch.B, 32), (inch.C, 32)):
        fractions = values / 25.4 * parts
        assert np.allclose(fractions, np.round(fractions), rtol=0, atol=1e-6)


def test_every_cone_of_an_inch_series_fits_every_cup():
    inch = read(CATALOGS / "inch.csv")
    for series in set(inch.series.tolist()):
        rows = inch.take(inch.series == series)
        cones, cups = set(rows.cone.tolist()), set(rows.cup.tolist())
        assert len(rows) == len(cones) * len(cups)
        for column in (rows.Dwe, rows.Lwe, rows.Dpw, rows.Z, rows.alpha, rows.Cr):
            assert len(set(column.tolist())) == 1
        for part, columns in (("cone", ("d", "B")), ("cup", ("D", "C"))):
            for name in set(getattr(rows, part).tolist()):
                mine = rows.take(getattr(rows, part) == name)
                assert all(len(set(getattr(mine, column).tolist())) == 1 for column in columns)


def test_heat_treatments_by_bore():
    metric = read(CATALOGS / "metric.csv")
    assert set(metric.steel[metric.d < 50].tolist()) == {"case"}
    assert set(metric.steel[metric.d > 100].tolist()) == {"through"}
    band = metric.take((metric.d >= 50) & (metric.d <= 100))
    twins = {name[:-1] for name in band.designation.tolist()}
    assert len(band) == 2 * len(twins)
    assert set(read(CATALOGS / "inch.csv").steel.tolist()) == {"case"}


def test_gamma_stays_under_the_end_of_the_iso_281_table():
    c = builtin()
    assert np.all(c.Dwe * np.cos(c.alpha) / c.Dpw < 0.30)


def test_the_full_range_comes_out_of_the_same_program():
    metric, inch = invent([*range(20, 60, 3), *range(60, 320, 10)], series_per_bore=9, inch_series=421)
    assert len(metric) >= 400 and len(inch) >= 1550
    for catalogue in (metric, inch):
        assert len(set(catalogue.designation.tolist())) == len(catalogue)
        trouble = Trouble("")
        impossible_rows(catalogue, list(range(len(catalogue))), trouble)
        trouble.stop_if_any()


@settings(max_examples=30, deadline=None)
@given(n=st.integers(0, 400), seed=st.integers(0, 10_000))
def test_synthetic_rows_are_bearings_of_their_series(n, seed):
    c = synthetic(n, seed)
    assert len(c) == n == len(set(c.designation.tolist()))
    trouble = Trouble("")
    impossible_rows(c, list(range(n)), trouble)
    trouble.stop_if_any()
    assert classify(c.d, c.D, c.T, c.alpha).tolist() == c.series.tolist()


def test_synthetic_rows_come_again_for_the_same_seed_and_differ_for_another(tmp_path):
    assert synthetic(300, 7).content_hash() == synthetic(300, 7).content_hash() != synthetic(300, 8).content_hash()
    file = tmp_path / "many.csv"
    file.write_bytes(as_csv(synthetic(300, 7)))
    assert read(file).content_hash() == synthetic(300, 7).content_hash()


def test_larger_and_steeper_bearings_turn_slower():
    d = np.linspace(20, 200, 40)
    assert np.all(np.diff(limiting_speed(d, 2 * d, 0.25, 250_000)) <= 0)
    assert np.all(np.diff(limiting_speed(50, 90, np.radians(np.linspace(10, 30, 40)), 250_000)) <= 0)
    # common practice, no source: n dm of 250 000 at 14 deg; dm = 70 gives 3571 rpm, printed to 100 rpm
    assert limiting_speed(50, 90, np.radians(14.0361), 250_000) == pytest.approx(3600, abs=50)
