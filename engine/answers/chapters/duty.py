"""Chapter 1, duty: what the machine does to any pair of bearings."""

from typing import Annotated

import msgspec

from engine.answers.binned import Bins, Histogram
from engine.answers.measured import Measure
from engine.answers.question import Listing, Quantity
from engine.answers.worded import Choice, Option, Text
from engine.units import FORCE, LENGTH, PERCENT, RATIO, ROTATION, TEMPERATURE, TIME

MOST_CASES = 1000
_FORCE_LIMIT = 50e6
_UNIT = "two equal bearings face to face or back to back, or a double-row one,"
#: What of paired units nothing is said about; `engine.pair.paired` says more.
NOT_COVERED = (
    "not covered: unequal bearings in a unit, a share of load that play or preload makes uneven, two in tandem, the "
    "moment that the rows of a unit take, a floating partner of another kind"
)


class LoadCase(msgspec.Struct, frozen=True, kw_only=True):
    """One way in which the machine runs, for a share of its time."""

    name: Annotated[
        str | None,
        Text(
            label="Name of the case",
            why="For the report: digging, empty run, start-up.",
            longest=30,
        ),
    ] = None
    share: Annotated[
        Quantity | None,
        Measure(
            label="Share of running time",
            why="Damage is added up by time (Palmgren-Miner). Unanswered cases split what is left evenly.",
            dimension=PERCENT, least=0.0, greatest=100.0, default_why="what the other cases leave, split evenly",
        ),
    ] = None  # fmt: skip
    speed: Annotated[
        Quantity | None,
        Measure(
            label="Speed",
            why="Turns loads into hours, sets the film and is checked against the speed limits. 0 is a standing load: "
            "it counts for static safety, not for life.",
            dimension=ROTATION, least=0.0, greatest=100_000.0,
        ),
    ] = None  # fmt: skip
    radial_y: Annotated[
        Quantity | None,
        Measure(
            label="Radial force, plane y",
            why="Force across the shaft in the first of two planes at right angles, for instance up and down. "
            "The sign is its direction.",
            dimension=FORCE, least=-_FORCE_LIMIT, greatest=_FORCE_LIMIT, default=Quantity(0.0),
            default_why="no force in this plane",
        ),
    ] = None  # fmt: skip
    radial_z: Annotated[
        Quantity | None,
        Measure(
            label="Radial force, plane z",
            why="Force across the shaft in the second plane, for instance sideways. The sign is its direction.",
            dimension=FORCE, least=-_FORCE_LIMIT, greatest=_FORCE_LIMIT, default=Quantity(0.0),
            default_why="no force in this plane",
        ),
    ] = None  # fmt: skip
    position: Annotated[
        Quantity | None,
        Measure(
            label="Position of the radial force",
            why="Measured along the shaft from A's reference plane towards B. Negative, or more than the distance of "
            "the bearings, is overhung.",
            dimension=LENGTH, least=-20_000.0, greatest=40_000.0, default_why="the middle between the bearings",
        ),
    ] = None  # fmt: skip
    axial: Annotated[
        Quantity | None,
        Measure(
            label="Axial force",
            why="External force along the shaft, without its side; the pair's own induced forces are computed.",
            dimension=FORCE, least=0.0, greatest=_FORCE_LIMIT, default=Quantity(0.0), default_why="no external thrust",
        ),
    ] = None  # fmt: skip
    axial_towards: Annotated[
        str | None,
        Choice(
            label="Axial force pushes the shaft",
            why="Which bearing carries the thrust depends on the side and on the arrangement. A force on the hub or "
            "housing instead counts the other way: one that pushes the hub towards A pushes the shaft towards B.",
            options=(Option("B", "towards B"), Option("A", "towards A")), default="B", default_why="side not given",
        ),
    ] = None  # fmt: skip
    load_level: Annotated[
        Quantity | None,
        Measure(
            label="Load level",
            why="Multiplies every force of this case but weights: copy a case and give 60 % for part load. Negative "
            "where the machine brakes or is driven backwards by its load.",
            dimension=PERCENT, least=-1000.0, greatest=1000.0, default=Quantity(100.0),
            default_why="forces taken as they are",
        ),
    ] = None  # fmt: skip
    rotation: Annotated[
        str | None,
        Choice(
            label="Sense of rotation",
            why="Reversing turns round the thrust of helical, spiral bevel and worm gears on the shaft, and every "
            "force along the pitch line.",
            options=(
                Option("ahead", "ahead", "as stated in the chapter on the shaft"),
                Option("reversed", "reversed"),
            ),
            default="ahead", default_why="the usual sense",
        ),
    ] = None  # fmt: skip
    application_factor: Annotated[
        Quantity | None,
        Measure(
            label="Application factor",
            why="Multiplies the forces of this case, weights apart, for the uneven running of driver and machine. "
            "It counts for life and for static safety.",
            dimension=RATIO, least=1.0, greatest=10.0,
            default_why="by the kinds of driver and driven machine, else 1",
        ),
    ] = None  # fmt: skip
    shock_factor: Annotated[
        Quantity | None,
        Measure(
            label="Shock factor",
            why="Short peaks over the forces of this case, as a multiple of them. It counts for static safety only: "
            "peaks that last belong in a load case of their own.",
            dimension=RATIO, least=1.0, greatest=20.0, default=Quantity(1.0), default_why="no peaks stated",
        ),
    ] = None  # fmt: skip
    histogram: Annotated[
        Bins | None,
        Histogram(
            label="Measured spectrum",
            why="A CSV file with one row a bin: share, hours or count; speed; load as a factor on the forces of this "
            "case, or as force or torque; temperature. The bins take the place of the one speed and level; power and "
            "unbalance refer to the speed above. ? shows the format.",
            default_why="one load and speed",
        ),
    ] = None
    temperature: Annotated[
        Quantity | None,
        Measure(
            label="Temperature in this case",
            why="Of the bearings while this case runs; it sets the viscosity and with it the film.",
            dimension=TEMPERATURE, least=-60.0, greatest=250.0, default_why="the operating temperature",
        ),
    ] = None  # fmt: skip


class Duty(msgspec.Struct, frozen=True, kw_only=True):
    """Arrangement, span, wanted life and the load cases."""

    job: Annotated[
        str | None,
        Text(label="Job", why="What the shaft is and for whom; it heads the record.", longest=60),
    ] = None
    arrangement: Annotated[
        str | None,
        Choice(
            label="Arrangement",
            why="Back to back widens the effective spread and is stiff against tilting; face to face narrows it and "
            "forgives misalignment.",
            options=(
                Option("back_to_back", "back to back (O)", "load lines meet the shaft outside the bearings"),
                Option("face_to_face", "face to face (X)", "load lines meet the shaft between the bearings"),
            ),
            default="face_to_face", default_why="the easier one to mount",
        ),
    ] = None  # fmt: skip
    distance: Annotated[
        Quantity | None,
        Measure(
            label="Distance between the bearings",
            why="With each candidate's own load centres it decides how a force is shared between A and B.",
            dimension=LENGTH, least=5.0, greatest=20_000.0,
        ),
    ] = None  # fmt: skip
    distance_between: Annotated[
        str | None,
        Choice(
            label="Distance is measured between",
            why="Positions of forces start at the same plane of bearing A.",
            options=(
                Option("back_faces", "the cone back faces", "at the large roller ends, as on a shaft drawing"),
                Option("middles", "the bearing middles", "half of each bearing's width T"),
            ),
            default="back_faces", default_why="the usual dimension on a drawing",
        ),
    ] = None  # fmt: skip
    life: Annotated[
        Quantity | None,
        Measure(
            label="Required life",
            why="Running hours that the pair must reach at the wanted reliability.",
            dimension=TIME, least=1.0, greatest=10_000_000.0, default=Quantity(20_000.0),
            default_why="common for industrial machines in one shift; common practice, no source",
        ),
    ] = None  # fmt: skip
    reliability: Annotated[
        Quantity | None,
        Measure(
            label="Reliability",
            why="Share of equal machines whose bearings reach that life; factor a1 of ISO 281.",
            dimension=PERCENT, least=90.0, greatest=99.95, default=Quantity(90.0), default_why="ISO 281 basic rating",
        ),
    ] = None  # fmt: skip
    life_of: Annotated[
        str | None,
        Choice(
            label="Required life holds for",
            why="Two bearings together fail sooner than either alone.",
            options=(
                Option("pair", "the pair as a system", "both bearings survive together"),
                Option("each", "each bearing by itself", "the usual catalogue reading"),
            ),
            default="pair", default_why="the safer reading",
        ),
    ] = None  # fmt: skip
    static_safety: Annotated[
        Quantity | None,
        Measure(
            label="Static safety s0 wanted",
            why="Guards against dents at standstill and under peaks (ISO 76).",
            dimension=RATIO, least=0.5, greatest=20.0,
            default_why="1.5 in normal running, 2 with moderate and 3 with heavy shock (guideline of ISO 76, recalled; "
            "the 2 is common practice, no source)",
        ),
    ] = None  # fmt: skip
    locating: Annotated[
        str | None,
        Choice(
            label="Who takes the thrust",
            why="Two bearings share it; or a unit, two side by side or a double-row one, takes it and two on the other "
            "side float. ? says what of units is not covered.",
            options=(
                Option("pair", "the pair, set against each other", "one bearing on each side"),
                Option("unit_a", "a paired unit at A", f"{_UNIT} at A locates, two at B float; {NOT_COVERED}"),
                Option("unit_b", "a paired unit at B", f"{_UNIT} at B locates, two at A float; {NOT_COVERED}"),
            ),
            default="pair", default_why="the usual design",
        ),
    ] = None  # fmt: skip
    driver: Annotated[
        str | None,
        Choice(
            label="Driver",
            why="How evenly the driver runs; with the driven machine it gives the application factor of cases that "
            "leave theirs open.",
            options=(
                Option("uniform", "uniform", "electric motor, steam or gas turbine with light starts"),
                Option("light", "light shocks", "motor with heavy or frequent starts, hydraulic motor"),
                Option("moderate", "moderate shocks", "engine with several cylinders"),
                Option("heavy", "heavy shocks", "engine with one cylinder"),
            ),
            default_why="forces taken as they are",
        ),
    ] = None  # fmt: skip
    driven: Annotated[
        str | None,
        Choice(
            label="Driven machine",
            why="How evenly the load runs; with the driver it gives the application factor of cases that leave theirs "
            "open.",
            options=(
                Option("uniform", "uniform", "generator, fan, light conveyor, mixer of thin liquids"),
                Option("light", "light shocks", "uneven conveyor, heavy lift, agitator, machine-tool main drive"),
                Option("moderate", "moderate shocks", "extruder of rubber, saw, ball mill, single-cylinder pump"),
                Option("heavy", "heavy shocks", "excavator, crusher, press, rolling mill, rotary drilling rig"),
            ),
            default_why="forces taken as they are",
        ),
    ] = None  # fmt: skip
    cases: Annotated[
        tuple[LoadCase, ...],
        # a copy has no share of time of its own, else the shares would no longer add up
        Listing(of=LoadCase, one="load case", many="load cases", most=MOST_CASES, least=1,
                not_copied=("name", "share")),
    ] = (LoadCase(),)  # fmt: skip
