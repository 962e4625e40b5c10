"""The setting of a pair in lines: the curve of life, the way from the bench, the fitter's steps, rollers, chances."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from engine.errors import plain
from engine.units import number_text
from wizard.widgets.circle import circle
from wizard.widgets.figures import alike
from wizard.widgets.lines import Line, fitted, line, wrapped
from wizard.widgets.plot import Axis, Curve, legend, plot

if TYPE_CHECKING:
    from collections.abc import Sequence

    from engine.distribution.load_zone import LoadZone
    from engine.setting.study import Study
    from wizard.glyphs import Glyphs

PLOT = 9
CIRCLE = 11
BINS = 8
#: Settings at which more than the life is told.
BESIDE = 7
#: Why the life by load distribution is another one than that of the catalogue.
NOT_THE_CATALOGUE = (
    "The catalogue's L10 takes the load as spread over half the rollers, each loaded evenly along its length, with a "
    "factor 0.83 in the rating for what is uneven and an exponent of 10/3. The reference life counts every slice of "
    "every roller at its own load, with an exponent of 4 and without that factor: about (1/0.83)^4 = 2.1 times as long "
    "where half the rollers are loaded without tilt, at a light load more, shorter with end play, tilt, or load at the "
    "roller ends, of which rollers without a profile have most. Both are shown; each check says which one it uses."
)


@dataclass(frozen=True)
class View:
    """How the page is looked at: which load case, and whether lengths are in inches."""

    case: int = 0
    inch: bool = False


def worst_case(study: Study) -> int:
    """Return the load case that takes most life of either bearing."""
    import numpy as np

    cases = study.conditions.cases
    taken = sum(np.where(cases.running, cases.share * cases.n / np.maximum(one.L10r, 1e-300), 0.0)
                for one in study.at.lives)  # fmt: skip
    return int(np.argmax(taken))


def page(study: Study, view: View, glyphs: Glyphs, width: int) -> list[Line]:
    """Return the page of a study."""
    return [
        *_summary(study, view, width),
        *_curve(study, view, width),
        *_beside(study, view, width),
        *_chain(study, view, width),
        *_bench(study, width),
        *_stiffness(study, width),
        *_rollers(study, view, width),
        *_chances(study, view, glyphs, width),
        line(""),
        line("Why this life is not the catalogue's", "heading"),
        *_words(NOT_THE_CATALOGUE, width),
    ]


def _words(text: str, width: int, meaning: str = "plain") -> list[Line]:
    return [line(f" {part}", meaning) for part in wrapped(plain(text, 1000), width - 2)]


def _row(name: str, value: str, width: int) -> Line:
    label = max(22, min(38, width // 2 - 2))
    return line(fitted(f" {fitted(name, label)} {value}", width))


def _summary(study: Study, view: View, width: int) -> list[Line]:
    from engine.setting.bench import spelled

    low, high = study.reach.rss
    inside = study.band[0] <= study.service <= study.band[1]
    keeps = number_text(100 * study.conditions.resolved.setting.keeps)
    whose = "modified reference life" if study.filmed else "basic reference life"
    said = (
        f"In service {spelled(study.service, view.inch)}, {'inside' if inside else 'OUTSIDE'} the band that keeps "
        f"{keeps} % of the best life: from {spelled(study.band[0], view.inch)} to {spelled(study.band[1], view.inch)}."
    )
    probable = f"With its scatter from {spelled(low, view.inch)} to {spelled(high, view.inch)}."
    best = (
        f"Longest {whose} of the pair: {number_text(study.best[1], 3)} h at {spelled(study.best[0], view.inch)}; asked "
        f"for: {number_text(study.conditions.resolved.life, 5)} h."
    )
    return [
        *_words(said, width, "passes" if inside else "fails"),
        *_words(probable, width),
        *_words(best, width),
    ]


def _curve(study: Study, view: View, width: int) -> list[Line]:
    """Return the curve of life over the setting, with the band and the range in service drawn in."""
    scale = 1 / 25.4 if view.inch else 1.0
    x = [float(one) * scale for one in study.curve.setting]
    y = [float(one) for one in study.life]
    top = study.best[1]
    low, high = (min(max(one * scale, x[0]), x[-1]) for one in study.reach.rss)
    service = study.service * scale
    curves = [
        *(Curve((end * scale, end * scale), (0.0, top), "|", name)
          for end, name in zip(study.band, ("band", ""), strict=True)),
        Curve((low, high), (0.0, 0.0), "=", "its scatter"),
        Curve(x, y, "*", "life"),
        Curve((service,), (_at(study, study.service),), "O", "setting"),
    ]  # fmt: skip
    across = Axis("preload < 0 < end play", "in" if view.inch else "mm")
    up = Axis("life", "h", least=0.0, greatest=top)
    return [line(""), line("Life against setting", "heading"), legend(curves, up, width), *plot(
        curves, across, up, width, PLOT)]  # fmt: skip


def _beside(study: Study, view: View, width: int) -> list[Line]:
    """Return life, heat, stiffness and pressure at a few settings, and where the danger lies."""
    import numpy as np

    from engine.setting.bench import spelled

    curve, scale = study.curve, 1 / 25.4 if view.inch else 1.0
    low, high = min(study.reach.rss[0], study.band[0]), max(study.reach.rss[1], study.band[1])
    lines = [
        line(fitted(f" {'setting':>9} {'life h':>9} {'heat W':>8} {'axial kN/mm':>12} {'MPa':>6}", width), "quiet")
    ]
    settings = np.linspace(low, high, BESIDE)
    columns = [
        alike(np.interp(settings, curve.setting, of).tolist(), 3)
        for of in (study.life, curve.heat, curve.stiffness[:, 2] / 1e3, curve.p_max)
    ]
    for setting, life, heat, axial, pressure in zip(settings.tolist(), *columns, strict=True):
        inside = study.band[0] - 1e-9 <= setting <= study.band[1] + 1e-9
        text = f" {setting * scale:>+9.4f} {life:>9} {heat:>8} {axial:>12} {pressure:>6}"
        lines.append(line(fitted(f"{text}  {'in the band' if inside else ''}", width)))
    danger = study.runs_away_from
    said = (
        "Danger lies on the side of preload: life falls more steeply there, and heat brings more preload. "
        + (f"From {spelled(danger, view.inch)} on it feeds itself." if danger is not None
           else "On this curve it nowhere feeds itself.")
    )  # fmt: skip
    return [*lines, *_words(said, width, "caution" if danger is not None else "plain")]


def _at(study: Study, setting: float) -> float:
    import numpy as np

    return float(np.interp(setting, study.curve.setting, study.life))


def _chain(study: Study, view: View, width: int) -> list[Line]:
    from engine.record.setting_blocks import PARTS
    from engine.setting.bench import spelled

    chain, parts = study.chain, study.chained
    steps = [
        ("on the bench, 20 degC", chain.bench), ("with the rings on their seats", chain.mounted),
        ("warm", chain.warm), ("with the rings grown: in service", chain.service),
    ]  # fmt: skip
    lines = [line(""), line("From the bench into service", "heading")]
    lines += [_row(name, spelled(float(value), view.inch), width) for name, value in steps]
    fits = [f"{side} {cone.name or '-'} / {cup.name or '-'}"
            for side, cone, cup in zip("AB", parts.cones, parts.cups, strict=True)]  # fmt: skip
    lines.append(_row("fits, shaft / housing", ", ".join(fits), width))
    scale, unit = (1 / 25.4, "in") if view.inch else (1.0, "mm")
    least = 0.0005
    moved = sorted(((part, name) for name, part in study.reach.parts.items() if part >= least), reverse=True)
    lines += [_row(f"moved by {PARTS[name]}", f"+/- {part * scale:.4f} {unit}", width) for part, name in moved]
    return lines


def _bench(study: Study, width: int) -> list[Line]:
    from engine.setting.bench import instructions

    lines = [line(""), line("For the fitter", "heading")]
    for at, step in enumerate(instructions(study), 1):
        first, *rest = wrapped(step, width - 5)
        lines += [line(f" {at}  {first}"), *(line(f"    {part}") for part in rest)]
    return lines


def _stiffness(study: Study, width: int) -> list[Line]:
    import numpy as np

    K = np.diagonal(study.at.solution.stiffness, axis1=-2, axis2=-1).min(axis=0)
    heat = float(np.interp(study.service, study.curve.setting, study.curve.heat))
    return [
        line(""),
        line("Stiffness and heat at the setting in service", "heading"),
        _row("radial, planes y and z", f"{_kilo(K[0])} and {_kilo(K[1])} kN/mm", width),
        _row("axial", f"{_kilo(K[2])} kN/mm", width),
        _row("tilting, planes y and z", f"{_kilo(K[3] / 1e3)} and {_kilo(K[4] / 1e3)} kN m/rad", width),
        _row("heat by the load", f"{number_text(heat, 3)} W", width),
        _row("heat to preload to heat", f"gain {number_text(study.gain, 2)}; runs away at 1", width),
    ]


def _kilo(value: float) -> str:
    return number_text(float(value) / 1e3, 3)


def _rollers(study: Study, view: View, width: int) -> list[Line]:
    """Return the roller loads of both bearings around the circle in one load case."""
    cases = study.conditions.cases
    at = view.case % len(cases)
    size = max(15, min(27, (width - 8) // 2))
    drawn = [circle([float(Q) for Q in zone.Q[at]], side, size, CIRCLE)
             for side, zone in zip("AB", study.at.zones, strict=True)]  # fmt: skip
    lines = [
        line(""),
        line(
            fitted(f"Roller loads, load case {at + 1} of {len(cases)}: {plain(cases.names[at], 40)}", width), "heading"
        ),
        line(fitted(" tenths of the heaviest roller, . none; plane y up, plane z to the right", width), "quiet"),
    ]
    lines += [line(f"   {left}    {right}") for left, right in zip(*drawn, strict=True)]
    for side, zone in zip("AB", study.at.zones, strict=True):
        lines += _words(_carried(side, zone, at), width)
    return lines


def _carried(side: str, zone: LoadZone, at: int) -> str:
    import numpy as np

    def shown(value: float) -> str:
        return number_text(float(value), 3)

    Q = zone.Q[at]
    return (
        f"{side}: {int(np.count_nonzero(Q > 0))} of {zone.rollers.Z} rollers loaded, zone "
        f"{shown(np.degrees(zone.extent[at]))} deg, heaviest {_kilo(Q.max())} kN, pressure "
        f"{shown(zone.p_max[at])} MPa, at the ends {shown(zone.p_edge[at])} MPa, rib {shown(zone.rib[at].max())} N, "
        f"Fr {_kilo(zone.Fr[at])} kN, "
        f"Fa {_kilo(zone.Fa[at])} kN"
    )


def _chances(study: Study, view: View, glyphs: Glyphs, width: int) -> list[Line]:
    draws = study.draws
    if draws is None:
        return []
    scale, unit = (1 / 25.4, "in") if view.inch else (1.0, "mm")
    life = draws.modified if study.filmed else draws.life
    return [
        line(""),
        line(fitted(f"Chances over {number_text(len(draws.setting))} draws of fits, heat, loads and fitting", width),
             "heading"),
        _row("both reach the life", f"{number_text(100 * draws.survival, 4)} % of pairs", width),
        _row("rated for the life", f"{number_text(100 * draws.reached, 4)} % of draws", width),
        line(f" setting in service [{unit}]", "quiet"),
        *_bars([float(one) * scale for one in draws.setting], 4 if view.inch else 3, glyphs, width),
        line(" life of the pair [h]", "quiet"),
        *_bars([float(one) for one in life], -1, glyphs, width),
    ]  # fmt: skip


def _bars(values: Sequence[float], decimals: int, glyphs: Glyphs, width: int) -> list[Line]:
    """Return a histogram, a line a bin; `decimals` below 0 for three digits."""
    import numpy as np

    known = np.array(values)[np.isfinite(values)]
    if not len(known):
        return [line("  unknown", "quiet")]
    counts, edges = np.histogram(known, BINS)
    room = max(8, width - 36)
    lines = []
    shown = alike(edges.tolist(), 3) if decimals < 0 else [f"{end:+.{decimals}f}" for end in edges.tolist()]
    for count, *ends in zip(counts, shown[:-1], shown[1:], strict=True):
        share = count / len(known)
        bar = glyphs.bar_full * round(room * count / counts.max())
        lines.append(line(fitted(f" {' to '.join(f'{end:>9}' for end in ends)} {100 * share:5.1f} % {bar}", width)))
    return lines
