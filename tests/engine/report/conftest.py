"""Computed records and a result that holds what no chapter makes yet."""

import io
from dataclasses import replace

import pypdf
import pytest

from engine.answers.document import put
from engine.figures import Block, Figure
from engine.record.computed import compute
from engine.record.read import read
from engine.report import full
from engine.report.written import pdf
from tests.house.tree import ROOT

EXAMPLES = sorted((ROOT / "catalogs" / "examples").glob("*.toml"))

#: Invented, and long enough to need their room.
PAPERS_SAID = {
    "customer": "Moorland Peat and Timber Works", "project": "Line 3, log yard", "reference": "MB-0417",
    "revision": "C", "prepared_by": "R. Osei", "checked_by": "T. Lindqvist", "dated": "2026-03-02",
}  # fmt: skip

NEW_BLOCKS = (
    Block(
        "fit_cone", "Cone on the shaft",
        (
            Figure("cone_class", "", "class of the shaft", "", "ISO 286-1", "m6", "k6"),
            Figure("cone_seat_upper", "", "shaft to make, upper limit", "um", "ISO 286-1", 30.0, 18.0),
            Figure("cone_heating", "", "cone slides at", "degC", "Common practice", 87.0, 71.0),
            Figure("cone_smoothing", "", "lost by smoothing", "um", "Common practice", 4.0, 3.0),
        ),
    ),
    Block("setting", "The setting", (Figure("bench", "", "on the bench", "mm", "Statics", 0.061),)),
    Block("grease", "Grease", (Figure("first_fill", "m", "first filling", "g", "Common practice", 41.0, 26.0),)),
    Block("odd_new_thing", "A thing of next year", (Figure("glow", "q", "glow", "lx", "ISO 9999", 12.5, "none"),)),
)  # fmt: skip


#: The example with the most kinds of figures: where printing takes seconds, the others wait for the slow run.
FULLEST = "sawmill_log_conveyor"


@pytest.hookimpl(tryfirst=True)
def pytest_collection_modifyitems(items):
    """Mark as slow what prints a whole report of another example than the fullest."""
    for item in items:
        example = getattr(getattr(item, "callspec", None), "params", {}).get("computed")
        prints = "printed" in getattr(item, "fixturenames", ()) or item.get_closest_marker("prints")
        if prints and example in EXAMPLES and example.stem != FULLEST:
            item.add_marker(pytest.mark.slow)


@pytest.fixture(scope="session", params=EXAMPLES, ids=lambda path: path.stem)
def computed(request):
    """Return an example computed."""
    return compute(read(request.param), str(request.param))


@pytest.fixture(scope="session")
def reported(computed):
    """Return the report of an example: it is not changed by those who write or read it."""
    return full.report(computed)


@pytest.fixture(scope="session")
def filed(computed):
    """Return the report of an example with every field at its head filled in."""
    return full.report(with_papers(computed))


@pytest.fixture(scope="session")
def printed(filed):
    """Return that report as PDF, taken apart: it takes seconds, so that all tests share it."""
    return pypdf.PdfReader(io.BytesIO(pdf.written(filed)))


def with_papers(computed):
    answers = computed.record.answers
    for name, said in PAPERS_SAID.items():
        answers = put(answers, f"choice.{name}", said)
    return replace(computed, record=replace(computed.record, answers=answers))


def with_more(computed):
    """Return a computed record whose result has blocks and a check that are not known to any report."""
    result = computed.result
    check = replace(result.checks[0], key="glow", name="Glow of the rings", utilisation=0.4321, source="ISO 9999")
    checks = (*result.checks, check)
    # in place of the blocks of the same keys that a result has by now
    new = {block.key for block in NEW_BLOCKS} | {f"{block.key}_block" for block in NEW_BLOCKS}
    kept = [block for block in result.blocks if block.key not in new]
    return replace(computed, result=replace(result, blocks=(*kept, *NEW_BLOCKS), checks=checks))


def crowded(computed):
    """Return a computed record with as much for one sheet as there can be: long names, long cautions, many parts."""
    record = replace(computed.record, answers=put(computed.record.answers, "duty.job", "A very long name " * 12))
    long = tuple(f"Caution {number} of many that goes on and on, " + "word after word " * 20 for number in range(30))
    # two bearings a side, each side with parts of its own
    conditions = replace(computed.conditions, resolved=replace(computed.conditions.resolved, locating="A"))
    result = replace(computed.result, cautions=long)
    return replace(computed, record=record, result=result, conditions=conditions)
