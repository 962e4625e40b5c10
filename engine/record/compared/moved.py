"""What moved between a record as it was written and the same answers computed now."""

from engine.record.document import Record, readable
from engine.record.result import Result

#: Relative change of a utilisation that counts as moved; another processor may round the last digits otherwise.
ROUNDING = 1e-9


def moved(record: Record, result: Result) -> list[str]:
    """Return one sentence for each stored check that is no longer what is computed, or that is new or gone."""
    stored = {(check.key, check.side): check.utilisation for check in record.stored}
    if not stored:
        return []
    now = {(check.key, check.side): check.utilisation for check in result.checks}
    found = [
        f"{key} of {side}: the record says {readable(before, 6)}, computed now it is {readable(now[key, side], 6)}"
        for (key, side), before in stored.items()
        if (key, side) in now and _differ(before, now[key, side])
    ]
    found += [
        f"{key} of {side} stands in the record but is no longer checked"
        for key, side in stored
        if (key, side) not in now
    ]
    found += [
        f"{key} of {side} is checked now but does not stand in the record"
        for key, side in now
        if (key, side) not in stored
    ]
    return found


def _differ(before: float, after: float) -> bool:
    if before != before or after != after:
        return (before == before) != (after == after)
    # against the smaller of both, since any distance is small beside an infinite one
    return before != after and abs(before - after) > ROUNDING * min(abs(before), abs(after))
