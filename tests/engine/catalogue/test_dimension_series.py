"""Dimension series against the boundary rows of ISO 355."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.catalogue.dimension_series import classify, diameter_ratio, width_ratio
from engine.catalogue.read import builtin
from tests.engine.catalogue.published_rows import ROWS
from tests.printed import printed

IDS = [f"ISO 355, row {d} x {D} x {T}, {series}" for d, D, T, _B, _C, _alpha, series, _r1, _r2 in ROWS]
COLUMNS = np.array([[float(cell) for cell in row[:6]] for row in ROWS]).T


def test_all_ninety_published_rows_are_here():
    assert len(ROWS) == 90


@pytest.mark.parametrize("row", ROWS, ids=IDS)
def test_published_row_falls_into_its_stated_series(row):
    d, D, T, _B, _C, alpha = map(float, row[:6])
    assert classify(d, D, T, np.radians(alpha)) == row[6]
    assert diameter_ratio(d, D) == printed(row[7])
    assert width_ratio(d, D, T) == printed(row[8])


def test_a_column_gives_what_each_of_its_rows_gives():
    d, D, T, _B, _C, alpha = COLUMNS
    together = classify(d, D, T, np.radians(alpha))
    assert together.tolist() == [row[6] for row in ROWS]
    one_by_one = [float(diameter_ratio(*pair)) for pair in zip(d, D, strict=True)]
    assert diameter_ratio(d, D).tolist() == one_by_one


@pytest.mark.parametrize(
    ("degrees", "minutes", "digit"),
    [
        (10, 1, "2"),
        (13, 52, "2"),
        (13, 53, "3"),
        (15, 59, "3"),
        (16, 0, "4"),
        (18, 55, "4"),
        (23, 0, "5"),
        (27, 0, "6"),
        (30, 0, "7"),
    ],
    ids="ISO 355 angle series, {0}".format,
)
def test_an_angle_on_a_limit_belongs_to_the_class_that_the_limit_closes(degrees, minutes, digit):
    assert str(classify(50, 90, 21.75, np.radians(degrees + minutes / 60)))[0] == digit


@pytest.mark.parametrize(
    ("d", "D", "T", "alpha"),
    [
        (50, 90, 21.75, 10),
        (50, 90, 21.75, 30.1),
        (50, 60, 8, 15),
        (50, 160, 40, 15),
        (50, 90, 40, 15),
        (50, 50, 20, 15),
        (0, 90, 20, 15),
        (np.nan, 90, 20, 15),
    ],
)
def test_outside_every_class_there_is_no_series(d, D, T, alpha):
    assert classify(d, D, T, np.radians(alpha)) == ""


@settings(max_examples=100)
@given(scale=st.floats(1.0, 1.2), row=st.integers(0, len(ROWS) - 1))
def test_a_wider_bearing_of_the_same_diameters_never_falls_into_a_narrower_series(scale, row):
    d, D, T, _B, _C, alpha = COLUMNS[:, row]
    wider = str(classify(d, D, T * scale, np.radians(alpha)))
    assert wider == "" or wider[2] >= ROWS[row][6][2]


def test_the_invented_metric_rows_classify_to_their_stated_series():
    metric = builtin().take(builtin().system == "metric")
    assert len(metric) > 200
    assert classify(metric.d, metric.D, metric.T, metric.alpha).tolist() == metric.series.tolist()
    in_name = [name.split("-")[1] for name in metric.designation.tolist()]
    assert in_name == metric.series.tolist()
