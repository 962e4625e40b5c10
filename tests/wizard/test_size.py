"""Each cure for a size that is lost: it works, and it is still needed."""

import asyncio
import fcntl
import inspect
import os
import struct
import termios
from types import SimpleNamespace

import pytest
from textual import _time
from textual.app import App
from textual.drivers.linux_driver import LinuxDriver
from textual.events import Callback, Resize
from textual.geometry import Size
from textual.screen import Screen

from wizard.line.size import SizedApp, SizedScreen, _by_now

WIDE, USUAL = Size(132, 43), Size(80, 24)


def resized(size, pixels=None):
    return Resize(size, size, pixel_size=pixels)


# the size as it is by now


@pytest.fixture
def line():
    """Return a driver that draws on a terminal of 80 columns and 24 lines."""
    ours, its = os.openpty()
    fcntl.ioctl(its, termios.TIOCSWINSZ, struct.pack("HHHH", 24, 80, 0, 0))
    driver = LinuxDriver.__new__(LinuxDriver)
    with os.fdopen(its, "w") as driver._file:
        yield driver
    os.close(ours)


def test_the_size_is_the_one_that_the_terminal_has_by_now(line):
    assert _by_now(resized(WIDE), line).size == USUAL


def test_what_the_terminal_tells_with_its_pixels_stands(line):
    assert _by_now(resized(WIDE, Size(1320, 860)), line).size == WIDE


def test_a_terminal_that_does_not_know_its_size_is_taken_as_the_framework_takes_it(line):
    fcntl.ioctl(line._file.fileno(), termios.TIOCSWINSZ, struct.pack("HHHH", 0, 0, 0, 0))
    assert _by_now(resized(WIDE), line).size == WIDE


def test_without_a_terminal_the_size_is_as_told():
    with open(os.devnull, "w") as nothing:
        driver = LinuxDriver.__new__(LinuxDriver)
        driver._file = nothing
        assert _by_now(resized(WIDE), driver).size == WIDE
    assert _by_now(resized(WIDE), driver).size == WIDE  # closed
    assert _by_now(resized(WIDE), SimpleNamespace()).size == WIDE  # a browser, a test


def test_the_framework_by_itself_still_reads_the_size_in_the_handler_of_the_signal():
    source = inspect.getsource(LinuxDriver.start_application_mode)
    assert source.index("self._get_terminal_size()") < source.index("run_coroutine_threadsafe")


# a newer size that waits


def size_after(kind):
    """Give a screen two sizes with something in between, and return the one that it ends with."""

    async def run():
        app = App()
        async with app.run_test(size=USUAL) as pilot:
            await app.push_screen(kind())
            await pilot.pause()
            for message in (resized(WIDE), Callback(callback=lambda: None), resized(USUAL)):
                app.screen.post_message(message)
            while app.screen.message_queue_size:  # a pause of the pilot would put something of its own in between
                await asyncio.sleep(0.01)
            return app.screen.outer_size  # as large as it was laid out; its size is that of the application

    return asyncio.run(run())


def test_a_newer_size_that_waits_is_not_replaced_by_one_of_the_screens_own():
    assert size_after(SizedScreen) == USUAL


def test_the_framework_by_itself_still_replaces_it():
    assert size_after(Screen) == WIDE


# a timer that is late


def went_off(kind, monkeypatch):
    """Return whether a timer goes off that was due before it began to wait."""
    seen = []

    async def run():
        app = kind()
        async with app.run_test() as pilot:
            clock = iter(range(0, 1000, 10))  # ten seconds from one look at it to the next
            monkeypatch.setattr(_time, "get_time", lambda: float(next(clock)))
            timer = app.set_timer(1.0, lambda: seen.append(True))
            await asyncio.wait_for(timer._task, 5.0)
            monkeypatch.undo()
            await pilot.pause()

    asyncio.run(run())
    return bool(seen)


def test_a_timer_goes_off_late_on_a_busy_machine(monkeypatch):
    assert went_off(SizedApp, monkeypatch)


def test_the_framework_by_itself_still_drops_it(monkeypatch):
    assert not went_off(App, monkeypatch)
