"""The study of a pair: its system carries the duty, its fits are those of the tables, its chain and band agree."""

from dataclasses import replace

import numpy as np
import pytest

from engine.answers.chapters.shaft import Section
from engine.answers.document import put, question_at, with_items
from engine.checks import bending
from engine.distribution.setting_chain import chain, service_range
from engine.operating import Bearings, pair_loads
from engine.setting.mounting import chained
from engine.setting.study import at_setting, study
from engine.setting.system import NotComputed, films, on_rollers
from engine.warmth.settling import loaded
from tests.duties import answered, conditions
from tests.engine.setting.pairs import DUTY, STRAIGHT, duty, rows
from tests.printed import printed

A, B, STEEP = rows(50.0, 4), rows(45.0, 4), rows(50.0, 6)


@pytest.fixture(scope="module")
def made():
    return study(A, B, duty())


def moments(side, zone):
    """Return force times load centre plus moment of a zone, both planes: what it takes of the moments about z = 0."""
    return np.stack([zone.force[..., 3] + side * zone.force[..., 0], zone.force[..., 4] + side * zone.force[..., 1]])


def test_both_bearings_together_carry_the_duty(made):
    """Statics: forces and moments about A's reference plane, in every case."""
    F_y, F_z, M_y, M_z = made.conditions.cases.forces.still
    one, other = made.at.zones
    size = np.linalg.norm([F_y, F_z, made.conditions.cases.K_a], axis=0)
    off = (one.force + other.force)[:, :3].T - [F_y, F_z, made.conditions.cases.K_a]
    assert np.all(np.abs(off) < 1e-8 * size)
    z = made.rollers.system.z
    carried = moments(z[0], one) + moments(z[1], other)
    assert np.all(np.abs(carried - [M_y, M_z]) < 1e-8 * size * (z[1] - z[0]))
    # the cups stand askew by the default, and the balance holds at every setting of the curve
    assert made.conditions.resolved.setting.misalignment == pytest.approx(np.radians(0.01))
    for found in (made.at.solution, made.curve.solution):
        assert np.all(found.residual < 1e-8) and np.all(found.energy_residual < 1e-8)


def test_radial_loads_are_those_of_the_closed_formulas_but_for_what_tilting_takes(made):
    bearings = Bearings.of(A, "A", made.conditions), Bearings.of(B, "B", made.conditions)
    for zone, loads in zip(made.at.zones, pair_loads(*bearings, made.conditions), strict=True):
        assert zone.Fr == pytest.approx(loads.Fr[0], rel=0.05)


def test_a_case_without_load_has_a_place_and_takes_no_life():
    idle = study(A, B, with_idle_case(), drawing=False)
    assert np.all(idle.at.zones[0].Fr[1] < 1e-3 * idle.at.zones[0].Fr[0])
    alone = study(A, B, duty(), drawing=False)
    assert idle.at.basic[0] > alone.at.basic[0]


def with_idle_case():
    return conditions(answered({
        "duty.distance": "160", "duty.life": "8000", "duty.cases[0].speed": "900", "duty.cases[0].share": "50",
        "duty.cases[0].radial_y": "9 kN", "duty.cases[1].speed": "900", "duty.cases[1].radial_y": "0",
    }, 2))  # fmt: skip


@pytest.mark.parametrize(
    ("why", "texts"),
    [
        ("paired units", {"duty__locating": "unit_a"}),
        ("not yet known", {"duty__distance": None}),
        ("no load case turns", {"duty__cases[0]__speed": "0", "duty__cases[1]__speed": "0"}),
        ("load centres", {"duty__distance": "5", "duty__arrangement": "face_to_face"}),
    ],
)
def test_what_is_not_computed_is_named(why, texts):
    given = {path.replace("__", "."): text for path, text in texts.items()}
    kept = {path: text for path, text in (DUTY | given).items() if text is not None}
    with pytest.raises(NotComputed, match=why):
        study(STEEP, STEEP, conditions(answered(kept, 2)))


def test_a_catalogue_that_says_too_little_is_named():
    bare = replace(A, Lwe=np.array([np.nan]))
    with pytest.raises(NotComputed, match="rollers"):
        study(bare, B, duty())


# the shaft


STEPS = {
    "shaft.start": "-40",
    "shaft.sections[0].length": "240",
    "shaft.sections[0].diameter": "42",
}


def on_steps(**texts):

    answers = with_items(answered(DUTY | STRAIGHT, 2), "shaft.sections", (Section(),))
    for path, text in (STEPS | {key.replace("__", "."): text for key, text in texts.items()}).items():
        answers = put(answers, path, question_at(path).parse(text))
    return conditions(answers)


def test_free_slopes_are_those_of_the_check_of_bending():
    given = on_steps()
    pair = on_rollers(A, B, given)
    z_A, z_B = (Bearings.of(rows, side, given).z[:, 0] for side, rows in (("A", A), ("B", B)))
    at_A, at_B = bending.slopes(z_A, z_B, given)
    free = pair.spectrum.free
    assert np.hypot(free[:, 0], free[:, 2]) == pytest.approx(at_A[0])
    assert np.hypot(free[:, 1], free[:, 3]) == pytest.approx(at_B[0])


def test_a_bending_shaft_and_cups_askew_press_on_the_ends():
    straight, bent = study(A, B, duty(**{"setting__misalignment": "0"}), False), study(A, B, on_steps(), False)
    askew = study(A, B, on_steps(setting__misalignment="0.05"), False)
    assert straight.at.zones[0].p_edge[0] < bent.at.zones[0].p_edge[0] < askew.at.zones[0].p_edge[0]
    assert askew.best[1] < straight.best[1]


# seats and chain


def test_fits_are_those_of_the_tables(made):
    """ISO 286: m6 at 50 mm is +25 to +9 um; ISO 492 Normal: the bore 0 to -12 um; DIN 7190: smoothing 0.8 (Rz + Rz)."""
    shaft = made.chained.cones[0]
    assert shaft.name == "m6"
    smoothing = 0.8 * (0.0025 + 0.0016)
    assert shaft.mean + smoothing == printed("0.0230")
    # by the root of the sum of both tolerances squared: 16 and 12 um, halved
    assert shaft.half == printed("0.0100")


def test_the_parts_have_the_answered_temperatures(made):
    T = made.chained.nominal
    assert (T.T_cone, T.T_shaft, T.T_cup, T.T_housing) == (74.0, 69.0, 66.0, 61.0)
    assert made.chained.temperature == 70.0


def test_a_temperature_that_settles_is_that_of_the_closed_formulas(made):
    given = duty(lubrication__temperature_by="settled")
    warmth = loaded(Bearings.of(A, "A", given), Bearings.of(B, "B", given), given).warmth
    settled = study(A, B, given, False)
    mean = float(np.sum(given.cases.share * (warmth.T[0] + warmth.T[1])[0]) / 2)
    assert settled.chained.temperature == pytest.approx(mean)
    assert settled.at.modified[0] != pytest.approx(made.at.modified[0])


def test_left_open_the_setting_in_service_is_the_middle_of_the_band(made):
    assert made.service == pytest.approx(sum(made.band) / 2, abs=1e-9)
    assert made.band[0] < made.best[0] < made.band[1]
    ends = np.interp(made.band, made.curve.setting, made.life)
    assert ends == pytest.approx(0.9 * made.best[1], rel=0.01)


def test_an_answered_bench_setting_goes_through_the_chain():
    play = study(A, B, duty(setting__aim="end_play", setting__amount="0.002 in"), False)
    assert play.bench == pytest.approx(0.0508)
    again = chain(play.chained.mounting, replace(play.chained.nominal, bench=0.0508))
    assert play.service == again.service
    tight = study(A, B, duty(setting__aim="preload", setting__amount="0.01"), False)
    assert tight.bench == -0.01
    assert play.service - tight.service == pytest.approx(0.0608)


def test_a_ground_spacer_loses_the_fits_afterwards():
    """Ring growth over tan(alpha), both bearings: what the seats squeeze is lost where loose rings are measured."""
    spacer = study(A, B, duty(setting__method="spacer", setting__aim="end_play", setting__amount="0.1"), False)
    nut = study(A, B, duty(setting__aim="end_play", setting__amount="0.1"), False)
    lost = sum(
        max(cone.mean, 0.0) * seats.cone_ratio / (2 * np.tan(one.alpha))
        + max(cup.mean, 0.0) * seats.cup_ratio / (2 * np.tan(one.alpha))
        for cone, cup, seats, one in zip(
            spacer.chained.cones, spacer.chained.cups, spacer.chained.mounting.seats, spacer.rollers.system.rollers,
            strict=True,
        )
    )  # fmt: skip
    assert float(spacer.chain.mounted) == pytest.approx(0.1 - lost)
    assert float(nut.chain.mounted) == pytest.approx(0.1)


def test_the_bench_band_leads_into_the_band():
    """Where the scatter of fits and temperatures leaves room: its ends, with that scatter, are the ends of the band."""
    still = study(A, B, duty(setting__temperatures_within="0", setting__keeps="60"), False)
    low, high = still.bench_band
    quiet = replace(still.chained.half, bench=0.0)
    for end, wanted, side in ((low, still.band[0], 0), (high, still.band[1], 1)):
        reach = service_range(still.chained.mounting, replace(still.chained.nominal, bench=end), quiet)
        assert reach.rss[side] == pytest.approx(wanted, abs=1e-9)


def test_settings_far_out_are_on_the_curve():
    loose = study(A, B, duty(setting__aim="end_play", setting__amount="0.6"), False)
    assert loose.curve.setting[-1] >= loose.reach.worst[1]
    assert loose.at.modified.min() < 0.9 * loose.best[1]


# chances


def test_the_same_study_twice_is_the_same(made):
    again = study(A, B, duty())
    assert again.draws.survival == made.draws.survival
    assert np.array_equal(again.draws.setting, made.draws.setting)
    assert len(made.draws.setting) == 10_000


def test_draws_lie_in_the_worst_range_and_mostly_in_the_probable_one(made):
    settings = made.draws.setting
    assert made.reach.worst[0] <= settings.min() and settings.max() <= made.reach.worst[1]
    inside = np.mean((settings > made.reach.rss[0]) & (settings < made.reach.rss[1]))
    # three standard deviations of a normal distribution: 99.73 %, and a little more where each part is cut off there
    assert 0.997 <= inside < 1.0


def test_a_warmer_draw_has_the_film_of_a_duty_answered_that_much_warmer():
    warm = films(A, B, duty(), np.array([0.0, 15.0]))
    for film, one, side in zip(warm, (A, B), "AB", strict=True):
        for shift, answer in enumerate(("70", "85")):
            there = Bearings.of(one, side, duty(lubrication__temperature=answer))
            assert film.kappa[shift] == pytest.approx(there.kappa[0])
            assert film.e_C[shift] == pytest.approx(there.e_C[0])


def test_drawn_temperatures_move_the_film():
    """Where nothing else scatters and the setting hardly matters, cooler draws live longer than the warmest."""
    still = {"setting__tolerance": "0", "setting__load_within": "0"}
    steady, moved = (study(A, B, duty(**still, setting__temperatures_within=K)).draws for K in ("0", "10"))
    near = np.abs(moved.setting - np.median(steady.setting)) < 0.002
    assert near.sum() > 100
    assert np.ptp(moved.modified[near]) > 5 * np.ptp(moved.life[near]) / np.mean(moved.life) * np.mean(moved.modified)


def test_work_is_told_and_can_be_ended():
    told = []
    study(A, B, duty(), tick=told.append)
    assert told == sorted(told) and told[-1] == 1.0 and len(told) > 5

    class EnoughError(Exception):
        pass

    def stop(share):
        if share > 0.4:
            raise EnoughError

    with pytest.raises(EnoughError):
        study(A, B, duty(), tick=stop)


def test_peaks_of_the_cases_count_for_the_pressure():
    still = study(A, B, duty(), False)
    shaken = study(A, B, duty(**{"duty__cases[0]__shock_factor": "2"}), False)
    assert shaken.at.p_peak[0][0] > 1.2 * still.at.p_peak[0][0]
    assert shaken.at.p_peak[0][1] == pytest.approx(still.at.p_peak[0][1], rel=1e-6)
    assert shaken.at.modified == pytest.approx(still.at.modified)


def test_cups_stand_as_askew_under_peaks_as_under_loads_that_are_as_great_all_the_time():
    wide = {"setting__misalignment": "0.1", "duty__cases[0]__speed": "900"}
    shaken = study(A, B, duty(**wide, **{"duty__cases[0]__shock_factor": "2"}), False)
    doubled = study(A, B, duty(**wide, **{"duty__cases[0]__radial_y": "18 kN", "duty__cases[0]__axial": "4 kN"}), False)
    steady = at_setting(doubled, shaken.service)
    for side in (0, 1):
        assert shaken.at.p_peak[side][0] == pytest.approx(steady.at.zones[side].p_max[0], rel=1e-6)


def test_a_chain_needs_nothing_of_the_curve():
    pair = on_rollers(A, B, duty())
    parts = chained(A, B, pair.system.rollers, duty())
    assert parts.half.bench == 0.025 and parts.nominal.bench == 0.0
