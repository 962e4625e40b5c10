"""Whether torques on a shaft are in balance, worked by hand: T [N m] = 9549 P [kW] / n [rpm] (handbooks)."""

import pytest

from engine.answers.document import put
from engine.answers.resolved import resolve
from engine.duty.machine.torque import balance, steps
from engine.operating import Conditions
from engine.record.loads import of_duty
from tests.duties import answered


def typed(*elements, cases=({"speed": "100"},)):
    """Return the conditions of elements on a shaft of 400 mm, in cases."""
    paths = {"duty.distance": "400"}
    for at, case in enumerate(cases):
        paths |= {f"duty.cases[{at}].{name}": text for name, text in case.items()}
    for at, element in enumerate(elements):
        whole = {"position": str(100 + 50 * at)} | element
        paths |= {f"shaft.elements[{at}].{name}": text for name, text in whole.items()}
    return Conditions.of(resolve(answered(paths, len(cases))))


def gear(power, flow, kind="spur"):
    return {"kind": kind, "power": f"{power} kW", "diameter": "200", "flow": flow}


def test_what_runs_in_and_what_runs_out():
    (found,) = of_duty.balances(typed(gear(11, "in"), gear(33, "out", "chain")))
    assert found.into == pytest.approx(9549e3 * 11 / 100, rel=1e-4)
    assert found.out == pytest.approx(9549e3 * 33 / 100, rel=1e-4)
    assert [step.value for step in steps(found)] == [found.into, found.out, found.into - found.out]
    (said,) = of_duty.cautions(typed(gear(11, "in"), gear(33, "out", "chain")))
    assert said.startswith("Load case 1: torque is OUT OF BALANCE by 2101 N m: 1050 N m into the shaft, 3151 N m out")


@pytest.mark.parametrize(("rotation", "sense"), [("clockwise", "ahead"), ("counter", "ahead"), ("counter", "reversed")])
def test_in_is_in_whichever_way_the_shaft_turns(rotation, sense):
    texts = {"duty.distance": "400", "duty.cases[0].speed": "100", "duty.cases[0].rotation": sense}
    texts |= {f"shaft.elements[0].{name}": text for name, text in ({"position": "9"} | gear(10, "in")).items()}
    conditions = Conditions.of(resolve(put(answered(texts), "shaft.rotation", rotation)))
    (found,) = of_duty.balances(conditions)
    assert found.into == pytest.approx(954.9e3, rel=1e-4) and found.out == 0
    assert found.said.startswith("torque runs into the shaft only, 954.9 N m; the rest leaves by what is not described")


@pytest.mark.parametrize(
    ("elements", "says"),
    [
        ((gear(10, "in"), gear(10, "out")), ""),
        # 2 % is the tolerance: rounded powers
        ((gear(10, "in"), gear(9.85, "out")), ""),
        ((gear(10, "in"), gear(9.7, "out")), "OUT OF BALANCE by 28.65 N m"),
        ((gear(10, "in"), gear(4, "out"), gear(6, "out", "chain")), ""),
        ((gear(10, "out", "v_belt"),), "the rest comes in by what is not described"),
        ((gear(10, "in"), gear(5, "in")), "into the shaft only, 1432 N m"),
        (({"kind": "weight", "mass": "40"},), ""),
        ((gear(10, "in"), gear(4, "out"), {"kind": "impeller", "pressure": "4 bar", "diameter": "250", "width": "25"}),
         "the rest, 573 N m, leaves by what is not described, such as the impeller"),
        (({"kind": "screw", "power": "10 kW", "diameter": "40", "lead": "8", "flow": "out"}, gear(10, "in")), ""),
    ],
)  # fmt: skip
def test_each_finding(elements, says):
    said = of_duty.cautions(typed(*elements))
    assert len(said) == bool(says)
    assert says in "".join(said)


def test_a_torque_beside_a_power_is_in_balance_at_one_speed_only():
    elements = (gear(10, "in"), {"kind": "chain", "torque": "954.93 N m", "diameter": "200", "flow": "out"})
    conditions = typed(*elements, cases=({"speed": "100"}, {"speed": "50"}, {"speed": "200"}))
    (said,) = of_duty.cautions(conditions)
    assert said.startswith("Load cases 2 and 3, the most in case 2: torque is OUT OF BALANCE by 954.9 N m")


def test_nothing_carried_is_in_balance():
    found = balance((), 1.0)
    assert found.holds and not found.carried and not found.said and steps(found) == ()
