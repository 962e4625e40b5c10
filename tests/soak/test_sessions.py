"""Five hundred sessions in a pty: random keys, pastes, resizes, and an end at a random moment, most often a kill.

After each of them the record is whole and holds every answer that the screen had acknowledged; nothing was said that
looks like an error inside, and the next start goes on from there.
"""

import random
import re
import signal
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from engine.answers.document import all_asked
from engine.record.read import read
from tests.terminal.line import Line

pytestmark = pytest.mark.slow

SESSIONS = 500
#: Sessions at a time: more than cores, since most of a session is waiting.
AT_ONCE = 4
KEYS = [
    "up", "down", "right", "left", "home", "end", "pgup", "pgdn", "enter", "esc", "backspace", "del", "tab", "ctrl+u",
    *"acxJKurwoghsvbntmzlpi?=+-./<>[]0123456789", "ctrl+l", "mouse",
]  # fmt: skip
TYPED = ["12.5", "2 1/2 in", "4.5 kN", "furlong", "[b]x[/b]", "-1", "1e999", "ü中\u0301", "\x1b[31m", "50..120", "yes"]
BYTES = {"tab": "\t", "ctrl+l": "\x0c", "mouse": "\x1b[<0;20;6M\x1b[<0;20;6m"}
SIZES = [(80, 24), (60, 20), (20, 5), (132, 50), (200, 60)]
ENDS = [signal.SIGKILL] * 6 + [signal.SIGTERM, signal.SIGHUP, signal.SIGINT]
BAD = ("Traceback", "Error:", "error inside")


def acknowledged(line, rng, label, texts):
    """Answer a question until the screen shows that it is taken; return the last text."""
    last = None
    for text in texts:
        line.type("g")
        line.until_sees("Find:")
        line.type(label)
        line.until(lambda: line.sees(f" {label}"), label)
        line.type("enter")
        line.until(lambda: not line.sees("Find:"), "the question")
        line.type("enter", "ctrl+u", text, "enter")
        line.until_sees(f"{text} h")
        last = text
        if rng.random() < 0.5:
            break
    return last


def noise(line, rng, many):
    """Press keys at random, as fast as the line takes them; sizes change in between."""
    for _ in range(many):
        dice = rng.random()
        if dice < 0.05:
            line.resize(*rng.choice(SIZES))
        elif dice < 0.12:
            line.type(rng.choice(TYPED))
        elif dice < 0.16:
            line.send(b"\x1b[200~" + rng.choice(TYPED).encode() + b"\x1b[201~")
        else:
            key = rng.choice(KEYS)
            line.type(BYTES.get(key, key))
        line.take(rng.choice([0, 0, 0, 0.01]))
        if line.ended:
            return


def reported(seen):
    """Return what the report of an error inside says, where the screen names one."""
    named = re.search(r"stands in (\S+);", seen)
    return Path(named[1]).read_text() if named else ""


def session(folder, seed):
    """Run one session; return what is wrong with what it left behind, or ""."""
    rng = random.Random(seed)
    path = folder / f"shaft_{seed}.toml"
    # random keys may save under another name: beside the record, not where the tests run
    with Line(path, folder=folder) as line:
        line.until_sees("quit")
        life = acknowledged(line, rng, "Required life", [str(rng.randrange(100, 1000)) for _ in range(3)])
        kept = read(path).answers.duty.life
        if kept is None or kept.value != float(life):
            return f"{seed}: acknowledged {life} h, the record has {kept}"
        noise(line, rng, rng.randrange(0, 60))
        if not line.ended:
            line.signal(rng.choice(ENDS))
        line.until(lambda: line.ended, "the end")
        seen = bytes(line.raw).decode(errors="replace")
    said = [bad for bad in BAD if bad in seen]
    if said:
        return f"{seed}: {said} on the screen: {seen[-600:]!r}\n{reported(seen)}"
    record = read(path)  # raises where it is not whole
    list(all_asked(record.answers))
    return ""


def test_five_hundred_sessions_end_at_a_random_moment(tmp_path, home):
    with ThreadPoolExecutor(AT_ONCE) as pool:
        wrong = [found for found in pool.map(lambda seed: session(tmp_path, seed), range(SESSIONS)) if found]
    assert wrong == []
    assert home  # the sessions' own state went there


def test_the_next_start_goes_on_from_there(tmp_path, home):
    path = tmp_path / "shaft.toml"
    for seed in range(5):
        rng = random.Random(1000 + seed)
        with Line(path) as line:
            line.until_sees("quit")
            life = acknowledged(line, rng, "Required life", [str(rng.randrange(100, 1000))])
            line.signal(signal.SIGKILL)
        with Line(path) as line:
            line.until_sees(f"{life} h")
    assert home
