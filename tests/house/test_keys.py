"""Every action once, with its help; no key twice at one place, none that a terminal keeps for itself."""

from collections import Counter

import pytest
from textual.binding import Binding

from wizard import keys
from wizard.app import Conewright
from wizard.screens.chapter import ChapterScreen
from wizard.screens.help import HelpScreen
from wizard.screens.pair import PairScreen
from wizard.screens.shortlist import ShortlistScreen
from wizard.widgets.lines import Rows

SCREENS = {"chapter": ChapterScreen, "shortlist": ShortlistScreen, "pair": PairScreen, "help": HelpScreen}
#: tmux and screen take these for themselves; a terminal's line discipline takes the others (stop, suspend).
STOLEN = {"ctrl+b", "ctrl+a", "ctrl+s", "ctrl+z"}


def bound(widget) -> list[tuple[str, str]]:
    """Return the keys that a class binds itself and their actions, one by one."""
    found = []
    for binding in widget.__dict__.get("BINDINGS", ()):
        key, action = (binding.key, binding.action) if isinstance(binding, Binding) else binding[:2]
        found += [(one, action) for one in key.split(",")]
    return found


def test_every_place_is_a_screen():
    assert {key.place for key in keys.KEYS} == {*SCREENS, "every"}


@pytest.mark.parametrize("place", SCREENS)
def test_no_key_does_two_things_at_one_place(place):
    used = Counter(key for action in keys.at(place) for key in action.keys)
    assert [key for key, times in used.items() if times > 1] == []


@pytest.mark.parametrize("place", SCREENS)
def test_no_key_of_a_screen_is_one_that_the_moving_about_needs(place):
    # a screen's list takes its own keys first, so an action on one of them would never be reached
    moves = {key for key, _ in bound(Rows)}
    assert moves
    assert not moves & {key for action in keys.at(place) for key in action.keys}


@pytest.mark.parametrize("key", keys.KEYS, ids=lambda key: f"{key.place}-{key.action}")
def test_every_action_is_explained_and_has_a_method(key):
    assert key.label
    assert key.keys
    assert key.help.endswith(".")
    assert len(key.help) > 15
    method = f"action_{key.action.partition('(')[0]}"
    for place in SCREENS if key.place == "every" else [key.place]:
        assert callable(getattr(SCREENS[place], method, None)), f"{SCREENS[place].__name__} has no {method}"


@pytest.mark.parametrize("place", SCREENS)
def test_a_screen_binds_what_the_table_says(place):
    wanted = {(key, action.action) for action in keys.at(place) for key in action.keys}
    assert wanted <= set(bound(SCREENS[place]))


@pytest.mark.parametrize("widget", [Conewright, Rows, *SCREENS.values()], ids=lambda widget: widget.__name__)
def test_no_key_is_one_that_a_terminal_or_its_multiplexer_takes(widget):
    assert bound(widget)
    assert not STOLEN & {key for key, _ in bound(widget)}


def test_quitting_works_with_one_hand_and_from_habit():
    assert {"ctrl+q", "ctrl+c"} <= {key for key, _ in bound(Conewright)}
