"""The source files that the house tests walk, and their syntax trees."""

import ast
from functools import cache
from pathlib import Path

ROOT = Path(__file__).parents[2]
ROOMS = ("engine", "wizard")

Function = ast.FunctionDef | ast.AsyncFunctionDef


@cache
def sources() -> dict[str, str]:
    """Return the text of every module of the program by its path."""
    paths = sorted(path for room in ROOMS for path in (ROOT / room).rglob("*.py"))
    return {str(path.relative_to(ROOT)): path.read_text("utf-8") for path in paths}


@cache
def parsed(path: str) -> ast.Module:
    """Return the syntax tree of a module."""
    return ast.parse(sources()[path])


def module_name(path: str) -> str:
    """Return the name by which a file is imported."""
    return path.removesuffix(".py").replace("/", ".").removesuffix(".__init__")


def functions(path: str) -> list[Function]:
    """Return every function of a module, methods and inner ones too."""
    return [node for node in ast.walk(parsed(path)) if isinstance(node, Function)]
