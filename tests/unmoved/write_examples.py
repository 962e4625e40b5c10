"""Write the example records, the report of one of them and the schemas anew: python -m tests.unmoved.write_examples.

Read the difference before it is kept: a figure that moved must have a reason.
"""

from dataclasses import replace

from engine.record.computed import compute
from engine.record.read import read
from engine.record.schema import FILES, text_of
from engine.record.write import to_text, write
from engine.report import full
from engine.report.drawn import shaft
from engine.report.drawn.shapes import svg
from engine.report.written import markdown
from tests.house.tree import ROOT

EXAMPLES = ROOT / "catalogs" / "examples"
#: The example whose report stands beside it, so that a reader sees one and can redo it by hand.
UNFOLDED = EXAMPLES / "ropeway_sheave.toml"


def main():
    for path in sorted(EXAMPLES.glob("*.toml")):
        computed = compute(read(path), str(path))
        write(path, to_text(computed.now, computed.result))
    write(UNFOLDED.with_suffix(".md"), unfolded())
    write(UNFOLDED.with_suffix(".svg"), pictured())
    for which, name in FILES.items():
        write(ROOT / "catalogs" / "schema" / name, text_of(which))


def unfolded():
    """Return the report of the unfolded example as Markdown."""
    computed = compute(read(UNFOLDED), str(UNFOLDED))
    return markdown.written(full.report(replace(computed, notes=())))


def pictured():
    """Return the shaft of the unfolded example as a drawing."""
    return svg(shaft.drawing(compute(read(UNFOLDED), str(UNFOLDED)))) + "\n"


if __name__ == "__main__":
    main()
