"""Curves in characters: what is read off by the figures of the axes is what was plotted."""

import math
from itertools import pairwise

import pytest

from wizard.widgets.plot import Axis, Curve, legend, plot

HEIGHT = 11


def drawn(curves, across, up, width=80, height=HEIGHT):
    return ["".join(text for text, _ in parts) for parts in plot(curves, across, up, width, height)]


def number(text):
    return float(text.replace(" ", ""))


def upwards(lines):
    """Return the figure of each line that has one."""
    return {row: number(line.split("+")[0]) for row, line in enumerate(lines[:-3]) if "+" in line}


def along(lines):
    """Return the figure of each column that has one, by the signs over the figures."""
    edge = lines[-3]
    columns = [at for at, sign in enumerate(edge) if sign == "+"][1:]
    figures = lines[-2].replace("   ", "\t").split("\t")
    figures = [number(one) for one in figures if one.strip()]
    assert len(figures) == len(columns)
    return dict(zip(columns, figures, strict=True))


def read_off(places, at, log):
    """Return what an eye reads at a place between two that have figures."""
    (first, low), *_, (last, high) = sorted(places.items())
    if log:
        low, high = math.log10(low), math.log10(high)
    value = low + (high - low) * (at - first) / (last - first)
    return 10**value if log else value


def oil(T):
    return 10 ** (10 ** (10.2 - 4.0 * math.log10(T + 273.15))) - 0.7  # a straight line in Walther's plot


CURVES = {
    "oil": ([float(T) for T in range(101)], oil, True),
    "thin oil": ([20 + 0.5 * T for T in range(101)], lambda T: 70 * 0.97 ** (T - 20), True),
    "line": ([-2.57 + 3.3 * at for at in range(100)], lambda x: 12.5 * x - 880, False),
    "small": ([-0.061 + 0.001 * at for at in range(122)], lambda x: 130e3 * (1 - (x / 0.1) ** 2), False),
}


@pytest.mark.parametrize("width", [60, 80, 160])
@pytest.mark.parametrize("name", CURVES)
def test_what_is_read_off_is_what_was_plotted_to_half_a_character(name, width):
    x, of, log = CURVES[name]
    lines = drawn([Curve(x, [of(one) for one in x], "*")], Axis("temperature", "degC"), Axis("", log=log), width)
    rows, columns = upwards(lines), along(lines)
    assert len(rows) >= 3
    assert 3 <= len(columns) <= 14
    signs = [(row, at) for row, line in enumerate(lines[:-3]) for at, sign in enumerate(line) if sign == "*"]
    assert len(signs) > width / 2
    for row, at in signs:
        low, high = (read_off(columns, at + half, False) for half in (-0.501, 0.501))
        ends = [read_off(rows, row + half, log) for half in (-0.501, 0.501)]
        passed = [of(low + (high - low) * part / 20) for part in range(21)]
        assert min(passed) <= max(ends)
        assert max(passed) >= min(ends)


def test_the_line_of_100_lies_where_the_curve_passes_100():
    T = [float(one) for one in range(101)]
    lines = drawn([Curve(T, [oil(one) for one in T], "*")], Axis("temperature", "degC"), Axis("nu", "mm2/s", log=True))
    rows, columns = upwards(lines), along(lines)
    passes = next(one / 100 for one in range(10001) if oil(one / 100) <= 100)
    (row,) = [row for row, value in rows.items() if value == 100]
    read = [read_off(columns, at, False) for at, sign in enumerate(lines[row]) if sign == "*"]
    assert min(read) - 1 <= passes <= max(read) + 1
    # and a decade is as high as the next
    assert len({b - a for a, b in pairwise(sorted(rows))}) == 1


def test_figures_are_round_and_a_logarithmic_axis_says_so():
    for low, high in ((0.251, 0.868), (-10046, 3976), (1.64, 5.25), (99.8, 101.3), (0, 1), (7, 7), (-3e-4, 2e-4)):
        lines = drawn([Curve([low, high], [low, high], "*")], Axis("x"), Axis("y"))
        rows = [value for _, value in sorted(upwards(lines).items())]
        assert len(rows) >= 2
        steps = {float(f"{a - b:.9g}") for a, b in pairwise(rows)}
        assert len(steps) == 1
        assert f"{steps.pop():.6e}"[:8] in {"1.000000", "2.000000", "5.000000"}
    assert legend([], Axis("viscosity", "mm2/s", log=True), 80)[0][0].strip() == "viscosity mm2/s, log"


def test_nothing_to_draw_and_next_to_no_room_are_drawn_all_the_same():
    for width in (8, 20, 60):
        for height in (3, 7):
            for curves in ([], [Curve([1.0], [2.0], "X")], [Curve([math.nan], [math.inf], "X")]):
                lines = drawn(curves, Axis("x", "mm"), Axis("y", log=True), width, height)
                assert len(lines) == height + 3
