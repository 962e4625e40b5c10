"""Closed formulas and load distribution say one thing of a pair, wherever it is looked at."""

import functools

import pytest

from engine.record import result as record_result
from engine.selection.stages import load_distribution
from tests.duties import conditions, small_catalogue
from tests.wizard.choosing.seated import NOTHING, pair, told
from tests.wizard.choosing.seated import by_hand as seated
from tests.wizard.running import DUTY, PATIENCE, until
from tests.wizard.test_setting import Gate
from wizard import search
from wizard.screens.choosing.comparing.both import STATE

ROWS = small_catalogue(3)
#: Tilted by so much, pairs that pass by the closed formulas fail by their load distribution.
TILTED = DUTY | {"setting.misalignment": "0.1"}
#: So many pairs of the list are computed here before they are asked for, and one that is not among these.
LEADING, BEYOND = 2, 5


def by_hand(texts=DUTY, **how):
    """Run a test with the wizard on some answers, everything found, and a way to put something else in a place."""

    def decorate(test):
        @functools.wraps(test)
        def run(tmp_path, monkeypatch):
            async def sit(hand):
                hand.monkeypatch = monkeypatch
                await test(hand)

            monkeypatch.setattr(search, "LEADING", LEADING)
            seated(texts, **how)(sit)(tmp_path)

        del run.__wrapped__  # pytest looks there for the fixtures
        return run

    return decorate


def gated(hand, where, name):
    """Let a computation last until its gate is opened."""
    gate = Gate(getattr(where, name))
    hand.monkeypatch.setattr(where, name, gate)
    return gate


async def compared(hand, *places):
    """Mark pairs of the list and set them side by side, everything computed that is shown."""
    await marked(hand, *places)
    await settled(hand)


async def marked(hand, *places):
    await hand.press("s")
    for place in places:
        await hand.press("home", *["down"] * place, "space")
    await hand.press("s")
    await told(hand)


async def settled(hand):
    await until(lambda: not hand.app.screen.running and not hand.app.screen.computing, "the load distributions")
    await hand.pilot.pause()


def over(hand):
    """Return the line of the verdicts."""
    return "".join(text for text, _ in hand.app.screen.query_one("#over").lines[2])


def line(hand, key):
    """Return what stands in a line of the list, and the figures behind it."""
    shown = hand.app.screen
    at = next(at for at, one in shown.behind.items() if one.key == key)
    return "".join(text for text, _ in shown.rows.lines[at]), shown.behind[at]


def said(hand, names):
    """Return what the load distribution says of a pair, computed here and now."""
    A, B = (ROWS.take([ROWS.index_of(name)]) for name in names)
    return load_distribution.lead(A, B, conditions(hand.answers))


@by_hand(TILTED)
async def test_marked_pairs_stand_with_what_their_load_distribution_says_those_beyond_the_first_too(hand):
    await compared(hand, 1, BEYOND)
    pairs = hand.app.picked
    assert pairs == [pair(hand, 1), pair(hand, BEYOND)]
    expected = [said(hand, names) for names in pairs]
    assert [one.word for one in expected] == ["fails", "fails"]  # and both are listed, so that they pass by the other
    assert hand.app.screen.shown[0].passes == (True, True)
    assert over(hand).split() == ["verdict", "✗", "fails", "✗", "fails"]
    assert line(hand, "setting.life")[1].cells == tuple(one.life for one in expected)
    assert line(hand, "setting.p_max")[1].cells == tuple(one.p_max for one in expected)
    for at, one in enumerate(expected):
        for outcome in one.outcomes:
            shown = line(hand, f"setting.check.{outcome.check.key}.{outcome.side}")[1]
            assert shown.cells[at] == outcome.utilisation and shown.passes[at] == outcome.passes
    assert "✗" in line(hand, "setting.check.distribution_life.pair")[0]
    # what the marked line of the state says in words
    await hand.press("home", *["down"] * [one.key for one in hand.app.screen.behind.values()].index(STATE))
    assert hand.sees("fails: Life by load distribution; fails: Life")


@by_hand()
async def test_the_closed_formulas_stand_there_while_load_distributions_are_computed(hand):
    gate = gated(hand, load_distribution, "lead")
    await marked(hand, 0, BEYOND)
    assert gate.entered.wait(PATIENCE)
    await until(lambda: hand.sees("computing") and hand.sees("50 %"), "how far it is")
    assert over(hand).split() == ["verdict", "✓", "passes", "!", "passes", "so", "far"]
    _, figures = line(hand, "setting.life")
    assert figures.cells[1] == "-" and isinstance(figures.cells[0], float)
    assert len(line(hand, "pair.mass")[1].cells) == 2
    # keys are dealt with meanwhile, and the mark stays on its line when lines come in before it
    await hand.press(*["down"] * 40)
    at, key = hand.app.screen.rows.at, hand.app.screen.behind[hand.app.screen.rows.at].key
    gate.open.set()
    await settled(hand)
    assert hand.app.screen.behind[hand.app.screen.rows.at].key == key and at > 0
    assert over(hand).split() == ["verdict", "✓", "passes", "✓", "passes"]
    assert gate.begun == 1  # the other was known
    assert line(hand, "setting.life")[1].cells[1] == said(hand, hand.app.picked[1]).life


@by_hand()
async def test_x_stops_load_distributions_and_x_goes_on(hand):
    gate = gated(hand, load_distribution, "lead")
    await marked(hand, BEYOND, BEYOND + 1)
    assert gate.entered.wait(PATIENCE)
    await hand.press("x")
    await until(lambda: hand.sees("Load distribution stopped; x goes on."), "the halt")
    assert hand.sees("stopped") and not hand.sees("computing")
    assert over(hand).split()[0] == "verdict" and over(hand).count("so far") == 2
    begun = gate.begun
    gate.open.set()
    await hand.press("o", "o", "down")  # nothing of this asks for it again
    assert gate.begun == begun and hand.app.standing.halted
    await hand.press("x")
    await settled(hand)
    assert over(hand).count("✓ passes") == 2 and not hand.sees("stopped")


@by_hand(TILTED)
async def test_of_what_is_tried_no_load_distribution_is_shown(hand):
    await compared(hand, 0, 1)
    before = hand.app.standing.leading
    await hand.press("t")
    await hand.type("required life = 2500 h")
    await hand.press("enter")
    await settled(hand)
    assert hand.sees("By load distribution: not computed for what is tried")
    assert over(hand).split() == ["closed", "formulas", "✓", "passes", "✓", "passes"]
    assert not any(one.key.startswith("setting.") for one in hand.app.screen.behind.values())
    await hand.press("escape")
    await settled(hand)
    assert over(hand).count("✗ fails") == 2
    assert all(hand.app.standing.leading[names] is before[names] for names in hand.app.picked)
    # taken into the answers, it is computed for these
    await hand.press("t")
    await hand.type("cups askew by = 0")
    await hand.press("enter")
    await settled(hand)
    await hand.press("a")
    await hand.rest()
    await settled(hand)
    assert over(hand).count("✓ passes") == 2
    assert line(hand, "setting.life")[1].cells == tuple(said(hand, names).life for names in hand.app.picked)
    # and taken back, those of the answers before
    await hand.press("u")
    assert not hand.sees("✓ passes")
    await hand.rest()
    await settled(hand)
    assert over(hand).count("✗ fails") == 2


@by_hand(DUTY | {"setting.chance": "99.9"})
async def test_a_chance_that_is_asked_for_is_drawn_before_the_verdict(hand):
    assert all(one.word == "open" for one in hand.app.standing.leading.values())
    gate = gated(hand, record_result, "compute")
    await marked(hand, 0)
    assert gate.entered.wait(PATIENCE)
    assert over(hand).split() == ["verdict", "!", "passes", "so", "far"]
    gate.open.set()
    await settled(hand)
    whole = hand.app.search.studies.known(pair(hand, 0))
    assert over(hand).split()[2:] == [whole.verdict]
    assert line(hand, "setting.check.chance.pair")[1].capacity == (whole.study.draws.survival,)
    # and the list says the same of it
    await hand.press("escape", "home")
    sign = {"passes": "✓", "fails": "✗"}[whole.verdict]
    assert hand.screen()[3][5] == sign and hand.screen()[4][5] == "!"
    await hand.press("down")
    assert hand.sees("its chance not drawn yet")


@pytest.mark.parametrize("texts", [NOTHING, {}])
def test_where_nothing_is_marked_or_no_load_is_known_nothing_is_computed(texts, tmp_path, monkeypatch):
    begun = []
    monkeypatch.setattr(load_distribution, "lead", lambda *given: begun.append(given))
    monkeypatch.setattr(record_result, "compute", lambda *given: begun.append(given))

    @seated(texts)
    async def sit(hand):
        await hand.press("s", "s")
        await told(hand)
        assert not hand.sees("By load distribution") and not hand.sees("computing")
        await hand.rest()

    sit(tmp_path)
    assert not begun


@by_hand(TILTED)
async def test_how_a_pair_ranks_says_that_its_load_distribution_rules_it_out(hand):
    for place in (0, BEYOND):
        await hand.press("s", "home", *["down"] * place, "y")
        await settled(hand)
        assert hand.sees("It passes every check by the closed formulas")
        assert hand.sees("By its load distribution it fails") and hand.sees("Life by load distribution [h]")
        assert hand.sees("By its load distribution the first fails") is (place > 0)
        await hand.press("escape", "escape")


@by_hand()
async def test_how_a_pair_ranks_says_so_where_it_passes_both(hand):
    gate = gated(hand, load_distribution, "lead")
    await hand.press("s", *["down"] * BEYOND, "y")
    assert gate.entered.wait(PATIENCE)
    await told(hand)
    assert hand.sees("by the closed formulas") and hand.sees("load distribution: being computed")
    gate.open.set()
    await settled(hand)
    assert hand.sees("It passes every check") and not hand.sees("by the closed formulas")


@by_hand(TILTED)
async def test_what_the_list_knows_to_fail_passes_nowhere_while_the_rest_of_it_is_computed(hand):
    gate = gated(hand, record_result, "compute")
    await hand.press("s", "enter")
    assert gate.entered.wait(PATIENCE)
    await until(lambda: hand.sees("50 %"), "how far it is")
    assert hand.sees("The pair fails: Life by load distribution; the rest")
    await hand.press("c")
    await until(lambda: hand.sees("Chosen:"), "the choice")
    await until(lambda: hand.app.standing.leading and hand.app.standing.result is not None, "what was known of it")
    await hand.pilot.pause()
    assert hand.sees("✗ fails: Life by load distribution")
    gate.open.set()
    await hand.rest()
    assert hand.sees("✗ fails: Life by load distribution")
