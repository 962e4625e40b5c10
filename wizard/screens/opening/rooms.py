"""Where each screen is. It is imported when it is first opened: only the questions are needed at the start."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from importlib import import_module
from typing import Any

_AT = {
    "assumed": "asking.assumed:AssumedScreen",
    "browse": "browse:BrowseScreen",
    "compare": "choosing.comparing.compare:CompareScreen",
    "diff": "records.diff:DiffScreen",
    "find": "finding.screen:FindScreen",
    "fits": "views.fits:FitsScreen",
    "gives": "choosing.gives:GivesScreen",
    "help": "help:HelpScreen",
    "leaving": "asking.leaving:LeavingScreen",
    "lubricants": "views.lubricants:LubricantsScreen",
    "lubrication": "views.lubrication:LubricationScreen",
    "pair": "pair:PairScreen",
    "reading": "reading:ReadingScreen",
    "scatter": "choosing.scatter:ScatterScreen",
    "section": "section:SectionScreen",
    "sensitivity": "choosing.sensitivity:SensitivityScreen",
    "setting": "views.setting:SettingScreen",
    "shaft": "onshaft.screen:ShaftScreen",
    "shortlist": "shortlist:ShortlistScreen",
    "small": "opening.small:SmallScreen",
    "start": "opening.start:StartScreen",
    "verify": "records.verify:VerifyScreen",
    "weights": "choosing.weights:WeightsScreen",
    "why": "choosing.why:WhyScreen",
}


def made(name: str) -> Any:
    """Return a new screen by its name."""
    module, _, kind = _AT[name].partition(":")
    return getattr(import_module(f"wizard.screens.{module}"), kind)()


#: What the framework asks for: each screen by its name, made when it is first wanted.
SCREENS: dict[str, Callable[[], Any]] = {name: partial(made, name) for name in _AT}

#: Screens that need something to show: where they are opened from, and the action that opens them there.
BEHIND = {
    "compare": ("shortlist", "compare"),
    "pair": ("shortlist", "detail"),
    "reading": ("browse", "decode"),
    "scatter": ("shortlist", "scatter"),
    "section": ("browse", "section"),
    "sensitivity": ("shortlist", "sensitivity"),
    "weights": ("shortlist", "weigh"),
    "why": ("chapter", "why"),
}
