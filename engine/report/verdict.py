"""The verdict in words, the same in the calculation, the report and the fitter's sheet."""

from __future__ import annotations

from collections.abc import Sized
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from engine.record.result import Result


def verdict_sentence(result: Result, unused: Sized = ()) -> str:
    """Return the verdict in words; keys of the record that were not used stand in it, whatever it is."""
    count = len(unused)
    keys = "" if not count else f"; {count} {'key' if count == 1 else 'keys'} of the record NOT USED, see below"
    return _verdict(result) + keys


def _verdict(result: Result) -> str:
    failing = [f"{check.name} ({check.side})" for check in result.checks if not check.passes and not check.advisory]
    if failing:
        return "The pair FAILS: " + ", ".join(failing)
    if result.missing:
        return "The duty is INCOMPLETE; only checks that need no loads were made"
    return f"The pair PASSES {what_passed(result)}{minded(len(result.cautions))}"


def what_passed(result: Result) -> str:
    """Return which checks a pair that passes has passed: not those that could not be judged, nor those that caution."""
    named = ", ".join(f"{check.name} ({check.side})" for check in result.not_judged)
    cautioned = any(check.advisory and not check.passes for check in result.checks)
    those = [*(["rules out"] if cautioned else []), *(["could be judged"] if named else [])]
    return (
        "every check" + (f" that {' and '.join(those)}" if those else "") + (f"; not judged: {named}" if named else "")
    )


def minded(count: int) -> str:
    """Return how many cautions there are, and where; nothing where there are none."""
    return f"; {count} {'caution' if count == 1 else 'cautions'}, see Mind" if count else ""
