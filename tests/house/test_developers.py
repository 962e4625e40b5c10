"""The recipes of DEVELOPERS are right: its lubricant and its steel are read, its question asks, its check checks."""

import re
from textwrap import indent
from typing import Annotated

import numpy as np
import pytest
from msgspec import Struct

from engine.answers.document import questions_of
from engine.answers.measured import Measure
from engine.answers.question import Quantity, Refused
from engine.catalogue.lubricants import read as lubricants
from engine.catalogue.materials import steels
from engine.checks.check import Check, Outcome
from engine.numerics import Array
from engine.record.schema import form_of
from engine.sources import COMMON_PRACTICE, Citation
from engine.units import PRESSURE
from tests.house.tree import ROOT

TEXT = (ROOT / "DEVELOPERS.md").read_text("utf-8")


def block(language, holding):
    (found,) = [one for one in re.findall(rf"^```{language}\n(.*?)^```$", TEXT, re.M | re.S) if holding in one]
    return found


def test_the_lubricant_is_read_beside_those_of_the_list():
    held = (ROOT / "catalogs" / "lubricants.toml").read_text("utf-8") + block("toml", "[[lubricant]]")
    oil = lubricants.named(lubricants.parse(held.encode()), "press oil VG 320")
    assert (oil.form, oil.VG, oil.VI, oil.ep) == ("oil", 320.0, 97.0, True)
    assert 20.0 < oil.nu100 < 30.0


def test_the_steel_is_read_beside_those_of_the_table(tmp_path):
    path = tmp_path / "steels.toml"
    path.write_text((ROOT / "catalogs" / "steels.toml").read_text("utf-8") + block("toml", "[[steel]]"))
    added = steels.read(path).rows[-1]
    assert (added.designation, added.treatment) == ("18NiCrMo7-6", "case")
    assert (added.core_toughness.value, added.core_toughness.source) == (65, "literature")


def test_the_question_asks_and_is_kept_under_its_keys():
    names = {"Annotated": Annotated, "Quantity": Quantity, "Measure": Measure, "PRESSURE": PRESSURE, "Struct": Struct}
    exec(f"class Chapter(Struct, frozen=True, kw_only=True):\n{indent(block('python', 'washed:'), '    ')}", names)
    chapter = names["Chapter"]
    question = questions_of(chapter)["washed"]
    assert question.keys("washed") == ("washed_MPa", "washed_typed")
    assert question.parse("20 bar").value == pytest.approx(2.0)
    with pytest.raises(Refused):
        question.parse("60 bar")
    assert form_of(question, "washed")["washed_MPa"]["maximum"] == 5.0


def test_the_check_checks():
    names = {"Check": Check, "Citation": Citation, "COMMON_PRACTICE": COMMON_PRACTICE, "Outcome": Outcome, "np": np,
             "Array": Array}  # fmt: skip
    exec(block("python", "JET = "), names)
    outcome = names["jet"]("A", np.array([2.0, 0.0]), np.array([1.0, 1.0]))
    assert outcome.check.advisory
    np.testing.assert_array_equal(outcome.utilisation, [2.0, 0.0])
