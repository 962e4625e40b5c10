"""Answers as a person gives them: random questions, answered with texts that a keyboard can produce."""

from hypothesis import strategies as st

from engine.answers.chapters.duty import LoadCase
from engine.answers.document import Answers, all_asked, put, with_items
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
    assert isinstance(question, Text)
    return _WORDS.map(str.strip).filter(bool)


@st.composite
def answers(draw: st.DrawFn, most_cases: int = 4) -> Answers:
    """Return answers to some of the questions of every chapter, with one to a few load cases."""
    made = with_items(Answers(), "duty.cases", tuple(LoadCase() for _ in range(draw(st.integers(1, most_cases)))))
    items = list(all_asked(made))
    for item in draw(st.lists(st.sampled_from(items), max_size=25, unique_by=lambda item: item.path)):
        text = draw(typed_for(item.question))
        made = put(made, item.path, item.question.parse(text))
    return made
