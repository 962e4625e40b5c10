"""Every screen at 80x24 and at 60x20, in UTF-8 and in ASCII."""

from importlib.resources import files

import pytest

from engine.answers.document import Answers
from engine.record.document import Record
from engine.record.read import parse
from tests.screens import pictures
from tests.screens.golden import REST, at_rest, compare, drive, finished, style_of, told
from wizard.commands.open_session import DEMO
from wizard.session import Session
from wizard.terminal import Abilities


@pytest.fixture
def example(tmp_path):
    data = (files("catalogs") / "examples" / DEMO).read_bytes()
    return Session(parse(data, DEMO), tmp_path / "sheave.toml", named=True)


@pytest.fixture
def fresh(tmp_path):
    return Session(Record(Answers()), tmp_path / "session-1.toml", named=False)


SCREENS = {
    "duty": [],
    "duty_second_case": ["end", *["up"] * 10],
    "shaft": ["right"],
    "envelope": ["right"] * 2 + ["down", "down"],
    "speed": ["right"] * 3,
    "lubrication": ["right"] * 4 + ["down"],
    "lubrication_drawn": ["right"] * 4 + ["v"],
    "lubrication_heat": ["right"] * 4 + ["v", "end", "up", "up"],
    "lubricants": ["right"] * 4 + ["down", "enter", ("type", "ep li"), "down"],
    "steel": ["right"] * 5 + ["down"],
    "fits": ["right"] * 6 + ["down"],
    "fits_view": ["right"] * 6 + ["v"],
    "fits_view_tighter": ["right"] * 6 + ["v", "plus", "plus", "plus"],
    "fits_view_systems": ["right"] * 6 + ["v", "plus", "plus", "plus", "pagedown", "pagedown"],
    "fits_view_cup": ["right"] * 6 + ["v", "left", "end"],
    "setting": ["right"] * 7 + ["down"],
    "setting_view": ["right"] * 7 + ["v"],
    "setting_view_fitter": ["right"] * 7 + ["v", *["pagedown"] * 3],
    "setting_view_rollers": ["right"] * 7 + ["v", *["pagedown"] * 5, "i"],
    "shortlist": ["s", "down", "down"],
    "pair": ["s", "enter", "down"],
    "pair_figures": ["s", "enter", "pagedown", "pagedown", "pagedown"],
    "pair_end": ["s", "enter", "end"],
    "browse": ["b"],
    "browse_filtered": ["b", "slash", ("type", "d=60 steep"), "enter", "down"],
    "browse_inch": ["b", "i", "o"],
    "browse_none": ["b", "slash", ("type", "d=60 steeep"), "enter"],
    "browse_room": ["b", "slash", ("type", "3EC D<=150 T<=40"), "enter", "v", "down"],
    "reading": ["b", "d", "ctrl+u", ("type", "T3DB050"), "enter"],
    "reading_no": ["b", "d", "ctrl+u", ("type", "[b]x[/]"), "enter"],
    "section": ["b", "slash", ("type", "V060-4EC"), "enter", "enter"],
    "assumed": ["t", "down"],
    "help": ["question_mark"],
    "help_end": ["question_mark", "end"],
    "typing": ["down", "down", ("type", "12 ft"), "left"],
    "refused": ["down", "down", ("type", "12 furlong"), "enter"],
    "save_as": ["w"],
    "weights": ["s", "w", ("type", "2"), "enter", "down"],
    "shortlist_weighed": ["s", "w", ("type", "2"), "enter", REST, "escape", "down", "space"],
    "scatter": ["s", "d", REST, "down"],
    "why_it_ranks": ["s", "down", "down", "y", REST, "end"],
    "why_not": ["y", ("type", "Q261.1+6, Q261.1+6"), "enter", REST, "end"],
    "why_not_refused": ["y", ("type", "Q286.1+9 but steep"), "enter"],
    "gives": ["s", "M", REST, "down", "down"],
    "compare": ["s", "s"],
    "compare_tried": ["s", "s", REST, "t", ("type", "required life = 90000 h"), "enter", REST, "o", *["down"] * 8],
    "compare_typing": ["s", "s", REST, "t", ("type", "life = 9")],
    "sensitivity": ["s", "t", REST, "down"],
    "find_must_give": ["g", ("type", "more pairs")],
    "overspeed_fails": ["right", "right", "right", "down", "down", ("type", "9999"), "enter"],
}


#: Screens that show load distributions, and those that ask the engine something of their own.
DISTRIBUTED = ("shortlist", "pair", "setting_view")
ASKING = ("scatter", "why", "gives", "compare", "sensitivity", "weights")


def rest_of(name):
    """Return what is waited for: the load distributions where they are shown."""
    if name.startswith(ASKING):
        return told
    return finished if name.startswith(DISTRIBUTED) else at_rest


@pytest.mark.parametrize("size", [(80, 24), (60, 20)], ids=lambda size: f"{size[0]}x{size[1]}")
@pytest.mark.parametrize("name", SCREENS)
def test_screen(name, size, example, monkeypatch, tmp_path):
    monkeypatch.chdir(tmp_path)
    example.path = example.path.relative_to(tmp_path)  # the same path in every run
    text, picture = drive(example, SCREENS[name], size, look=pictures.both, rest=rest_of(name))
    compare(f"{name}_{size[0]}x{size[1]}", text)
    if name in pictures.SHOWN and size == (80, 24):
        pictures.compare(name, picture)


#: On the example with a shaft of gear, sprocket and weights.
ON_SHAFT = {
    "elements": ["right", "right_square_bracket"],
    "kinds": ["right", "right_square_bracket", "enter", "down"],
    "shaft_forces": ["v"],
    "shaft_both": ["v", "o", "p", *["down"] * 6],
    "shaft_unfolded": ["v", *["down"] * 9, "enter", *["down"] * 7],
    "shaft_diagrams": ["v", "end"],
}


@pytest.fixture
def sawmill(tmp_path):
    name = "sawmill_log_conveyor.toml"
    data = (files("catalogs") / "examples" / name).read_bytes()
    return Session(parse(data, name), tmp_path / name, named=True)


@pytest.mark.parametrize("size", [(80, 24), (60, 20)], ids=lambda size: f"{size[0]}x{size[1]}")
@pytest.mark.parametrize("name", ON_SHAFT)
def test_screen_of_a_shaft(name, size, sawmill, monkeypatch, tmp_path):
    monkeypatch.chdir(tmp_path)
    sawmill.path = sawmill.path.relative_to(tmp_path)
    text, picture = drive(sawmill, ON_SHAFT[name], size, look=pictures.both)
    compare(f"{name}_{size[0]}x{size[1]}", text)
    if name in pictures.SHOWN and size == (80, 24):
        pictures.compare(name, picture)


@pytest.mark.parametrize("name", ["elements", "shaft_forces", "shaft_diagrams"])
def test_screen_of_a_shaft_in_ascii(name, sawmill):
    seen = drive(sawmill, ON_SHAFT[name], can=Abilities(ascii=True, mono=True))
    assert seen.isascii()
    compare(f"{name}_ascii", seen)


@pytest.mark.parametrize("name", ["new", "shortlist_without_loads"])
def test_screen_of_a_new_session(name, fresh):
    compare(f"{name}_80x24", drive(fresh, {"new": [], "shortlist_without_loads": ["s"]}[name]))


@pytest.mark.parametrize(
    "name",
    [
        "duty",
        "shortlist",
        "pair",
        "typing",
        "section",
        "browse",
        "fits_view",
        "setting_view",
        "lubrication_heat",
        "shortlist_weighed",
        "scatter",
        "why_not",
        "gives",
        "compare_tried",
        "sensitivity",
    ],
)
def test_screen_in_ascii(name, example):
    seen = drive(example, SCREENS[name], can=Abilities(ascii=True, mono=True), rest=rest_of(name))
    assert seen.isascii()
    compare(f"{name}_ascii", seen)


@pytest.mark.parametrize("name", ["duty", "shortlist", "typing"])
def test_the_mark_is_seen_without_colour(name, example):
    compare(f"{name}_styles", drive(example, SCREENS[name], look=style_of, rest=rest_of(name)))


def test_wide_questions(example):
    compare("duty_160x40", drive(example, [], (160, 40), rest=finished))


def test_wide_screen(example):
    compare("pair_140x40", drive(example, SCREENS["pair"], (140, 40), rest=finished))


def test_every_picture_is_of_a_screen_that_is_compared():
    assert {path.stem for path in pictures.FOLDER.iterdir()} == pictures.SHOWN <= {*SCREENS, *ON_SHAFT}
