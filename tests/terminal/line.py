"""A terminal of our own at the other end of a pty: it types, keeps every byte, and shows what a person would see."""

import fcntl
import os
import re
import select
import signal
import struct
import sys
import termios
import time

import ptyprocess
import pyte

from tests.house.tree import ROOT

#: Long enough for a loaded machine; nothing waits for it that succeeds.
PATIENCE = 30.0
UTF8 = {"TERM": "xterm-256color", "LC_ALL": "C.UTF-8"}
KEYS = {
    "enter": "\r", "esc": "\x1b", "up": "\x1b[A", "down": "\x1b[B", "right": "\x1b[C", "left": "\x1b[D",
    "home": "\x1b[H", "end": "\x1b[F", "pgup": "\x1b[5~", "pgdn": "\x1b[6~", "backspace": "\x7f", "del": "\x1b[3~",
    "ctrl+u": "\x15",
}  # fmt: skip
#: What pyte does not know and would print: private modes with < = > and requests that end in $p.
_UNKNOWN = re.compile(rb"\x1b\[[<=>][0-9;]*[a-zA-Z]|\x1b\[\?[0-9;]*\$p")
#: Read from the environment of the machine, these would decide what is tested here.
_INHERITED = ("NO_COLOR", "COLORTERM", "LANG", "LC_ALL", "LC_CTYPE", "TERM", "COLUMNS", "LINES", "ESCDELAY")


class Line:
    """A program in a pty of 80 columns and 24 lines."""

    def __init__(self, *words, columns=80, lines=24, program=("-m", "wizard"), folder=None, **environ):
        kept = {name: value for name, value in os.environ.items() if name not in _INHERITED}
        kept |= {"PYTHONPATH": str(ROOT)} | (UTF8 | environ if "TERM" not in environ else environ)
        self.screen = pyte.Screen(columns, lines)
        self._stream = pyte.ByteStream(self.screen)
        self.raw = bytearray()
        self.drawing = True  # drawing takes longer than reading, which matters to a stopwatch only
        self._drawn = 0
        self.ended = False
        self.started = time.perf_counter()
        self.process = ptyprocess.PtyProcess.spawn(
            [sys.executable, *program, *map(str, words)], dimensions=(lines, columns), env=kept, cwd=folder
        )
        self.before = termios.tcgetattr(self.process.fd)

    def __enter__(self):
        return self

    def __exit__(self, *_):
        if self.process.isalive():
            os.kill(self.process.pid, signal.SIGKILL)
            self.process.wait()
        self.process.close(force=True)

    # eyes

    def take(self, seconds):
        """Read what comes within so many seconds, at least once; return whether anything came."""
        if self.ended or not select.select([self.process.fd], [], [], seconds)[0]:
            return False
        try:
            data = os.read(self.process.fd, 65536)
        except OSError:  # the other end is closed
            data = b""
        if not data:
            self.ended = True
            return False
        self.raw += data
        if self.drawing:
            self.draw()
        return True

    def draw(self):
        """Bring the screen up to date with what was read."""
        self._stream.feed(_UNKNOWN.sub(b"", bytes(self.raw[self._drawn :])))
        self._drawn = len(self.raw)

    def until(self, condition, what=""):
        """Read until a condition holds."""
        end = time.monotonic() + PATIENCE
        while not condition():
            left = end - time.monotonic()
            assert left > 0, f"waited in vain for {what}; the screen:\n{self.text()}"
            if self.ended:
                assert condition(), f"the program ended; waited for {what}; the screen:\n{self.text()}"
                return
            self.take(min(left, 0.5))

    def sees(self, text):
        return any(text in line for line in self.screen.display)

    def until_sees(self, *texts):
        for text in texts:
            self.until(lambda text=text: self.sees(text), repr(text))

    def settle(self, quiet=0.25):
        """Read until nothing has come for a while; for measuring and comparing, never as proof that something is."""
        while self.take(quiet):
            pass

    def text(self):
        return "\n".join(self.screen.display)

    def cells(self):
        """Return every cell with how it is drawn."""
        return [[self.screen.buffer[y][x] for x in range(self.screen.columns)] for y in range(self.screen.lines)]

    # hands

    def send(self, data):
        """Send bytes, as much at a time as the line takes, reading meanwhile."""
        while data:
            _, writable, _ = select.select([], [self.process.fd], [], PATIENCE)
            assert writable, "the program does not read"
            data = data[os.write(self.process.fd, data[:512]) :]
            self.take(0)

    def type(self, *keys):
        """Press keys: a name of KEYS, or text."""
        for key in keys:
            self.send(KEYS.get(key, key).encode())

    def resize(self, columns, lines):
        self.screen.resize(lines, columns)
        fcntl.ioctl(self.process.fd, termios.TIOCSWINSZ, struct.pack("HHHH", lines, columns, 0, 0))

    def signal(self, number):
        os.kill(self.process.pid, number)

    # the end

    def peak_memory(self):
        """Return the most memory that the process has held so far [MiB] (Linux: VmHWM of proc_pid_status(5))."""
        with open(f"/proc/{self.process.pid}/status", encoding="ascii") as status:
            return next(int(entry.split()[1]) for entry in status if entry.startswith("VmHWM")) / 1024

    def status(self):
        """Read to the end of the program; return its exit status, or minus the signal that killed it."""
        self.until(lambda: self.ended, "the end of the program")
        self.process.wait()
        return -self.process.signalstatus if self.process.signalstatus else self.process.exitstatus

    def restored(self):
        """Whether the terminal is as it was: main screen, cursor shown, line wrap on, input in lines with echo."""
        raw = bytes(self.raw)
        left = raw.rfind(b"\x1b[?1049l") > raw.rfind(b"\x1b[?1049h") >= 0
        shown = raw.rfind(b"\x1b[?25h") > raw.rfind(b"\x1b[?25l")
        wraps = raw.rfind(b"\x1b[?7h") > raw.rfind(b"\x1b[?7l")
        return left and shown and wraps

    def farewell(self):
        """Return what was said on the main screen, after the wizard had left its own."""
        return bytes(self.raw).rpartition(b"\x1b[?1049l")[2].decode()

    def input_mode(self):
        """Return how the line treats what is typed: in whole lines, with echo, with signals from keys."""
        flags = termios.tcgetattr(self.process.fd)[3]
        return {name: bool(flags & getattr(termios, name)) for name in ("ICANON", "ECHO", "ISIG")}


def wizard(*words, **environ):
    """Start the wizard and wait for its first count."""
    line = Line(*words, **environ)
    if not words:
        line.until_sees("Esc new session")
        line.type("enter")
        line.until(lambda: not line.sees("Esc new session"), "the questions")
    line.until_sees("pairs remain", "quit")
    return line
