"""A measured spectrum from a CSV file, by the session and by hand: good, damaged, binary, large; kept by the record."""

import asyncio
import math

import numpy as np
import pytest

from engine.answers.binned import Bins
from engine.answers.document import get, question_at
from engine.answers.resolved import resolve
from engine.duty import histogram
from engine.duty.cases import load_cases
from engine.errors import Problems
from engine.rating.life import mean_load
from engine.record.document import Record
from engine.record.histogram_file import format_help
from engine.record.read import read
from tests.duties import answered
from tests.wizard.running import DUTY, new_session, wizard
from wizard.session import Session

PATH = "duty.cases[0].histogram"
GOOD = "share_percent,speed_rpm,load_factor,temperature_degC\n12.5,1450,1.25,80\n37.5,1450,0.5,60\n50,725,0.125,55\n"


@pytest.fixture
def session(tmp_path):
    return Session(Record(answered(DUTY)), tmp_path / "r.toml", named=True)


@pytest.fixture
def file_of(tmp_path):
    def written(content, name="week.csv"):
        path = tmp_path / name
        path.write_bytes(content if isinstance(content, bytes) else content.encode())
        return str(path)

    return written


def test_a_file_becomes_the_answer(session, file_of):
    assert session.read_histogram(PATH, file_of(GOOD)) == ()
    bins = get(session.answers, PATH)
    assert (bins.file, bins.share, bins.speed, bins.level, bins.temperature) == (
        "week.csv", (0.125, 0.375, 0.5), (1450, 1450, 725), (1.25, 0.5, 0.125), (80, 60, 55),
    )  # fmt: skip
    # by hand: turns 1/6, 1/2, 1/3 of all; (1.25^(10/3)/6 + 0.5^(10/3)/2 + 0.125^(10/3)/3)^(3/10) = 0.760
    assert session.last_change == (
        "Measured spectrum: 3 bins of week.csv, mean speed 1088 rpm, equivalent constant load factor 0.76"
    )
    assert float(mean_load(bins.share, bins.speed, bins.level)) == pytest.approx(0.760, abs=5e-4)


def test_bins_that_stand_have_no_equivalent_load():
    still = Bins("x.csv", (1.0,), (0.0,), (2.0,))
    assert question_at(PATH).show(still) == "1 bins of x.csv, mean speed 0 rpm"


def test_the_record_keeps_the_bins_and_needs_no_file_any_more(session, file_of, tmp_path):
    name = file_of(GOOD)
    session.read_histogram(PATH, name)
    (tmp_path / "week.csv").unlink()
    again = read(session.path)
    assert again.answers == session.answers
    assert len(load_cases(resolve(again.answers))) == 3
    session.undo()
    assert get(session.answers, PATH) is None
    assert get(read(session.path).answers, PATH) is None


def test_forces_become_factors_on_the_greatest_of_them_and_that_is_said(session, file_of):
    notes = session.read_histogram(PATH, file_of("count,speed,torque_Nm\n1000,100,500\n1000,200,125\n"))
    assert get(session.answers, PATH).level == (1.0, 0.25)
    assert notes == ("The forces of the case are those at the greatest load of the file, 500000 N mm.",)


def test_what_was_taken_for_granted_of_a_file_stands_in_the_record_and_among_the_assumptions(session, file_of):
    notes = session.read_histogram(PATH, file_of("cycles,mean_kN,range_kN\n100,20,10\n50,-20,10\n"))
    again = read(session.path)
    assert get(again.answers, PATH).notes == notes and again.answers == session.answers
    said = [str(one) for one in resolve(again.answers).assumptions if one.path == PATH]
    assert len(said) == len(notes) == 3
    assert any("Load case 1, measured spectrum: 1 of 2 cycles have a mean below 0" in one for one in said)


def test_a_file_without_speeds_has_that_of_its_case(session, file_of):
    session.read_histogram(PATH, file_of("hours;load\n3;1\n1;0,5\n"))
    bins = get(session.answers, PATH)
    assert bins.speed == (400, 400)  # the speed of DUTY
    assert bins.share == (0.75, 0.25)
    session.clear(PATH)
    session.clear("duty.cases[0].speed")
    with pytest.raises(Problems, match="no column says the speed"):
        session.read_histogram(PATH, file_of("hours;load\n3;1\n1;0,5\n"))


DAMAGED = {
    "no number": ("share,speed,load\n0.5,100,1\n0.5,abc,1\n", "line 3"),
    "a negative load": ("share,speed,load\n0.5,100,1\n0.5,100,-1\n", "a reversed load is a case of its own"),
    "no share": ("speed,load\n100,1\n", "no column says how often"),
    "no load": ("share,speed\n1,100\n", "no column says the load"),
    "nothing in it": ("", "is empty"),
    "headers alone": ("share,speed,load\n", "row"),
    "nothing above 0": ("share,speed,force_N\n1,100,0\n", "no load above 0"),
    "a temperature here and there": ("share,speed,load,temperature\n1,100,1,60\n1,100,1,\n", "in every row or in none"),
    "too many bins": ("share,speed,load\n" + "1,100,1\n" * 5001, "holds 5001 bins"),
    "binary": (bytes(range(256)) * 40, "week.csv"),
    "a picture": (b"\x89PNG\r\n\x1a\n" + b"\x00\x00\x00\rIHDR" * 500, "week.csv"),
}


@pytest.mark.parametrize("name", DAMAGED)
def test_a_damaged_file_is_refused_with_the_place_and_nothing_is_lost(name, session, file_of):
    content, said = DAMAGED[name]
    before = session.answers
    with pytest.raises(Problems) as problems:
        session.read_histogram(PATH, file_of(content))
    assert said in str(problems.value)
    assert str(problems.value).isprintable() or "\n" in str(problems.value)
    assert session.answers is before
    assert not session.undo()


@pytest.mark.parametrize("name", ["none.csv", ".", "", "nul\0byte.csv", "~nobody-of-that-name/x.csv", "x" * 300])
def test_a_name_that_leads_nowhere_is_refused(name, session, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    with pytest.raises(Problems):
        session.read_histogram(PATH, name)


def test_the_sample_of_the_format_is_read_and_every_column_explained(session, file_of):
    *paragraphs, header, one, two, three = format_help()
    assert session.read_histogram(PATH, file_of("\n".join((header, one, two, three)))) == ()
    assert get(session.answers, PATH).level == (1.25, 0.5, 0.125)
    for column in histogram.COLUMNS:
        assert any(text.startswith(", ".join(column.names)) for text in paragraphs)


def test_a_thousand_bins_go_through_the_record_bit_by_bit(session, file_of):
    draw = np.random.default_rng(5)
    rows = zip(draw.uniform(0.01, 3, 1000), draw.uniform(10, 900, 1000), draw.uniform(0, 1.5, 1000), strict=True)
    lines = "\n".join(",".join(repr(float(value)) for value in row) for row in rows)
    session.read_histogram(PATH, file_of(f"hours,speed_rpm,load_factor\n{lines}\n"))
    kept = get(session.answers, PATH)
    assert len(kept) == 1000
    assert math.fsum(kept.share) == pytest.approx(1)
    again = get(read(session.path).answers, PATH)
    assert again == kept


def test_typed_in_the_wizard(tmp_path, file_of):
    name = file_of("share_percent,speed_rpm,load_factor\n30,400,1\n50,300,0.5\n")
    wrong = file_of("share_percent,speed_rpm,load_factor\n30,abc,1\n", "wrong.csv")

    async def scene():
        async with wizard(new_session(tmp_path, DUTY)) as hand:
            await hand.go(PATH)
            await hand.press("question_mark")
            assert hand.sees("Format of a measured spectrum")
            for _ in range(6):  # the formulas stand before the format
                await hand.press("pagedown")
                if hand.sees("time, hours, duration (units: h, min, s): the same as time."):
                    break
            assert hand.sees("time, hours, duration (units: h, min, s): the same as time.")
            await hand.press("escape", "enter")
            await hand.type(wrong)
            await hand.press("enter")
            assert hand.sees("line 2")
            assert get(hand.answers, PATH) is None
            await hand.press("ctrl+u")
            await hand.type(name)
            await hand.press("enter")
            await hand.rest()
            assert len(get(hand.answers, PATH)) == 2
            assert hand.sees("The shares add up to 80 %; they are scaled to 100 %.")
            await hand.press("up", "down")
            assert hand.sees("2 bins of week.csv")
            await hand.press("u")
            assert get(hand.answers, PATH) is None

    asyncio.run(scene())
