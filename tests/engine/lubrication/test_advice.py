"""Advice, against trying every choice by hand."""

import numpy as np
import pytest
from hypothesis import given

from engine.lubrication.advice import GRADES, Change, dirtiest, grade_for_kappa, oil_called_for, thinnest, why_oil
from engine.lubrication.cleanliness import LEVELS
from engine.lubrication.contamination import e_C_of
from engine.lubrication.heat import Cooling, losses, settle
from engine.lubrication.viscosity import kinematic_viscosity_full
from engine.lubrication.viscosity_index import nu100_of_index
from engine.lubrication.viscosity_ratio import reference_viscosity_nu1, viscosity_ratio_kappa
from engine.rating.modified_life import a_iso
from tests.strategies import numbers


def test_grade_by_an_example_of_the_chart():
    # ISO 281's charts (recalled; nu1 14.2 mm2/s at 1000 rpm and Dpw 100 mm): at 70 deg C VG 46 has about 14.6 mm2/s and
    # just does; at 80 deg C it takes VG 68
    assert grade_for_kappa(1.0, [70.0, 80.0], reference_viscosity_nu1(1000, 100), 95).tolist() == [46, 68]


@given(numbers(0.1, 4.0), numbers(20.0, 110.0), numbers(1.0, 500.0), numbers(60.0, 180.0))
def test_the_thinnest_that_does(wanted, T, nu1, VI):
    kappa = [float(kinematic_viscosity_full(T, VG, nu100_of_index(VG, VI))) / nu1 for VG in GRADES]
    enough = [VG for VG, here in zip(GRADES, kappa, strict=True) if here >= wanted]
    found = grade_for_kappa(wanted, T, nu1, VI)
    assert found == enough[0] if enough else np.isnan(found)


def test_with_the_temperature_that_each_grade_settles_at():
    # a thicker oil runs hotter, which takes back a part of what it gains
    def kappa(VG):
        nu100 = nu100_of_index(VG, 95)
        found = settle(losses(4.5, 70.0, 5000.0, 1500.0), Cooling(20.0, area=1e5), VG, nu100)
        return viscosity_ratio_kappa(found.nu, reference_viscosity_nu1(1500, 70))

    found = thinnest(kappa, 1.5)
    assert kappa(float(found)) >= 1.5 > kappa(GRADES[GRADES.index(int(found)) - 1])
    assert np.isnan(thinnest(kappa, 1e6))


def test_the_dirtiest_that_lives_long_enough():
    kappa, Dpw, Cu, P = 1.5, 80.0, np.array([5e3, 2e4, 100.0]), 1e4

    def life(level):
        return 1000 * a_iso(kappa, e_C_of("bath", level, kappa, Dpw), Cu, P)

    wanted = 500.0
    found = dirtiest(life, np.full(3, wanted))
    for at in range(3):
        good = [place for place, level in enumerate(LEVELS) if life(level)[at] >= wanted]
        assert found[at] == max(good) if good else np.isnan(found[at])
    assert np.isnan(found).any() and not np.isnan(found).all()


def test_oil_in_place_of_grease():
    # n, n_grease, T, T_grease, interval
    cases = [(1000, 3000, 60, 120, 2000), (4000, 3000, 130, 120, 100), (1000, np.nan, np.nan, 120, 2000)]
    assert oil_called_for(*np.array(cases, dtype=float).T).tolist() == [0, 3, 1]
    for case, count in zip(cases, (0, 3, 1), strict=True):
        assert len(why_oil(*case)) == count
    assert "no temperature settles" in why_oil(*cases[2])[0]


def test_changes():
    assert Change.of_grade(220.0, 0.6, 1.0) == Change(
        "lubrication.grade", "220", "kappa rises from 0.60 to 1 or more with VG 220"
    )
    assert Change.of_grade(220.0, 1.2, 1.0) is None and Change.of_grade(np.nan, 0.6, 1.0) is None
    assert Change.of_cleanliness(1.0, 3000, 8000).value == "normal"
    assert Change.of_cleanliness(1.0, 9000, 8000) is None and Change.of_cleanliness(np.nan, 3000, 8000) is None
    assert Change.of_supply(("hot", "fast")).why == "hot; fast"
    assert Change.of_supply(()) is None


@pytest.mark.parametrize("path", ["grade", "cleanliness", "supply"])
def test_the_answers_that_are_changed_are_asked(path):
    from engine.answers.chapters.lubrication import Lubrication

    assert path in Lubrication.__struct_fields__
