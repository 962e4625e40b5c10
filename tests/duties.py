"""Random duties and small catalogues for the tests of what lies above the formulas."""

import re

import numpy as np

from engine.answers.chapters.duty import LoadCase
from engine.answers.chapters.element import Element
from engine.answers.chapters.shaft import Section
from engine.answers.document import Answers, put, question_at, with_items
from engine.answers.resolved import resolve
from engine.catalogue.invention.invent import synthetic
from engine.operating import Conditions


def answered(texts, cases=1):
    """Return answers typed as an engineer would; keys are paths, and lists get as many items as these name."""
    answers = Answers()
    for listed, one, least in (("duty.cases", LoadCase, cases), ("shaft.elements", Element, 0),
                               ("shaft.sections", Section, 0)):  # fmt: skip
        numbers = [int(found[1]) for path in texts if (found := re.match(rf"{re.escape(listed)}\[(\d+)\]", path))]
        answers = with_items(answers, listed, tuple(one() for _ in range(max([least - 1, *numbers]) + 1)))
    for path, text in texts.items():
        answers = put(answers, path, question_at(path).parse(text))
    return answers


def conditions(answers):
    return Conditions.of(resolve(answers))


def random_duty(seed, cases=None, units=False, elements=False):
    """Return a duty on which some pairs of a small catalogue pass and some do not, for most seeds.

    Where wanted, paired units carry the shaft, or what sits on it loads it: a force, a weight, an unbalance.
    """
    pick = np.random.default_rng(seed)
    cases = cases or int(pick.integers(1, 4))
    texts = {
        "duty.arrangement": pick.choice(["back_to_back", "face_to_face"]),
        "duty.distance": f"{pick.uniform(60, 600):.1f}",
        "duty.distance_between": pick.choice(["back_faces", "middles"]),
        "duty.life": f"{pick.uniform(500, 40000):.0f}",
        "duty.reliability": pick.choice(["90", "95", "99"]),
        "duty.life_of": pick.choice(["pair", "each"]),
        "lubrication.supply": pick.choice(["grease", "bath", "circulating"]),
        "lubrication.grade": pick.choice(["68", "150", "320"]),
        "lubrication.temperature": f"{pick.uniform(40, 95):.0f}",
        "lubrication.cleanliness": pick.choice(["high", "normal", "slight", "severe"]),
        "lubrication.ep_additive": pick.choice(["yes", "no"]),
        "steel.shock": pick.choice(["none", "moderate", "heavy"]),
    }
    for at in range(cases):
        case = f"duty.cases[{at}]"
        texts |= {
            f"{case}.speed": f"{pick.choice([0, pick.uniform(20, 2500)], p=[0.1, 0.9]):.0f}",
            f"{case}.share": f"{pick.uniform(1, 100 / cases):.0f}",
            f"{case}.radial_y": f"{pick.normal(0, 12000):.0f}",
            f"{case}.radial_z": f"{pick.choice([0, pick.normal(0, 8000)]):.0f}",
            f"{case}.position": f"{pick.uniform(-100, 500):.0f}",
            f"{case}.axial": f"{pick.choice([0, abs(pick.normal(0, 6000))]):.0f}",
            f"{case}.axial_towards": pick.choice(["A", "B"]),
            f"{case}.application_factor": f"{pick.uniform(1, 1.8):.2f}",
        }
    if units:
        texts["duty.locating"] = pick.choice(["unit_a", "unit_b"])
    if elements:
        texts |= _on_shaft(pick)
        texts["duty.cases[0].shock_factor"] = f"{pick.uniform(1, 2):.2f}"
    if pick.random() < 0.3:
        texts["envelope.bore_a"] = f"{pick.uniform(20, 50):.0f}..{pick.uniform(60, 120):.0f}"
    if pick.random() < 0.3:
        texts["envelope.mass"] = f"{pick.uniform(1, 12):.1f}"
    return answered({path: str(text) for path, text in texts.items()}, cases)


def _on_shaft(pick):
    """Return a force, a weight and an unbalance anywhere on the shaft."""
    every = [
        {"kind": "force", "force": f"{pick.normal(0, 8000):.0f}", "angle": f"{pick.uniform(-180, 180):.0f}",
         "axial": f"{pick.choice([0, pick.normal(0, 3000)]):.0f}"},
        {"kind": "weight", "mass": f"{pick.uniform(5, 300):.0f}"},
        {"kind": "unbalance", "mass": f"{pick.uniform(5, 100):.0f}", "angle": f"{pick.uniform(-180, 180):.0f}",
         "eccentricity": f"{pick.uniform(0, 2):.2f}"},
    ]  # fmt: skip
    return {
        f"shaft.elements[{at}].{name}": text
        for at, one in enumerate(every)
        for name, text in (one | {"position": f"{pick.uniform(-100, 500):.0f}"}).items()
    }


def settling_duty(seed):
    """Return a random duty whose temperatures settle, with a cooling that lets some pairs run hot."""
    pick = np.random.default_rng(seed + 1000)
    answers = random_duty(seed)
    texts = {
        "temperature_by": "settled",
        "ambient": f"{pick.uniform(-10, 50):.0f}",
        "housing": pick.choice(["one", "each"]),
        "other_heat": f"{pick.choice([0, pick.uniform(0, 0.4)]):.2f}",
    }
    if pick.random() < 0.6:
        texts |= {"area": f"{pick.uniform(0.02, 0.8):.2f}", "air_speed": f"{pick.choice([0, pick.uniform(0, 12)]):.1f}"}
    if answers.lubrication.supply == "circulating" and pick.random() < 0.7:
        # oil colder than the air among them: then more seats warm the bearing
        texts |= {"oil_flow": f"{pick.uniform(0, 3):.2f}", "oil_inlet": f"{pick.uniform(-5, 60):.0f}"}
    if answers.lubrication.supply == "grease" and pick.random() < 0.5:
        texts["lubricant"] = pick.choice(["NLGI 3 lithium", "NLGI 1 EP lithium", "polyurea mineral"])
    for name, text in texts.items():
        path = f"lubrication.{name}"
        answers = put(answers, path, question_at(path).parse(str(text)))
    return answers


def small_catalogue(seed, rows=40):
    return synthetic(rows, seed)
