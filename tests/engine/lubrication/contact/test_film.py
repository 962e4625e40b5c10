"""Line-contact film, lambda, and lambda beside kappa."""

import numpy as np
import pytest
from hypothesis import given

from engine.catalogue.read import builtin
from engine.lubrication.contact import film, rollers
from engine.lubrication.contact.state import OilAt, Sizes, film_of
from engine.lubrication.viscosity_ratio import reference_viscosity_nu1, viscosity_ratio_kappa
from tests.engine.lubrication.contact.line_contact import by_itself
from tests.printed import printed
from tests.strategies import numbers

# eta 0.02 Pa s, alpha 2.2e-8 1/Pa, E' 226 GPa, R 10 mm, 1e5 N/m, 5 m/s, evaluated apart from this code from the
# formula of Pan and Hamrock (1989)
U, G, W = 4.4248e-11, 4972.0, 4.4248e-5


#: Steel and oils over what roller bearings see: U, G, W.
CASES = np.array([
    (1e-11, 5000, 2e-5), (1e-11, 5000, 1e-4), (5e-11, 5000, 1e-4), (5e-11, 5000, 3e-5), (2e-11, 3000, 5e-5),
    (2e-11, 7000, 5e-5), (6.895e-11, 5016, 2.056e-4),
])  # fmt: skip


def dowson_H(U, G, W):
    """Return the film by the older formula of Dowson, 1968 (recalled), which the engine does not use."""
    return 2.65 * U**0.7 * G**0.54 * W**-0.13


def test_the_film_of_a_case():
    assert 10e3 * film.minimum_film_H(U, G, W) == printed("0.5072")  # [um]


def test_the_film_is_that_of_reynolds_equation_with_the_elastic_gap():
    """A numerical solution that holds no film formula; by the formula's authors it fits theirs within some percent."""
    films, *finer = by_itself((CASES, 121), (CASES[:2], 161), (CASES[:2], 221))
    assert film.minimum_film_H(*CASES.T) == pytest.approx(films, rel=0.07)
    # as its nodes become more it settles
    coarse, fine, finest = films[:2], *finer
    assert (np.abs(finest - fine) < np.abs(fine - coarse)).all()
    assert finest == pytest.approx(fine, rel=0.015)
    assert film.minimum_film_H(*CASES[:2].T) == pytest.approx(finest, rel=0.035)


def test_the_film_is_near_that_of_another_published_formula():
    assert film.minimum_film_H(*CASES.T) == pytest.approx(dowson_H(*CASES.T), rel=0.09)


def test_its_parameters():
    # E' here is 206 GPa/(1 - 0.3^2) = 226.4 GPa, 0.17 % above the case's 226
    found = film.dimensionless(20.0, 0.022, 5000.0, 10.0, 100.0)
    assert found == pytest.approx((U, G, W), rel=2e-3)


def test_parameters_of_a_worked_example():
    # Hamrock, Lubrication of machine elements (NASA, 1984), cylindrical roller bearing (recalled): 4800 N on a roller
    # of 16 mm, R 6.4 mm, eta 0.01 Pa s, 2.2e-8 m2/N, E' 228 GPa: U 6.895e-11, G 5016, W 2.056e-4; E' here is 0.7 % less
    E = 228e3 / film.E_STEEL
    found = film.dimensionless(10.0, 0.022, 10_061.0, 6.4, 4800 / 16)
    assert found[0] / E == printed("6.895e-11")
    assert found[1] * E == printed("5016")
    assert found[2] / E == printed("2.056e-4")


def test_film_of_that_worked_example():
    # the example goes on with the formula for elliptical contacts, 3.63 U^0.68 G^0.49 W^-0.073 (1 - exp(-0.68 k)), to
    # H = 50.5e-6 and h = 0.32 um (recalled); of a line contact without its side flow the film is a little thicker
    example = 6.895e-11, 5016.0, 2.056e-4
    for formula in (film.minimum_film_H, dowson_H):
        assert 0.32 <= 6.4e3 * formula(*example) <= 1.25 * 0.32


def test_roughness_and_lambda():
    assert film.combined_roughness(0.3e-3, 0.4e-3) == pytest.approx(0.5e-3)
    assert film.film_ratio_lambda(0.5e-3, 0.25e-3) == pytest.approx(2.0)
    # ISO/TR 1281-2 equation (57): kappa = lambda^1.3
    assert film.kappa_of_lambda(2.0) == printed("2.462")
    assert film.kappa_of_lambda([0, 1]).tolist() == [0, 1]
    assert np.isnan(film.film_ratio_lambda([1, -1], [0, 1])).all()
    assert np.isnan(film.combined_roughness(-1, 1)) and np.isnan(film.kappa_of_lambda(-1))


def test_where_they_disagree():
    assert film.disagreement([1, 1, 1, 4], [1, 2, 0.5, 3]).tolist() == [0, 1, -1, 0]
    assert np.isnan(film.disagreement(-1, 1))


@pytest.fixture(scope="module")
def sizes():
    c = builtin()
    return Sizes(*(getattr(c, name)[:, None] for name in ("Z", "Dwe", "Lwe", "Dpw", "alpha")))


def test_kappa_1_is_what_its_definition_says(sizes):
    """ISO 281: kappa = 1 is the viscosity for an adequate film; ISO/TR 1281-2: that is lambda = 1."""
    n = np.array([[100.0, 500.0, 1500.0, 3000.0]])
    nu1 = reference_viscosity_nu1(n, sizes.Dpw)
    kappa = viscosity_ratio_kappa(nu1, nu1)
    assert (kappa == 1).all()
    # Outside check of the film by the standard's own statement: a mineral oil of just nu1, at the load of a life of
    # about 2000 million revolutions, in bearings of common roughness. nu1 is one line for all sizes and kinds of
    # bearing, so that the films scatter by a factor of 2.5 about it.
    Q = rollers.roller_load_Q(1000 * sizes.Dpw, 300 * sizes.Dpw, sizes.alpha, sizes.Z) * 0.1
    Rq = film.combined_roughness(film.ROUGHNESS_RACEWAY, film.ROUGHNESS_ROLLER)
    found = film_of(sizes, Q, n, OilAt(70.0, nu1, 880.0, "mineral"), kappa, Rq)
    assert (np.abs(np.log(np.median(found.lam, axis=0))) < np.log(1.6)).all()
    assert (found.h_cone < found.h_cup).all()
    assert np.mean(found.said == 0) > 0.6


def test_a_film_that_disagrees_says_so(sizes):
    args = sizes, 2000.0, 1000.0, OilAt(70.0, 30.0, 880.0, "mineral")
    assert (film_of(*args, 2.0, 5e-3).said == -1).all()  # rough surfaces: thinner than kappa says
    assert (film_of(*args, 2.0, 0.005e-3).said == 1).all()
    assert (film_of(*args[:2], 0.0, args[3], 0.0, 1e-4).h_cone == 0).all()  # at rest
    assert np.isinf(film_of(sizes, 0.0, *args[2:], 2.0, 1e-4).h_cone).all()  # no load


@given(numbers(1e-13, 1e-9), numbers(500, 8000), numbers(1e-6, 1e-3), numbers(1.0, 10.0))
def test_speed_helps_and_load_hurts(U, G, W, more):
    assert film.minimum_film_H(U * more, G, W) >= film.minimum_film_H(U, G, W) >= film.minimum_film_H(U, G, W * more)
    # both formulas tell the same story, far from where either was found too
    assert 0.6 < film.minimum_film_H(U, G, W) / dowson_H(U, G, W) < 1.7


def test_outside():
    assert np.isnan(film.minimum_film_H([-1, 1, 1, np.nan], [1, 0, 1, 1], [1, 1, -1, 1])).all()
    assert np.isnan(film.dimensionless(1, 1, 1, 0, 1)[0])
