"""What a designation says, by the open standards and by the catalogue's own scheme, and what it leaves open.

A text may have several readings; all are given. A reading states only what its rules fix: where the rules are silent
or recalled in part, it says what cannot be concluded. No maker's numbering is read.
"""

import math
import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np

from engine.catalogue.dimension_series import ANGLE_LIMITS, DIAMETER_LIMITS, WIDTH_LIMITS
from engine.errors import Problem, nearest, plain
from engine.numerics import Array, Bools
from engine.sources import ISO_355, Citation, Document
from engine.units import number_text

_RECALLED = "recalled, to be verified against the standard"
ISO_10317 = Document("ISO 10317", "Rolling bearings - Tapered roller bearings - Designation system", _RECALLED)
INCH_STANDARD = Document("ANSI/ABMA 19.2", "Tapered roller bearings - Radial inch design", _RECALLED)
OWN_SCHEME = Document("Own scheme", "Names of the invented catalogue that comes with the program", "defined here")

INCH = 25.4
#: Longer texts are not looked at: the longest name that a catalogue may hold.
LONGEST = 60
ACCEPTED = (
    "a dimension series with or without T and bore (T4CB120, 4CB120, 4CB), an inch code (class, angle, series, part), "
    "an inch number of 3 to 5 digits, or a name of the catalogue (V050-3DB-C, V050-3DB-C.i, Q112.1+6, Q112.6)"
)


@dataclass(frozen=True)
class Range:
    """Values from `low` to `high`; whether each limit itself belongs to it is said apart."""

    low: float = -math.inf
    high: float = math.inf
    low_in: bool = True
    high_in: bool = True

    def contains(self, values: Array) -> Bools:
        """Return which values lie inside; those that are not known (NaN) lie inside only where nothing is limited."""
        values = np.asarray(values, dtype=np.float64)
        above = values >= self.low if self.low_in else values > self.low
        below = values <= self.high if self.high_in else values < self.high
        return (above & below) | (not self.limits)

    @property
    def limits(self) -> bool:
        """Whether there is a limit at all."""
        return math.isfinite(self.low) or math.isfinite(self.high)

    def text(self, unit: str, scale: float = 1.0) -> str:
        """Return it in words: 'over 80 to 83.5 mm'; every number is divided by the scale."""
        low, high = (number_text(value / scale, 5) for value in (self.low, self.high))
        if self.low == self.high:
            return f"{low} {unit}"
        if not math.isfinite(self.high):
            return f"{'' if self.low_in else 'over '}{low} {unit}{' or more' if self.low_in else ''}"
        return f"{'' if self.low_in else 'over '}{low} {'to' if self.high_in else 'to under'} {high} {unit}"


ANY = Range()


@dataclass(frozen=True)
class Limits:
    """What a reading fixes: d, D, T [mm] and alpha [rad], and names that a row must carry ("" where it fixes none).

    `dimension_series` is an ISO 355 series, whole or in its first signs; `series` a series of the catalogue; `name` an
    assembly, cone or cup.
    """

    d: Range = ANY
    D: Range = ANY
    T: Range = ANY
    alpha: Range = ANY
    dimension_series: str = ""
    series: str = ""
    system: str = ""
    name: str = ""

    @property
    def limits(self) -> bool:
        """Whether a row of the catalogue can be sought by anything but its system."""
        named = self.dimension_series or self.series or self.name
        return bool(named) or any(one.limits for one in (self.d, self.D, self.T, self.alpha))


@dataclass(frozen=True)
class Reading:
    """One way to read a designation: `parts` holds (piece of the text, what it means), `unknown` what stays open."""

    title: str
    text: str
    sources: tuple[Citation, ...]
    parts: tuple[tuple[str, str], ...]
    unknown: tuple[str, ...]
    limits: Limits = field(default_factory=Limits)


def decode(text: str) -> list[Reading]:
    """Return every reading of a designation, none where no rule fits; any text is safe to give."""
    code = "".join(text.split()) if len(text) <= 2 * LONGEST else ""
    # digits and letters of other scripts change under upper() and pass for digits; no code holds them
    if not code or len(code) > LONGEST or not code.isascii():
        return []
    return [reading for read in _READERS for reading in read(code.upper())]


def refusal(text: str, names: Sequence[str] = ()) -> Problem:
    """Return why a text has no reading: what is accepted, and the nearest of the names."""
    word = text.strip()
    wrong = f'"{plain(word, LONGEST)}" is no designation that can be read here' if word else "the designation is empty"
    return Problem("", None, "", wrong, ACCEPTED, closest(word, names) if word else "")


def closest(word: str, names: Sequence[str]) -> str:
    """Return the name that differs from a word in one sign, a slip of the keyboard, else the one spelled most like it.

    Among names spelled equally alike a numbering wants the one that agrees in every other place.
    """
    upper = word.upper()
    slips = [
        name
        for name in names
        if len(name) == len(upper) and sum(one != other for one, other in zip(name.upper(), upper, strict=True)) == 1
    ]
    return min(slips, default="") or nearest(word, names)


# --- ISO 355 dimension series, in the designation of ISO 10317

_METRIC = re.compile(r"(?P<prefix>T?)(?P<angle>[1-7])(?P<diameter>[A-G])(?P<width>[A-E])(?P<bore>[0-9]{2,4})?")
_SERIES_SOURCES = (
    Citation(ISO_10317, "designation: prefix T, dimension series, bore in mm"),
    Citation(ISO_355, "dimension series"),
)
_SERIES_UNKNOWN = (
    "B, C, the corner radii and the exact D and T inside their classes: the tables of ISO 355 give them",
    "load ratings, inner geometry, steel, tolerance class",
)


def _metric(code: str) -> list[Reading]:
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


# --- the numbering of the inch standard

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


def _inch(code: str) -> list[Reading]:
    match = _INCH.fullmatch(code)
    # without its class letters a number of three or four digits says too little to be taken for one of these
    if match is None or not (match["duty"] or len(match["series"]) > 1):
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


def _old_inch(code: str) -> list[Reading]:
    if _OLD_INCH.fullmatch(code) is None:
        return []
    parts = ((code, "number of a part with inch dimensions, given before the numbering by class, angle and series"),)
    unknown = ("bore, outside diameter, widths, contact angle, cone or cup: the digits carry none of them",)
    return [Reading("Old inch number", code, _INCH_SOURCES, parts, unknown, Limits(system="inch"))]


# --- the catalogue's own names

_OWN_METRIC = re.compile(
    r"V(?P<bore>[0-9]{3,4})-(?P<series>[1-7][A-G][A-E])-(?P<execution>[A-Z][A-Z0-9]{0,2})(?P<ring>\.[IO])?"
)
_OWN_INCH = re.compile(r"(?P<series>Q[0-9]{3,4})\.(?P<one>[0-9]{1,2})(?:\+(?P<other>[0-9]{1,2}))?")
_RINGS = {".I": ("cone", ".i"), ".O": ("cup", ".o")}
_STEELS = {"C": "rings case-hardened", "T": "rings through-hardened"}
#: Cones of an inch series count from 1, cups from this number.
FIRST_CUP = 6
_OWN_SOURCES = (Citation(OWN_SCHEME, "names of parts and assemblies"),)


def _own_metric(code: str) -> list[Reading]:
    match = _OWN_METRIC.fullmatch(code)
    if match is None or int(match["bore"]) == 0:
        return []
    ring, suffix = _RINGS.get(match["ring"] or "", ("assembly", ""))
    name = f"V{match['bore']}-{match['series']}-{match['execution']}{suffix}"
    execution = match["execution"]
    parts = [
        ("V", "metric, of the invented range"),
        (match["bore"], f"bore d {int(match['bore'])} mm"),
        (match["series"], "ISO 355 dimension series"),
        (execution, _STEELS.get(execution[0], "execution, not described by the scheme")),
    ]
    parts += [(suffix, f"the {ring} alone")] if suffix else []
    unknown = ["load ratings and exact sizes: the row of the catalogue gives them"]
    unknown += [f"what {execution[1:]} after the steel letter is"] if len(execution) > 1 else []
    limits = Limits(d=Range(float(match["bore"]), float(match["bore"])), system="metric", name=name)
    own = Reading(f"Own scheme, metric {ring}", name, _OWN_SOURCES, tuple(parts), tuple(unknown), limits)
    return [own, *_metric(f"T{match['series']}{match['bore']}")]


def _own_inch(code: str) -> list[Reading]:
    match = _OWN_INCH.fullmatch(code)
    if match is None:
        return []
    one, other = match["one"], match["other"]
    cone = int(one) < FIRST_CUP
    if other is not None and (not cone or int(other) < FIRST_CUP):
        return []
    parts = [(match["series"], "inch series of the invented range: any of its cones fits any of its cups")]
    parts += [(f".{one}", f"cone {one}" if cone else f"cup {one}")]
    parts += [(f"+{other}", f"cup {other}")] if other is not None else []
    ring = "assembly, cone first" if other is not None else "cone" if cone else "cup"
    unknown = ("bore, sizes and ratings: the name carries none, the row of the catalogue gives them",)
    limits = Limits(series=match["series"], system="inch", name=code)
    return [Reading(f"Own scheme, inch {ring}", code, _OWN_SOURCES, tuple(parts), unknown, limits)]


_READERS: tuple[Callable[[str], list[Reading]], ...] = (_own_metric, _own_inch, _metric, _old_inch, _inch)
