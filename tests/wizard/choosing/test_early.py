"""Some rows before all are known, how far a search is, stopping it, and ranking anew without searching anew."""

import asyncio
import threading

import pytest

from engine.answers.document import put
from engine.selection import screen
from tests.duties import answered
from tests.wizard.choosing.seated import by_hand
from tests.wizard.running import DUTY, PATIENCE, new_session, until, wizard
from wizard.search import Counted, Listed, Searching
from wizard.studies.distributions import Done

ANSWERS = answered(DUTY)


@pytest.fixture(autouse=True)
def _many(monkeypatch):
    """Let the small catalogue count as one with many pairs."""
    monkeypatch.setattr(screen, "FEW_PAIRS", 100)


def test_the_first_rows_come_before_the_count_where_the_list_is_looked_at(search, reports):
    search.watched = True
    search.start(ANSWERS)
    early = reports.wait(Listed, ANSWERS)
    assert early.early
    counted = reports.wait(Counted, ANSWERS)
    assert reports.found.index(early) < reports.found.index(counted)
    rows = early.shortlist
    assert 0 < len(rows) <= 20 and rows.evaluated.passes.all()
    reports.wait(Done, ANSWERS)
    lists = [one for one in reports.found if isinstance(one, Listed)]
    assert [one.early for one in lists] == [True, False]
    # each early row is among the pairs that pass
    assert early.resolved == counted.resolved


def test_they_are_not_sought_where_nobody_looks(search, reports):
    search.start(ANSWERS)
    assert not reports.wait(Listed, ANSWERS).early


def test_ranking_anew_searches_nothing_anew(search, reports, monkeypatch):
    search.start(ANSWERS)
    reports.wait(Listed, ANSWERS)
    calls = []
    real = screen.decide
    monkeypatch.setattr(screen, "decide", lambda *how: calls.append(how) or real(*how))
    by_life = put(ANSWERS, "choice.rank_by", "weights")
    search.start(by_life)
    assert reports.wait(Listed, by_life).shortlist.score is not None
    assert reports.wait(Counted, by_life).count == reports.wait(Counted, ANSWERS).count
    assert calls == []
    longer = put(ANSWERS, "duty.life", answered({"duty.life": "9000"}).duty.life)
    search.start(longer)
    reports.wait(Listed, longer)
    assert len(calls) == 1


class Held:
    """A search held in its midst until it is let go on."""

    def __init__(self, monkeypatch):
        self.begun, self.go_on = threading.Event(), threading.Event()
        self.real, self.hold = screen.decide, True
        monkeypatch.setattr(screen, "decide", self)

    def __call__(self, field, cancelled, progress):
        if self.hold:
            self.begun.set()
            while not self.go_on.wait(0.02):
                progress("pairs", 0.5)
                if cancelled():
                    raise screen.SearchCancelled
        return self.real(field, cancelled, progress)


def test_progress_is_told_and_a_halt_ends_the_search(search, reports, monkeypatch):
    held = Held(monkeypatch)
    search.start(ANSWERS)
    assert held.begun.wait(PATIENCE)
    assert reports.wait(Searching, ANSWERS).share == 0.5
    search.halt()
    assert reports.wait(Done, ANSWERS).halted
    assert not any(isinstance(one, Counted) for one in reports.found)
    held.hold = False
    search.start(ANSWERS)
    assert reports.wait(Counted, ANSWERS).count


def test_rows_are_on_the_screen_while_the_search_goes_on_and_x_stops_it(tmp_path, monkeypatch):
    @by_hand()
    async def sit(hand):
        held = Held(monkeypatch)
        # the list is open when the answers change under it: undo brings the other life back
        await hand.go("duty.life")
        held.hold = False
        await hand.press(*"2000", "enter")
        await hand.rest()
        await hand.press("s")
        held.hold = True
        await hand.press("u")
        await until(lambda: hand.app.standing.listed.early, "the first rows")
        await until(lambda: hand.app.standing.searched > 0, "the progress")
        await hand.pilot.pause()
        assert hand.sees("of those that pass, looking on")
        assert hand.sees("   1 ")
        await until(lambda: hand.sees("counting again, 50 %"), "the share on the screen")
        await hand.press("x")
        await until(lambda: hand.app.standing.halted, "the halt")
        await hand.press("down", "enter", "escape")  # early rows can be looked into
        held.hold = False
        await hand.press("x")
        await hand.rest()
        assert hand.sees("the first ") and hand.sees("lightest first")

    sit(tmp_path)


def test_keys_do_not_wait_for_a_search_or_an_inquiry(tmp_path, monkeypatch):
    async def sit():
        async with wizard(new_session(tmp_path, DUTY)) as hand:
            await hand.rest()
            held = Held(monkeypatch)
            await hand.go("duty.life")
            await hand.press(*"2500", "enter")
            await until(held.begun.is_set, "the search")
            # both at work: the list, what must give, and back again
            await hand.press("M", "down", "escape", "escape", "s", "down", "y")
            await hand.press("escape", "escape", "escape", "escape")
            assert hand.app.screen is hand.questions
            held.go_on.set()
            await hand.rest()

    asyncio.run(sit())
