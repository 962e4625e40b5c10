"""A key that no question has: kept where it stands, said with file, line, key and the nearest one, and never used."""

import tomllib
from dataclasses import replace

import pytest

from engine.answers.document import Answers, put
from engine.answers.question import Quantity
from engine.errors import MOST_LISTED
from engine.record.carried.lines import statements
from engine.record.carried.unknown import Unused
from engine.record.computed import compute
from engine.record.read import parse, read
from engine.record.write import to_text
from engine.report import calculation, fitter, full
from engine.report.written import html, markdown
from tests.engine.record.test_read import DUTY, HEAD
from tests.house.tree import ROOT

EXAMPLE = ROOT / "catalogs" / "examples" / "ropeway_sheave.toml"

# text, line, key, the nearest that is known there
UNUSED = [
    (DUTY + "distance_mm = 150.0\ndistnace_mm = 1\n", 4, "answers.duty.distnace_mm", "distance_mm"),
    (DUTY + "[[answers.duty.cases]]\nradial_y_n = 4000.0\n", 4, "answers.duty.cases[0].radial_y_n", "radial_y_N"),
    (HEAD + "\n[answers.stell]\n", 3, "answers.stell", "steel"),
    (HEAD + "anwsers = 1\n", 2, "anwsers", "answers"),
    (HEAD + "[resutl]\n", 2, "resutl", "result"),
    (HEAD + '"\\u001b[31m" = 1\n', 2, "\\x1b[31m", ""),
    (HEAD + '"\\u202e\\u009b" = 1\n', 2, "\\u202e\\x9b", ""),
    (HEAD + 'x.y = """\n[answers.duty]\n"""\n', 2, "x", ""),
    (HEAD + "[made_with]\ncatalog = 'x'\n", 3, "made_with.catalog", "catalogue"),
    (
        DUTY + "[[answers.duty.cases]]\n[answers.duty.cases.histogram]\nfile = 'a'\nshare = [1]\nspeed_rpm = [1]\n"
        "level = [1]\nlevle = [2]\n", 9, "answers.duty.cases[0].histogram.levle", "level",
    ),
]  # fmt: skip


@pytest.mark.parametrize(("text", "line", "key", "near"), UNUSED, ids=range(len(UNUSED)))
def test_it_is_named_with_file_line_and_the_nearest_that_is_known(text, line, key, near):
    record = parse(text.encode(), "shaft.toml")
    (one,) = record.unused.listed
    assert (one.path, one.line, one.field, one.nearest) == ("shaft.toml", line, key, near)
    said = f"shaft.toml, line {line}, {key}: no question has this key; it is kept, but not used"
    assert str(record.unused) == said + (f'; did you mean "{near}"?' if near else "")
    for shown in (str(record.unused), record.unused.note, *record.unused.cautions):
        assert shown.isprintable()
        assert key in shown


@pytest.mark.parametrize("text", [one[0] for one in UNUSED], ids=range(len(UNUSED)))
def test_it_stays_in_its_table_and_is_still_said_once_it_was_written(text):
    record = parse(text.encode())
    written = to_text(record, None)
    again = tomllib.loads(written)
    for path, value in ((one.path, one.value) for one in record.carried.unknown):
        at = again
        for part in path:
            at = at[part]
        assert at == value
    assert [one.field for one in parse(written.encode()).unused.listed] == [one.field for one in record.unused.listed]
    assert to_text(parse(written.encode()), None) == written


def test_it_is_no_answer():
    record = parse((DUTY + "distnace_mm = 150.0\n").encode())
    assert record.answers == Answers()
    assert len(record.unused) == 1
    assert not parse((DUTY + "distance_mm = 150.0\n").encode()).unused


def test_its_comments_stay_with_it_when_answers_change():
    text = DUTY + "# from the drawing\ndistnace_mm = 150.0  # says Anna\nlife_h = 5000.0\n"
    record = parse(text.encode())
    changed = replace(record, answers=put(record.answers, "duty.life", Quantity(9000.0)))
    found, _ = statements(to_text(changed, None))
    kept = {one.path: (one.above, one.comment) for one in found}
    assert kept["answers.duty.distnace_mm"] == (("# from the drawing",), "# says Anna")


def test_many_of_them_are_counted_and_the_first_are_listed():
    text = HEAD + "".join(f"z{number} = {number}\n" for number in range(MOST_LISTED + 7))
    record = parse(text.encode())
    assert len(record.unused) == MOST_LISTED + 7
    assert str(record.unused).endswith("\nand 7 more")
    assert record.unused.cautions[-1] == "Not used: 7 more keys."
    assert record.unused.note.endswith(f"And {MOST_LISTED + 5} more: conewright calc lists them.")
    assert len(tomllib.loads(to_text(record, None))) == len(tomllib.loads(text)) + 2  # made_with, answers


@pytest.fixture(scope="module")
def misspelt():
    """Return an example whose axial load of the first case is misspelt, computed."""
    text = EXAMPLE.read_text("utf-8").replace("\naxial_towards", "\naxail_towards", 1)
    found = compute(parse(text.encode(), "sheave.toml"))
    assert found.result.passes
    return found


def test_calculation_report_and_the_fitters_sheet_say_it_where_the_verdict_stands(misspelt):
    count = len(misspelt.result.cautions)
    words = f"The pair PASSES every check that rules out; {count} cautions, see Mind; 1 key of the record NOT USED, see"
    caution = "Not used: answers.duty.cases[0].axail_towards on line"
    text = calculation.as_text(misspelt.record, misspelt.result, [])
    assert words in " ".join(text.split())
    assert caution in text.partition("\nMind\n")[2]
    whole = full.report(misspelt)
    verdict = whole.sections[0]
    assert verdict.parts[0].words == f"{words} below."
    assert verdict.parts[0].state == "caution"
    assert caution.replace("_", "\\_").replace("[", "\\[").replace("]", "\\]") in markdown.written(whole)
    assert "did you mean axial_towards?" in html.written(whole)
    assert "Keys of the record that were not used: 1" in html.written(fitter.sheet(misspelt))


def test_a_record_without_such_keys_says_nothing_of_them():
    record = read(EXAMPLE)
    assert record.unused == Unused()
    assert not record.unused
    assert str(record.unused) == record.unused.note == ""
    assert record.unused.cautions == ()
