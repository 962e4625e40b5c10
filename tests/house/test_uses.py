"""Every question says what becomes of its answer: formulas with their sources, or that it enters none."""

import re

import pytest

from engine.answers.document import CHAPTERS, _chapter_types, listings_of, questions_of
from engine.answers.uses.use import use_of, uses
from engine.report.formulas import named, seen
from engine.sources import DOCUMENTS


def paths():
    """Yield the path of every question; an item of a list without its number."""
    for chapter in CHAPTERS:
        kind = _chapter_types()[chapter.field]
        yield from (f"{chapter.field}.{name}" for name in questions_of(kind))
        for listed, listing in listings_of(kind).items():
            yield from (f"{chapter.field}.{listed}[].{name}" for name in questions_of(listing.of))


PATHS = list(paths())
PLACES = sorted({place for one in uses().values() for place in one.formulas})


def test_every_question_says_what_becomes_of_its_answer_and_nothing_else_does():
    assert len(PATHS) > 140
    assert sorted(uses()) == sorted(PATHS)


@pytest.mark.parametrize("path", PATHS)
def test_it_enters_a_formula_or_says_that_it_enters_none(path):
    use = use_of(path)
    assert use.does.endswith(".")
    enters_none = re.search(r"nters no (published )?formula\b", use.does) is not None
    assert enters_none is not bool(use.formulas)
    assert len(set(use.formulas)) == len(use.formulas)


def test_an_item_of_a_list_is_looked_up_by_its_number():
    assert use_of("duty.cases[3].speed") is use_of("duty.cases[0].speed")
    with pytest.raises(KeyError):
        use_of("duty.no_such_question")


@pytest.mark.parametrize("place", PLACES)
def test_each_formula_stands_in_the_engine_with_its_source(place):
    formula = named(place)
    assert formula.printed
    assert formula.printed.isascii()  # a plain terminal shows it too
    document = next(one for one in DOCUMENTS if formula.source.startswith(one.short))
    assert seen(formula.source) == document.seen


def test_a_formula_that_is_not_there_is_said_so():
    for wrong in ("rating.life:no_such_formula", "rating.life:Array"):
        with pytest.raises(LookupError):
            named(wrong)
