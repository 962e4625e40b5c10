"""Answers that cannot stand beside one another."""

import pytest

from engine.answers.contradiction import contradictions
from engine.answers.resolved import resolve
from tests.duties import answered

THIRDS = {f"duty.cases[{at}].share": "33.3 %" for at in range(3)}


def test_shares_of_rounded_percentages_are_the_whole():
    assert contradictions(answered(THIRDS, 3)) == ()
    assert contradictions(answered(THIRDS | {"duty.cases[2].share": "34 %"}, 3)) == ()


@pytest.mark.parametrize(("first", "second", "wrong"), [("60", "60", "120 %"), ("100", "2", "102 %")])
def test_more_than_the_whole_time_is_named_and_no_loads_are_computed(first, second, wrong):
    made = answered(
        {"duty.distance": "200", "duty.cases[0].share": first, "duty.cases[0].speed": "100",
         "duty.cases[0].radial_y": "1 kN", "duty.cases[1].share": second, "duty.cases[1].speed": "100",
         "duty.cases[1].radial_y": "1 kN"}, 2)  # fmt: skip
    (found,) = contradictions(made)
    assert found.path == "duty.cases[1].share"
    assert wrong in found.wrong
    resolved = resolve(made)
    assert not resolved.loads_known
    assert any(wrong in missing for missing in resolved.missing)
