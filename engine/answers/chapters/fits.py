"""Chapter 7, fits: how tightly the rings sit on shaft and in housing, and what they sit on."""

from typing import Annotated

import msgspec

from engine.answers.measured import Measure
from engine.answers.question import Quantity
from engine.answers.worded import Choice, Option, YesNo
from engine.units import DIFFERENCE, LENGTH, ROUGHNESS

RECOMMENDED = "recommended"
#: The load level that each bearing has by its own loads.
BY_LOADS = "loads"
#: A ring that creeps rules its pair out.
CREEP_FAILS = "fails"
#: The ladders from loose to tight, by letter; js and JS stand beside j and J.
SHAFT_LADDER = ("g", "h", "j", "k", "m", "n", "p", "r")
HOUSING_LADDER = ("F", "G", "H", "J", "K", "M", "N", "P")
#: The only grades in which ISO 286 makes j and J.
_J_GRADES = {"j": (5, 6, 7), "J": (6, 7, 8)}


def _classes(letters: tuple[str, ...], grades: range) -> tuple[str, ...]:
    return tuple(f"{one}{grade}" for one in letters for grade in _J_GRADES.get(one, grades) if grade in grades)


#: What can be answered, by letter and grade.
SHAFT_CLASSES = _classes(("g", "h", "js", *SHAFT_LADDER[2:]), range(4, 9))
HOUSING_CLASSES = _classes(("F", "G", "H", "JS", *HOUSING_LADDER[3:]), range(5, 9))


def _line(name: str) -> str:
    """Return the classes that a class gives way along: those of its grade; of j only j6 is always tighter than js."""
    return name if name in {"j5", "j7"} else name[-1]


def _ladder(label: str, why: str, classes: tuple[str, ...]) -> Choice:
    return Choice(
        # a looser fit strains less, a tighter one holds better
        label=label, why=why, loosen="ordered",
        options=(Option(RECOMMENDED, RECOMMENDED), *(Option(name, name, line=_line(name)) for name in classes)),
        default=RECOMMENDED, default_why="by ring load, level, size, material and mounting",
    )  # fmt: skip


def _shaft_fit(side: str) -> Choice:
    return _ladder(
        f"Shaft fit at {side}",
        "Class for a metric cone, g to r at IT4 to IT8 (m6); inch cones get twin limits that sit alike. Tighter holds "
        "better, and strains the cone.",
        SHAFT_CLASSES,
    )


def _housing_fit(side: str) -> Choice:
    return _ladder(
        f"Housing fit at {side}",
        "Class for a metric cup, F to P at IT5 to IT8 (H7); inch cups get twin limits. Under a point load it may be "
        "loose; else it must hold.",
        HOUSING_CLASSES,
    )


def _material(label: str, why: str, default: str, default_why: str) -> Choice:
    return Choice(
        label=label, why=why,
        options=(
            Option("steel", "steel"), Option("grey_iron", "grey cast iron"),
            Option("ductile_iron", "ductile cast iron"), Option("aluminium", "aluminium"),
        ),
        default=default, default_why=default_why,
    )  # fmt: skip


def _roughness(label: str, least: float, default_why: str) -> Measure:
    return Measure(
        label=label, why="Peaks are smoothed in joining, and so much interference is lost (DIN 7190).",
        dimension=ROUGHNESS, least=0.0, greatest=100.0, default=Quantity(least), default_why=default_why,
    )  # fmt: skip


def _hotter(label: str, why: str) -> Measure:
    return Measure(
        label=label, why=why, dimension=DIFFERENCE, least=-100.0, greatest=200.0, default=Quantity(5.0),
        default_why="common practice, no source",
    )  # fmt: skip


class Fits(msgspec.Struct, frozen=True, kw_only=True):
    """Classes of the seats, the ring that is adjusted, shaft, housing, temperatures and mounting."""

    level: Annotated[
        str | None,
        Choice(
            label="Load level",
            why="Light up to P/C 0.07, normal up to 0.15, heavy above; the recommended fits grow tighter with it. By "
            "the loads, each bearing has the level of its own worst case: heavy with shock under heavy shock.",
            options=(
                Option("light", "light"), Option("normal", "normal"), Option("heavy", "heavy"),
                Option("shock", "heavy with shock"), Option(BY_LOADS, "by the loads of each bearing"),
            ),
            default=BY_LOADS, default_why="P/C of each bearing in its worst case", loosen="ordered",
        ),
    ] = None  # fmt: skip
    shaft_fit_a: Annotated[str | None, _shaft_fit("A")] = None
    shaft_fit_b: Annotated[str | None, _shaft_fit("B")] = None
    housing_fit_a: Annotated[str | None, _housing_fit("A")] = None
    housing_fit_b: Annotated[str | None, _housing_fit("B")] = None
    adjusted: Annotated[
        str | None,
        Choice(
            label="Ring that must slide",
            why="The ring that is moved in adjusting, or by heat, cannot sit tightly: its recommended fit is looser.",
            options=(
                Option("none", "none", "set by spacers or shims, both rings tight"),
                Option("cone_a", "cone at A"), Option("cone_b", "cone at B"), Option("cones", "both cones"),
                Option("cup_a", "cup at A"), Option("cup_b", "cup at B"), Option("cups", "both cups"),
            ),
            default_why="cone at B back to back, cup at B face to face, of a paired unit's partner the ring at rest",
        ),
    ] = None  # fmt: skip
    shaft_bore: Annotated[
        Quantity | None,
        Measure(
            label="Bore of a hollow shaft",
            why="A thin shaft gives way: the fit loses pressure, and from half the diameter it is chosen tighter. 0 is "
            "a solid shaft.",
            dimension=LENGTH, least=0.0, greatest=2_000.0,
            default_why="that of the steps of the shaft, else solid, or half of the seat if answered hollow",
        ),
    ] = None  # fmt: skip
    shaft_material: Annotated[
        str | None,
        _material("Material of the shaft", "Its stiffness and how it grows with heat.", "steel", "the usual shaft"),
    ] = None
    shaft_roughness: Annotated[Quantity | None, _roughness("Roughness Rz of the shaft", 2.5, "ground seat")] = None
    housing_material: Annotated[
        str | None,
        _material(
            "Material of the housing",
            "Its stiffness and how it grows with heat: aluminium lets a cup go as it warms.",
            "grey_iron", "the usual housing",
        ),
    ] = None  # fmt: skip
    housing_wall: Annotated[
        Quantity | None,
        Measure(
            label="Wall of the housing",
            why="Metal round the cup; a thin wall gives way, so the fit is chosen tighter.",
            dimension=LENGTH, least=0.5, greatest=2_000.0,
            default_why="a quarter of the cup's diameter; common practice, no source",
        ),
    ] = None  # fmt: skip
    split_housing: Annotated[
        bool | None,
        YesNo(
            label="Split housing",
            why="A split housing pinches a tight cup out of round, so no fit tighter than J7 is recommended.",
            default=False, default_why="housing of one piece",
        ),
    ] = None  # fmt: skip
    housing_roughness: Annotated[
        Quantity | None, _roughness("Roughness Rz of the housing", 6.3, "finely bored housing")
    ] = None
    cone_hotter: Annotated[
        Quantity | None,
        _hotter("Cone hotter than the shaft", "In steady running; the cone widens and loses interference."),
    ] = None
    cup_hotter: Annotated[
        Quantity | None,
        _hotter("Cup hotter than the housing", "In steady running; the cup grows and sits tighter."),
    ] = None
    mounting: Annotated[
        str | None,
        Choice(
            label="How cones are mounted",
            why="Heat must not pass 120 degC, or the ring softens and grows; pressing needs force and a press.",
            options=(Option("heated", "heated"), Option("pressed", "pressed on")),
            default_why="by heat where 120 degC will do, else pressed on",
        ),
    ] = None  # fmt: skip
    creeping: Annotated[
        str | None,
        Choice(
            label="A ring that creeps",
            why="Where the load goes round it: a cone that the mean of its fit does not hold, or not once its steel "
            "has grown; a cup that has play at the mean. One that must slide only cautions.",
            options=(Option(CREEP_FAILS, "rules the pair out"), Option("cautions", "cautions only")),
            default=CREEP_FAILS, default_why="a ring that creeps wears its seat",
        ),
    ] = None  # fmt: skip
