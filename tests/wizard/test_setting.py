"""The setting in the wizard: computed behind the screens, never in the way of a key, stopped and gone on with."""

import asyncio
import functools
import threading
import tomllib

from engine.record import result as record_result
from engine.record.read import read
from engine.selection.stages import load_distribution
from tests.duties import answered, small_catalogue
from tests.wizard.reports import Reports
from tests.wizard.running import DUTY, PATIENCE, new_session, until, wizard
from wizard.screens.chapter import ChapterScreen
from wizard.screens.pair import PairScreen
from wizard.screens.shortlist import ShortlistScreen
from wizard.screens.views.setting import SettingScreen
from wizard.search import Counted, Drawn, Listed, Search
from wizard.studies.distributions import LEADING, Computed, Done, Led, Progress, Studied
from wizard.widgets.circle import circle

ANSWERS = answered(DUTY)


def by_hand(test):
    """Run a coroutine test with a session on a duty that some pairs meet."""

    @functools.wraps(test)
    def run(tmp_path, monkeypatch):
        async def sit():
            async with wizard(new_session(tmp_path, DUTY)) as hand:
                hand.monkeypatch = monkeypatch
                await hand.rest()
                await test(hand)

        asyncio.run(sit())

    del run.__wrapped__  # pytest looks there for the fixtures
    return run


def front(hand):
    return type(hand.app.screen)


class Gate:
    """Stands in for a computation that lasts: it ticks until it is let through."""

    def __init__(self, real):
        self.real = real
        self.entered, self.open = threading.Event(), threading.Event()
        self.begun = 0

    def __call__(self, A, B, conditions, tick=lambda _: None):
        self.entered.set()
        self.begun += 1
        while not self.open.wait(0.005):
            tick(0.5)
        return self.real(A, B, conditions, tick)


# the thread


def test_what_is_found_comes_in_this_order_and_ends_with_word_of_it():
    reports = Reports()
    search = Search(reports, load=lambda: small_catalogue(3))
    search.start(ANSWERS)
    reports.wait(Done, ANSWERS)
    search.stop()
    kinds = [type(one) for one in reports.found if not isinstance(one, Progress)]
    assert kinds == [Counted, Listed, Drawn, *[Led] * LEADING, Done]
    led, listed = reports.found[-2], reports.wait(Listed, ANSWERS)
    first = listed.shortlist.evaluated
    assert list(led.leading) == [
        (str(first.A.designation[at]), str(first.B.designation[at])) for at in range(LEADING)
    ]  # fmt: skip
    assert all(one.known for one in led.leading.values())


def test_ranking_and_choosing_compute_nothing_twice(monkeypatch):
    made = []
    real = load_distribution.lead
    monkeypatch.setattr(load_distribution, "lead", lambda *given: made.append(given) or real(*given))
    reports = Reports()
    search = Search(reports, load=lambda: small_catalogue(3))
    search.start(ANSWERS)
    listed = reports.wait(Listed, ANSWERS)
    reports.wait(Done, ANSWERS)
    assert len(made) == LEADING
    first = listed.shortlist.evaluated
    chosen = answered(DUTY | {
        "choice.bearing_a": str(first.A.designation[0]), "choice.bearing_b": str(first.B.designation[0])
    })  # fmt: skip
    search.start(chosen)
    reports.wait(Done, chosen)
    assert len(made) == LEADING
    heavier = answered(DUTY | {"duty.life": "3100"})
    search.start(heavier)
    reports.wait(Done, heavier)
    search.stop()
    assert len(made) > LEADING


def test_a_newer_answer_drops_a_load_distribution_at_its_next_step(monkeypatch):
    gate = Gate(load_distribution.lead)
    monkeypatch.setattr(load_distribution, "lead", gate)
    reports = Reports()
    search = Search(reports, load=lambda: small_catalogue(3))
    search.start(ANSWERS)
    assert gate.entered.wait(PATIENCE)
    newer = answered(DUTY | {"duty.life": "2000"})
    search.start(newer)
    reports.wait(Listed, newer)
    assert not any(isinstance(one, Done) and one.answers is ANSWERS for one in reports.found)
    gate.open.set()
    reports.wait(Done, newer)
    search.stop()


def test_a_halt_is_told_and_what_is_asked_for_afterwards_is_computed(monkeypatch):
    gate = Gate(load_distribution.lead)
    monkeypatch.setattr(load_distribution, "lead", gate)
    reports = Reports()
    search = Search(reports, load=lambda: small_catalogue(3))
    search.start(ANSWERS)
    assert gate.entered.wait(PATIENCE)
    search.studies.halt()
    assert reports.wait(Done, ANSWERS).halted
    listed = reports.wait(Listed, ANSWERS)
    pair = tuple(str(side.designation[3]) for side in (listed.shortlist.evaluated.A, listed.shortlist.evaluated.B))
    assert search.look(pair) is None
    studied = reports.wait(Studied, ANSWERS)
    assert studied.pair == pair and studied.result.study is not None
    assert search.look(pair) is studied.result
    search.stop()


def test_the_chosen_pair_is_there_at_once_and_whole_later(catalogue):
    answers = answered(
        DUTY | {"choice.bearing_a": str(catalogue.designation[5]), "choice.bearing_b": str(catalogue.designation[7])}
    )
    reports = Reports()
    search = Search(reports, load=lambda: catalogue)
    search.start(answers)
    reports.wait(Done, answers)
    search.stop()
    first, second = (one for one in reports.found if isinstance(one, Computed))
    assert (first.whole, second.whole) == (False, True)
    assert first.result.study is None and second.result.study is not None
    more = {check.key for check in second.result.checks} - {check.key for check in first.result.checks}
    assert {"setting_band", "distribution_life", "distribution_pressure", "chance"} <= more


# the screens


@by_hand
async def test_the_chapter_shows_the_pair_in_view(hand):
    hand.questions.chapter = "setting"
    hand.questions.show_all()
    assert hand.sees("How the setting is made")
    await hand.press("v")
    assert front(hand) is SettingScreen
    await hand.rest()
    for text in ("Setting: A ", "In service", "Life against setting", "| band", "O setting"):
        assert hand.sees(text), text
    await hand.press("end")
    assert hand.sees("Why this life is not the catalogue's")
    await hand.press("escape")
    assert front(hand) is ChapterScreen


@by_hand
async def test_the_page_has_chain_fitter_rollers_and_chances(hand):
    hand.app.show_setting()
    await hand.pilot.pause()
    await until(lambda: hand.app.screen.result is not None, "the study")
    text = "\n".join("".join(piece for piece, _ in row) for row in hand.app.screen.rows.lines)
    for part in ("From the bench into service", "For the fitter", "Stiffness and heat", "Roller loads, load case 1",
                 "rollers loaded", "Chances over 10 000 draws", "N m", " in"):  # fmt: skip
        assert part in text, part
    await hand.press("i")
    text = "\n".join("".join(piece for piece, _ in row) for row in hand.app.screen.rows.lines)
    assert "setting in service [in]" in text
    await hand.press("n")
    assert hand.app.screen.view.case == 0  # there is but one case


@by_hand
async def test_the_shortlist_marks_what_the_load_distribution_says(hand):
    await hand.press("s")
    assert hand.sees("MPa, passes") or hand.sees("MPa, FAILS")
    marks = [line[5] for line in hand.screen()[3:18] if line[:4].strip().isdigit()]
    assert set(marks[:LEADING]) <= {"✓", "✗"} and len(marks) > LEADING
    assert set(marks[LEADING:]) == {" "}
    await hand.press("end")
    assert hand.sees("for the first 10 only")
    # the count is that of the closed formulas, whatever the marks say
    assert hand.sees(f"{hand.app.standing.counted.count} of")


@by_hand
async def test_keys_are_dealt_with_while_it_computes_and_the_rest_follows(hand):
    gate = Gate(record_result.compute)
    hand.monkeypatch.setattr(record_result, "compute", gate)
    await hand.press("s", "down", "enter")
    assert front(hand) is PairScreen
    assert gate.entered.wait(PATIENCE)
    await until(lambda: hand.sees("50 %"), "the progress bar")
    assert hand.sees("so far; load distribution")
    assert hand.sees("Checks")  # the closed formulas are there already
    await hand.press("down", "down")
    assert hand.app.screen.rows.at > 1
    gate.open.set()
    await until(lambda: not hand.sees("so far"), "the load distribution")
    assert any(check.key == "setting_band" for check in hand.app.screen.result.checks)


@by_hand
async def test_x_stops_it_and_x_goes_on(hand):
    gate = Gate(record_result.compute)
    hand.monkeypatch.setattr(record_result, "compute", gate)
    await hand.press("s", "down", "v")
    assert front(hand) is SettingScreen
    assert gate.entered.wait(PATIENCE)
    await until(lambda: hand.sees("x stops it"), "the progress bar")
    await hand.press("x")
    await until(lambda: hand.sees("Stopped before it was computed"), "the halt")
    gate.open.set()
    await hand.press("x")
    await until(lambda: hand.app.screen.result is not None, "the study")
    assert hand.sees("In service")
    await hand.press("escape")
    assert front(hand) is ShortlistScreen


@by_hand
async def test_the_record_gets_the_result_only_when_it_is_whole(hand):
    gate = Gate(record_result.compute)
    hand.monkeypatch.setattr(record_result, "compute", gate)
    await hand.press("s", "c")
    assert gate.entered.wait(PATIENCE)
    await until(lambda: hand.app.standing.result is not None, "the closed formulas")
    assert hand.app.standing.verdict[0] == "passes"
    assert "result" not in tomllib.loads(hand.app.session.path.read_text())
    await hand.press("escape")
    assert hand.sees("passes so far, setting")
    gate.open.set()
    await hand.rest()
    kept = tomllib.loads(hand.app.session.path.read_text())["result"]
    assert any(check["key"] == "chance" for check in kept["checks"])
    assert any(figure["block"].startswith("Life against setting") for figure in kept["figures"])
    assert read(hand.app.session.path).answers == hand.answers


def test_without_a_pair_the_view_says_so(tmp_path):
    async def sit():
        async with wizard(new_session(tmp_path)) as hand:
            await hand.rest()
            hand.app.show_setting()
            await hand.pilot.pause()
            assert hand.sees("The loads are not yet known") or hand.sees("No pair is chosen")

    asyncio.run(sit())


def test_what_cannot_be_computed_is_said(tmp_path):
    async def sit():
        async with wizard(new_session(tmp_path, DUTY | {"duty.locating": "unit_a"})) as hand:
            await hand.rest()
            hand.app.show_setting()
            await hand.pilot.pause()
            await until(lambda: hand.app.screen.result is not None or hand.sees("No pair"), "the reason")
            assert hand.sees("two paired units") or hand.sees("No pair")

    asyncio.run(sit())


def test_rollers_around_the_circle():
    drawn = circle([10.0, 5.0, 0.0, 0.4], "A", 9, 5)
    assert drawn == ["    9    ", "         ", "0   A   5", "         ", "    .    "]
    assert circle([], "B", 5, 3) == ["     ", "  B  ", "     "]
    # two on one cell: the heavier one is seen
    crowd = circle([1.0] * 30 + [2.0] + [1.0] * 29, "", 7, 3)
    assert "9" in "".join(crowd)
