"""What is ordered: cone and cup apart where they are sold so, quantities, and what comes near in the other system."""

import re
from dataclasses import replace

import numpy as np
import pytest

from engine.answers.document import put
from engine.answers.question import Quantity
from engine.catalogue.equivalents import nearest_in_other_system
from engine.checks.every import evaluate
from engine.record.computed import compute
from engine.record.read import read
from engine.report import fitter, full
from engine.report.order import ALTERNATIVES, alternatives, order_lines
from engine.report.runners_up import MOST, runners_up
from engine.report.written import markdown
from tests.engine.report.conftest import EXAMPLES
from tests.house.tree import ROOT

METRIC, INCH = (
    ROOT / "catalogs" / "examples" / f"{name}.toml" for name in ("peat_harvester_bevel_drive", "ropeway_sheave")
)


def lines(path, **changed):
    record = read(path)
    answers = record.answers
    for key, value in changed.items():
        answers = put(answers, key.replace("__", "."), value)
    return [
        (one.quantity, one.what.split(",")[0].split(" ")[0], one.name, one.sides)
        for one in order_lines(compute(replace(record, answers=answers), str(path)))
    ]  # fmt: skip


def test_inch_bearings_are_ordered_as_cones_and_cups_and_equal_parts_once():
    assert lines(INCH) == [(2, "cone", "Q286.1", "A and B"), (2, "cup", "Q286.6", "A and B")]


def test_metric_bearings_are_ordered_whole_one_line_a_side():
    assert lines(METRIC) == [(1, "bearing", "V060-4EC-C", "A"), (1, "bearing", "V040-7FB-C", "B")]


def test_a_cup_that_only_one_side_has_is_a_line_of_its_own():
    assert lines(INCH, choice__bearing_b="Q286.1+7") == [
        (2, "cone", "Q286.1", "A and B"), (1, "cup", "Q286.6", "A"), (1, "cup", "Q286.7", "B"),
    ]  # fmt: skip


def test_paired_units_take_two_bearings_a_side():
    assert lines(METRIC, duty__locating="unit_a") == [
        (2, "bearing", "V060-4EC-C", "A"), (2, "bearing", "V040-7FB-C", "B"),
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("changed", "reason"),
    [
        ({"choice.bearing_a": None, "choice.bearing_b": None}, "No pair is chosen"),
        ({"choice.bearing_b": None}, "No pair is chosen"),
        ({"duty.distance": None}, "The duty is incomplete"),
        (None, "No pair is chosen"),
    ],
)
def test_nothing_is_ordered_where_nothing_is_chosen_or_the_duty_is_incomplete(changed, reason):
    record = read(METRIC)
    answers = put(type(record.answers)(), "duty.job", "A job and nothing else") if changed is None else record.answers
    for key, value in (changed or {}).items():
        answers = put(answers, key, value)
    computed = compute(replace(record, answers=answers), str(METRIC))
    assert order_lines(computed) == []
    sections = {section.title: section for section in full.report(computed).sections}
    (said,) = sections["What to order"].parts
    assert said.words.startswith(reason)
    sheet = fitter.sheet(computed)
    assert "do not mount" in sheet.subtitle
    assert [section.title for section in sheet.sections] == ["Parts"]
    words = markdown.written(sheet)
    assert reason in words
    assert not any(str(rows.designation[0]) in words for rows in computed.sides)
    assert ("Not chosen" in full.report(computed).subtitle) == reason.startswith("No pair")


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_class_execution_and_stock_are_those_of_the_catalogue(path):
    computed = compute(read(path), str(path))
    for line in order_lines(computed):
        rows = computed.sides["AB".index(line.sides[0])]
        assert line.tolerance == f"class {rows.tolerance[0]}"
        assert {"case": "case-hardened", "through": "through-hardened"}[rows.steel[0]] in line.execution
        assert line.availability in {"stocked", "on request", "discontinued"}


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_alternatives_are_of_the_other_system_and_judged_in_the_place_of_the_bearing(path):
    computed = compute(read(path), str(path))
    catalogue = computed.source.rows
    found = alternatives(computed)
    same = computed.rows[0] == computed.rows[1]
    assert len(found) == ALTERNATIVES * (1 if same else 2)
    for one in found:
        row = catalogue.index_of(one.name)
        assert catalogue.system[row] != catalogue.system[computed.rows[0]]
        rows = (
            [row, row]
            if same
            else [row if one.side == side else at for side, at in zip("AB", computed.rows, strict=True)]
        )
        passes = evaluate(catalogue.take([rows[0]]), catalogue.take([rows[1]]), computed.conditions).passes[0]
        assert ("passes" in one.verdict) == passes
        apart = one.system == "inch" or catalogue.listed[row] == "formed"
        assert one.parts == (f"{catalogue.cone[row]} + {catalogue.cup[row]}" if apart else one.name)
        assert (one.tolerance, one.availability) == (
            f"class {catalogue.tolerance[row]}", catalogue.availability[row].replace("_", " "),
        )  # fmt: skip
        assert {"case": "case-hardened", "through": "through-hardened"}[catalogue.steel[row]] in one.execution


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_alternatives_are_of_sizes_that_differ_and_of_the_same_steel_where_there_is_one(path):
    computed = compute(read(path), str(path))
    catalogue = computed.source.rows
    found = alternatives(computed)
    assert len({(one.side, one.sizes) for one in found}) == len(found)
    for side in {one.side for one in found}:
        of_side = [one for one in found if one.side == side]
        assert [one.measure for one in of_side] == sorted(one.measure for one in of_side)
    for one in found:
        at, asked = catalogue.index_of(one.name), computed.rows["AB".index(one.side[0])]
        equal = catalogue.system == catalogue.system[at]
        for name in ("d", "D", "T", "Cr", "e"):
            equal &= getattr(catalogue, name) == getattr(catalogue, name)[at]
        if catalogue.steel[asked] in catalogue.steel[equal]:
            assert catalogue.steel[at] == catalogue.steel[asked]


def test_the_nearest_that_passes_is_named_where_the_nearest_do_not():
    record = read(INCH)
    computed = compute(replace(record, answers=put(record.answers, "duty.life", Quantity(90_000.0))), str(INCH))
    catalogue, conditions = computed.source.rows, computed.conditions
    found = alternatives(computed)
    near = nearest_in_other_system(catalogue, computed.rows[0], 40)
    rows = catalogue.take(near.rows)
    passing = near.measure[evaluate(rows, rows, conditions).passes]
    assert found[0].measure == near.measure[0] and "fails" in found[0].verdict
    assert found[1].verdict.startswith("passes") and found[1].measure == passing.min() > near.measure[2]


@pytest.mark.parametrize("by", ["mass", "size", "life", "cost", "weights"])
@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_runners_up_lost_by_what_was_ranked(path, by):
    record = read(path)
    record = replace(record, answers=put(record.answers, "choice.rank_by", by))
    computed = compute(record, str(path))
    found, _, words = runners_up(computed)
    assert 0 < len(found) <= MOST
    assert " pairs pass every check by closed formulas" in words
    assert [one.place for one in found] == sorted(one.place for one in found)
    own = (computed.result.bearing_A, computed.result.bearing_B)
    assert own not in [(one.bearing_A, one.bearing_B) for one in found]
    own_mass = sum(float(rows.mass[0]) for rows in computed.sides)
    for one in found:
        assert one.binds and one.why
        if by == "mass":
            assert ("heavier" in one.why) == (one.mass > own_mass + 1e-9)
            assert ("before the pair that was chosen" in one.why) == (one.mass < own_mass - 1e-9)


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_runners_up_stand_beside_the_chosen_pair_in_figures_that_are_their_own(path):
    computed = compute(read(path), str(path))
    found, beside, _ = runners_up(computed)
    catalogue = computed.source.rows
    table = {one.name: one for one in beside}
    pairs = [computed.rows, *((catalogue.index_of(one.bearing_A), catalogue.index_of(one.bearing_B)) for one in found)]
    for at, (a, b) in enumerate(pairs):
        A, B = catalogue.take([a]), catalogue.take([b])

        def value(name, at=at):
            return table[name].own if at == 0 else table[name].values[at - 1]

        for name, column in (("mass", "mass"), ("sum of outside diameters", "D"), ("sum of widths", "T")):
            assert value(name) == pytest.approx(float(getattr(A, column)[0] + getattr(B, column)[0]))
        uses = {}
        for one in evaluate(A, B, computed.conditions).outcomes:
            uses.setdefault(f"used of {one.check.name.lower()}", []).append(float(np.ravel(one.utilisation)[0]))
        counted = [name for name in table if name.startswith("used of ")]
        assert len(counted) > 3
        for name in counted:
            assert value(name) == pytest.approx(max(uses[name.lower()]))
    for place, one in enumerate(found):
        # what is said to differ does, and both figures stand there
        for line in beside:
            said = line.said(place)
            if f"{line.name} " in one.why and " against " in said:
                assert said in one.why
            alike = line.text(line.values[place]) == line.text(line.own)
            assert said == "" if alike else said or line.values[place] == pytest.approx(line.own, rel=5e-4)
        assert re.search(r"\d.* against \d|order of the catalogue", one.why)
