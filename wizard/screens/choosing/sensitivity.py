"""On which inputs the verdict on a pair hangs: a tornado in characters, the longest bar first."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

from engine.errors import plain
from wizard.screens.choosing.asking import InquiryScreen, Work, cut
from wizard.studies.distributions import Pair
from wizard.widgets.lines import Line, fitted, line, wrapped

if TYPE_CHECKING:
    from collections.abc import Sequence

    from engine.selection.sensitivity import Bar, End, Tornado
    from wizard.glyphs import Glyphs

#: Utilisation beyond this is drawn at the edge: one wild input must not press all others into one column.
MOST = 2.0


def used(end: End | None) -> str:
    """Return a utilisation; '-' where that end cannot be."""
    return "-" if end is None or not math.isfinite(end.utilisation) else f"{end.utilisation:.2f}"


def lines_of(found: Tornado, glyphs: Glyphs, width: int) -> list[Line]:
    """Return a line for each bar: name, the utilisation with less and with more of it, the bar between the two."""
    name = max(14, min(28, width - 46))
    room = max(8, width - name - 19)
    low, high = _ends(found)
    made: list[Line] = [line(fitted(f" {fitted('input', name)}{'less':>7}{'more':>7}", width), "heading")]
    for bar in found.bars:
        drawn = (
            fitted(f"- {plain(bar.why)}", room) if bar.why else _drawn(bar, bar.own or found.stands, (low, high), room)
        )
        turns = bar.turns(found.stands)
        sign, meaning = (glyphs.caution, "caution") if turns else (" ", "plain")
        figures = f"{used(bar.less):>7}{used(bar.more):>7}"
        made.append(((f" {fitted(plain(bar.input.label), name)}", "plain"), (figures, "plain"), (f" {sign} ", meaning),
                     (drawn, "plain")))  # fmt: skip
    scale = fitted(f"{low:.2f}{f'{high:.2f}'.rjust(room - len(f'{low:.2f}'))}", room)
    made.append(line(f" {' ' * (name + 17)}{scale}", "quiet"))
    own = "".join(f", the setting {used(bar.own)}" for bar in found.bars if bar.own is not None)
    stands = f"| utilisation as answered, {used(found.stands)}{own}; the pair fails beyond :"
    turned = f"- a tenth less of it, + a tenth more; {glyphs.caution} the verdict turns"
    made += [line(f" {part}", "quiet") for words in (stands, turned) for part in wrapped(words, width - 2)]
    return made


def _ends(found: Tornado) -> tuple[float, float]:
    ends = [found.stands, *(end for bar in found.bars for end in (bar.less, bar.more, bar.own) if end is not None)]
    uses = [min(end.utilisation, MOST) for end in ends if not math.isnan(end.utilisation)]
    low, high = min([*uses, 1.0]), max([*uses, 1.0])
    return (low, high) if high > low else (low - 0.5, high + 0.5)


def _drawn(bar: Bar, stands: End, ends: tuple[float, float], room: int) -> str:
    """Return the bar: from where the pair stands to less of the input (-) and to more of it (+)."""
    low, high = ends

    def column(use: float) -> int:
        kept = high if math.isnan(use) else min(max(use, low), high)
        return round((kept - low) / (high - low) * (room - 1))

    cells, here = [" "] * room, column(stands.utilisation)
    cells[column(1.0)] = ":"
    for end, sign in ((bar.less, "-"), (bar.more, "+")):
        if end is None:
            continue
        at = column(end.utilisation)
        for where in range(min(at, here), max(at, here) + 1):
            cells[where] = "#" if cells[where] in "+-" and cells[where] != sign else sign
    cells[here] = "|"
    return "".join(cells)


class SensitivityScreen(InquiryScreen):
    """The tornado of one pair."""

    PLACE = "sensitivity"

    def __init__(self) -> None:
        super().__init__()
        self.pair: Pair | None = None

    def begin(self, pair: Pair | None) -> None:
        """Take the pair. Done before the screen opens."""
        self.forget()
        self.pair = pair

    def work(self) -> Work | None:
        """Return the question on what the verdict hangs."""
        catalogue, answers, pair = self.app.search.catalogue, self.app.session.answers, self.pair
        if catalogue is None or pair is None:
            return None

        def asked(ear: Any) -> Tornado:
            from engine.selection.sensitivity import tornado, with_setting

            rows = [catalogue.index_of(one) for one in pair]
            found = tornado(catalogue, rows[0], rows[1], answers, 0.1, ear.cancelled, ear.progress)
            return with_setting(found, catalogue, rows[0], rows[1], answers, 0.1, ear.cancelled)

        return asked

    def subject(self) -> str:
        """Return the names of the pair."""
        return f"What the verdict hangs on: A {self.pair[0]}, B {self.pair[1]}" if self.pair else "No pair is known yet"

    def page(self, width: int) -> tuple[list[Line], Sequence[int]]:
        """Return the bars."""
        if self.found is None:
            nothing = cut(" Choose a pair, or mark one in the shortlist, first.", width, "caution")
            return [self.nothing_yet() if self.pair else nothing], []
        if not self.found.bars:
            return [cut(" Loads are not yet known, so nothing can be varied.", width, "caution")], []
        return lines_of(self.found, self.app.glyphs, width), range(1, len(self.found.bars) + 1)

    def at_hand(self) -> tuple[str, str] | None:
        """Return the pair whose verdict it is."""
        return self.pair

    def about(self) -> str:
        """Say which check governs at either end of the marked bar."""
        at = self.rows.at - 1
        if self.found is None or not 0 <= at < len(self.found.bars):
            return ""
        bar = self.found.bars[at]
        if bar.why:
            return f"{bar.input.label}: {plain(bar.why)}"
        said = [f"{word}: {_said(end)}" for word, end in (("less", bar.less), ("more", bar.more)) if end is not None]
        if bar.own is not None:
            said.insert(0, f"as it is: {_said(bar.own)}")
        return f"{bar.input.label} ({bar.input.what}). {'; '.join(said)}"


def _said(end: End) -> str:
    governing = end.governing
    by = f" by {governing.check.name}{'' if governing.side == 'pair' else f' {governing.side}'}" if governing else ""
    return f"utilisation {used(end)}{by}, {'passes' if end.passes else 'FAILS'}"
