"""From what a plant engineer knows (filter, seals, breather, air, or an oil analysis) to a level of cleanliness.

Every step is kept with the words it came from, so that it can be shown; all of them but the codes and filters of
ISO 281 Annex A are common practice, no source.
"""

import re
from dataclasses import dataclass

from engine.lubrication.lubricant import ANNEX_KINDS
from engine.sources import COMMON_PRACTICE, ISO_281, ISO_4406, cited

#: Cleanliness from best to worst, common to the three kinds of supply.
LEVELS = ("high", "normal", "slight", "severe", "very_severe")
#: ISO 4406 numbers for 6 and 14 um of each line of Annex A, from clean to dirty; "circulating" ends one earlier.
CODES = ((13, 10), (15, 12), (17, 14), (19, 16), (21, 18))
#: Filters by the size that they hold back: the line of A.4 that names them, and the line that is left off line.
FILTERS = {"fine_6": 0, "medium_12": 1, "coarse_25": 2, "screen_40": 3}
FILTER_WORDS = {
    "fine_6": "filter beta 6(c) >= 200",
    "medium_12": "filter beta 12(c) >= 200",
    "coarse_25": "filter beta 25(c) >= 75",
    "screen_40": "filter beta 40(c) >= 75",
    "none": "no filter",
}
#: How far each opening lets the air in: 0 tight, 1 partly, 2 open.
SEALS = {"contact": 0, "lip": 0, "gap": 1, "worn": 2, "none": 2}
BREATHERS = {"closed": 0, "filtered": 0, "plain": 1, "open": 2}
#: What is in the air: 0 clean to 3 abrasive.
AIR = {"clean": 0, "workshop": 1, "dusty": 2, "abrasive": 3}
_CODE = re.compile(r"(?:(?:\d{1,2}|-|\*)/)?(\d{1,2})/(\d{1,2})", re.ASCII)


@dataclass(frozen=True)
class Step:
    """One step from words to a level: what was said, the level after it, and why."""

    said: str
    level: str
    why: str


@dataclass(frozen=True)
class Reasoned:
    """A level of cleanliness with the steps that led to it."""

    level: str
    steps: tuple[Step, ...]


@cited(ISO_4406, "three numbers for particles of 4, 6 and 14 um")
def numbers_of_code(code: str) -> tuple[int, int] | None:
    """Numbers for 6 and 14 um of a cleanliness code.

    "18/15/12" or "-/15/12" or "15/12": the last two numbers

    Parameters (a text)
    ----------
    code : a code as laboratories print it [-]

    Returns
    -------
    numbers for 6 and 14 um, or None where the text is no code [-]

    Valid for numbers up to 28, the second not above the first.

    Source: ISO 4406, three numbers for particles of 4, 6 and 14 um; recalled.
    """
    found = _CODE.fullmatch(code.strip())
    if found is None:
        return None
    six, fourteen = int(found[1]), int(found[2])
    return (six, fourteen) if fourteen <= six <= 28 else None


@cited(ISO_281, "Annex A, cleanliness codes")
def level_of_code(supply: str, six: int, fourteen: int) -> str:
    """Level whose line of Annex A an oil of this code reaches, rounded to the dirtier line.

    -/13/10 high, -/15/12 normal, -/17/14 slight, -/19/16 severe, -/21/18 or dirtier very severe

    Parameters (whole numbers)
    ----------
    supply : circulating or bath; for grease, whose lines have no code, as for bath [-]
    six : number of the code for 6 um [-]
    fourteen : number of the code for 14 um [-]

    Returns
    -------
    level, one of LEVELS [-]

    Valid for any numbers; rounding to the dirtier line is common practice, no source. An oil dirtier than the last
    line counts as that line with an oil bath, and as e_C = 0 with circulating oil.

    Source: ISO 281:2007, Annex A, cleanliness codes; recalled.
    """
    del supply  # the lines of A.4 and A.5 carry the same codes
    for level, (most_six, most_fourteen) in zip(LEVELS, CODES, strict=True):
        if six <= most_six and fourteen <= most_fourteen:
            return level
    return LEVELS[-1]


@cited(COMMON_PRACTICE, "filter, seals, breather and air to a level of cleanliness")
def level_in_words(supply: str, filtered: str, seals: str, breather: str, air: str) -> Reasoned:
    """Level of cleanliness of a bearing from its filter, seals and breather and what is in the air.

    start: the filter's line of Annex A, without one that of the coarsest filter, normal for grease; then one line
    dirtier for each step by which max(seals, breather) + air exceeds 2, one step fewer with a filter in the line

    Parameters (words)
    ----------
    supply : circulating, bath or grease; jet counts as circulating, mist as bath [-]
    filtered : one of FILTER_WORDS; not looked at for grease [-]
    seals : one of SEALS [-]
    breather : one of BREATHERS; not looked at for grease [-]
    air : one of AIR [-]

    Returns
    -------
    level and the steps that led to it [-]

    Valid as a first estimate; an oil analysis by ISO 4406 is better.

    Source: Common practice, filter, seals, breather and air to a level of cleanliness; no source.
    """
    supply = ANNEX_KINDS[supply]
    at, first = _start(supply, filtered, seals)
    steps = [first]
    gap = SEALS[seals] if supply == "grease" else max(SEALS[seals], BREATHERS[breather])
    dirtier = max(0, gap + AIR[air] - 2)
    openings = f"{seals} seals" if supply == "grease" else f"{seals} seals, {breather} breather"
    at = min(at + dirtier, len(LEVELS) - 1)
    steps.append(Step(f"{openings}, {air} air", LEVELS[at], _lines(dirtier, "dirtier")))
    if supply == "circulating" and filtered != "none" and dirtier:
        at -= 1
        steps.append(Step("the oil passes the filter on each turn", LEVELS[at], _lines(1, "cleaner")))
    return Reasoned(LEVELS[at], tuple(steps))


def _start(supply: str, filtered: str, seals: str) -> tuple[int, Step]:
    if supply == "grease":
        at = 0 if seals == "contact" else 1
        why = "greased for life behind its own seals" if at == 0 else "clean grease, greased in place"
        return at, Step("fresh grease", LEVELS[at], f"{why}; common practice, no source")
    clause = "A.4" if supply == "circulating" else "A.5"
    if filtered == "none":
        # fresh oil is cleaner than that, but wear stays in it: to take a filter out must never count as cleaner
        at = max(FILTERS.values())
        six, fourteen = CODES[at]
        why = f"not cleaner than behind the coarsest filter, -/{six}/{fourteen} of ISO 281 {clause}; "
        return at, Step("no filter", LEVELS[at], f"{why}common practice, no source")
    at = FILTERS[filtered]
    six, fourteen = CODES[at]
    where = "in the line" if supply == "circulating" else "off line"
    why = f"-/{six}/{fourteen}, ISO 281 {clause}"
    return at, Step(f"{FILTER_WORDS[filtered]} {where}", LEVELS[at], why)


def _lines(count: int, way: str) -> str:
    if count == 0:
        return "keeps the level; common practice, no source"
    return f"{count} {'level' if count == 1 else 'levels'} {way}; common practice, no source"
