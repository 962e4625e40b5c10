"""A report as Markdown with pipe tables; drawings are named, since Markdown holds none."""

import re
from collections.abc import Iterator

from engine.report.parts import Formula, Items, Part, Pictures, Report, Table, Text
from engine.report.written.head import contents

#: What Markdown would take for a mark of its own, anywhere in a line.
_MARKS = re.compile(r"([\\`*_\[\]<>|~])")
#: What it would take so at the beginning of a line.
_LEADING = re.compile(r"^(\s*)([-+#>]|\d+[.)])")


def written(report: Report) -> str:
    """Return the report as Markdown."""
    lines = [f"# {_escaped(report.title)}", "", _escaped(report.subtitle), ""]
    if report.papers:
        lines += [_row(("document", "")), "|---|---|", *(_row(one) for one in report.papers), ""]
        lines += [*_contents(report), ""]
    for section in report.sections:
        lines += [f"## {_escaped(section.title)}", ""]
        for part in section.parts:
            lines += [*_part(part), ""]
    return "\n".join([*lines, "---", "", _escaped(report.foot)]) + "\n"


def _contents(report: Report) -> Iterator[str]:
    for group, listed in contents(report.sections):
        yield f"- {_escaped(group)}: " + ", ".join(f"[{_escaped(words)}](#{place})" for words, place in listed)


def _part(part: Part) -> Iterator[str]:
    if isinstance(part, Text):
        yield f"**{_escaped(part.words)}**" if part.state else _paragraph(part.words)
    elif isinstance(part, Items):
        yield from (f"- {_paragraph(words)}" for words in part.words)
    elif isinstance(part, Pictures):
        yield from (f"Drawing in the HTML and PDF report: {_escaped(one.title)}." for one in part.drawings)
    elif isinstance(part, Formula):
        yield from (_paragraph(part.head), "", *(f"    {line}" for line in part.lines), "", _paragraph(part.symbols))
    else:
        yield from _table(part)


def _table(table: Table) -> Iterator[str]:
    yield _row(table.head)
    yield "|" + "|".join("---:" if at in table.numbers else "---" for at in range(len(table.head))) + "|"
    yield from (_row([cell.text for cell in cells]) for cells in table.rows)
    if table.caption:
        yield ""
        yield _paragraph(table.caption)


def _row(texts: tuple[str, ...] | list[str]) -> str:
    return "| " + " | ".join(_escaped(text) for text in texts) + " |"


def _escaped(text: str) -> str:
    return _MARKS.sub(r"\\\1", " ".join(text.split()))


def _paragraph(text: str) -> str:
    return _LEADING.sub(r"\1\\\2", _escaped(text))
