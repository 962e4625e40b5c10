"""Each piece that leans on the screen framework's private parts: it works, and it is still needed."""

import asyncio
import inspect

import pytest
import textual
from rich.cells import cell_len
from rich.segment import Segment
from rich.style import Style
from textual._xterm_parser import XTermParser
from textual.app import App
from textual.css.query import NoMatches
from textual.drivers import linux_driver
from textual.screen import Screen
from textual.widget import Widget

from engine.record.read import read
from tests.duties import small_catalogue
from tests.wizard.running import COLOUR, DUTY, new_session, wizard
from wizard import framework, glyphs
from wizard.app import Conewright
from wizard.framework import AsciiFilter, OneQueue, ascii_twin, forgiving_input, only_ascii
from wizard.terminal import Abilities


def test_the_version_is_the_one_in_which_all_this_was_seen():
    assert textual.__version__ == "8.2.8"
    assert "textual 8.2.8" in framework.__doc__


# one key after the other


class Second(Screen):
    pass


class Overtaking(Widget, can_focus=True):
    """Takes the keys a and b: a opens a screen, which takes its time to open."""

    def on_key(self, event):
        self.app.seen.append((event.key, type(self.screen).__name__))
        if event.key == "a":
            self.app.push_screen(Second())


class Stock(App):
    """The framework as it comes: keys go to the queue of the focused widget."""

    def __init__(self):
        super().__init__()
        self.seen = []

    def compose(self):
        yield Overtaking()


class Ordered(OneQueue):
    """The same with keys taken by the application."""

    def __init__(self):
        super().__init__()
        self.seen = []
        self.texts = []

    async def pressed(self, key, character):  # noqa: ARG002
        self.seen.append((key, type(self.screen).__name__))
        if key == "a":
            await self.push_screen(Second())

    async def pasted(self, text):
        self.texts.append(text)


def fast(app, *keys):
    """Queue keys as a fast line does, then let the application deal with them; return where each arrived."""

    async def run():
        async with app.run_test() as pilot:
            await pilot.pause()
            for key in keys:
                app.post_message(textual.events.Key(key, key))
            for _ in range(500):
                if len(app.seen) == len(keys):
                    break
                await asyncio.sleep(0.01)
            await pilot.pause()
        return app.seen

    return asyncio.run(run())


def test_a_key_that_opens_a_screen_is_done_before_the_next_begins():
    assert fast(Ordered(), "a", "b") == [("a", "Screen"), ("b", "Second")]


def test_the_framework_by_itself_still_lets_a_key_arrive_at_the_old_place():
    assert ("b", "Screen") in fast(Stock(), "a", "b")


class Missing(Screen):
    """Looks for a widget that it does not have, as a screen does that has lost its widgets."""

    def on_paste(self):
        self.query_one("#lost")


def ended_by(app, leaving):
    """Let a screen miss a widget, while the application ends or not; return the error that it ended with."""

    async def run():
        async with app.run_test():
            screen = Missing()
            await app.push_screen(screen)
            if leaving:
                app.exit(3)
            screen.post_message(textual.events.Paste(""))
            await asyncio.sleep(0.1)

    app.last_words = lambda error: type(error).__name__
    try:
        asyncio.run(run())
    except NoMatches:
        return app.said_last
    return app.return_value


def test_a_screen_that_has_lost_its_widgets_at_the_end_is_no_error_inside():
    assert ended_by(Ordered(), leaving=True) == 3


def test_before_the_end_it_is_one():
    assert ended_by(Ordered(), leaving=False) == "NoMatches"


def test_what_is_typed_ahead_of_the_end_is_dropped():
    app = Ordered()

    async def run():
        async with app.run_test():
            app.exit(0)
            await app.on_event(textual.events.Key("b", "b"))

    asyncio.run(run())
    assert app.seen == []


def test_a_pasted_text_is_taken_whole():
    app = Ordered()

    async def run():
        async with app.run_test() as pilot:
            app.post_message(textual.events.Paste("2 1/2 in"))
            await pilot.pause()

    asyncio.run(run())
    assert app.texts == ["2 1/2 in"]


# nothing outside ASCII


def test_ascii_stays_as_it_is():
    text = "".join(map(chr, range(32, 127)))
    assert ascii_twin(text) is text


@pytest.mark.parametrize(
    ("text", "twin"),
    [
        ("─│┌┼┘", "-|+++"),
        ("✓ ✗ ■·", "+ x #."),
        ("▸ ↑ ↓", "> ^ v"),
        ("é", "?"),
        ("軸受", "????"),  # two cells a character
        ("e\u0301", "e"),  # a combining accent has no cell of its own
        ("a…b", "a.b"),
    ],
)
def test_a_twin_takes_the_same_cells(text, twin):
    assert ascii_twin(text) == twin
    assert cell_len(twin) == cell_len(text)


def test_every_drawn_character_has_its_twin():
    for name in glyphs.Glyphs.__dataclass_fields__:
        drawn, plain = getattr(glyphs.UNICODE, name), getattr(glyphs.ASCII, name)
        assert plain.isascii()
        assert cell_len(drawn) == cell_len(plain) == 1
        assert ascii_twin(drawn) != "?"


def test_every_character_of_a_segment_is_mapped_and_its_style_kept():
    style = Style(bold=True)
    given = [Segment("Löwe ✓", style), Segment("plain", None)]
    assert AsciiFilter().apply(given, None) == [Segment("L?we +", style), Segment("plain", None)]


def test_the_filter_is_the_last_of_the_application():
    app = App()
    before = len(app._filters)
    only_ascii(app)
    assert len(app._filters) == before + 1
    assert isinstance(app._filters[-1], AsciiFilter)


def test_on_an_ascii_terminal_every_screen_is_ascii_whatever_the_job_is_called(tmp_path):
    seen = []

    async def run():
        session = new_session(tmp_path, DUTY | {"duty.job": "Löwenwinde ✓ 軸"})
        async with wizard(session, can=Abilities(ascii=True, mono=True)) as hand:
            await hand.rest()
            for keys in (["up"], ["s"], ["enter"], ["escape", "escape", "question_mark"], ["end"]):
                await hand.press(*keys)
                seen.append("\n".join(hand.screen()))

    asyncio.run(run())
    assert "L?wenwinde + ??" in seen[0]
    assert len(set(seen)) == 5
    assert [screen for screen in seen if not screen.isascii()] == []


# bytes that are not UTF-8


@pytest.fixture
def decoder(monkeypatch):
    """Return a way to get the decoder of the input thread; what was there is put back afterwards."""
    stock = linux_driver.getincrementaldecoder
    monkeypatch.setattr(linux_driver, "getincrementaldecoder", stock)

    def made(encoding):
        monkeypatch.setattr("locale.getpreferredencoding", lambda _=True: encoding)
        forgiving_input()
        return linux_driver.getincrementaldecoder("utf-8")()

    made.stock = stock
    return made


@pytest.mark.parametrize(
    ("encoding", "typed", "read"),
    [
        ("UTF-8", "é µ".encode(), "é µ"),
        ("UTF-8", b"5\xe9 mm", "5\ufffd mm"),
        ("ISO-8859-1", b"\xe9\xb5\xb0", "éµ°"),
        ("ANSI_X3.4-1968", "é".encode(), "é"),
        ("ascii", b"\xff5", "\ufffd5"),
    ],
)
def test_bytes_are_read_in_the_encoding_of_the_locale_and_none_is_an_error(decoder, encoding, typed, read):
    assert decoder(encoding).decode(typed) == read


def test_a_character_in_two_pieces_is_one_character(decoder):
    one = decoder("UTF-8")
    assert [one.decode(b"\xc3"), one.decode(b"\xa9")] == ["", "é"]


def test_the_framework_by_itself_still_dies_of_such_a_byte(decoder):
    with pytest.raises(UnicodeDecodeError):
        decoder.stock("utf-8")().decode(b"5\xe9 mm")
    # and this is the name by which it gets its decoder
    assert 'getincrementaldecoder("utf-8")' in inspect.getsource(linux_driver.LinuxDriver.run_input_thread)


# the caret


def test_the_caret_of_the_terminal_is_shown():
    written = []

    class Driver:
        write = staticmethod(written.append)

    app = App()
    app._driver = Driver()
    framework.show_caret(app)
    assert written == ["\x1b[?25h"]
    app._driver = None
    framework.show_caret(app)
    assert len(written) == 1


def test_an_error_inside_ends_with_calm_words_and_the_answers_kept(tmp_path, monkeypatch):
    """The framework would print a traceback with every local variable."""
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))

    async def sit():
        session = new_session(tmp_path, DUTY)
        app = Conewright(session, COLOUR, load=lambda: small_catalogue(1))
        async with app.run_test() as pilot:
            await pilot.pause()
            session.answer("duty.life", "1234")
            app._fatal_error()
            return app

    app = asyncio.run(sit())
    said = app.said_last
    assert app.return_code == 70
    assert "Conewright had to stop" in said
    assert str(tmp_path / "record.toml") in said
    assert "Traceback" not in said
    assert read(tmp_path / "record.toml").answers.duty.life.value == 1234
    assert list((tmp_path / "state" / "conewright").glob("error-*.txt"))


# Esc and a key right behind it


@pytest.fixture
def as_it_comes(monkeypatch):
    """Put the framework's own reading of keys back afterwards."""
    monkeypatch.setattr(XTermParser, "_sequence_to_key_events", XTermParser._sequence_to_key_events)


def read_as(data):
    return [event.key for event in XTermParser().feed(data)]


@pytest.mark.usefixtures("as_it_comes")
def test_esc_and_a_key_right_behind_it_are_two_keys():
    before = [read_as(data) for data in ("\x1b=", "\x1b2", "\x1b\r")]
    assert all(keys[:1] != ["escape"] for keys in before)  # still needed
    framework.escape_alone()
    assert read_as("\x1b=") == ["escape", "equals_sign"]
    assert read_as("\x1b2s") == ["escape", "2", "s"]
    assert read_as("\x1b\r") == ["escape", "enter"]


@pytest.mark.usefixtures("as_it_comes")
def test_longer_sequences_are_read_as_before():
    framework.escape_alone()
    assert read_as("\x1b[A\x1bOP\x1b[6~\x1bOHx") == ["up", "f1", "pagedown", "home", "x"]
