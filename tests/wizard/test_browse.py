"""The list of the catalogue: its order, its columns, and the room that it tells, against plain Python."""

import csv
import dataclasses
import re

import numpy as np
import pytest
from rich.cells import cell_len

from engine.answers.document import put
from engine.answers.question import Limits
from engine.catalogue.columns import Catalogue, estimated_bit
from engine.catalogue.read import builtin
from engine.catalogue.room import Limit
from tests.duties import answered
from tests.house.tree import ROOT
from wizard.screens import parts
from wizard.screens.parts import ORDERS, View

ALL = builtin()
EVERY = np.ones(len(ALL), dtype=bool)


def shown(view: View, at: int, width: int = 80) -> str:
    return "".join(text for text, _ in parts.row_line(ALL, at, view, width))


def heading(view: View, width: int = 80) -> str:
    return "".join(text for text, _ in parts.heading(view, width))


@pytest.mark.parametrize("downwards", [False, True], ids=["up", "down"])
@pytest.mark.parametrize("order", ORDERS)
def test_the_list_is_in_the_order_of_its_column(order, downwards):
    found = parts.ordered(ALL, EVERY, View(order=order, downwards=downwards))
    values = getattr(ALL, order)[found].tolist()
    if order == "availability":
        values = [["stocked", "on_request", "discontinued"].index(value) for value in values]
    assert values == sorted(values, reverse=downwards)
    assert sorted(found) == list(range(len(ALL)))


def test_what_is_not_known_stands_last_in_either_order():
    cost = ALL.cost.copy()
    cost[[3, 99]] = np.nan
    columns = {field.name: getattr(ALL, field.name) for field in dataclasses.fields(Catalogue)}
    rows = Catalogue(**{**columns, "cost": cost})
    for downwards in (False, True):
        found = parts.ordered(rows, EVERY, View(order="cost", downwards=downwards))
        assert sorted(found[-2:]) == [3, 99]
        known = cost[found[:-2]].tolist()
        assert known == sorted(known, reverse=downwards)


@pytest.mark.parametrize("width", [60, 80, 100])
@pytest.mark.parametrize("order", ORDERS)
def test_columns_are_whole_and_what_orders_the_list_is_seen(order, width):
    for limits in ((), (Limit("D", greatest=120), Limit("T", greatest=30, side="B"))):
        view = View(order=order, limits=limits)
        assert f"+{'assembly' if order == 'designation' else ''}" in heading(view, width) or (
            parts.hidden_order(view, width) == order and limits and width == 60
        )
        for at in range(0, len(ALL), 371):
            line = shown(view, at, width)
            assert cell_len(line) == width
            assert "~" not in line


@pytest.mark.parametrize("width", [60, 80, 100, 140])
@pytest.mark.parametrize("order", ["d", "mass", "cost", "availability"])
@pytest.mark.parametrize("inch", [False, True], ids=["mm", "in"])
def test_a_blank_stands_before_every_cell(inch, order, width):
    # room of every length: 2.54 mm are 0.1 in, 21.27 mm are 0.8374 in
    limits = (Limit("D", greatest=60.3), Limit("d", least=21.27 + 2.54, greatest=40), Limit("T", greatest=20.99999))
    view = View(order=order, inch=inch, limits=limits)
    names = parts._name(width)
    for at in range(0, len(ALL), 17):
        cells = shown(view, at, width)[names:]
        figures = [column.cell(ALL, at).strip() for column in parts._columns(view, width)]
        assert re.split(r"\s+", cells.strip()) == " ".join(figures).split()


def test_the_room_to_each_limit_stands_in_words():
    at = int(np.flatnonzero((ALL.D == 110) & (ALL.system == "metric"))[0])
    limits = (Limit("D", greatest=120), Limit("D", greatest=100, side="B"), Limit("T", greatest=float(ALL.T[at])))
    line = shown(View(limits=limits), at, 100)
    assert re.search(r"\b10 +left\b", line) and re.search(r"\b10 +over\b", line) and "fits" in line
    assert "D<=120" in heading(View(limits=limits), 100) and "B D<=100" in heading(View(limits=limits), 100)
    inches = shown(View(limits=limits, inch=True), at, 100)
    # 10 mm are 0.3937 in
    assert "0.3937 left" in inches and "0.3937 over" in inches


def test_what_has_no_column_is_said_of_the_marked_one():
    limits = tuple(Limit(name, greatest=60) for name in "dDT")
    at = int(np.flatnonzero((ALL.d == 50) & (ALL.D > 60))[0])
    over = f"{ALL.D[at] - 60:g}"
    assert parts.rooms(ALL, at, View(limits=limits), 120) == ""
    narrow = parts.rooms(ALL, at, View(limits=limits), 60)
    assert narrow.startswith(f"D<=60: {over} over, T<=60: ")


def test_limits_come_from_the_filter_and_from_the_space():
    answers = answered({})
    answers = put(answers, "envelope.outside_a", Limits(None, 120.0, "<=120"))
    answers = put(answers, "envelope.outside_b", Limits(None, 120.0, "<=120"))
    answers = put(answers, "envelope.bore_b", Limits(55.0, 65.0, "55..65"))
    assert parts.limits("T<30 steep", answers) == (
        Limit("T", greatest=30),
        Limit("d", 55, 65, "B"),
        Limit("D", greatest=120),
    )


def test_cone_and_cup_weigh_what_the_files_of_the_parts_say():
    stated = {}
    for name in ("inch_cones.csv", "inch_cups.csv"):
        with (ROOT / "catalogs" / name).open(newline="") as file:
            stated |= {row["designation"]: float(row["mass_kg"]) for row in csv.DictReader(file)}
    for at in np.flatnonzero(ALL.system == "inch")[::97].tolist():
        cone, cup = re.fullmatch(
            r"By the drawing: cone and rollers (\S+) kg, cup (\S+) kg", parts.masses(ALL, at)
        ).groups()
        # three digits are shown, and the files hold every gram
        assert float(cone) == pytest.approx(stated[ALL.cone[at]], rel=5e-3, abs=6e-4)
        assert float(cup) == pytest.approx(stated[ALL.cup[at]], rel=5e-3, abs=6e-4)


def test_parts_of_metric_bearings_weigh_together_what_the_bearing_does():
    for at in np.flatnonzero(ALL.system == "metric")[::53].tolist():
        both = [float(text) for text in re.findall(r"(\S+) kg", parts.masses(ALL, at))]
        assert sum(both) == pytest.approx(ALL.mass[at], rel=1e-2, abs=1e-3)


def test_masses_of_an_estimated_or_unknown_section_say_so():
    mask = np.full(len(ALL), estimated_bit("Lwe"), dtype=np.int64)
    assert "rollers ~" in parts.masses(dataclasses.replace(ALL, estimated=mask), 0)
    assert "not known" in parts.masses(dataclasses.replace(ALL, Lwe=np.full(len(ALL), np.nan)), 0)
