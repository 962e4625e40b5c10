"""Questions of the chapter on lubrication that are asked only sometimes: cooling, words on dirt, film, grease."""

from typing import Any

from engine.answers.measured import Measure
from engine.answers.question import Quantity
from engine.answers.worded import Choice, Option
from engine.lubrication.lubricant import ANNEX_KINDS, FLOWING, ISO_VG
from engine.units import AREA, DENSITY, FLOW, POWER, TEMPERATURE, TIME, VELOCITY, VISCOSITY

GRADES = tuple(Option(str(vg), f"VG {vg}") for vg in ISO_VG)

#: How the viscosity is known: by grade, index and the temperatures of most data sheets, or at two others.
USUAL: Any = ("viscosity_by", (None, "grade"))
_POINTS: Any = ("viscosity_by", ("points",))
_NOT_BY_NAME: Any = ("lubricant", (None,))
_SETTLED: Any = ("temperature_by", ("settled",))
_CIRCULATING: Any = ("supply", FLOWING)
_WORDS: Any = ("cleanliness_by", ("words",))
_OIL: Any = ("supply", tuple(way for way in ANNEX_KINDS if way != "grease"))
_GREASE: Any = ("supply", ("grease",))
_OWN_FILM: Any = ("own_film", (True,))

VISCOSITY_BY = Choice(
    label="Viscosity is known by",
    why="Most data sheets state an ISO VG with an index, or viscosities at 40 and 100 degC. From two points at any "
    "other temperatures those follow along the line of ASTM D341.",
    options=(
        Option("grade", "ISO VG, or at 40 and 100 degC"),
        Option("points", "two other temperatures", "a point each of the data sheet"),
    ),
    default_why="the figures below, as most data sheets state them", only_if=_NOT_BY_NAME,
)  # fmt: skip


def _temperature_of(which: str, default: float) -> Measure:
    return Measure(
        label=f"Temperature of the {which} point",
        why="Of the data sheet. The further apart both are, the surer is what lies between; beyond them it is a guess "
        "along the line.",
        dimension=TEMPERATURE, least=-60.0, greatest=200.0, default=Quantity(default),
        default_why="a temperature of most data sheets", only_if=_NOT_BY_NAME, and_if=_POINTS,
    )  # fmt: skip


def _viscosity_of(which: str) -> Measure:
    return Measure(
        label=f"Viscosity at the {which} point",
        why="From the lubricant's data sheet, at the temperature above; the hotter oil is the thinner one.",
        dimension=VISCOSITY, least=0.3, greatest=1_000_000.0, only_if=_NOT_BY_NAME, and_if=_POINTS,
    )  # fmt: skip


POINT_1_TEMPERATURE, POINT_1_VISCOSITY = _temperature_of("first", 40.0), _viscosity_of("first")
POINT_2_TEMPERATURE, POINT_2_VISCOSITY = _temperature_of("second", 100.0), _viscosity_of("second")
HOUSING = Choice(
    label="Housing",
    why="In one housing both bearings are as warm as one another and their heat adds up; in housings of their own each "
    "settles by itself, and the figures below hold for each.",
    options=(Option("one", "one for both", "gearbox, hub"), Option("each", "one for each", "two pedestals")),
    default="one", default_why="the usual machine", only_if=_SETTLED,
)  # fmt: skip
AMBIENT = Measure(
    label="Air around the housing",
    why="Its temperature; every kelvin more makes the bearings about as much warmer.",
    dimension=TEMPERATURE, least=-60.0, greatest=150.0, default=Quantity(20.0),
    default_why="ISO 15312 takes 20 degC", only_if=_SETTLED, loosen="down",
)  # fmt: skip
AREA_OF_HOUSING = Measure(
    label="Surface of the housing",
    why="What sheds heat to the air, by convection and radiation. A pedestal of height H and length L has about "
    "pi H (L + H/2).",
    dimension=AREA, least=0.001, greatest=1000.0, only_if=_SETTLED,
    default_why="heat flow of each bearing's seats as ISO 15312 takes it", loosen="both",
)  # fmt: skip
AIR_SPEED = Measure(
    label="Speed of the air",
    why="Of a fan or the wind along the housing; 0 is still air. It counts where the surface is given.",
    dimension=VELOCITY, least=0.0, greatest=60.0, default=Quantity(0.0), default_why="still air", only_if=_SETTLED,
    loosen="both",
)  # fmt: skip
OTHER_HEAT = Measure(
    label="Other heat into the housing",
    why="From a gear mesh, seals, a hot shaft or process; the friction of the bearings is computed.",
    dimension=POWER, least=0.0, greatest=1000.0, default=Quantity(0.0), default_why="bearings only", only_if=_SETTLED,
    loosen="down",
)  # fmt: skip
OIL_FLOW = Measure(
    label="Oil flow",
    why="Through the housing, of both bearings where they share it. It leaves as warm as the bearings and carries "
    "28.6 W for each l/min and kelvin.",
    dimension=FLOW, least=0.0, greatest=10_000.0, default_why="none counted; the flow needed is computed",
    only_if=_CIRCULATING, loosen="both",
)  # fmt: skip
OIL_INLET = Measure(
    label="Oil comes in at",
    why="Behind the cooler.",
    dimension=TEMPERATURE, least=-20.0, greatest=150.0, default=Quantity(40.0), only_if=_CIRCULATING, loosen="down",
    default_why="behind an ordinary cooler; common practice, no source",
)  # fmt: skip
OIL_HOLD = Measure(
    label="Temperature to hold by oil",
    why="The flow needed to hold it is computed.",
    dimension=TEMPERATURE, least=0.0, greatest=200.0, default_why="the operating temperature, else 70 degC",
    only_if=_CIRCULATING,
)  # fmt: skip
FILTER = Choice(
    label="Filter",
    why="The finest that all the oil passes; beta as the maker states it. It names the line of ISO 281 Annex A.",
    options=(
        Option("fine_6", "fine, 6 um", "beta 6(c) >= 200"), Option("medium_12", "medium, 12 um", "beta 12(c) >= 200"),
        Option("coarse_25", "coarse, 25 um", "beta 25(c) >= 75"), Option("screen_40", "screen, 40 um",
                                                                         "beta 40(c) >= 75"),
        Option("none", "none", "counts as the screen or worse"),
    ),
    default="coarse_25", default_why="an ordinary cartridge", only_if=_WORDS, and_if=_OIL,
    loosen="towards_first",
)  # fmt: skip
SEALS = Choice(
    label="Seals",
    why="How tightly the shaft is sealed towards the dirt.",
    options=(
        Option("contact", "the bearing's own", "greased for life behind them"), Option("lip", "lip seals in order"),
        Option("gap", "gap or labyrinth"), Option("worn", "worn lips"), Option("none", "none"),
    ),
    default="lip", default_why="the usual shaft seal", only_if=_WORDS, loosen="towards_first",
)  # fmt: skip
BREATHER = Choice(
    label="Breather",
    why="What the housing breathes through as it warms and cools.",
    options=(
        Option("closed", "none, closed"), Option("filtered", "with a filter"),
        Option("plain", "plain cap"), Option("open", "open hole"),
    ),
    default="plain", default_why="the usual cap", only_if=_WORDS, and_if=_OIL, loosen="towards_first",
)  # fmt: skip
AIR = Choice(
    label="In the air",
    why="What could get in.",
    options=(
        Option("clean", "nothing to speak of", "clean room, food plant"), Option("workshop", "workshop air"),
        Option("dusty", "dust", "mill, quarry road, farm"),
        Option("abrasive", "hard dust or grit", "sand, ore, scale, cement"),
    ),
    default="workshop", default_why="indoors", only_if=_WORDS, loosen="towards_first",
)  # fmt: skip
BASE = Choice(
    label="Base oil",
    why="Under the contact's pressure oils thicken each in its own way (AGMA 925, alpha = k eta^s).",
    options=(
        Option("mineral", "mineral"), Option("pao", "PAO", "synthetic hydrocarbon"), Option("ester", "ester"),
        Option("pag", "PAG", "polyglycol"),
    ),
    default="mineral", default_why="most oils", only_if=_NOT_BY_NAME, and_if=_OWN_FILM,
)  # fmt: skip
DENSITY_15 = Measure(
    label="Density at 15 degC",
    why="From the data sheet; at temperature by ASTM D1250.",
    dimension=DENSITY, least=700.0, greatest=1200.0, only_if=_NOT_BY_NAME, and_if=_OWN_FILM,
    default_why="890 mineral, 845 PAO, 950 ester, 1045 kg/m3 PAG; common practice, no source",
)  # fmt: skip
MOISTURE = Choice(
    label="Moisture at the grease",
    why="Water spoils grease; a factor on the regreasing interval.",
    options=(
        Option("dry", "dry"), Option("humid", "humid"), Option("condensing", "condensation"),
        Option("splashed", "water splashes"),
    ),
    default="dry", default_why="indoors", only_if=_GREASE,
)  # fmt: skip
VIBRATION = Choice(
    label="Vibration",
    why="It shakes grease out; a factor on the regreasing interval.",
    options=(Option("calm", "calm"), Option("rough", "rough"), Option("heavy", "heavy", "screens, hammers, rails")),
    default="calm", default_why="smooth machine", only_if=_GREASE,
)  # fmt: skip
REGREASING = Choice(
    label="Regreased",
    why="For life means that the first filling must last as long as the bearings should.",
    options=(
        Option("hand", "by hand"), Option("central", "by a central system", "a softer grease that can be pumped"),
        Option("life", "never, greased for life"),
    ),
    default="hand", default_why="a nipple and a plan", only_if=_GREASE,
)  # fmt: skip
INTERVAL = Measure(
    label="Regreasing interval wanted",
    why="Running hours that the grease must last at least; a shorter interval is a caution.",
    dimension=TIME, least=1.0, greatest=200_000.0, default=Quantity(170.0),
    default_why="a week of running; common practice, no source", only_if=("regreasing", ("hand", "central")),
)  # fmt: skip
