"""What a person wrote beside the answers is still there after the program has written: comments, keys of the future."""

import tomllib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.answers.document import get, put, with_items
from engine.answers.question import Quantity
from engine.record.carried.alignment import aligned
from engine.record.carried.lines import Lines, statements
from engine.record.document import SCHEMA
from engine.record.read import parse
from engine.record.tables import to_toml
from engine.record.write import to_text
from tests.engine.record.damage import mutated
from tests.engine.record.test_read import MINIMAL
from wizard.session import Session

COMMENTED = """\
# Drum shaft of the hoist, second draft
#:schema record.schema.json
schema = "1.1"  # written by hand

# the customer's own words
[answers.duty]  # chapter 1
# agreed in the meeting of March
life_h = 12000.0  # he wanted 10 000
distance_mm = 150.0

# the worst day of the year
[[answers.duty.cases]]
name = "lifting"
speed_rpm = 120.0  # measured, "# 2" on the plate
radial_y_N = 4000.0

[[answers.duty.cases]]
name = "lowering"
speed_rpm = 240.0  # estimated
radial_y_N = 900.0

[answers.steel]
shock = "moderate"  # says the operator
# the end
"""


def comments(text):
    """Return every comment of a text with the statement that it stands above or behind."""
    found, tail = statements(text)
    return {
        (remark, one.path) for one in found for remark in (*one.above, *([one.comment] if one.comment else []))
    } | {(remark, "") for remark in tail}  # fmt: skip


def written(record, answers):
    return (
        Session(record, MINIMAL, named=True).record().__class__(answers, schema=record.schema, carried=record.carried)
    )


def test_what_is_read_and_written_keeps_every_comment_in_its_place():
    text = to_text(parse(COMMENTED.encode()), None)
    assert comments(text) >= comments(COMMENTED) - {("# the end", "")}
    assert text.endswith("\n\n# the end\n")
    assert to_text(parse(text.encode()), None) == text


def test_an_answer_changed_or_added_moves_no_comment():
    record = parse(COMMENTED.encode())
    answers = put(record.answers, "duty.life", Quantity(9000.0))
    answers = put(answers, "duty.reliability", Quantity(95.0))
    text = to_text(written(record, answers), None)
    assert "life_h = 9000.0  # he wanted 10 000\n" in text
    assert comments(text) == comments(COMMENTED)


def test_comments_follow_the_load_case_that_they_belong_to():
    record = parse(COMMENTED.encode())
    first, second = record.answers.duty.cases
    changed = put(record.answers, "duty.cases[1].speed", Quantity(250.0)).duty.cases[1]
    for cases, lines in (
        ((second, first), ["speed_rpm = 240.0  # estimated", 'speed_rpm = 120.0  # measured, "# 2" on the plate']),
        ((type(first)(), first, second), ['120.0  # measured, "# 2" on the plate', "240.0  # estimated"]),
        ((second,), ["speed_rpm = 240.0  # estimated"]),
        ((changed,), ["speed_rpm = 250.0  # estimated"]),
    ):
        text = to_text(written(record, with_items(record.answers, "duty.cases", cases)), None)
        places = [text.index(line) for line in lines]
        assert places == sorted(places)
        # what stood at a case that is gone is not lost, it goes to the chapter
        assert {remark for remark, _ in comments(text)} == {remark for remark, _ in comments(COMMENTED)}


def test_the_comment_of_an_answer_that_is_opened_again_comes_back_with_it():
    record = parse(COMMENTED.encode())
    without = to_text(written(record, put(record.answers, "duty.life", None)), None)
    assert {remark for remark, _ in comments(without)} == {remark for remark, _ in comments(COMMENTED)}
    assert "# he wanted 10 000\n[answers.duty]" in without
    assert comments(to_text(written(record, record.answers), None)) == comments(COMMENTED)


def test_the_session_keeps_them_through_undo_and_saving(tmp_path):
    path = tmp_path / "hoist.toml"
    path.write_text(COMMENTED)
    session = Session(parse(COMMENTED.encode()), path, named=True)
    session.answer("duty.life", "15000 h")
    session.remove_item("duty.cases", 0)
    session.undo()
    session.undo()
    assert comments(path.read_text()) == comments(COMMENTED)
    session.save_as(tmp_path / "other.toml")
    assert comments((tmp_path / "other.toml").read_text()) == comments(COMMENTED)


def test_comments_within_values_and_texts_that_look_like_comments():
    text = '''schema = "1.1"
[answers.duty]
job = "# no comment"
[[answers.duty.cases]]
[answers.duty.cases.histogram] # from the truck
file = """# not this
either"""
share = [ # hours
  1.0, # first
] # all of it
'''
    found, tail = statements(text)
    assert tail == ()
    assert [(one.path, one.first, one.last) for one in found][2:] == [
        ("answers.duty.job", 3, 3), ("answers.duty.cases[0]", 4, 4), ("answers.duty.cases[0].histogram", 5, 5),
        ("answers.duty.cases[0].histogram.file", 6, 7), ("answers.duty.cases[0].histogram.share", 8, 10),
    ]  # fmt: skip
    assert comments(text) == {
        ("# from the truck", "answers.duty.cases[0].histogram"),
        ("# hours", "answers.duty.cases[0].histogram.share"),
        ("# first", "answers.duty.cases[0].histogram.share"),
        ("# all of it", "answers.duty.cases[0].histogram.share"),
    }


@pytest.mark.parametrize("seed", range(200))
def test_lines_agree_with_the_parser_whatever_the_text(seed):
    data = mutated(COMMENTED.encode(), seed)
    try:
        tables = tomllib.loads(data.decode())
    except ValueError:
        return
    lines = Lines(data.decode())
    for key in tables:
        assert lines.of(key) is not None or "\\" in repr(key)


# keys of a newer version

NEWER = """\
schema = "1.9"
colour = "red"

[made_with]
conewright = "3.0"
day = 2031-05-01

[answers.duty]
life_h = 5000.0
moon = [1, 2]

[[answers.duty.cases]]
name = "lifting"
speed_rpm = 120.0

[answers.duty.cases.wind]
gust = 3.0

[[answers.duty.cases]]
name = "lowering"
tide = "high"

[answers.weather]
rain = true
"""


def test_keys_of_a_newer_version_are_kept_and_said():
    record = parse(NEWER.encode())
    assert get(record.answers, "duty.life") == Quantity(5000.0)
    said = str(record.unused)
    for path in ("colour", "made_with.day", "answers.duty.moon", "answers.duty.cases[0].wind",
                 "answers.duty.cases[1].tide", "answers.weather"):  # fmt: skip
        assert f"{path}: this version does not know this key; it is kept, but not used" in said
    again = tomllib.loads(to_text(record, None))
    before = tomllib.loads(NEWER)
    assert again == before | {"made_with": again["made_with"]}
    assert again["made_with"]["day"] == before["made_with"]["day"]
    again = parse(to_text(record, None).encode())
    assert again.warnings == record.warnings
    assert {one.field for one in again.unused.listed} == {one.field for one in record.unused.listed}


def test_they_go_where_their_load_case_goes(tmp_path):
    path = tmp_path / "newer.toml"
    session = Session(parse(NEWER.encode()), path, named=True)
    session.move_item("duty.cases", 0, 1)
    cases = tomllib.loads(path.read_text())["answers"]["duty"]["cases"]
    assert [case["name"] for case in cases] == ["lowering", "lifting"]
    assert cases[0]["tide"] == "high"
    assert cases[1]["wind"] == {"gust": 3.0}
    session.remove_item("duty.cases", 1)
    assert "gust" not in path.read_text()
    assert tomllib.loads(path.read_text())["schema"] == "1.9"


@pytest.mark.parametrize("version", ["1.0", SCHEMA])
def test_in_a_record_of_this_or_an_older_version_they_are_kept_and_said_too(version):
    text = NEWER.replace("1.9", version)
    record = parse(text.encode(), "r.toml")
    assert {one.field: (one.path, one.line) for one in record.unused.listed} == {
        "colour": ("r.toml", 2), "made_with.day": ("r.toml", 6), "answers.duty.moon": ("r.toml", 10),
        "answers.duty.cases[0].wind": ("r.toml", 16), "answers.duty.cases[1].tide": ("r.toml", 21),
        "answers.weather": ("r.toml", 23),
    }  # fmt: skip
    assert len(record.warnings) == (version != SCHEMA)  # an older layout is said
    before, again = tomllib.loads(text), tomllib.loads(to_text(record, None))
    assert again == before | {"schema": SCHEMA, "made_with": again["made_with"]}


# which item is which

items = st.lists(st.dictionaries(st.sampled_from("abcd"), st.integers(0, 2), max_size=4), max_size=5)


@given(items, items)
def test_alignment_pairs_each_item_once(before, after):
    found = aligned(before, after)
    assert len(set(found.values())) == len(found) <= min(len(before), len(after))
    assert all(0 <= i < len(before) and 0 <= j < len(after) for i, j in found.items())


@given(items, st.randoms())
def test_items_that_are_only_moved_are_found_again(before, random):
    after = random.sample(before, len(before))
    assert all(before[i] == after[j] for i, j in aligned(before, after).items())


def test_tables_written_hold_what_was_kept():
    record = parse(NEWER.encode())
    assert "colour" in to_toml(tomllib.loads(to_text(record, None)))
