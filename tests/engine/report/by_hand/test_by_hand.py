"""Who has only the report can redo the calculation: here it is redone, from the numbers printed in it and nothing else.

The formulas are typed from the standards that the report names, in the modules beside this one; they call nothing of
the engine. What the report prints is read from the file that stands beside the example record. Every figure and every
check is asked for; what cannot be redone is named below with its reason.
"""

import re
from functools import cache

import pytest

from tests.engine.report.by_hand.printed import TEXT, agrees, figures, number, of_figures, sources
from tests.house.tree import ROOT
from tests.unmoved.write_examples import UNFOLDED, pictured, unfolded

#: Figures that are no result: what was answered, and what stands in the catalogues of bearings and of steels.
GIVEN = re.compile(r"answers?|assumed|catalogue|catalogue of steels: .*|ISO 683-17:2014")
#: Figures that no hand redoes, and why. The draws are made with the formulas that are redone here.
DRAWN = "10,000 draws at random"
NOT_REDONE = {
    "drawn sizes, probable least": DRAWN, "drawn sizes, probable greatest": DRAWN,
    "draws of fits, temperatures, loads, setting": DRAWN,
    "chance that both reach the life": DRAWN, "share of draws rated for the life": DRAWN,
    **{f"{what} above {percent} % of the draws": DRAWN
       for what in ("setting", "basic life") for percent in (5, 50, 95)},
    "viscosity at 100 degC": "from the table of grades; the index that it gives is redone",
}  # fmt: skip
CHECKS_NOT_REDONE = {("Chance to reach the life", "pair"): DRAWN}


@cache
def redone():
    """Return everything that was redone, by section and name of a figure; no earlier than it is asked for."""
    from tests.engine.report.by_hand import loads, oil, seats, setting

    along = {case: loads.loads(case) for case in loads.CASES}
    return (
        loads.redone() | oil.redone(lambda case: (along[case][0], along[case][2])) | seats.redone() | setting.redone()
    )


def test_the_report_beside_the_record_is_the_one_that_is_written_today():
    assert unfolded() == TEXT, "write it anew: python -m tests.unmoved.write_examples"
    assert pictured() == UNFOLDED.with_suffix(".svg").read_text("utf-8")


@pytest.mark.parametrize("title", of_figures())
def test_every_figure_of_a_section_is_what_was_redone(title):
    printed, found = figures(title), {name: one for (of, name), one in redone().items() if of == title}
    off = {
        name: (printed[name], values)
        for name, values in found.items()
        if not all(agrees(text, value) for text, value in zip(printed[name], values, strict=False))
    }
    assert off == {}
    # of both bearings both were redone
    assert [name for name, values in found.items() if len(values) == 1 and len(set(printed[name])) > 1] == []


def test_every_figure_is_redone_given_or_named_with_its_reason():
    left = [
        (title, name)
        for title in of_figures()
        for name, source in sources(title).items()
        if (title, name) not in redone() and not GIVEN.fullmatch(source) and name not in NOT_REDONE
    ]
    assert left == []
    named = {name for title in of_figures() for name in figures(title)}
    assert set(NOT_REDONE) <= named
    assert not set(NOT_REDONE) & {name for _, name in redone()}


def test_of_all_results_19_in_20_are_redone():
    results = [(title, name) for title in of_figures() for name, source in sources(title).items()
               if not GIVEN.fullmatch(source)]  # fmt: skip
    done = [result for result in results if result in redone()]
    assert len(results) > 300
    assert len(done) / len(results) > 0.95, f"{len(done)} of {len(results)}"


def test_every_check_is_redone():
    from tests.engine.report.by_hand import checks

    printed, found = checks.rows(), checks.redone()
    assert set(printed) - set(found) == set(CHECKS_NOT_REDONE)
    assert set(found) <= set(printed)
    for key, (demand, capacity) in found.items():
        _, _, asked, there, _, utilisation, word, _ = printed[key]
        assert agrees(asked, demand) and agrees(there, capacity), (key, asked, demand, there, capacity)
        used = demand / capacity if demand else 0.0
        assert agrees(utilisation, used, 1e-4), (key, utilisation, used)
        assert (word == "ok") == (used <= 1), key


def test_the_verdict_follows_from_the_checks():
    from tests.engine.report.by_hand import checks

    binding = [row for row in checks.rows().values() if row[6] in {"ok", "FAILS"}]
    assert ("The pair PASSES every check" in TEXT) == all(row[6] == "ok" for row in binding)
    cautioned = [row for row in checks.rows().values() if row[6] == "mind"]
    assert all(number(row[5]) > 1 for row in cautioned)


def test_each_formula_that_was_needed_stands_in_the_report_with_its_source():
    unescaped = TEXT.replace("\\", "")
    for formula in (
        "P = Fr for Fa/Fr <= e; P = 0.4 Fr + Y Fa for Fa/Fr > e",
        "S = Fr / (2 Y)",
        "kappa = nu / nu1",
        "1.2348",
        "log10(log10(Z)) = A - B log10(T + 273.15), Z = nu + 0.7",
        "Lnm = a1 a_ISO L10",
        "H = 1.714 U^0.694 G^0.568 W^-0.128",
        "J_r = 1/(2 pi) int",
        "e_C = a (1 - c2 / Dpw^(1/3)), a = c1 kappa^0.68 Dpw^0.55, a <= 1",
        "alpha_p = k eta^s",
        "KL f^(5/3) + KP f = 1",
        "cL = 35948 Lwe^(8/9)",
        "P(x) = 0.00045 Dwe ln[1/(1 - (2x/Lwe)^2)]",
        "f(k) = 1 - 0.01 / ln(1.985 |2k - ns - 1| / (2 ns - 2))",
        "q_c = Cr / (A lambda nu Z cos(alpha))",
        "P_sk = 0.323 Z cos(alpha) ns",
        "loss = (cone_growth + cup_shrinkage) / (2 tan(alpha))",
        "loss = [cone F/2 + roller Dwe cos(alpha - nu) - cup E/2] / tan(alpha)",
        "I = max(interference + diameter (inner - outer), 0)",
    ):
        assert formula.replace(" ", "") in unescaped.replace(" ", ""), formula
    for source in (
        "ISO 281:2007", "ISO 76:2006", "ASTM D341", "Palmgren-Miner", "ISO/TR 1281-1", "ISO/TS 16281:2008",
        "Pan and Hamrock 1989", "AGMA 925-A03", "DIN 732", "ISO 15312:2018", "DIN 7190-1:2017",
    ):  # fmt: skip
        assert source in unescaped, source


def test_nothing_of_the_engine_is_called_by_what_redoes_it():
    modules = [one for one in (ROOT / "tests/engine/report/by_hand").glob("*.py") if not one.name.startswith("test_")]
    assert len(modules) >= 7
    for module in modules:
        assert not re.search(r"^\s*(from|import) engine", module.read_text("utf-8"), re.MULTILINE), module.name
