"""The thread that answers questions: the newest wins, any can be stopped, and nothing it meets ends it."""

import threading

import pytest

from engine.answers.document import Answers
from engine.errors import Problem, Problems
from engine.selection.stages.blocks import SearchCancelled
from tests.wizard.running import PATIENCE
from wizard.studies.inquiry import Answered, Ended, Going, Inquiries, Inquiry, Part


class Words:
    """What was told, with a way to wait for a kind of it."""

    def __init__(self):
        self.told = []
        self.wake = threading.Condition()

    def __call__(self, word):
        with self.wake:
            self.told.append(word)
            self.wake.notify_all()

    def wait(self, kind, inquiry):
        def here():
            return next((one for one in self.told if isinstance(one, kind) and one.inquiry is inquiry), None)

        with self.wake:
            assert self.wake.wait_for(here, PATIENCE), f"no {kind.__name__} among {self.told}"
            return here()


@pytest.fixture
def words():
    return Words()


@pytest.fixture
def inquiries(words):
    made = Inquiries(words)
    yield made
    made.stop()
    if made._thread is not None:
        made._thread.join(PATIENCE)
        assert not made._thread.is_alive()


def asked(work):
    return Inquiry(Answers(), work)


def test_what_is_asked_is_answered_with_its_parts_before(inquiries, words):
    def work(ear):
        ear.part("half")
        ear.part("all")
        return 42

    one = asked(work)
    inquiries.ask(one)
    assert words.wait(Answered, one).found == 42
    assert [word.part for word in words.told if isinstance(word, Part)] == ["half", "all"]
    assert isinstance(words.told[-1], Answered)


class Long:
    """Work that goes on until it is stopped."""

    def __init__(self):
        self.begun = threading.Event()

    def __call__(self, ear):
        while not ear.cancelled():
            ear.progress("looking", 0.25)
            self.begun.set()
        raise SearchCancelled


def test_the_newest_wins(inquiries, words):
    long = Long()
    one, other, last = asked(long), asked(lambda _: "never"), asked(lambda _: "last")
    inquiries.ask(one)
    assert long.begun.wait(PATIENCE)
    inquiries.ask(other)
    inquiries.ask(last)
    assert words.wait(Answered, last).found == "last"
    assert words.wait(Ended, one).wrong == ""


def test_what_runs_is_stopped_and_the_next_one_is_answered(inquiries, words):
    long = Long()
    one = asked(long)
    inquiries.ask(one)
    assert long.begun.wait(PATIENCE)
    assert words.wait(Going, one).share == 0.25
    inquiries.drop(one)
    assert words.wait(Ended, one).wrong == ""
    other = asked(lambda _: 7)
    inquiries.ask(other)
    assert words.wait(Answered, other).found == 7


def test_what_waits_is_dropped_too(inquiries, words):
    long = Long()
    one, other = asked(long), asked(lambda _: "never")
    inquiries.ask(one)
    assert long.begun.wait(PATIENCE)
    with inquiries._wake:  # the thread cannot take the next one meanwhile
        inquiries._wanted = other
    inquiries.drop(other)
    assert words.wait(Ended, other).wrong == ""
    inquiries.drop(one)
    words.wait(Ended, one)
    assert not any(isinstance(word, Answered) for word in words.told)


@pytest.mark.parametrize(
    ("error", "said"),
    [
        (Problems([Problem("", None, "designation", "no such name", "one that is there")]), "no such name"),
        (ValueError("row \x1b[31m 7"), "ValueError"),
        (MemoryError(), "MemoryError"),
    ],
    ids=["problems", "value", "memory"],
)
def test_an_error_is_told_and_the_thread_lives_on(inquiries, words, error, said):
    def work(_ear):
        raise error

    one, other = asked(work), asked(lambda _: 1)
    inquiries.ask(one)
    wrong = words.wait(Ended, one).wrong
    assert said in wrong
    assert wrong.isprintable()
    inquiries.ask(other)
    assert words.wait(Answered, other).found == 1


def test_stopping_what_never_started(words):
    Inquiries(words).stop()
    assert words.told == []
