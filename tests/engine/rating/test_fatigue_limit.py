"""Fatigue load limit."""

import numpy as np
import pytest

from engine.rating.fatigue_limit import fatigue_load_limit_Cu
from tests.printed import printed


# ISO 281:2007 Annex B, simplified; evaluated apart from this code from the rounded C0r of the rating checks, which
# moves the third by less than a tenth of a newton
@pytest.mark.parametrize(
    ("C0r", "Dpw", "Cu"),
    [(53_084.4, 46, "6473.7"), (106_168.9, 46, "12947.4"), (237_036.0, 150, "25596"), (149_087.0, 80, "18181")],
)
def test_annex_b(C0r, Dpw, Cu):
    assert fatigue_load_limit_Cu(C0r, Dpw) == printed(Cu)


def test_both_formulas_meet_at_100_mm():
    assert fatigue_load_limit_Cu(8200, [100, np.nextafter(100, 101)]) == pytest.approx([1000, 1000])


def test_outside():
    assert np.isnan(fatigue_load_limit_Cu([0, -1, 1, 1, np.nan], [50, 50, 0, -1, 50])).all()
