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
#: On fewer columns a value that moved has its label and its figures on lines of their own, in words.
_ROOM_FOR_COLUMNS = 100
#: So many lines of a kind are printed; the rest is a number, and all of them stand in the JSON.
MOST_LISTED = 200
AT_ODDS = "changed by hand: it does not follow from the other numbers of its check"


def verification_text(found: Verification, file: str, width: int = WIDTH, notes: Sequence[str] = ()) -> str:
    """Return a verification as lines of so many columns: the counts, why, and what moved with both values."""
    lines = _named(f"{plain(file, 90)}: {_verdict(found)}", width)
    if found.compared:
        lines += _wrapped(
            f"{found.compared} values compared: {found.equal} the same to the last bit, {found.rounded} to rounding, "
            f"{len(found.moved)} moved, {len(found.gone)} gone, {len(found.new)} new.", width
        )  # fmt: skip
    lines += _heading("Notes", notes, width)
    lines += _heading("Why", [reason.words for reason in found.reasons], width)
    lines += _moved("Moved", found.moved, ("record", "now"), width)
    lines += _values("In the record, but not computed now", found.gone, width)
    lines += _values("Computed now, but not in the record", found.new, width)
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


def difference_text(found: Difference, files: tuple[str, str], notes: Sequence[str] = (), width: int = WIDTH) -> str:
    """Return a difference as lines of so many columns: answers, choice, figures."""
    lines = [*_named(f"A  {plain(files[0], 110)}", width), *_named(f"B  {plain(files[1], 110)}", width)]
    lines += _heading("Notes", notes, width)
    lines += _heading("Stored results", _stored(found, files), width)
    if found.alike:
        now = " as the records hold them" if found.as_held else "" if found.same else " computed now"
        alike = f"No difference in the answers, nor in {found.compared} values{now}."
        return "\n".join([*lines, "", *_wrapped(alike, width)]) + "\n"
    for title, changes in (("Answers", found.answers), ("Choice", found.choice)):
        lines += _changes(title, changes, width)
    held = ", as the records hold them" if found.as_held else ""
    lines += _moved(f"Figures and checks{held}", found.moved, ("A", "B"), width)
    lines += _values("Only in A", found.gone, width)
    lines += _values("Only in B", found.new, width)
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


def _changes(title: str, changes: Iterable[Changed], width: int) -> list[str]:
    texts = [f"{one.chapter}, {one.label}: {plain(one.before)} -> {plain(one.after)}" for one in changes]
    return _heading(title, texts, width)


def _moved(title: str, moved: Sequence[Moved], sides: tuple[str, str], width: int) -> list[str]:
    if not moved:
        return []
    told = (
        _in_columns(title, moved, sides, width) if width >= _ROOM_FOR_COLUMNS else _in_words(title, moved, sides, width)
    )
    return [*told, *_more(moved)]


def _in_columns(title: str, moved: Sequence[Moved], sides: tuple[str, str], width: int) -> list[str]:
    room = width - 52  # for labels: two values, the change and the unit need the rest
    lines = ["", f"{title:<{room}}{sides[0]:>16}{sides[1]:>16}  {'change':>10}", "-" * width]
    for one in moved[:MOST_LISTED]:
        label = wrap(plain(one.label, 200), room - 2) or [""]
        numbers = f"{_short(one.before):>16}{_short(one.after):>16}  {_change(one):>10}  {one.unit}"
        lines += [f"  {label[0]:<{room - 2}}{numbers}".rstrip(), *(f"    {rest}" for rest in label[1:])]
        if one.at_odds:
            lines.append(f"    {AT_ODDS}")
    return lines


def _in_words(title: str, moved: Sequence[Moved], sides: tuple[str, str], width: int) -> list[str]:
    lines = ["", title]
    for one in moved[:MOST_LISTED]:
        before, after = f"{sides[0]} {_short(one.before)}", f"{sides[1]} {_short(one.after)}"
        numbers = f"{before}, {f'{after} {one.unit}'.rstrip()}" + (f", {_change(one)}" if _change(one) else "")
        lines += _wrapped(plain(one.label, 200), width, "  ", "  ")
        lines += [
            text for said in (numbers, AT_ODDS if one.at_odds else "") for text in _wrapped(said, width, "    ", "    ")
        ]
    return lines


def _change(one: Moved) -> str:
    return "" if math.isnan(one.change) else f"{one.change * 100:+.3g} %"


def _values(title: str, found: Sequence[Value], width: int) -> list[str]:
    texts = [f"{one.label}: {_short(one.value)} {one.unit}".rstrip() for one in found[:MOST_LISTED]]
    return [*_heading(title, texts, width), *_more(found)]


def _more(found: Sequence[object]) -> list[str]:
    return [f"  and {len(found) - MOST_LISTED} more"] if len(found) > MOST_LISTED else []


def _heading(title: str, texts: Iterable[str], width: int) -> list[str]:
    lines = [line for text in texts for line in _wrapped(plain(text, 1000), width, "  ", "    ")]
    return ["", title, *lines] if lines else []


def _named(text: str, width: int) -> list[str]:
    """Return a line with the name of a file: whole, for whoever looks for it there, but on a screen."""
    return [text] if width >= WIDTH else _wrapped(text, width)


def _wrapped(text: str, width: int, first: str = "", rest: str = "   ") -> list[str]:
    # a name of a file is not broken at its hyphens, so that a command can be taken from the screen
    return wrap(text, width, initial_indent=first, subsequent_indent=rest, break_on_hyphens=False)


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
