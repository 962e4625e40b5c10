"""All that may sit on a shaft, typed as an engineer types it, against published forces; symmetry of every kind."""

import math

import numpy as np
import pytest

from engine.answers.chapters.element import KINDS, TURNING, Element
from engine.answers.contradiction import contradictions
from engine.answers.document import put, question_at, questions_of
from engine.answers.measured import Measure
from engine.answers.question import Quantity
from engine.answers.resolved import resolve
from engine.duty import onshaft
from engine.duty.cases import load_cases
from engine.operating import Conditions
from tests.duties import answered
from tests.printed import printed

POUND = 4.4482216152605
PARTS = ("F_y", "F_z", "F_a", "M_y", "M_z", "T")


def typed(texts, shaft=None, case=None):
    """Return the answers of one element on a shaft of 200 mm in one case at 1000 rpm, all of it typed."""
    paths = {"duty.distance": "200", "duty.cases[0].speed": "1000", "shaft.elements[0].position": "80"}
    paths |= {f"duty.cases[0].{name}": text for name, text in (case or {}).items()}
    paths |= {f"shaft.{name}": text for name, text in (shaft or {}).items()}
    return answered(paths | {f"shaft.elements[0].{name}": text for name, text in texts.items()})


def acting(texts, shaft=None, case=None):
    """Return what such an element puts on the shaft."""
    resolved = resolve(typed(texts, shaft, case))
    assert not resolved.missing
    (elements,) = load_cases(resolved).elements
    assert all(element.known for element in elements)
    return elements


def summed(elements):
    return np.array([sum(getattr(element, part) for element in elements) for part in PARTS])


#: One of each kind with every question answered that turns a sign.
EVERY = {
    "force": {"angle": "30", "force": "4 kN", "axial": "-300", "moment": "12 N m", "diameter": "80"},
    "spur": {"angle": "110", "power": "12 kW", "diameter": "90"},
    "helical": {"angle": "200", "torque": "90 N m", "diameter": "120", "helix_angle": "15", "hand": "left"},
    "straight_bevel": {"angle": "-40", "power": "4 kW", "diameter": "70", "cone_angle": "26", "apex": "A"},
    "spiral_bevel": {"angle": "75", "power": "9 kW", "diameter": "80", "helix_angle": "35", "cone_angle": "22",
                     "apex": "B", "hand": "right"},
    "worm": {"angle": "180", "power": "1.1 kW", "diameter": "50", "lead_angle": "18", "hand": "right",
             "friction": "0.04", "flow": "out"},
    "worm_wheel": {"angle": "90", "torque": "300 N m", "diameter": "210", "lead_angle": "18", "hand": "left",
                   "friction": "0.04"},
    "flat_belt": {"angle": "300", "power": "5 kW", "diameter": "160", "tension_ratio": "2.5", "wrap_angle": "165"},
    "v_belt": {"angle": "250", "power": "7 kW", "diameter": "140"},
    "toothed_belt": {"angle": "10", "power": "3 kW", "diameter": "110", "pull_factor": "1.2"},
    "chain": {"angle": "135", "torque": "200 N m", "diameter": "150"},
    "weight": {"mass": "40"},
    "unbalance": {"angle": "45", "mass": "20", "eccentricity": "50 um"},
    "impeller": {"angle": "60", "pressure": "4 bar", "diameter": "250", "width": "25", "ring_diameter": "120",
                 "seal_diameter": "50", "thrust": "A"},
    "ram": {"pressure": "2", "diameter": "60", "thrust": "B"},
    "screw": {"torque": "30 N m", "diameter": "30", "lead": "8", "friction": "0.1", "hand": "right"},
    "wheel": {"angle": "180", "force": "6 kN", "axial": "900", "diameter": "400", "offset": "35"},
}  # fmt: skip
each_kind = pytest.mark.parametrize("kind", EVERY)
SWAPPED = {
    "hand": {"right": "left", "left": "right"},
    "apex": {"A": "B", "B": "A"},
    "thrust": {"A": "B", "B": "A"},
}


def test_the_examples_are_of_every_kind():
    assert [*EVERY] == [kind.value for kind in KINDS]


class TestPublished:
    """The figures of handbooks (named where they are tested first, in test_mesh.py and its neighbours), typed."""

    def test_spur_gear_of_example_13_7(self):
        (gear,) = acting({"kind": "spur gear", "power": "2.5 kW", "diameter": "50"}, case={"speed": "1750"})
        assert gear.F_z / 1e3 == printed("0.546")
        assert gear.F_y / 1e3 == printed("-0.199")  # the mate meshes above and pushes down

    def test_helical_gear_of_example_13_9(self):
        texts = {"kind": "helical", "power": "1 hp", "diameter": "1.732 in", "helix_angle": "30", "hand": "right"}
        (gear,) = acting(texts, case={"speed": "1800"})
        assert (gear.F_z / POUND, gear.F_y / POUND) == (printed("40.4"), printed("-17.0"))
        assert gear.F_a / POUND == printed("-23.3")

    def test_bevel_pinion_of_example_13_8(self):
        # what is radial on the gear is axial on the pinion: 46.6 and 140 lbf
        texts = {"kind": "straight bevel", "power": "5 hp", "diameter": "2.586 in", "cone_angle": "18.4", "apex": "A"}
        (pinion,) = acting(texts, case={"speed": "600"})
        assert pinion.F_z / POUND == printed("406")
        assert pinion.F_y / POUND == pytest.approx(-140, abs=0.5)  # cone angles are printed to 0.1 deg
        assert pinion.F_a / POUND == pytest.approx(46.6, abs=0.3)

    @pytest.mark.parametrize(("hand", "axial", "radial"), [("right", "-82.5", "-8.4"), ("left", "42.8", "-71.1")])
    def test_spiral_bevel_table_at_ratio_2(self, hand, axial, radial):
        # 100 N at the pitch line; the driven pinion turns clockwise and its apex lies towards B
        texts = {"kind": "spiral bevel", "torque": "5 N m", "diameter": "100", "helix_angle": "35",
                 "cone_angle": f"{math.degrees(math.atan(0.5))}", "hand": hand}  # fmt: skip
        (pinion,) = acting(texts)
        assert pinion.F_z == printed("100")
        assert pinion.F_a == pytest.approx(float(axial), abs=0.0505)
        assert pinion.F_y == pytest.approx(float(radial), abs=0.0505)

    def test_worm_of_example_13_10_and_its_wheel(self):
        angles = {"lead_angle": "9.46", "pressure_angle": "14.5", "friction": "0.03", "hand": "right"}
        texts = {"kind": "worm", "power": "1 hp", "diameter": "2 in", "flow": "out"} | angles
        (worm,) = acting(texts, case={"speed": "1200"})
        assert worm.F_z / POUND == printed("-52.5")
        assert worm.F_y / POUND == pytest.approx(-69.6, abs=0.15)
        assert worm.F_a / POUND == pytest.approx(264, abs=0.7)  # the lead angle is printed to 0.01 deg
        (wheel,) = acting({"kind": "wheel of a worm", "torque": "660 lbf in", "diameter": "5 in"} | angles)
        assert wheel.F_z / POUND == printed("264")
        assert wheel.F_y / POUND == pytest.approx(-69.6, abs=0.1)
        assert wheel.F_a / POUND == pytest.approx(-52.5, abs=0.1)

    def test_belts_and_chain(self):
        (v_belt,) = acting({"kind": "V-belt", "power": "2 hp", "diameter": "6 in", "pull_factor": "1.5"},
                           case={"speed": "1725"})  # fmt: skip
        assert v_belt.F_y / POUND == pytest.approx(36.54, abs=0.02)  # the book rounds the torque
        (chain,) = acting({"kind": "chain", "power": "15 kW", "diameter": "152", "pull_factor": "1"})
        assert chain.F_y == pytest.approx(15e3 / 7.96, rel=1e-3)
        # example 18-6: T1 = 3.5 T2, together 447.6 N
        (flat,) = acting({"kind": "flat belt", "power": "7.5 kW", "diameter": "400", "tension_ratio": "3.5"},
                         case={"speed": "1440"})  # fmt: skip
        assert flat.F_y == printed("447.6")
        # 100 N m on 100 mm radius is 1 kN, times the usual factor 1.5 (by hand)
        (toothed,) = acting({"kind": "toothed belt", "torque": "100 N m", "diameter": "200"})
        assert toothed.F_y == printed("1500")

    def test_weight_and_unbalance(self):
        (weight,) = acting({"kind": "weight", "mass": "100"})
        assert (weight.F_y, weight.F_a) == (printed("-980.665"), 0)
        (upright,) = acting({"kind": "weight", "mass": "100"}, shaft={"tilt": "90", "lower": "A"})
        assert upright.F_a == printed("-980.665")
        (unbalance,) = acting({"kind": "unbalance", "mass": "1 oz", "eccentricity": "1 in"})
        assert unbalance.F_y / POUND == pytest.approx(1.775, abs=0.0005)
        assert unbalance.rotating
        # U_per = 9549 G m / n: 40 kg, G 6.3, 1500 rpm: 1604 g mm, so 39.6 N
        (graded,) = acting({"kind": "unbalance", "mass": "40", "balance_grade": "6.3"}, case={"speed": "1500"})
        assert graded.F_y / (math.pi * 1500 / 30) ** 2 * 1e6 == pytest.approx(1604, abs=0.5)

    def test_flows(self):
        water = 100 / 2.31  # psi of 100 ft
        texts = {
            "kind": "impeller",
            "pressure": f"{water} psi",
            "diameter": "12 in",
            "width": "2 in",
            "flow_ratio": "0",
        }
        (radial,) = acting(texts)
        assert radial.F_y / POUND == printed("374")
        _, axial = acting(texts | {"pressure": "1", "ring_diameter": "100", "seal_diameter": "40", "thrust": "A"})
        assert axial.F_a == printed("-4948")
        (ram,) = acting({"kind": "ram or extruder", "pressure": "300 bar", "diameter": "90"})
        assert ram.F_a / 1e3 == printed("190.9")

    def test_power_screw_of_example_8_1(self):
        texts = {"kind": "power screw", "torque": "15.94 N m", "diameter": "30", "lead": "8", "friction": "0.08",
                 "flow": "out", "hand": "right"}  # fmt: skip
        (screw,) = acting(texts)
        assert screw.F_a == pytest.approx(6400, abs=5)

    def test_a_plain_force_and_a_wheel(self):
        # by hand: 2 kN at 30 deg from y, and 50 N m in that plane
        (force,) = acting({"kind": "plain force", "force": "2 kN", "angle": "30", "moment": "50 N m"})
        assert (force.F_y, force.F_z) == (printed("1732.05"), printed("1000"))
        assert (force.M_y, force.M_z) == (printed("43301.3"), printed("25000"))
        # 5 kN from below, 1 kN towards B at 150 mm radius, 20 mm off the hub: moments 150 N m and 100 N m in plane y
        (wheel,) = acting({"kind": "wheel", "angle": "180", "force": "5 kN", "axial": "1 kN", "diameter": "300",
                           "offset": "20"})  # fmt: skip
        assert (wheel.F_y, wheel.F_a) == (printed("5000"), printed("1000"))
        assert wheel.M_y == printed("250000")


def mirrored_left_to_right(kind):
    """Return an element and a shaft as a mirror along the shaft shows them: angles and hands turn round."""
    texts = dict(EVERY[kind])
    if "angle" in texts:
        texts["angle"] = f"{-float(texts['angle'])}"
    if "hand" in texts:
        texts["hand"] = SWAPPED["hand"][texts["hand"]]
    return texts


@each_kind
def test_a_mirror_along_the_shaft(kind):
    """Left and right change places, so does the sense of rotation."""
    one = summed(acting({"kind": kind} | EVERY[kind]))
    other = summed(acting({"kind": kind} | mirrored_left_to_right(kind), shaft={"rotation": "counter"}))
    assert other == pytest.approx(one * [1, -1, 1, 1, -1, -1], abs=1e-9 * np.abs(one).max())


@each_kind
@pytest.mark.parametrize("tilt", ["0", "25"])
def test_a_mirror_across_the_shaft(kind, tilt):
    """A and B change places with all that sits on the shaft: their loads do, and the thrust turns round."""
    texts = {name: SWAPPED.get(name, {}).get(text, text) for name, text in EVERY[kind].items()}
    for name in ("axial", "offset", "moment"):
        if name in texts:
            texts[name] = f"-{texts[name]}".replace("--", "")
    texts["position"] = "120"
    one = load_cases(resolve(typed({"kind": kind} | EVERY[kind], {"tilt": tilt, "lower": "B"})))
    other = load_cases(resolve(typed({"kind": kind} | texts, {"tilt": tilt, "lower": "A"})))
    A, B = one.bearing_loads(np.array([[10.0]]), np.array([[180.0]]))
    B_there, A_there = other.bearing_loads(np.array([[20.0]]), np.array([[190.0]]))
    size = max(A.Fr.max(), B.Fr.max(), 1.0)
    for here, there in ((A, A_there), (B, B_there)):
        for part in ("Fr", "R_y", "R_z", "turning"):
            assert getattr(there, part) == pytest.approx(getattr(here, part), abs=1e-9 * size), part
    assert other.K_a == pytest.approx(-one.K_a, abs=1e-9 * max(size, abs(one.K_a[0])))


def test_reversing_a_helical_mesh_reverses_its_thrust_and_keeps_the_rest():
    texts = {"kind": "helical"} | EVERY["helical"] | {"angle": "0"}
    (ahead,) = acting(texts)
    for reversed_ in (acting(texts, case={"rotation": "reversed"}), acting(texts, shaft={"rotation": "counter"})):
        (gear,) = reversed_
        assert (gear.F_y, gear.F_a, gear.M_y) == (ahead.F_y, -ahead.F_a, -ahead.M_y)
        # the force along the pitch line turns round with the rotation, the radial one does not
        assert (gear.F_z, gear.T) == (-ahead.F_z, -ahead.T)
    twice = acting(texts, shaft={"rotation": "counter"}, case={"rotation": "reversed"})
    assert summed(twice) == pytest.approx(summed([ahead]))


@pytest.mark.parametrize("kind", TURNING)
def test_a_negative_load_level_turns_driver_and_driven_round(kind):
    """Braking: the same amount of torque, on the other flanks of the teeth and the other strand of the belt."""
    texts = {"kind": kind} | EVERY[kind]
    driven = "out" if texts.pop("flow", "in") == "in" else "in"
    back = "in" if driven == "out" else "out"
    braking = acting(texts | {"flow": back}, case={"load_level": "-60 %"})
    other_way = acting(texts | {"flow": driven}, case={"load_level": "60 %"})
    assert np.array_equal(summed(braking), summed(other_way))
    assert summed(braking)[-1] != 0


@each_kind
def test_level_and_application_factor_leave_weight_and_unbalance_alone(kind):
    texts = {"kind": kind} | EVERY[kind]
    one = summed(acting(texts))
    more = summed(acting(texts, case={"load_level": "80 %", "application_factor": "1.5"}))
    factor = 1.0 if kind in {"weight", "unbalance"} else 1.2
    assert more == pytest.approx(factor * one)


@each_kind
def test_every_kind_unfolds_to_what_it_puts_on_the_shaft(kind):
    for element in acting({"kind": kind} | EVERY[kind], case={"load_level": "70 %"}):
        steps = {step.symbol: step for step in element.steps}
        level = 1.0 if element.follows != "load" else steps["k"].value
        assert level == (1.0 if kind in {"weight", "unbalance"} else 0.7)
        for part in ("F_y", "F_z"):
            assert steps[part].value * level == pytest.approx(getattr(element, part))
        assert any(step.formula and step.source for step in element.steps)


@each_kind
def test_names_and_places(kind):
    (element, *_) = acting({"kind": kind, "name": "the part", "position": "-35"} | EVERY[kind])
    assert (element.name, element.z) == ("the part", -35)
    nameless = acting({"kind": kind} | EVERY[kind])[0]
    assert nameless.name == question_at("shaft.elements[0].kind").show(kind)


def test_an_unbalance_of_a_shaft_that_stands_is_nothing():
    resolved = resolve(typed({"kind": "unbalance", "mass": "5"}, case={"speed": "0"}))
    assert onshaft.elements(resolved.shaft, resolved.cases[0]) == ()


def test_a_worm_that_friction_locks_is_said_to_be_unknown():
    texts = EVERY["worm"] | {"kind": "worm", "lead_angle": "3", "friction": "0.2", "flow": "in", "name": "screw jack"}
    conditions = Conditions.of(resolve(typed(texts)))
    assert any(
        "forces of screw jack: friction locks it; accepted: a larger lead angle" in missing
        for missing in conditions.resolved.missing
    )


@each_kind
def test_every_figure_at_its_bounds_gives_forces_or_is_named(kind):
    texts = {"kind": kind} | EVERY[kind]
    twins = {"power": "torque", "torque": "power", "eccentricity": "balance_grade", "balance_grade": "eccentricity"}
    for name, question in questions_of(Element).items():
        if not isinstance(question, Measure) or not question.only_if or kind not in question.only_if[1]:
            continue
        if twins.get(name) in texts:
            continue
        for bound in (question.least, question.greatest):
            answers = put(typed(texts), f"shaft.elements[0].{name}", Quantity(bound))
            if any(f"elements[0].{name}" in one.path for one in contradictions(answers)):
                continue
            missing = Conditions.of(resolve(answers)).resolved.missing
            assert all("accepted: a " in one for one in missing), (name, bound, missing)


@pytest.mark.parametrize("kind", TURNING)
def test_a_diameter_of_nothing_is_refused_by_name_with_what_is_accepted(kind):
    (found,) = contradictions(typed({"kind": kind} | EVERY[kind] | {"diameter": "0"}))
    assert found.path == "shaft.elements[0].diameter"
    assert "0 mm" in found.wrong and found.accepted == "above 0, up to 20 000 mm"


def test_forces_of_the_case_itself_stand_beside_the_elements():
    elements = acting({"kind": "spur", "power": "5 kW", "diameter": "60"},
                      case={"radial_y": "1 kN", "axial": "200", "position": "30", "load_level": "50 %"})  # fmt: skip
    assert [element.name for element in elements] == ["spur gear", "forces of the case"]
    own = elements[-1]
    assert (own.z, own.F_y, own.F_a) == (30, 500, 100)
    assert {step.symbol: step.value for step in own.steps} == {"k": 0.5, "F_y": 1000, "F_a": 200}
