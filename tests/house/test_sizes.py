"""Small rooms with plain names."""

import ast
from collections import Counter
from pathlib import PurePath

from tests.house.tree import Function, functions, parsed, sources

NO_NAMES = {"utils", "util", "helpers", "helper", "common", "core", "misc", "manager", "constants", "models"}


def lines_of(path: str) -> int:
    return len(sources()[path].splitlines())


def code_lines(function: Function) -> int:
    """Return how many lines a function has without its docstring and its blank lines and comments."""
    return function.end_lineno - function.lineno + 1 - docstring_lines(function)


def docstring_lines(function: Function) -> int:
    if ast.get_docstring(function) is None:
        return 0
    return function.body[0].end_lineno - function.body[0].lineno + 1


def test_no_file_is_long():
    assert {path: lines_of(path) for path in sources() if lines_of(path) > 350} == {}


def test_few_files_are_above_300_lines():
    above = [path for path in sources() if lines_of(path) > 300]
    assert len(above) < 0.04 * len(sources()), above


def test_no_function_is_long():
    long = {
        f"{path}: {function.name}": code_lines(function)
        for path in sources()
        for function in functions(path)
        if code_lines(function) > 60
    }
    assert long == {}


def test_few_functions_are_above_30_lines():
    every = [(path, function) for path in sources() for function in functions(path)]
    above = [f"{path}: {function.name}" for path, function in every if code_lines(function) > 30]
    assert len(above) <= 0.03 * len(every), above


def test_no_function_takes_many_arguments():
    # dataclasses have no constructor in the source, so they are not among these
    many = {}
    for path in sources():
        for function in functions(path):
            names = [*function.args.posonlyargs, *function.args.args, *function.args.kwonlyargs]
            count = len([name for name in names if name.arg not in {"self", "cls"}])
            if count > 8:
                many[f"{path}: {function.name}"] = count
    assert many == {}


def test_no_folder_is_full():
    # __init__.py and __main__.py are what a package is made of; they hold a sentence, or one call
    files = Counter(str(PurePath(path).parent) for path in sources() if not PurePath(path).stem.startswith("__"))
    assert {folder: count for folder, count in files.items() if count > 13} == {}


def test_every_module_has_a_name_that_says_something():
    named = {part.removesuffix(".py") for path in sources() for part in PurePath(path).parts}
    assert not NO_NAMES & named


def test_the_measures_measure():
    # the guards above are only worth something while they see the code
    assert len(sources()) > 60
    assert sum(len(functions(path)) for path in sources()) > 300
    function = parsed("engine/record/write.py").body[-1]
    assert isinstance(function, ast.FunctionDef)
    assert code_lines(function) < function.end_lineno - function.lineno + 1
