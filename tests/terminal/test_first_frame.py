"""What a process has loaded by the time that its first frame has gone to the terminal."""

import pytest

from tests.terminal.line import Line

pytestmark = pytest.mark.terminal

#: Notes what is loaded once the first whole frame was handed to the terminal, before the wizard does anything else.
WATCHED = """
import os, sys
from wizard import cli, terminal

prepare = terminal.prepare

def prepared(environ, can):
    prepare(environ, can)
    from wizard import framework
    display = framework.OneQueue._display

    def displayed(app, screen, update):
        display(app, screen, update)
        if app.shown._lines and not noted:
            noted.extend(sorted(sys.modules))
            with open(sys.argv[1] + ".part", "w") as file:
                file.write(" ".join(noted))
            os.replace(sys.argv[1] + ".part", sys.argv[1])

    framework.OneQueue._display = displayed

noted = []
terminal.prepare = prepared
sys.exit(cli.main(sys.argv[2:]))
"""
#: Whatever computes or draws curves, ours and others'.
HEAVY = (
    "numpy", "scipy", "matplotlib", "plotext", "textual_plotext", "textual_plot", "plotly", "PIL",
    "engine.catalogue", "engine.operating", "engine.rating", "engine.selection", "engine.distribution",
    "wizard.search", "wizard.studies", "wizard.widgets.plot", "wizard.screens.views", "wizard.screens.onshaft",
)  # fmt: skip
STARTS = {"a record": (["r.toml"], "q quit"), "no name": ([], "Esc new session"), "the example": (["demo"], "q quit")}


@pytest.mark.parametrize("start", STARTS)
def test_the_first_frame_is_painted_with_nothing_loaded_that_computes_or_plots(tmp_path, home, start):
    words, seen = STARTS[start]
    note = tmp_path / "loaded"
    with Line(note, *words, program=("-c", WATCHED), folder=tmp_path) as line:
        line.until_sees(seen)
        line.until(note.exists, "what is loaded")
        if start != "no name":
            line.until_sees("pairs remain")  # and behind that frame the search has begun
    loaded = note.read_text().split()
    assert {"textual.app", "wizard.screens.chapter"} <= set(loaded)
    assert [name for name in loaded if name.startswith(HEAVY)] == []
    assert home
