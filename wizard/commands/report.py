"""`conewright report`: a record as a document for a person: Markdown, HTML or PDF, whole or the fitter's page."""

from __future__ import annotations

import sys
from importlib.util import find_spec
from pathlib import Path
from typing import TYPE_CHECKING

from wizard.commands.output import EXTRA, deliver, ended, refuse_same, stop
from wizard.commands.own.catalog import active
from wizard.exit_codes import Exit

if TYPE_CHECKING:
    from engine.record.document import Record
    from engine.report.parts import Report

_FORMATS = {"--markdown": (".md", ".markdown"), "--html": (".html", ".htm"), "--pdf": (".pdf",)}
#: Endings that say nothing of a form, so that Markdown is written.
_PLAIN = ("", ".txt")
_ENDINGS = "a name that ends in .md, .html or .pdf"
MISSING = (
    f"conewright: a report as PDF needs the extra named pdf: {EXTRA.format(extra='pdf')}\n"
    "(--html and --markdown work without it)"
)


def run(path: Path, options: set[str], output: str | None) -> int:
    """Write the report of a record; raise Problems where the record or the form cannot be used."""
    if output not in (None, "-"):
        refuse_same(Path(output).expanduser(), path)
    form = _form(options, output)
    if form == "--pdf" and output is None and sys.stdout.isatty():
        stop("", "a PDF is not written to a terminal", f"conewright report {path} --pdf -o FILE.pdf")
    if form == "--pdf" and find_spec("fpdf") is None:
        print(MISSING, file=sys.stderr)
        return Exit.BAD_INPUT
    from engine.record.computed import compute
    from engine.record.read import read
    from engine.report import fitter, full

    computed = compute(read(path), str(path), active())
    made = fitter.sheet(computed) if "--fitter" in options else full.report(computed)
    deliver(_written(made, form), output, path)
    return ended(computed.result.passes, computed.record)


def document(record: Record, path: Path, form: str) -> str | bytes:
    """Return a report of a record that lies at a path: html, markdown, pdf or fitter; raise Problems."""
    if form == "pdf" and find_spec("fpdf") is None:
        stop("", "a report as PDF needs the extra named pdf", "HTML or Markdown, which work without it")
    from engine.record.computed import compute
    from engine.report import fitter, full

    computed = compute(record, str(path), active())
    made = fitter.sheet(computed) if form == "fitter" else full.report(computed)
    return _written(made, "--html" if form == "fitter" else f"--{form}")


def _form(options: set[str], output: str | None) -> str:
    """Return the form asked for, else that of the file's name, else Markdown."""
    asked = [form for form in _FORMATS if form in options]
    if len(asked) > 1:
        stop("", f"{' and '.join(asked)} are two forms", "one of them")
    ending = Path(output).suffix.lower() if output else ""
    named = [form for form, endings in _FORMATS.items() if ending in endings]
    if not asked and not named and ending not in _PLAIN:
        stop(output or "", f"ends in {ending}, which is no form of a report", f"{_ENDINGS}, or a form such as --html")
    return (asked or named or ["--markdown"])[0]


def _written(report: Report, form: str) -> str | bytes:
    from engine.report.written import html, markdown, pdf

    if form == "--pdf":
        return pdf.written(report)
    return html.written(report) if form == "--html" else markdown.written(report)
