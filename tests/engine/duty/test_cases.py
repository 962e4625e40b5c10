"""Load cases from typed answers: a published gear shaft to both bearings, spectra, factors, the measured file."""

import math
from typing import ClassVar

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.answers.binned import Bins
from engine.answers.document import put
from engine.answers.resolved import resolve
from engine.duty.cases import load_cases
from engine.operating import Bearings, Conditions, hours, over_spectrum, pair_loads, state
from engine.rating.life import mean_load
from tests.duties import answered, conditions
from tests.printed import printed
from tests.strategies import numbers


def column(*values):
    return np.array(values, dtype=float)[:, None]


def bearing(z, conditions, Y=1.5, e=0.4):
    """Return a bearing of round figures at a load centre."""
    cases = len(conditions.cases)
    return Bearings(
        C=column(40_000), C0=column(50_000), Cu=column(6_000), e=column(e), Y=column(Y), Y0=column(0.8), z=column(z),
        kappa=np.full((1, cases), 1.5), e_C=np.full((1, cases), 0.5), alpha=column(math.atan(0.4 / Y)),
    )  # fmt: skip


class TestGearShaft:
    """Helical gear between tapered bearings (type of *Mechanical Engineering Design* example 11-8, recalled).

    Wt = 3980, Wr = 1770, Wa = 1690 N on 200 mm, 100 mm from A and 50 mm from B, typed as a drawing says it.
    """

    beta = math.degrees(math.atan(1690 / 3980))
    alpha_n = math.degrees(math.atan(1770 / 3980 * math.cos(math.radians(beta))))
    TEXTS: ClassVar = {
        "duty.arrangement": "face to face", "duty.distance": "150 mm", "duty.cases[0].speed": "800 rpm",
        "shaft.rotation": "clockwise", "shaft.elements[0].kind": "helical gear",
        "shaft.elements[0].position": "100 mm", "shaft.elements[0].angle": "180 deg",
        "shaft.elements[0].torque": "398 N m", "shaft.elements[0].flow": "out of the shaft",
        "shaft.elements[0].diameter": "200 mm", "shaft.elements[0].hand": "left",
        "shaft.elements[0].helix_angle": f"{beta} deg", "shaft.elements[0].pressure_angle": f"{alpha_n} deg",
    }  # fmt: skip

    def test_forces_of_the_gear(self):
        ((gear,),) = conditions(answered(self.TEXTS)).cases.elements
        assert abs(gear.F_z) == printed("3980")
        assert gear.F_y == printed("1770")
        assert gear.F_a == printed("-1690")

    def test_radial_loads_of_the_bearings(self):
        A, B = load_cases(resolve(answered(self.TEXTS))).bearing_loads(column(0), column(150))
        assert A.Fr[0, 0] == printed("2169.6")
        assert B.Fr[0, 0] == printed("2653.9")
        assert (A.R_y[0, 0], abs(A.R_z[0, 0])) == (printed("1716.7"), printed("1326.7"))
        assert (B.R_y[0, 0], abs(B.R_z[0, 0])) == (printed("53.3"), printed("2653.3"))

    def test_axial_and_equivalent_loads_of_both(self):
        # the book's own induced loads follow another rule; with S = Fr / (2 Y), Y = 1.5, the same shaft worked by hand
        # gives FaA = 2574.6, FaB = 884.6 and PA = 4729.8 N
        duty = conditions(answered(self.TEXTS))
        A, B = bearing(0, duty), bearing(150, duty)
        loads = pair_loads(A, B, duty)
        assert (loads[0].Fa[0, 0], loads[1].Fa[0, 0]) == (printed("2574.6"), printed("884.6"))
        assert state(A, loads[0], duty).P[0, 0] == printed("4729.8")
        assert state(B, loads[1], duty).P[0, 0] == printed("2653.9")

    def test_in_the_other_arrangement_the_other_bearing_takes_the_thrust(self):
        duty = conditions(answered(self.TEXTS | {"duty.arrangement": "back to back"}))
        loads = pair_loads(bearing(0, duty), bearing(150, duty), duty)
        # by hand: S_A = 723.2, S_B = 884.6; B has 723.2 + 1690
        assert (loads[0].Fa[0, 0], loads[1].Fa[0, 0]) == (printed("723.2"), printed("2413.2"))


ONE = {"duty.distance": "200", "duty.cases[0].speed": "1000", "duty.cases[0].radial_y": "10 kN",
       "duty.cases[0].axial": "2 kN", "shaft.elements[0].kind": "weight", "shaft.elements[0].mass": "50",
       "shaft.elements[0].position": "100"}  # fmt: skip
GEAR = {"kind": "spur", "power": "20 kW", "diameter": "100", "position": "60"}


def measured(share, speed, level, temperature=()):
    return Bins("measured.csv", tuple(share), tuple(speed), tuple(level), tuple(temperature))


def with_bins(bins, texts=ONE):
    return put(answered(texts), "duty.cases[0].histogram", bins)


class TestSpectrum:
    def test_bins_take_the_place_of_the_one_speed_and_level(self):
        cases = load_cases(resolve(with_bins(measured([1, 3], [500, 2000], [1.0, 0.25], [80, 60]))))
        assert cases.names == ("case 1, bin 1", "case 1, bin 2")
        assert cases.share.tolist() == [0.25, 0.75]
        assert cases.n.tolist() == [500, 2000]
        assert cases.temperature.tolist() == [80, 60]
        assert cases.case_of == (0, 0)
        # 10 kN and a quarter of it, less 490.3 N of weight in either
        assert cases.forces.still[0] == pytest.approx([10_000 - 490.3325, 2500 - 490.3325])
        assert cases.K_a.tolist() == [2000, 500]

    def test_bins_share_the_time_of_their_case(self):
        texts = ONE | {"duty.cases[0].share": "40 %", "duty.cases[1].speed": "300", "duty.cases[1].radial_y": "1 kN"}
        made = put(answered(texts, 2), "duty.cases[0].histogram", measured([1, 1], [500, 900], [1, 0.5]))
        cases = load_cases(resolve(made))
        assert cases.share == pytest.approx([0.2, 0.2, 0.6])
        assert cases.case_of == (0, 0, 1)
        assert cases.names == ("case 1, bin 1", "case 1, bin 2", "case 2")

    def test_without_temperatures_the_bins_have_that_of_their_case(self):
        made = with_bins(measured([1, 1], [500, 900], [1, 0.5]), ONE | {"duty.cases[0].temperature": "88"})
        assert load_cases(resolve(made)).temperature.tolist() == [88, 88]

    def test_power_is_that_at_the_speed_of_the_case(self):
        texts = {name: text for name, text in ONE.items() if "element" not in name}
        texts |= {f"shaft.elements[0].{name}": text for name, text in GEAR.items()}
        cases = load_cases(resolve(with_bins(measured([1, 1], [250, 4000], [0.5, 1.0]), texts)))
        # 20 kW at 1000 rpm on 100 mm: 190.99 N m and 3819.7 N, by the level of the bin alone
        assert cases.forces.still[1] == pytest.approx([1909.86, 3819.72], rel=1e-5)

    def test_unbalance_grows_with_the_square_of_the_speed_of_the_bin(self):
        texts = ONE | {"shaft.elements[1].kind": "unbalance", "shaft.elements[1].mass": "5",
                       "shaft.elements[1].eccentricity": "0.1", "shaft.elements[1].position": "50"}  # fmt: skip
        cases = load_cases(resolve(with_bins(measured([1, 1], [1000, 3000], [0.1, 1.0]), texts)))
        assert cases.forces.turning[0][1] == pytest.approx(9 * cases.forces.turning[0][0])

    def test_one_bin_is_the_case_itself(self):
        plain_case, binned = (conditions(made) for made in (answered(ONE), with_bins(measured([7], [1000], [1.0]))))
        lives = []
        for duty in (plain_case, binned):
            A, B = bearing(20, duty), bearing(190, duty)
            lives.append(state(A, pair_loads(A, B, duty)[0], duty).life[0])
        assert lives[0] == lives[1]

    def test_the_fastest_and_the_hottest_bin_count_for_the_limits(self):
        resolved = resolve(with_bins(measured([1, 1], [500, 4300], [1.0, 0.0], [40, 131])))
        assert resolved.n_greatest == 4300
        assert resolved.peak_temperature == 131

    @given(st.lists(st.tuples(numbers(0.1, 5), numbers(10, 3000), numbers(0.0, 2.0)), min_size=1, max_size=8),
           st.integers(2, 5))  # fmt: skip
    def test_bins_that_are_equal_count_as_one_and_change_nothing(self, rows, times):
        share, speed, level = zip(*rows, strict=True)
        once = conditions(with_bins(measured(share, speed, level)))
        split = [s / times for s in share] * times
        often = conditions(with_bins(measured(split, speed * times, level * times)))
        assert len(often.cases) == len(once.cases) <= len(rows)
        for duty_name in ("share", "n"):
            assert getattr(often.cases, duty_name) == pytest.approx(getattr(once.cases, duty_name), rel=1e-12)
        found = []
        for duty in (once, often):
            A, B = bearing(20, duty), bearing(190, duty)
            loads = pair_loads(A, B, duty)
            found.append([state(one, load, duty).life[0] for one, load in zip((A, B), loads, strict=True)])
        assert found[0] == pytest.approx(found[1], rel=1e-12)

    def test_a_thousand_bins_and_their_equivalent_load(self):
        """Palmgren-Miner by hand over every bin: the basic life of the mean load is that of the spectrum."""
        draw = np.random.default_rng(8)
        share, speed, level = draw.uniform(0.1, 1, 1000), draw.uniform(100, 900, 1000), draw.uniform(0.05, 1.2, 1000)
        duty = conditions(with_bins(measured(share.tolist(), speed.tolist(), level.tolist())))
        assert len(duty.cases) == 1000
        A, B = bearing(20, duty), bearing(190, duty)
        of_A = state(A, pair_loads(A, B, duty)[0], duty)
        P_m = float(mean_load(duty.cases.share, duty.cases.n, of_A.P[0]))
        turns = math.fsum(q * n for q, n in zip(share / share.sum(), speed, strict=True))
        basic = over_spectrum(hours(of_A.L10, duty.cases), duty.cases)[0]
        assert basic == pytest.approx((40_000 / P_m) ** (10 / 3) * 1e6 / 60 / turns, rel=1e-9)
        by_hand = math.fsum(
            q * n * P ** (10 / 3) for q, n, P in zip(duty.cases.share, duty.cases.n, of_A.P[0], strict=True)
        ) / math.fsum(q * n for q, n in zip(duty.cases.share, duty.cases.n, strict=True))
        assert P_m == pytest.approx(by_hand ** (3 / 10), rel=1e-12)


# ISO 6336-6 Table B.1 (recalled): K_A by driver and driven machine
@pytest.mark.parametrize(
    ("driver", "driven", "K_A"),
    [("uniform", "uniform", "1.00"), ("uniform", "moderate", "1.50"), ("light", "light", "1.35"),
     ("moderate", "heavy", "2.00"), ("heavy", "uniform", "1.50"), ("heavy", "heavy", "2.25")],
)  # fmt: skip
def test_application_factor_by_driver_and_driven_machine(driver, driven, K_A):
    texts = ONE | {"duty.driver": driver, "duty.driven": driven}
    made = resolve(answered(texts))
    assert made.cases[0].level == printed(K_A)
    forces = load_cases(made).forces
    # the weight of 50 kg, 490.3 N, is not multiplied
    assert forces.still[0][0] == pytest.approx(10_000 * float(K_A) - 490.3325)
    assert forces.F_a[0] == pytest.approx(2000 * float(K_A))
    assert any("pplication factor" in str(one) for one in made.assumptions)


def test_an_application_factor_of_the_case_goes_before_that_of_the_machines():
    texts = ONE | {"duty.driver": "heavy", "duty.driven": "heavy", "duty.cases[0].application_factor": "1.1"}
    assert resolve(answered(texts)).cases[0].level == pytest.approx(1.1)
    # one of the two machines alone: the other is taken to run evenly
    assert resolve(answered(ONE | {"duty.driven": "light shocks"})).cases[0].level == printed("1.25")


def test_shock_counts_for_static_safety_alone():
    calm, shaken = (conditions(answered(ONE | more)) for more in ({}, {"duty.cases[0].shock_factor": "2.5"}))
    states = []
    for duty in (calm, shaken):
        A, B = bearing(20, duty), bearing(190, duty)
        states.append(state(A, pair_loads(A, B, duty)[0], duty))
    assert states[0].life == states[1].life
    assert states[0].s0 == pytest.approx(2.5 * states[1].s0)


def test_a_braking_case_turns_forces_but_not_weights():
    texts = {name: text for name, text in ONE.items() if "element" not in name}
    texts |= {f"shaft.elements[0].{name}": text for name, text in GEAR.items()}
    texts |= {"shaft.elements[1].kind": "weight", "shaft.elements[1].mass": "50", "shaft.elements[1].position": "100",
              "duty.cases[1].speed": "1000", "duty.cases[1].load_level": "-100 %"}  # fmt: skip
    ahead, braking = load_cases(resolve(answered(texts, 2))).elements
    by_name = [{element.name: element for element in elements} for elements in (ahead, braking)]
    assert by_name[0]["spur gear"].F_z == -by_name[1]["spur gear"].F_z
    # teeth push apart whichever flank carries
    assert by_name[0]["spur gear"].F_y == by_name[1]["spur gear"].F_y
    assert by_name[0]["weight"] == by_name[1]["weight"]


def test_empty_cases_keep_the_number_of_the_others():
    made = resolve(answered(ONE | {"duty.cases[2].speed": "400", "duty.cases[2].axial": "1 kN"}, 3))
    assert [case.number for case in made.cases] == [1, 3]


class TestWhatIsMissing:
    def missing(self, texts):
        return resolve(answered(texts)).missing

    def test_power_without_a_speed(self):
        texts = {f"shaft.elements[0].{name}": text for name, text in GEAR.items()} | {"duty.distance": "200"}
        assert self.missing(texts) == ("the speed of a load case, for the power of element 1",)
        named = texts | {"duty.cases[0].name": "idle"}
        assert self.missing(named) == ("speed of load case 1, for the power of element 1",)
        # a torque needs no speed of its own, but life does
        torque = {name: text for name, text in texts.items() if "power" not in name}
        assert self.missing(torque | {"shaft.elements[0].torque": "5 N m"}) == ("the speed of a load case",)

    def test_every_open_question_with_its_element(self):
        texts = ONE | {"shaft.elements[1].kind": "V-belt", "shaft.elements[2].name": "hub",
                       "shaft.elements[3].kind": "helical", "shaft.elements[3].position": "20",
                       "shaft.sections[0].length": "40"}  # fmt: skip
        assert self.missing(texts) == (
            "element 2 (V-belt): position along the shaft, diameter and power or torque",
            "element 3: its kind",
            "element 4 (helical gear): diameter, helix or spiral angle and power or torque",
            "diameter of step 1 of the shaft",
        )

    def test_an_element_without_an_answer_is_passed_over(self):
        made = resolve(answered(ONE | {"shaft.elements[3].kind": "weight", "shaft.elements[3].mass": "1",
                                       "shaft.elements[3].position": "0"}))  # fmt: skip
        assert not made.missing
        assert [part.z for part in made.shaft.parts] == [100, 0]


class TestSteps:
    STEPS: ClassVar = {"shaft.sections[0].length": "150", "shaft.sections[0].diameter": "60",
             "shaft.sections[1].length": "100", "shaft.sections[1].diameter": "50"}  # fmt: skip

    def test_steps_from_bearing_to_bearing_are_taken(self):
        made = resolve(answered(ONE | self.STEPS | {"shaft.start": "-30", "shaft.sections[1].bore": "20"}))
        assert (made.shaft.start, [step.bore for step in made.shaft.steps]) == (-30, [0, 20])
        assert "shaft.sections" not in {one.path for one in made.assumptions}

    def test_steps_that_do_not_reach_both_bearings_are_left_out_and_that_is_said(self):
        made = resolve(answered(ONE | {name: self.STEPS[name] for name in list(self.STEPS)[:2]}))
        assert made.shaft.steps == ()
        assert made.loads_known
        (said,) = [str(one) for one in made.assumptions if one.path == "shaft.sections"]
        assert said == (
            "Bending of the shaft: left out (its steps reach from 0 to 150 mm and not from bearing to bearing)"
        )


def test_conditions_and_load_cases_say_the_same():
    made = resolve(answered(ONE))
    assert Conditions.of(made).cases.names == load_cases(made).names
