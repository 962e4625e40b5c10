"""What a session can be written as, beside its record: the reports, the record as JSON, its shortlist as CSV."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from wizard.commands.output import stop
from wizard.commands.own.catalog import active

if TYPE_CHECKING:
    from engine.record.document import Record

#: What follows the record's own name, by the form.
_ENDINGS = {
    "html": ".html", "markdown": ".md", "pdf": ".pdf", "fitter": "-fitter.html", "json": ".json",
    "csv": "-shortlist.csv",
}  # fmt: skip


def beside(record: Record, path: Path, form: str, folder: Path) -> Path:
    """Write a document of a record that lies at a path into a folder, under a name that is free; return the file.

    `form` is html, markdown, pdf, fitter, json or csv. Raises Problems where the record cannot be computed, OSError
    where the file cannot be written.
    """
    from engine.record.write import write

    content = _content(record, path, form)
    stem, dot, ending = f"{path.stem}{_ENDINGS[form]}".rpartition(".")
    names = (folder / f"{stem}{number}{dot}{ending}" for number in ("", *(f"-{at}" for at in range(2, 1000))))
    target = next((one for one in names if not one.exists()), None)
    if target is None:
        stop(stem, "stands here a thousand times already", "a folder without them")
    write(target, content)
    return target


def _content(record: Record, path: Path, form: str) -> str | bytes:
    if form == "json":
        from engine.report import calculation
        from wizard.commands import calc

        return calculation.as_json(record, *calc.compute(record, str(path)))
    if form == "csv":
        from engine.record.many.listed import listed
        from wizard.commands import batch

        pieces: list[str] = []
        batch.written(listed(record, str(path), active()), False, pieces.append)
        return "".join(pieces)
    from wizard.commands import report

    return report.document(record, path, form)
