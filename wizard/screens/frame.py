"""Lines that every screen has: the head, the panel that says how many pairs remain, and the footer of keys."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rich.cells import cell_len

from engine.errors import plain
from wizard import keys, wording
from wizard.widgets.lines import Line, cut, fitted, line, wrapped

if TYPE_CHECKING:
    from wizard.glyphs import Glyphs
    from wizard.standing import Standing

#: Characters of a progress bar.
BAR = 10


def head(title: str, right: str, width: int) -> Line:
    """Return the first line: the program, what is open, and at the right whether it is saved."""
    # on a narrow screen it is what stands at the right that is cut
    right = cut(right, max(0, width - 14 - min(cell_len(title), width // 3)))
    room = max(0, width - cell_len(right) - 14)
    return (("Conewright  ", "title"), (fitted(title, room), "plain"), (f"  {right}", "quiet"))


def rule(glyphs: Glyphs, width: int, title: str = "") -> Line:
    """Return a line across the screen, with a title in it where one is given."""
    lead = f"{glyphs.rule * 2} {cut(title, width - 6)} " if title else ""
    return line(lead + glyphs.rule * max(0, width - cell_len(lead)), "quiet")


def foot(place: str, width: int, typing: bool = False) -> Line:
    """Return as many of the keys that work here as the width holds; always the way back, then help and quit."""
    shown = [key for key in (keys.while_typing if typing else keys.at)(place) if key.in_footer]
    back = [key for key in shown if key.action == "back"]
    always = [*back, *(key for key in shown if key.place in {"every", "typing"})]
    room = width + 2 - sum(map(_cells, always))  # the blanks behind the last one may be missing
    kept = []
    for key in (key for key in shown if key not in always):
        if _cells(key) <= room:
            room -= _cells(key)
            kept.append(key)
    pieces: list[tuple[str, str]] = []
    for key in (*kept, *always):
        pieces += [(key.shown, "key"), (f" {key.label}  ", "quiet")]
    return tuple(pieces)


def _cells(key: keys.Key) -> int:
    """Return how many cells a key takes in the footer, the blanks behind it included."""
    return len(key.shown) + len(key.label) + 3


def panel(standing: Standing, glyphs: Glyphs, width: int) -> list[Line]:
    """Return the lines that say how many pairs remain, what the last answer did, and what is missing or chosen."""
    if standing.wrong:
        first, second = [*wrapped(standing.wrong, width, 2), ""][:2]
        return [line(first, "fails"), line(fitted(second, width), "fails"), _second(standing, glyphs, width)]
    change = standing.change or _first_words(standing)
    return [_count(standing, width), line(fitted(change, width), "plain"), _second(standing, glyphs, width)]


def _first_words(standing: Standing) -> str:
    """Return where to begin, until an answer has changed the count."""
    if standing.counted is None:
        return ""
    from engine.answers.running import needed  # not before the first frame

    short = len(needed(standing.counted.answers))
    return f"{wording.counted(short, 'answer', 'answers')} short of lives: n asks for the next one." if short else ""


def _count(standing: Standing, width: int) -> Line:
    counted = standing.counted
    share = f", {100 * standing.searched:.0f} %" if standing.searched else ""
    if counted is None:
        return line(f"Looking through the pairs{share} ..." if share else "Reading the catalogue ...", "quiet")
    remains = ("at most " if counted.too_many else "") + wording.remaining(counted.count, counted.listed)
    remains += "" if counted.resolved.loads_known else ", before any load"
    if standing.counting:
        return line(fitted(f"{remains}  counting again{share} ...", width), "quiet")
    return line(fitted(remains, width), "fails" if counted.count == 0 else "title")


def _second(standing: Standing, glyphs: Glyphs, width: int) -> Line:
    counted = standing.counted
    if standing.trouble:
        return line(fitted(standing.trouble, width), "fails")
    if standing.chosen is not None:
        return _chosen(standing, glyphs, width)
    if counted is None:
        return line("")
    if counted.too_many:
        return line(fitted(wording.TOO_MANY, width), "caution")
    if counted.resolved.missing:
        return line(_missing(counted.resolved.missing, width), "caution")
    if counted.count <= wording.FEW:
        return line(fitted(wording.few(counted.count), width), "caution")
    assumed = wording.counted(len(counted.resolved.assumptions), "assumption", "assumptions")
    return line(fitted(f"All checks counted, with {assumed} for open questions (T visits them).", width), "quiet")


def _missing(missing: tuple[str, ...], width: int) -> str:
    """Return what the loads still need, as much of it as the width holds, and how much more there is."""
    lead = "Missing for the loads: "
    for shown in range(len(missing), 0, -1):
        more = f"; {len(missing) - shown} more, see ?" if shown < len(missing) else ""
        text = lead + "; ".join(missing[:shown]) + more
        if cell_len(text) <= width:
            return text
    more = f"; {len(missing) - 1} more, see ?" if len(missing) > 1 else ", see ?"
    return fitted(lead + missing[0], width - len(more)).rstrip() + more


def bar(glyphs: Glyphs, share: float) -> str:
    """Return how far something is, as a bar and in per cent."""
    full = round(BAR * share)
    return f"{glyphs.bar_full * full}{glyphs.bar_empty * (BAR - full)} {100 * share:3.0f} %"


def progress(standing: Standing, glyphs: Glyphs, pair: tuple[str, str] | None) -> str:
    """Return how far the load distribution of a pair is."""
    now = standing.progress
    share = now.share if now is not None and now.pair == pair else 0.0
    return bar(glyphs, share)


def _chosen(standing: Standing, glyphs: Glyphs, width: int) -> Line:
    assert standing.chosen is not None
    # the verdict keeps room, however long the names are
    names = [cut(plain(name, 60), min(24, (width - 28) // 2)) for name in standing.chosen]
    pair = f"Chosen: A {names[0]}, B {names[1]}  "
    verdict, meaning = standing.verdict
    mark = {"passes": glyphs.passes, "fails": glyphs.fails}.get(meaning, glyphs.caution)
    if verdict and not standing.whole and meaning == "passes":
        # the closed formulas say so; the load distribution may not
        verdict, meaning, mark = f"{verdict} so far, {_more(standing, glyphs)}", "quiet", glyphs.caution
    return ((pair, "plain"), (fitted(f"{mark} {verdict}" if verdict else "", max(0, width - cell_len(pair))), meaning))


def _more(standing: Standing, glyphs: Glyphs) -> str:
    return "setting stopped" if standing.halted else f"setting {progress(standing, glyphs, standing.chosen)}"
