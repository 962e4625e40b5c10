"""Five hundred sessions in a pty: random keys, pastes, resizes, and an end at a random moment, most often a kill.

After each of them the record is whole and holds what was entered, all of it: every answer that was given and taken back
by script, by a model of these, and every change that random keys made afterwards, by the log that the wizard is made to
write of them. At most the answer being typed is lost. Nothing was said that looks like an error inside, and the next
start goes on from there.
"""

import json
import random
import re
import signal
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from engine.answers.document import Answers, put, question_at
from engine.record.read import read
from tests.soak.logged_wizard import tables
from tests.terminal.line import Line

pytestmark = pytest.mark.slow

SESSIONS = 500
#: Sessions at a time: more than cores, since most of a session is waiting.
AT_ONCE = 4
KEYS = [
    "up", "down", "right", "left", "home", "end", "pgup", "pgdn", "enter", "esc", "backspace", "del", "tab", "ctrl+u",
    *"acxJKurwoghsvbntmzlpi?=+-./<>[]0123456789", "ctrl+l", "mouse", "xoff", "xon", "xon",
]  # fmt: skip
TYPED = ["12.5", "2 1/2 in", "4.5 kN", "furlong", "[b]x[/b]", "-1", "1e999", "ü中\u0301", "\x1b[31m", "50..120", "yes"]
BYTES = {"tab": "\t", "ctrl+l": "\x0c", "xoff": "\x13", "xon": "\x11", "mouse": "\x1b[<0;20;6M\x1b[<0;20;6m"}
SIZES = [(80, 24), (60, 20), (20, 5), (132, 50), (200, 60)]
ENDS = [signal.SIGKILL] * 6 + [signal.SIGTERM, signal.SIGHUP, signal.SIGINT]
LOGGED = ("-m", "tests.soak.logged_wizard")
#: Questions that a script answers, and what it may type there.
SCRIPT = {
    "duty.life": ["4000", "12500.5", "900"],
    "duty.distance": ["160", "2 1/2 in", "310.25"],
    "duty.static_safety": ["1.5", "2"],
    "envelope.bore_a": ["50..120", "<=95"],
    "envelope.mass": ["30", "12.5"],
    "speed.overspeed": ["3000", "1750"],
    "lubrication.vi": ["90", "110"],
}
BAD = ("Traceback", "Error:", "error inside")


def find(line, label):
    """Go to a question by its name."""
    line.type("g")
    line.until_sees("Find:")
    line.type(label)
    line.until(lambda: line.sees(f" {label}"), label)
    line.type("enter")
    line.until(lambda: not line.sees("Find:"), "the question")


def answer(line, answers, path, text):
    """Answer a question until the screen shows that it is taken; return the answers that there must be by then."""
    question = question_at(path)
    value = question.parse(text)
    find(line, question.label)
    line.type("enter", "ctrl+u", text, "enter")
    line.until(lambda: not line.sees("▸"), "the entry closed")
    shown = f" {question.show(value)}"
    line.until(
        lambda: any(question.label in row and row.rstrip(" ~").endswith(shown) for row in line.screen.display), shown
    )
    return put(answers, path, value)


def scripted(line, rng, steps):
    """Answer questions, one of them again or taken back now and then; return the answers that were entered."""
    history = [Answers()]
    for _ in range(steps):
        if len(history) > 1 and rng.random() < 0.25:
            history.pop()
            line.type("u")
            line.until_sees("Taken back")
            continue
        path = rng.choice(list(SCRIPT))
        entered = answer(line, history[-1], path, rng.choice(SCRIPT[path]))
        if entered != history[-1]:
            history.append(entered)
        if rng.random() < 0.2:
            line.resize(*rng.choice([(60, 20), (132, 50)]))
            line.resize(80, 24)
    return history[-1]


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


def lost(log):
    """Return what a file does not hold of the answers that the log says it must: the last saved, or later ones."""
    held = {}
    for one in map(json.loads, log.read_text().splitlines()):
        # what was being saved may be there already; what was saved before it may not any more
        held[one["file"]] = [] if one["saved"] else held.get(one["file"], [None])
        held[one["file"]].append(one["answers"])
    wrong = []
    for file, accepted in held.items():
        if None in accepted and not Path(file).exists():
            continue  # nothing had been saved there yet
        found = tables(read(Path(file)).answers)  # raises where the record is not whole
        if found not in accepted and None not in accepted:
            wrong.append(f"{file} holds {found}, not one of {accepted}")
    return wrong


def session(folder, seed):
    """Run one session; return what is wrong with what it left behind, or ""."""
    rng = random.Random(seed)
    path, log = folder / f"shaft_{seed}.toml", folder / f"log_{seed}"
    # random keys may save under another name: beside the record, not where the tests run
    with Line(log, path, program=LOGGED, folder=folder) as line:
        line.until_sees("quit", "pairs remain")
        entered = scripted(line, rng, rng.randrange(1, 5))
        if entered != Answers() and (kept := read(path).answers) != entered:
            return f"{seed}: entered {tables(entered)}, the record has {tables(kept)}"
        if rng.random() < 0.3:
            find(line, question_at("duty.distance").label)
            line.type("enter", "ctrl+u", "77")  # this one is being typed and may be lost
            line.until_sees("▸ 77")
        else:
            noise(line, rng, rng.randrange(1, 60))
            entered = None
        if not line.ended:
            line.signal(rng.choice(ENDS))
        line.until(lambda: line.ended, "the end")
        seen = bytes(line.raw).decode(errors="replace")
    said = [bad for bad in BAD if bad in seen]
    if said:
        return f"{seed}: {said} on the screen: {seen[-600:]!r}\n{reported(seen)}"
    if entered is not None and entered != Answers() and read(path).answers != entered:
        return f"{seed}: entered {tables(entered)}, after the end the record has {tables(read(path).answers)}"
    return f"{seed}: {wrong}" if log.exists() and (wrong := lost(log)) else ""


def test_five_hundred_sessions_end_at_a_random_moment(tmp_path, home):
    with ThreadPoolExecutor(AT_ONCE) as pool:
        wrong = [found for found in pool.map(lambda seed: session(tmp_path, seed), range(SESSIONS)) if found]
    assert wrong == []
    assert home  # the sessions' own state went there


def test_the_next_start_goes_on_from_there(tmp_path, home):
    path = tmp_path / "shaft.toml"
    entered = Answers()
    for at in range(5):
        with Line(path) as line:
            line.until_sees("quit", "pairs remain")
            entered = answer(line, entered, "duty.life", str(100 + at))
            line.signal(signal.SIGKILL)
        with Line(path) as line:
            line.until_sees(f"{100 + at} h")
        assert read(path).answers == entered
    assert home
