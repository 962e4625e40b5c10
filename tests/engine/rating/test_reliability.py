"""Life modification factor for reliability."""

import numpy as np
import pytest
from scipy.stats import weibull_min

from engine.rating.reliability import reliability_factor_a1
from tests.printed import printed

# ISO 281:2007 Table 12 (recalled)
TABLE_12 = [
    ("90", "1.0"),
    ("95", "0.64"),
    ("96", "0.55"),
    ("97", "0.47"),
    ("98", "0.37"),
    ("99", "0.25"),
    ("99.2", "0.22"),
    ("99.4", "0.19"),
    ("99.6", "0.16"),
    ("99.8", "0.12"),
    ("99.9", "0.093"),
    ("99.92", "0.087"),
    ("99.94", "0.080"),
    ("99.95", "0.077"),
]


@pytest.mark.parametrize(("percent", "a1"), TABLE_12, ids=[f"ISO 281 table 12, {row[0]} %" for row in TABLE_12])
def test_table_12(percent, a1):
    assert reliability_factor_a1(float(percent) / 100) == printed(a1)


def test_a1_is_a_quantile_of_the_three_parameter_weibull_distribution():
    # scipy.stats.weibull_min as outside reference, scaled so that 90 % reach the life 1
    scale = 0.95 / weibull_min.isf(0.9, c=1.5)
    reliability = np.linspace(0.90, 0.9995, 200)
    expected = weibull_min.isf(reliability, c=1.5, loc=0.05, scale=scale)
    assert reliability_factor_a1(reliability) == pytest.approx(expected, rel=1e-9)


@pytest.mark.parametrize("reliability", [0.8999, 0.9996, 1.0, 95.0, 0.0, -1.0, np.nan])
def test_outside_the_table(reliability):
    assert np.isnan(reliability_factor_a1(reliability))
