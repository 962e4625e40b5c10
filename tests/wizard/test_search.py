"""One running search: the latest answers win, the rest is dropped, and nothing that a catalogue holds ends it."""

import threading

import pytest

from engine.answers.document import put
from engine.record.result import Result
from engine.selection import rank, screen
from tests.duties import answered, conditions, small_catalogue
from tests.wizard.running import DUTY, PATIENCE
from wizard.search import Computed, Counted, Failed, Listed, Search

ANSWERS = answered(DUTY)


def test_a_search_counts_and_lists_what_the_engine_does(search, reports):
    search.start(ANSWERS)
    listed = reports.wait(Listed, ANSWERS)
    counted = reports.wait(Counted, ANSWERS)
    catalogue, duty = small_catalogue(3), conditions(ANSWERS)
    wanted = screen.screen(catalogue, duty)
    assert 0 < counted.count == wanted.count < counted.listed == 40 * 40
    assert counted.too_many == wanted.too_many
    assert counted.resolved == duty.resolved
    first = rank.shortlist(catalogue, wanted, duty)
    assert listed.rank_by == "mass"
    assert listed.shortlist.rows_A.tolist() == first.rows_A.tolist()
    assert listed.shortlist.rows_B.tolist() == first.rows_B.tolist()
    assert [type(one) for one in reports.found[:2]] == [Counted, Listed]


def test_the_shortlist_is_ranked_as_wanted_and_no_longer_than_wanted(reports):
    search = Search(reports, most=5, load=lambda: small_catalogue(3))
    by_life = put(ANSWERS, "choice.rank_by", "life")
    search.start(by_life)
    listed = reports.wait(Listed, by_life)
    search.stop()
    assert listed.rank_by == "life"
    assert len(listed.shortlist) == 5
    lives = listed.shortlist.life.tolist()
    assert lives == sorted(lives, reverse=True)


def test_the_latest_answers_win(reports):
    """A search held up while reading its catalogue is asked for more; only the last request is answered."""
    reading, go_on = threading.Event(), threading.Event()

    def slow():
        reading.set()
        assert go_on.wait(PATIENCE)
        return small_catalogue(3)

    search = Search(reports, load=slow)
    wanted = [put(ANSWERS, "duty.life", put_life) for put_life in map(_hours, (1000, 2000, 3000, 4000))]
    search.start(wanted[0])
    assert reading.wait(PATIENCE)
    for answers in wanted[1:]:
        search.start(answers)
    go_on.set()
    reports.wait(Listed, wanted[-1])
    search.stop()
    about = {id(one.answers) for one in reports.found}
    assert id(wanted[1]) not in about
    assert id(wanted[2]) not in about
    assert not any(isinstance(one, Listed) and one.answers is wanted[0] for one in reports.found)


def _hours(number):
    return answered({"duty.life": str(number)}).duty.life


def test_a_newer_request_stops_the_running_one_at_its_next_step(reports, monkeypatch):
    started, newer = threading.Event(), threading.Event()
    real = screen.decide

    def stepping(field, cancelled, progress):
        if not started.is_set():
            started.set()
            assert newer.wait(PATIENCE)
            assert cancelled()  # what the search is told at each of its steps
            raise screen.SearchCancelled
        return real(field, cancelled, progress)

    monkeypatch.setattr(screen, "decide", stepping)
    search = Search(reports, load=lambda: small_catalogue(3))
    search.start(ANSWERS)
    assert started.wait(PATIENCE)
    other = put(ANSWERS, "duty.life", _hours(500))
    search.start(other)
    newer.set()
    reports.wait(Listed, other)
    search.stop()
    assert all(one.answers is other for one in reports.found)


def test_stopping_ends_a_search_that_runs(reports, monkeypatch):
    started, stopped = threading.Event(), threading.Event()

    def stepping(_field, cancelled, _progress):
        started.set()
        assert stopped.wait(PATIENCE)
        if cancelled():
            raise screen.SearchCancelled
        raise AssertionError("it was not told to stop")

    monkeypatch.setattr(screen, "decide", stepping)
    search = Search(reports, load=lambda: small_catalogue(3))
    search.start(ANSWERS)
    assert started.wait(PATIENCE)
    search.stop()
    stopped.set()
    search._thread.join(PATIENCE)
    assert not search._thread.is_alive()
    assert reports.found == []


def test_stopping_what_never_started(reports):
    Search(reports).stop()
    assert reports.found == []


@pytest.mark.parametrize(
    "wrong",
    [ValueError("row \x1b[31m 7"), OSError(5, "Input/output error"), MemoryError(), KeyError("steel")],
    ids=repr,
)
def test_a_broken_catalogue_is_reported_and_the_search_lives_on(reports, wrong):
    broken = [True]

    def load():
        if broken:
            broken.pop()
            raise wrong
        return small_catalogue(3)

    search = Search(reports, load=load)
    search.start(ANSWERS)
    failed = reports.wait(Failed, ANSWERS)
    assert failed.wrong.startswith(type(wrong).__name__)
    assert failed.wrong.isprintable()
    again = put(ANSWERS, "duty.life", _hours(500))
    search.start(again)
    assert reports.wait(Counted, again).count
    search.stop()


def test_the_chosen_pair_is_computed(search, reports):
    names = small_catalogue(3).designation[[5, 7]].tolist()
    chosen = put(put(ANSWERS, "choice.bearing_a", names[0]), "choice.bearing_b", names[1])
    search.start(chosen)
    computed = reports.wait(Computed, chosen)
    reports.wait(Listed, chosen)
    assert isinstance(computed.result, Result)
    assert (computed.result.bearing_A, computed.result.bearing_B) == tuple(names)
    assert computed.trouble == ""
    assert computed.catalogue == ("built-in", small_catalogue(3).content_hash())
    # the verdict is that of the screening
    wanted = screen.screen(small_catalogue(3), conditions(chosen))
    rows_A, rows_B = wanted.rows_A.tolist(), wanted.rows_B.tolist()
    passes = 5 in rows_A and 7 in rows_B and bool(wanted.passes[rows_A.index(5), rows_B.index(7)])
    assert computed.result.passes == passes


@pytest.mark.parametrize("bearing", ["bearing_a", "bearing_b"])
def test_a_chosen_bearing_that_the_catalogue_lacks_is_trouble_not_an_end(search, reports, bearing):
    name = str(small_catalogue(3).designation[5])
    chosen = put(put(ANSWERS, "choice.bearing_a", name), "choice.bearing_b", name)
    chosen = put(chosen, f"choice.{bearing}", "[bold]X[/]-99")
    search.start(chosen)
    computed = reports.wait(Computed, chosen)
    assert computed.result is None
    assert "[bold]X[/]-99" in computed.trouble
    assert len(reports.wait(Listed, chosen).shortlist)


def test_the_catalogue_is_read_once(reports):
    times = []

    def load():
        times.append(1)
        return small_catalogue(3)

    search = Search(reports, load=load)
    assert search.catalogue is None
    for life in (1000, 2000):
        answers = put(ANSWERS, "duty.life", _hours(life))
        search.start(answers)
        reports.wait(Listed, answers)
    search.stop()
    assert len(times) == 1
    assert len(search.catalogue) == 40


def test_without_another_catalogue_the_built_in_one_is_searched(reports, catalogue):
    search = Search(reports)
    search.start(ANSWERS)
    reports.wait(Listed, ANSWERS)
    search.stop()
    assert search.catalogue.content_hash() == catalogue.content_hash()


@pytest.mark.parametrize("side", ["a", "b"])
def test_a_wrong_designation_for_one_side_alone_is_said_before_anything_is_searched(search, reports, side):
    name = str(small_catalogue(3).designation[7])
    wrong = put(ANSWERS, f"choice.bearing_{side}", name[:-1] + "?")
    search.start(wrong)
    reports.wait(Listed, wrong)
    assert [type(one) for one in reports.found] == [Computed, Counted, Listed]
    said = reports.found[0].trouble
    assert reports.found[0].result is None
    assert said.startswith(f"{side.upper()}: no assembly is named") and name in said


def test_a_right_designation_for_one_side_alone_is_no_trouble(search, reports):
    right = put(ANSWERS, "choice.bearing_a", str(small_catalogue(3).designation[7]))
    search.start(right)
    reports.wait(Listed, right)
    assert [type(one) for one in reports.found] == [Counted, Listed]
