"""What can sit on a shaft: each kind with the questions that a drawing answers."""

from typing import Annotated, Any

import msgspec

from engine.answers.measured import Measure
from engine.answers.question import Quantity
from engine.answers.worded import Choice, Option, Text
from engine.units import ANGLE, FORCE, LENGTH, MASS, POWER, PRESSURE, RATIO, TORQUE, Dimension, number_text

_BEVELS = ("straight_bevel", "spiral_bevel")
_WORMS = ("worm", "worm_wheel")
_GEARS = ("spur", "helical", *_BEVELS, *_WORMS)
_BELTS = ("flat_belt", "v_belt")
PULLS = (*_BELTS, "toothed_belt", "chain")
#: Kinds that carry torque.
TURNING = (*_GEARS, *PULLS, "screw")
_DIRECTED = ("force", "wheel", "unbalance", "impeller", *_GEARS, *PULLS)
_FORCE_LIMIT = 50e6

#: What no kind is for; to be stated as plain forces, which the maker of the gear knows. Short: it must fit 60 columns.
NOT_COVERED = "Not covered: internal teeth, hypoids, globoid worms; give forces."
KINDS = (
    Option("force", "plain force", "a force, a thrust and a moment, as they are"),
    Option("spur", "spur gear"),
    Option("helical", "helical gear"),
    Option("straight_bevel", "straight bevel gear"),
    Option("spiral_bevel", "spiral bevel gear"),
    Option("worm", "worm"),
    Option("worm_wheel", "wheel of a worm"),
    Option("flat_belt", "flat belt"),
    Option("v_belt", "V-belt"),
    Option("toothed_belt", "toothed belt"),
    Option("chain", "chain"),
    Option("weight", "weight", "of a rotor, a pulley, the shaft itself"),
    Option("unbalance", "unbalance", "of a rotor; it turns with the shaft"),
    Option("impeller", "impeller", "of a pump: radial and axial thrust"),
    Option("ram", "ram or extruder", "pressure on a face, along the shaft"),
    Option("screw", "power screw", "thrust of a thread that turns in a nut"),
    Option("wheel", "wheel or sheave", "whose load may sit off its hub"),
)


def _asked(
    label: str, why: str, dimension: Dimension, bounds: tuple[float, float], kinds: tuple[str, ...], **more: Any
) -> Measure:
    """Return a quantity that is asked for some kinds of element."""
    least, greatest = bounds
    return Measure(
        label=label, why=why, dimension=dimension, least=least, greatest=greatest, only_if=("kind", kinds), **more
    )


def _side(label: str, why: str, kinds: tuple[str, ...], default_why: str) -> Choice:
    options = (Option("B", "towards B"), Option("A", "towards A"))
    return Choice(label=label, why=why, options=options, default="B", default_why=default_why, only_if=("kind", kinds))


class Element(msgspec.Struct, frozen=True, kw_only=True):
    """One thing on the shaft that puts forces on it."""

    kind: Annotated[
        str | None,
        Choice(
            label="Kind of element",
            why="The questions that its drawing answers follow. Enter, then Up and Down or the beginning of its name. "
            f"{NOT_COVERED}",
            options=KINDS, default_why="to be chosen first",
        ),
    ] = None  # fmt: skip
    name: Annotated[
        str | None, Text(label="Name of the element", why="For the report: pinion, pulley.", longest=30)
    ] = None
    position: Annotated[
        Quantity | None,
        Measure(
            label="Position along the shaft",
            why="Measured from A's reference plane towards B; negative is outboard of A. Of a gear, belt or wheel the "
            "middle of its width.",
            dimension=LENGTH, least=-20_000.0, greatest=40_000.0, default_why="needed",
        ),
    ] = None  # fmt: skip
    angle: Annotated[
        Quantity | None,
        _asked(
            "Direction around the shaft",
            "Seen from A, 0 is up (plane y), 90 right (plane z), 180 down. Where the mate meshes, where belt or chain "
            "pull to, where a force points, from which side a wheel is pressed.",
            ANGLE, (-360.0, 360.0), _DIRECTED, default=Quantity(0.0), default_why="up, plane y",
        ),
    ] = None  # fmt: skip
    flow: Annotated[
        str | None,
        Choice(
            label="Torque runs",
            why="Teeth and belts push a driven part in the sense of rotation, a driving one against it.",
            options=(
                Option("in", "into the shaft", "the part is driven by its mate"),
                Option("out", "out of the shaft", "the part drives its mate"),
            ),
            default="in", default_why="side not given", only_if=("kind", TURNING),
        ),
    ] = None  # fmt: skip
    power: Annotated[
        Quantity | None,
        _asked(
            "Power", "At the speed of each case; or give the torque instead.", POWER, (0.0, 1e6), TURNING,
            default_why="by the torque",
        ),
    ] = None  # fmt: skip
    torque: Annotated[
        Quantity | None,
        _asked(
            "Torque", "The same at every speed; or give the power instead.", TORQUE, (0.0, 1e9), TURNING,
            default_why="by the power",
        ),
    ] = None  # fmt: skip
    diameter: Annotated[
        Quantity | None,
        _asked(
            "Diameter",
            "Pitch diameter of a gear, pulley or sprocket; of a bevel gear at mid-face; mean one of a thread; outside "
            "one of an impeller, ram or wheel; of a plain force where its thrust acts.",
            LENGTH, (0.0, 20_000.0), ("force", "wheel", "impeller", "ram", *TURNING), default_why="needed",
        ),
    ] = None  # fmt: skip
    pressure_angle: Annotated[
        Quantity | None,
        _asked(
            "Pressure angle", "In the normal section of the tooth.", ANGLE, (5.0, 45.0), _GEARS,
            default=Quantity(20.0), default_why="the basic rack of ISO 53",
        ),
    ] = None  # fmt: skip
    helix_angle: Annotated[
        Quantity | None,
        _asked(
            "Helix or spiral angle", "Of the teeth to the axis; of a spiral bevel gear at mid-face.", ANGLE,
            (0.0, 60.0), ("helical", "spiral_bevel"), default_why="needed",
        ),
    ] = None  # fmt: skip
    lead_angle: Annotated[
        Quantity | None,
        _asked(
            "Lead angle of the worm", "At its pitch diameter: tan is lead over circumference.", ANGLE, (0.5, 60.0),
            _WORMS, default_why="needed",
        ),
    ] = None  # fmt: skip
    hand: Annotated[
        str | None,
        Choice(
            label="Hand",
            why="Right-hand like an ordinary screw thread. It turns the thrust round. A worm and its wheel share it.",
            options=(Option("right", "right"), Option("left", "left")), default="right",
            default_why="hand not given", only_if=("kind", ("helical", "spiral_bevel", *_WORMS, "screw")),
        ),
    ] = None  # fmt: skip
    cone_angle: Annotated[
        Quantity | None,
        _asked(
            "Pitch cone angle", "Between the axis and the pitch cone.", ANGLE, (1.0, 89.0), _BEVELS,
            default_why="needed",
        ),
    ] = None  # fmt: skip
    apex: Annotated[
        str | None,
        _side("Apex of the pitch cone lies", "The teeth push a bevel gear away from it.", _BEVELS, "side not given"),
    ] = None
    friction: Annotated[
        Quantity | None,
        _asked(
            "Coefficient of friction", "Of the worm's teeth or of the thread.", RATIO, (0.0, 0.5), (*_WORMS, "screw"),
            default=Quantity(0.05), default_why="hardened steel on bronze in oil; common practice, no source",
        ),
    ] = None  # fmt: skip
    pull_factor: Annotated[
        Quantity | None,
        _asked(
            "Pull factor", "Pull on the shaft over the force transmitted: chain 1.0 to 1.25, toothed belt 1.1 to 1.5, "
            "V-belt 1.5 to 2, flat belt 2 to 3.", RATIO, (1.0, 10.0), PULLS,
            default_why="the usual one of its kind; common practice, no source",
        ),
    ] = None  # fmt: skip
    tension_ratio: Annotated[
        Quantity | None,
        _asked(
            "Tension ratio", "Of the tight strand to the slack one; with it the angle of wrap takes the place of the "
            "pull factor.", RATIO, (1.01, 100.0), _BELTS, default_why="by the pull factor",
        ),
    ] = None  # fmt: skip
    wrap_angle: Annotated[
        Quantity | None,
        _asked(
            "Angle of wrap", "On this pulley; it counts only with a tension ratio.", ANGLE, (10.0, 359.0), _BELTS,
            default=Quantity(180.0), default_why="pulleys of one size",
        ),
    ] = None  # fmt: skip
    mass: Annotated[
        Quantity | None,
        _asked("Mass", "At its centre of gravity.", MASS, (0.0, 1e6), ("weight", "unbalance"), default_why="needed"),
    ] = None
    eccentricity: Annotated[
        Quantity | None,
        _asked(
            "Eccentricity", "Of the centre of mass from the axis; or give the balance grade instead.", LENGTH,
            (0.0, 100.0), ("unbalance",), default_why="by the balance grade",
        ),
    ] = None  # fmt: skip
    balance_grade: Annotated[
        Quantity | None,
        _asked(
            "Balance quality grade G", "In mm/s, by ISO 21940-11; it permits an eccentricity at each speed.", RATIO,
            (0.1, 4000.0), ("unbalance",), default=Quantity(6.3), default_why="fans, pumps and general machinery",
        ),
    ] = None  # fmt: skip
    force: Annotated[
        Quantity | None,
        _asked(
            "Force across the shaft", "Of a wheel, the load that presses it towards its axis; negative where it pulls, "
            "as a rope does.", FORCE, (-_FORCE_LIMIT, _FORCE_LIMIT), ("force", "wheel"), default=Quantity(0.0),
            default_why="none",
        ),
    ] = None  # fmt: skip
    axial: Annotated[
        Quantity | None,
        _asked(
            "Force along the shaft", "Positive towards B. It acts at the diameter given.", FORCE,
            (-_FORCE_LIMIT, _FORCE_LIMIT), ("force", "wheel"), default=Quantity(0.0), default_why="none",
        ),
    ] = None  # fmt: skip
    moment: Annotated[
        Quantity | None,
        _asked(
            "Moment", "In the plane of the direction; positive raises the load on B.", TORQUE, (-1e9, 1e9), ("force",),
            default=Quantity(0.0), default_why="none",
        ),
    ] = None  # fmt: skip
    offset: Annotated[
        Quantity | None,
        _asked(
            "Offset of the wheel", "From its hub at the position given to the plane of its load; positive towards B.",
            LENGTH, (-5_000.0, 5_000.0), ("wheel",), default=Quantity(0.0), default_why="load over the hub",
        ),
    ] = None  # fmt: skip
    pressure: Annotated[
        Quantity | None,
        _asked(
            "Pressure", "What the impeller adds, or what acts on the face of ram or extruder screw.", PRESSURE,
            (0.0, 1_000.0), ("impeller", "ram"), default_why="needed",
        ),
    ] = None  # fmt: skip
    width: Annotated[
        Quantity | None,
        _asked(
            "Width at the outside", "Of the impeller, walls included.", LENGTH, (0.1, 5_000.0), ("impeller",),
            default_why="needed",
        ),
    ] = None  # fmt: skip
    flow_ratio: Annotated[
        Quantity | None,
        _asked(
            "Flow over best flow", "Radial thrust vanishes at the best efficiency and is greatest at shut-off.", RATIO,
            (0.0, 1.5), ("impeller",), default=Quantity(0.5), default_why="part flow",
        ),
    ] = None  # fmt: skip
    ring_diameter: Annotated[
        Quantity | None,
        _asked(
            "Diameter of the wear ring", "Up to it the pressure behind the impeller is not balanced.", LENGTH,
            (0.0, 10_000.0), ("impeller",), default=Quantity(0.0), default_why="thrust balanced",
        ),
    ] = None  # fmt: skip
    seal_diameter: Annotated[
        Quantity | None,
        _asked(
            "Shaft at the seal", "Its diameter behind the impeller.", LENGTH, (0.0, 10_000.0), ("impeller",),
            default=Quantity(0.0), default_why="none",
        ),
    ] = None  # fmt: skip
    lead: Annotated[
        Quantity | None,
        _asked("Lead", "Advance of the screw in one turn.", LENGTH, (0.01, 2_000.0), ("screw",), default_why="needed"),
    ] = None
    thrust: Annotated[
        str | None,
        _side("Thrust of the element points", "What it does to the shaft.", ("impeller", "ram"), "side not given"),
    ] = None


def kind_of(element: Element) -> str:
    """Return what the kind of an element is called, "" while it is open."""
    return next((kind.label for kind in KINDS if kind.value == element.kind), "")


def told(element: Element) -> str:
    """Return what an element is, for the eye: 'pulley, V-belt at 210 mm'."""
    what = ", ".join(part for part in (element.name, kind_of(element)) if part)
    where = f"at {number_text(element.position.value)} mm" if element.position is not None else ""
    return " ".join(part for part in (what, where) if part)
