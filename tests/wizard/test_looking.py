"""A record that is only looked at stays as it is, to the byte and the second, until an answer is accepted."""

import asyncio
import functools
import os

from engine.record.read import read
from tests.wizard.running import DUTY, new_session, until, wizard
from wizard.session import Session


def sitting(test):
    """Run a coroutine test."""

    @functools.wraps(test)
    def run(tmp_path):
        asyncio.run(test(tmp_path))

    return run


def written(folder, chosen=()):
    """Return the file of a record, as old as can be told apart, and what stands in it."""
    folder.mkdir(exist_ok=True)
    session = new_session(folder, DUTY)
    if chosen:
        session.choose(*chosen)
    assert session.save()
    os.utime(session.path, ns=(10**18, 10**18))
    return session.path, session.path.read_bytes()


def untouched(path, content):
    return path.read_bytes() == content and path.stat().st_mtime_ns == 10**18


@sitting
async def test_looking_through_every_screen_and_leaving_rewrites_nothing(tmp_path):
    async with wizard(new_session(tmp_path / "unwritten", DUTY)) as hand:
        await hand.rest()
        bearings = hand.app.standing.listed.shortlist.evaluated
        pair = str(bearings.A.designation[0]), str(bearings.B.designation[0])
    path, content = written(tmp_path, pair)
    async with wizard(Session(read(path), path, named=True)) as hand:
        await hand.rest()
        assert hand.app.standing.whole  # the figures of the chosen pair were computed, and are not in the file
        await hand.press("s")
        await until(lambda: hand.app.screen.PLACE == "shortlist", "the shortlist")
        await hand.press("enter", "escape", "escape", "right", "?", "escape", "g", *"fit", "escape", "t", "escape", "u")
        assert untouched(path, content)
        await hand.press("q")
    assert untouched(path, content)


@sitting
async def test_an_accepted_answer_is_written_with_the_figures_that_follow(tmp_path):
    path, content = written(tmp_path)
    async with wizard(Session(read(path), path, named=True)) as hand:
        await hand.go("duty.reliability")
        await hand.type("95")
        assert untouched(path, content)  # typed, not accepted yet
        await hand.press("enter")
        assert read(path).answers.duty.reliability.value == 95.0
        await hand.press("u")
        assert read(path).answers == hand.answers  # undone: the file follows
    assert not untouched(path, content)


@sitting
async def test_a_file_taken_away_while_it_is_looked_at_is_written_anew_on_leaving(tmp_path):
    path, _ = written(tmp_path)
    async with wizard(Session(read(path), path, named=True)) as hand:
        path.unlink()
        await hand.press("q")
    assert read(path).answers == hand.answers
