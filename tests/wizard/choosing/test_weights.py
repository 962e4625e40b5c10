"""Weights typed and stepped, the list that follows them, and the pairs drawn by two criteria."""

import numpy as np
import pytest

from engine.answers.document import put, question_at
from engine.answers.resolved import resolve
from engine.operating import Conditions
from engine.record.read import read
from engine.selection.criteria import CRITERIA
from engine.selection.scatter import scatter
from engine.selection.screen import screen
from engine.selection.weighing import weighed_shortlist
from tests.duties import small_catalogue
from tests.wizard.choosing.seated import NOTHING, by_hand, pair, told
from wizard.screens.choosing.scatter import ScatterScreen
from wizard.screens.choosing.weights import WeightsScreen, weight
from wizard.screens.pair import PairScreen

ROWS = small_catalogue(3)


def test_every_criterion_has_a_question_with_a_default():
    for key in CRITERIA:
        question = question_at(f"choice.weigh_{key}")
        assert question.default is not None
        assert question.only_if == ("rank_by", ("weights",))


@by_hand()
async def test_a_weight_ranks_the_list_by_the_weights(hand):
    await hand.press("s", "w")
    assert isinstance(hand.app.screen, WeightsScreen)
    assert hand.sees("not yet ranked by them")
    before = hand.answers
    for one in CRITERIA.values():
        assert hand.sees(one.label)
    await hand.press("home", "down", "down", "3", ".", "5", "enter")  # the third is the outside diameter
    assert hand.answers.choice.rank_by == "weights"
    assert hand.answers.choice.weigh_outside.value == 3.5
    await hand.rest()
    assert hand.sees("First by these weights")
    listed = hand.app.standing.listed.shortlist
    duty = Conditions.of(resolve(hand.answers))
    wanted = weighed_shortlist(ROWS, screen(ROWS, duty), duty, {"margin": 1.0, "mass": 1.0, "outside": 3.5}, 100)
    assert listed.rows_A.tolist() == wanted.rows_A.tolist()
    assert listed.rows_B.tolist() == wanted.rows_B.tolist()
    assert read(hand.app.session.path).answers == hand.answers
    await hand.press("escape")
    assert hand.sees("by weights") and hand.sees("none betters it")
    marks = sum(line.rstrip().endswith(" o") for line in hand.screen()[3:-6])
    assert 0 < marks <= int(np.count_nonzero(listed.non_dominated))
    # one step: weight and ranking go together
    await hand.press("u")
    assert hand.answers == before
    await hand.rest()
    assert hand.sees("lightest first")


@by_hand()
async def test_steps_stay_within_what_is_accepted(hand):
    await hand.press("s", "w", "home", "down", "down")
    await hand.press("minus")
    assert weight(hand.answers, "outside") == 0.0
    await hand.press("plus", "plus")
    assert weight(hand.answers, "outside") == 1.0
    await hand.press(*["plus"] * 19)
    assert weight(hand.answers, "outside") == 10.0 and hand.sees("out of bounds")
    await hand.press("delete")
    assert hand.answers.choice.weigh_outside is None
    await hand.press("delete", "u")
    assert weight(hand.answers, "outside") == 10.0


@pytest.mark.parametrize("text", ["11", "1e400", "3 kg", "..", "0x1", "1,2,3"])
def test_a_bad_weight_is_refused_and_stays_in_the_line(tmp_path, text):
    @by_hand()
    async def typed(hand):
        await hand.press("s", "w", "home")
        before = hand.answers
        await hand.press("enter")
        await hand.type(text)
        await hand.press("enter")
        assert hand.answers is before
        assert hand.app.screen.entry.text == text
        assert hand.sees("Accepted: ")
        await hand.press("ctrl+u", "2", "enter")
        assert hand.answers.choice.weigh_margin.value == 2.0

    typed(tmp_path)


@by_hand()
async def test_ranking_by_the_weights_as_they_stand(hand):
    await hand.press("s", "w", "w")
    await hand.rest()
    assert hand.answers.choice.rank_by == "weights"
    assert set(hand.app.standing.listed.shortlist.values) == {"margin", "mass"}
    await hand.press("5", "escape")
    assert hand.answers.choice.weigh_margin is None


@by_hand(NOTHING)
async def test_an_empty_list_can_be_weighed_and_drawn(hand):
    await hand.press("s", "w", "home", "4", "enter")
    await hand.rest()
    assert hand.sees("none passes")
    await hand.press("escape", "d")
    assert hand.sees("No pair is listed, so there is nothing to draw")
    await hand.press("r", "t", "enter", "y", "space", "escape")


@by_hand({})
async def test_without_loads_margin_and_friction_wait(hand):
    await hand.press("s", "w", "home", "2", "enter")
    await hand.rest()
    assert "It counts once the loads are known" in " ".join(" ".join(hand.screen()).split())
    assert set(hand.app.standing.listed.shortlist.values) == {"mass"}


@by_hand()
async def test_the_pairs_are_drawn_by_any_two_criteria(hand):
    await hand.press("s", "d")
    shown = hand.app.screen
    assert isinstance(shown, ScatterScreen)
    await told(hand)
    listed, duty = hand.app.standing.listed.shortlist, Conditions.of(resolve(hand.answers))
    seen = set()
    for key in ["r"] * 9 + ["t"] * 9:
        seen.add(shown.axes)
        expected = scatter(ROWS, listed, duty, *shown.axes)
        np.testing.assert_array_equal(shown.found.x, expected.x)
        np.testing.assert_array_equal(shown.found.y, expected.y)
        x, y = (CRITERIA[one] for one in shown.axes)
        assert hand.sees(f"{y.label} over {x.label.lower()}")
        assert any("X" in line for line in hand.screen()[2:15])
        await hand.press(key)
        await told(hand)
        assert shown.axes[0] != shown.axes[1]
    assert {key for axes in seen for key in axes} == set(CRITERIA)
    # those that no other betters come first
    kept = [bool(shown.found.non_dominated[at]) for at in shown.order]
    assert kept == sorted(kept, reverse=True) and kept[0]
    wanted = pair(hand, shown.order[0])
    await hand.press("home", "enter")
    assert isinstance(hand.app.screen, PairScreen) and hand.sees(wanted[0])
    await hand.press("escape", "space")
    assert hand.app.picked == [wanted]
    await hand.press("y")
    await told(hand)
    assert hand.app.screen.found.names == wanted


@pytest.mark.parametrize("size", [(80, 24), (60, 20), (20, 6), (140, 40)])
def test_they_fit_any_terminal(tmp_path, size):
    @by_hand(size=size)
    async def all_of_them(hand):
        await hand.press("s")
        for keys in (["w", "plus"], ["d"], ["y"], ["M"], ["s"], ["t"]):
            await hand.press(*keys)
            if hasattr(hand.app.screen, "running"):
                await told(hand)
            await hand.press("end", "pageup", "home")
            assert all(len(line) <= size[0] for line in hand.screen()), keys
            await hand.press("escape")
            await hand.rest()

    all_of_them(tmp_path)


def test_an_older_record_without_weights_is_read_and_ranked(tmp_path):
    path = tmp_path / "old.toml"
    path.write_text('schema = "1.0"\n[answers.choice]\nrank_by = "cost"\n', encoding="utf-8")
    answers = read(path).answers
    assert answers.choice.rank_by == "cost" and answers.choice.weigh_mass is None
    assert weight(put(answers, "choice.rank_by", "weights"), "mass") == 1.0
