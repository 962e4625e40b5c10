"""Case-hardened or through-hardened, by the rules of the trade (common practice, no source).

There is nothing printed to compare with, so the rules are held to their wording: a tough core for heavy shock, for
heavy interference and for a hollow shaft under shock, a hard case for much abrasive dirt; either steel for the rest.
"""

import itertools

import numpy as np
import pytest

from engine.steel.verdict import (
    CASE_HARDENED,
    THROUGH_HARDENED,
    reasons_for_case_hardening,
    toughness_asked,
    toughness_offered,
)

# shock, heavy interference, hollow shaft, dirt: word that each reason given begins with
RULES = [
    (("none", False, False, "none"), []),
    (("moderate", False, False, "some"), []),
    (("none", False, True, "none"), []),
    (("heavy", False, False, "none"), ["heavy shock"]),
    (("none", True, False, "none"), ["heavy interference"]),
    (("moderate", False, True, "none"), ["hollow shaft"]),
    (("none", False, False, "much"), ["much abrasive dirt"]),
    (("heavy", True, True, "much"), ["heavy shock", "heavy interference", "hollow shaft", "much abrasive dirt"]),
]


@pytest.mark.parametrize(("duty", "wanted"), RULES, ids=[str(duty) for duty, _ in RULES])
def test_reasons(duty, wanted):
    reasons = reasons_for_case_hardening(*duty)
    assert [reason.partition(":")[0].startswith(word) for reason, word in zip(reasons, wanted, strict=True)] == [
        True
    ] * len(wanted)


def test_a_harsher_duty_never_loses_a_reason():
    shocks, dirts = ("none", "moderate", "heavy"), ("none", "some", "much")
    for a, b in itertools.product(itertools.product(range(3), range(2), range(2), range(3)), repeat=2):
        if all(x <= y for x, y in zip(a, b, strict=True)):
            milder, harsher = (
                set(reasons_for_case_hardening(shocks[s], bool(i), bool(h), dirts[d])) for s, i, h, d in (a, b)
            )
            assert milder <= harsher


def test_a_through_hardened_ring_suits_until_there_is_a_reason():
    offered = {"through": toughness_offered(False), "case": toughness_offered(True)}
    assert offered["through"] == THROUGH_HARDENED
    assert offered["case"] == CASE_HARDENED
    assert toughness_asked(0) <= offered["through"]
    for reasons in (1, 2, 4):
        assert offered["through"] < toughness_asked(reasons) <= offered["case"]


def test_columns_and_single_rings_agree():
    column = np.array([True, False, True])
    assert toughness_offered(column).tolist() == [float(toughness_offered(one)) for one in column]
