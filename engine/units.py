"""Values as an engineer types them ("2 1/2 in", "4.5 kN", "180 degF") to engine units, and back.

Plain Python on purpose: the first screen needs it before numpy is loaded. Conversion factors are exact by definition
(international inch and pound, standard gravity) unless a comment says otherwise.
"""

import re
from dataclasses import dataclass, field
from fractions import Fraction


class UnitError(ValueError):
    """What was typed cannot be read; carries what was wrong and what is accepted."""

    def __init__(self, wrong: str, accepted: str) -> None:
        super().__init__(f"{wrong}; accepted: {accepted}")
        self.wrong = wrong
        self.accepted = accepted


@dataclass(frozen=True)
class Dimension:
    """A kind of quantity: its engine unit, the spellings it accepts, and an example that is always readable.

    `units` maps a spelling to (factor, offset): engine value = factor * typed + offset.
    """

    name: str
    unit: str
    example: str
    units: dict[str, tuple[Fraction | float, Fraction | float]] = field(repr=False)
    suffix: str = ""  # how the unit is spelled in a record's key

    def spellings(self) -> str:
        """Return the unit spellings for a message, most usual first."""
        return ", ".join(self.units)


def _scales(**factors: Fraction | float | int | str) -> dict[str, tuple[Fraction | float, Fraction | float]]:
    return {
        name: (factor if isinstance(factor, float) else Fraction(factor), Fraction(0))
        for name, factor in factors.items()
    }


_INCH = Fraction("25.4")
_POUND = Fraction("0.45359237")
_GRAVITY = Fraction("9.80665")
_PI = 3.141592653589793

LENGTH = Dimension(
    "length",
    "mm",
    "60 mm or 2 1/2 in",
    _scales(mm=1, cm=10, m=1000, um="0.001", inch=_INCH, thou="0.0254", ft=_INCH * 12)
    | {"in": (_INCH, Fraction(0)), '"': (_INCH, Fraction(0))},
    "mm",
)
FORCE = Dimension(
    "force",
    "N",
    "4500 N, 4.5 kN or 450 lbf",
    _scales(N=1, kN=1000, MN=10**6, daN=10, lbf=_POUND * _GRAVITY, kgf=_GRAVITY, kip=_POUND * _GRAVITY * 1000),
    "N",
)
TEMPERATURE = Dimension(
    "temperature",
    "degC",
    "80 degC or 180 degF",
    {
        "degC": (Fraction(1), Fraction(0)),
        "C": (Fraction(1), Fraction(0)),
        "degF": (Fraction(5, 9), Fraction(-160, 9)),
        "F": (Fraction(5, 9), Fraction(-160, 9)),
        "K": (Fraction(1), Fraction("-273.15")),
    },
    "degC",
)
ROTATION = Dimension(
    "speed",
    "rpm",
    "1450 rpm or 24 rev/s",
    _scales(rpm=1, Hz=60)
    | {
        "1/min": (Fraction(1), Fraction(0)),
        "r/min": (Fraction(1), Fraction(0)),
        "rev/min": (Fraction(1), Fraction(0)),
        "rev/s": (Fraction(60), Fraction(0)),
        "rad/s": (30 / _PI, Fraction(0)),
    },
    "rpm",
)
TIME = Dimension(
    "time",
    "h",
    "20000 h or 3 yr",
    _scales(h=1, hours=1, min=Fraction(1, 60), s=Fraction(1, 3600), d=24, days=24, wk=168, yr=8760, years=8760),
    "h",
)
VISCOSITY = Dimension(
    "viscosity",
    "mm2/s",
    "100 mm2/s or 100 cSt",
    _scales(cSt=1, St=100) | {"mm2/s": (Fraction(1), Fraction(0)), "m2/s": (Fraction(10**6), Fraction(0))},
    "mm2_per_s",
)
MASS = Dimension("mass", "kg", "12 kg or 25 lb", _scales(kg=1, g="0.001", t=1000, lb=_POUND, oz=_POUND / 16), "kg")
ANGLE = Dimension(
    "angle",
    "deg",
    "20 deg or 0.35 rad",
    _scales(deg=1, rad=180 / _PI, min=Fraction(1, 60)),
    "deg",
)
TORQUE = Dimension(
    "torque",
    "N m",
    "250 N m or 2200 lbf in",
    # blanks in a unit are passed over, so "N m" is read as well
    _scales(
        Nm=1,
        Nmm=Fraction(1, 1000),
        kNm=1000,
        lbfin=_POUND * _GRAVITY * _INCH / 1000,
        lbfft=_POUND * _GRAVITY * _INCH * 12 / 1000,
    ),
    "Nm",
)
# the mechanical horsepower of 550 ft lbf/s, and the metric one of 75 m kgf/s
POWER = Dimension(
    "power",
    "kW",
    "15 kW or 20 hp",
    _scales(
        kW=1, W=Fraction(1, 1000), MW=1000, hp=550 * 12 * _INCH * _POUND * _GRAVITY / 10**6, PS=75 * _GRAVITY / 1000
    ),
    "kW",
)
PRESSURE = Dimension(
    "pressure",
    "MPa",
    "0.6 MPa, 6 bar or 90 psi",
    _scales(MPa=1, GPa=1000, kPa=Fraction(1, 1000), bar=Fraction(1, 10))
    | {"psi": (_POUND * _GRAVITY / _INCH**2, Fraction(0)), "N/mm2": (Fraction(1), Fraction(0))},
    "MPa",
)
AREA = Dimension("area", "m2", "0.3 m2 or 500 in2",
    _scales(m2=1, cm2="0.0001", mm2="0.000001", in2=_INCH**2 / 10**6, ft2=(_INCH * 12) ** 2 / 10**6), "m2")  # fmt: skip
VELOCITY = Dimension(
    "speed of a flow", "m/s", "2 m/s or 400 fpm",
    {"m/s": (Fraction(1), Fraction(0)), "km/h": (Fraction(5, 18), Fraction(0))} | _scales(fpm=_INCH * 12 / 60000),
    "m_per_s",
)  # fmt: skip
FLOW = Dimension(
    "flow", "l/min", "2 l/min or 0.5 gpm",
    {"l/min": (Fraction(1), Fraction(0)), "m3/h": (Fraction(50, 3), Fraction(0))} | _scales(gpm=231 * _INCH**3 / 10**6),
    "l_per_min",
)  # fmt: skip
DENSITY = Dimension("density", "kg/m3", "890 kg/m3", {"kg/m3": (Fraction(1), Fraction(0)),
                    "g/cm3": (Fraction(1000), Fraction(0))}, "kg_per_m3")  # fmt: skip
ROUGHNESS = Dimension(
    "roughness", "um", "2.5 um or 100 uin", _scales(um=1, mm=1000, nm=Fraction(1, 1000), uin=_INCH / 1000), "um"
)
DIFFERENCE = Dimension(
    "temperature difference", "K", "5 K or 9 degF", _scales(K=1, degC=1, degF=Fraction(5, 9), R=Fraction(5, 9)), "K"
)
PERCENT = Dimension("percentage", "%", "40 %", {"%": (Fraction(1), Fraction(0))}, "percent")
RATIO = Dimension("number", "", "1.25", {}, "")

_SPACES = str.maketrans({"\u00a0": " ", "\u202f": " ", "\u2009": " ", "\u2212": "-", "\u00b0": "deg", "\u00b5": "u"})
_NUMBER = re.compile(
    r"""^\s*(?P<sign>[+-]?)\s*(?:
        (?P<whole>\d+)[ -]+(?P<num>\d+)\s*/\s*(?P<den>\d+)      # 2 1/2 or 2-1/2
      | (?P<fnum>\d+)\s*/\s*(?P<fden>\d+)                       # 5/8
      | (?P<plain>\d{1,3}(?:\ \d{3})+(?:[.,]\d+)?               # 20 000
        | (?:\d[\d.,]*|[.,]\d+)(?:[eE][+-]?\d{1,3})?)           # 20000, 63.5, 63,5, 1e6
    )\s*(?P<unit>.*?)\s*$""",
    re.VERBOSE | re.ASCII,
)
LONGEST = 64


def parse(text: str, dimension: Dimension) -> float:
    """Return the engine value of what was typed.

    Accepts whole numbers, decimals with point or comma, thousands in groups of three separated by spaces, common
    fractions ("2 1/2"), powers ("1e6"), followed by a unit of the dimension; without a unit the engine unit is meant.
    Raises UnitError with what was wrong and what is accepted.
    """
    accepted = f"a {dimension.name} such as {dimension.example}"
    if len(text) > LONGEST:
        raise UnitError(f"{len(text)} characters are too many for a {dimension.name}", accepted)
    match = _NUMBER.match(text.translate(_SPACES).replace("degdeg", "deg"))
    if match is None:
        raise UnitError(f"{_quoted(text)} does not begin with a number", accepted)
    number = _number(match, text, accepted)
    unit = match["unit"]
    if unit == "" and dimension.units.get(dimension.unit, (1, 0)) == (1, 0):
        return _finite(_as_float(number), text, accepted)
    factor, offset = _unit(unit, dimension, text)
    if isinstance(factor, Fraction) and isinstance(offset, Fraction) and isinstance(number, Fraction):
        return _finite(_as_float(number * factor + offset), text, accepted)
    return _finite(_as_float(number) * float(factor) + float(offset), text, accepted)


def _quoted(text: str) -> str:
    return '"' + "".join(c if c.isprintable() else "?" for c in text[:40]) + '"'


def _as_float(number: Fraction) -> float:
    try:
        return float(number)
    except OverflowError:
        return float("inf")


def _finite(value: float, text: str, accepted: str) -> float:
    if value - value != 0:
        raise UnitError(f"{_quoted(text)} is too large a number", accepted)
    return value


def _number(match: re.Match[str], text: str, accepted: str) -> Fraction:
    sign = -1 if match["sign"] == "-" else 1
    if match["plain"] is not None:
        return sign * Fraction(_decimal_text(match["plain"], text, accepted))
    whole, num, den = match["whole"] or "0", match["num"] or match["fnum"], match["den"] or match["fden"]
    if int(den) == 0:
        raise UnitError(f"{_quoted(text)} divides by zero", accepted)
    return sign * (int(whole) + Fraction(int(num), int(den)))


def _decimal_text(plain: str, text: str, accepted: str) -> str:
    """Return the number with a decimal point; refuse what two countries read differently."""
    mantissa, e, exponent = plain.replace(" ", "").lower().partition("e")
    commas, points = mantissa.count(","), mantissa.count(".")
    if commas == 1 and points == 0:
        head, tail = mantissa.split(",")
        if len(tail) == 3 and head not in {"", "0"}:
            raise UnitError(
                f"{_quoted(text)} can be read as {head}{tail} or as {head}.{tail}",
                f"{head}{tail} or {head}.{tail}, whichever is meant",
            )
        mantissa = f"{head}.{tail}"
    elif commas or points > 1:
        mantissa = _grouped(mantissa, text, accepted)
    return mantissa + e + exponent


def _grouped(mantissa: str, text: str, accepted: str) -> str:
    last = max(mantissa.rfind(","), mantissa.rfind("."))
    decimal = mantissa[last]
    group = "," if decimal == "." else "."
    if mantissa.count(decimal) > 1:  # 1,234,567: the sign only groups
        group, decimal = decimal, ""
    head, _, tail = mantissa.rpartition(decimal) if decimal else (mantissa, "", "")
    parts = head.split(group)
    if not (
        1 <= len(parts[0]) <= 3 and all(len(p) == 3 for p in parts[1:]) and (head + tail).replace(group, "").isdigit()
    ):
        raise UnitError(f"{_quoted(text)} is not a number", accepted)
    return "".join(parts) + (f".{tail}" if decimal else "")


def _unit(unit: str, dimension: Dimension, text: str) -> tuple[Fraction | float, Fraction | float]:
    spelled = unit.replace(" ", "").replace("^", "").replace("\u00b2", "2")
    found = dimension.units.get(spelled)
    if found is None:  # "KN", "MM": only where the letter case cannot mean something else, as the small m of mN does
        names = [name for name in dimension.units if name.lower() == spelled.lower()]
        same = {dimension.units[name] for name in names if not (spelled[0] == "m" and name[0] == "M")}
        found = same.pop() if len(same) == 1 else None
    if found is None:
        if not dimension.units:
            raise UnitError(f"{_quoted(text)} has a unit", f"a plain number such as {dimension.example}")
        raise UnitError(
            f"{_quoted(unit)} is not a unit of {dimension.name}",
            f"{dimension.spellings()} (without a unit: {dimension.unit})",
        )
    return found


def number_text(value: float, digits: int = 6) -> str:
    """Return a number for the screen and the record: `digits` significant digits, all before the point, in groups.

    Groups are separated by a space from 10 000 up, as ISO 80000-1 has it; no trailing zeros, no exponent below 1e9.
    """
    if value != value:
        return "unknown"
    if value in (float("inf"), float("-inf")):
        return "unlimited" if value > 0 else "-unlimited"
    if value != 0 and not 1e-4 <= abs(value) < 1e9:
        return f"{value:.{digits - 1}e}"
    text = f"{value + 0.0:.{digits}g}"  # adding nothing turns -0 into 0
    if "e" in text:
        text = f"{value:.0f}"
    whole, point, decimals = text.partition(".")
    sign, whole = ("-", whole[1:]) if whole.startswith("-") else ("", whole)
    if len(whole) > 4:
        whole = f"{int(whole):,}".replace(",", " ")
    return sign + whole + point + decimals


def show(value: float, dimension: Dimension, digits: int = 6) -> str:
    """Return an engine value with its unit: '63.5 mm'."""
    return f"{number_text(value, digits)} {dimension.unit}".rstrip()
