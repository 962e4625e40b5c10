"""The names in the list of lubricants alone: what a form offers before anything is computed."""

import functools
import tomllib
from importlib.resources import files


@functools.cache
def builtin_forms() -> dict[str, str]:
    """Return whether each lubricant that comes with the program is an oil or a grease, by name, in the list's order."""
    text = files("catalogs").joinpath("lubricants.toml").read_text(encoding="utf-8")
    return {str(entry["name"]): str(entry["form"]) for entry in tomllib.loads(text)["lubricant"]}


def builtin_names() -> tuple[str, ...]:
    """Return the names of the lubricants that come with the program, in the order of the list."""
    return tuple(builtin_forms())
