"""Every action once, with its help; no key twice at one place, none that a terminal keeps for itself."""

import importlib
import inspect
import pkgutil
import re
from collections import Counter

import pytest

import wizard.screens
from wizard import keys

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
