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
STATICS = Document(
    "Statics", "Equilibrium of a rigid shaft on two supports, any textbook of engineering mechanics", "textbook"
)
INDUCED_THRUST = Document(
    "Handbook practice",
    "Axial loads of two tapered roller bearings adjusted against each other, as printed in machine design handbooks",
    "recalled; confirmed numerically by a published worked example",
)
GEOMETRY = Document("Geometry", "Plane and solid geometry of the drawn section", "derived here")
HERTZ = Document("Hertz", "Contact of elastic bodies, any handbook of contact mechanics", "textbook")
ELASTICITY = Document("Elasticity", "Strains and press fits, any textbook of machine design", "textbook")
HEAT_BALANCE = Document("Heat balance", "Steady state of a warm body, any textbook of heat transfer", "textbook")
COMMON_PRACTICE = Document("Common practice", "Rule of thumb of the trade, no source", "common practice, no source")
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
