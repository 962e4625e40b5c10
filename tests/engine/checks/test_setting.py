"""Checks of the setting: what binds, what cautions, and that each says what the study holds."""

from dataclasses import replace

import pytest

from engine.checks import setting
from engine.setting.study import study
from tests.engine.setting.pairs import duty, rows
from tests.printed import printed

A, B = rows(50.0, 4), rows(45.0, 4)


@pytest.fixture(scope="module")
def made():
    return study(A, B, duty())


def of(made, key):
    """Return the outcomes of a check by side."""
    return {one.side: one for one in setting.outcomes(made) if one.check.key == key}


def test_what_binds_comes_first_and_what_cautions_after_it(made):
    found = setting.outcomes(made)
    binding = [one.check.key for one in found if not one.check.advisory]
    assert binding == ["setting_band", "distribution_life", "distribution_pressure", "distribution_pressure"]
    cautions = {one.check.key for one in found if one.check.advisory}
    assert cautions == {"setting_range", "edge_pressure", "load_zone", "runaway", "chance"}
    keys = [(one.check.key, one.side) for one in found]
    assert len(set(keys)) == len(keys)


def test_a_setting_out_of_the_band_fails_and_one_inside_passes(made):
    for bench, passes in ((made.bench, True), (made.bench + 0.3, False), (made.bench - 0.15, False)):
        aim = "end_play" if bench > 0 else "preload"
        found = study(A, B, duty(setting__aim=aim, setting__amount=f"{abs(bench):.6f}"), False)
        (one,) = of(found, "setting_band").values()
        assert bool(one.passes) == (found.band[0] <= found.service <= found.band[1]) == passes


def test_the_life_is_that_of_the_pair_or_of_each():
    pair = study(A, B, duty(duty__life_of="pair"), False)
    assert set(of(pair, "distribution_life")) == {"pair"}
    each = study(A, B, duty(duty__life_of="each"), False)
    found = of(each, "distribution_life")
    assert [float(found[side].capacity) for side in "AB"] == each.at.modified.tolist()
    assert float(of(pair, "distribution_life")["pair"].capacity) < min(each.at.modified)
    long = study(A, B, duty(duty__life="900000"), False)
    assert not of(long, "distribution_life")["pair"].passes


def test_pressure_may_reach_4000_MPa_over_the_root_of_the_static_safety():
    """ISO 76: the static rating is the load of 4000 MPa at the heaviest loaded roller, s0 = 1.5 a third less load."""
    found = of(study(A, B, duty(duty__static_safety="1.5"), False), "distribution_pressure")
    assert float(found["A"].capacity) == printed("3266")
    plain = study(A, B, duty(duty__static_safety="1.0"), False)
    assert float(of(plain, "distribution_pressure")["B"].capacity) == printed("4000")
    assert float(of(plain, "distribution_pressure")["A"].demand) == plain.at.zones[0].p_max.max()


def test_under_the_static_rating_the_pressure_is_that_of_the_static_rating():
    """Half the rollers loaded evenly by C0r: 4000 MPa by ISO 76, less what the unloaded half of a real zone spares."""
    one = rows(50.0, 4)
    load = f"{float(one.C0r[0]):.0f}"
    both = study(one, one, duty(
        duty__distance="200", **{"duty.cases[0].radial_y": f"{2 * float(load):.0f}", "duty.cases[0].axial": "0",
        "setting.aim": "end_play", "setting.misalignment": "0", "setting.cone_over_cup": "0",
        "fits.cone_hotter": "0", "fits.cup_hotter": "0"}), False)  # fmt: skip
    assert both.at.zones[0].p_max[0] == pytest.approx(4000.0, rel=0.1)


def test_a_wide_range_only_cautions(made):
    (exact,) = of(made, "setting_range").values()
    (one,) = of(study(A, B, duty(setting__tolerance="0.1"), False), "setting_range").values()
    assert exact.passes and not one.passes and one.check.advisory
    assert float(one.capacity) == float(exact.capacity)


def test_end_play_shrinks_the_load_zone_below_a_third_of_the_circle():
    loose = study(A, B, duty(setting__aim="end_play", setting__amount="0.5"), False)
    found = of(loose, "load_zone")
    assert not all(one.passes for one in found.values())
    assert all(one.check.advisory for one in found.values())


def test_the_chance_cautions_until_it_is_asked_for(made):
    (one,) = of(made, "chance").values()
    assert one.check.advisory and float(one.demand) == 0.9
    assert float(one.capacity) == made.draws.survival
    (asked,) = of(study(A, B, duty(setting__chance="99.5")), "chance").values()
    assert not asked.check.advisory and float(asked.demand) == 0.995


def test_gain_below_nought_is_none():
    made = study(A, B, duty(), False)
    away = replace(made, gains=made.gains * 0.0 - 0.4)
    assert float(of(away, "runaway")["pair"].demand) == 0.0
    assert not of(replace(made, gains=made.gains * 0.0 + 1.2), "runaway")["pair"].passes
    assert of(replace(made, gains=made.gains * 0.0 + 0.9), "runaway")["pair"].passes
