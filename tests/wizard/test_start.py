"""A start without a file name: new, what was worked on last, the example."""

import asyncio

import pytest
from rich.cells import cell_len

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


def test_every_way_is_told_whole_where_there_is_room(folder):
    for width in (60, 80):
        shown = lines_of(recent.offers(folder), width)
        assert [one for one in shown if one.endswith("saved as you go")]
        assert [one for one in shown if one.endswith("kept in a copy")]


def test_records_of_one_job_are_told_apart_and_what_is_cut_shows_a_tilde(folder, tmp_path, monkeypatch):
    monkeypatch.setenv("HOME", str(tmp_path))
    job = "Ropeway, deflection sheave in the valley station, 2nd tower"
    places = [tmp_path / "rec" / "r.toml", tmp_path / "rec" / "r-mine-20261126-213431.toml", tmp_path / "fu" / "r.toml"]
    for place in places:
        place.parent.mkdir(exist_ok=True)
        recent.remember(folder, kept(place, job))
    offers = recent.offers(folder)
    for width in (60, 80, 140):
        shown = lines_of(offers, width)
        assert all(cell_len(one) <= width for one in shown)
        for place in places:
            assert [one for one in shown if one.split() == [place.name, f"~/{place.parent.name}"]]
        titled = [one for one in shown if "Ropeway" in one]
        assert len(titled) == 3
        assert all(job in one or "~  20" in one for one in titled)
        assert len({one.rindex("  20") for one in titled}) == 1  # the times stand under each other
    assert all(job in one for one in lines_of(offers, 140) if "Ropeway" in one)


def test_a_session_without_any_name_says_so_and_when_it_was_begun(folder):
    folder.mkdir(parents=True)
    Session(Record(answered(DUTY)), folder / "session-20261126-213431.toml", named=False).answer("duty.life", "777")
    (offer,) = recent.offers(folder)[1:-1]
    assert offer.title == "unnamed, begun 2026-11-26 21:34"
    assert offer.file == "session-20261126-213431.toml"


def test_a_record_that_was_opened_by_two_ways_is_offered_once_with_its_folder_resolved(folder, tmp_path):
    (tmp_path / "a").mkdir()
    kept(tmp_path / "a" / "r.toml", "the job")
    recent.remember(folder, tmp_path / "a" / "r.toml")
    recent.remember(folder, tmp_path / "a" / ".." / "a" / "r.toml")
    (tmp_path / "b").symlink_to(tmp_path / "a")
    recent.remember(folder, tmp_path / "b" / "r.toml")
    (offer,) = recent.offers(folder)[1:-1]
    assert (offer.folder, offer.file) == (str(tmp_path / "a"), "r.toml")


def test_the_job_is_shown_as_it_was_typed(folder, tmp_path):
    recent.remember(folder, kept(tmp_path / "r.toml", 'a "quoted" \\ job'))
    assert recent.offers(folder)[1].title == 'a "quoted" \\ job'


def test_the_lines_of_the_last_file_come_into_view_together(folder, tmp_path):
    for at in range(7):
        recent.remember(folder, kept(tmp_path / f"r{at}.toml", f"job {at}"))
    last = recent.offers(folder)[-2].file

    async def sit():
        session, _ = open_session.record_or_new(None)
        beginning = Beginning(open_session.ways_to_begin(), open_session.chosen, open_session.remember)
        app = Conewright(session, COLOUR, load=lambda: small_catalogue(1), beginning=beginning)
        async with app.run_test(size=(60, 20)) as pilot:
            hand = Hand(app, pilot)
            await until(lambda: hand.sees("Esc new session"), "the start screen")
            await hand.press(*["down"] * 7)
            assert hand.sees(last)

    asyncio.run(sit())
