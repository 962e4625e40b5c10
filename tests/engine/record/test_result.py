"""Everything computed about a real pair: each number with its source, the verdict from the checks, and what moved."""

import math
import re
from dataclasses import replace

import pytest

from engine.answers.document import Answers
from engine.answers.resolved import resolve
from engine.operating import Conditions
from engine.record.compared.moved import moved
from engine.record.document import NOTICE, Record, Stored, to_tables
from engine.record.read import parse
from engine.record.result import compute
from engine.record.write import to_text
from engine.sources import DOCUMENTS
from tests.engine.record.conftest import chosen


def test_every_figure_has_a_name_and_a_source(result):
    figures = [figure for block in result.blocks for figure in block.figures]
    assert len(figures) > 50
    documents = tuple(document.short for document in DOCUMENTS)
    for figure in figures:
        assert figure.key and figure.name
        # a cited place, or where the input came from
        assert figure.source.startswith((*documents, "catalogue", "answer", "assumed", "derived", "lubricant")), figure
        for value in (figure.A, figure.B):
            assert value is None or isinstance(value, str) or math.isfinite(value), figure


def test_every_check_has_both_sides_of_its_limit_and_a_clause(result):
    documents = tuple(document.short for document in DOCUMENTS)
    assert len(result.checks) > 15
    for check in result.checks:
        assert check.source.startswith(documents), check
        assert check.name and check.unit and check.demand_is and check.capacity_is
        assert check.side in {"A", "B", "pair"}
        assert not math.isnan(check.utilisation)
        assert check.passes == (check.utilisation <= 1)
        if check.demand and check.capacity and math.isfinite(check.capacity):
            assert check.utilisation == pytest.approx(check.demand / check.capacity)
    assert len({(check.key, check.side) for check in result.checks}) == len(result.checks)


def test_blocks_follow_the_duty(result):
    assert [block.title for block in result.blocks if "on_shaft" not in block.key] == [
        "Bearings", "Lubricant and cleanliness", "The pair", "Speed and heat",
        "Load case 1, statics", "Load case 1: lifting", "Load case 1: lifting, film and heat",
        "Load case 2, statics", "Load case 2: case 2", "Load case 2: case 2, film and heat",
        "Cone on the shaft", "Cone against creep", "Cup in the housing", "Steel of the rings",
        "The setting: end play of the pair, negative for preload", "Life against setting",
        "Life and chances at the setting in service",
        "At its setting, load case 1: lifting", "At its setting, load case 2: case 2",
    ]  # fmt: skip
    keys = [(block.key, figure.key) for block in result.blocks for figure in block.figures]
    assert len(set(keys)) == len(keys)


def test_the_verdict_is_that_of_the_checks(result):
    failing = [check for check in result.checks if not check.passes and not check.advisory]
    assert result.passes == (not failing)
    assert result.verdict == ("fails" if failing else "passes")
    without = replace(result, missing=("distance between the bearings",), checks=())
    assert (without.passes, without.verdict) == (False, "incomplete")
    advisory = replace(result.checks[0], passes=False, advisory=True)
    assert replace(result, checks=(advisory,), missing=()).passes
    binding = replace(result.checks[0], passes=False, advisory=False)
    assert replace(result, checks=(binding,), missing=()).verdict == "fails"


def test_without_loads_only_what_needs_none_is_computed(catalogue):
    rows = [catalogue.take([index]) for index in chosen(catalogue)]
    bare = compute(*rows, Conditions.of(resolve(Answers())))
    assert bare.verdict == "incomplete"
    assert [block.title for block in bare.blocks] == [
        "Bearings", "Lubricant and cleanliness", "Cone on the shaft", "Cup in the housing", "Steel of the rings",
    ]  # fmt: skip
    assert bare.missing
    assert all(math.isfinite(check.utilisation) for check in bare.checks)


def test_the_two_halves_of_statics_agree(result):
    """Handbook statics: what the bearings carry along the shaft differs by the external thrust."""
    for block in _cases(result):
        of = {figure.key: figure for figure in block.figures}
        assert abs(of["Fa"].A - of["Fa"].B) == pytest.approx(abs(of["K_a"].A), abs=1e-6)


def _cases(result):
    return [block for block in result.blocks if re.fullmatch(r"case_\d+", block.key)]


def test_the_lines_of_statics_lead_by_hand_to_the_radial_loads(result):
    blocks = {block.key: block for block in result.blocks}
    for case in _cases(result):
        of = {figure.symbol: figure.A for figure in blocks[f"{case.key}_statics"].figures}
        told = {figure.key: figure for figure in case.figures}
        R_B = [(of[f"M_{p}"] - of[f"F_{p}"] * of["z_A"]) / (of["z_B"] - of["z_A"]) for p in "yz"]
        R_A = [of[f"F_{p}"] - R for p, R in zip("yz", R_B, strict=True)]
        assert (math.hypot(*R_A), math.hypot(*R_B)) == pytest.approx((told["Fr"].A, told["Fr"].B), rel=1e-9)
        assert pytest.approx((R_A[0], R_B[1]), rel=1e-9, abs=1e-9) == (told["R_y"].A, told["R_z"].B)
        assert (of["z_A"], of["z_B"]) == (blocks["pair"].figures[0].A, blocks["pair"].figures[0].B)


def test_the_tables_of_a_result_hold_what_was_computed(record, result):
    tables = to_tables(record, result)["result"]
    assert tables["verdict"] == result.verdict
    assert tables["notice"] == NOTICE
    assert [row["utilisation"] for row in tables["checks"]] == [check.utilisation for check in result.checks]
    assert all(row["source"] for row in tables["checks"] + tables["figures"])
    assert to_text(record, result) == to_text(record, result)


def test_a_record_with_its_result_is_read_and_nothing_has_moved(record, result):
    again = parse(to_text(record, result).encode())
    assert again.answers == record.answers
    assert [(s.key, s.side, s.utilisation) for s in again.stored] == [
        (check.key, check.side, check.utilisation) for check in result.checks
    ]
    assert moved(again, result) == []


def stored(result, **changed) -> Record:
    """Return a record of the result with some utilisations changed by "key side"."""
    rows = [
        Stored(check.key, check.side, changed.get(f"{check.key} {check.side}", check.utilisation))
        for check in result.checks
    ]
    return Record(Answers(), stored=tuple(row for row in rows if row.utilisation is not None))


def test_nothing_stored_nothing_moved(result):
    assert moved(Record(Answers()), result) == []


def test_a_figure_that_moved_is_named_with_both_values(result):
    before = next(check for check in result.checks if check.key == "static" and check.side == "A").utilisation
    (said,) = moved(stored(result, **{"static A": before * 1.1}), result)
    assert said.startswith("static of A: the record says ")
    assert f"{before * 1.1:.6g}" in said
    assert f"{before:.6g}" in said


@pytest.mark.parametrize(
    ("factor", "count"), [(1 + 1e-10, 0), (1 + 1e-8, 1), (1 - 1e-8, 1), (math.nan, 1), (math.inf, 1), (-1, 1)]
)
def test_rounding_of_another_processor_is_no_move(result, factor, count):
    before = next(check for check in result.checks if check.key == "static" and check.side == "A").utilisation
    assert len(moved(stored(result, **{"static A": before * factor}), result)) == count


def test_unknown_and_endless_values_that_stay_so_have_not_moved(result):
    for value in (math.nan, math.inf, 0.0):
        same = replace(result, checks=(replace(result.checks[0], utilisation=value),))
        assert moved(stored(same), same) == []


def test_a_check_that_is_gone_or_new_is_said(result):
    fewer = replace(result, checks=result.checks[1:])
    key, side = result.checks[0].key, result.checks[0].side
    assert moved(stored(result), fewer) == [f"{key} of {side} stands in the record but is no longer checked"]
    assert moved(stored(fewer), result) == [f"{key} of {side} is checked now but does not stand in the record"]
