"""The public face: the examples run as they stand, and what it gives is what a record holds."""

import os
import subprocess
import sys

import pytest

from engine import api
from engine.answers.document import all_asked
from engine.checks import setting
from engine.checks.check import Check
from engine.record.compared.verify import verify
from engine.record.computed import compute
from tests.house.tree import ROOT

EXAMPLES = sorted((ROOT / "catalogs" / "examples").glob("*.py"))
DISTRIBUTED = {one.key for one in vars(setting).values() if isinstance(one, Check)}
RECORD = ROOT / "catalogs" / "examples" / "ropeway_sheave.toml"


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_an_example_runs_from_any_folder(path, tmp_path):
    environ = os.environ | {"PYTHONPATH": str(ROOT)}
    run = subprocess.run(
        [sys.executable, str(path)], cwd=tmp_path, env=environ, capture_output=True, text=True, timeout=300
    )
    assert (run.returncode, run.stderr) == (0, "")
    lines = run.stdout.splitlines()
    assert len(lines) >= 5
    assert len(set(lines)) == len(lines)


def test_a_sweep_takes_ten_lines():
    code = [line for line in (EXAMPLES[-1]).read_text().split('"""')[2].splitlines() if line.strip()]
    imports = [line for line in code if line.startswith(("import", "from"))]
    assert EXAMPLES[-1].stem == "sweep_temperature"
    assert len(code) - len(imports) <= 10


def test_there_are_two_examples_and_everything_public_is_named():
    assert len(EXAMPLES) >= 2
    assert all(hasattr(api, name) for name in api.__all__)


def test_a_hotter_pair_lives_shorter():
    record = api.read(RECORD)
    lives = [
        api.value(
            api.compute(api.answered({"lubrication.temperature": f"{t} degC"}, record.answers)), "pair.Lnmh_system"
        )
        for t in (30, 60, 90)
    ]
    assert lives[0] > lives[1] > lives[2]


def written(figure):
    """Return what equals a figure of the record, which another kind of processor may have computed."""
    return pytest.approx(figure, rel=1e-9, nan_ok=True) if isinstance(figure, float) else figure


def test_what_it_computes_is_what_a_record_holds(tmp_path):
    pair = api.compute(api.read(RECORD), file=str(RECORD))
    assert verify(pair).holds
    for figure in pair.record.found["figures"]:
        if "pair" in figure:
            assert api.value(pair, figure["key"]) == written(figure["pair"])
        else:
            assert api.value(pair, figure["key"]) == written(figure["a"])
            assert api.value(pair, figure["key"], "B") == written(figure["b"])
    for check in pair.record.found["checks"]:
        assert api.utilisation(pair, advisory=True)[check["key"], check["side"]] == written(check["utilisation"])
    path = tmp_path / "copy.toml"
    api.write(path, pair)
    assert verify(compute(api.read(path), str(path))).holds


def test_the_shortlist_is_ordered_and_its_pairs_pass():
    answers = api.read(RECORD).answers
    listed = api.shortlist(answers, "mass", 5)
    masses = []
    for pair in listed:
        made = api.compute(answers, pair)
        assert (made.result.bearing_A, made.result.bearing_B) == pair
        # a search does not ask the load distribution: that a pair fails by it is said once it is computed
        closed = {check: used for check, used in api.utilisation(made).items() if check[0] not in DISTRIBUTED}
        assert max(closed.values()) <= 1.0
        masses.append(api.value(made, "bearings.mass") + api.value(made, "bearings.mass", "B"))
    assert masses == sorted(masses) and len(masses) == 5


def test_every_question_is_listed_and_can_be_opened_again():
    listed = api.questions()
    record = api.read(RECORD)
    for item in all_asked(record.answers, every=True):
        assert listed[item.path.replace(f"[{item.item}]", "[0]") if item.listed else item.path] == item.question.label
    opened = api.answered({"duty.life": ""}, record.answers)
    assert opened.duty.life is None
    assert record.answers.duty.life is not None


def test_what_is_wrong_comes_at_once_with_the_nearest_key():
    with pytest.raises(api.Problems) as raised:
        api.answered({"duty.lief": "1 h", "duty.life": "red", "duty.cases[5000].speed": "1"})
    found = {problem.field: problem for problem in raised.value.problems}
    assert found["duty.lief"].nearest == "duty.life"
    assert found["duty.life"].accepted
    assert "too many" in found["duty.cases[5000].speed"].wrong
    pair = api.compute(api.read(RECORD))
    with pytest.raises(KeyError, match=r"pair\.s0"):
        api.value(pair, "pair.s00")
    with pytest.raises(api.Problems, match="bearing_a"):
        api.compute(api.read(RECORD), ("no", "such"))


def test_a_list_grows_to_the_item_that_is_named():
    answers = api.answered({"duty.cases[2].speed": "5 rpm"})
    assert [case.speed and case.speed.value for case in answers.duty.cases] == [None, None, 5.0]
