"""The docstring of a formula is a promise: source, unit of every argument, valid range. Here it is held to it."""

import ast
import importlib
import inspect
import pkgutil
import re

import pytest

import engine
from engine.sources import Citation
from tests.house.tree import Function, module_name, parsed, sources

#: Rooms where every public function is a published formula; elsewhere only the marked ones are.
FORMULA_ROOMS = (
    "engine.rating", "engine.lubrication", "engine.pair", "engine.duty.statics", "engine.duty.mesh",
    "engine.duty.drives", "engine.duty.masses", "engine.duty.fluid",
)  # fmt: skip
UNITS = {
    "-", "N", "mm", "N mm", "MPa", "rpm", "deg C", "h", "mm2/s", "rad", "deg", "kg", "kg/m3", "million revolutions",
    "h or million revolutions", "unit of life", "mm3", "mm/min", "W", "s",
    "mm/s", "N mm2", "rad/(N mm)", "MPa sqrt(m)",
    "mPa s", "1/MPa", "m/s", "W/(m2 K)", "W/mm2", "W/K", "l/min", "mm2", "K", "g", "N/mm", "rpm mm",
}  # fmt: skip


def public_functions():
    """Yield every public function that is defined in the engine."""
    for found in pkgutil.walk_packages(engine.__path__, "engine."):
        module = importlib.import_module(found.name)
        for name, function in inspect.getmembers(module, inspect.isfunction):
            if function.__module__ == found.name and not name.startswith("_"):
                yield function


def is_formula(function) -> bool:
    room = function.__module__
    return hasattr(function, "__citation__") or any(f"{room}.".startswith(f"{one}.") for one in FORMULA_ROOMS)


FORMULAS = [function for function in public_functions() if is_formula(function)]
each_formula = pytest.mark.parametrize("formula", FORMULAS, ids=lambda f: f"{f.__module__}.{f.__name__}")


def doc(formula) -> str:
    return inspect.cleandoc(formula.__doc__ or "")


def section(formula, name: str) -> str:
    """Return the lines under a heading that is underlined with dashes, up to the next empty line."""
    found = re.search(rf"^{name}\b[^\n]*\n-+\n(.*?)(?:\n\n|\Z)", doc(formula), re.MULTILINE | re.DOTALL)
    return found[1] if found else ""


def described(formula) -> list[tuple[str, str]]:
    """Return the parameters described: names in order, each with its text on one line."""
    found: list[tuple[str, str]] = []
    for line in section(formula, "Parameters").splitlines():
        entry = re.match(r"(\w+(?:, \w+)*) : (.*)", line)
        if entry:
            found += [(name, entry[2]) for name in entry[1].split(", ")]
        elif found:
            found[-1] = (found[-1][0], f"{found[-1][1]} {line.strip()}")
    return found


def units_in(text: str) -> list[str]:
    """Return the units in brackets; a structure of several quantities has several, "[mm, rad]"."""
    return [found for found in re.findall(r"\[([^\]]+)\]", text) if set(found.split(", ")) <= UNITS]


def test_the_formulas_are_found():
    assert len(FORMULAS) >= 40
    rooms = {formula.__module__ for formula in FORMULAS}
    assert {"engine.rating.life", "engine.pair.equilibrium", "engine.duty.statics", "engine.steel.toughness"} <= rooms


@each_formula
def test_it_carries_its_source_and_the_docstring_names_the_same_place(formula):
    citation = getattr(formula, "__citation__", None)
    assert isinstance(citation, Citation), "no @cited mark"
    flat = " ".join(doc(formula).split())
    assert re.search(rf"Source: {re.escape(str(citation))}(?![\w(])", flat), f"no sentence 'Source: {citation}'"


@each_formula
def test_every_parameter_is_described_with_its_unit(formula):
    names = list(inspect.signature(formula).parameters)
    assert [name for name, _ in described(formula)] == names
    assert [name for name, text in described(formula) if not units_in(text)] == []


@each_formula
def test_what_it_returns_is_described_with_its_unit(formula):
    assert units_in(section(formula, "Returns"))


@each_formula
def test_it_says_where_it_is_valid_and_in_which_order_everything_stands(formula):
    text = doc(formula)
    places = [re.search(rf"^{word}", text, re.MULTILINE) for word in ("Parameters", "Returns", "Valid ", "Source: ")]
    assert all(places), "Parameters, Returns, Valid, Source: one is missing"
    starts = [place.start() for place in places]
    assert starts == sorted(starts)


def undescribed(path: str) -> list[str]:
    """Return the module, classes, functions and methods of a file that are public and have no docstring."""
    found = [] if ast.get_docstring(parsed(path)) else [path]

    def walk(body: list[ast.stmt], within: str) -> None:
        for node in body:
            if not isinstance(node, Function | ast.ClassDef) or node.name.startswith("_"):
                continue
            if ast.get_docstring(node) is None:
                found.append(f"{within}.{node.name}")
            if isinstance(node, ast.ClassDef):
                walk(node.body, f"{within}.{node.name}")

    walk(parsed(path).body, module_name(path))
    return found


@pytest.mark.parametrize("path", list(sources()))
def test_everything_public_says_what_it_is(path):
    assert undescribed(path) == []
