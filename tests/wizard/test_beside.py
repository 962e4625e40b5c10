"""A wide terminal shows pairs, checks and assumptions beside the questions; every assumption can be visited."""

import asyncio

import pytest

from tests.wizard.running import DUTY, new_session, until, wizard
from wizard.screens.every.beside import columns, flowed, side_columns
from wizard.widgets.lines import line


def sit(folder, test, texts=DUTY, size=(160, 40)):
    async def run():
        async with wizard(new_session(folder, texts), size=size) as hand:
            await hand.rest()
            await test(hand)

    asyncio.run(run())


def test_the_panel_takes_what_the_questions_do_not_need():
    assert [side_columns(width) for width in (60, 80, 131, 132, 140, 150, 200, 400)] == [0, 0, 0, 52, 60, 66, 90, 290]


@pytest.mark.parametrize("taken", [52, 60, 66, 90, 131, 132, 210, 290])
def test_the_columns_of_a_panel_fill_it_and_are_wide_enough(taken):
    count, width = columns(taken)
    assert width >= (50 if count == 1 else 60)
    assert taken - count < 2 + count * width + 3 * (count - 1) <= taken


def test_a_panel_in_columns_keeps_every_line_and_its_blocks_together():
    blocks = [[line(f"{letter}{at}") for at in range(size)] for letter, size in (("a", 5), ("b", 6), ("c", 7))]
    shown = flowed([one for block in blocks for one in (*block, line(""))], 3, 8, 9, "|")
    assert len(shown) == 9
    parts = [["".join(text for text, _ in one).split("|")[at].strip() for one in shown] for at in range(3)]
    kept = [[text for text in part if text] for part in parts]
    assert kept == [[text for ((text, _),) in block] for block in blocks]


@pytest.mark.parametrize("width", [132, 134, 145, 146])
def test_the_panel_cuts_no_figure_of_its_own(tmp_path, width):
    async def look(hand):
        listed = hand.app.standing.listed
        assert "margin" in next(one for one in hand.screen() if "bearing at A" in one)
        rows = [one for one in hand.screen() if str(listed.shortlist.evaluated.A.designation[0]) in one]
        life, required = float(listed.shortlist.life[0]), listed.resolved.life
        assert rows[0].rstrip().endswith(f"{life / required:.2f}")
        await hand.press("s")
        beside = [one.rpartition("\N{BOX DRAWINGS LIGHT VERTICAL} ")[2].rstrip() for one in hand.screen()]
        cells = next(one for one in beside if "outside diameter" in one or "outside dia" in one).split()
        A, B = (float(rows.D[0]) for rows in (listed.shortlist.evaluated.A, listed.shortlist.evaluated.B))
        assert [float(cell) for cell in cells[-3:-1]] == [A, B] and cells[-1] == "mm"
        # a designation may be longer than any column; no figure and no unit is
        assert [one for one in beside if one.endswith("~") and not one.lstrip().startswith(("cone ", "cup "))] == []

    sit(tmp_path, look, size=(width, 43))


@pytest.mark.parametrize("keys", [["t"], ["g"], ["s", "w"], ["y", *"V060-4EC", "enter"], ["M"], ["question_mark"]])
def test_a_large_window_is_used_on_every_screen_with_something_to_say(tmp_path, keys):
    async def look(hand):
        await hand.press(*keys)
        await until(lambda: not getattr(hand.app.screen, "running", False), "what was asked")
        await hand.pilot.pause()
        beside = [one[112:].strip() for one in hand.screen()]
        assert len([one for one in beside if one]) > 20

    sit(tmp_path, look, size=(200, 60))


@pytest.mark.parametrize("width", [160, 200, 320])
def test_no_figure_of_what_must_give_stands_far_from_its_name(tmp_path, width):
    async def look(hand):
        await hand.press("M")
        await until(lambda: not hand.app.screen.running, "what must give")
        rows = [one for one in hand.whole().splitlines() if one.rstrip().endswith((" more", " lost"))]
        assert rows and max(len(one.rstrip()) for one in rows) <= 100

    sit(tmp_path, look, size=(width, 60))


def test_the_panel_shows_the_leading_pairs_and_what_is_assumed(tmp_path):
    async def look(hand):
        text = "\n".join(hand.screen())
        listed = hand.app.standing.listed.shortlist.evaluated
        for at in range(3):
            assert any(
                str(listed.A.designation[at]) in line and str(listed.B.designation[at]) in line
                for line in hand.screen()
            )
        count = len(hand.app.standing.counted.resolved.assumptions)
        assert f"Assumed for {count} open questions; t visits them" in text
        assert all(len(line) <= 160 for line in hand.screen())

    sit(tmp_path, look)


def test_the_panel_shows_the_chosen_pair_with_its_tightest_check_first(tmp_path):
    async def look(hand):
        await hand.press("s", "c", "escape")
        await hand.rest()
        result = hand.app.standing.result
        tightest = max((one for one in result.checks if not one.advisory), key=lambda one: one.utilisation)
        lines = hand.screen()
        first = next(at for at, line in enumerate(lines) if "tightest checks first" in line) + 1
        assert tightest.name in lines[first] and f"{tightest.utilisation:.2f}" in lines[first]

    sit(tmp_path, look)


def test_beside_the_shortlist_stands_the_marked_pair_as_its_own_screen_shows_it(tmp_path):
    async def look(hand):
        await hand.press("s", "down", "down")
        listed = hand.app.standing.listed.shortlist.evaluated
        A, B = (str(rows.designation[2]) for rows in (listed.A, listed.B))
        beside = [line.partition("\N{BOX DRAWINGS LIGHT VERTICAL}")[2] for line in hand.screen()]
        assert f"A {A}   B {B}" in beside[0]
        # what the catalogue says of the third pair, not of the first
        cells = next(line for line in beside if " outside diameter " in line).split()
        assert [float(cell) for cell in cells[-3:-1]] == [listed.A.D[2], listed.B.D[2]]
        checks = beside[4 : next(at for at, line in enumerate(beside) if at > 4 and not line.strip())]
        uses = [float(line.split()[-2]) for line in checks]
        assert len(uses) >= 5 and uses == sorted(uses, reverse=True)
        await hand.pilot.resize_terminal(100, 30)
        await hand.pilot.pause()
        assert not hand.sees("Tightest checks first")

    sit(tmp_path, look)


def test_beside_the_checks_of_a_pair_stand_its_figures(tmp_path):
    async def look(hand):
        await hand.press("s", "enter")
        assert hand.sees("demand") and hand.sees(" outside diameter ") and hand.sees("Bearings")

    sit(tmp_path, look)


def test_what_is_narrow_has_no_panel_and_resizing_brings_and_takes_it(tmp_path):
    async def look(hand):
        assert not hand.sees("Leading pairs")
        await hand.pilot.resize_terminal(150, 30)
        await hand.pilot.pause()
        assert hand.sees("Leading pairs")
        await hand.pilot.resize_terminal(80, 24)
        await hand.pilot.pause()
        assert not hand.sees("Leading pairs")

    sit(tmp_path, look, size=(80, 24))


def test_every_assumption_can_be_visited(tmp_path):
    async def look(hand):
        assumptions = hand.app.standing.counted.resolved.assumptions
        for at, one in enumerate(assumptions):
            await hand.press("t", *["down"] * min(at, 1), "enter")  # the mark stays where it was
            assert hand.app.screen.PLACE == "chapter"
            assert hand.marked == one.path

    sit(tmp_path, look, size=(80, 24))


@pytest.mark.parametrize("size", [(80, 24), (60, 20), (20, 6)])
def test_the_list_of_assumptions_fits_any_terminal(tmp_path, size):
    async def look(hand):
        await hand.press("t", "end")
        assert all(len(line) <= size[0] for line in hand.screen())

    sit(tmp_path, look, size=size)
