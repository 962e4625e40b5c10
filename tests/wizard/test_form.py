"""The help beside the questions: what can be answered is always in view."""

import pytest

from engine.answers.document import all_asked, asked
from engine.answers.worded import Choice
from tests.duties import answered
from wizard.screens import form
from wizard.screens.chapter import HELP_HEIGHT

WHOLE = answered({"shaft.elements[0].name": "one", "shaft.sections[0].length": "5"})
CHOICES = [item for item in all_asked(WHOLE, every=True) if isinstance(item.question, Choice)]


@pytest.mark.parametrize("width", [80, 60])
@pytest.mark.parametrize("item", CHOICES, ids=lambda item: item.path)
def test_every_option_is_in_view_or_told_where_to_find(item, width):
    lines = form.help_lines(item, width, HELP_HEIGHT)
    assert len(lines) <= HELP_HEIGHT
    text = " ".join(piece for line in lines for piece, _ in line)
    told = f"{len(item.question.options)} options; Enter shows them." in text
    # lines may break between any two words, and behind a hyphen
    joined = text.replace(" ", "")
    assert told or all(option.label.replace(" ", "") in joined for option in item.question.options), text


def test_what_is_not_covered_of_paired_units_is_on_the_help_page():
    from wizard.screens.help import page

    item = next(item for item in asked(WHOLE, "duty") if item.path == "duty.locating")
    text = " ".join("".join(piece for piece, _ in line).strip() for line in page("chapter", item, (), (), 80))
    assert "not covered: unequal bearings in a unit" in text
    assert "a floating partner of another kind" in text
