"""The picture of the fits: what its keys do to the answers, and that all figures move together."""

import asyncio
import functools
import re

import numpy as np
import pytest

from engine.catalogue.read import builtin
from engine.record.result import compute
from tests.duties import answered, conditions
from tests.wizard.running import DUTY, new_session, wizard
from wizard.glyphs import UNICODE
from wizard.screens import detail

FITS = ["right"] * 6


def by_hand(test):
    """Run a coroutine test on a loaded duty."""

    @functools.wraps(test)
    def run(tmp_path):
        async def sit():
            async with wizard(new_session(tmp_path, DUTY)) as hand:
                await hand.rest()
                await test(hand)

        asyncio.run(sit())

    del run.__wrapped__
    return run


def marked_rung(hand):
    """Return the class and the figures of the rung that is taken."""
    (line,) = (line for line in hand.screen() if re.match(r"\s+▸ [a-zA-Z]+\d", line))
    words = [re.sub(r"[✗!]", "", word) for word in line.split()[2:]]
    return line.split()[1], [float("nan" if word == "?" else word) for word in words if word != "-"]


@by_hand
async def test_plus_and_minus_move_the_fit_and_every_figure_with_it(hand):
    await hand.press(*FITS, "v")
    name, before = marked_rung(hand)
    assert name == "m6" and hand.sees("m6, recommended")
    await hand.press("plus")
    assert hand.answers.fits.shaft_fit_a == "n6" and hand.sees("n6, answered")
    name, after = marked_rung(hand)
    assert name == "n6" and hand.sees("shaft n6")
    # least, mean, tension, both uses and both margins grow; the play left running shrinks if it is set on loose rings
    assert len(after) == 9 and all(a > b for a, b in zip(after[:-2], before[:-2], strict=True))
    assert after[-2] < before[-2] and after[-1] <= before[-1]
    await hand.press("minus", "minus")
    assert hand.answers.fits.shaft_fit_a == "k6" and marked_rung(hand)[0] == "k6"
    await hand.press("r")
    assert hand.answers.fits.shaft_fit_a is None and hand.sees("m6, recommended")


@by_hand
async def test_the_ladder_ends(hand):
    await hand.press(*FITS, "v", *["plus"] * 12)
    assert hand.answers.fits.shaft_fit_a == "r6"
    await hand.press(*["minus"] * 12)
    assert hand.answers.fits.shaft_fit_a == "g6"


@by_hand
async def test_any_class_is_found_by_typing_and_the_ladder_keeps_its_grade(hand):
    await hand.press(*FITS, "down", "enter", "m")
    assert hand.sees("m4  m5  m6  m7  m8") and not hand.sees("n6")
    await hand.press("down", "down", "enter")
    assert hand.answers.fits.shaft_fit_a == "m5"
    await hand.go("fits.housing_fit_b")
    await hand.press("enter", *"f7", "enter")
    assert hand.answers.fits.housing_fit_b == "F7"
    await hand.press("v")
    assert marked_rung(hand)[0] == "m5"
    await hand.press("minus", "minus")
    assert hand.answers.fits.shaft_fit_a == "j5"
    await hand.press("left")
    assert marked_rung(hand)[0] == "F7"


@by_hand
async def test_the_seats_are_walked_and_each_has_its_own_class(hand):
    await hand.press(*FITS, "v", "right", "plus", "right", "plus", "tab", "minus")
    fits = hand.answers.fits
    assert fits.shaft_fit_a is None and fits.shaft_fit_b == "k6"
    assert fits.housing_fit_a == "K7" and fits.housing_fit_b == "H7"
    assert hand.sees("Cup in the housing at B")
    await hand.press("left", "left", "left")
    assert hand.sees("Cone on the shaft at A")


@by_hand
async def test_a_tight_fit_takes_pairs_away_and_says_so(hand):
    await hand.rest()
    before = hand.app.standing.counted.count
    await hand.press(*FITS, "v", *["plus"] * 6)
    await hand.rest()
    after = hand.app.standing.counted.count
    assert after < before and hand.sees(f"{after} pairs")
    assert hand.sees("✗")
    await hand.press("end")
    assert hand.sees("Of the whole catalogue this fit and shock rule out at A")
    await hand.press("escape")
    assert hand.sees(f"{after} of") and hand.sees("took away")


@by_hand
async def test_both_steels_stand_side_by_side_with_their_reasons(hand):
    await hand.press(*FITS, "v", "end")
    shown = hand.screen()
    assert any("through-hardened" in line and "case-hardened" in line for line in shown)
    for name, unit in (("verdict", ""), ("steel", ""), ("decided by", ""), ("hoop stress", "MPa"),
                       ("shock on the core", "MPa m^.5"), ("hard particles", "places"),
                       ("highest temperature", "degC"), ("growth in its life", "um"), ("thickness of ring", "mm"),
                       ("relative cost", ""), ("availability", "made to")):  # fmt: skip
        (of_both,) = (line for line in shown if line.startswith(f" {name} "))
        left, right = of_both[21:50], of_both[50:]
        assert left.strip() and right.strip() and unit in left and unit in right, name
    assert hand.sees("Rolling life decides nothing here")


@by_hand
async def test_widths_and_runout_of_the_class_stand_below_the_ladder(hand):
    await hand.press(*FITS, "v", "end")
    assert hand.sees("of the bearing: cone width B") and hand.sees("width T") and hand.sees("radial runout of the")


@by_hand
async def test_undo_takes_a_step_back(hand):
    await hand.press(*FITS, "v", "plus", "plus", "escape", "u")
    assert hand.answers.fits.shaft_fit_a == "n6"


@by_hand
async def test_a_step_that_contradicts_an_answer_is_refused_with_the_reason(hand):
    await hand.press(*["right"] * 5)
    await hand.go("steel.heavy_interference")
    await hand.press("1", "right", "v", "minus", "minus")
    assert hand.answers.fits.shaft_fit_a == "p6"
    assert hand.sees("a heavy interference fit is answered")


@by_hand
async def test_a_chapter_without_a_picture_says_so(hand):
    await hand.press("right", "right", "v")
    assert hand.sees("no picture")


def test_without_a_pair_it_says_what_is_wanted(tmp_path):
    async def sit():
        async with wizard(new_session(tmp_path, {"envelope.bore_a": "1..2"})) as hand:
            await hand.rest()
            await hand.press(*FITS, "v")
            assert hand.sees("No pair leads yet")
            await hand.press("plus", "minus", "right", "escape")
            assert hand.marked.startswith("fits.")

    asyncio.run(sit())


def test_without_loads_it_shows_all_but_creep(tmp_path):
    async def sit():
        async with wizard(new_session(tmp_path, {"envelope.bore_a": "50..60"})) as hand:
            await hand.rest()
            await hand.press(*FITS, "v")
            assert marked_rung(hand)[0] == "m6" and not hand.sees("load asks for")

    asyncio.run(sit())


@pytest.mark.parametrize("width", [60, 80])
def test_a_bearing_whose_limits_are_not_at_hand_has_not_judged_on_the_lines_of_its_checks(width):
    texts = {"duty.distance": "200", "duty.cases[0].speed": "500", "duty.cases[0].radial_y": "12 kN"}
    known = builtin().take([700])
    other = known.take([0])
    object.__setattr__(other, "tolerance", np.array(["A"]))
    lines = detail.detail(compute(known, other, conditions(answered(texts))), UNICODE, width).lines
    shown = ["".join(text for text, _ in one) for one in lines]
    for name in ("Rings bear their fit", "Core stands the shock"):
        start = name[:10]  # what there is room for in 60 columns
        (of_A,), (of_B,) = (
            [text for text in shown if text[3:].startswith(start) and f", {side} " in text[:28]] for side in "AB"
        )
        assert of_A[1] == UNICODE.passes and of_B[1] == UNICODE.caution and of_B.endswith("not judged")
        assert "unknown" in of_B and len(of_B) <= width
