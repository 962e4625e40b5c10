"""Paired units in the record, one that locates, one that floats: by hand with the double-row formulas; what is said."""

import math

import pytest

from engine.answers.resolved import resolve
from engine.operating import Conditions
from engine.record.document import Record
from engine.record.result import compute
from engine.record.write import to_text
from engine.report import calculation
from tests.duties import answered

TEXTS = {"duty.distance": "300", "duty.cases[0].speed": "300", "duty.cases[0].radial_y": "12 kN",
         "duty.cases[0].position": "100", "duty.cases[0].axial": "3 kN"}  # fmt: skip


def computed(catalogue, locating, name="V045-2FB-C"):
    rows = catalogue.take([catalogue.index_of(name)])
    answers = answered(TEXTS | ({"duty.locating": locating} if locating else {}))
    return rows, answers, compute(rows, rows, Conditions.of(resolve(answers)))


def figures(result, block):
    return {figure.key: figure for one in result.blocks if one.key == block for figure in one.figures}


@pytest.mark.parametrize(("locating", "side"), [("unit at A", "A"), ("unit at B", "B")])
def test_loads_of_units_by_hand(catalogue, locating, side):
    rows, _, result = computed(catalogue, f"a paired {locating}")
    T, alpha = float(rows.T[0]), float(rows.alpha[0])
    of, pair = figures(result, "case_1"), figures(result, "pair")
    # back faces of the outboard bearings 300 mm apart: each unit carries a width T inside of its own
    z = (T, 300 - T)
    assert pytest.approx(z) == (pair["z"].A, pair["z"].B)
    Fr = (12_000 * (z[1] - 100) / (z[1] - z[0]), 12_000 * (100 - z[0]) / (z[1] - z[0]))
    assert pytest.approx(Fr) == (of["Fr"].A, of["Fr"].B)
    Fa = (3000, 0) if side == "A" else (0, 3000)
    assert pytest.approx(Fa) == (of["Fa"].A, of["Fa"].B)
    # ISO 281 Table 8 and ISO 76 for two rows: Y1 = 0.45 cot, Y2 = 0.67 cot, Y0 = 0.44 cot, e = 1.5 tan
    cot = 1 / math.tan(alpha)
    P = [r + 0.45 * cot * a if a <= 1.5 / cot * r else 0.67 * r + 0.67 * cot * a for r, a in zip(Fr, Fa, strict=True)]
    assert pytest.approx(tuple(P)) == (of["P"].A, of["P"].B)
    assert pytest.approx(tuple(r + 0.44 * cot * a for r, a in zip(Fr, Fa, strict=True))) == (of["P0"].A, of["P0"].B)
    # two rows are rated 2^(7/9) of one
    C = 2 ** (7 / 9) * float(rows.Cr[0])
    assert pytest.approx((C / P[0]) ** (10 / 3) * 1e6 / 60 / 300) == of["L10h"].A
    assert pytest.approx(2 * float(rows.C0r[0]) / (Fr[1] + 0.44 * cot * Fa[1])) == pair["s0"].B


def test_what_is_not_covered_is_said_in_the_record_and_by_calc(catalogue):
    _, answers, result = computed(catalogue, "a paired unit at A")
    (said,) = [caution for caution in result.cautions if caution.startswith("Paired units")]
    for part in ("one simple support each", "unequal bearings", "play or preload", "tandem", "floating partner"):
        assert part in said
    record = Record(answers)
    assert said in to_text(record, result)
    assert "floating partner of another kind" in " ".join(calculation.as_text(record, result, []).split())


def test_two_bearings_set_against_each_other_need_no_such_caution(catalogue):
    result = computed(catalogue, "")[2]
    assert not [caution for caution in result.cautions if caution.startswith("Paired units")]
