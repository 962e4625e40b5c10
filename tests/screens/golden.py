"""Screens as text: what a person would see, one file a screen, reviewed by eye.

`UPDATE_SCREENS=1 python -m pytest tests/screens` writes them anew; read the difference before it is committed.
"""

import asyncio
import os
from pathlib import Path

from wizard.app import Conewright
from wizard.terminal import Abilities

FOLDER = Path(__file__).parent / "golden"


def text_of(app):
    """Return the screen in front as lines of text, without the blanks at their ends."""
    strips = app.screen._compositor.render_strips()
    return "\n".join(strip.text.rstrip() for strip in strips) + "\n"


def style_of(app):
    """Return which cells of the screen in front are drawn reverse (#), bold (b) or plain (.), line by line."""
    lines = []
    for strip in app.screen._compositor.render_strips():
        marks = []
        for segment in strip:
            style = segment.style
            mark = "#" if style and style.reverse else "b" if style and style.bold else "."
            marks.append(mark * segment.cell_length)
        lines.append("".join(marks).rstrip("."))
    return "\n".join(lines) + "\n"


def colours_of(app):
    """Return the colours that anything of the screen in front is drawn with."""
    segments = [segment for strip in app.screen._compositor.render_strips() for segment in strip]
    styles = [segment.style for segment in segments if segment.style is not None]
    return {colour.name for style in styles for colour in (style.color, style.bgcolor) if not _own(colour)}


def _own(colour):
    """Whether a colour is the terminal's own."""
    return colour is None or colour.is_default


async def _until(app, condition, seconds=60.0):
    for _ in range(int(seconds / 0.02)):
        if condition(app):
            return
        await asyncio.sleep(0.02)
    raise AssertionError("the screen did not come to rest")


def finished(app):
    """Whether everything has been found for the answers as they stand, load distributions and drawings included."""
    return app.standing.done is app.session.answers and _drawn(app)


def told(app):
    """Whether the search is at rest, and the screen in front has been told all that it asked for."""
    return at_rest(app) and not any(getattr(app.screen, waits, False) for waits in ("running", "computing"))


def _drawn(app):
    drawn = app.standing.drawn
    return drawn is not None and drawn.answers is app.session.answers


def at_rest(app):
    """Whether the search has answered for the answers as they stand, and the chosen pair is computed in full.

    The load distributions of the leading pairs are not waited for: only the screens that show them do that.
    """
    standing, answers = app.standing, app.session.answers
    listed = standing.listed is not None and standing.listed.answers is answers
    whole = app.session.chosen is None or standing.whole or bool(standing.trouble)
    return _drawn(app) and (standing.done is answers or (listed and whole))


#: Among the keys: wait until everything has been found before the next one.
REST = "(rest)"


def drive(session, keys, size=(80, 24), can=None, look=text_of, load=None, rest=at_rest, beginning=None):
    """Run the wizard on a session, press keys, and return what `look` sees; ('type', text) types a text, REST waits."""

    async def run():
        app = Conewright(session, can or Abilities(ascii=False, mono=True), load=load, beginning=beginning)
        async with app.run_test(size=size) as pilot:
            await _until(app, rest)
            for key in keys:
                if key is REST:
                    await _until(app, rest)
                elif isinstance(key, tuple):
                    for character in key[1]:
                        await app.pressed(character, character)
                else:
                    await app.pressed(key, None)
                await pilot.pause()
            await _until(app, rest)
            await pilot.pause()
            return look(app)

    return asyncio.run(run())


def compare(name, seen, kind="txt", folder=FOLDER):
    """Compare with the file that is kept, or write it when UPDATE_SCREENS is set."""
    path = folder / f"{name}.{kind}"
    if os.environ.get("UPDATE_SCREENS"):
        path.parent.mkdir(exist_ok=True)
        path.write_text(seen, encoding="utf-8", newline="\n")
    assert path.exists(), f"nothing is kept as {path.name}; UPDATE_SCREENS=1 writes it"
    assert seen == path.read_text(encoding="utf-8")
