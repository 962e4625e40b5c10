"""Every formula gives a single bearing the very bits that it gives the same bearing in a column of many."""

import inspect
import itertools
from importlib import import_module

import numpy as np
import pytest

from engine.lubrication.cleanliness import LEVELS
from engine.lubrication.contamination import SUPPLIES, TABLE_13
from engine.lubrication.grease.fill import REFILL
from engine.lubrication.lubricant import BASES, ISO_VG
from engine.pair.arrangement import ARRANGEMENTS
from engine.seat.iso286 import HOLE_CLASSES
from engine.seat.material import ALUMINIUM, STEEL
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
    "engine.lubrication.two_points",
    "engine.lubrication.viscosity_ratio",
    "engine.lubrication.contamination",
    "engine.lubrication.viscosity_index",
    "engine.lubrication.oil",
    "engine.lubrication.friction",
    "engine.lubrication.thermal_speed",
    "engine.lubrication.cooling",
    "engine.lubrication.contact.rollers",
    "engine.lubrication.contact.film",
    "engine.lubrication.contact.rib",
    "engine.lubrication.grease.interval",
    "engine.lubrication.grease.fill",
    "engine.duty.statics",
    "engine.duty.mesh",
    "engine.duty.drives",
    "engine.duty.masses",
    "engine.duty.fluid",
    "engine.duty.deflection",
    "engine.duty.spectrum",
    "engine.rating.double_row",
    "engine.pair.paired",
    "engine.distribution.contact",
    "engine.distribution.setting_chain",
    "engine.distribution.scatter",
    "engine.pair.arrangement",
    "engine.pair.equilibrium",
    "engine.seat.iso286",
    "engine.seat.iso286_formulas",
    "engine.seat.iso492",
    "engine.seat.iso578",
    "engine.seat.limits",
    "engine.seat.interference",
    "engine.seat.pressure",
    "engine.seat.rotation",
    "engine.seat.creep",
    "engine.seat.mounting",
    "engine.steel.growth",
    "engine.steel.toughness",
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
    "VI": (-220, 420), "rho15": (650, 1250), "rho": (-5, 1200), "eta": (-5, 500), "f0": (-0.1, 9), "dm": (-5, 400),
    "f1": (-1e-5, 1e-3), "P1": (-50, 5e4), "A_r": (-5e3, 2e5), "heat": (-5, 2e3),
    "rise": (-50, 120), "V": (-1, 9), "oil_rise": (-5, 60), "KL": (-0.1, 3), "KP": (-0.1, 3), "n_ref": (100, 9e3),
    "Phi": (-5, 2e3), "H": (-5, 900), "B": (2.5, 4.0), "v": (-1, 40), "ambient": (-30, 60), "conductance": (0, 9),
    "free": (0, 3), "forced": (0, 50), "radiant": (0, 1e-7), "oil": (0, 300), "inlet": (10, 90), "epsilon": (-0.1, 6),
    "alpha_p": (0.005, 0.04), "u": (0, 2e4), "R": (-1, 20), "w": (0, 900), "U": (-1e-12, 1e-10),
    "W": (-1e-6, 1e-4), "Rq1": (-1e-5, 1e-3), "Rq2": (-1e-5, 1e-3), "h": (-1e-5, 2e-3), "Rq": (-1e-5, 1e-3),
    "lam": (-0.1, 6), "M_rib": (0, 500), "M0": (-50, 900), "M1": (-50, 900), "mass": (-0.1, 9),
    "n_dm": (-1e4, 5e5), "intervals": (0, 1e4), "W40": (0.2, 0.6),
    "z_A": (-20, 40), "z_B": (50, 300), "S_A": (-50, 5e3), "S_B": (-50, 5e3), "K_a": (-5e3, 5e3), "K": (0.6, 2.4),
    "d": (-5, 1100), "Ft": (-50, 2e4), "alpha_n": (-0.1, 0.8), "beta": (-0.1, 1.7), "delta": (-0.1, 1.7),
    "d_e": (10, 400), "b": (-5, 90), "gamma_m": (-0.1, 0.9), "mu": (-0.15, 0.2), "lead": (-5, 100), "k": (0.8, 3),
    "d_other": (20, 500), "theta": (-0.5, 7), "groove": (-0.2, 3.5), "ratio": (0.5, 8), "T1": (-50, 5e3),
    "T2": (-50, 2e3), "m": (-5, 500), "tilt": (-1.8, 1.8), "G": (-9, 6e3), "D2": (-5, 400), "b2": (-5, 60),
    "dp": (-0.1, 3), "q": (-0.1, 1.7), "D_ring": (0, 200), "d_shaft": (-5, 90), "p": (-1, 100), "D": (-5, 700),
    "d_m": (-5, 90), "E": (-1e3, 3e5), "d_o": (20, 160), "d_i": (-5, 60), "slope_y": (-1e-3, 1e-3),
    "slope_z": (-1e-3, 1e-3), "Cr": (-5, 5e5), "spacer": (-5, 40), "inset": (0, 50),
    "size": (0.5, 3300), "d_j": (40, 100), "width": (10, 60), "clearance": (0, 0.05), "T_around": (0, 40),
    "upper_inner": (0.01, 0.04), "lower_inner": (-0.01, 0.01), "upper_outer": (0, 0.02), "lower_outer": (-0.02, 0),
    "Rz_inner": (0, 0.01), "Rz_outer": (0, 0.01), "T_inner": (-20, 120), "T_outer": (-20, 120), "es": (0.01, 0.04),
    "ei": (-0.01, 0.01), "ES": (0, 0.03), "EI": (-0.03, 0), "upper": (0, 0.02), "lower": (-0.02, 0),
    "twin_upper": (0, 0.02), "twin_lower": (-0.02, 0), "effective": (-0.02, 0.05), "needed": (-0.001, 0.02),
    "austenite": (-1, 20), "limit": (100, 250), "strain": (0, 1e-3), "depth": (-0.1, 1),
    "laminae": (1, 40), "Q_o": (-50, 5e4), "rho_sum": (-0.01, 1.0), "cone_growth": (-0.1, 0.1),
    "cup_shrinkage": (-0.1, 0.1), "interference": (-0.05, 0.1), "diameter": (20, 500), "cone": (-1e-3, 2e-3),
    "roller": (-1e-3, 2e-3), "cup": (-1e-3, 2e-3),
    "inner": (-1e-3, 2e-3), "outer": (-1e-3, 2e-3),
    "T_first": (-30, 60), "T_second": (50, 160), "nu_first": (5, 900), "nu_second": (0.2, 60),
    "hoop": (-50, 400), "factor": (0.5, 3), "floor": (0, 30),
}  # fmt: skip
CHOICES = {
    "VG": (*ISO_VG, 33), "ep": (True, False), "code": (-1, *range(len(HOLE_CLASSES) + 2)), "grade": range(3, 10),
    "sigma": (-1, 0, 1),
}  # fmt: skip
MATERIALS = (STEEL, ALUMINIUM)
WORDS = {
    "arrangement": ARRANGEMENTS, "supply": SUPPLIES, "level": LEVELS, "letter": "degkmnprs", "inner": MATERIALS,
    "outer": MATERIALS, "material": MATERIALS, "side": ("A", "B"),
}  # fmt: skip
WORDS |= {"word": tuple(TABLE_13), "base": BASES, "often": tuple(REFILL), "vertical": (False, True)}
WORDS |= {"ring": (1, -1), "rollers": (rollers(),)}
#: formulas of a place in words or of one bearing only; their own tests look at them
NOT_OF_NUMBERS = {"regreasing_interval", "consistency"}
#: arguments with a last axis of their own, along which the function sums
SUMMED = {"spectrum_life", "mean_load", "mean_speed", "system_life", "reactions", "interval_over_cases"}
SUPPORTS = {"x_A", "x_B"}
#: keeps its last axis; tests/engine/seat/test_pressure.py holds one row alone against the same row among many
OF_LAYERS = {"layered_pressures"}


def formulas():
    for name in MODULES:
        module = import_module(name)
        for function in vars(module).values():
            own = getattr(function, "__module__", None) == name and hasattr(function, "__citation__")
            # what takes a line or a load takes a whole shaft, not numbers
            shaft = own and {"line", "load"} & set(inspect.signature(function).parameters)
            if own and not shaft and function.__name__ not in NOT_OF_NUMBERS:
                yield function


def parameters(function):
    # an exponent or an axis stands at its default
    taken = inspect.signature(function).parameters
    return [
        name for name in taken if name != "axis" and (name != "beta" or taken[name].default is inspect.Parameter.empty)
    ]


def words_of(function):
    # the same name may be a material in one room and a number in another
    numbers = {"inner", "outer"} if function.__module__.startswith("engine.distribution") else set()
    return {name: choices for name, choices in WORDS.items() if name not in numbers}


def wordings(function):
    """Every way of filling the arguments that are words."""
    names = [name for name in parameters(function) if name in words_of(function)]
    for words in itertools.product(*(WORDS[name] for name in names)):
        yield dict(zip(names, words, strict=True))


def drawn(function):
    """Draw a table (pairs x cases) of each argument that is a number, the same for every run."""
    draw = np.random.default_rng(20)
    shape = (PAIRS, CASES)
    for name in parameters(function):
        if name in CHOICES:
            yield name, draw.choice(CHOICES[name], shape)
        elif name not in words_of(function):
            yield name, draw.uniform(*RANGES[name], shape)


def bits(result):
    """Stack the results to one array of float64, whatever number of them there is."""
    results = result if isinstance(result, tuple) else (result,)
    assert all(np.asarray(one).dtype == np.float64 for one in results)
    return np.stack(np.broadcast_arrays(*results))


ELEMENTWISE = [f for f in formulas() if f.__name__ not in SUMMED | OF_LAYERS and not set(parameters(f)) <= set(WORDS)]
ALONG_AN_AXIS = [f for f in formulas() if f.__name__ in SUMMED]


def test_the_walk_finds_the_formulas():
    assert len(ELEMENTWISE) + len(ALONG_AN_AXIS) >= 80
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
