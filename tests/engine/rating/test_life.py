"""Basic and modified rating life, life in hours, load spectra."""

import numpy as np
import pytest
from hypothesis import given

from engine.rating.life import basic_rating_life_L10, life_in_hours, mean_load, modified_life_Lnm, spectrum_life
from tests.printed import printed
from tests.strategies import lives, numbers, spectra


# ISO 281:2007, (C/P)^(10/3) by pocket calculator
@pytest.mark.parametrize(("C", "P", "L10"), [(50_000, 10_000, "213.747"), (2, 1, "10.0794"), (7, 7, "1.0000")])
def test_basic_rating_life(C, P, L10):
    assert basic_rating_life_L10(C, P) == printed(L10)


def test_life_in_hours():
    # 213.747 million revolutions at 1000 rpm; by hand 213.747e6 / 60 000 = 3562.45
    assert life_in_hours(213.747, 1000) == printed("3562.4")
    # the slope of older textbooks: a million revolutions are 500 h at 33 1/3 rpm
    assert life_in_hours(1.0, 100 / 3) == pytest.approx(500)


def test_modified_life_by_hand():
    assert modified_life_Lnm(0.64, 1.5, 200) == pytest.approx(192)


def test_life_at_the_edges():
    assert np.isposinf(basic_rating_life_L10(1000, 0))
    assert np.isnan(basic_rating_life_L10([0, -1, 1, np.nan, 1], [1, 1, -1, 1, np.nan])).all()
    assert np.isposinf(life_in_hours([10, np.inf, np.nan, np.inf], [0, 0, 0, 5])).all()
    assert np.isnan(life_in_hours([-1, 1, np.nan], [1, -1, 1])).all()
    assert np.isposinf(modified_life_Lnm(1, 50, np.inf))
    assert np.isnan(modified_life_Lnm([1, np.nan, -1], [np.nan, 1, 1], 1)).all()


@given(numbers(1.0, 1e6), numbers(1.0, 1e6), numbers(1.0, 5.0))
def test_more_load_never_lengthens_life(C, P, more):
    assert basic_rating_life_L10(C, P * more) <= basic_rating_life_L10(C, P)


class TestMeanLoad:
    """*Machine Design* (Jindal), ch. 18, example 18-9, as worked in its open textbook companion."""

    share, n, P = [0.25, 0.5, 0.25], [1440, 1080, 720], [3000, 4000, 5000]

    def test_mean_load_of_the_book(self):
        # The book takes p = 3, the exponent of ball bearings, and prints 3954.34 N. With the 10/3 of roller bearings
        # its own sum gives 3973.91 N, 0.5 % more, since a greater exponent weighs the heavy cases more.
        book, ours = 3954.34, mean_load(self.share, self.n, self.P)
        assert ours == printed("3973.91")
        assert book < ours < book * 1.005

    def test_rating_of_the_book(self):
        # 10 000 h at the book's mean speed of 1080 rpm are 648 million revolutions; with 10/3 they take C = 27 713 N
        # where the book's p = 3 takes 34 219 N
        assert np.dot(self.share, self.n) == 1080
        assert life_in_hours(648, 1080) == printed("10000")
        assert basic_rating_life_L10(27_713, mean_load(self.share, self.n, self.P)) == pytest.approx(648, rel=1e-4)

    def test_linear_ramp_from_nothing(self):
        # exact mean of a ramp 0..P: (1/(p + 1))^(1/p) = 0.6441 for p = 10/3; handbooks round it to 2/3
        P = (np.arange(10_000) + 0.5) / 10_000
        assert mean_load(1.0, 1.0, P) == printed("0.6441")


@given(spectra())
def test_mean_load_lies_between_the_least_and_the_greatest(spectrum):
    share, n, P = spectrum
    assert P.min() * (1 - 1e-12) <= mean_load(share, n, P) <= P.max() * (1 + 1e-12)


@given(spectra(), numbers(1e3, 1e6))
def test_the_damage_sum_and_the_mean_load_tell_the_same_life(spectrum, C):
    """Palmgren-Miner: the mean load is defined as the constant load of equal damage."""
    share, n, P = spectrum
    by_damage = spectrum_life(share * n, basic_rating_life_L10(C, P))
    assert by_damage == pytest.approx(basic_rating_life_L10(C, mean_load(share, n, P)), rel=1e-9)


@given(spectra(), numbers(1e3, 1e6))
def test_splitting_a_case_in_two_halves_changes_nothing(spectrum, C):
    share, n, P = spectrum
    halved = np.append(share, share[0] / 2)
    halved[0] /= 2
    n_more, P_more = np.append(n, n[0]), np.append(P, P[0])
    life, life_more = basic_rating_life_L10(C, P), basic_rating_life_L10(C, P_more)
    assert spectrum_life(halved, life_more) == pytest.approx(spectrum_life(share, life), rel=1e-12)
    assert mean_load(halved, n_more, P_more) == pytest.approx(mean_load(share, n, P), rel=1e-12)


@given(spectra(), lives, numbers(1.0, 10.0))
def test_a_heavier_case_never_lengthens_the_life_of_the_spectrum(spectrum, C, more):
    share, _, P = spectrum
    heavier = P.copy()
    heavier[0] *= more
    before, after = (spectrum_life(share, basic_rating_life_L10(C, loads)) for loads in (P, heavier))
    assert after <= before * (1 + 1e-12)


def test_spectrum_life_by_hand():
    # half the time a life of 10, half of 30: 1/(0.05 + 1/60) = 15; shares need not sum to 1
    assert spectrum_life([[0.5, 0.5], [2, 2]], [10, 30]) == pytest.approx([15, 15])


def test_spectrum_life_at_the_edges():
    assert spectrum_life([1, 1, 0], [10, 30, 0]) == pytest.approx(15)
    assert spectrum_life([1, 1, 0], [10, 30, np.nan]) == pytest.approx(15)
    assert spectrum_life([1, 1], [10, np.inf]) == pytest.approx(20)
    assert spectrum_life([1, 1], [10, 0]) == 0
    assert np.isposinf(spectrum_life([1, 1], [np.inf, np.inf]))
    assert np.isnan(spectrum_life([[1, 1], [0, 0], [-1, 3], [np.nan, 1]], [[1, np.nan], [1, 1], [1, 1], [1, 1]])).all()
    assert np.isnan(mean_load([1, 1], [[0, 0], [-1, 5], [1, 1]], [[1, 2], [1, 2], [-1, 2]])).all()


def test_the_cases_may_lie_along_any_axis():
    share, life = np.array([[1.0], [3.0]]), np.array([[10.0, 4.0], [30.0, 2.0]])
    assert spectrum_life(share, life, axis=0) == pytest.approx(spectrum_life(share.T, life.T))
    assert mean_load(share, 1.0, life, axis=0) == pytest.approx(mean_load(share.T, 1.0, life.T))
