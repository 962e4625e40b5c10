"""Answers made complete, with every assumption said."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.answers.chapters.duty import LoadCase
from engine.answers.document import Answers, all_asked, put, question_at, with_items
from engine.answers.question import Quantity
from engine.answers.resolved import resolve
from tests.duties import answered as typed_by_path
from tests.engine.answers.typed import answers


def answered(**texts: str) -> Answers:
    """Return answers typed by path, with `__` for the dots and a leading `case1_` for a load case."""
    cases = {int(name[4]) for name in texts if name.startswith("case")}
    made = with_items(Answers(), "duty.cases", tuple(LoadCase() for _ in range(max(cases, default=1))))
    for name, text in texts.items():
        path = f"duty.cases[{int(name[4]) - 1}].{name[6:]}" if name.startswith("case") else name.replace("__", ".")
        made = put(made, path, question_at(path).parse(text))
    return made


def full(**texts: str) -> Answers:
    return answered(**{"duty__distance": "150", "case1_speed": "500", "case1_radial_y": "4 kN"} | texts)


def assumed(made: Answers) -> dict[str, str]:
    return {assumption.path: assumption.shown for assumption in resolve(made).assumptions}


def test_nothing_answered_misses_the_loads_and_assumes_the_rest():
    resolved = resolve(Answers())
    assert resolved.missing == ("a load case with its speed and a force", "distance between the bearings")
    assert not resolved.loads_known
    assert resolved.cases == ()
    # every question with a default is assumed, and none twice; load cases that are not there assume nothing
    with_default = {item.path for item in all_asked(Answers()) if item.question.default is not None and not item.listed}
    paths = [assumption.path for assumption in resolved.assumptions]
    assert len(set(paths)) == len(paths)
    assert {path for path in with_default if path != "choice.rank_by" and not path.startswith("shaft.")} <= set(paths)


def test_what_was_answered_is_not_assumed():
    assert "lubrication.supply" in assumed(full())
    assert "lubrication.supply" not in assumed(full(lubrication__supply="oil bath"))


def test_an_assumption_is_one_line_with_its_reason():
    lines = [str(assumption) for assumption in resolve(full()).assumptions]
    assert "Required life: 20 000 h (common for industrial machines in one shift; common practice, no source)" in lines
    assert "Load case 1, radial force, plane z: 0 N (no force in this plane)" in lines
    assert "Load case 1, position of the radial force: 75 mm (the middle between the bearings)" in lines


@pytest.mark.parametrize(
    ("texts", "missing"),
    [
        ({"case1_speed": "500", "case1_axial": "1 kN"}, ("distance between the bearings",)),
        ({"duty__distance": "150", "case1_axial": "1 kN"}, ("speed of load case 1",)),
        ({"duty__distance": "150", "case1_speed": "500"}, ("a force of load case 1",)),
        (
            {"duty__distance": "150", "case1_speed": "5", "case1_axial": "1", "case2_share": "5"},
            ("speed of load case 2", "a force of load case 2"),
        ),
    ],
)
def test_what_is_missing_is_said(texts, missing):
    resolved = resolve(answered(**texts))
    assert resolved.missing == missing
    assert not resolved.loads_known


def test_an_empty_load_case_beside_a_full_one_is_passed_over():
    resolved = resolve(full(case3_speed="100", case3_axial="10"))
    assert resolved.missing == ()
    assert [case.name for case in resolved.cases] == ["case 1", "case 3"]
    assert [case.share for case in resolved.cases] == [0.5, 0.5]


# shares of time by the rule of the question: open ones split what is left, and the sum is scaled to the whole
SHARES = [
    ([None], [1.0], ""),
    ([None, None], [0.5, 0.5], ""),
    (["40 %", None, None], [0.4, 0.3, 0.3], ""),
    (["25", "75"], [0.25, 0.75], ""),
    (["30", "30"], [0.5, 0.5], "scaled to 100 % from 60 %"),
    # more than the whole is refused, and is not said to be scaled beside that
    (["100", "100"], [0.5, 0.5], ""),
    (["80", "80", None], [0.5, 0.5, 0.0], ""),
    (["100", None], [1.0, 0.0], ""),
    (["0", "0"], [0.0, 0.0], ""),
    (["0", None], [0.0, 1.0], ""),
]


@pytest.mark.parametrize(("typed", "shares", "said"), SHARES, ids=[str(case[0]) for case in SHARES])
def test_shares_of_time(typed, shares, said):
    texts = {}
    for number, share in enumerate(typed, 1):
        texts |= {f"case{number}_speed": "100", f"case{number}_axial": "10"} | (
            {f"case{number}_share": share} if share else {}
        )
    resolved = resolve(answered(duty__distance="150", **texts))
    assert [case.share for case in resolved.cases] == pytest.approx(shares, abs=1e-12)
    scaled = [assumption.shown for assumption in resolved.assumptions if assumption.path == "duty.cases"]
    assert scaled == ([said] if said else [])
    split = [a.path for a in resolved.assumptions if a.path.endswith("].share")]
    assert len(split) == typed.count(None)


@given(st.lists(st.one_of(st.none(), st.floats(0, 100)), min_size=1, max_size=8))
def test_shares_are_a_whole_or_nothing(shares):
    cases = tuple(
        LoadCase(speed=Quantity(10.0), axial=Quantity(1.0), share=None if share is None else Quantity(share))
        for share in shares
    )
    resolved = resolve(with_items(put(Answers(), "duty.distance", Quantity(100.0)), "duty.cases", cases))
    total = sum(case.share for case in resolved.cases)
    nothing = all(share == 0 for share in shares)
    assert total == pytest.approx(0.0 if nothing else 1.0, abs=1e-9)
    assert all(0 <= case.share <= 1 for case in resolved.cases)


@pytest.mark.parametrize(
    ("towards", "factor", "K_a"),
    [("B", "1", 800.0), ("A", "1", -800.0), (None, "1", 800.0), ("A", "1.5", -1200.0), ("towards B", "2", 1600.0)],
)
def test_the_side_of_the_thrust_is_its_sign(towards, factor, K_a):
    texts = {"case1_axial": "800 N", "case1_application_factor": factor}
    resolved = resolve(full(**texts | ({"case1_axial_towards": towards} if towards else {})))
    assert resolved.cases[0].K_a == K_a
    assert ("duty.cases[0].axial_towards" in [a.path for a in resolved.assumptions]) == (towards is None)


def test_no_side_is_assumed_for_a_thrust_that_is_not_there():
    assert "duty.cases[0].axial_towards" not in assumed(full())
    assert "duty.cases[0].axial_towards" not in assumed(full(case1_axial="0"))


def test_the_application_factor_multiplies_the_forces_and_not_the_place():
    case = resolve(full(case1_radial_z="-1 kN", case1_position="-20", case1_application_factor="1.25")).cases[0]
    assert (case.F_y, case.F_z, case.position, case.n) == (5000.0, -1250.0, -20.0, 500.0)


@pytest.mark.parametrize(("shock", "s0"), [(None, 1.5), ("none", 1.5), ("moderate", 2.0), ("heavy", 3.0)])
def test_static_safety_follows_the_shock(shock, s0):
    resolved = resolve(full(**({"steel__shock": shock} if shock else {})))
    assert resolved.static_safety == s0
    assert "duty.static_safety" in [a.path for a in resolved.assumptions]


def test_static_safety_that_was_answered_stands_whatever_the_shock():
    made = full(steel__shock="heavy", duty__static_safety="1.2")
    assert resolve(made).static_safety == 1.2
    assert "duty.static_safety" not in assumed(made)


def test_the_fastest_is_the_fastest_case_or_the_overspeed_if_that_is_more():
    two = {"case2_speed": "900", "case2_axial": "1"}
    assert resolve(full(**two)).n_greatest == 900
    assert resolve(full(**two, speed__overspeed="1200")).n_greatest == 1200
    assert resolve(full(**two, speed__overspeed="600")).n_greatest == 900
    assert resolve(answered(speed__overspeed="600")).n_greatest == 600
    assert resolve(Answers()).n_greatest is None


def test_peak_temperature_is_the_operating_one_unless_answered():
    assert resolve(full(lubrication__temperature="95")).peak_temperature == 95
    assert resolve(full(steel__peak_temperature="140")).peak_temperature == 140


def test_two_measured_viscosities_make_the_grade_needless():
    made = full(lubrication__nu40="100 cSt", lubrication__nu100="11 cSt")
    assert "lubrication.grade" not in assumed(made)
    assert "lubrication.vi" not in assumed(made)
    assert "lubrication.vi" in assumed(full(lubrication__nu40="100 cSt"))
    assert "lubrication.grade" in assumed(full(lubrication__nu100="11 cSt"))


def test_percent_becomes_a_fraction():
    assert resolve(full(duty__reliability="95 %")).reliability == 0.95


@given(answers())
def test_any_answers_can_be_resolved(made):
    resolved = resolve(made)
    assert resolved.loads_known == (not resolved.missing)
    assert all(str(assumption) for assumption in resolved.assumptions)
    # what was answered is never said to be assumed
    open_ones = {item.path for item in all_asked(made) if item.value is None}
    assert {a.path for a in resolved.assumptions} <= open_ones | {"duty.cases", "shaft.sections"}


def test_level_and_factor_multiply_the_forces_and_peaks_only_the_static_load():
    texts = {
        "duty.distance": "200",
        "duty.cases[0].speed": "100",
        "duty.cases[0].radial_y": "10 kN",
        "duty.cases[0].axial": "2 kN",
        "duty.cases[0].load_level": "-50 %",
        "duty.cases[0].application_factor": "1.5",
        "duty.cases[0].shock_factor": "3",
        "duty.cases[0].rotation": "reversed",
        "duty.cases[0].temperature": "95",
    }
    (case,) = resolve(typed_by_path(texts)).cases
    assert (case.F_y, case.K_a) == (-7500.0, -1500.0)
    assert (case.level, case.sense, case.shock, case.temperature) == (-0.75, -1.0, 3.0, 95.0)
