"""A measured table to a spectrum: what spreadsheets do to files is survived, and what is wrong is said by line."""

import numpy as np
import pytest

from engine.duty.histogram import read
from engine.errors import Problems

PLAIN = """share_percent,speed_rpm,load_factor,temperature_degC
12.5,1450,1.25,80
37.5,1450,0.5,60
50,725,0.125,
"""
SEMICOLONS = PLAIN.replace(",", ";")
COMMAS = SEMICOLONS.replace(".", ",")
HABITS = {
    "as it is": PLAIN.encode(),
    "as text": PLAIN,
    "UTF-8 with a mark": PLAIN.encode("utf-8-sig"),
    "UTF-16 with a mark": PLAIN.encode("utf-16"),
    "decimal commas": COMMAS.encode(),
    "sep= line": b"sep=;\r\n" + COMMAS.encode(),
    "tabs, CR LF": PLAIN.replace(",", "\t").replace("\n", "\r\n").encode(),
    "brackets": PLAIN.replace("share_percent", "Share [%]").replace("speed_rpm", "Speed (1/min)").encode(),
    "a title above": b"Measured on Tuesday,,\n\n" + PLAIN.encode(),
    "a remark and empty rows": b"# gauge 4\n" + PLAIN.encode() + b",,,\n\n",
    "units in the cells": PLAIN.replace("1450,", "1450 rpm,").encode(),
    "another order": "\n".join(",".join(reversed(line.split(","))) for line in PLAIN.split()).encode(),
}


@pytest.mark.parametrize("habit", HABITS)
def test_the_same_spectrum_comes_out(habit):
    found = read(HABITS[habit], "own.csv").spectrum
    assert found.share.tolist() == [0.125, 0.375, 0.5]
    assert found.n.tolist() == [1450, 1450, 725]
    assert found.load.tolist() == [1.25, 0.5, 0.125]
    assert found.temperature[:2].tolist() == [80, 60] and np.isnan(found.temperature[2])
    assert found.unit == "-"


class TestWhatColumnsMean:
    def test_hours(self):
        found = read("time_h,n,force_kN\n3,100,2\n1,200,4\n", "own.csv").spectrum
        assert found.share.tolist() == [0.75, 0.25]
        assert found.load.tolist() == [2000, 4000]
        assert found.unit == "N"
        assert found.factors(2000).load.tolist() == [1, 2]

    def test_counted_turns_are_made_time(self):
        # 1000 turns at 100 rpm take ten minutes, 1000 at 200 rpm five
        found = read("count,speed,torque_Nm\n1000,100,5\n1000,200,7\n", "own.csv").spectrum
        assert found.share == pytest.approx([2 / 3, 1 / 3])
        assert found.load.tolist() == [5000, 7000]
        assert found.unit == "N mm"

    def test_one_speed_for_a_table_without(self):
        found = read("count;load\n10;1\n30;0,5\n", "own.csv", n=900).spectrum
        assert found.n.tolist() == [900, 900]
        assert found.share.tolist() == [0.25, 0.75]

    def test_rain_flow_is_taken_at_its_top(self):
        # mean 2 kN, range 1 kN: the top of the cycle is 2.5 kN; backwards -2 and 1 give as much, which is said
        found = read("cycles,mean_kN,range_kN\n100,2,1\n50,-2,1\n", "own.csv", n=60)
        assert found.spectrum.load.tolist() == [2500, 2500]
        assert any("top" in note for note in found.notes)
        assert any(note.startswith("1 of 2 cycles have a mean below 0") for note in found.notes)
        ahead = read("cycles,mean_kN,range_kN\n100,2,1\n50,0,1\n", "own.csv", n=60)
        assert not any("below 0" in note for note in ahead.notes)

    def test_shares_that_do_not_add_up_are_scaled_and_said(self):
        found = read("share_%,n,load\n40,100,1\n40,100,2\n", "own.csv")
        assert found.spectrum.share.tolist() == [0.5, 0.5]
        assert "add up to 80 %" in " ".join(found.notes)

    def test_a_column_that_is_not_known_is_named(self):
        found = read("share,n,load,remark\n1,100,1,hm\n", "own.csv")
        assert any('"remark"' in note for note in found.notes)

    def test_thousands_of_bins(self):
        lines = "\n".join(f"{1 + at % 7},{100 + at},{0.001 * at:.3f}" for at in range(20_000))
        found = read(f"count,n,load\n{lines}\n", "own.csv").spectrum
        assert len(found) == 20_000
        assert found.share.sum() == pytest.approx(1)


WRONG = {
    "empty": ("", None, "", "is empty"),
    "no header": ("1,2,3\n4,5,6\n", None, "", "no header that is known"),
    "a word": ("share,n,load\n1,100,much\n", 2, "load", "not a number"),
    "negative load": ("share,n,load\n1,100,1\n1,100,-0.5\n", 3, "load", "is -0.5"),
    "negative share": ("share,n,load\n-1,100,1\n", 2, "share", "is -1"),
    "empty cell": ("share,n,load\n1,,1\n", 2, "n", "is empty"),
    "another unit in a cell": ("share,n,force_N\n1,100,5 kN\n", 2, "force_N", "behind the number"),
    "a force without unit": ("share,n,force\n1,100,5\n", 1, "force", "states no unit"),
    "two weights": ("share,time_h,n,load\n1,1,100,5\n", 1, "", "two columns say how much"),
    "no weight": ("n,load\n100,5\n", 1, "", "no column says how often"),
    "no load": ("share,n\n1,100\n", 1, "", "no column says the load"),
    "no speed": ("share,load\n1,100\n", 1, "", "no column says the speed"),
    "a range without a mean": ("count,range_N,n\n1,100,5\n", 1, "range_N", "has no mean"),
    "turns at a standstill": ("count,n,load\n5,0,1\n5,10,1\n", 2, "count", "at no speed"),
    "one header twice": ("share,n,n,load\n1,1,1,1\n", 1, "n", "names the same"),
    "no time at all": ("share,n,load\n0,1,1\n", 1, "share", "adds up to nothing"),
    "too many cells": ("share,n,load\n1,1,1,1\n1,1,1\n", 2, "", "holds 4 cells"),
    "binary": ("share,n,load\n1,\0,1\n", 2, "", "zero byte"),
    "two readings": ("share;n;load\n1.5;1.000;2,5\n", 2, "n", "can be read as"),
    "negative top": ("count,n,mean,range\n1,1,1,-1\n", 2, "range", "is -1"),
}


@pytest.mark.parametrize("case", WRONG)
def test_what_is_wrong_is_said_with_its_place(case):
    text, line, field, wrong = WRONG[case]
    with pytest.raises(Problems) as raised:
        read(text, "own.csv")
    first = raised.value.problems[0]
    assert first.path == "own.csv"
    assert (first.line, first.field) == (line, field)
    assert wrong in first.wrong
    assert first.accepted


def test_everything_wrong_is_said_at_once():
    with pytest.raises(Problems) as raised:
        read("share,n,load\nx,1,1\n1,y,1\n1,1,z\n", "own.csv")
    assert [(problem.line, problem.field) for problem in raised.value.problems] == [(2, "share"), (3, "n"), (4, "load")]


def test_shares_scale_so_that_they_add_up_to_one():
    found = read("count,n,load\n3,70,1\n11,300,0.2\n2,45,0.9\n", "own.csv").spectrum
    assert found.share.sum() == pytest.approx(1, rel=1e-15)
