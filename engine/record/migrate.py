"""Older records to today's layout, one small step a version, plain table to plain table."""

from collections.abc import Callable
from typing import Any

#: From the first number of a schema version to the step that leads to the next. Version 1 is the first ever written.
STEPS: dict[int, Callable[[dict[str, Any]], dict[str, Any]]] = {}


def migrate(tables: dict[str, Any], major: int, wanted: int) -> dict[str, Any]:
    """Return the tables brought from one major version to another."""
    for version in range(major, wanted):
        tables = STEPS[version](tables)
    return tables
