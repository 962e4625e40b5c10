"""Every action once, with its help; no key twice at one place, none that a terminal keeps for itself."""

import importlib
import inspect
import pkgutil
import re
from collections import Counter

import pytest

import wizard.screens
from tests.screens.golden import FOLDER
from wizard import keys
from wizard.screens import frame

#: tmux and screen take the first two for themselves; the others are XOFF and XON, which terminals send by themselves.
STOLEN = {"ctrl+b", "ctrl+a", "ctrl+s", "ctrl+q"}
#: What begins an answer at once, so that it can be no command where questions stand.
BEGINS_AN_ANSWER = {
    *"0123456789", "plus", "minus", "full_stop", "less_than_sign", "greater_than_sign", "+", "-", ".", "<", ">",
}  # fmt: skip


def screens() -> dict[str, type]:
    """Return every screen of the wizard by its place in the table of keys."""
    found = {}
    for module in pkgutil.walk_packages(wizard.screens.__path__, "wizard.screens."):
        for _, screen in inspect.getmembers(importlib.import_module(module.name), inspect.isclass):
            place = getattr(screen, "PLACE", "")
            if place and screen.__module__ == module.name:
                assert place not in found, f"two screens at {place}"
                found[place] = screen
    return found


SCREENS = screens()
each_place = pytest.mark.parametrize("place", SCREENS)


def test_every_place_is_a_screen_and_every_screen_a_place():
    assert {key.place for key in keys.KEYS} == {*SCREENS, "every"}
    assert {"chapter", "shortlist", "pair", "help"} <= set(SCREENS)


@each_place
def test_no_key_does_two_things_at_one_place(place):
    used = Counter(key for action in keys.at(place) for key in action.keys)
    assert [key for key, times in used.items() if times > 1] == []


@each_place
def test_no_key_is_one_that_moves_the_mark(place):
    # a move is looked up first, so an action on the same key would never be reached
    assert {"up", "down", "pageup", "pagedown", "home", "end"} <= set(keys.STEPS)
    assert not set(keys.STEPS) & {key for action in keys.at(place) for key in action.keys}


def test_no_key_of_the_questions_is_one_that_begins_an_answer():
    assert not BEGINS_AN_ANSWER & {key for action in keys.at("chapter") for key in action.keys}


@pytest.mark.parametrize("key", keys.KEYS, ids=lambda key: f"{key.place}-{key.action}")
def test_every_action_is_explained_and_has_a_method(key):
    assert key.label
    assert key.shown
    assert key.keys
    assert key.help.endswith(".")
    assert len(key.help) > 15
    for place in SCREENS if key.place == "every" else [key.place]:
        method = getattr(SCREENS[place], f"action_{key.action}", None)
        assert callable(method), f"{SCREENS[place].__name__} has no action_{key.action}"
        assert list(inspect.signature(method).parameters) == ["self"]


@each_place
def test_every_method_for_a_key_has_a_key(place):
    # what the framework brings along begins with action_ too, so only methods written here count
    own = {
        name.removeprefix("action_")
        for kind in SCREENS[place].__mro__
        if kind.__module__.startswith("wizard.")
        for name in vars(kind)
        if name.startswith("action_")
    }
    bound = {action.action for action in keys.at(place)}
    assert own - bound <= {"back"}  # going back means nothing on the first screen


def test_no_key_is_one_that_a_terminal_or_its_multiplexer_takes():
    assert not STOLEN & {key for action in keys.KEYS for key in action.keys}
    assert not STOLEN & set(keys.STEPS)


@each_place
def test_leaving_and_help_work_everywhere(place):
    used = {key: action.action for action in keys.at(place) for key in action.keys}
    assert used["question_mark"] == used["f1"] == "help"
    assert used["q"] == used["f10"] == used["ctrl+c"] == "quit"


@each_place
def test_what_stands_in_the_footer_while_something_is_typed_types_nothing(place):
    shown = [key for key in keys.while_typing(place) if key.in_footer]
    assert {"Ctrl-G", "Ctrl-C"} < {key.shown for key in shown}
    assert [key.shown for key in shown if any(len(name) == 1 or name == "question_mark" for name in key.keys)] == []
    used = Counter(name for key in keys.while_typing(place) for name in key.keys)
    assert max(used.values()) == 1
    assert not STOLEN & set(used)
    # a terminal may keep any function key for itself, so that each has another beside it
    ways = [[name for name in key.keys if not re.fullmatch(r"f\d+", name)] for key in keys.while_typing(place)]
    assert all(ways)
    assert sum(len(key.shown) + len(key.label) + 3 for key in shown) <= 60  # all of them on the smallest screen


@each_place
@pytest.mark.parametrize("width", [60, 70, 80, 100, 132, 200])
def test_every_footer_shows_the_way_back_before_the_way_out(place, width):
    shown = [text for text, meaning in frame.foot(place, width) if meaning == "key"]
    assert sum(len(text) for text, _ in frame.foot(place, width)) <= width + 2  # two blanks behind the last one
    assert shown[-1] == "q"
    back = [key.shown for key in keys.at(place) if key.action == "back"]
    if place in {"chapter", "small"}:  # nothing stands before the questions, nor before the word that there is no room
        assert back == []
    else:
        assert shown.index(back[0]) < shown.index("q")


def test_every_kept_screen_but_the_questions_shows_the_way_back():
    footers = {path.name: path.read_text(encoding="utf-8").splitlines()[-1] for path in FOLDER.glob("*.txt")}
    footers = {name: text for name, text in footers.items() if not name.startswith("small_") and "_styles" not in name}
    assert len(footers) > 150
    questions = {name for name, text in footers.items() if text.startswith("Enter answer  Right next ")}
    lost = {
        name
        for name, text in footers.items()
        if not 0 <= max(text.find("Esc "), text.find("n stay")) < text.find(" quit")
    }
    assert lost == questions


def test_the_questions_show_how_to_take_back_at_80_columns():
    shown = [text for text, meaning in frame.foot("chapter", 80) if meaning == "key"]
    assert {"Enter", "Right", "s", "u", "v", "a"} < set(shown)
