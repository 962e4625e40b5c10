"""The scatter of two criteria: its points, its cells, its front."""

import numpy as np

from engine.selection.scatter import Scatter, scatter
from engine.selection.screen import screen
from engine.selection.weighing import weighed_shortlist
from tests.duties import conditions, random_duty, small_catalogue


def test_points_are_the_listed_pairs():
    catalogue, duty = small_catalogue(3, 60), conditions(random_duty(3))
    listed = weighed_shortlist(catalogue, screen(catalogue, duty), duty, {"mass": 1.0, "outside": 1.0}, 40)
    drawn = scatter(catalogue, listed, duty, "mass", "outside")
    np.testing.assert_array_equal(drawn.x, catalogue.mass[listed.rows_A] + catalogue.mass[listed.rows_B])
    np.testing.assert_array_equal(drawn.y, catalogue.D[listed.rows_A] + catalogue.D[listed.rows_B])
    # weighed by just these two, the front of the picture is that of the list
    np.testing.assert_array_equal(drawn.non_dominated, listed.non_dominated)
    margin = scatter(catalogue, listed, duty, "margin", "mass")
    assert np.all((margin.x > 0) & (margin.x <= 1))


def test_cells_by_hand():
    drawn = Scatter(np.array([0.0, 1.0, 2.0, 3.9, 4.0]), np.array([10.0, 10.0, 30.0, 20.0, np.nan]), np.ones(5, bool))
    at_x, at_y = drawn.cells(4, 2)
    assert at_x.tolist() == [0, 1, 2, 3, 3] and at_y.tolist() == [0, 0, 1, 1, -1]
    assert drawn.counts(4, 2).tolist() == [[1, 1, 0, 0], [0, 0, 1, 1]]
    assert drawn.ranges() == ((0.0, 4.0), (10.0, 30.0))


def test_points_in_one_place_and_no_points():
    one = Scatter(np.full(3, 7.0), np.full(3, 2.0), np.ones(3, bool))
    assert one.counts(5, 3).sum() == 3 and one.counts(5, 3).max() == 3
    none = Scatter(np.zeros(0), np.zeros(0), np.zeros(0, bool))
    assert none.counts(5, 3).sum() == 0 and none.ranges() == ((0.0, 0.0), (0.0, 0.0))
