"""A start without a file name: new, what was worked on last, the example."""

import asyncio

import pytest

from engine.record.document import Record
from engine.record.read import read
from tests.duties import answered, small_catalogue
from tests.wizard.running import COLOUR, DUTY, Hand, until
from wizard.app import Conewright
from wizard.commands import open_session, recent
from wizard.screens.opening.beginning import Beginning
from wizard.screens.opening.start import page
from wizard.session import Session


@pytest.fixture
def folder(tmp_path, monkeypatch):
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))
    return tmp_path / "state" / "conewright"


def kept(path, job):
    session = Session(Record(answered(DUTY)), path, named=True)
    session.answer("duty.job", job)
    return path


def test_what_was_worked_on_last_is_offered_first(folder, tmp_path):
    folder.mkdir(parents=True)
    kept(folder / "session-20250101-000000.toml", "left in the middle")
    for name in ("first", "second"):
        recent.remember(folder, kept(tmp_path / f"{name}.toml", f"the {name} job"))
    titles = [offer.title for offer in recent.offers(folder)]
    assert titles[0] == "new session"
    assert set(titles[1:-1]) == {"left in the middle", "the first job", "the second job"}
    assert titles[-1] == "example"


def test_a_record_that_is_gone_and_a_list_that_is_broken_are_passed_over(folder, tmp_path):
    recent.remember(folder, tmp_path / "never.toml")
    assert [offer.title for offer in recent.offers(folder)] == ["new session", "example"]
    (folder / "recent.txt").write_bytes(b"\xff\x00\n\x1b[31mred\n")
    assert [offer.title for offer in recent.offers(folder)] == ["new session", "example"]


def started(keys, then):
    """Start with the ways to begin, press keys, and look."""

    async def sit():
        session, _ = open_session.record_or_new(None)
        beginning = Beginning(open_session.ways_to_begin(), open_session.chosen, open_session.remember)
        app = Conewright(session, COLOUR, load=lambda: small_catalogue(1), beginning=beginning)
        async with app.run_test(size=(80, 24)) as pilot:
            hand = Hand(app, pilot)
            await until(lambda: hand.sees("Esc new session"), "the start screen")
            await hand.press(*keys)
            await until(lambda: not hand.sees("Esc new session"), "the questions")
            await then(hand)

    asyncio.run(sit())


@pytest.mark.usefixtures("folder")
def test_enter_begins_a_new_session():
    async def then(hand):
        assert hand.marked == "duty.job"
        assert hand.app.session.empty

    started(["enter"], then)


@pytest.mark.usefixtures("folder")
def test_the_example_is_opened_as_a_copy():
    async def then(hand):
        assert hand.answers.duty.job
        assert not hand.app.session.named

    started(["2"], then)


def test_a_session_is_gone_on_with_and_answers_go_to_its_file(folder):
    folder.mkdir(parents=True)
    path = kept(folder / "session-20250101-000000.toml", "left in the middle")

    async def then(hand):
        await hand.go("duty.life")
        await hand.press(*"777", "enter")
        assert read(path).answers.duty.life.value == 777

    started(["2"], then)


def test_a_record_that_cannot_be_read_is_said_and_a_new_session_begins(folder, tmp_path):
    broken = tmp_path / "broken.toml"
    broken.write_text("schema = [")
    recent.remember(folder, broken)

    async def then(hand):
        assert hand.app.session.empty
        assert hand.sees("broken.toml")

    started(["2"], then)


def lines_of(offers, width):
    return ["".join(text for text, _ in parts).rstrip() for parts in page(offers, width)[0]]


def test_every_way_is_told_whole_and_what_does_not_fit_is_marked_as_cut(folder, tmp_path):
    folder.mkdir(parents=True)
    for width in (60, 80):  # with nothing worked on yet
        shown = lines_of(recent.offers(folder), width)
        assert [one for one in shown if one.endswith("saved as you go")]
        assert [one for one in shown if one.endswith("kept in a copy")]
    kept(folder / "session-20250101-000000.toml", "a job with a name of many letters")
    recent.remember(folder, kept(tmp_path / "first.toml", "another"))
    offers = recent.offers(folder)
    shown = lines_of(offers, 80)
    assert shown[-1].endswith("kept in a copy")
    assert [one for one in shown if one.endswith("saved as you go")]
    for width in (60, 80):
        for offer, one in zip(offers, lines_of(offers, width)[-len(offers) :], strict=True):
            assert len(one) <= width
            assert one.endswith(offer.about) or one.endswith("~")
