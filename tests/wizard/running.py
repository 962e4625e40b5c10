"""The wizard without a terminal: a small catalogue, keys pressed one after the other, the screen read as text."""

import asyncio
from contextlib import asynccontextmanager

from textual.events import Key
from textual.keys import _character_to_key

from engine.answers.document import Answers
from engine.record.document import Record
from tests.duties import answered, small_catalogue
from wizard.app import Conewright
from wizard.session import Session
from wizard.terminal import Abilities

#: A duty on which some pairs of the small catalogue pass and some do not.
DUTY = {
    "duty.distance": "200",
    "duty.life": "3000",
    "duty.cases[0].speed": "400",
    "duty.cases[0].radial_y": "9 kN",
    "duty.cases[0].axial": "3 kN",
}
#: Long enough for a loaded machine; nothing waits for it that succeeds.
PATIENCE = 60.0


def new_session(folder, texts=None, named=True):
    """Return a session on some answers in a file of the folder."""
    path = folder / ("record.toml" if named else "session-20200101-000000.toml")
    return Session(Record(answered(texts) if texts else Answers()), path, named)


COLOUR = Abilities(ascii=False, mono=False)
#: Keys with a name that type a character all the same.
CHARACTERS = {"question_mark": "?", "space": " "}


async def until(condition, what="", patience=PATIENCE):
    """Wait until a condition holds."""
    loop = asyncio.get_running_loop()
    end = loop.time() + patience
    while not condition():
        assert loop.time() < end, f"waited in vain: {what}"
        await asyncio.sleep(0.01)


class Hand:
    """Hands and eyes of one who sits before the wizard."""

    def __init__(self, app, pilot):
        self.app = app
        self.pilot = pilot

    @property
    def questions(self):
        return self.app.questions

    @property
    def marked(self):
        """The path of the marked question."""
        return self.questions.marked.path

    @property
    def answers(self):
        return self.app.session.answers

    def screen(self):
        """Return the text in front, line by line."""
        return [strip.text for strip in self.app.screen._compositor.render_strips()]

    def sees(self, text):
        return any(text in line for line in self.screen())

    def whole(self):
        """Return the text of the whole list in front, what has scrolled away too."""
        return "\n".join("".join(text for text, _ in one) for one in self.app.screen.rows.lines)

    async def press(self, *keys):
        """Press keys as a fast line brings them: all of them are queued before the first is dealt with."""
        for key in keys:
            character = key if len(key) == 1 else CHARACTERS.get(key)
            name = _character_to_key(key) if len(key) == 1 else key
            self.app.post_message(Key(name, character))
        # the queue keeps its order, so once this is done the keys are
        done = asyncio.Event()
        self.app.call_later(done.set)
        await until(lambda: done.is_set() or not self.app.is_running, "the keys")
        if self.app.is_running:
            await self.pilot.pause()

    async def type(self, text):
        """Type characters."""
        await self.press(*text)

    async def go(self, path):
        """Move the mark to a question of the chapter in front, by the arrow keys."""
        wanted = self.questions.form.line_of(path)
        assert wanted is not None, f"{path} is not asked here"
        stops = self.questions.form.stops
        by = stops.index(wanted) - stops.index(self.questions.rows.at)
        await self.press(*(["down"] * by or ["up"] * -by))
        assert self.marked == path

    async def rest(self):
        """Wait until everything has been found for the answers as they stand, the load distributions included."""
        await until(lambda: self.app.standing.done is self.answers, "the search")
        await self.pilot.pause()


@asynccontextmanager
async def wizard(session, can=COLOUR, load=lambda: small_catalogue(3), size=(80, 24)):
    """Run the wizard on a session and hand over the keyboard once the first count is there."""
    app = Conewright(session, can, load)
    async with app.run_test(size=size) as pilot:
        hand = Hand(app, pilot)
        await until(lambda: app.standing.counted is not None or app.standing.wrong, "the first count")
        await pilot.pause()
        yield hand
