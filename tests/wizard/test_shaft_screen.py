"""The shaft by hand: its questions, the strip under them, the screen with every force in both arrangements."""

import asyncio
import re
from functools import wraps

import pytest

from engine.answers.document import get
from engine.answers.resolved import resolve
from engine.catalogue.read import builtin
from engine.operating import Conditions
from engine.record.document import Record, readable
from engine.record.loads.reactions import reactions
from engine.record.read import read
from engine.record.result import compute
from tests.duties import answered
from tests.house.tree import ROOT
from tests.wizard.running import new_session, wizard
from wizard.session import Session
from wizard.terminal import Abilities

EXAMPLE = ROOT / "catalogs" / "examples" / "sawmill_log_conveyor.toml"
GEAR = {
    "duty.distance": "200", "duty.cases[0].speed": "400", "shaft.elements[0].kind": "helical gear",
    "shaft.elements[0].position": "80", "shaft.elements[0].power": "12 kW", "shaft.elements[0].diameter": "140",
    "shaft.elements[0].helix_angle": "15",
}  # fmt: skip


def on(texts=None, size=(80, 24), example=False, can=None):
    """Run a scene before the wizard, on some answers or on the example."""

    def decorate(scene):
        @wraps(scene)
        def test(tmp_path):
            async def sit():
                if example:
                    session = Session(Record(read(EXAMPLE).answers), tmp_path / "sawmill.toml", named=True)
                    more = {"load": builtin}
                else:
                    session, more = new_session(tmp_path, texts), {}
                async with wizard(session, size=size, **more, **({"can": can} if can else {})) as hand:
                    await scene(hand)

            asyncio.run(sit())

        del test.__wrapped__  # the runner would ask it for the arguments of the scene
        return test

    return decorate


def shown(hand):
    return "\n".join(hand.screen())


def said(value, text):
    """Return whether a text holds a number, to four digits: how many decimals it has hangs on its column."""
    numbers = re.findall(r"-?\d{1,3}(?: \d{3})+(?:\.\d+)?|-?\d+(?:\.\d+)?", text)
    return any(float(one.replace(" ", "")) == pytest.approx(value, rel=2e-4) for one in numbers)


async def unroll(hand):
    """Return everything that the page in front holds, whatever the height of the screen."""
    return ["".join(text for text, _ in line) for line in hand.app.screen.page.lines]


class TestQuestions:
    @staticmethod
    async def kind(hand, *pressed):
        await hand.press("right")
        await hand.press("a")
        assert hand.marked == "shaft.elements[0].kind"
        await hand.press("enter", *pressed)

    def test_a_kind_by_the_arrow_keys(self, tmp_path):
        @on()
        async def scene(hand):
            await self.kind(hand)
            assert hand.sees("wheel or sheave") and hand.sees("Up, Down or the beginning of a name")
            await hand.press("down", "down", "down", "up", "enter")
            assert get(hand.answers, "shaft.elements[0].kind") == "spur"

        scene(tmp_path)

    def test_a_kind_by_the_beginning_of_its_name(self, tmp_path):
        @on()
        async def scene(hand):
            await self.kind(hand, "s")
            assert hand.sees("spur gear  straight bevel gear  spiral bevel gear")
            assert not hand.sees("toothed belt")
            await hand.press("enter")
            assert hand.sees('"s" may mean several options')
            await hand.press("down", "down", "enter")
            assert get(hand.answers, "shaft.elements[0].kind") == "straight_bevel"
            # what is typed takes the place of the answer before
            await hand.go("shaft.elements[0].kind")
            await hand.press("enter", *"chain", "enter")
            assert get(hand.answers, "shaft.elements[0].kind") == "chain"
            await hand.go("shaft.elements[0].kind")
            await hand.press("enter", "enter")
            assert get(hand.answers, "shaft.elements[0].kind") == "chain"
            await hand.go("shaft.elements[0].kind")
            await hand.press("enter", "down", "escape")
            assert get(hand.answers, "shaft.elements[0].kind") == "chain"

        scene(tmp_path)

    def test_an_edit_in_the_middle_of_a_label(self, tmp_path):
        @on()
        async def scene(hand):
            await self.kind(hand, "down", "down", "backspace", *"r", "enter")
            assert get(hand.answers, "shaft.elements[0].kind") == "spur"

        scene(tmp_path)

    def test_headings_say_what_the_items_are(self, tmp_path):
        @on(GEAR | {"shaft.elements[0].name": "pinion", "shaft.sections[0].length": "80",
                    "shaft.sections[0].diameter": "50"})  # fmt: skip
        async def scene(hand):
            await hand.press("right", "right_square_bracket")
            assert hand.marked == "shaft.elements[0].kind"
            assert hand.sees("Element 1: pinion, helical gear at 80 mm")
            await hand.press("right_square_bracket")
            assert hand.marked == "shaft.sections[0].length"
            assert hand.sees("Step 1: diameter 50, 80 mm long")
            await hand.press("left_square_bracket", "left_square_bracket")
            assert hand.marked == "shaft.elements[0].kind"

        scene(tmp_path)

    def test_copy_move_and_drop(self, tmp_path):
        @on(GEAR)
        async def scene(hand):
            await hand.press("right", "right_square_bracket", "c")
            assert hand.marked == "shaft.elements[1].kind"
            await hand.press("down", "down", *"150", "enter", "K")
            assert [one.position.value for one in hand.answers.shaft.elements] == [150, 80]
            await hand.press("x")
            assert [one.position.value for one in hand.answers.shaft.elements] == [80]
            await hand.press("u", "u")
            assert [one.position.value for one in hand.answers.shaft.elements] == [80, 150]

        scene(tmp_path)

    def test_an_empty_list_says_what_it_is_for(self, tmp_path):
        @on(GEAR)
        async def scene(hand):
            await hand.press("right", "end")
            assert hand.sees("With its diameters from end to end") and hand.sees("a adds a step.")
            await hand.press("x")
            assert hand.sees("Mark a line of a step first; x removes it.")
            await hand.press("a")
            assert hand.marked == "shaft.sections[0].length"

        scene(tmp_path)

    def test_what_is_missing_names_the_element(self, tmp_path):
        @on({"duty.distance": "200", "shaft.elements[0].kind": "V-belt", "shaft.elements[0].power": "5 kW"})
        async def scene(hand):
            assert hand.sees("Missing for the loads: element 1 (V-belt): position along")
            assert hand.sees("; 1 more, see ?")
            await hand.press("question_mark")
            text = shown(hand)
            assert "Still missing for the loads" in text
            assert "element 1 (V-belt): position along the shaft and diameter" in text
            assert "the speed of a load case, for the power of element 1" in text

        scene(tmp_path)

    def test_nonsense_is_refused_with_the_reason(self, tmp_path):
        @on(GEAR)
        async def scene(hand):
            await hand.press("right")
            await hand.go("shaft.elements[0].helix_angle")
            await hand.press(*"95", "enter")
            assert hand.sees("95 deg is out of bounds. Accepted: 0 to 60 deg")
            await hand.press("escape")
            assert get(hand.answers, "shaft.elements[0].helix_angle").value == 15
            await hand.go("shaft.elements[0].torque")
            await hand.press(*"90", "enter")
            assert hand.sees("power and torque of element 1 on the shaft are both given. Accepted:")
            assert hand.sees("them; clear the other")

        scene(tmp_path)


class TestStrip:
    def test_it_follows_every_answer(self, tmp_path):
        @on({"duty.distance": "200"})
        async def scene(hand):
            assert not hand.app.screen.query_one("#strip").display
            await hand.press("right")
            assert hand.app.screen.query_one("#strip").display
            await hand.press("a", "enter", *"weight", "enter", "down", *"100", "enter")
            lines = hand.screen()
            at = next(number for number, text in enumerate(lines) if "1m" in text and "─" in text)
            assert lines[at].index("1m") == pytest.approx(39, abs=1)
            await hand.press(*"20", "enter")  # its mass; the speed is still missing
            assert not hand.sees("1m↓")
            await hand.press("left")
            assert not hand.app.screen.query_one("#strip").display
            await hand.go("duty.cases[0].speed")
            await hand.press(*"100", "enter", "right")
            assert hand.sees("1m↓")

        scene(tmp_path)

    def test_load_centres_of_the_leading_pair(self, tmp_path):
        @on(GEAR)
        async def scene(hand):
            await hand.rest()
            await hand.press("right")
            listed = hand.app.standing.listed.shortlist.evaluated.bearings
            assert hand.app.standing.centres == (float(listed[0].z[0, 0]), float(listed[1].z[0, 0]))
            assert shown(hand).count("◆") == 2

        scene(tmp_path)

    def test_there_is_none_where_lines_are_few(self, tmp_path):
        @on(GEAR, size=(60, 20))
        async def scene(hand):
            await hand.press("right")
            assert not hand.app.screen.query_one("#strip").display

        scene(tmp_path)

    def test_torque_that_does_not_add_up_is_said_under_the_shaft_and_in_its_picture(self, tmp_path):
        @on(GEAR)
        async def alone(hand):
            await hand.rest()
            await hand.press("right")
            assert hand.sees("torque runs into the shaft only, 286.5 N m; the rest leaves by what")
            await hand.press("v")
            assert any("torque into the shaft 286.48, out of it 0, left over 286.48 N m" in one
                       for one in await unroll(hand))  # fmt: skip
            whole = " ".join(" ".join(await unroll(hand)).split())
            assert "286.5 N m; the rest leaves by what is not described, such as a coupling" in whole

        belt = {"kind": "v_belt", "position": "150", "power": "20 kW", "diameter": "200", "flow": "out"}

        @on(GEAR | {f"shaft.elements[1].{name}": text for name, text in belt.items()})
        async def beside(hand):
            await hand.rest()
            await hand.press("right")
            assert hand.sees("torque is OUT OF BALANCE by 191 N m")
            await hand.press("v")
            whole = " ".join(" ".join(hand.screen()).split())
            assert "torque is OUT OF BALANCE by 191 N m: 286.5 N m into the shaft, 477.5 N m out of it" in whole

        alone(tmp_path)
        beside(tmp_path)

    def test_forces_that_are_not_known_have_no_direction(self, tmp_path):
        locked = {"shaft.elements[0].kind": "worm", "shaft.elements[0].lead_angle": "3",
                  "shaft.elements[0].friction": "0.2"}  # fmt: skip

        @on(GEAR | locked)
        async def scene(hand):
            await hand.press("right")
            assert hand.sees("1w─")
            await hand.press("v")
            assert hand.sees("forces of worm: friction locks it; accepted: a larger lead angle")

        scene(tmp_path)


class TestScreen:
    def test_the_loads_are_those_of_the_record(self, tmp_path):
        @on(example=True)
        async def scene(hand):
            await hand.rest()
            await hand.press("v")
            assert hand.sees("Shaft: load case 1, logs on the chain, plane y")
            catalogue = builtin()
            choice = hand.answers.choice
            rows = [catalogue.take([catalogue.index_of(one)]) for one in (choice.bearing_a, choice.bearing_b)]
            blocks = {b.key: b for b in compute(*rows, Conditions.of(resolve(hand.answers))).blocks}
            of = {figure.key: figure for figure in blocks["case_1"].figures}
            text = "\n".join(await unroll(hand))
            for key in ("R_y", "R_z", "Fr", "Fa"):
                assert said(of[key].A, text) and said(of[key].B, text), key
            await hand.press("right")
            assert hand.sees("load case 2, backing out a jammed log")
            other = {figure.key: figure for figure in blocks["case_2"].figures}
            text = "\n".join(await unroll(hand))
            assert said(other["Fr"].B, text) and not said(of["Fr"].B, text)
            await hand.press("left", "left")
            assert hand.sees("load case 3, empty chain")

        scene(tmp_path)

    def test_the_other_arrangement_side_by_side(self, tmp_path):
        @on(example=True)
        async def scene(hand):
            await hand.rest()
            await hand.press("v", "o")
            text = "\n".join(await unroll(hand))
            assert "back to back (O)" in text and "face to face (X)" in text
            catalogue, choice = builtin(), hand.answers.choice
            rows = tuple(catalogue.take([catalogue.index_of(one)]) for one in (choice.bearing_a, choice.bearing_b))
            # by hand: load centres a from the back faces, 230 mm apart; B takes (M - F z_A) / (z_B - z_A)
            a = [float(one.a[0]) for one in rows]
            made = Conditions.of(resolve(hand.answers))
            for arrangement, z in (("back_to_back", (a[0], 230 - a[1])), ("face_to_face", (-a[0], 230 + a[1]))):
                found = reactions(made, 0, arrangement, rows)
                assert found.z == pytest.approx(z)
                F, M = made.cases.forces.still[0][0], made.cases.forces.still[2][0]
                R_B = (M - F * z[0]) / (z[1] - z[0])
                assert said(R_B, text) and said(F - R_B, text)
            await hand.press("o")
            assert not hand.sees("face to face (X)")

        scene(tmp_path)

    def test_an_element_unfolds_to_its_formulas(self, tmp_path):
        @on(example=True)
        async def scene(hand):
            await hand.press("v")
            while not hand.app.screen.page.folds.get(hand.app.screen.rows.at, "").startswith("element 0"):
                await hand.press("down")
            await hand.press("enter")
            text = "\n".join(await unroll(hand))
            assert "Ft = 2 T / d; Mechanical Engineering Design, chapter 13" in text
            for said in ("Fr = Ft tan(alpha_n) / cos(beta)", "Fa = Ft tan(beta)", "load level times application"):
                assert said in text
            await hand.press("enter")
            assert "Ft = 2 T / d" not in "\n".join(await unroll(hand))

        scene(tmp_path)

    def test_the_loads_unfold_to_their_sums(self, tmp_path):
        @on(example=True)
        async def scene(hand):
            await hand.press("v")
            while hand.app.screen.page.folds.get(hand.app.screen.rows.at) != "loads":
                await hand.press("down")
            await hand.press("enter")
            text = "\n".join(await unroll(hand))
            assert "R_By = (M_y - F_y z_A) / (z_B - z_A)" in text
            assert "sum(F_i z_i) + sum(M_i)" in text

        scene(tmp_path)

    def test_planes_diagrams_and_slopes(self, tmp_path):
        @on(example=True)
        async def scene(hand):
            await hand.rest()
            await hand.press("v")
            text = "\n".join(await unroll(hand))
            assert (
                "Shear force N over mm along the shaft, plane y" in text
                and "Bending moment N m over mm, greatest" in text
            )
            made = Conditions.of(resolve(hand.answers))
            catalogue, choice = builtin(), hand.answers.choice
            rows = tuple(catalogue.take([catalogue.index_of(one)]) for one in (choice.bearing_a, choice.bearing_b))
            slopes = reactions(made, 0, "back_to_back", rows).slopes
            line = next(text for text in await unroll(hand) if "seat slope, limit 1.7" in text)
            assert [readable(slope, 3) for slope in slopes] == line.split()[-3:-1]
            assert line.endswith("arcmin")
            await hand.press("p")
            assert hand.sees("plane z")
            assert "Shear force N over mm along the shaft, plane z" in "\n".join(await unroll(hand))
            await hand.press("end")
            assert hand.sees("Bending moment N m over mm")

        scene(tmp_path)

    @pytest.mark.parametrize("back", ["escape", "v", "b"])
    def test_there_and_back(self, back, tmp_path):
        @on(GEAR)
        async def scene(hand):
            await hand.press("v")
            assert hand.sees("Loads on the bearings")
            await hand.press("question_mark")
            assert hand.sees("Keys: The shaft")
            await hand.press("escape", back)
            assert hand.app.screen is hand.questions
            # what is answered in between is seen when it is opened again
            await hand.press("right")
            await hand.go("shaft.elements[0].power")
            await hand.press(*"24", "enter", "v")
            # 24 kW at 400 rpm on 140 mm: 572.96 N m, 8185.1 N (by hand)
            assert "8185.1" in "\n".join(await unroll(hand))

        scene(tmp_path)

    def test_without_loads_it_says_what_is_missing(self, tmp_path):
        @on({"duty.distance": "200"})
        async def scene(hand):
            await hand.press("v")
            assert hand.sees("Forces are not yet known; missing:")
            assert hand.sees("a force of load case 1") or hand.sees("a load case with its speed and a force")
            await hand.press("p", "o", "right", "left", "enter", "end", "escape")

        scene(tmp_path)

    def test_it_follows_the_search(self, tmp_path):
        @on(GEAR)
        async def scene(hand):
            counted, hand.app.standing.counted = hand.app.standing.counted, None
            await hand.press("v", "p", "o", "right", "enter")
            assert hand.sees("Reading the catalogue ...")
            hand.app.standing.counted = counted
            hand.app._show_panels()
            await hand.press("down")
            assert hand.sees("Loads on the bearings")

        scene(tmp_path)

    def test_of_an_empty_session(self, tmp_path):
        @on()
        async def scene(hand):
            await hand.press("v")
            assert hand.sees("Nothing to draw yet")

        scene(tmp_path)

    def test_bearings_whose_load_centres_change_places(self, tmp_path):
        @on({"duty.distance": "12", "duty.arrangement": "back to back", "duty.cases[0].speed": "100",
             "duty.cases[0].radial_y": "1 kN"})  # fmt: skip
        async def scene(hand):
            await hand.rest()
            await hand.press("v", "o")
            assert hand.app.screen.page is not None

        scene(tmp_path)

    def test_in_ascii(self, tmp_path):
        @on(example=True, can=Abilities(ascii=True, mono=True), size=(60, 20))
        async def scene(hand):
            await hand.rest()
            await hand.press("v", "o")
            assert shown(hand).isascii()
            assert all(text.isascii() for text in await unroll(hand))
            assert all(len(text) <= 60 for text in await unroll(hand))

        scene(tmp_path)


def test_answers_of_a_test_are_complete():
    assert not resolve(answered(GEAR)).missing
