"""Lubrication of the answers made complete: which oil, how clean, what cools it, where the grease works."""

import math

import pytest
from chemicals import viscosity_index

from engine.answers.contradiction import contradictions
from engine.answers.document import asked, question_at
from engine.answers.lubricated.complete import cleanliness_told
from engine.answers.lubricated.kinds import FromList
from engine.answers.question import Refused
from engine.answers.resolved import resolve
from engine.catalogue.lubricants.names import builtin_forms
from engine.catalogue.lubricants.read import builtin
from engine.lubrication.lubricant import ISO_VG
from engine.operating import Conditions
from tests.duties import answered

LOADED = {"duty.distance": "200", "duty.cases[0].speed": "500", "duty.cases[0].radial_y": "5 kN"}


def resolved(**texts):
    """Resolve answers of the chapter on a loaded shaft; a name with `__` is a path of another chapter."""
    typed = {(name.replace("__", ".") if "__" in name else f"lubrication.{name}"): text for name, text in texts.items()}
    return resolve(answered(LOADED | typed))


def oil(**texts):
    return resolved(**texts).lubricated.lubricant


def wrong(**texts):
    return [one.path for one in contradictions(answered({f"lubrication.{name}": text for name, text in texts.items()}))]


class TestLubricant:
    def test_nothing_answered_is_a_mineral_oil_of_vg_150(self):
        found = oil()
        assert (found.name, found.form, found.base, found.nu40, found.nu100) == (
            "ISO VG 150", "grease", "mineral", 150.0, 14.55,
        )  # fmt: skip
        assert not resolved().lubricated.named

    @pytest.mark.parametrize("grade", ["32", "150", "680"])
    @pytest.mark.parametrize("index", ["60", "95", "160"])
    def test_grade_and_index_give_the_viscosity_at_100(self, grade, index):
        """Outside reference: the library `chemicals` computes the index back from both viscosities."""
        found = oil(grade=grade, vi=index)
        assert viscosity_index(found.nu40 * 1e-6, found.nu100 * 1e-6, rounding=False) == pytest.approx(
            float(index), abs=0.3
        )

    def test_every_grade_of_iso_3448_can_be_answered(self):
        grades = question_at("lubrication.grade").options
        assert tuple(int(option.value) for option in grades) == ISO_VG
        for thick in ("2200", "3200"):
            found = oil(grade=thick)
            assert found.nu40 == float(thick) and resolved(grade=thick).missing == ()
            index = viscosity_index(found.nu40 * 1e-6, found.nu100 * 1e-6, rounding=False)
            assert index == pytest.approx(95, abs=0.5)

    def test_a_thin_grade_stands_for_its_mid_point(self):
        # ISO 3448 (recalled): 2.2, 3.2, 4.6, 6.8 mm2/s
        for grade, middle in (("2", 2.2), ("3", 3.2), ("5", 4.6), ("7", 6.8)):
            sheet = oil(grade=grade, nu100="1.1")
            assert (sheet.nu40, sheet.nu100) == (middle, 1.1) and resolved(grade=grade, nu100="1.1").missing == ()
        # D2270 begins at 2 mm2/s at 100 degC: VG 7 has an index, the three below have none
        assert resolved(grade="7").missing == () and oil(grade="7").nu100 == pytest.approx(2.1, rel=0.03)
        (missing,) = resolved(grade="5").missing
        assert "4.6 mm2/s at 40 degC" in missing and "data sheet" in missing

    def test_a_data_sheet_takes_the_place_of_the_grade(self):
        found = oil(grade="68", nu40="100 cSt", nu100="14 cSt")
        assert (found.nu40, found.nu100, found.VG, found.VI) == (100.0, 14.0, None, None)
        half = oil(nu40="100 cSt", vi="140")
        assert half.nu40 == 100.0
        assert viscosity_index(1e-4, half.nu100 * 1e-6, rounding=False) == pytest.approx(140, abs=0.3)

    def test_a_name_brings_everything(self):
        made = resolved(lubricant="PAG 220", supply="bath")
        (listed,) = [one for one in builtin() if one.name == "PAG oil VG 220"]
        assert made.lubricated.lubricant is listed
        assert made.lubricated.named
        # what the list knows is neither asked nor assumed
        assert not {"lubrication.grade", "lubrication.vi"} & {one.path for one in made.assumptions}

    def test_every_name_of_the_list_can_be_answered(self):
        question = FromList(label="X", why="Y.")
        assert question.names() == tuple(one.name for one in builtin()) == tuple(builtin_forms())
        assert all(question.parse(name) == name for name in question.names())
        assert question.parse("polyurea ester") == "grease NLGI 2, polyurea, ester VG 100"
        with pytest.raises(Refused, match="fits 20 lubricants"):
            question.parse("mineral")
        with pytest.raises(Refused, match="no lubricant is called"):
            question.parse("butter")
        with pytest.raises(Refused, match="PAO oil VG 220"):
            question.from_plain("lubricant", {"lubricant": "PAO oil VG 222"})

    def test_what_cannot_be_true_together(self):
        assert wrong(lubricant="PAO 220") == ["lubrication.lubricant"]  # an oil, and the supply is grease
        assert wrong(lubricant="PAO 220", supply="bath") == []
        assert wrong(lubricant="NLGI 3", supply="bath") == ["lubrication.lubricant"]
        assert wrong(vi="95", nu100="11") == ["lubrication.vi"]
        assert wrong(nu40="10", nu100="11") == ["lubrication.nu100"]

    def test_two_points_at_any_temperatures_take_the_place_of_the_grade(self):
        # ASTM D341 by the table of test_viscosity.py: 220 and 19 mm2/s at 40 and 100 are 78.82 and 35.60 at 60 and 80
        texts = {"viscosity_by": "points", "point_1_temperature": "140 degF", "point_1_viscosity": "78.82 cSt",
                 "point_2_temperature": "80", "point_2_viscosity": "35.6"}  # fmt: skip
        made = resolved(**texts)
        found = made.lubricated.lubricant
        assert (found.nu40, found.nu100) == (pytest.approx(220, rel=3e-3), pytest.approx(19, rel=3e-3))
        assert found.name == "78.82 mm2/s at 60 degC, 35.6 mm2/s at 80 degC" and found.two_points
        assert made.missing == () and (found.VG, found.VI) == (None, None)
        assert not {"lubrication.grade", "lubrication.vi"} & {one.path for one in made.assumptions}
        # what was answered before stays in the record and does not count
        same = resolved(**texts, grade="32", vi="200", nu40="5", nu100="9")
        assert same.lubricated.lubricant == found and same.missing == ()

    def test_points_without_temperatures_are_at_40_and_100_and_that_is_said(self):
        made = resolved(viscosity_by="points", point_1_viscosity="100", point_2_viscosity="11")
        found = made.lubricated.lubricant
        assert (found.nu40, found.nu100) == (pytest.approx(100), pytest.approx(11))
        paths = {one.path for one in made.assumptions}
        assert {"lubrication.point_1_temperature", "lubrication.point_2_temperature"} <= paths

    def test_points_that_are_open_or_leave_the_chart_are_missing(self):
        assert resolved(viscosity_by="points", point_1_viscosity="100").missing == ("viscosity at the second point",)
        (missing,) = resolved(
            viscosity_by="points", point_1_temperature="140", point_1_viscosity="1e6", point_2_temperature="150",
            point_2_viscosity="1",
        ).missing  # fmt: skip
        assert "leaves the chart" in missing

    def test_points_that_no_oil_has(self):
        def points(T_1, nu_1, T_2, nu_2):
            return wrong(viscosity_by="points", point_1_temperature=T_1, point_1_viscosity=nu_1,
                         point_2_temperature=T_2, point_2_viscosity=nu_2)  # fmt: skip

        assert points("50", "30", "80", "12") == points("80", "12", "50", "30") == []
        assert points("50", "30", "122 degF", "12") == ["lubrication.point_2_temperature"]
        assert points("50", "30", "80", "30") == points("50", "12", "80", "30") == ["lubrication.point_2_viscosity"]
        assert points("80", "30", "50", "12") == ["lubrication.point_2_viscosity"]
        # hidden behind a name or a grade they are not looked at
        assert wrong(point_1_temperature="9", point_2_temperature="9", point_1_viscosity="9",
                     point_2_viscosity="9") == []  # fmt: skip

    def test_points_are_asked_only_where_they_are_chosen(self):
        def asked_of(**texts):
            made = answered({f"lubrication.{name}": text for name, text in texts.items()})
            return {item.path.partition(".")[2] for item in asked(made, "lubrication")}

        points = {f"point_{which}_{what}" for which in (1, 2) for what in ("temperature", "viscosity")}
        usual = {"grade", "vi", "nu40", "nu100"}
        assert usual <= asked_of() and not points & asked_of()
        assert points <= asked_of(viscosity_by="points") and not usual & asked_of(viscosity_by="points")
        assert not (points | usual | {"viscosity_by"}) & asked_of(lubricant="PAO 220", viscosity_by="points")

    def test_an_oil_too_thin_for_its_index_is_missing_a_viscosity(self):
        (missing,) = resolved(nu40="3").missing
        assert missing.startswith("viscosity at 100 degC")

    def test_film_figures_of_one_s_own(self):
        made = resolved(own_film="yes", base="ester", roughness="0.3 um").lubricated
        assert (made.lubricant.base, made.lubricant.rho15, made.roughness) == ("ester", 950.0, 0.3e-3)
        assert resolved(own_film="yes", density="0.9 g/cm3").lubricated.lubricant.rho15 == 900.0


class TestCleanliness:
    @pytest.mark.parametrize(
        ("texts", "level"),
        [
            ({}, "slight"),
            ({"cleanliness": "high"}, "high"),
            # ISO 281 Annex A prints these codes with the lines (recalled); a dirtier number takes the dirtier line
            ({"cleanliness_by": "code", "code": "18/15/12", "supply": "bath"}, "normal"),
            ({"cleanliness_by": "code", "code": "-/16/12", "supply": "bath"}, "slight"),
            ({"cleanliness_by": "code"}, "slight"),
            ({"cleanliness_by": "words", "supply": "circulating", "filter": "fine"}, "high"),
            ({"cleanliness_by": "words", "supply": "circulating", "filter": "none", "air": "abrasive"}, "very_severe"),
            ({"cleanliness_by": "words", "seals": "contact", "air": "clean"}, "high"),
            ({"cleanliness_by": "words", "supply": "oil jet", "filter": "fine"}, "high"),
            ({"cleanliness_by": "words", "supply": "oil mist", "filter": "none"}, "severe"),
        ],
    )
    def test_the_level(self, texts, level):
        made = resolved(**texts)
        assert made.cleanliness == made.lubricated.cleanliness.level == level
        assert made.lubricated.cleanliness.steps

    @pytest.mark.parametrize("code", ["18-15-12", "12/15/18", "18/15", "", "x"])
    def test_a_code_is_a_code(self, code):
        if code == "18/15":
            assert resolved(cleanliness_by="code", code=code).cleanliness == "severe"
            return
        with pytest.raises(Refused, match="cleanliness code"):
            resolved(cleanliness_by="code", code=code)

    def test_what_the_words_became_is_said(self):
        texts = {"supply": "bath", "cleanliness_by": "words", "air": "dusty", "breather": "open"}
        told = cleanliness_told(answered({f"lubrication.{name}": text for name, text in texts.items()}))
        assert told.startswith("Cleanliness becomes very severe (filter beta 25(c) >= 75 off line: slight; ")
        assert "lip seals, open breather, dusty air: very severe" in told

    def test_grease_is_asked_for_no_filter(self):
        made = resolved(cleanliness_by="words")
        assert not {"lubrication.filter", "lubrication.breather"} & {one.path for one in made.assumptions}


class TestTemperature:
    def test_stated_temperature_is_that_of_every_case(self):
        assert resolved(temperature="85").cases[0].temperature == 85.0
        assert not resolved().lubricated.settled

    def test_settled_leaves_it_to_the_balance_but_where_a_case_states_its_own(self):
        made = resolved(temperature_by="settled")
        assert math.isnan(made.cases[0].temperature) and math.isnan(made.temperature)
        assert made.peak_temperature is None
        assert Conditions.of(made).settling.tolist() == [True]
        own = answered(LOADED | {"lubrication.temperature_by": "settled", "duty.cases[0].temperature": "66"})
        assert resolve(own).cases[0].temperature == 66.0

    def test_what_cools(self):
        around = resolved(
            temperature_by="settled", supply="circulating", ambient="35", area="0.4 m2", air_speed="3",
            other_heat="250 W", oil_flow="2", oil_inlet="45", housing="each",
        ).lubricated.surroundings  # fmt: skip
        assert (around.ambient, around.area, around.air_speed, around.other_heat) == (35.0, 4e5, 3.0, 250.0)
        assert (around.oil_flow, around.oil_inlet, around.hold, around.shared) == (2.0, 45.0, 70.0, False)

    def test_a_bath_has_no_flow(self):
        assert resolved(supply="bath", oil_flow="2").lubricated.surroundings.oil_flow is None


class TestGrease:
    @pytest.mark.parametrize(("tilt", "position"), [("0", "horizontal"), ("30", "inclined"), ("90", "vertical")])
    def test_the_position_is_that_of_the_shaft(self, tilt, position):
        assert resolved(shaft__tilt=tilt).lubricated.greasing.position == position

    @pytest.mark.parametrize(
        ("dirt", "level", "word"),
        [
            ("none", "normal", "light"),
            ("none", "severe", "severe_soft"),
            ("some", "high", "light_abrasive"),
            ("much", "high", "severe_abrasive"),
        ],
    )
    def test_the_dirt_is_that_of_the_rings_and_of_the_oil(self, dirt, level, word):
        assert resolved(steel__dirt=dirt, cleanliness=level).lubricated.greasing.contamination == word

    def test_wanted_interval(self):
        assert resolved().lubricated.greasing.wanted == 170.0
        assert resolved(regreasing="central", interval="500").lubricated.greasing.wanted == 500.0
        assert resolved(regreasing="life").lubricated.greasing.wanted is None
        assert resolved(speed__rotating_ring="cup").lubricated.greasing.outer_ring_turns
        assert resolved(supply="bath").lubricated.greasing is None
