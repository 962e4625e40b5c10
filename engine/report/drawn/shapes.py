"""What a drawing is made of, before any format: lines, areas and words in millimetres of paper, y downwards."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from html import escape

Point = tuple[float, float]
#: A drawing of a report is at most so high [mm]: it goes on a page of A4 or Letter with its heading and caption.
TALLEST = 200.0


@dataclass(frozen=True)
class Pen:
    """How a line or area looks: colour and width of its line, dashes, colour of its inside; "" draws none."""

    stroke: str = "#1a1a1a"
    width: float = 0.25
    dash: tuple[float, ...] = ()
    fill: str = ""


#: Every look by its meaning; widths as on technical drawings. Print in grey keeps them apart.
PENS = {
    "cone": Pen(width=0.35, fill="#c9d6e3"),
    "cup": Pen(width=0.35, fill="#dde3c8"),
    "roller": Pen(width=0.35, fill="#f4ead0"),
    "shaft": Pen(width=0.35, fill="#eeeeee"),
    "edge": Pen(width=0.35),
    "axis": Pen(width=0.18, dash=(4.0, 1.0, 0.6, 1.0)),
    "load": Pen(stroke="#a03020", width=0.25, dash=(3.0, 0.8, 0.6, 0.8)),
    "force": Pen(stroke="#a03020", width=0.5, fill="#a03020"),
    "size": Pen(stroke="#444444", width=0.13),
    "tip": Pen(stroke="", fill="#444444"),
    "grid": Pen(stroke="#cccccc", width=0.13),
    "wide": Pen(stroke="", fill="#e2edd9"),
    "narrow": Pen(stroke="", fill="#e5c98a"),
    "frame": Pen(stroke="#888888", width=0.18),
    "curve": Pen(stroke="#1f5a94", width=0.5),
    "second": Pen(stroke="#8a5a00", width=0.5, dash=(2.0, 1.0)),
    "third": Pen(stroke="#4a7a3a", width=0.5, dash=(0.8, 0.8)),
    "mark": Pen(stroke="#a03020", width=0.35, fill="#ffffff"),
    "limit": Pen(stroke="#a03020", width=0.35, dash=(1.5, 1.0)),
    "passes": Pen(stroke="", fill="#5b8f5b"),
    "near": Pen(stroke="", fill="#c79a2e"),
    "fails": Pen(stroke="", fill="#b5443a"),
    "caution": Pen(stroke="#c79a2e", width=0.25, fill="#f4ead0"),
}


@dataclass(frozen=True)
class Line:
    """A line through points."""

    points: tuple[Point, ...]
    pen: str


@dataclass(frozen=True)
class Area:
    """A closed area."""

    points: tuple[Point, ...]
    pen: str


@dataclass(frozen=True)
class Circle:
    """A circle."""

    x: float
    y: float
    radius: float
    pen: str


@dataclass(frozen=True)
class Words:
    """Words at a point: where they are anchored ("start", "middle", "end"), their height, turned upright or not."""

    x: float
    y: float
    text: str
    anchor: str = "start"
    size: float = 2.6
    upright: bool = False


Shape = Line | Area | Circle | Words


@dataclass
class Drawing:
    """Shapes on a sheet of a width and height [mm], with a title that says what is seen."""

    title: str
    width: float
    height: float
    shapes: list[Shape] = field(default_factory=list)

    def line(self, pen: str, *points: Point) -> None:
        """Draw a line."""
        self.shapes.append(Line(points, pen))

    def area(self, pen: str, points: Sequence[Point]) -> None:
        """Draw a closed area."""
        self.shapes.append(Area(tuple(points), pen))

    def circle(self, pen: str, x: float, y: float, radius: float) -> None:
        """Draw a circle."""
        self.shapes.append(Circle(x, y, radius, pen))

    def words(
        self, x: float, y: float, text: str, anchor: str = "start", size: float = 2.6, upright: bool = False
    ) -> None:
        """Write words."""
        self.shapes.append(Words(x, y, text, anchor, size, upright))

    def arrow(self, pen: str, start: Point, end: Point, head: float = 1.8) -> None:
        """Draw an arrow from start to end."""
        dx, dy = end[0] - start[0], end[1] - start[1]
        length = (dx * dx + dy * dy) ** 0.5
        if length == 0:
            return
        ux, uy = dx / length, dy / length
        back = (end[0] - head * ux, end[1] - head * uy)
        self.line(pen, start, back)
        wing = head / 3.5
        points = (end, (back[0] - wing * uy, back[1] + wing * ux), (back[0] + wing * uy, back[1] - wing * ux))
        self.area(pen if PENS[pen].fill else "tip", points)


def svg(drawing: Drawing) -> str:
    """Return a drawing as an SVG element that stands by itself: no style sheet, no font file, nothing outside."""
    width, height = _n(drawing.width), _n(drawing.height)
    lines = [
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width} {height}" width="{width}mm" '
        f'height="{height}mm" role="img" aria-label="{escape(drawing.title)}" '
        'font-family="Helvetica, Arial, sans-serif">',
        f"<title>{escape(drawing.title)}</title>",
        *(_shape(shape) for shape in drawing.shapes),
        "</svg>",
    ]
    return "\n".join(lines)


def _shape(shape: Shape) -> str:
    if isinstance(shape, Words):
        turned = f' transform="rotate(-90 {_n(shape.x)} {_n(shape.y)})"' if shape.upright else ""
        return (
            f'<text x="{_n(shape.x)}" y="{_n(shape.y)}" font-size="{_n(shape.size)}" text-anchor="{shape.anchor}"'
            f'{turned} fill="#1a1a1a">{escape(shape.text)}</text>'
        )
    look = _look(PENS[shape.pen], closed=not isinstance(shape, Line))
    if isinstance(shape, Circle):
        return f'<circle cx="{_n(shape.x)}" cy="{_n(shape.y)}" r="{_n(shape.radius)}" {look}/>'
    points = " ".join(f"{_n(x)},{_n(y)}" for x, y in shape.points)
    return f'<{"polyline" if isinstance(shape, Line) else "polygon"} points="{points}" {look}/>'


def _look(pen: Pen, closed: bool) -> str:
    fill = pen.fill if closed and pen.fill else "none"
    stroke = f'stroke="{pen.stroke}" stroke-width="{_n(pen.width)}"' if pen.stroke else 'stroke="none"'
    dash = f' stroke-dasharray="{" ".join(map(_n, pen.dash))}"' if pen.dash else ""
    return f'fill="{fill}" {stroke}{dash}'


def _n(value: float) -> str:
    """Return a coordinate as short as it can be, the same every time."""
    return f"{round(value, 3) + 0.0:g}"
