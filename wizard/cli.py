"""The command line: without a command the wizard opens, on a new session or on a record."""

from __future__ import annotations

import os
import sys
from pathlib import Path

from engine import __version__
from engine.errors import Problems, plain
from wizard.exit_codes import Exit

USAGE = """\
usage: conewright [RECORD.toml]              open the wizard, on a new session or a record
       conewright calc RECORD.toml [--json]  compute a record without a screen
       conewright demo                       open a finished example
       conewright catalog check FILE.csv     explain a catalogue of your own, row by row
       conewright catalog use FILE.csv       use it from now on (--builtin goes back)
       conewright decode TEXT                say what a designation means, and what has those sizes

Choose a pair of tapered roller bearings for a shaft and prove that it does the work.

options:
  --ascii      draw with ASCII characters only (chosen by itself from the locale and TERM)
  --corrected COPY.csv   with catalog check: write a corrected copy
  --json       with calc: the same content for machines
  --version    print the version and where it was loaded from
  --help       print this

exit status: 0 every check passes (or the wizard ended normally), 1 a check fails or the duty is
incomplete, 2 a record, an argument or the terminal cannot be used.

examples:
  conewright                                 start with the first question
  conewright shredder.toml                   go on where you left off
  conewright calc shredder.toml              print the pair, its checks and the verdict
  conewright calc shredder.toml --json > shredder.json

Nothing typed is lost: every answer is saved as it is given, under ~/.local/state/conewright until
the record has a name of its own (key w). Notice: results need a licensed engineer's approval.
"""

COMMANDS = ("calc", "demo", "decode", "catalog")
OPTIONS = ("--ascii", "--json")


def main(arguments: list[str] | None = None) -> int:
    """Run a command line; return the exit status."""
    words = list(sys.argv[1:] if arguments is None else arguments)
    try:
        status = _run(words)
        if sys.stdout is not None:
            sys.stdout.flush()  # here, where what goes wrong can still be told
    except Problems as problems:
        print(f"conewright: cannot use the file; it is left as it is.\n{problems}", file=sys.stderr)
        return Exit.BAD_INPUT
    except BrokenPipeError:
        # the reader of a pipe went away (conewright calc ... | head); that is no error of ours
        _drop_output()
        return Exit.PASSES
    except OSError as error:
        _drop_output()
        print(f"conewright: {plain(error.strerror or str(error))}", file=sys.stderr)
        return Exit.BAD_INPUT
    return status


def _drop_output() -> None:
    """Let what is left unwritten go nowhere, so that ending the program does not fail on it once more."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def _run(words: list[str]) -> int:
    if words[:1] == ["catalog"]:
        return _catalog(words[1:])
    if "--help" in words or "-h" in words:
        print(USAGE, end="")
        return Exit.PASSES
    if "--version" in words:
        print(f"conewright {__version__} from {Path(__file__).resolve().parent.parent}")
        return Exit.PASSES
    options = {word for word in words if word.startswith("-") and word != "-"}
    names = [word for word in words if word not in options]
    command = names.pop(0) if names and names[0] in COMMANDS else ""
    wrong = _wrong(command, names, options)
    if wrong:
        print(f"conewright: {wrong}\n(conewright --help shows examples)", file=sys.stderr)
        return Exit.BAD_INPUT
    if command == "calc":
        return _calc(Path(names[0]), "--json" in options)
    if command == "decode":
        return _decode(names[0])
    return _wizard(names[0] if names else None, command == "demo", True if "--ascii" in options else None)


def _wrong(command: str, names: list[str], options: set[str]) -> str:
    unknown = sorted(options - set(OPTIONS))
    if unknown:
        return f"there is no option {plain(unknown[0])}; accepted: {', '.join(OPTIONS)}, --version, --help"
    if "--json" in options and command != "calc":
        return "--json goes with calc: conewright calc RECORD.toml --json"
    if command == "calc" and len(names) != 1:
        return "calc needs one record: conewright calc RECORD.toml"
    if command == "decode" and len(names) != 1:
        return "decode needs one designation: conewright decode T4CB120"
    if command == "demo" and names:
        return "demo takes no file: conewright demo"
    if len(names) > 1:
        return f"one record at a time; {len(names)} were given"
    return ""


def _calc(path: Path, as_json: bool) -> int:
    from wizard.commands import calc

    return calc.run(path, as_json)


def _catalog(words: list[str]) -> int:
    from wizard.commands import catalog

    copy = None
    if "--help" in words or "-h" in words:
        return catalog.show_format()
    if "--corrected" in words[:-1]:
        at = words.index("--corrected")
        copy = Path(words[at + 1])
        words = words[:at] + words[at + 2 :]
    match words:
        case ["check", file] if not file.startswith("-"):
            return catalog.check(Path(file), copy)
        case ["use", "--builtin"]:
            return catalog.use(None)
        case ["use", file] if not file.startswith("-"):
            return catalog.use(Path(file))
    print(
        "conewright: catalog takes: check FILE.csv [--corrected COPY.csv], use FILE.csv, use --builtin, --help",
        file=sys.stderr,
    )
    return Exit.BAD_INPUT


def _decode(text: str) -> int:
    from wizard.commands import decode

    return decode.run(text)


def _wizard(name: str | None, demo: bool, ascii_wanted: bool | None) -> int:
    from wizard import terminal

    refusal = terminal.refusal((sys.stdin, sys.stdout, sys.stderr), os.environ)
    if refusal:
        print(refusal, file=sys.stderr)
        return Exit.BAD_INPUT
    can = terminal.abilities(os.environ, ascii_wanted)
    terminal.prepare(os.environ, can)
    from wizard.commands import catalog, open_session

    opened, note = open_session.demo() if demo else open_session.record_or_new(name)
    ways = open_session.ways_to_begin() if name is None and not demo else []
    if name is not None:
        open_session.remember(opened.path)
    # imported last: the framework reads the environment that was just prepared
    from wizard.app import Beginning, run

    return run(opened, can, note, catalog.active(), Beginning(ways, open_session.chosen, open_session.remember))
