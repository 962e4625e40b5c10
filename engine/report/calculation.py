"""A computed record as text for a person or JSON for a machine."""

import json
from collections.abc import Sized
from dataclasses import replace
from textwrap import wrap

from engine import __version__
from engine.answers.document import all_asked
from engine.errors import plain
from engine.figures import Figure
from engine.record.document import NOTICE, SCHEMA, Record, readable, shown, to_tables
from engine.record.result import CheckRow, Result
from engine.report.compared import finite

#: A clause in full needs the room: the widest paper or terminal that is common.
WIDTH = 120


def as_json(record: Record, result: Result, notes: list[str]) -> str:
    """Return everything of the record and its result as JSON; figures without a finite value are words."""
    tables = to_tables(replace(record, engine=__version__), result) | {"schema": SCHEMA, "notes": notes}
    tables["unused"] = [{"key": one.field, "line": one.line, "nearest": one.nearest} for one in record.unused.listed]
    return json.dumps(finite(tables), indent=2, ensure_ascii=True, allow_nan=False, default=str) + "\n"


def as_text(record: Record, result: Result, notes: list[str]) -> str:
    """Return the calculation as lines of at most 120 columns; only names can hold more than ASCII."""
    lines = [f"Conewright {__version__}   {plain(record.answers.duty.job or 'design calculation', 90)}", ""]
    lines += [f"A  {plain(result.bearing_A, 90)}", f"B  {plain(result.bearing_B, 90)}", ""]
    heard = [f"Mind: {one}" for one in result.of_duty]
    lines += _section("Verdict", [verdict_sentence(result, record.unused), *heard])
    lines += _section("Notes", notes)
    lines += ["Checks" + " " * 36 + "demand   capacity  unit      use", "-" * WIDTH]
    lines += [_check(check) for check in result.checks]
    lines.append("")
    for block in result.blocks:
        lines += [f"{plain(block.title, 56):<58}{'A':>12}{'B':>12}", "-" * WIDTH]
        lines += [_figure(figure) for figure in block.figures]
        lines.append("")
    lines += _section("Answered", [f"{item.number:<5} {item.question.label}: {item.question.show(item.value)}"
                                   for item in all_asked(record.answers) if item.value is not None])  # fmt: skip
    lines += _section("Which steel", list(result.steels))
    lines += _section("Mind", [*record.unused.cautions, *(one for one in result.cautions if one not in result.of_duty)])
    lines += _section("Still missing", list(result.missing))
    lines += _section("Assumed", list(result.assumptions))
    lines += _section("Notice", [NOTICE])
    return "\n".join(line.rstrip() for line in lines).rstrip() + "\n"


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


def _section(title: str, texts: list[str]) -> list[str]:
    if not texts:
        return []
    wrapped = [line for text in texts for line in wrap(plain(text, 2000), WIDTH - 2, subsequent_indent="  ")]
    return [title, *(f"  {line}" for line in wrapped), ""]


def _check(check: CheckRow) -> str:
    word = "NOT JUDGED" if not check.judged else "ok" if check.passes else ("MIND" if check.advisory else "FAILS")
    name = f"{check.name}, {check.side}"
    numbers = f"{readable(check.demand):>10} {readable(check.capacity):>10}  {check.unit:<7}"
    return _sourced(f"  {name:<36}{numbers} {readable(check.utilisation, 3):>7}  {word:<5} ", check.source)


def _figure(figure: Figure) -> str:
    name = plain(f"{figure.symbol:<7} {figure.name}", 55)
    if isinstance(figure.A, str) and figure.of_pair:  # a word of the pair may be long: it runs over both columns
        line = f"  {name:<56}  {plain(figure.A, 200):<29}  "
        if len(line) <= 2 + 56 + 2 + 29 + 2:
            return _sourced(line, figure.source)
        return "\n".join([*wrap(line.rstrip(), WIDTH, subsequent_indent=" " * 60), _sourced(" " * 91, figure.source)])
    values = shown(figure, "A"), shown(figure, "B")
    numbers = "".join(f"{plain(value, 12):>12}" for value in values)
    return _sourced(f"  {name:<56}{numbers}  {figure.unit:<7}", figure.source)


def _sourced(line: str, source: str) -> str:
    """Return a line with its source at the end, on as many lines as the source needs."""
    first, *more = wrap(source, WIDTH - len(line), break_on_hyphens=False) or [""]
    return "\n".join([line + first, *(" " * len(line) + rest for rest in more)])
