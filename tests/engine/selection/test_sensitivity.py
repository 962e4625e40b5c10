"""The tornado against the same duty typed anew with other figures, and against a second calculation by hand."""

import math

import pytest

from engine.answers.document import get, put, question_at
from engine.answers.question import Quantity
from engine.distribution.life_curve import lives
from engine.distribution.pair_system import solve
from engine.operating import Bearings, Conditions
from engine.selection import sensitivity
from engine.selection.sensitivity import tornado
from engine.selection.stages.blocks import SearchCancelled
from engine.selection.verdict import verdict
from engine.setting.study import study
from engine.setting.system import NotComputed
from tests.duties import answered, conditions, random_duty, small_catalogue
from tests.engine.selection import one_pair

TEXTS = {
    "duty.distance": "210 mm", "duty.life": "9000 h", "lubrication.temperature": "65",
    "duty.arrangement": "back_to_back",
    "duty.cases[0].speed": "640", "duty.cases[0].radial_y": "11 kN", "duty.cases[0].radial_z": "-3 kN",
    "duty.cases[0].axial": "4 kN", "duty.cases[0].position": "70", "duty.cases[0].share": "60",
    "duty.cases[1].speed": "250", "duty.cases[1].radial_y": "18 kN", "duty.cases[1].position": "150",
}  # fmt: skip
FORCES = ("radial_y", "radial_z", "axial")


def with_factor(answers, paths, factor):
    for path in paths:
        value = get(answers, path)
        if value is not None:
            answers = put(answers, path, Quantity(value.value * factor))
    return answers


PATHS = {
    "load": [f"duty.cases[{at}].{force}" for at in (0, 1) for force in FORCES],
    "speed": [f"duty.cases[{at}].speed" for at in (0, 1)],
    "distance": ["duty.distance"],
    "temperature": ["lubrication.temperature"],
    "life": ["duty.life"],
}


def bars_of(told):
    return {bar.input.key: bar for bar in told.bars}


@pytest.mark.parametrize("row", [3, 17, 40])
@pytest.mark.parametrize("key", PATHS)
def test_each_end_is_the_duty_typed_anew(row, key):
    catalogue, answers = small_catalogue(9, 60), answered(TEXTS, cases=2)
    bar = bars_of(tornado(catalogue, row, row, answers))[key]
    for end, factor in ((bar.less, 0.9), (bar.more, 1.1)):
        again = verdict(catalogue.take([row]), catalogue.take([row]), with_factor(answers, PATHS[key], factor))
        assert end.utilisation == pytest.approx(again.utilisation, rel=1e-12)
        assert end.passes == again.passes
        assert end.governing.key == again.governing.key


@pytest.mark.parametrize("row", [3, 17, 40])
def test_the_margin_under_other_loads_is_that_of_a_second_calculation(row):
    """Against one_pair.py, plain Python over the printed formulas; the speed limit is read off the catalogue."""
    catalogue, answers = small_catalogue(9, 60), answered(TEXTS, cases=2)
    bar = bars_of(tornado(catalogue, row, row, answers))["load"]
    names = ("a", "T", "e", "Y", "Y0", "Cr", "C0r", "Cu", "Dpw")
    bearing = {name: float(getattr(catalogue, name)[row]) for name in names}
    for end, factor in ((bar.less, 0.9), (bar.more, 1.1)):
        duty = conditions(with_factor(answers, PATHS["load"], factor))
        resolved = duty.resolved
        life_A, life_B, s_A, s_B, p_A, p_B, k_A, k_B, *_ = one_pair.lives_and_safety(
            bearing, bearing, resolved, float(duty.nu[0]), duty.a1
        )
        both = ((1 / life_A) ** (9 / 8) + (1 / life_B) ** (9 / 8)) ** (8 / 9)
        used = [resolved.life * both, resolved.static_safety / min(s_A, s_B), max(p_A, p_B) / 0.5, 0.1 / min(k_A, k_B),
                640 / float(catalogue.n_grease[row])]  # fmt: skip
        assert end.utilisation == pytest.approx(max(used), rel=1e-9)


def test_cleanliness_goes_by_whole_classes():
    catalogue, answers = small_catalogue(9, 60), answered(TEXTS | {"lubrication.cleanliness": "normal"}, cases=2)
    bar = bars_of(tornado(catalogue, 3, 3, answers))["cleanliness"]
    pair = catalogue.take([3]), catalogue.take([3])
    assert bar.less.utilisation == verdict(*pair, put(answers, "lubrication.cleanliness", "high")).utilisation
    assert bar.more.utilisation == verdict(*pair, put(answers, "lubrication.cleanliness", "slight")).utilisation
    cleanest = put(answers, "lubrication.cleanliness", "high")
    assert bars_of(tornado(catalogue, 3, 3, cleanest))["cleanliness"].less is None


@pytest.mark.parametrize("seed", range(10))
def test_the_bars_stand_by_length_and_start_where_the_pair_stands(seed):
    catalogue, answers = small_catalogue(seed, 40), random_duty(seed)
    told = tornado(catalogue, 5, 12, answers)
    assert told.stands.utilisation == verdict(catalogue.take([5]), catalogue.take([12]), answers).utilisation
    swings = [bar.swing(told.stands) for bar in told.bars]
    assert swings == sorted(swings, reverse=True) and not any(map(math.isnan, swings))
    assert {"temperature", "life"} <= set(bars_of(told))
    for bar in told.bars:
        verdicts = {end.passes for end in (bar.less, bar.more) if end is not None}
        assert bar.turns(told.stands) == (verdicts != {told.stands.passes})


def test_more_load_and_more_life_wanted_never_add_margin():
    for seed in range(10):
        bars = bars_of(tornado(small_catalogue(seed, 40), 5, 12, random_duty(seed)))
        for key in ("load", "life"):
            assert bars[key].more.utilisation >= bars[key].less.utilisation


def test_a_figure_out_of_bounds_is_no_end():
    answers = answered(TEXTS | {"duty.distance": "5 mm"}, cases=2)
    bar = bars_of(tornado(small_catalogue(9, 60), 3, 3, answers))["distance"]
    assert bar.less is None and bar.more is not None


def set_otherwise(answers, row=3, share=0.1):
    """Return the tornado with the setting, and its bar."""
    catalogue = small_catalogue(9, 60)
    told = sensitivity.with_setting(tornado(catalogue, row, row, answers), catalogue, row, row, answers, share)
    return told, bars_of(told)["setting"]


def test_the_ends_of_the_setting_are_the_rollers_brought_to_rest_there():
    """Against the pair on its rollers solved at the moved setting, and the lives of both joined by hand."""
    answers = answered(TEXTS, cases=2)
    told, bar = set_otherwise(answers)
    row = small_catalogue(9, 60).take([3])
    made = study(row, row, conditions(answers), drawing=False)
    low, high = made.band
    for end, by in ((bar.less, -0.1), (bar.own, 0.0), (bar.more, 0.1)):
        spectrum = made.rollers.spectrum
        rest = solve(made.rollers.system, spectrum.loads, made.service + by * (high - low), spectrum.slopes())
        _, (life_A, life_B) = lives((rest.zone("A"), rest.zone("B")), spectrum)
        used_by_life = 9000 * (life_A ** -(9 / 8) + life_B ** -(9 / 8)) ** (8 / 9)
        p = max(float(rest.zone(side).p_max.max()) for side in "AB")
        used = [used_by_life, p / (4000 / math.sqrt(conditions(answers).resolved.static_safety)),
                abs(made.service + by * (high - low) - (low + high) / 2) / ((high - low) / 2)]  # fmt: skip
        assert end.utilisation == pytest.approx(max(used), rel=1e-6, abs=1e-9)
    assert bar.swing(told.stands) == pytest.approx(
        max(end.utilisation for end in (bar.less, bar.own, bar.more))
        - min(end.utilisation for end in (bar.less, bar.own, bar.more))
    )


def test_a_pair_set_farther_off_loses_more():
    """In the middle of its band a pair uses least; the farther a tenth is off, the more it uses."""
    answers = answered(TEXTS, cases=2)
    near, far = (set_otherwise(answers, share=share)[1] for share in (0.1, 0.45))
    assert far.less.utilisation >= near.less.utilisation and far.more.utilisation >= near.more.utilisation
    assert near.own.utilisation == far.own.utilisation


def test_where_the_setting_cannot_be_studied_its_bar_says_why(monkeypatch):
    def none(*_, **__):
        raise NotComputed("the rollers find no rest")

    monkeypatch.setattr("engine.selection.stages.other_setting.study", none)
    told, bar = set_otherwise(answered(TEXTS, cases=2))
    assert (bar.less, bar.more, bar.why) == (None, None, "the rollers find no rest")
    assert told.bars[-1] is bar and bar.swing(told.stands) == 0.0 and not bar.turns(told.stands)


def test_the_setting_can_be_cancelled_and_is_left_out_without_loads():
    catalogue, answers = small_catalogue(9, 60), answered(TEXTS, cases=2)
    told = tornado(catalogue, 3, 3, answers)
    with pytest.raises(SearchCancelled):
        sensitivity.with_setting(told, catalogue, 3, 3, answers, cancelled=lambda: True)
    assert sensitivity.with_setting(told, catalogue, 3, 3, answered({"duty.life": "500"})) is told


def test_other_inputs_can_be_asked_for():
    """An input of one's own: the oil's viscosity at the operating temperature."""
    import dataclasses

    def thinner(answers, factor):
        known = conditions(answers)
        return dataclasses.replace(known, nu=known.nu * factor)

    one = sensitivity.Input("nu", "Viscosity", "at the operating temperature", thinner)
    catalogue, answers = small_catalogue(9, 60), answered(TEXTS, cases=2)
    told = tornado(catalogue, 3, 3, answers, inputs=(one,))
    kappa = [Bearings.of(catalogue.take([3]), "A", thinner(answers, f)).kappa.min() for f in (0.9, 1.1)]
    assert kappa[1] / kappa[0] == pytest.approx(1.1 / 0.9)
    assert told.bars[0].less.utilisation > told.stands.utilisation > told.bars[0].more.utilisation


def test_it_can_be_cancelled_and_tells_how_far_it_is():
    catalogue, answers, shares = small_catalogue(9, 60), answered(TEXTS, cases=2), []
    tornado(catalogue, 3, 3, answers, progress=lambda _, share: shares.append(share))
    assert shares == sorted(shares) and shares[-1] == 1.0
    with pytest.raises(SearchCancelled):
        tornado(catalogue, 3, 3, answers, cancelled=lambda: True)


def test_without_loads_only_what_is_known_is_varied():
    answers = answered({"duty.life": "500"})
    told = tornado(small_catalogue(9, 60), 3, 3, answers)
    assert {"load", "speed", "distance"}.isdisjoint(bars_of(told))
    assert isinstance(conditions(answers), Conditions) and question_at("duty.life")
