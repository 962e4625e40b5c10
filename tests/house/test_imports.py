"""The map of the house: who may import whom (a contract), and what start-up really loads (a run)."""

import subprocess
import sys

import pytest

from tests.house.tree import ROOT


def test_the_import_contracts_are_kept():
    words = [sys.executable, "-c", "from importlinter.cli import lint_imports_command; lint_imports_command()"]
    run = subprocess.run([*words, "--no-cache"], cwd=ROOT, capture_output=True, text=True, timeout=120)
    assert run.returncode == 0, run.stdout + run.stderr
    assert "5 kept, 0 broken" in run.stdout


def loaded_by(code: str, cwd=ROOT) -> set[str]:
    """Return the modules that a fresh interpreter has loaded once it has run some code."""
    report = "import sys; print('loaded:', *sorted(sys.modules))"
    run = subprocess.run(
        [sys.executable, "-c", f"{code}\n{report}"], cwd=cwd, capture_output=True, text=True, timeout=120
    )
    assert run.returncode == 0, run.stderr
    return set(run.stdout.rpartition("loaded:")[2].split())


# what is imported, and what must not come with it
STARTS = [
    ("import wizard.cli", {"textual", "rich", "numpy", "msgspec", "scipy", "tomli_w"}),
    ("import wizard.terminal", {"textual", "rich", "numpy", "msgspec", "scipy"}),
    ("import wizard.keys, wizard.wording, wizard.glyphs", {"textual", "rich", "numpy", "scipy"}),
    ("import wizard.session, wizard.commands.open_session", {"textual", "rich", "numpy", "scipy"}),
    ("import wizard.app", {"numpy", "scipy", "engine.catalogue", "engine.operating", "engine.rating"}),
    ("import engine.answers.document, engine.answers.plain, engine.answers.resolved", {"numpy", "textual", "rich"}),
    ("import engine.record.read, engine.record.write", {"numpy", "textual", "rich"}),
    ("import engine.units, engine.errors, engine.sources", {"numpy", "msgspec", "textual", "rich"}),
]


@pytest.mark.parametrize(("code", "unwanted"), STARTS, ids=[code for code, _ in STARTS])
def test_start_up_leaves_out(code, unwanted):
    loaded = loaded_by(code)
    assert not unwanted & loaded
    assert code.split()[1].rstrip(",") in loaded  # the run did load what it was asked to load


def test_calc_runs_without_a_screen():
    record = ROOT / "tests" / "records" / "v1_0_minimal.toml"
    loaded = loaded_by(f"from wizard.cli import main\nassert main(['calc', {str(record)!r}]) in (0, 1)")
    assert not {"textual", "rich", "scipy"} & loaded
    assert {"numpy", "engine.record.result"} <= loaded


def test_a_wrong_command_line_is_answered_without_loading_anything_large():
    loaded = loaded_by("from wizard.cli import main\nassert main(['--nonsense']) == 2")
    assert not {"textual", "rich", "numpy", "msgspec"} & loaded
