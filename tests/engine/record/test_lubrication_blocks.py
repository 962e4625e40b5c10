"""The record's figures on lubrication: complete, cited, and in agreement with one another."""

import math

import pytest

from engine.record.document import Record, to_tables
from engine.record.result import compute
from engine.report.calculation import as_text
from engine.sources import DOCUMENTS
from tests.duties import answered, conditions, small_catalogue

ROWS = small_catalogue(6, 40)
ROW_A, ROW_B = (int(row) for row in ROWS.d.argsort()[2:4])
TEXTS = {"duty.distance": "200", "duty.cases[0].speed": "900", "duty.cases[0].radial_y": "6 kN",
         "duty.cases[0].axial": "2 kN", "duty.cases[1].speed": "1800", "duty.cases[1].radial_y": "3 kN"}  # fmt: skip


def result_of(**more):
    answers = answered(TEXTS | {f"lubrication.{name}": text for name, text in more.items()}, 2)
    return compute(ROWS.take([ROW_A]), ROWS.take([ROW_B]), conditions(answers)), answers


def block(result, key):
    found = next((one for one in result.blocks if one.key == key), None)
    return {figure.key: figure for figure in found.figures} if found else None


SETTLED = {"temperature_by": "settled", "area": "0.2 m2", "ambient": "25"}
WAYS = {
    "stated": {},
    "settled": SETTLED,
    "each": SETTLED | {"housing": "each"},
    "bath": {"supply": "bath", "cleanliness_by": "words"},
    "flow": SETTLED | {"supply": "circulating", "oil_flow": "0.5", "cleanliness_by": "code"},
    "points": {"viscosity_by": "points", "point_1_temperature": "20", "point_1_viscosity": "400",
               "point_2_temperature": "90", "point_2_viscosity": "12"},
    "named": {"lubricant": "NLGI 2 polyurea ester", "regreasing": "central", "coldest": "-45"},
}  # fmt: skip


@pytest.mark.parametrize("way", WAYS)
def test_every_figure_is_cited_and_known(way):
    result, answers = result_of(**WAYS[way])
    documents = tuple(document.short for document in DOCUMENTS)
    for one in result.blocks:
        for figure in one.figures:
            assert figure.source.startswith((*documents, "catalogue", "answer", "assumed", "derived", "lubricant")), (
                figure
            )
            for value in (figure.A, figure.B):
                assert value is None or isinstance(value, str) or math.isfinite(value), (one.key, figure)
    keys = [(one.key, figure.key) for one in result.blocks for figure in one.figures]
    assert len(set(keys)) == len(keys)
    text = as_text(Record(answers), result, [])
    assert text.isascii() and "Lubricant and cleanliness" in text
    assert to_tables(Record(answers), result)["result"]["figures"]


def test_viscosities_of_two_points_are_cited_as_a_line_through_them_and_not_as_answers():
    of = block(result_of(**WAYS["points"])[0], "lubricant")
    assert of["lubricant"].A == "400 mm2/s at 20 degC, 12 mm2/s at 90 degC"
    assert all("D341" in of[key].source and "two points" in of[key].source for key in ("nu40", "nu100"))
    assert 12 < of["nu40"].A < 400 and of["nu100"].A < 12


def test_the_balance_of_heat_is_shown_with_how_surely_it_was_found():
    """Heat made is that of both torques at the temperature shown: M pi n / 30000."""
    result, _ = result_of(**SETTLED)
    for case, n in (("case_1_film", 900), ("case_2_film", 1800)):
        of = block(result, case)
        made = sum(math.pi * n / 30e3 * (M0 + M1) for M0, M1 in ((of["M0"].A, of["M1"].A), (of["M0"].B, of["M1"].B)))
        assert of["heat"].A == of["heat"].B == pytest.approx(made, rel=1e-9)
        assert pytest.approx(made, rel=1e-9) == of["W"].A + of["W"].B
        assert abs(of["residual"].A) <= 1e-6 * made
        assert 1 <= of["steps"].A <= 20 and of["status"].A == "settled"
        of_case = block(result, case.removesuffix("_film"))
        assert of_case["temperature"].A == of_case["temperature"].B > 25
        assert of_case["temperature"].source.startswith("Heat transfer")
    assert "heat" not in block(result_of()[0], "case_1_film")
    assert any("heat balance" in caution for caution in result.cautions)


def test_film_and_kappa_side_by_side():
    result, _ = result_of(grade="460")
    of, film = block(result, "case_1"), block(result, "case_1_film")
    for side in "AB":
        lam, kappa = getattr(film["lambda"], side), getattr(of["kappa"], side)
        # ISO/TR 1281-2 equation (57)
        assert getattr(film["kappa_of_film"], side) == pytest.approx(lam**1.3)
        thinner = lam**1.3 < kappa / 2
        thicker = lam**1.3 > 2 * kappa
        said = "thinner" if thinner else "thicker" if thicker else "agrees"
        assert getattr(film["said"], side) == said
        assert any(f"film at {side} is" in caution for caution in result.cautions) == (thinner or thicker)
        h = min(getattr(film["h_cone"], side), getattr(film["h_cup"], side))
        assert lam == pytest.approx(h / 0.18)


def test_how_the_words_became_a_level():
    of = block(result_of(**WAYS["bath"])[0], "lubricant")
    steps = [figure for key, figure in of.items() if key.startswith("cleanliness")]
    assert [(step.name, step.A) for step in steps] == [
        ("1. filter beta 25(c) >= 75 off line", "slight"), ("2. lip seals, plain breather, workshop air", "slight"),
    ]  # fmt: skip
    assert "common practice, no source" in steps[1].source
    of = block(result_of(**WAYS["flow"])[0], "lubricant")
    assert of["cleanliness_1"].name == "code -/17/14" and of["cleanliness_1"].A == "slight"


def test_grease_factor_by_factor():
    """T = (14e6/(n sqrt(d)) - 4 d) times every factor; over the cases 1/t adds up by share."""
    result, _ = result_of(moisture="humid", vibration="rough", regreasing="central")
    of = block(result, "grease")
    factors = [of[key].A for key in of if key.startswith("f_")]
    assert factors == [1.0, 0.7, 0.6, 1.0, 1.0]
    for side, row in (("A", ROW_A), ("B", ROW_B)):
        d, used = float(ROWS.d[row]), 0.0
        for case, n in (("case_1_film", 900), ("case_2_film", 1800)):
            in_case = block(result, case)
            base = max(14e6 / (n * math.sqrt(d)) - 4 * d, 0)
            assert getattr(in_case["t_base"], side) == pytest.approx(base)
            t = base * getattr(in_case["f_T"], side) * 0.7 * 0.6
            assert getattr(in_case["t_grease"], side) == pytest.approx(t)
            used += 0.5 / t
        assert getattr(of["t_grease"], side) == pytest.approx(1 / used)
        # a turning cup halves it
        assert getattr(of["t_other_ring"], side) == pytest.approx(0.5 / used)
        assert getattr(of["refill"], side) == pytest.approx(0.005 * float(ROWS.D[row] * ROWS.T[row]))
    assert of["nlgi"].A == 1 and "central system" in of["nlgi_why"].A
    assert block(result_of(supply="bath")[0], "grease") is None


def test_oil_flow_and_cold_start():
    result, _ = result_of(**WAYS["flow"])
    assert block(result, "case_2_film")["V_needed"].A >= block(result, "case_1_film")["V_needed"].A >= 0
    cautions = result_of(**WAYS["named"])[0].cautions
    assert any(c.startswith("Coldest start -45 degC: grease NLGI 2, polyurea, ester VG 100") for c in cautions)


def test_what_does_not_settle_is_said():
    result, _ = result_of(temperature_by="settled", area="0.001", other_heat="2 kW")
    assert result.verdict == "fails"
    assert any("no stable temperature" in caution for caution in result.cautions)
