"""The slope of the shaft at the seats, from typed steps to the caution, against the beam tables of handbooks."""

import math

import numpy as np
import pytest

from engine.answers.resolved import resolve
from engine.checks import bending
from engine.checks.every import evaluate
from engine.operating import Bearings, Conditions
from engine.record.result import compute
from tests.duties import answered, small_catalogue

#: A shaft of one diameter, loaded between its bearings; its own angle shares the force out to both planes.
TEXTS = {
    "duty.distance": "400", "duty.arrangement": "face to face", "duty.cases[0].speed": "200",
    "shaft.start": "-50", "shaft.sections[0].length": "500", "shaft.sections[0].diameter": "40",
    "shaft.sections[0].bore": "10", "shaft.elements[0].kind": "plain force", "shaft.elements[0].force": "6 kN",
    "shaft.elements[0].angle": "30", "shaft.elements[0].position": "150",
}  # fmt: skip


@pytest.fixture(scope="module")
def rows():
    catalogue = small_catalogue(5, 12)
    return catalogue, catalogue.take(np.arange(11, -1, -1))


def outcomes(rows, texts):
    return {(one.check.key, one.side): one for one in evaluate(*rows, Conditions.of(resolve(answered(texts)))).outcomes}


def by_table(z_A, z_B, at, F, E=206_000.0):
    """Return both slopes [minutes of arc]: F b (L^2 - b^2) / (6 L E I) at A, with a for b at B (any handbook)."""
    L, a, b = z_B - z_A, at - z_A, z_B - at
    EI = E * math.pi / 64 * (40**4 - 10**4)
    return tuple(math.degrees(F * c * (L**2 - c**2) / (6 * L * EI)) * 60 for c in (b, a))


def test_slopes_of_every_pair_by_the_beam_table(rows):
    duty = Conditions.of(resolve(answered(TEXTS)))
    z_A, z_B = (Bearings.of(one, side, duty).z[:, 0] for one, side in zip(rows, "AB", strict=True))
    found = outcomes(rows, TEXTS)
    for at, (A, B) in enumerate(zip(z_A, z_B, strict=True)):
        expected = by_table(A, B, 150, 6000)
        assert found["misalignment", "A"].demand[at] == pytest.approx(expected[0], rel=1e-9)
        assert found["misalignment", "B"].demand[at] == pytest.approx(expected[1], rel=1e-9)


def test_the_worst_case_counts_and_a_stiffer_material_bends_less(rows):
    two = TEXTS | {"duty.cases[1].speed": "200", "duty.cases[1].load_level": "150 %"}
    one, both = outcomes(rows, TEXTS), outcomes(rows, two | {"shaft.modulus": "412 GPa"})
    assert both["misalignment", "A"].demand == pytest.approx(0.75 * one["misalignment", "A"].demand)


def test_what_turns_with_the_shaft_is_left_out(rows):
    turning = {"shaft.elements[1].kind": "unbalance", "shaft.elements[1].mass": "50",
               "shaft.elements[1].eccentricity": "5", "shaft.elements[1].position": "200"}  # fmt: skip
    still = outcomes(rows, TEXTS)["misalignment", "A"].demand
    assert outcomes(rows, TEXTS | turning)["misalignment", "A"].demand == pytest.approx(still)


def test_it_cautions_and_rules_no_pair_out(rows):
    slender = TEXTS | {"shaft.sections[0].diameter": "22", "shaft.sections[0].bore": "0"}
    found = outcomes(rows, slender)
    assert found["misalignment", "A"].check.advisory
    assert not found["misalignment", "A"].passes.any()
    with_steps = evaluate(*rows, Conditions.of(resolve(answered(slender)))).passes
    without = {name: text for name, text in slender.items() if "sections" not in name}
    assert np.array_equal(with_steps, evaluate(*rows, Conditions.of(resolve(answered(without)))).passes)
    result = compute(rows[0].take([0]), rows[1].take([0]), Conditions.of(resolve(answered(slender))))
    assert any(caution.startswith("Cone stands straight in the cup at A") for caution in result.cautions)


def test_the_limit_in_minutes_of_arc():
    # common practice: 0.0005 rad, which is 1.72 minutes of arc
    assert pytest.approx(1.7189, abs=1e-4) == 0.0005 * bending.MINUTES


@pytest.mark.parametrize("without", ["steps", "forces", "reach"])
def test_without_steps_or_forces_it_is_left_out(rows, without):
    texts = {
        "steps": {name: text for name, text in TEXTS.items() if "sections" not in name},
        "forces": TEXTS | {"shaft.elements[0].force": "0"},
        "reach": TEXTS | {"shaft.sections[0].length": "250"},
    }[without]
    found = outcomes(rows, texts)
    if without == "forces":
        assert found["misalignment", "A"].demand == pytest.approx(0)
    else:
        assert ("misalignment", "A") not in found
