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


async def _until(app, condition, seconds=20.0):
    for _ in range(int(seconds / 0.02)):
        if condition(app):
            return
        await asyncio.sleep(0.02)
    raise AssertionError("the screen did not come to rest")


def at_rest(app):
    """Whether everything has been found for the answers as they stand, load distributions and drawings included."""
    drawn = app.standing.drawn is not None and app.standing.drawn.answers is app.session.answers
    return app.standing.done is app.session.answers and drawn


def drive(session, keys, size=(80, 24), can=None, look=text_of, load=None, rest=at_rest):
    """Run the wizard on a session, press keys (a list; ('type', text) types a text), and return what `look` sees."""

    async def run():
        app = Conewright(session, can or Abilities(ascii=False, mono=True), load=load)
        async with app.run_test(size=size) as pilot:
            await _until(app, rest)
            for key in keys:
                if isinstance(key, tuple):
                    for character in key[1]:
                        await app.pressed(character, character)
                else:
                    await app.pressed(key, None)
                await pilot.pause()
            await _until(app, rest)
            await pilot.pause()
            return look(app)

    return asyncio.run(run())


def compare(name, seen):
    """Compare with the golden file, or write it when UPDATE_SCREENS is set."""
    path = FOLDER / f"{name}.txt"
    if os.environ.get("UPDATE_SCREENS"):
        path.parent.mkdir(exist_ok=True)
        path.write_text(seen, encoding="utf-8", newline="\n")
    assert path.exists(), f"no golden screen {path.name}; UPDATE_SCREENS=1 writes it"
    assert seen == path.read_text(encoding="utf-8")
