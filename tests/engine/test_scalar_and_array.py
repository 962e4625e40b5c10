"""Every formula gives a single bearing the very bits that it gives the same bearing in a column of many."""

import inspect
import itertools
from importlib import import_module

import numpy as np
import pytest

from engine.lubrication.contamination import LEVELS, SUPPLIES
from engine.lubrication.viscosity import ISO_VG
from engine.pair.arrangement import ARRANGEMENTS
from tests.engine.distribution.bearings import rollers

MODULES = [
    "engine.rating.geometry",
    "engine.rating.dynamic",
    "engine.rating.static",
    "engine.rating.fatigue_limit",
    "engine.rating.reliability",
    "engine.rating.modified_life",
    "engine.rating.life",
    "engine.rating.system",
    "engine.lubrication.viscosity",
    "engine.lubrication.viscosity_ratio",
    "engine.lubrication.contamination",
    "engine.duty.statics",
    "engine.distribution.contact",
    "engine.distribution.setting_chain",
    "engine.distribution.scatter",
    "engine.pair.arrangement",
    "engine.pair.equilibrium",
]
PAIRS, CASES = 23, 9  # odd numbers, so that the last lanes of a vector unit are filled in part only

# what each argument is drawn from, by its name; wide enough to cross every branch and leave every valid range
RANGES = {
    "alpha": (0.0, 0.7), "e": (0.1, 1.6), "gamma": (-0.02, 0.35), "Dwe": (4, 60), "Lwe": (5, 80), "Z": (10, 40),
    "Dpw": (30, 700), "i": (1, 3), "Fr": (-50, 5e4), "Fa": (-50, 5e4), "Y": (0.6, 2.4), "Y0": (0.3, 1.3),
    "C0r": (-5, 5e5), "P0": (-5, 5e4), "reliability": (0.88, 1.0), "kappa": (0.0, 5.0), "e_C": (0.0, 1.0),
    "Cu": (100, 5e4), "P": (-5, 5e4), "C": (1e3, 5e5), "a1": (0.07, 1.0), "a_iso": (0.1, 50), "L10": (0, 1e4),
    "L": (0, 1e4), "n": (-5, 4000), "share": (0, 1), "life": (0, 1e5), "T": (-30, 160), "nu40": (8, 500),
    "nu100": (1.8, 40), "nu": (0, 100), "nu1": (0.5, 100), "c1": (0.004, 0.09), "c2": (0.5, 4.1), "x": (-100, 400),
    "F": (-5e3, 5e3), "M": (-1e5, 1e5), "x_A": (0, 50), "x_B": (100, 300), "R_y": (-5e3, 5e3), "R_z": (-5e3, 5e3),
    "distance": (50, 300), "a_A": (-20, 40), "a_B": (-20, 40), "inset_A": (0, 20), "inset_B": (0, 20),
    "z_A": (-20, 40), "z_B": (50, 300), "S_A": (-50, 5e3), "S_B": (-50, 5e3), "K_a": (-5e3, 5e3), "K": (0.6, 2.4),
    "delta": (-0.01, 0.05), "k": (0, 40), "laminae": (1, 40), "Q_o": (-50, 5e4), "epsilon": (-0.5, 0.5),
    "w": (-5, 2e3), "rho": (-0.01, 1.0), "cone_growth": (-0.1, 0.1), "cup_shrinkage": (-0.1, 0.1),
    "interference": (-0.05, 0.1), "diameter": (20, 500), "inner": (-1e-3, 2e-3), "outer": (-1e-3, 2e-3),
    "cone": (-1e-3, 2e-3), "roller": (-1e-3, 2e-3), "cup": (-1e-3, 2e-3),
}  # fmt: skip
CHOICES = {"VG": (*ISO_VG, 33), "ep": (True, False)}
WORDS = {"arrangement": ARRANGEMENTS, "supply": SUPPLIES, "level": LEVELS, "ring": (1, -1), "rollers": (rollers(),)}
#: arguments with a last axis of their own, along which the function sums
SUMMED = {"spectrum_life", "mean_load", "system_life", "reactions"}
SUPPORTS = {"x_A", "x_B"}


def formulas():
    for name in MODULES:
        module = import_module(name)
        for function in vars(module).values():
            if getattr(function, "__module__", None) == name and hasattr(function, "__citation__"):
                yield function


def parameters(function):
    return [name for name in inspect.signature(function).parameters if name not in {"beta", "axis"}]


def wordings(function):
    """Every way of filling the arguments that are words."""
    names = [name for name in parameters(function) if name in WORDS]
    for words in itertools.product(*(WORDS[name] for name in names)):
        yield dict(zip(names, words, strict=True))


def drawn(function):
    """Draw a table (pairs x cases) of each argument that is a number, the same for every run."""
    draw = np.random.default_rng(20)
    shape = (PAIRS, CASES)
    for name in parameters(function):
        if name in CHOICES:
            yield name, draw.choice(CHOICES[name], shape)
        elif name not in WORDS:
            yield name, draw.uniform(*RANGES[name], shape)


def bits(result):
    """Stack the results to one array of float64, whatever number of them there is."""
    results = result if isinstance(result, tuple) else (result,)
    assert all(np.asarray(one).dtype == np.float64 for one in results)
    return np.stack(np.broadcast_arrays(*results))


ELEMENTWISE = [f for f in formulas() if f.__name__ not in SUMMED and not set(parameters(f)) <= set(WORDS)]
ALONG_AN_AXIS = [f for f in formulas() if f.__name__ in SUMMED]


def test_the_walk_finds_the_formulas():
    assert len(ELEMENTWISE) + len(ALONG_AN_AXIS) >= 30
    assert {f.__name__ for f in ALONG_AN_AXIS} == SUMMED


@pytest.mark.filterwarnings("error")
@pytest.mark.parametrize("function", ELEMENTWISE, ids=lambda f: f.__name__)
def test_one_by_one_and_all_at_once(function):
    table = dict(drawn(function))
    for words in wordings(function):
        at_once = bits(function(**words, **table))
        assert at_once.shape[1:] == (PAIRS, CASES)
        # a column, whose elements lie far apart in memory, and the table turned
        column = bits(function(**words, **{name: values[:, 3] for name, values in table.items()}))
        turned = bits(function(**words, **{name: values.T for name, values in table.items()}))
        assert np.array_equal(column, at_once[:, :, 3], equal_nan=True)
        assert np.array_equal(turned, at_once.transpose(0, 2, 1), equal_nan=True)
        for place in np.ndindex(PAIRS, CASES):
            alone = bits(function(**words, **{name: values[place].item() for name, values in table.items()}))
            assert np.array_equal(alone, at_once[(slice(None), *place)], equal_nan=True)


@pytest.mark.filterwarnings("error")
@pytest.mark.parametrize("function", ELEMENTWISE, ids=lambda f: f.__name__)
def test_pairs_in_a_column_against_cases_in_a_row(function):
    # the first argument varies from pair to pair, all others from case to case
    table = dict(drawn(function))
    first = next(iter(table))
    broadcast = {name: values[:, :1] if name == first else values[:1, :] for name, values in table.items()}
    full = {name: np.broadcast_to(values, (PAIRS, CASES)) for name, values in broadcast.items()}
    for words in wordings(function):
        across = np.broadcast_arrays(bits(function(**words, **broadcast)), bits(function(**words, **full)))
        assert np.array_equal(*across, equal_nan=True)


@pytest.mark.filterwarnings("error")
@pytest.mark.parametrize("function", ALONG_AN_AXIS, ids=lambda f: f.__name__)
def test_one_row_alone_and_among_many(function):
    # supports are one to a row, all other arguments have the axis that is summed
    table = {name: values[:, 0] if name in SUPPORTS else np.abs(values) for name, values in drawn(function)}
    at_once = bits(function(**table))
    assert at_once.shape[1:] == (PAIRS,)
    for row in range(PAIRS):
        alone = bits(function(**{name: values[row] for name, values in table.items()}))
        assert np.array_equal(alone, at_once[:, row], equal_nan=True)
