"""From words and codes to a level of cleanliness, and Table 13 beside the equations."""

import itertools

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.lubrication import cleanliness
from engine.lubrication.cleanliness import LEVELS, level_in_words, level_of_code, numbers_of_code
from engine.lubrication.contamination import SUPPLIES, TABLE_13, e_C_of, e_C_of_table_13
from engine.rating.modified_life import a_iso
from tests.strategies import kappas, numbers

# ISO 281:2007 Annex A prints a cleanliness code with each line of A.4 and A.5 (recalled)
CODES = {"-/13/10": "high", "-/15/12": "normal", "-/17/14": "slight", "-/19/16": "severe", "-/21/18": "very_severe"}


@pytest.mark.parametrize("code", CODES)
def test_codes_of_annex_a(code):
    assert level_of_code("bath", *numbers_of_code(code)) == CODES[code]


@pytest.mark.parametrize(
    ("code", "level"),
    [("18/15/12", "normal"), ("16/13", "slight"), ("*/16/11", "slight"), ("22/20/15", "very_severe"),
     (" 10/8/5 ", "high"), ("28/27/25", "very_severe")],
)  # fmt: skip
def test_between_the_lines_the_dirtier_counts(code, level):
    assert level_of_code("circulating", *numbers_of_code(code)) == level


@pytest.mark.parametrize("text", ["", "13", "10/13", "1/2/3/4", "99/40/30", "a/b/c", "13.5/10", "-13/10", "١٣/١٠"])
def test_what_is_no_code(text):
    assert numbers_of_code(text) is None


WORDS = {
    "filtered": ("fine_6", "medium_12", "coarse_25", "screen_40", "none"),
    "seals": ("contact", "lip", "gap", "worn", "none"),
    "breather": ("closed", "filtered", "plain", "open"),
    "air": ("clean", "workshop", "dusty", "abrasive"),
}


@pytest.mark.parametrize("supply", SUPPLIES)
def test_worse_words_never_give_a_cleaner_level(supply):
    place = {words: LEVELS.index(level_in_words(supply, *words).level) for words in itertools.product(*WORDS.values())}
    for words, here in place.items():
        for at, choices in enumerate(WORDS.values()):
            worse = choices.index(words[at]) + 1
            if worse < len(choices):
                other = (*words[:at], choices[worse], *words[at + 1 :])
                assert place[other] >= here
    assert set(place.values()) == set(range(len(LEVELS)))


@pytest.mark.parametrize(("supply", "clause"), [("bath", "A.5"), ("circulating", "A.4")])
def test_an_oil_without_a_filter_counts_as_behind_the_coarsest_one_and_says_so(supply, clause):
    found = level_in_words(supply, "none", "lip", "closed", "clean")
    assert found.level == level_in_words(supply, "screen_40", "lip", "closed", "clean").level == "severe"
    assert (found.steps[0].said, found.steps[0].level) == ("no filter", "severe")
    assert clause in found.steps[0].why and "-/19/16" in found.steps[0].why and "no source" in found.steps[0].why


def test_every_word_is_known():
    assert (*cleanliness.FILTER_WORDS,) == WORDS["filtered"]
    assert (*cleanliness.SEALS,) == WORDS["seals"]
    assert (*cleanliness.BREATHERS,) == WORDS["breather"]
    assert (*cleanliness.AIR,) == WORDS["air"]


def test_each_step_is_shown():
    found = level_in_words("circulating", "medium_12", "gap", "open", "dusty")
    assert [step.level for step in found.steps] == ["normal", "severe", "slight"]
    assert "ISO 281 A.4" in found.steps[0].why and "-/15/12" in found.steps[0].why
    assert all("common practice, no source" in step.why for step in found.steps[1:])
    assert found.steps[-1].level == found.level
    assert [step.said for step in level_in_words("grease", "none", "contact", "open", "clean").steps] == [
        "fresh grease", "contact seals, clean air"]  # fmt: skip


# ISO 281:2007 Table 13 (recalled); mid-points read in open code: below 100 mm and from there on
MIDDLES = {
    "extreme": (1, 1), "high": (0.7, 0.85), "normal": (0.55, 0.7), "slight": (0.4, 0.5), "typical": (0.2, 0.3),
    "severe": (0.05, 0.05), "very_severe": (0, 0),
}  # fmt: skip


@pytest.mark.parametrize("word", MIDDLES, ids=[f"ISO 281 table 13, {word}" for word in MIDDLES])
def test_table_13(word):
    least, greatest = e_C_of_table_13(word, [60.0, 150.0])
    assert (least + greatest) / 2 == pytest.approx(MIDDLES[word])
    assert np.isnan(np.array(e_C_of_table_13(word, [0.0, -1.0, np.nan]))).all()
    assert tuple(MIDDLES) == tuple(TABLE_13)


@given(st.sampled_from(SUPPLIES), kappas, numbers(20.0, 900.0), numbers(0.01, 50.0))
def test_cleaner_never_shortens_life(supply, kappa, Dpw, Cu_over_P):
    by_level = [float(a_iso(kappa, e_C_of(supply, level, kappa, Dpw), Cu_over_P, 1.0)) for level in LEVELS]
    # at kappa = 0.1 the printed constants of a_ISO make dirt help, by a hair
    assert all(cleaner >= dirtier * (1 - 2e-3) for cleaner, dirtier in itertools.pairwise(by_level))
