"""The lines of the shaft screen: the picture, the loads on the bearings, every force with its steps, the diagrams."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from engine.errors import plain
from engine.record.document import readable
from engine.units import number_text
from wizard.widgets import plot
from wizard.widgets.figures import aligned, alike, column, figure
from wizard.widgets.lines import Line, fitted, line, wrapped
from wizard.widgets.shaft import Drawn, picture

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from engine.duty.element import Element, Step
    from engine.duty.machine.torque import Balance
    from engine.record.loads.reactions import Reactions
    from wizard.glyphs import Glyphs

PLOT_HEIGHT = 8
#: Columns of a name at least, of a figure of one bearing, and of the unit behind it.
NAME, SIDE, UNIT = 20, 11, 8
#: Columns of what acts at most: the eye goes from there to its forces.
WIDEST = 72
ARRANGED = {"back_to_back": "back to back (O)", "face_to_face": "face to face (X)"}
LOADS = "loads"  # what is unfolded beside the elements: how the loads on the bearings come about


@dataclass(frozen=True)
class Acting:
    """One thing that acts in the case: its label in the picture, what it is, its forces."""

    label: str
    told: str
    element: Element


@dataclass(frozen=True)
class View:
    """What is shown: one case in one plane, in one arrangement or in both; what is unfolded, by key."""

    drawn: Drawn
    plane: str
    about: str  # whose load centres these are
    acting: tuple[Acting, ...] = ()
    arranged: tuple[tuple[str, Reactions | None], ...] = ()
    limit: float = 0.0  # of the slopes at the seats [minutes of arc]
    unfolded: frozenset[str] = frozenset()
    missing: tuple[str, ...] = ()
    torques: Balance | None = None
    tall: int = PLOT_HEIGHT  # lines of a plot


class Page:
    """Lines, those of them that can be marked, and what Enter unfolds at some of these."""

    def __init__(self, width: int) -> None:
        self.width = width
        self.lines: list[Line] = []
        self.stops: list[int] = []
        self.folds: dict[int, str] = {}

    def heading(self, text: str) -> None:
        """Add a heading."""
        self.lines.append(line(fitted(text, self.width), "heading"))

    def add(self, text: str, meaning: str = "plain", fold: str = "", stop: bool = True) -> None:
        """Add a line; one that is no stop is passed over by the mark."""
        if stop:
            self.stops.append(len(self.lines))
        if fold:
            self.folds[len(self.lines)] = fold
        self.lines.append(line(fitted(text, self.width).rstrip(), meaning))


def page(view: View, glyphs: Glyphs, width: int) -> Page:
    """Return the page."""
    made = Page(width)
    for text in picture(view.drawn, view.plane, width, glyphs):
        made.add(text, stop=False)
    if view.drawn.ends is None:
        said = "Nothing to draw yet: answer the distance between the bearings, or add an element."
        for text in wrapped(said, width - 2):
            made.add(f" {text}", "caution")
    for text in wrapped(view.about, width - 2):
        made.add(f" {text}", "quiet", stop=False)
    if view.torques is not None:
        for at, text in enumerate(wrapped(view.torques.said, width - 4)):
            made.add(f" {' ' if at else glyphs.caution} {text}", "caution", stop=False)
    if view.missing:
        made.heading("Forces are not yet known; missing:")
        for missing in view.missing:
            for text in wrapped(plain(missing, 200), width - 2):
                made.add(f" {text}", "caution")
        return made
    _loads(made, view, glyphs)
    _elements(made, view)
    _diagrams(made, view)
    return made


def _figures(made: Reactions, limit: float) -> Iterator[tuple[str, str, tuple[float, float], int]]:
    """Walk what is known of both bearings: name, unit, values of A and B, digits."""
    loads = made.loads
    yield "load centre", "mm", made.z, 5
    yield "load in plane y", "N", (float(loads[0].R_y), float(loads[1].R_y)), 5
    yield "load in plane z", "N", (float(loads[0].R_z), float(loads[1].R_z)), 5
    yield "radial load Fr", "N", (float(loads[0].Fr), float(loads[1].Fr)), 5
    if any(float(load.turning) for load in loads):
        yield " of it turning with the shaft", "N", (float(loads[0].turning), float(loads[1].turning)), 5
    yield "direction, from y to z", "deg", (_degrees(loads[0].angle), _degrees(loads[1].angle)), 4
    if made.Fa is not None:
        yield "axial load Fa", "N", made.Fa, 5
    if made.slopes is not None:
        yield f"seat slope, limit {readable(limit, 2)}", "arcmin", made.slopes, 3


def _degrees(angle: object) -> float:
    return float(angle) * 57.29577951308232  # type: ignore[arg-type]


def _loads(made: Page, view: View, glyphs: Glyphs) -> None:
    known = [reactions for _, reactions in view.arranged if reactions is not None]
    # beside each other where there is room, else under each other
    beside = made.width >= NAME + (SIDE + 1) * 2 * len(view.arranged) + UNIT
    for arranged in (view.arranged,) if beside else [(one,) for one in view.arranged]:
        _table(made, arranged, view.limit)
    if any(one.slopes is not None and max(one.slopes) > view.limit for one in known):
        made.add(f" {glyphs.caution} the shaft bends more at a seat than the usual limit", "caution", stop=False)
    if known:
        _fold(made, view, LOADS, " how these loads come about", known[0].steps)


def _table(made: Page, arranged: Sequence[tuple[str, Reactions | None]], limit: float) -> None:
    """Add the loads in some arrangements beside each other."""
    name = max(NAME, min(34, made.width - 2 * (SIDE + 1) * len(arranged) - UNIT))
    titles = "".join(f"{ARRANGED[arrangement]:>{2 * SIDE}}  " for arrangement, _ in arranged)
    made.heading(f"{fitted(' Loads on the bearings', name)}{titles}")
    made.add(f"{' ' * name}{f'{chr(65):>{SIDE}} {chr(66):>{SIDE}} ' * len(arranged)}", "quiet", stop=False)
    tables = [[*_figures(one, limit)] if one is not None else [] for _, one in arranged]
    longest = next((table for table in tables if table), None)
    if longest is None:
        made.add(" The load centres have changed places: no shaft can rest on them.", "fails")
        return
    values = [
        [value for table in tables for value in (table[at][2] if table else (float("nan"), float("nan")))]
        for at in range(len(longest))
    ]
    texts = [alike(of, digits) for of, (_, _, _, digits) in zip(values, longest, strict=True)]
    columns = [aligned(cells) for cells in zip(*texts, strict=True)]
    for (title, unit, _, _), of, *cells in zip(longest, values, *columns, strict=True):
        shown = "".join(f"{fitted(cell, SIDE, right=True)} " for cell in cells)
        over = unit == "arcmin" and any(value > limit for value in of)
        made.add(f" {fitted(title, name - 1)}{shown}{unit}", "caution" if over else "plain")


def _elements(made: Page, view: View) -> None:
    name = max(16, min(WIDEST, made.width - 38))
    title = " On the shaft, Enter unfolds" if name > NAME + 8 else " On the shaft"
    made.heading(f"{fitted(title, name)}{'plane y':>11}{'plane z':>11}{'along':>11} N")
    figures = alike([value for one in view.acting for value in _parts(one.element)], 5, 1)
    for at, one in enumerate(view.acting):
        forces = "".join(f"{text:>11}" for text in figures[3 * at : 3 * at + 3])
        text = fitted(f" {one.label:<4} {plain(one.told, 60)}", name - 2)
        turning = "turns with the shaft, at most" if one.element.rotating else ""
        _fold(made, view, f"element {at}", f"{text}{forces}", one.element.steps)
        if turning:
            made.add(f"      {turning} {readable(_amount(one.element), 5)} N", "quiet", stop=False)
    if not view.acting:
        made.add(" nothing acts in this case", "quiet")
    held = view.torques
    if held is not None and held.carried:
        into, out, rest = (readable(T / 1000, 5) for T in (held.into, held.out, held.rest))
        made.add(f" torque into the shaft {into}, out of it {out}, left over {rest} N m", "quiet")


def _parts(element: Element) -> tuple[float, float, float]:
    return float(element.F_y), float(element.F_z), float(element.F_a)


def _amount(element: Element) -> float:
    return float((element.F_y**2 + element.F_z**2) ** 0.5)


def _fold(made: Page, view: View, key: str, text: str, steps: Sequence[Step]) -> None:
    """Add a line that Enter unfolds, and what it unfolds to where it is open."""
    opened = key in view.unfolded
    made.add(f"{'-' if opened else '+'}{text}", fold=key)
    if not opened:
        return
    for shown, source in _unfolded(steps):
        made.add(f"    {shown}")
        for part in wrapped(source, made.width - 14) if source else ():
            made.add(f"            {part}", "quiet", stop=False)


def _unfolded(steps: Sequence[Step]) -> list[tuple[str, str]]:
    """Return each step as a line with its value, and the formula with its source that made it; angles in degrees."""
    values = [_degrees(step.value) if step.unit == "rad" else step.value for step in steps]
    cells = column(lambda most: [figure(value, 5, most) for value in values], 14)
    found = []
    for step, cell in zip(steps, cells, strict=True):
        unit = "deg" if step.unit == "rad" else step.unit.replace("-", "")
        source = "; ".join(part for part in (step.formula, step.source) if part)
        found.append((f"{step.symbol:<7} {cell:>11} {unit:<5} {step.name}", source))
    return found


def _diagrams(made: Page, view: View) -> None:
    known = next((one for _, one in view.arranged if one is not None), None)
    if known is None or not len(known.diagram.x):
        return
    drawing, plane = known.diagram, view.plane
    x = [float(value) for value in drawing.x]
    along = plot.Axis("")  # which the headings name, so that both plots go on a screen
    V = drawing.V_y if plane == "y" else drawing.V_z
    M = drawing.M_y if plane == "y" else drawing.M_z
    shear = [plot.Curve(x, [float(value) for value in V], "*")]
    _plot(made, view, f" Shear force N over mm along the shaft, plane {plane}", shear, along, "N")
    bending = [
        plot.Curve(x, [float(value) / 1000 for value in drawing.M], ".", "both planes"),
        plot.Curve(x, [float(value) / 1000 for value in M], "*", f"plane {plane}"),
    ]
    greatest = max((float(value) for value in drawing.M), default=0.0) / 1000
    title = f" Bending moment N m over mm, greatest {number_text(greatest, 4)}  . both  * plane {plane}"
    _plot(made, view, title, bending, along, "N m")


def _plot(made: Page, view: View, title: str, curves: list[plot.Curve], along: plot.Axis, unit: str) -> None:
    made.heading(title)
    for drawn in plot.plot(curves, along, plot.Axis("", unit), made.width, view.tall):
        made.lines.append(drawn)
    # the mark stands under the plot, so that all of it comes into view
    made.stops.append(len(made.lines) - 1)
