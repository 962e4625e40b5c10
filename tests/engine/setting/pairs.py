"""Pairs with a duty to study: real rows of the invented range, as an engineer would have chosen them."""

from functools import cache

from engine.catalogue.read import builtin
from tests.duties import answered, conditions

#: A shaft between two bearings 160 mm apart that runs at two speeds.
DUTY = {
    "duty.distance": "160",
    "duty.life": "8000",
    "duty.cases[0].speed": "900",
    "duty.cases[0].share": "60",
    "duty.cases[0].radial_y": "9 kN",
    "duty.cases[0].axial": "2 kN",
    "duty.cases[1].speed": "1400",
    "duty.cases[1].share": "40",
    "duty.cases[1].radial_y": "5 kN",
    "duty.cases[1].radial_z": "3 kN",
}
#: Nothing that tilts the rollers and nothing that scatters.
STRAIGHT = {"setting.misalignment": "0"}


def duty(cases=2, **texts):
    """Return the conditions of the duty; `setting__aim="preload"` answers one question more."""
    return conditions(answered(DUTY | {path.replace("__", "."): text for path, text in texts.items()}, cases))


@cache
def rows(bore=50.0, at=0):
    """Return one metric bearing of a bore as a catalogue of one row."""
    found = [row for row in range(len(builtin())) if builtin().d[row] == bore and builtin().system[row] == "metric"]
    return builtin().take([found[at]])
