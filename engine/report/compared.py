"""What verifying a record or comparing two of them came to: as lines for a person, as tables for a machine."""

from __future__ import annotations

import json
import math
from collections.abc import Iterable, Iterator, Sequence
from textwrap import wrap
from typing import TYPE_CHECKING, Any

from engine.errors import plain
from engine.record.compared.difference import Changed, Difference
from engine.record.compared.stored import Value
from engine.record.compared.verify import Moved, Verification, verify
from engine.record.document import readable

if TYPE_CHECKING:
    from engine.record.computed import Computed

WIDTH = 120
#: So many lines of a kind are printed; the rest is a number, and all of them stand in the JSON.
MOST_LISTED = 200


def verification_text(found: Verification, file: str) -> str:
    """Return a verification as lines: the counts, why, and what moved with both values."""
    lines = [f"{plain(file, 90)}: {_verdict(found)}"]
    if found.compared:
        lines.append(
            f"{found.compared} values compared: {found.equal} the same to the last bit, {found.rounded} to rounding, "
            f"{len(found.moved)} moved, {len(found.gone)} gone, {len(found.new)} new."
        )
    lines += _heading("Why", [reason.words for reason in found.reasons])
    lines += _moved("Moved", found.moved, ("record", "now"))
    lines += _values("In the record, but not computed now", found.gone)
    lines += _values("Computed now, but not in the record", found.new)
    return "\n".join(lines) + "\n"


def _verdict(found: Verification) -> str:
    if not found.compared and not found.gone:
        return "holds no result to verify"
    return "VERIFIED, it says what is computed now" if found.holds else "NOT verified"


def verification_json(found: Verification, file: str) -> str:
    """Return a verification as JSON."""
    return _json({
        "record": file, "verified": found.holds, "compared": found.compared, "equal": found.equal,
        "rounded": found.rounded,
        "reasons": _reasons(found),
        "moved": [_moved_row(one) for one in found.moved],
        "gone": [_value_row(one) for one in found.gone],
        "new": [_value_row(one) for one in found.new],
    })  # fmt: skip


def difference_text(found: Difference, files: tuple[str, str], notes: Sequence[str] = ()) -> str:
    """Return a difference as lines: answers, choice, figures."""
    lines = [f"A  {plain(files[0], 110)}", f"B  {plain(files[1], 110)}"]
    lines += _heading("Notes", notes)
    lines += _heading("Stored results", _stored(found, files))
    if found.alike:
        now = " as the records hold them" if found.as_held else "" if found.same else " computed now"
        return "\n".join([*lines, "", f"No difference in the answers, nor in {found.compared} values{now}."]) + "\n"
    for title, changes in (("Answers", found.answers), ("Choice", found.choice)):
        lines += _changes(title, changes)
    held = ", as the records hold them" if found.as_held else ""
    lines += _moved(f"Figures and checks{held}", found.moved, ("A", "B"))
    lines += _values("Only in A", found.gone)
    lines += _values("Only in B", found.new)
    return "\n".join(lines) + "\n"


def _stored(found: Difference, files: tuple[str, str]) -> Iterator[str]:
    """Yield what is to be said of the results that two records hold: another version, and that one does not verify."""
    for name, file, held in zip("AB", files, found.stored, strict=True):
        if name in found.unproved:
            yield f"{name}: its stored result cannot be computed again, so that nothing says that it holds"
        if held is None:
            continue
        yield from (f"{name}: {reason.words}" for reason in held.reasons if reason.kind == "engine")
        if not held.holds:
            shown = "why" if not held.differ else "it" if held.differ == 1 else "them"
            yield f"{name}: {unverified(held)}; conewright verify {plain(file, 200)} shows {shown}"


def unverified(held: Verification) -> str:
    """Return in words that a stored result is not what is computed now."""
    if held.differ:
        return f"its stored figures do not verify: {held.differ} differ{'s' if held.differ == 1 else ''}"
    return "its stored result does not verify, though no figure differs"


def stored_caution(computed: Computed) -> str:
    """Return what a reader of a report must know where the record holds another result than is computed; else ""."""
    held = verify(computed) if computed.record.found else None
    if held is None or held.holds:
        return ""
    reasons = " ".join(reason.words for reason in held.reasons)
    return f"The record is not what is computed now, which stands here: {unverified(held)}. {reasons}"


def difference_json(found: Difference, files: tuple[str, str], notes: Sequence[str] = ()) -> str:
    """Return a difference as JSON."""
    return _json({
        "a": files[0], "b": files[1], "same": found.same, "notes": list(notes), "compared": found.compared,
        "as_held": found.as_held, "unproved": list(found.unproved),
        "stored": [
            {"record": file, "verified": held.holds, "differ": held.differ, "reasons": _reasons(held)}
            for file, held in zip(files, found.stored, strict=True)
            if held is not None
        ],
        "answers": [vars(one) for one in found.answers], "choice": [vars(one) for one in found.choice],
        "figures": [_moved_row(one) for one in found.moved],
        "only_a": [_value_row(one) for one in found.gone], "only_b": [_value_row(one) for one in found.new],
    })  # fmt: skip


def _changes(title: str, changes: Iterable[Changed]) -> list[str]:
    texts = [f"{one.chapter}, {one.label}: {plain(one.before)} -> {plain(one.after)}" for one in changes]
    return _heading(title, texts)


def _moved(title: str, moved: Sequence[Moved], sides: tuple[str, str]) -> list[str]:
    if not moved:
        return []
    lines = ["", f"{title:<68}{sides[0]:>16}{sides[1]:>16}  {'change':>10}", "-" * WIDTH]
    for one in moved[:MOST_LISTED]:
        label = wrap(plain(one.label, 200), 66) or [""]
        change = "" if math.isnan(one.change) else f"{one.change * 100:+.3g} %"
        numbers = f"{_short(one.before):>16}{_short(one.after):>16}  {change:>10}  {one.unit}"
        lines += [f"  {label[0]:<66}{numbers}".rstrip(), *(f"    {rest}" for rest in label[1:])]
        if one.at_odds:
            lines.append("    changed by hand: it does not follow from the other numbers of its check")
    return [*lines, *_more(moved)]


def _values(title: str, found: Sequence[Value]) -> list[str]:
    lines = _heading(title, [f"{one.label}: {_short(one.value)} {one.unit}".rstrip() for one in found[:MOST_LISTED]])
    return [*lines, *_more(found)]


def _more(found: Sequence[object]) -> list[str]:
    return [f"  and {len(found) - MOST_LISTED} more"] if len(found) > MOST_LISTED else []


def _heading(title: str, texts: Iterable[str]) -> list[str]:
    # a name of a file is not broken at its hyphens, so that a command can be taken from the screen
    wrapped = (wrap(plain(text, 1000), WIDTH - 2, subsequent_indent="  ", break_on_hyphens=False) for text in texts)
    lines = [f"  {line}" for text in wrapped for line in text]
    return ["", title, *lines] if lines else []


def _short(value: Any) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, int | float):
        return readable(float(value), 7)
    return plain(value, 60)


def _reasons(found: Verification) -> list[dict[str, str]]:
    return [{"kind": reason.kind, "words": reason.words} for reason in found.reasons]


def _moved_row(one: Moved) -> dict[str, Any]:
    return {"key": one.key, "label": one.label, "before": one.before, "after": one.after, "unit": one.unit,
            "change": one.change, "why": one.why}  # fmt: skip


def _value_row(one: Value) -> dict[str, Any]:
    return {"key": one.key, "label": one.label, "value": one.value, "unit": one.unit}


def _json(tables: dict[str, Any]) -> str:
    return json.dumps(finite(tables), indent=2, ensure_ascii=True, allow_nan=False, default=str) + "\n"


def finite(value: Any) -> Any:
    """Return tables in which figures without a finite value are words, since JSON knows no others."""
    if isinstance(value, dict):
        return {key: finite(item) for key, item in value.items()}
    if isinstance(value, list | tuple):
        return [finite(item) for item in value]
    if isinstance(value, float) and not math.isfinite(value):
        return readable(value)
    return value
