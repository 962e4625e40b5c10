"""What the fitter is told: a setting in both units, each said once."""

import pytest

from engine.setting.bench import in_both


@pytest.mark.parametrize(
    ("setting", "said"),
    [
        (0.05, "0.050 mm end play (0.0020 in end play)"),
        (-0.0127, "0.013 mm preload (0.0005 in preload)"),
        (0.0004, "no end play and no preload"),
        # too little for a ten-thousandth of an inch
        (0.0008, "0.001 mm end play"),
    ],
)
def test_a_setting_in_both_units_says_nothing_twice(setting, said):
    assert in_both(setting) == said
