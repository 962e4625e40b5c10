"""Every question is complete: label, reason, bounds around its default, and ways to type that work."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.answers.chapters.element import Element
from engine.answers.chapters.shaft import Section
from engine.answers.document import CHAPTERS, Answers, all_asked, with_items
from engine.answers.measured import Measure, Span
from engine.answers.question import Limits, Quantity, Refused
from engine.answers.worded import Choice, Text, YesNo
from tests.strategies import numbers

#: Every question there is: with one item in each list that may be empty, whether it applies or not.
WHOLE = with_items(with_items(Answers(), "shaft.elements", (Element(),)), "shaft.sections", (Section(),))
ASKED = list(all_asked(WHOLE, every=True))
QUESTIONS = [pytest.param(item.question, id=item.path) for item in ASKED]
each = pytest.mark.parametrize("question", QUESTIONS)


def of_kind(*kinds):
    return pytest.mark.parametrize(
        "question", [pytest.param(a.question, id=a.path) for a in ASKED if isinstance(a.question, kinds)]
    )


def test_the_chapters_hold_the_questions():
    assert {item.path.partition(".")[0] for item in ASKED} == {*(chapter.field for chapter in CHAPTERS), "choice"}
    assert len({item.path for item in ASKED}) == len(ASKED) >= 80
    numbered = list(all_asked(WHOLE))
    assert len({item.number for item in numbered}) == len(numbered) >= 40


@each
def test_it_says_what_it_asks_and_why(question):
    assert question.label[0].isupper() or question.label.startswith("ISO")
    assert question.label[-1] not in ".?: "
    assert len(question.label) <= 32
    assert question.why.endswith(".")
    assert question.why != question.label
    assert question.accepted()


@each
def test_what_is_assumed_has_a_reason_and_can_be_shown(question):
    if question.default is None:
        return
    assert question.default_why
    assert question.show(question.default)
    assert not question.default_why.endswith(".")


@each
def test_what_is_assumed_could_have_been_answered(question):
    if question.default is None:
        return
    assert question.parse(question.show(question.default)) == answered(question, question.default)
    assert question.from_plain("it", question.to_plain("it", question.default)) == question.default


def answered(question, value):
    """Return the value with the text beside it that shows it, as an answer typed so would have it."""
    shown = question.show(value)
    if isinstance(value, Quantity):
        return Quantity(value.value, shown)
    return Limits(value.least, value.greatest, shown) if isinstance(value, Limits) else value


@of_kind(Measure, Span)
def test_its_bounds_are_in_order_and_can_be_typed(question):
    assert question.least < question.greatest
    for bound in (question.least, question.greatest):
        shown = f"{bound:.12g} {question.dimension.unit}"
        assert question.parse(shown)
        # just beyond the bounds is refused, and the message says what is accepted
        beyond = bound * 1.001 if (bound > 0) == (bound == question.greatest) else bound * 0.999
        if bound != 0:
            with pytest.raises(Refused, match=r"out of bounds; accepted: .+"):
                question.parse(f"{beyond:.12g} {question.dimension.unit}")
    if isinstance(question.default, Quantity):
        assert question.least <= question.default.value <= question.greatest


@of_kind(Measure, Span)
def test_every_spelling_of_its_unit_is_understood(question):
    middle = 1.0 if question.least <= 1.0 <= question.greatest else question.least
    for spelling, (factor, offset) in question.dimension.units.items():
        typed = (middle - float(offset)) / float(factor)
        try:
            value = question.parse(f"{typed:.15f} {spelling}"[:64])
        except Refused as error:
            # rounding may put a value that stands on a bound just outside it
            assert "out of bounds" in error.wrong and middle == question.least  # noqa: PT017
        else:
            assert value


@of_kind(Choice)
def test_its_options_are_told_apart(question):
    assert len(question.options) >= 2
    for facts in (
        [option.value for option in question.options],
        [option.label.lower() for option in question.options],
    ):
        assert len(set(facts)) == len(facts)
    assert all(re.fullmatch(r"[a-z0-9_]+|[AB]|[A-Z]{1,2}[0-9]", option.value) for option in question.options)
    for number, option in enumerate(question.options, 1):
        assert question.parse(option.value) == question.parse(option.label) == question.parse(f" {option.label} ")
        assert question.parse(option.value) == option.value
        if question.by_number:
            assert question.parse(str(number)) == option.value
    assert question.default in {None, *(option.value for option in question.options)}
    assert question.default is not None or question.default_why


@of_kind(Choice)
def test_a_word_that_is_none_of_the_options_is_refused_with_all_of_them(question):
    for typed in ("", "perhaps", "0", "99999"):
        with pytest.raises(Refused) as refused:
            question.parse(typed)
        assert all(option.label in refused.value.accepted for option in question.options)


@of_kind(YesNo)
def test_yes_and_no(question):
    assert [question.parse(word) for word in ("yes", "Y", "true", "1")] == [True] * 4
    assert [question.parse(word) for word in ("no", "N", "FALSE", "2")] == [False] * 4
    assert [question.parse(question.show(value)) for value in (True, False)] == [True, False]


# a code and a file name are texts too, but not any words will do for them
@pytest.mark.parametrize("question", [a.question for a in ASKED if type(a.question) is Text], ids=lambda q: q.label)
@given(words=st.text("abcXYZ 0-9/.,()äß中", min_size=1, max_size=30).map(str.strip).filter(bool))
def test_words_come_back_as_typed(question, words):
    assert question.parse(question.show(words)) == words


@of_kind(Measure)
@given(data=st.data())
def test_a_quantity_shown_can_be_typed_again(question, data):
    # six digits are shown, so a value of six digits comes back as it was
    low, high = max(question.least, -1e6), min(question.greatest, 1e6)
    value = float(f"{data.draw(numbers(low, high)):.6g}")
    if not question.least <= value <= question.greatest or 0 < abs(value) < 1e-3:
        return
    assert question.parse(question.show(Quantity(value))).value == pytest.approx(value, rel=1e-12)


@of_kind(Span)
@given(data=st.data())
def test_a_range_shown_can_be_typed_again(question, data):
    ends = sorted(float(f"{data.draw(numbers(1.0, 999.0)):.4g}") for _ in "12")
    for limits in (
        Limits(ends[0], ends[1]),
        Limits(ends[0], ends[0]),
        Limits(ends[0], None),
        Limits(None, ends[1]),
    ):
        again = question.parse(question.show(limits))
        assert (again.least, again.greatest) == (limits.least, limits.greatest)
