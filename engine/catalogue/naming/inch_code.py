"""The numbering of the inch standard, by class, angle, series and part, and the old numbers before it."""

import math
import re

from engine.catalogue.naming import number_code
from engine.catalogue.naming.reading import ANY, RECALLED, Limits, Range, Reading
from engine.sources import Citation, Document

INCH_STANDARD = Document("ANSI/ABMA 19.2", "Tapered roller bearings - Radial inch design", RECALLED)
INCH = 25.4
#: Duty classes, lightest first.
DUTY_CLASSES = {
    "EL": "extra light", "LL": "between extra light and light", "L": "light", "LM": "light to medium", "M": "medium",
    "HM": "medium to heavy", "H": "heavy", "HH": "between heavy and extra heavy", "EH": "extra heavy", "T": "thrust",
}  # fmt: skip
#: Included angle of the cup [deg] by the first digit, "from" the first and "under" the second; 2 alpha.
INCLUDED_ANGLES = {
    "1": (0.0, 24.0), "2": (24.0, 25.5), "3": (25.5, 27.0), "4": (27.0, 28.5), "5": (28.5, 30.5), "6": (30.5, 32.5),
    "7": (32.5, 36.0), "8": (36.0, 45.0), "9": (45.0, math.inf),
}  # fmt: skip
#: Bores [in] by the digits of the series, as far as the table is recalled: count of digits, first, last, from, to.
SERIES_BORES = (
    (2, 0, 19, 0, 1), (2, 20, 99, 1, 2), (3, 0, 29, 2, 3), (3, 30, 129, 3, 4), (3, 130, 189, 4, 5),
    (3, 190, 239, 5, 6),
)  # fmt: skip
_INCH = re.compile(
    r"(?P<duty>EL|LL|LM|L|M|HM|HH|H|EH|T)?(?P<angle>[0-9])(?P<series>[0-9]{1,3})(?P<part>[0-9]{2})(?P<suffix>[A-Z]{0,4})"
)
_OLD_INCH = re.compile(r"[0-9]{3,5}")
_INCH_SOURCES = (Citation(INCH_STANDARD, "numbering: class, angle, series, part"),)
_INCH_UNKNOWN = (
    "the bore itself, D, the widths, the roller set and the load ratings: only the printed sizes of the part give them",
    "on which side a bore of whole inches counts, and whether every cone of the series keeps to its range",
)


def readings(code: str) -> list[Reading]:
    """Return the reading as a numbered part: class, angle, series and part, in capitals."""
    match = _INCH.fullmatch(code)
    # without its class letters a number of three or four digits says too little to be taken for one of these
    if match is None or not (match["duty"] or len(match["series"]) > 1):
        return []
    if not match["duty"] and number_code.readings(code):
        # nothing speaks for this numbering where a metric number stands
        return []
    duty, unknown = match["duty"], list(_INCH_UNKNOWN)
    d, bore_words = _series_bore(match["series"])
    alpha, angle_words = _included_angle(match["angle"])
    part_words, part_known = _component(match["part"])
    parts = [(duty, f"duty class {DUTY_CLASSES[duty]}")] if duty else []
    parts += [(match["angle"], angle_words), (match["series"], bore_words), (match["part"], part_words)]
    if not duty:
        unknown.insert(0, "whether it follows this numbering at all: the class letters are missing")
    if not d.limits:
        unknown.append(f"the bore range of series {match['series']}")
    if not part_known:
        unknown.append(f"whether part {match['part']} is a cone or a cup")
    if match["suffix"]:
        parts.append((match["suffix"], "modification"))
        unknown.append(f"what the modification {match['suffix']} is: the letters have no published meaning")
    # the catalogue holds radial bearings only, so a thrust bearing is not sought by its bore
    thrust = duty == "T" or match["angle"] == "0"
    limits = Limits(system="inch") if thrust else Limits(d=d, alpha=alpha, system="inch")
    return [Reading("Inch standard numbering", code, _INCH_SOURCES, tuple(parts), tuple(unknown), limits)]


def _series_bore(digits: str) -> tuple[Range, str]:
    number = int(digits)
    for count, first, last, low, high in SERIES_BORES:
        if count == len(digits) and first <= number <= last:
            return Range(low * INCH, high * INCH), f"series {digits}: bore {low} to {high} in"
    if len(digits) == 3:
        return Range(6 * INCH), f"series {digits}: beyond the table as recalled, which ends with 239 at 6 in"
    return ANY, f"series {digits}: one digit, not in the table as recalled"


def _included_angle(digit: str) -> tuple[Range, str]:
    if digit == "0":
        return ANY, "thrust bearing, no angle fixed"
    low, high = INCLUDED_ANGLES[digit]
    # both limits a billionth of a degree down: an angle on one must not fall short of it by its last binary digit
    alpha = Range(math.radians(low / 2 - 1e-9), math.radians(high / 2 - 1e-9), high_in=False)
    return alpha, f"included angle of the cup {Range(low, high, high_in=False).text('deg')}, twice the contact angle"


def _component(digits: str) -> tuple[str, bool]:
    number = int(digits)
    if 10 <= number <= 19:
        return f"part {digits}: a cup (10 to 19)", True
    if 30 <= number <= 49:
        return f"part {digits}: a cone (30 to 49)", True
    return f"part {digits}: outside the cups 10 to 19 and the cones 30 to 49", False


def old_readings(code: str) -> list[Reading]:
    """Return the reading as a number that may be from before the numbering, which tells nothing."""
    if _OLD_INCH.fullmatch(code) is None or number_code.readings(code):
        return []
    parts = ((code, "perhaps an inch part numbered before the numbering by class, angle and series"),)
    unknown = (
        "whether it is one: the digits do not tell it",
        "bore, outside diameter, widths, contact angle, cone or cup: the digits carry none of them",
    )
    return [Reading("Old inch number", code, _INCH_SOURCES, parts, unknown, Limits(system="inch"))]
