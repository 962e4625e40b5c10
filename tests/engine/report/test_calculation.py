"""The report for a person and for a machine."""

import json
import re
from dataclasses import replace

import pytest

from engine.answers.document import put, with_items
from engine.answers.resolved import resolve
from engine.operating import Conditions
from engine.record.document import NOTICE, SCHEMA
from engine.record.read import read
from engine.record.result import compute
from engine.report.calculation import WIDTH, as_json, as_text
from tests.engine.record.conftest import chosen
from tests.engine.record.test_read import MINIMAL


@pytest.fixture(scope="module")
def record():
    return read(MINIMAL)


def computed(record, catalogue):
    rows = [catalogue.take([index]) for index in chosen(catalogue)]
    return compute(*rows, Conditions.of(resolve(record.answers)))


def awkward(record):
    """Return the record with names that no plain terminal can draw, and as many load cases as names of all lengths."""
    names = ("Förderband, größter Lauf", "运行", "e\u0301tat \U0001f600" * 3, "x" * 30)
    cases = tuple(put(record.answers, "duty.cases[0].name", name).duty.cases[0] for name in names)
    answers = with_items(put(record.answers, "duty.job", "Schüttgut 运 " * 5), "duty.cases", cases)
    return replace(record, answers=answers)


def check_lines(text):
    assert text.endswith("\n")
    for line in text.splitlines():
        assert line.isprintable()
        assert len(line) <= WIDTH <= 120, line
        assert line == line.rstrip()


def test_text_is_plain_and_narrow(record, catalogue):
    text = as_text(record, computed(record, catalogue), ["a note"])
    check_lines(text)
    assert text.isascii()


def test_text_is_plain_and_narrow_whatever_the_names(record, catalogue):
    odd = awkward(record)
    result = replace(computed(odd, catalogue), bearing_A="\x1b[31m" + "ü" * 60)
    text = as_text(odd, result, ["\x1b[2Ja note \u202e" + "of words " * 60])
    check_lines(text)
    assert "\\x1b[31m" in text


def test_text_says_everything_that_was_computed_and_assumed(record, catalogue):
    result = computed(record, catalogue)
    text = " ".join(as_text(record, result, ["a note"]).split())
    assert "a note" in text
    assert NOTICE in text
    for block in result.blocks:
        assert block.title in text
        assert all(figure.name in text for figure in block.figures)
        assert all(word in text for figure in block.figures for word in figure.source.split())
    for check in result.checks:
        assert f"{check.name}, {check.side}" in text
    for line in (*result.assumptions, *result.cautions):
        assert line in text
    # what was typed stands beside what it means
    assert "6 in (152.4 mm)" in text


def test_a_clause_is_never_cut(record, catalogue):
    result = computed(record, catalogue)
    longest = max((figure.source for block in result.blocks for figure in block.figures), key=len)
    assert len(longest) > 60
    assert longest in " ".join(as_text(record, result, []).split())


def test_the_verdict_leads(record, catalogue):
    result = replace(computed(record, catalogue), cautions=())
    failing = replace(result.checks[0], passes=False, advisory=False)
    passing, minding = replace(failing, passes=True), replace(failing, advisory=True)
    said = {
        "The pair PASSES every check": replace(result, checks=(passing,)),
        "The pair PASSES every check; 1 caution, see Mind": replace(result, checks=(passing,), cautions=("so",)),
        "The pair PASSES every check that rules out; 2 cautions, see Mind": replace(
            result, checks=(passing, minding), cautions=("so", "and so")
        ),
        f"The pair FAILS: {failing.name} ({failing.side})": replace(result, checks=(failing,)),
        "The duty is INCOMPLETE; only checks that need no loads were made": replace(
            result, checks=(), missing=("distance between the bearings",)
        ),
    }
    for sentence, one in said.items():
        assert as_text(record, one, []).splitlines()[5:7] == ["Verdict", f"  {sentence}"]


def test_as_many_cautions_are_counted_as_the_calculation_says_to_mind(record, catalogue):
    result = computed(record, catalogue)
    assert result.passes and any(check.advisory and not check.passes for check in result.checks)
    text = as_text(record, result, [])
    said = re.search(r"The pair PASSES every check that rules out; (\d+) cautions, see\s+Mind", text)
    under = text.partition("\nMind\n")[2].partition("\n\n")[0].splitlines()
    heard = [line for line in text.splitlines() if line.startswith("  Mind: ")]
    assert int(said[1]) == len(heard) + sum(not line.startswith("   ") for line in under)


def refuse(constant):
    raise AssertionError(f"{constant} is no JSON")


@pytest.mark.parametrize("change", [lambda record: record, awkward], ids=["plain", "awkward"])
def test_json_is_json(record, catalogue, change):
    record = change(record)
    result = computed(record, catalogue)
    checks = (replace(result.checks[0], utilisation=float("nan"), capacity=float("inf")), *result.checks[1:])
    text = as_json(record, replace(result, checks=checks), ["a note"])
    assert text.isascii()
    content = json.loads(text, parse_constant=refuse)
    assert content["notes"] == ["a note"]
    assert content["schema"] == SCHEMA
    assert content["result"]["checks"][0]["utilisation"] == "unknown"
    assert content["result"]["checks"][0]["capacity"] == "unlimited"
    assert content["answers"]["duty"]["distance_typed"] == "6 in"
    assert len(content["result"]["figures"]) == sum(len(block.figures) for block in result.blocks)


def test_text_and_json_tell_the_same(record, catalogue):
    result = computed(record, catalogue)
    content = json.loads(as_json(record, result, []))["result"]
    assert content["verdict"] == result.verdict
    assert [row["name"] for row in content["checks"]] == [check.name for check in result.checks]
    assert [row["demand"] for row in content["checks"]] == [check.demand for check in result.checks]
