"""Why a pair or part is out, typed, picked or "like this one but steeper", and the change that admits it made."""

import numpy as np
import pytest

from engine.answers.question import Refused
from engine.selection.alike import BUT, alike
from engine.selection.verdict import verdict
from engine.selection.why_not import why_not
from tests.duties import small_catalogue
from tests.wizard.choosing.seated import NOTHING, by_hand, pair, told
from wizard.screens.choosing import named
from wizard.screens.choosing.why import WhyScreen

ROWS = small_catalogue(3)
NAMES = ROWS.designation.tolist()


def test_one_name_is_a_part_and_two_are_a_pair():
    assert named.read(NAMES[4], ROWS) == named.Named(4, None)
    assert named.read(NAMES[4], ROWS, "B") == named.Named(None, 4)
    assert named.read(f" {NAMES[4].lower()} ,{NAMES[9]}", ROWS) == named.Named(4, 9)
    assert named.read(f"{NAMES[4]};{NAMES[9]}", ROWS) == named.Named(4, 9)


@pytest.mark.parametrize("how", BUT)
def test_like_one_but_different_is_the_most_alike(how):
    found = alike(ROWS, 5, how, 1)
    if not len(found):
        with pytest.raises(Refused, match="nothing in the catalogue is like"):
            named.read(f"{NAMES[5]} but {how}", ROWS)
        return
    one = named.read(f"{NAMES[5]} BUT  {how.upper()}", ROWS)
    assert (one.row_A, one.row_B) == (int(found[0]), None)
    assert NAMES[5] in one.note and how in one.note


@pytest.mark.parametrize(
    "text", ["", "  ", ",", "a,b,c", "[b]no[/]", "but steeper", f"{NAMES[1]} but", f"{NAMES[1]} but s",
             f"{NAMES[1]} but greener", "\x1b[31m", f"{NAMES[1]}, nothing like it"]
)  # fmt: skip
def test_what_cannot_be_meant_is_refused_with_what_is_accepted(text):
    with pytest.raises(Refused) as error:
        named.read(text, ROWS)
    assert error.value.accepted
    assert str(error.value).isprintable()


def failing_rows(answers):
    """Return the first pair of equal bearings that a single change admits."""
    for row in range(len(ROWS)):
        if not verdict(ROWS.take([row]), ROWS.take([row]), answers).passes and why_not(ROWS, row, row, answers).changes:
            return row
    raise AssertionError("every pair passes")


@by_hand()
async def test_a_typed_pair_says_what_it_fails_and_the_marked_change_admits_it(hand):
    row = failing_rows(hand.answers)
    await hand.press("y")
    assert hand.sees("a designation, two with a comma between")
    await hand.type(f"{NAMES[row]}, {NAMES[row]}")
    await hand.press("enter")
    await told(hand)
    assert hand.sees("Why not: A") and hand.sees("It fails") and hand.sees("Each by itself admits it")
    screen = hand.app.screen
    expected = why_not(ROWS, row, row, hand.answers)
    assert [one.step for one in screen.found.why.changes] == [one.step for one in expected.changes]
    for finding in expected.failing:
        assert hand.sees(finding.check.name)
    # a failing check is no change
    before = hand.answers
    await hand.press("home", "enter")
    assert hand.answers is before and hand.sees("Mark a change first")
    first = min(screen.shown.changes)
    await hand.press(*["down"] * screen.shown.stops.index(first), "enter")
    assert hand.answers != before
    await told(hand)
    assert verdict(ROWS.take([row]), ROWS.take([row]), hand.answers).passes
    assert hand.sees("It passes every check")
    await hand.press("u")
    assert hand.answers == before
    await told(hand)
    assert hand.sees("It fails")


@pytest.mark.slow
@by_hand()
async def test_a_pair_that_only_several_changes_admit_gets_all_of_them_in_one_step(hand):
    every = ((ROWS.take([a]), ROWS.take([b]), (a, b)) for a in range(0, 40, 5) for b in range(40))
    candidates = [pair for A, B, pair in every if not verdict(A, B, hand.answers).passes]
    found = next(
        (pair for pair in candidates if (one := why_not(ROWS, *pair, hand.answers)).together and not one.changes), None
    )
    assert found is not None
    await hand.press("y")
    await hand.type(f"{NAMES[found[0]]}, {NAMES[found[1]]}")
    await hand.press("enter")
    await told(hand)
    assert hand.sees("No answer by itself admits it")
    before, steps = hand.answers, hand.app.screen.found.why.together
    assert len(steps) > 1
    await hand.press("end", "enter")
    await told(hand)
    assert verdict(*(ROWS.take([row]) for row in found), hand.answers).passes
    await hand.press("u")
    assert hand.answers == before  # one step takes all of them back


@by_hand()
async def test_a_listed_pair_is_set_beside_the_first(hand):
    await hand.press("s", "down", "down", "y")
    await told(hand)
    assert hand.sees("How it ranks") and hand.sees("It passes every check") and hand.sees("place 3")
    assert hand.app.screen.found.first == pair(hand, 0)
    masses = next(one for one in hand.app.screen.found.beside if one.label == "Mass")
    listed = hand.app.standing.listed.shortlist.evaluated
    sums = (listed.A.mass + listed.B.mass).tolist()
    np.testing.assert_allclose([masses.own, masses.first], [sums[2], sums[0]])
    assert masses.better == (-1 if sums[2] > sums[0] else 0)
    await hand.press("escape", "home", "y")
    await told(hand)
    assert hand.sees("place 1") and not hand.sees("Against the first")


@by_hand()
async def test_a_part_of_the_catalogue_is_asked_about_with_its_nearest_partner(hand):
    await hand.press("b", "down", "down", "y")
    await told(hand)
    screen = hand.app.screen
    assert isinstance(screen, WhyScreen)
    assert hand.sees("with its nearest B") or hand.sees("~")
    at_A = screen.found.names[0]
    await hand.press("o")
    await told(hand)
    assert screen.found.names[1] == at_A
    await hand.press("l")
    assert screen.entry.text == f"{at_A} but "
    await hand.type("wider")
    await hand.press("enter")
    await told(hand)
    assert screen.found.names[1] != at_A
    await hand.press("escape", "enter", "y")  # the section has the key too
    await told(hand)
    assert screen.found.names[0] == at_A


@by_hand()
async def test_what_cannot_be_meant_stays_in_the_line_with_the_reason(hand):
    await hand.press("y")
    await hand.type("no such thing")
    await hand.press("enter")
    assert hand.sees("no assembly is named") and hand.sees("no such thing")
    await hand.press("ctrl+u")
    await hand.type(NAMES[3])
    await hand.press("enter")
    await told(hand)
    assert hand.app.screen.found.names[0] == NAMES[3]
    # another name is begun and left: what was shown stays
    await hand.press("slash", "x", "escape")
    assert hand.app.screen.found.names[0] == NAMES[3]
    await hand.press("escape")
    assert hand.app.screen is hand.questions
    await hand.press("y", "escape")
    assert hand.app.screen is hand.questions


@by_hand(NOTHING)
async def test_an_empty_shortlist_asks_for_a_name(hand):
    await hand.press("s", "y")
    assert isinstance(hand.app.screen, WhyScreen)
    await hand.type(NAMES[0])
    await hand.press("enter")
    await told(hand)
    assert hand.sees("It fails") and hand.sees("Bore fits")


@by_hand({})
async def test_without_loads_only_what_needs_none_is_said(hand):
    await hand.press("y")
    await hand.type(f"{NAMES[0]}, {NAMES[1]}")
    await hand.press("enter")
    await told(hand)
    assert hand.sees("Loads are not yet known")


@by_hand()
async def test_esc_stops_what_runs_and_x_begins_anew(hand):
    row = failing_rows(hand.answers)
    await hand.press("y")
    await hand.type(f"{NAMES[row]}, {NAMES[row]}")
    await hand.press("enter", "escape")
    screen = hand.app.screen
    assert isinstance(screen, WhyScreen)
    if screen.stopped:  # a fast machine may have been done before
        assert hand.sees("Stopped")
        await hand.press("x")
    await told(hand)
    assert screen.found.why is not None
