"""ISO 355 dimension series, in the designation of ISO 10317: T4CB120."""

import math
import re
from collections.abc import Mapping

from engine.catalogue.dimension_series import ANGLE_LIMITS, DIAMETER_LIMITS, WIDTH_LIMITS
from engine.catalogue.naming.reading import ANY, RECALLED, Limits, Range, Reading
from engine.sources import ISO_355, Citation, Document
from engine.units import number_text

ISO_10317 = Document("ISO 10317", "Rolling bearings - Tapered roller bearings - Designation system", RECALLED)
_METRIC = re.compile(r"(?P<prefix>T?)(?P<angle>[1-7])(?P<diameter>[A-G])(?P<width>[A-E])(?P<bore>[0-9]{2,4})?")
_SERIES_SOURCES = (
    Citation(ISO_10317, "designation: prefix T, dimension series, bore in mm"),
    Citation(ISO_355, "dimension series"),
)
_SERIES_UNKNOWN = (
    "B, C, the corner radii and the exact D and T inside their classes: the tables of ISO 355 give them",
    "load ratings, inner geometry, steel, tolerance class",
)


def readings(code: str) -> list[Reading]:
    """Return the reading as a dimension series, with or without prefix and bore, in capitals."""
    match = _METRIC.fullmatch(code)
    if match is None:
        return []
    bore = float(match["bore"] or "nan")
    if bore == 0:
        return []
    limits = series_limits(match["angle"] + match["diameter"] + match["width"], bore)
    parts = [(match["prefix"], "tapered roller bearing")] if match["prefix"] else []
    parts += [
        (match["angle"], f"angle series {match['angle']}: contact angle {_angle_words(match['angle'])}"),
        (match["diameter"], _class_words("diameter", "D/d^0.77", match, DIAMETER_LIMITS, limits.D)),
        (match["width"], _class_words("width", "T/(D-d)^0.95", match, WIDTH_LIMITS, limits.T)),
    ]
    parts += [(match["bore"], f"bore d {number_text(bore)} mm")] if match["bore"] else []
    unknown = _SERIES_UNKNOWN if match["bore"] else ("the bore, and with it every size in mm", *_SERIES_UNKNOWN)
    title = "ISO 355 dimension series" + (" and bore" if match["bore"] else "")
    return [Reading(title, code, _SERIES_SOURCES, tuple(parts), unknown, limits)]


def series_limits(series: str, bore: float) -> Limits:
    """Return what an ISO 355 dimension series fixes for a bore [mm]; a NaN bore leaves the sizes open."""
    d = D = T = ANY
    if bore == bore:
        d = Range(bore, bore)
        low, high = (limit * bore**0.77 for limit in DIAMETER_LIMITS.get(series[1], (0.0, math.inf)))
        # no limits for a reserved letter; D is over d in any case
        D = Range(max(low, bore), high, low_in=False)
        lowest, highest = WIDTH_LIMITS.get(series[2], (0.0, math.inf))
        T = Range(lowest * (D.low - bore) ** 0.95, highest * (D.high - bore) ** 0.95, low_in=False)
        T = T if math.isfinite(T.high) else ANY
    alpha = ANY
    if series[0] in ANGLE_LIMITS:
        (low, low_minutes), (high, high_minutes) = ANGLE_LIMITS[series[0]]
        # both limits a billionth of a degree up: an angle on one must not pass it by its last binary digit
        ends = math.radians(low + low_minutes / 60 + 1e-9), math.radians(high + high_minutes / 60 + 1e-9)
        alpha = Range(*ends, low_in=False)
    return Limits(d, D, T, alpha, dimension_series=series, system="metric")


def _angle_words(digit: str) -> str:
    if digit not in ANGLE_LIMITS:
        return "reserved, no angle fixed"
    low, high = (f"{degrees} deg {minutes:02d}'" for degrees, minutes in ANGLE_LIMITS[digit])
    return f"over {low} to {high}"


def _class_words(
    kind: str, ratio: str, match: re.Match[str], classes: Mapping[str, tuple[float, float]], size: Range
) -> str:
    letter = match[kind]
    if letter not in classes:
        return f"{kind} series {letter}: reserved, no limits fixed"
    low, high = classes[letter]
    sizes = f", so {ratio[0]} is {size.text('mm')}" if math.isfinite(size.high) else ""
    return f"{kind} series {letter}: {ratio} over {low:.2f} to {high:.2f}{sizes}"
