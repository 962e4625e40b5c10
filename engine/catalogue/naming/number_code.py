"""Metric numbers of type, width series, diameter series and bore: 30208, 32008X, 320/28."""

import re

from engine.catalogue.naming.reading import RECALLED, Limits, Range, Reading
from engine.sources import Citation, Document

DIN_720 = Document("DIN 720", "Rolling bearings - Single row tapered roller bearings", RECALLED)
DIN_623 = Document("DIN 623-1", "Rolling bearings - Designation", RECALLED)
#: Series of tapered roller bearings that are numbered so: type 3, width series, diameter series.
SERIES = ("302", "303", "313", "320", "322", "323", "329", "330", "331", "332")
#: Bore codes below 04 stand for bores of their own [mm]; from 04 to 96 the code times 5 is the bore.
_SMALL_BORES = {"00": 10.0, "01": 12.0, "02": 15.0, "03": 17.0}
_LAST_CODE = 96
_NUMBER = re.compile(
    rf"(?P<series>{'|'.join(SERIES)})(?:(?P<code>[0-9]{{2}})|/(?P<bore>[0-9]{{2,4}}))(?P<suffix>[A-Z]{{0,4}})"
)
_SOURCES = (
    Citation(DIN_720, "series of single row tapered roller bearings"),
    Citation(DIN_623, "basic number: type, dimension series, bore code"),
)
_UNKNOWN = (
    "D, T, B, C and the contact angle: the tables of DIN 720 and ISO 355 give them for each number",
    "load ratings, inner geometry, steel, tolerance class",
    "whether it is meant so at all: a number of five digits may also be that of an inch part",
)


def readings(code: str) -> list[Reading]:
    """Return the reading as a number of a metric series, in capitals; with a slash the bore itself stands behind it."""
    match = _NUMBER.fullmatch(code)
    if match is None:
        return []
    number = match["code"]
    if number is None:
        bore, words, piece = float(match["bore"]), f"bore d {int(match['bore'])} mm", f"/{match['bore']}"
    elif number in _SMALL_BORES:
        bore, piece = _SMALL_BORES[number], number
        words = f"bore code {number}: bore d {bore:g} mm"
    else:
        bore, piece = 5.0 * int(number), number
        words = f"bore code {number}: bore d {number} x 5 = {bore:g} mm"
    if not bore or (number and int(number) > _LAST_CODE):
        return []
    kind, width, diameter = tuple(match["series"])
    parts = [
        (kind, "type 3: tapered roller bearing"),
        (width, f"width series {width}"),
        (diameter, f"diameter series {diameter}"),
        (piece, words),
    ]
    unknown = list(_UNKNOWN if number else _UNKNOWN[:2])
    if match["suffix"]:
        parts.append((match["suffix"], "suffix"))
        unknown.append(f"what the suffix {match['suffix']} stands for")
    limits = Limits(d=Range(bore, bore), system="metric")
    return [Reading("Metric number: series and bore", code, _SOURCES, tuple(parts), tuple(unknown), limits)]
