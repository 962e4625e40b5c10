"""A report as one HTML file that needs nothing else: its style within it, its drawings as SVG, no script."""

import re
from collections.abc import Iterator
from html import escape

from engine.report.drawn.shapes import TALLEST, svg
from engine.report.parts import Cell, Formula, Items, Part, Pictures, Report, Table, Text
from engine.report.written.head import contents, places

_STYLE = """\
@page { size: A4; margin: 16mm 14mm 18mm;
  @bottom-right { content: counter(page) " of " counter(pages); font: 8pt Helvetica, Arial, sans-serif; } }
* { box-sizing: border-box; }
body { font: 10pt/1.4 Helvetica, Arial, sans-serif; color: #1a1a1a; background: #fff; max-width: 190mm;
  margin: 0 auto; padding: 8mm; }
h1 { font-size: 17pt; margin: 0 0 1mm; }
h2 { font-size: 12pt; margin: 7mm 0 2mm; border-bottom: 0.3mm solid #1a1a1a; break-after: avoid; }
p { margin: 0 0 2mm; }
a { color: inherit; }
.papers { display: grid; grid-template-columns: 1fr 1fr; gap: 0 6mm; margin: 2mm 0; font-size: 8.5pt; }
.papers div { display: flex; border-bottom: 0.1mm solid #888; padding: 0.6mm 0; }
.papers dt { flex: 0 0 32mm; color: #444; }
.papers dd { margin: 0; min-height: 1.4em; overflow-wrap: anywhere; }
nav { margin: 3mm 0; font-size: 8.5pt; }
nav p { margin: 0 0 0.8mm; padding-left: 22mm; text-indent: -22mm; }
nav strong { display: inline-block; width: 22mm; text-indent: 0; }
nav a { text-decoration: none; }
ul { margin: 0 0 2mm; padding-left: 5mm; }
table { border-collapse: collapse; width: 100%; margin: 0 0 3mm; font-size: 8.5pt; }
th, td { text-align: left; vertical-align: top; padding: 0.6mm 1.6mm; border-bottom: 0.1mm solid #ccc;
  overflow-wrap: anywhere; }
th { border-bottom: 0.3mm solid #888; overflow-wrap: normal; }
thead { display: table-header-group; }
tr { break-inside: avoid; }
td.s, th { white-space: nowrap; overflow-wrap: normal; }
.formula { break-inside: avoid; margin: 0 0 3mm; font-size: 8.5pt; }
.formula p { margin: 0; }
.formula pre { margin: 0.6mm 0 0.6mm 4mm; white-space: pre-wrap;
  font: 8.5pt/1.35 "DejaVu Sans Mono", Courier, monospace; }
td.n, th.n { text-align: right; white-space: nowrap; font-variant-numeric: tabular-nums; overflow-wrap: normal; }
figure { margin: 0 0 4mm; break-inside: avoid; display: flex; flex-wrap: wrap; gap: 2mm; }
figure svg { max-width: 100%; height: auto; }
figcaption, caption { font-size: 8pt; color: #444; text-align: left; width: 100%; }
caption { caption-side: bottom; padding: 0.6mm 0; }
.passes { color: #2c5f2c; } .near { color: #7a5a00; } .fails { color: #9c2a20; font-weight: bold; }
.caution { color: #7a5a00; }
p.passes, p.fails, p.near { font-size: 12pt; font-weight: bold; }
footer { margin-top: 8mm; padding-top: 2mm; border-top: 0.3mm solid #888; font-size: 8pt; color: #444; }
body.one { font-size: 8pt; line-height: 1.22; padding: 4mm; }
body.one h1 { font-size: 14pt; }
body.one h2 { margin: 1.8mm 0 0.6mm; font-size: 9.5pt; }
body.one p, body.one ul { margin-bottom: 0.6mm; }
body.one table { margin-bottom: 0.8mm; font-size: 7.5pt; }
body.one caption { font-size: 7pt; padding: 0.2mm 0; }
body.one th, body.one td { padding-top: 0.3mm; padding-bottom: 0.3mm; }
body.one figure { margin: 0; display: block; text-align: center; }
body.one figure svg { max-height: 38mm; width: auto; }
body.one footer { margin-top: 2mm; padding-top: 1mm; font-size: 7pt; }
@media print { body { padding: 0; max-width: none; } body.one { padding: 0; }
  body.whole table, body.whole .formula, body.whole .formula pre { font-size: 7.8pt; } }
"""

#: No drawing is printed higher than a page has room for.
_PRINTED = f"@media print {{ body.whole figure svg {{ max-height: {TALLEST:g}mm; }} }}\n"

#: A sheet of one page uses more of it.
_OF_ONE = "@page { size: A4; margin: 9mm 12mm; }\n@media print { body.one { zoom: 0.87; } }\n"

#: A word of a table up to this length is never broken.
_SHORT = 11
_WORD = re.compile("[A-Za-z]{3}")


def written(report: Report) -> str:
    """Return the report as one HTML file."""
    title = escape(report.title)
    lines = [
        "<!DOCTYPE html>", '<html lang="en">', "<head>", '<meta charset="utf-8">',
        '<meta name="viewport" content="width=device-width, initial-scale=1">', f"<title>{title}</title>",
        f"<style>\n{_STYLE}{_OF_ONE if report.one_page else _PRINTED}</style>", "</head>",
        f'<body class="{"one" if report.one_page else "whole"}">',
        "<header>", f"<h1>{title}</h1>", f"<p>{escape(report.subtitle)}</p>", *_papers(report), "</header>",
        *(_contents(report) if report.papers else ()), "<main>",
    ]  # fmt: skip
    for section, place in zip(report.sections, places(report.sections), strict=True):
        lines += [f'<section id="{escape(place)}">', f"<h2>{escape(section.title)}</h2>"]
        for part in section.parts:
            lines += _part(part)
        lines.append("</section>")
    lines += ["</main>", f"<footer>{escape(report.foot)}</footer>", "</body>", "</html>"]
    return "\n".join(lines) + "\n"


def _papers(report: Report) -> Iterator[str]:
    """Yield the fields at the head; an empty one is a line to write on."""
    if report.papers:
        yield '<dl class="papers">'
        yield from (f"<div><dt>{escape(name)}</dt><dd>{escape(said)}</dd></div>" for name, said in report.papers)
        yield "</dl>"


def _contents(report: Report) -> Iterator[str]:
    yield '<nav aria-label="Contents">'
    for group, listed in contents(report.sections):
        links = " &#183; ".join(f'<a href="#{escape(place)}">{escape(words)}</a>' for words, place in listed)
        yield f"<p><strong>{escape(group)}</strong> {links}</p>"
    yield "</nav>"


def _part(part: Part) -> Iterator[str]:
    if isinstance(part, Text):
        yield f"<p{_class(part.state)}>{escape(part.words)}</p>"
    elif isinstance(part, Items):
        yield "<ul>"
        yield from (f"<li>{escape(words)}</li>" for words in part.words)
        yield "</ul>"
    elif isinstance(part, Pictures):
        yield "<figure>"
        yield from (svg(one) for one in part.drawings)
        if part.caption:
            yield f"<figcaption>{escape(part.caption)}</figcaption>"
        yield "</figure>"
    elif isinstance(part, Formula):
        lines = escape("\n".join(part.lines))
        yield f'<div class="formula"><p>{escape(part.head)}</p><pre>{lines}</pre><p>{escape(part.symbols)}</p></div>'
    else:
        yield from _table(part)


def _table(table: Table) -> Iterator[str]:
    yield "<table>"
    if table.caption:
        yield f"<caption>{escape(table.caption)}</caption>"
    heads = (
        f"<th{_class('n' if at in table.numbers else '')}>{escape(head)}</th>" for at, head in enumerate(table.head)
    )
    yield f"<thead><tr>{''.join(heads)}</tr></thead>"
    yield "<tbody>"
    for cells in table.rows:
        yield f"<tr>{''.join(_cell(cell, at in table.numbers) for at, cell in enumerate(cells))}</tr>"
    yield "</tbody>"
    yield "</table>"


def _cell(cell: Cell, number: bool) -> str:
    # words among numbers may be long, so that they must be free to break
    of_words = " " in cell.text and _WORD.search(cell.text) is not None
    plainly = number and len(cell.text) <= 16 and not of_words
    short = not number and len(cell.text) <= _SHORT
    names = " ".join(name for name in ("n" if plainly else "", "s" if short else "", cell.state) if name)
    key = f' data-key="{escape(cell.key)}"' if cell.key else ""
    return f"<td{_class(names)}{key}>{escape(cell.text)}</td>"


def _class(name: str) -> str:
    return f' class="{name}"' if name else ""
