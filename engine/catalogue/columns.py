"""The catalogue as a struct of arrays: one row per single-row assembly, one numpy column per property.

Every column is declared once, on its field; reader, writer and documentation read the declaration there.
"""

# ruff: noqa: RUF009 - the calls in the class body declare columns, none of them makes a shared default

import dataclasses
import hashlib
from collections import Counter
from collections.abc import Sequence
from typing import Any, Literal

import numpy as np
from numpy.typing import ArrayLike, NDArray

from engine.errors import Problem, Problems, nearest, plain
from engine.numerics import Floats

Texts = NDArray[np.str_]
Masks = NDArray[np.int64]
Kind = Literal["text", "number", "count"]

#: Text cells longer than this are refused, which also bounds the memory that a column of text takes.
LONGEST_TEXT = 60
#: Tolerance classes as printed, recalled: Normal, 6X, 5, 4 and 2 of ISO 492; 4, 2, 3, 0 and 00 of ANSI/ABMA 19.2
#: (inch dimensions, ISO 578); K, N, C, B and A of ANSI/ABMA 19.1 (metric dimensions within the inch system).
TOLERANCES = ("Normal", "6X", "5", "4", "3", "2", "0", "00", "K", "N", "C", "B", "A")
_DEGREE = np.pi / 180.0


@dataclasses.dataclass(frozen=True)
class Column:
    """What one column is: its field, its CSV header with unit, and what may stand in its cells (in CSV units)."""

    name: str
    header: str
    unit: str
    kind: Kind
    least: float
    greatest: float
    required: bool
    choices: tuple[str, ...]
    what: str
    default: str = ""

    @property
    def scale(self) -> float:
        """Engine units per CSV unit: angles are in degrees in the file, in radians in the engine."""
        return _DEGREE if self.unit == "deg" else 1.0

    @property
    def accepted(self) -> str:
        """What may stand in a cell, as a phrase."""
        if self.choices:
            phrase = " or ".join(self.choices)
            return phrase if self.required else f"{phrase}, or empty{self._empty_means}"
        if self.kind == "text":
            return f"1 to {LONGEST_TEXT} printable characters"
        noun = "a whole number" if self.kind == "count" else "a number"
        unit = "" if self.unit == "-" else f" {self.unit}"
        phrase = f"{noun} from {self.least:.12g} to {self.greatest:.12g}{unit}"
        return phrase if self.required else f"{phrase}, or empty{self._empty_means}"

    @property
    def _empty_means(self) -> str:
        return f" for {self.default}" if self.default else " when not known"


def within(column: Column, values: Floats) -> NDArray[np.bool_]:
    """Return which values, in the unit of the CSV, may stand in the column."""
    inside: NDArray[np.bool_] = (values >= column.least) & (values <= column.greatest)
    return inside & (values == np.floor(values)) if column.kind == "count" else inside


def _column(header: str, unit: str, kind: Kind, what: str, **rest: Any) -> Any:
    limits = {"least": -np.inf, "greatest": np.inf, "required": True, "choices": (), **rest}
    return dataclasses.field(metadata={"column": Column("", header, unit, kind, what=what, **limits)})


def text_column(header: str, what: str, choices: tuple[str, ...] = (), **rest: Any) -> Any:
    """Declare a column of text."""
    return _column(header, "-", "text", what, choices=choices, **rest)


def number_column(header: str, unit: str, bounds: tuple[float, float], what: str, required: bool = True) -> Any:
    """Declare a column of numbers between bounds, in the unit of the CSV."""
    return _column(header, unit, "number", what, least=bounds[0], greatest=bounds[1], required=required)


def same_column(owner: type, name: str) -> Any:
    """Declare a column like that of another table."""
    (field,) = [field for field in dataclasses.fields(owner) if field.name == name]
    return dataclasses.field(metadata=field.metadata)


def declared(owner: type) -> tuple[Column, ...]:
    """Return the columns that a table declares, in the order of its CSV."""
    return tuple(
        dataclasses.replace(field.metadata["column"], name=field.name)
        for field in dataclasses.fields(owner)
        if "column" in field.metadata
    )


# eq is off: == between arrays has no single answer; content_hash() compares catalogues
@dataclasses.dataclass(frozen=True, eq=False)
class Catalogue:
    """One row per single-row assembly; columns of equal length, not to be written to."""

    designation: Texts = text_column("designation", "name of the assembly, unique in the catalogue")
    cone: Texts = text_column("cone", "name of the cone: inner ring with rollers and cage")
    cup: Texts = text_column("cup", "name of the cup: outer ring")
    system: Texts = text_column("system", "system of measurement of the boundary dimensions", ("metric", "inch"))
    series: Texts = text_column(
        "series", "dimension series (metric, ISO 355) or series code whose cones and cups fit (inch)"
    )
    steel: Texts = text_column("steel", "heat treatment of the rings: case- or through-hardened", ("case", "through"))
    max_temperature: Floats = number_column(
        "max_temperature_degC", "degC", (40, 400), "temperature to which the rings are stabilised"
    )
    d: Floats = number_column("d_mm", "mm", (3, 2000), "bore diameter of the cone")
    D: Floats = number_column("D_mm", "mm", (5, 3000), "outside diameter of the cup")
    T: Floats = number_column("T_mm", "mm", (2, 600), "width of the assembly, cone back face to cup back face")
    B: Floats = number_column("B_mm", "mm", (2, 600), "width of the cone")
    C: Floats = number_column("C_mm", "mm", (1, 600), "width of the cup")
    alpha: Floats = number_column(
        "alpha_deg", "deg", (8, 32), "contact angle: half the included angle of the cup raceway"
    )
    Z: Floats = _column("Z", "-", "count", "number of rollers", least=5, greatest=200)
    Dwe: Floats = number_column("Dwe_mm", "mm", (1, 300), "roller mean diameter")
    Lwe: Floats = number_column("Lwe_mm", "mm", (1, 400), "effective length of the roller contact")
    Dpw: Floats = number_column(
        "Dpw_mm", "mm", (4, 2900), "pitch diameter of the roller set, at the middle of the rollers"
    )
    Cr: Floats = number_column("Cr_N", "N", (100, 1e8), "basic dynamic radial load rating, ISO 281")
    C0r: Floats = number_column("C0r_N", "N", (100, 1e9), "basic static radial load rating, ISO 76")
    Cu: Floats = number_column("Cu_N", "N", (1, 1e8), "fatigue load limit, ISO 281 annex B")
    e: Floats = number_column("e", "-", (0.2, 1.0), "limiting value of Fa/Fr below which thrust does not count")
    Y: Floats = number_column("Y", "-", (0.5, 3.0), "axial load factor of the dynamic equivalent load")
    Y0: Floats = number_column("Y0", "-", (0.3, 1.7), "axial load factor of the static equivalent load")
    a: Floats = number_column(
        "a_mm",
        "mm",
        (-1000, 600),
        "cone back face to effective load centre: positive into the bearing towards the small roller ends, "
        "negative beyond the back face",
    )
    mass: Floats = number_column("mass_kg", "kg", (0.001, 20000), "mass of the assembly", required=False)
    n_grease: Floats = number_column("n_grease_rpm", "rpm", (1, 100000), "limiting speed with grease", required=False)
    n_oil: Floats = number_column("n_oil_rpm", "rpm", (1, 100000), "limiting speed with oil", required=False)
    listed: Texts = text_column(
        "listed",
        "sold as a set, or formed on demand from a cone and a cup of one series",
        ("listed", "formed"),
        required=False,
        default="listed",
    )
    tolerance: Texts = text_column(
        "tolerance", "tolerance class as printed: of ISO 492 (metric) or the inch standards", TOLERANCES, required=False
    )
    profile: Texts = text_column(
        "profile",
        "profile of the rollers: plain, or logarithmic",
        ("plain", "log"),
        required=False,
        default="plain",
    )
    availability: Texts = text_column(
        "availability", "whether it can be had", ("stocked", "on_request", "discontinued"), required=False
    )
    cost: Floats = number_column(
        "cost", "-", (1e-6, 1e9), "relative cost of the assembly, in any one unit", required=False
    )
    F: Floats = number_column("F_mm", "mm", (3, 2900), "mean diameter of the cone raceway", required=False)
    E: Floats = number_column("E_mm", "mm", (4, 3000), "mean diameter of the cup raceway", required=False)
    r_cone: Floats = number_column(
        "r_cone_mm",
        "mm",
        (0.05, 30),
        "smallest chamfer of the cone at its back face (r1s min, r2s min of ISO 582); a shaft fillet must be smaller",
        required=False,
    )
    r_cup: Floats = number_column(
        "r_cup_mm",
        "mm",
        (0.05, 30),
        "smallest chamfer of the cup at its back face (r3s min, r4s min of ISO 582); a housing fillet must be smaller",
        required=False,
    )
    #: Bit i is set where column i of COLUMNS was estimated and not stated in the file; no column of the CSV.
    estimated: Masks = dataclasses.field(default_factory=lambda: np.zeros(0, dtype=np.int64))

    def __post_init__(self) -> None:
        if not self.estimated.size:
            object.__setattr__(self, "estimated", np.zeros(self.designation.shape, dtype=np.int64))
        self.estimated.flags.writeable = False
        lengths = {self.estimated.shape}
        for column in COLUMNS:
            values = getattr(self, column.name)
            values.flags.writeable = False
            lengths.add(values.shape)
        if len(lengths) != 1 or len(next(iter(lengths))) != 1:
            raise ValueError(f"the columns of a catalogue are of one length, not of {sorted(lengths)}")

    def __len__(self) -> int:
        return int(self.designation.shape[0])

    def take(self, indices: ArrayLike) -> "Catalogue":
        """Return the rows at the indices (or of a mask), in that order, as a catalogue of their own."""
        chosen = np.asarray(indices)
        if chosen.size == 0:
            chosen = chosen.astype(np.intp)
        return Catalogue(**{name: getattr(self, name)[chosen] for name in _FIELDS})

    def is_estimated(self, name: str) -> NDArray[np.bool_]:
        """Return in which rows a column was estimated and not stated in the file."""
        return np.asarray(self.estimated & estimated_bit(name), dtype=np.bool_)

    def index_of(self, designation: str) -> int:
        """Return the row of an assembly; a name that is not there raises Problems with the nearest spelling."""
        found = np.flatnonzero(self.designation == designation)
        if found.size:
            return int(found[0])
        names: list[str] = self.designation.tolist()
        wrong = f'no assembly is named "{plain(designation)}"'
        accepted = f"one of the {len(self)} designations of the catalogue"
        raise Problems([Problem("", None, "designation", wrong, accepted, nearest(designation, names))])

    def content_hash(self) -> str:
        """Return a sha256 of the content: the same for the same cells, however the file that held them was written.

        It runs over the header, then for each column over its cells: texts joined by line ends, numbers as
        little-endian doubles in engine units. What was estimated is not part of it.
        """
        digest = hashlib.sha256(",".join(column.header for column in COLUMNS).encode())
        for column in COLUMNS:
            values = getattr(self, column.name)
            if column.kind == "text":
                digest.update("\n".join(["", *values.tolist(), ""]).encode())
            else:
                # one NaN and one zero, whichever way they were come by
                same = np.where(np.isnan(values), np.nan, values + 0.0)
                digest.update(same.astype("<f8").tobytes())
        return digest.hexdigest()


#: The declared columns in the order of the CSV.
COLUMNS = declared(Catalogue)
_FIELDS = tuple(field.name for field in dataclasses.fields(Catalogue))
_PLACE = {column.name: place for place, column in enumerate(COLUMNS)}


def estimated_bit(name: str) -> int:
    """Return the bit of the mask `estimated` that stands for a column."""
    return 1 << _PLACE[name]


def join(catalogues: Sequence[Catalogue]) -> Catalogue:
    """Return the rows of several catalogues, in order, as one; a designation that stands in two raises Problems."""
    joined = Catalogue(**{name: np.concatenate([getattr(one, name) for one in catalogues]) for name in _FIELDS})
    names = joined.designation.tolist()
    if len(set(names)) == len(names):
        return joined
    problems = [
        Problem("", None, "designation", f'"{plain(name)}" stands in more than one catalogue', "unique designations")
        for name, count in sorted(Counter(names).items())
        if count > 1
    ]
    raise Problems(problems)
