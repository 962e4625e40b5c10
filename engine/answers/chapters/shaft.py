"""Chapter 2, shaft: what sits on it, how it lies and turns, and of what steps it is made."""

from typing import Annotated

import msgspec

from engine.answers.chapters.element import Element, told
from engine.answers.measured import Measure
from engine.answers.question import Listing, Quantity
from engine.answers.worded import Choice, Option
from engine.units import ANGLE, LENGTH, PRESSURE, number_text

MOST_ELEMENTS = 60
MOST_SECTIONS = 60


class Section(msgspec.Struct, frozen=True, kw_only=True):
    """A step of the shaft, of one diameter."""

    length: Annotated[
        Quantity | None,
        Measure(
            label="Length of the step",
            why="The steps follow one another from the shaft's end at A towards B.",
            dimension=LENGTH, least=0.1, greatest=20_000.0,
        ),
    ] = None  # fmt: skip
    diameter: Annotated[
        Quantity | None,
        Measure(
            label="Diameter of the step", why="Stiffness grows with its fourth power.",
            dimension=LENGTH, least=1.0, greatest=3_000.0,
        ),
    ] = None  # fmt: skip
    bore: Annotated[
        Quantity | None,
        Measure(
            label="Bore of the step", why="Of a hollow shaft; a half-diameter bore costs 6 % of the stiffness.",
            dimension=LENGTH, least=0.0, greatest=3_000.0, default=Quantity(0.0), default_why="solid shaft",
        ),
    ] = None  # fmt: skip


def _step_told(section: Section) -> str:
    """Return what a step is, for the eye: 'diameter 50, 80 mm long'."""
    across = f"diameter {number_text(section.diameter.value)}" if section.diameter is not None else ""
    along = f"{number_text(section.length.value)} mm long" if section.length is not None else ""
    return ", ".join(part for part in (across, along) if part)


class Shaft(msgspec.Struct, frozen=True, kw_only=True):
    """Rotation, tilt, the elements on the shaft and the steps it is made of."""

    rotation: Annotated[
        str | None,
        Choice(
            label="Rotation seen from A",
            why="Looking from bearing A towards B. It sets on which side teeth push and where their thrust goes. A "
            "case may run the other way round.",
            options=(Option("clockwise", "clockwise"), Option("counter", "counter-clockwise")),
            default="clockwise", default_why="sense not given",
        ),
    ] = None  # fmt: skip
    tilt: Annotated[
        Quantity | None,
        Measure(
            label="Tilt of the shaft",
            why="0 is level, 90 upright; weights then push along the shaft. Plane y of the forces points up.",
            dimension=ANGLE, least=0.0, greatest=90.0, default=Quantity(0.0), default_why="level shaft",
        ),
    ] = None  # fmt: skip
    lower: Annotated[
        str | None,
        Choice(
            label="Lower end of a tilted shaft",
            why="Where weights push to.",
            options=(Option("B", "the end at B"), Option("A", "the end at A")),
            default="B", default_why="end not given",
        ),
    ] = None  # fmt: skip
    start: Annotated[
        Quantity | None,
        Measure(
            label="Where the shaft begins",
            why="Its end at A, measured from A's reference plane: -60 mm is 60 mm outboard. The steps start there.",
            dimension=LENGTH, least=-20_000.0, greatest=20_000.0, default=Quantity(0.0),
            default_why="at A's reference plane",
        ),
    ] = None  # fmt: skip
    modulus: Annotated[
        Quantity | None,
        Measure(
            label="Young's modulus of the shaft",
            why="For its bending; steel has about 206 GPa.",
            dimension=PRESSURE, least=1_000.0, greatest=700_000.0, default=Quantity(206_000.0), default_why="steel",
        ),
    ] = None  # fmt: skip
    elements: Annotated[
        tuple[Element, ...],
        Listing(
            of=Element, one="element", many="elements on the shaft", most=MOST_ELEMENTS, told=told,
            why="Gears, belts, chains, weights, impellers and whatever else loads the shaft: each makes its forces "
            "from what its drawing says, beside those stated in the load cases.",
        ),
    ] = ()  # fmt: skip
    sections: Annotated[
        tuple[Section, ...],
        Listing(
            of=Section, one="step", many="steps of the shaft, for its bending", most=MOST_SECTIONS, told=_step_told,
            why="With its diameters from end to end the shaft's slope at both seats is computed. Needed for nothing "
            "else.",
        ),
    ] = ()  # fmt: skip
