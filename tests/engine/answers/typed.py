"""Answers as a person gives them: random questions, answered with texts that a keyboard can produce."""

from hypothesis import strategies as st

from engine.answers.binned import Bins, Histogram
from engine.answers.chapters.duty import LoadCase
from engine.answers.chapters.element import Element
from engine.answers.chapters.shaft import Section
from engine.answers.document import Answers, all_asked, put, with_items
from engine.answers.lubricated.kinds import CleanlinessCode, FromList
from engine.answers.measured import Measure, Span
from engine.answers.question import Question
from engine.answers.worded import Choice, Text, YesNo
from engine.units import Dimension
from tests.strategies import numbers

_WORDS = st.text("abcdefghijklmnopqrstuvwxyzABC 0123456789./,()-_äöüßé中\u20ac\\\"'#[]=", min_size=1, max_size=30)


@st.composite
def _quantity(draw: st.DrawFn, dimension: Dimension, least: float, greatest: float) -> str:
    """Return a quantity within bounds, in any unit of its dimension, with a few or with many digits."""
    # rounding, and the way through another unit, must not lead over a bound, so values keep away from both
    hair = 0.005 * (greatest - least)
    value = draw(numbers(least + hair, greatest - hair))
    if draw(st.booleans()):
        value = float(f"{value:.3g}")
    spelling = draw(st.sampled_from(["", *dimension.units]))
    factor, offset = dimension.units.get(spelling, (1, 0))
    number = repr((value - float(offset)) / float(factor))
    if "e" not in number and draw(st.booleans()):
        number = f"{float(number):.9f}".replace(".", ",")
    return f"{number} {spelling}".strip()


@st.composite
def _range(draw: st.DrawFn, question: Span) -> str:
    ends = sorted(draw(numbers(question.least, question.greatest)) for _ in "12")
    low, high = (f"{min(max(end, question.least + 0.01), question.greatest - 0.01):.2f}" for end in ends)
    return draw(
        st.sampled_from(
            [low, f"{low}..{high}", f"{low} to {high} mm", f"{low} - {high}", f">={low}", f"<= {high} mm", f">{low}"]
        )
    )


def typed_for(question: Question) -> st.SearchStrategy[str]:
    """Return texts that a question accepts."""
    if isinstance(question, Measure):
        return _quantity(question.dimension, question.least, question.greatest)
    if isinstance(question, Span):
        return _range(question)
    if isinstance(question, Choice):
        return st.sampled_from([word for option in question.options for word in (option.value, option.label)])
    if isinstance(question, YesNo):
        return st.sampled_from(["yes", "no", "y", "N"])
    if isinstance(question, FromList):
        return st.sampled_from(question.names())
    if isinstance(question, CleanlinessCode):
        return st.sampled_from(["18/15/12", "-/17/14", "22/19", "*/13/10"])
    assert isinstance(question, Text)
    return _WORDS.map(str.strip).filter(bool)


@st.composite
def _bins(draw: st.DrawFn) -> Bins:
    """Return a histogram as it is kept in a record."""
    size = draw(st.integers(1, 5))
    share, speed, level = (
        tuple(draw(st.lists(numbers(least, most), min_size=size, max_size=size)))
        for least, most in ((1e-6, 1e6), (0.0, 1e5), (0.0, 1e3))
    )
    warm = st.lists(numbers(-60.0, 400.0), min_size=size, max_size=size).map(tuple)
    return Bins(draw(_WORDS), share, speed, level, draw(st.one_of(st.just(()), warm)))


def answer_for(question: Question) -> st.SearchStrategy[object]:
    """Return answers to a question, as it keeps them."""
    return _bins() if isinstance(question, Histogram) else typed_for(question).map(question.parse)


@st.composite
def answers(draw: st.DrawFn, most_cases: int = 4) -> Answers:
    """Return answers to some of the questions of every chapter, with one to a few items in every list."""
    made = with_items(Answers(), "duty.cases", tuple(LoadCase() for _ in range(draw(st.integers(1, most_cases)))))
    made = with_items(made, "shaft.elements", tuple(Element() for _ in range(draw(st.integers(0, 2)))))
    made = with_items(made, "shaft.sections", tuple(Section() for _ in range(draw(st.integers(0, 2)))))
    items = list(all_asked(made, every=True))
    for item in draw(st.lists(st.sampled_from(items), max_size=25, unique_by=lambda item: item.path)):
        made = put(made, item.path, draw(answer_for(item.question)))
    return made
