"""A record says what is computed, to the last bit; what moved is named with both values and the reason."""

import json
import math
import re
from dataclasses import replace

import pytest

from engine import __version__
from engine.record.compared.difference import between
from engine.record.compared.digest import seal
from engine.record.compared.stored import values
from engine.record.compared.verify import ROUNDING, relative_change, same, verify
from engine.record.computed import compute
from engine.record.read import parse, read
from engine.record.write import to_text
from engine.report.compared import difference_json, difference_text, verification_json, verification_text
from tests.house.tree import ROOT

EXAMPLES = sorted((ROOT / "catalogs" / "examples").glob("*.toml"))
ROPEWAY = next(path for path in EXAMPLES if path.stem == "ropeway_sheave")


@pytest.fixture(scope="module")
def text():
    """Return the text of a record with its result."""
    computed = compute(
        read(ROPEWAY),
        str(ROPEWAY),
    )
    return to_text(computed.now, computed.result)


def verified(text):
    return verify(compute(parse(text.encode(), "r.toml"), "r.toml"))


def kinds(found):
    return {reason.kind for reason in found.reasons}


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_reading_back_and_computing_again_is_equal_to_the_last_bit(path):
    found = verify(compute(read(path), str(path)))
    assert found.compared > 200
    assert found.equal + found.rounded == found.compared
    assert found.holds and not found.reasons
    # and what is written now is, on this machine, read back bit for bit
    computed = compute(read(path), str(path))
    again = verified(to_text(computed.now, computed.result))
    assert (again.equal, again.rounded) == (again.compared, 0)


def test_every_figure_and_check_of_a_result_is_compared(text):
    record = parse(text.encode())
    figures, checks = record.found["figures"], record.found["checks"]
    count = 4 * len(checks) + sum(len({"a", "b", "pair"} & set(figure)) for figure in figures)
    told = [kept for kept in record.found.values() if isinstance(kept, list) and all(isinstance(w, str) for w in kept)]
    words = 3 + sum(map(len, told))  # missing, assumptions, cautions and other sentences
    assert count + words == len(values(record.found))
    # and the words of every row, and the notice
    count += 4 * len(checks) + 1
    count += sum(len({"block", "name", "unit", "source", "estimated_for"} & set(figure)) for figure in figures)
    assert verified(text).compared == count + words


NUMBER = re.compile(r"^(a|b|pair|demand|capacity|utilisation) = (-?\d[\d.e+-]*)$", re.MULTILINE)


def test_a_changed_digit_in_any_figure_is_found(text):
    places = list(NUMBER.finditer(text))
    assert len(places) > 200
    computed = compute(parse(text.encode(), "r.toml"), "r.toml")  # once: no answer is changed here
    for place in places[::7]:
        number = float(place[2])
        other = repr(number * 1.001 if number else 1.0)
        changed = text[: place.start(2)] + other + text[place.end(2) :]
        found = verify(replace(computed, record=parse(changed.encode(), "r.toml")))
        assert not found.holds
        assert kinds(found) == {"result"}
        (moved,) = found.moved
        assert (moved.before, moved.after) == (float(other), number)
        assert not number or abs(moved.change) == pytest.approx(1 - 1 / 1.001)


@pytest.mark.parametrize(
    ("before", "after", "moved"),
    [
        ('verdict = "passes"', 'verdict = "fails"', 1),
        ('verdict = "passes"\n', "", 0),
        ('unit = "h"', 'unit = "d"', 1),
        ('source = "Common practice, 0.02 C"', 'source = "ISO 281"', 1),
        ('conewright = "0.2.0"', 'conewright = "0.2.00"', 0),
        ("notice = ", "remark = ", 1),
    ],
)
def test_a_result_changed_by_hand_is_found_even_where_no_figure_is(text, before, after, moved):
    assert before in text
    found = verified(text.replace(before, after, 1))
    assert not found.holds
    assert "result" in kinds(found)
    assert len(found.moved) == moved


def without_seal(text):
    found, count = re.subn(r'^sha256 = "[0-9a-f]{64}"\n', "", text, flags=re.MULTILINE)
    assert count == 1
    return found


def sealed_anew(text):
    """Return a record with the seal that fits what stands in it, as one who means to deceive would make it."""
    record = parse(text.encode())
    return re.sub(r'^sha256 = ".*"$', f'sha256 = "{seal(record.found_made_with, record.found)}"', text, flags=re.M)


#: Words that change what a number means, and leave every number as it is.
WORDS = [
    ('unit = "h"', 'unit = "d"', "check life A unit"),
    ('unit = "h"\n', "", "check life A unit"),
    (
        'source = "ISO 281:2007, clause 9.1, modified',
        'source = "ISO 281:2007, clause 8, modified',
        "check life A source",
    ),
    ('name = "Life of the bearing"', 'name = "Life of the cage"', "check life A name"),
    ("advisory = false", "advisory = true", "check life A advisory"),
    ("have a licensed engineer approve it", "nobody needs to approve it", "notice"),
]


@pytest.mark.parametrize(("before", "after", "key"), WORDS, ids=[f"{key} {at}" for at, (*_, key) in enumerate(WORDS)])
def test_a_changed_word_is_found_whether_the_seal_is_gone_or_made_anew(text, before, after, key):
    changed = text.replace(before, after, 1)
    assert changed != text
    for forged in (without_seal(changed), sealed_anew(changed)):
        found = verified(forged)
        assert not found.holds
        assert [one.key for one in found.moved] == [key]
    assert kinds(verified(without_seal(changed))) == {"result"}
    assert "result" not in kinds(verified(sealed_anew(changed)))  # no signature: only the words themselves tell


def test_the_words_of_a_figure_are_compared(text):
    figure = next(one for one in parse(text.encode()).found["figures"] if one.get("unit") == "mm")
    at = text.index(f'key = "{figure["key"]}"')
    for what, other in (("unit", "um"), ("name", "another name"), ("source", "nowhere"), ("block", "Elsewhere")):
        line = f'{what} = "{figure[what]}"'
        changed = text[:at] + text[at:].replace(line, f'{what} = "{other}"', 1)
        assert changed != text
        assert [one.key for one in verified(sealed_anew(changed)).moved] == [f"{figure['key']} {what}"]


def test_a_record_of_the_layout_with_seals_is_not_verified_without_one(text):
    found = verified(without_seal(text))
    assert (kinds(found), found.moved, found.holds) == ({"result"}, (), False)
    assert "seal is gone" in found.reasons[0].words and "older" not in found.reasons[0].words
    # a version is a line that can be edited too
    earlier = without_seal(text).replace('schema = "1.1"', 'schema = "1.0"')
    assert (kinds(verified(earlier)), verified(earlier).holds) == ({"result"}, False)
    without_hashes = re.sub(r"^\[result.answers_sha256\]\n(\w+ = .*\n)+", "", text, flags=re.M)
    assert without_hashes != text
    assert not verified(sealed_anew(without_hashes)).holds


def as_before_seals(text):
    """Return a record in the layout 1.0: without seal, hashes of answers and keys of figures."""
    text = without_seal(text).replace('schema = "1.1"', 'schema = "1.0"')
    text = re.sub(r"^\[result.answers_sha256\]\n(\w+ = .*\n)+", "", text, flags=re.M)
    return re.sub(r'^(\[\[result.figures\]\]\n)key = ".*"\n', r"\1", text, flags=re.M)


def test_a_record_older_than_the_seal_is_verified_by_figures_and_the_words_of_the_same_version(text):
    older = as_before_seals(text)
    found = verified(older)
    assert (kinds(found), found.holds) == ({"version"}, True)
    assert "figures and words" in found.reasons[0].words
    assert not verified(older.replace("demand = 60000.0", "demand = 60001.0", 1)).holds
    reworded = older.replace('name = "Life of the bearing"', 'name = "Life of one bearing"', 1)
    assert not verified(reworded).holds
    # words of another version may have been put better since
    found = verified(reworded.replace(f'conewright = "{__version__}"', 'conewright = "0.0.9"'))
    assert (kinds(found), found.holds) == ({"engine", "version"}, True)
    assert "only in its figures." in found.reasons[-1].words


def test_another_layout_of_the_same_content_is_no_tampering(text):
    # the first sign of a line only: sentences hold formulas
    spread = re.sub(r"^(\w+) = ", r"\1   =  ", text, flags=re.MULTILINE).replace("\n[[", "\n\n\n# a remark\n[[")
    assert verified(spread).holds


def test_an_edited_answer_is_found_and_its_chapter_named(text):
    found = verified(text.replace("life_h = 60000.0\n", "life_h = 61000.0\n").replace('life_typed = "60 000 h"\n', ""))
    assert kinds(found) == {"answers"}
    assert "Duty" in found.reasons[0].words and "Steel" not in found.reasons[0].words
    assert {one.key for one in found.moved} >= {"check life A demand", "check system_life pair utilisation"}
    # an answer that changes no figure is an edited answer all the same
    renamed = verified(text.replace("Ropeway, deflection", "Cable car, deflection"))
    assert (kinds(renamed), renamed.moved, renamed.holds) == ({"answers"}, (), False)


@pytest.mark.parametrize(
    ("edits", "told"),
    [
        ([('shock = "moderate"', 'shock = "heavy"')], "Steel (steel.shock, which was moderate)."),
        ([("ep_additive = false\n", "ep_additive = true\n")], "(lubrication.ep_additive, which was no)."),
        ([('shock = "moderate"', 'shock = "moderate"\nallowed = "case"')], "(steel.allowed, which was open)."),
        ([("life_h = 60000.0\n", "life_h = 61000.0\n"), ('life_typed = "60 000 h"', 'life_typed = "61 000 h"')],
         "Duty (duty.life_h, which was 60 000 h)."),
        ([("life_h = 60000.0\n", "life_h = 61000.0\n"), ('life_typed = "60 000 h"\n', "")],
         "Duty (duty.life_h, which was 60 000 h)."),
        # two answers of one chapter, or one that no figure states: no more than the chapter is known
        ([('shock = "moderate"', 'shock = "heavy"'), ("hollow_shaft = false", "hollow_shaft = true")], ": Steel."),
        ([("Ropeway, deflection", "Cable car, deflection")], ": Duty."),
    ],
)  # fmt: skip
def test_an_edited_answer_is_named_where_the_hash_of_its_chapter_proves_it(text, edits, told):
    for before, after in edits:
        assert before in text
        text = text.replace(before, after, 1)
    (reason,) = verified(text).reasons
    assert reason.kind == "answers" and reason.words.endswith(told)


def test_each_figure_that_moved_has_its_reason_where_one_can_be_told(text):
    edits = ('shock = "moderate"', 'shock = "heavy"')
    found = verified(text.replace(*edits))
    assert {one.why for one in found.moved} == {"answers"}
    # an answer and a figure: what does not follow from its own check was changed by hand, of the rest nobody can tell
    found = verified(text.replace(*edits).replace("utilisation = 0.8665", "utilisation = 0.7665", 1))
    assert kinds(found) == {"answers", "result"}
    why = {one.key: one.why for one in found.moved}
    assert why.pop("check system_life pair utilisation") == "result"
    assert why and set(why.values()) == {""}
    said, told = verification_text(found, "r.toml"), json.loads(verification_json(found, "r.toml"))
    assert said.count("changed by hand: it does not follow from the other numbers of its check") == 1
    assert {one["key"]: one["why"] for one in told["moved"]} == why | {"check system_life pair utilisation": "result"}
    # and a verdict of a check against its own utilisation
    place = text.index('key = "system_life"')
    found = verified(sealed_anew(text[:place] + text[place:].replace("passes = true", "passes = false", 1)))
    assert [(one.key, one.why) for one in found.moved] == [("check system_life pair passes", "result")]


def test_another_version_and_another_catalogue_are_reasons(text):
    found = verified(re.sub(r'catalogue_sha256 = "....', 'catalogue_sha256 = "0000', text))
    assert kinds(found) == {"catalogue", "result"}
    found = verified(text.replace(f'conewright = "{__version__}"', 'conewright = "0.0.9"'))
    assert kinds(found) == {"engine", "result"}
    assert "0.0.9" in found.reasons[0].words


def test_a_changed_catalogue_is_told_apart_from_tampering(tmp_path, text, catalogue):
    from engine.catalogue.write import as_csv

    rows = catalogue.take([catalogue.index_of(read(ROPEWAY).answers.choice.bearing_a)])
    record = tmp_path / "r.toml"
    asking = text.partition("\n[result]")[0] + '\ncatalogue = "own.csv"\n'
    (tmp_path / "own.csv").write_text(as_csv(rows).decode())
    computed = compute(parse(asking.encode(), str(record)), str(record))
    record.write_text(to_text(computed.now, computed.result))
    assert verify(compute(read(record), str(record))).holds
    changed = as_csv(rows).decode().splitlines()
    at = changed[0].split(",").index("Cr_N")
    cells = changed[1].split(",")
    cells[at] = str(float(cells[at]) * 1.1)
    (tmp_path / "own.csv").write_text("\n".join([changed[0], ",".join(cells)]) + "\n")
    found = verify(compute(read(record), str(record)))
    assert kinds(found) == {"catalogue"}
    assert any(one.key == "bearings.Cr a" and one.change == pytest.approx(0.1) for one in found.moved)


def test_a_figure_that_is_gone_or_new_is_said(text):
    record = parse(text.encode())
    figure = record.found["figures"][5]
    block = text[text.index(f'key = "{figure["key"]}"') :].partition("\n\n")[0]
    found = verified(text.replace(f"[[result.figures]]\n{block}\n\n", ""))
    assert {one.key.rpartition(" ")[0] for one in found.new} == {figure["key"]}
    found = verified(text.replace(f'key = "{figure["key"]}"', 'key = "bearings.colour"'))
    assert {one.key.rpartition(" ")[0] for one in found.gone} == {"bearings.colour"}


def test_a_record_without_a_result_is_not_verified(text):
    found = verified(text.partition("\n[result]")[0])
    assert (found.compared, found.holds) == (0, False)
    assert "holds no result" in verification_text(found, "r.toml")


def test_what_counts_as_the_same():
    assert same(math.nan, math.nan) and same(math.inf, math.inf) and same("a", "a") and same(True, True)
    assert not same(1.0, 1.0 + 2e-16 * 2) and not same(1, True) and not same(0.0, "0")
    assert abs(relative_change(1.0, 1.0 + 5e-10)) < ROUNDING < abs(relative_change(1.0, 1.0 + 2e-9))
    assert math.isnan(relative_change(0.0, 1.0)) and math.isnan(relative_change("a", 1.0))


def test_text_and_json_of_a_verification_say_the_same(text):
    found = verified(text.replace("life_h = 60000.0\n", "life_h = 61000.0\n").replace('life_typed = "60 000 h"\n', ""))
    said, told = verification_text(found, "r.toml"), json.loads(verification_json(found, "r.toml"))
    assert told["verified"] is False and "NOT verified" in said
    assert len(told["moved"]) == len(found.moved) == int(re.search(r"(\d+) moved", said)[1])
    assert all(len(line) <= 120 and line.isprintable() for line in said.splitlines())
    assert told["reasons"][0]["words"] in " ".join(said.split())


# two records


def test_a_record_does_not_differ_from_itself(text):
    record = parse(text.encode())
    computed = compute(record)
    found = between(record.answers, record.answers, (computed, computed))
    assert found.same and found.compared > 200
    assert "No difference" in difference_text(found, ("a", "b"))


def test_rounding_of_another_processor_is_no_difference_between_records(text):
    computed = compute(parse(text.encode()))
    check = computed.result.checks[0]
    for share, moved in ((5e-10, False), (2e-9, True)):
        other = replace(check, capacity=check.capacity * (1 + share))
        checks = (other, *computed.result.checks[1:])
        rounded = replace(computed, result=replace(computed.result, checks=checks))
        found = between(computed.record.answers, computed.record.answers, (computed, rounded))
        assert [one.key for one in found.moved] == (["check life A capacity"] if moved else [])


def test_a_stored_figure_that_is_not_what_is_computed_is_a_difference(text):
    place = re.search(r"^capacity = (.*)$", text, re.M)
    changed = text[: place.start(1)] + "1.5" + text[place.end(1) :]
    one, other = compute(parse(text.encode())), compute(parse(changed.encode()))
    found = between(one.record.answers, other.record.answers, (one, other))
    assert found.alike and not found.same
    assert [held.differ for held in found.stored] == [0, 1]
    said, told = difference_text(found, ("a.toml", "b.toml")), json.loads(difference_json(found, ("a.toml", "b.toml")))
    (line,) = [line for line in said.splitlines() if "verify" in line]
    assert line == "  B: its stored figures do not verify: 1 differs; conewright verify b.toml shows it"
    assert told["same"] is False
    assert [(row["record"], row["verified"], row["differ"]) for row in told["stored"]] == [
        ("a.toml", True, 0), ("b.toml", False, 1),
    ]  # fmt: skip


def test_results_of_two_versions_of_the_program_are_said_to_be_so(text):
    older = sealed_anew(text.replace(f'conewright = "{__version__}"', 'conewright = "0.0.9"'))
    one, other = compute(parse(text.encode())), compute(parse(older.encode()))
    found = between(one.record.answers, other.record.answers, (one, other))
    assert found.same  # both hold what is computed
    said = difference_text(found, ("a", "b"))
    assert (
        f"B: The result was computed by version 0.0.9; this is {__version__}." in said and "A: The result" not in said
    )


def test_answers_choice_and_figures_that_differ_are_named(text):
    one = compute(parse(text.encode()))
    changed = text.replace("overspeed_rpm = 55.0", "overspeed_rpm = 50.0").replace('overspeed_typed = "55 rpm"\n', "")
    changed = changed.replace('bearing_b = "Q286.1+6"', 'bearing_b = "Q286.1+7"', 1)
    other = compute(parse(changed.encode()))
    found = between(one.record.answers, other.record.answers, (one, other))
    assert [(c.path, c.before, c.after) for c in found.answers] == [("speed.overspeed", "55 rpm", "50 rpm")]
    assert [(c.path, c.before, c.after) for c in found.choice] == [("choice.bearing_b", "Q286.1+6", "Q286.1+7")]
    moved = {one.key for one in found.moved}
    assert {"bearing_b", "bearings.D b", "check speed A demand"} <= moved
    assert "bearings.D a" not in moved
    said, told = difference_text(found, ("a", "b")), json.loads(difference_json(found, ("a", "b")))
    assert "Highest speed ever: 55 rpm -> 50 rpm" in said
    assert len(told["figures"]) == len(found.moved)
    assert told["choice"][0]["after"] == "Q286.1+7"


def test_a_load_case_more_is_one_difference_and_not_a_shift_of_all(text):
    record = parse(text.encode())
    case = '[[answers.duty.cases]]\nname = "storm"\nspeed_rpm = 1.0\nradial_y_N = 100.0\n\n'
    more = parse(text.replace("[[answers.duty.cases]]", case + "[[answers.duty.cases]]", 1).encode())
    found = between(record.answers, more.answers)
    assert [(c.path, c.label, c.before) for c in found.answers] == [
        ("duty.cases[0]", "Load case 1", "not there"),
    ]  # fmt: skip
    assert "storm" in found.answers[0].after
    back = between(more.answers, record.answers)
    assert [(c.path, c.after) for c in back.answers] == [("duty.cases[0]", "not there")]
