"""A file of bearing steels to a table of grades: every problem with its key, all of them in one go."""

import functools
import math
import tomllib
from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any

from engine.errors import Problem, Problems, nearest
from engine.steel.grades import PROPERTIES, TREATMENTS, Grade, Grades, Value

if TYPE_CHECKING:
    from importlib.resources.abc import Traversable

_TEXTS = ("name", "designation", "treatment")
_KEYS = (*_TEXTS, "ordinary", *PROPERTIES)
_VALUE = 'a table such as { value = 175, source = "handbook" }'


@functools.cache
def builtin() -> Grades:
    """Return the steels that come with the program."""
    from importlib.resources import files

    return read(files("catalogs").joinpath("steels.toml"))


def read(path: "Path | Traversable") -> Grades:
    """Return the steels in a TOML file, or raise Problems with everything that is wrong with it."""
    file = str(path)
    try:
        tables = tomllib.loads(path.read_text("utf-8"))
    except (OSError, ValueError, RecursionError) as error:
        raise Problems([Problem(file, None, "", f"cannot be read: {error}", "a TOML file of steels")]) from None
    listed = tables.get("steel")
    if not isinstance(listed, list) or not listed:
        raise Problems([Problem(file, None, "steel", "there is no steel", "tables [[steel]]")])
    problems: list[Problem] = []
    rows = [_grade(steel, f"steel[{at}]", file, problems) for at, steel in enumerate(listed)]
    for treatment in TREATMENTS:
        if not problems and all(row.treatment != treatment for row in rows):
            problems.append(
                Problem(file, None, "steel", f'none is of treatment "{treatment}"', "one of each treatment")
            )
    if problems:
        raise Problems(problems)
    return Grades(tuple(rows))


def _grade(steel: Any, where: str, file: str, problems: list[Problem]) -> Grade:
    """Return one steel; what is wrong goes to the problems, and something harmless takes its place."""
    if not isinstance(steel, Mapping):
        problems.append(Problem(file, None, where, "this is not a table", "a table [[steel]]"))
        steel = {}
    for key in steel:
        if key not in _KEYS:
            problems.append(Problem(file, None, f"{where}.{key}", "unknown key", "", nearest(str(key), _KEYS)))

    def wrong(key: str, accepted: str) -> None:
        what = "is missing" if key not in steel else "this will not do"
        problems.append(Problem(file, None, f"{where}.{key}", what, accepted))

    texts = {key: steel.get(key) for key in _TEXTS}
    for key, text in texts.items():
        if not isinstance(text, str) or not text:
            wrong(key, "some text")
        elif key == "treatment" and text not in TREATMENTS:
            wrong(key, " or ".join(TREATMENTS))
    if not isinstance(steel.get("ordinary"), bool):
        wrong("ordinary", "true or false")
    values = {key: _value(steel.get(key)) for key in PROPERTIES}
    for key, value in values.items():
        if value is None:
            wrong(key, _VALUE)
    told: dict[str, Any] = {**texts, "ordinary": steel.get("ordinary") is True}
    told |= {key: value or Value(math.nan, "") for key, value in values.items()}
    return Grade(**told)


def _value(given: Any) -> Value | None:
    """Return a value with its source; None where it is not one."""
    if not isinstance(given, Mapping) or set(given) != {"value", "source"}:
        return None
    value, source = given["value"], given["source"]
    number = isinstance(value, int | float) and not isinstance(value, bool)
    if not number or not math.isfinite(value) or value < 0 or not isinstance(source, str) or not source:
        return None
    return Value(float(value), source)
