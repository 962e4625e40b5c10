"""The fitter's sheet: what weighs most comes first, no word is cut, and every seat says how its ring goes on."""

from dataclasses import replace

import pytest

from engine.report import fitter
from engine.report.parts import Items
from engine.seat.mounting import HEATING_LIMIT


def minded(computed):
    (section,) = [one for one in fitter.sheet(computed).sections if one.title == "Mind"]
    return [words for part in section.parts if isinstance(part, Items) for words in part.words]


def test_creep_and_heat_come_before_all_else_and_none_of_them_is_left_out(computed):
    said = minded(computed)
    weak = [check.name for check in computed.result.checks if check.key.startswith("creep") and not check.passes]
    assert weak
    at = [next(place for place, one in enumerate(said) if one.startswith(name)) for name in weak]
    limits = [place for place, one in enumerate(said) if "metric limits" in one]
    assert all(place < min([*limits, 4]) for place in at)


def test_heat_that_does_not_settle_comes_first(computed):
    heat = "Temperature at A, full load: it does not settle"
    filled = (*(f"Filler {at} of the list" for at in range(20)), heat)
    checks = tuple(check for check in computed.result.checks if check.passes)
    odd = replace(computed, result=replace(computed.result, cautions=filled, checks=checks))
    said = minded(odd)
    assert said[0] == heat
    assert said[-1] == f"and {21 - fitter.MOST_LINES} more in the report"


def test_long_cautions_take_the_lines_of_more_short_ones(computed):
    long = " ".join(["word"] * 32)
    assert fitter.A_LINE < len(long) < fitter.LONGEST
    result = replace(computed.result, cautions=tuple(f"{long} {at}" for at in range(30)))
    assert len(minded(replace(computed, result=result))) == fitter.MOST_LINES // 2 + 1


def test_no_word_of_a_caution_is_cut(computed):
    words = [f"caution{at}" for at in range(60)]
    for text in (" ".join(words), " ".join(words[:12])):
        (said,) = minded(replace(computed, result=replace(computed.result, cautions=(text,))))
        kept = said.removesuffix(" ...").split()
        assert kept == words[: len(kept)] and len(said) <= fitter.LONGEST
        assert said.endswith(" ...") == (len(kept) < len(text.split()))
    assert not any(one.endswith("...") for one in minded(computed))


def test_the_state_counts_the_cautions_of_the_sheet(computed):
    said = minded(computed)
    more = int(said[-1].split()[1]) - 1 if said[-1].endswith("more in the report") else 0
    words = f"The pair passes every check that rules out; {len(said) + more} cautions, see Mind."
    assert fitter.sheet(computed).subtitle == words
    calm = replace(
        computed,
        result=replace(computed.result, cautions=(), checks=tuple(c for c in computed.result.checks if c.passes)),
    )
    assert fitter.sheet(calm).subtitle == "The pair passes every check."


@pytest.mark.parametrize(
    ("heating", "how"),
    [(20.0, "by hand"), (20.5, "pressed, or housing heated"), (HEATING_LIMIT + 0.1, "pressed"), (float("nan"), "-")],
)
def test_every_seat_says_how_its_ring_goes_on(computed, heating, how):
    def with_heating(figure):
        return replace(figure, A=heating) if figure.key == "cup_heating" else figure

    blocks = tuple(replace(block, figures=tuple(map(with_heating, block.figures))) for block in computed.result.blocks)
    sheet = fitter.sheet(replace(computed, result=replace(computed.result, blocks=blocks)))
    rows = {cells[0].text: [cell.text for cell in cells[1:]] for table in sheet.tables() for cells in table.rows}
    assert rows["how it goes on"][2] == how
    own = {
        cells[0].text: [cell.text for cell in cells[1:]] for t in fitter.sheet(computed).tables() for cells in t.rows
    }
    assert "-" not in own["how it goes on"]
