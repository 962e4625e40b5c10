"""What is said at once of answers that are put together: shares of time, driver and driven machine."""

import asyncio

import pytest

from engine.answers.contradiction import shares_told
from engine.answers.document import get
from tests.duties import answered
from tests.wizard.running import DUTY, new_session, wizard

TWO = DUTY | {"duty.cases[0].share": "60 %", "duty.cases[1].speed": "200", "duty.cases[1].radial_y": "2 kN"}


@pytest.mark.parametrize(
    ("shares", "says"),
    [((), ""), (("60",), "add up to 60 %; they are scaled to 100 %"), (("60", None), ""), (("60", "40"), ""),
     (("60", "20"), "add up to 80 %"), (("33.3", "33.3", "33.3"), ""), (("0", "0"), "are all 0 %: no case runs")],
)  # fmt: skip
def test_what_becomes_of_shares_is_said(shares, says):
    texts = {f"duty.cases[{at}].speed": "100" for at in range(len(shares))}
    texts |= {f"duty.cases[{at}].share": share for at, share in enumerate(shares) if share}
    told = shares_told(answered(texts, max(1, len(shares))))
    assert says in told and bool(told) == bool(says)


def test_by_hand(tmp_path):
    async def sit():
        async with wizard(new_session(tmp_path, TWO)) as hand:
            share = "duty.cases[1].share"
            await hand.go(share)
            await hand.press(*"20", "enter")
            assert hand.sees("The shares of time add up to 80 %; they are scaled to 100 %.")
            await hand.press("up")
            await hand.press(*"60", "enter")
            assert hand.sees("the shares of time of load cases 1 to 2 add up to 120 %")
            await hand.press("escape")
            assert get(hand.answers, share).value == 20
            await hand.press(*"40", "enter")
            assert get(hand.answers, share).value == 40 and not hand.sees("add up")

    asyncio.run(sit())


def test_the_application_factor_is_said_with_the_row_of_its_table(tmp_path):
    async def sit():
        async with wizard(new_session(tmp_path, DUTY)) as hand:
            await hand.go("duty.driver")
            await hand.press("2")
            # ISO 6336-6 Table B.1 (recalled), row of light shocks
            text = " ".join(" ".join(hand.screen()).split())
            assert "get the application factor 1.1." in text
            assert "uniform 1.1, light 1.35, moderate 1.6, heavy 1.85 (ISO 6336-6:2006, Annex B, Table B.1)" in text
            assert hand.marked == "duty.driven"
            await hand.press("4")
            assert hand.sees("get the application factor 1.85.")

    asyncio.run(sit())
