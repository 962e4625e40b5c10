"""What each kind of question takes, and how it says no."""

import pytest

from engine.answers.document import question_at
from engine.answers.question import Limits, Quantity, Refused

SPEED = question_at("duty.cases[0].speed")
BORE = question_at("envelope.bore_a")
SUPPLY = question_at("lubrication.supply")
GRADE = question_at("lubrication.grade")
STIFF = question_at("duty.arrangement")
SAME = question_at("envelope.same_on_both_sides")
JOB = question_at("duty.job")

TAKEN = [
    (SPEED, "1450", Quantity(1450.0, "1450")),
    (SPEED, " 24 rev/s ", Quantity(1440.0, "24 rev/s")),
    (SPEED, "0", Quantity(0.0, "0")),
    (BORE, "60", Limits(60.0, 60.0, "60")),
    (BORE, "55..65", Limits(55.0, 65.0, "55..65")),
    (BORE, "55 to 65 mm", Limits(55.0, 65.0, "55 to 65 mm")),
    (BORE, "2..2 1/2 in", Limits(50.8, 63.5, "2..2 1/2 in")),
    (BORE, "2 in .. 70 mm", Limits(50.8, 70.0, "2 in .. 70 mm")),
    (BORE, "55 - 65", Limits(55.0, 65.0, "55 - 65")),
    (BORE, "2-1/2 in", Limits(63.5, 63.5, "2-1/2 in")),
    (BORE, ">= 55", Limits(55.0, None, ">= 55")),
    (BORE, ">55", Limits(55.0, None, ">55")),
    (BORE, "at least 55 mm", Limits(55.0, None, "at least 55 mm")),
    (BORE, "<=2 1/2 in", Limits(None, 63.5, "<=2 1/2 in")),
    (BORE, "At Most 65", Limits(None, 65.0, "At Most 65")),
    (SUPPLY, "oil bath", "bath"),
    (SUPPLY, "circ", "circulating"),
    (SUPPLY, "2", "bath"),
    (SUPPLY, "GREASE", "grease"),
    (GRADE, "220", "220"),
    (GRADE, "vg 46", "46"),
    (STIFF, "back", "back_to_back"),
    (SAME, "y", True),
    (SAME, "No", False),
    (JOB, "  Winch drum, 3rd shift ", "Winch drum, 3rd shift"),
    (JOB, "Förderband 中", "Förderband 中"),
]


@pytest.mark.parametrize(("question", "typed", "value"), TAKEN, ids=[f"{q.label}: {t}" for q, t, _ in TAKEN])
def test_what_is_taken(question, typed, value):
    assert question.parse(typed) == value


REFUSED = [
    (SPEED, "-1", "-1 rpm is out of bounds", "0 to 100 000 rpm"),
    (SPEED, "1e9", "1.00000e+09 rpm is out of bounds", "1450 rpm"),
    (SPEED, "fast", "does not begin with a number", "1450 rpm"),
    (SPEED, "3 kg", '"kg" is not a unit of speed', "rev/s"),
    (SPEED, "", "does not begin with a number", "1450 rpm"),
    (BORE, "65..55", "from 65 to 55 runs backwards", "55..65"),
    (BORE, "0.5", "0.5 mm is out of bounds", "1 to 2000 mm"),
    (BORE, "55..", "does not begin with a number", ">=55"),
    (BORE, "..65", "does not begin with a number", "<=65"),
    (BORE, "55..60..65", "not a", "55..65"),
    (BORE, ">=", "does not begin with a number", ">=55"),
    (BORE, "at least", "does not begin with a number", ">=55"),
    (BORE, "60 kN", "not a unit of length", "60 (fixed)"),
    (SUPPLY, "water", "is not one of the options", "grease, oil bath, circulating oil"),
    (SUPPLY, "9", "is not one of the options", "grease, oil bath, circulating oil"),
    (SUPPLY, "", "is not one of the options", "grease, oil bath, circulating oil"),
    (GRADE, "4", "is not one of the options", "150"),  # a grade is itself a number, so none is picked by its place
    (SAME, "maybe", "is neither yes nor no", "yes or no"),
    (JOB, "x" * 61, "longer than 60 characters", "up to 60"),
    (JOB, "two\nlines", "not printable", "printable"),
    (JOB, "red \x1b[31m", "not printable", "printable"),
    (JOB, "turned \u202e round", "not printable", "printable"),
]


@pytest.mark.parametrize(
    ("question", "typed", "wrong", "accepted"), REFUSED, ids=[f"{q.label}: {t[:20]!r}" for q, t, *_ in REFUSED]
)
def test_what_is_refused(question, typed, wrong, accepted):
    with pytest.raises(Refused) as refused:
        question.parse(typed)
    assert wrong in refused.value.wrong
    assert accepted in refused.value.accepted
    assert str(refused.value) == f"{refused.value.wrong}; accepted: {refused.value.accepted}"


@pytest.mark.parametrize("question", [SPEED, BORE, SUPPLY, SAME], ids=lambda q: q.kind)
@pytest.mark.parametrize("typed", ["\x1b[2J", "\u202e60", "\ud800", "9" * 10_000, "\x00"])
def test_a_refusal_never_repeats_what_could_harm_a_screen(question, typed):
    with pytest.raises(Refused) as refused:
        question.parse(typed)
    assert refused.value.wrong.isprintable()
    assert len(refused.value.wrong) < 300


SHOWN = [
    (SPEED, "1450", "1450 rpm"),
    (SPEED, "24 rev/s", "24 rev/s (1440 rpm)"),
    (SPEED, "1450 rpm", "1450 rpm"),
    (BORE, "60", "60 mm"),
    (BORE, "55..65", "55 to 65 mm"),
    (BORE, ">=55", "at least 55 mm"),
    (BORE, "<= 2 1/2 in", "<= 2 1/2 in (at most 63.5 mm)"),
    (question_at("duty.cases[0].radial_y"), "-1500", "-1500 N"),
    (question_at("duty.cases[0].radial_y"), "4 kN", "4 kN (4000 N)"),
    (question_at("duty.cases[0].radial_y"), "1e5", "100 000 N"),
    (question_at("lubrication.temperature"), "180 degF", "180 degF (82.2222 degC)"),
    (question_at("lubrication.nu40"), "100 mm2/s", "100 mm2/s"),
    (SUPPLY, "2", "oil bath"),
    (SAME, "n", "no"),
]


@pytest.mark.parametrize(("question", "typed", "shown"), SHOWN, ids=[f"{q.label}: {t}" for q, t, _ in SHOWN])
def test_an_answer_is_shown_with_what_was_typed_where_that_is_another_unit(question, typed, shown):
    assert question.show(question.parse(typed)) == shown


def test_a_value_that_is_none_of_the_options_is_shown_without_its_control_characters():
    assert SUPPLY.show("\x1b[31m") == "\\x1b[31m"
