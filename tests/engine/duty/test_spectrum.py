"""A spectrum: merging, the equivalent load, and the cases it makes of one."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.duty.element import Element, Place
from engine.duty.machine import weights
from engine.duty.shaft import bearing_loads
from engine.duty.spectrum import Spectrum, mean_speed, merged, scaled_forces
from engine.rating.life import basic_rating_life_L10, life_in_hours, spectrum_life
from tests.printed import printed


def spectrum_of(rows, unit="-"):
    share, n, load, temperature = np.array(rows, dtype=float).T
    return Spectrum(share / share.sum(), n, load, temperature, unit)


# few different values, so that equal bins are frequent
few = st.tuples(
    st.integers(0, 5), st.sampled_from([100.0, 850.0, 1500.0]), st.sampled_from([0.0, 0.3, 1.0, 2.5]),
    st.sampled_from([np.nan, 40.0, 80.0]),
)  # fmt: skip
spectra = st.lists(few, min_size=1, max_size=40).filter(lambda rows: sum(row[0] for row in rows) > 0).map(spectrum_of)


class TestEquivalentLoad:
    """*Machine Design* (Jindal), example 18-9: 3000, 4000, 5000 N at 1440, 1080, 720 rpm, shares 1/4, 1/2, 1/4."""

    spectrum = spectrum_of([(1, 1440, 3000, np.nan), (2, 1080, 4000, np.nan), (1, 720, 5000, np.nan)], "N")

    def test_mean_speed(self):
        assert self.spectrum.mean_speed == printed("1080")

    def test_equivalent_load(self):
        # the book takes the exponent 3 of ball bearings, 3954.34 N; with 10/3 of rollers 3973.91 N (worked by hand)
        assert self.spectrum.equivalent == printed("3973.91")
        turns = self.spectrum.share * self.spectrum.n
        assert np.cbrt(np.sum(turns * self.spectrum.load**3) / turns.sum()) == printed("3954.34")

    def test_it_does_the_same_damage(self):
        lives = life_in_hours(basic_rating_life_L10(30e3, self.spectrum.load), self.spectrum.n)
        alone = life_in_hours(basic_rating_life_L10(30e3, self.spectrum.equivalent), self.spectrum.mean_speed)
        assert spectrum_life(self.spectrum.share, lives) == pytest.approx(float(alone), rel=1e-12)


@given(spectra)
def test_merging_equal_bins_changes_nothing(spectrum):
    less = merged(spectrum)
    assert less.share.sum() == pytest.approx(1)
    assert less.mean_speed == pytest.approx(spectrum.mean_speed, rel=1e-12)
    assert less.equivalent == pytest.approx(spectrum.equivalent, rel=1e-12)
    assert np.isfinite(less.share).all()
    # no two bins are equal any more, and every bin of the old one is there
    keys = [set(zip(one.n, one.load, np.nan_to_num(one.temperature, nan=-1), strict=True)) for one in (spectrum, less)]
    assert len(less) == len(keys[1])
    assert keys[0] == keys[1]


@given(spectra)
def test_merging_twice_is_merging_once(spectrum):
    once, twice = merged(spectrum), merged(merged(spectrum))
    for name in ("share", "n", "load", "temperature"):
        assert np.array_equal(getattr(once, name), getattr(twice, name), equal_nan=True)


def test_bins_keep_the_order_of_the_file():
    spectrum = spectrum_of([(1, 300, 1, 5), (1, 100, 2, 5), (2, 300, 1, 5), (1, 200, 0, 5)])
    less = merged(spectrum)
    assert less.n.tolist() == [300, 100, 200]
    assert less.share == pytest.approx([0.6, 0.2, 0.2])


@given(spectra)
def test_a_spectrum_of_one_load_is_that_load(spectrum):
    flat = Spectrum(spectrum.share, spectrum.n, np.full(len(spectrum), 7.0), spectrum.temperature)
    assert flat.equivalent == pytest.approx(7.0, rel=1e-12)


def test_scaling_a_case():
    # worked by hand: a gear force of 1 kN at 1000 rpm; 98.07 N weigh on the shaft in every bin; the unbalance of 100 N
    # is 25 N at half the speed and 400 N at twice
    shaft = [
        Element("gear", 50, F_y=1000, F_a=200),
        weights.weight(Place(50, np.pi), 10),
        Element("unbalance", 50, F_y=100, rotating=True, follows="speed"),
    ]
    spectrum = spectrum_of([(1, 500, 2.0, np.nan), (1, 2000, 0.5, np.nan)])
    forces = scaled_forces(shaft, 1000, spectrum)
    A, _ = bearing_loads(forces, 0, 100)
    assert A.R_y == pytest.approx([(2000 - 98.0665) / 2, (500 - 98.0665) / 2])
    assert A.turning == pytest.approx([12.5, 200])
    assert forces.F_a.tolist() == [400, 100]


def test_a_torque_is_no_factor():
    spectrum = spectrum_of([(1, 500, 2.0, np.nan)], "N mm")
    with pytest.raises(ValueError, match="made factors first"):
        scaled_forces([], 1000, spectrum)
    with pytest.raises(ValueError, match="above 0"):
        spectrum.factors(0)
    assert spectrum.factors(4).load.tolist() == [0.5]


@pytest.mark.filterwarnings("error")
def test_a_spectrum_that_lasts_no_time():
    assert np.isnan(mean_speed([0, 0], [10, 20]))
    assert np.isnan(mean_speed([1, -1], [10, 20]))
