"""Every cited document once, and the mark that ties a function to its place in one.

Public functions of the engine carry the mark; checks, the unfolding figures on the screen, the record and
the report read it, so that no clause is typed twice.
"""

from collections.abc import Callable
from dataclasses import dataclass
from typing import TypeVar

F = TypeVar("F", bound=Callable[..., object])


@dataclass(frozen=True)
class Document:
    """A published document: short name, full title, and how this project came to know its text.

    `seen` says whether the formula was read in the document itself, in open code or text that cites it, or is
    recalled and still to be verified against a copy of the standard.
    """

    short: str
    title: str
    seen: str


@dataclass(frozen=True)
class Citation:
    """A place in a document, such as a clause, table or equation number."""

    document: Document
    place: str

    def __str__(self) -> str:
        """Return it as printed in a record: 'ISO 281:2007, clause 9.3'."""
        return f"{self.document.short}, {self.place}" if self.place else self.document.short


_RECALLED = "recalled, to be verified against the standard"
_OPEN_CODE = "formula read in open code that cites it; clause numbers recalled, to be verified"

ISO_281 = Document("ISO 281:2007", "Rolling bearings - Dynamic load ratings and rating life", _OPEN_CODE)
ISO_76 = Document("ISO 76:2006", "Rolling bearings - Static load ratings", _OPEN_CODE)
ISO_TR_1281_1 = Document("ISO/TR 1281-1", "Rolling bearings - Explanatory notes on ISO 281 - Part 1", _RECALLED)
ISO_TR_1281_2 = Document("ISO/TR 1281-2", "Rolling bearings - Explanatory notes on ISO 281 - Part 2", _OPEN_CODE)
ISO_TS_16281 = Document(
    "ISO/TS 16281:2008",
    "Rolling bearings - Methods for calculating the modified reference rating life for universally loaded bearings",
    _OPEN_CODE,
)
ISO_16281 = Document(
    "ISO 16281:2025",
    "Rolling bearings - Methods for calculating the modified reference rating life for universally loaded bearings",
    _OPEN_CODE,
)
ISO_355 = Document("ISO 355:2019", "Rolling bearings - Tapered roller bearings - Boundary dimensions", _RECALLED)
ISO_3448 = Document("ISO 3448", "Industrial liquid lubricants - ISO viscosity classification", _RECALLED)
ASTM_D341 = Document("ASTM D341", "Standard practice for viscosity-temperature charts", _OPEN_CODE)
ASTM_D2270 = Document("ASTM D2270", "Standard practice for calculating viscosity index", _OPEN_CODE)
ASTM_D1250 = Document("ASTM D1250", "Standard guide for the use of petroleum measurement tables", _RECALLED)
ISO_4406 = Document("ISO 4406", "Hydraulic fluid power - Method for coding the level of contamination", _RECALLED)
ISO_15312 = Document("ISO 15312:2018", "Rolling bearings - Thermal speed rating - Calculation", _OPEN_CODE)
DIN_732 = Document("DIN 732", "Rolling bearings - Thermally safe operating speed", _RECALLED)
AGMA_925 = Document("AGMA 925-A03", "Effect of lubrication on gear surface distress", _RECALLED)
PAN_HAMROCK = Document(
    "Pan and Hamrock 1989",
    "Simple formulae for performance parameters used in elastohydrodynamically lubricated line contacts, J. Tribology",
    "recalled",
)
DOWSON = Document("Dowson 1968", "Elastohydrodynamics, Proc. Instn Mech. Engrs 182", "recalled")
ROLLER_MECHANICS = Document(
    "Bearing mechanics",
    "Speeds, curvatures and load distribution of a roller set, handbooks of rolling bearing analysis",
    "recalled",
)
PALMGREN_FRICTION = Document(
    "Palmgren friction", "Load-independent and load-dependent friction torque, bearing handbooks", "recalled"
)
PHYSICS = Document("Physics", "Definitions of mechanics, any textbook of engineering", "textbook")
HEAT_TRANSFER = Document("Heat transfer", "Convection and radiation, any textbook of heat transfer", "textbook")
STATICS = Document(
    "Statics", "Equilibrium of a rigid shaft on two supports, any textbook of engineering mechanics", "textbook"
)
INDUCED_THRUST = Document(
    "Handbook practice",
    "Axial loads of two tapered roller bearings adjusted against each other, as printed in machine design handbooks",
    "recalled; confirmed numerically by a published worked example",
)
GEOMETRY = Document("Geometry", "Plane and solid geometry of the drawn section", "derived here")
ISO_1 = Document("ISO 1:2016", "Standard reference temperature for the specification of properties", _RECALLED)
ISO_286_1 = Document(
    "ISO 286-1:2010",
    "ISO code system for tolerances on linear sizes - Part 1: Basis of tolerances, deviations and fits",
    "formulas and values read in open tables that cite it; the rest recalled, to be verified",
)
ISO_286_2 = Document(
    "ISO 286-2:2010", "ISO code system for tolerances on linear sizes - Part 2: Tables of limit deviations",
    "values read in open tables that cite it; those above 500 mm recalled, to be verified",
)  # fmt: skip
ISO_492 = Document("ISO 492:2014", "Rolling bearings - Radial bearings - Dimensions and tolerances", _RECALLED)
ISO_578 = Document("ISO 578:1987", "Rolling bearings - Tapered roller bearings - Inch series - Tolerances", _RECALLED)
ABMA_19_1 = Document("ANSI/ABMA 19.1", "Tapered roller bearings - Radial, metric design", _RECALLED)
DIN_5425_1 = Document("DIN 5425-1", "Rolling bearings - Tolerances for mounting - General directions", _RECALLED)
DIN_7190_1 = Document("DIN 7190-1:2017", "Interference fits - Part 1: Calculation and design rules", _RECALLED)
THICK_CYLINDER = Document(
    "Thick cylinder", "Elastic thick-walled cylinders by Lame, any textbook of strength of materials", "textbook"
)
ROTATING_RING = Document(
    "Rotating ring", "Stress and growth of flat rotating rings, any textbook of strength of materials", "textbook"
)
FIT_PRACTICE = Document(
    "Fit practice", "Interference that a loaded ring needs, as printed in rolling bearing handbooks", "recalled"
)
ISO_683_17 = Document("ISO 683-17:2014", "Heat-treated steels, alloy steels and free-cutting steels - "
                      "Part 17: Ball and roller bearing steels", _RECALLED)  # fmt: skip
RETAINED_AUSTENITE = Document(
    "Retained austenite", "Growth of hardened rings as retained austenite decomposes, open literature on tempering",
    "expansion per share read in an engineer's statement; rate recalled",
)  # fmt: skip
FRACTURE = Document(
    "Fracture mechanics", "Stress intensity of a surface crack under tension, any textbook of fracture", "textbook"
)
HERTZ = Document("Hertz", "Contact of elastic bodies, any handbook of contact mechanics", "textbook")
ELASTICITY = Document("Elasticity", "Strains and press fits, any textbook of machine design", "textbook")
HEAT_BALANCE = Document("Heat balance", "Steady state of a warm body, any textbook of heat transfer", "textbook")
COMMON_PRACTICE = Document("Common practice", "Rule of thumb of the trade, no source", "common practice, no source")
MACHINE_DESIGN = Document(
    "Mechanical Engineering Design", "Shigley's Mechanical Engineering Design, 10th edition", "recalled"
)
MACHINE_ELEMENTS = Document(
    "Machine element handbooks",
    "Forces of gears, belts and chains on their shafts, as printed in handbooks of machine elements",
    "recalled; signs derived again in the module",
)
ISO_6336_6 = Document("ISO 6336-6:2006", "Calculation of load capacity of spur and helical gears - Part 6", _RECALLED)
ISO_21940_11 = Document(
    "ISO 21940-11:2016", "Mechanical vibration - Rotor balancing - Part 11: Rotors with rigid behaviour", _RECALLED
)
CENTRIFUGAL_PUMPS = Document(
    "Centrifugal and Axial Flow Pumps", "A. J. Stepanoff, Centrifugal and Axial Flow Pumps, 2nd edition", "recalled"
)
BEAMS = Document(
    "Beam theory", "Euler-Bernoulli bending of straight beams, any textbook of strength of materials", "textbook"
)
PALMGREN_MINER = Document("Palmgren-Miner", "Linear damage sum, any machine design handbook", "textbook")

DOCUMENTS = tuple(value for value in list(globals().values()) if isinstance(value, Document))


def cited(document: Document, place: str = "") -> Callable[[F], F]:
    """Mark a function with its source; the function itself is returned, so the mark costs nothing at run time."""

    def mark(function: F) -> F:
        function.__citation__ = Citation(document, place)  # type: ignore[attr-defined]
        return function

    return mark


def citation_of(function: Callable[..., object]) -> Citation:
    """Return the citation that `cited` put on a function."""
    citation = getattr(function, "__citation__", None)
    if not isinstance(citation, Citation):
        raise LookupError(f"{getattr(function, '__name__', function)} carries no source")
    return citation
