"""The command line: without a command the wizard opens, on a new session or on a record."""

from __future__ import annotations

import gc
import os
import sys
from pathlib import Path

from engine import __version__
from engine.errors import Problems, plain
from wizard.commands.words import COMMANDS as TAKES
from wizard.commands.words import OPTIONS, Words, parted
from wizard.exit_codes import Exit

USAGE = """\
usage: conewright [RECORD.toml]              open the wizard, on a new session or a record
       conewright demo                       open a finished example
       conewright calc RECORD.toml [--json]  compute a record without a screen
       conewright calc FILE... [-o TABLE]    many records, or duties in a CSV file, on all cores
       conewright verify RECORD.toml [--json]   compute it again, say what moved and why
       conewright diff A.toml B.toml [--json]   answers, choice and figures of two records
       conewright report RECORD.toml         a report (--markdown, --html, --pdf, --fitter)
       conewright schema [-o FOLDER]         JSON Schema of a record, for editors (--answers)
       conewright catalog check FILE.csv     explain a catalogue of your own, row by row
       conewright catalog use FILE.csv       use it from now on (--builtin goes back)
       conewright lubricants check FILE.toml    a list of lubricants of your own
       conewright lubricants use FILE.toml      offer them too (--builtin goes back); list shows all
       conewright serve [RECORD.toml]        the wizard in a browser of this machine (extra: web)
       conewright decode TEXT                say what a designation means, and what has those sizes

Choose a pair of tapered roller bearings for a shaft and prove that it does the work.

options:
  -o FILE      write there instead of to the terminal; a table ends in .csv or .jsonl
  --json       with calc, verify, diff: the same content for machines
  --html, --markdown, --pdf   with report: the form (else by the name behind -o, else Markdown)
  --fitter     with report: one page for the one who mounts the bearings
  --answers    with schema: of the answers alone
  --base RECORD.toml     with calc and duties: what every row has that leaves it open
  --port N     with serve: instead of port 8137
  --host A     with serve: instead of 127.0.0.1, which only this machine reaches
  --jobs N     with calc and many duties: on so many cores (else on all there are)
  --corrected COPY.csv   with catalog check: write a corrected copy
  --ascii      draw with ASCII only (else as LC_ALL, LC_CTYPE or LANG and TERM say)
  --no-mouse   leave the mouse to the terminal (with it, Shift and drag still copies)
  --version    print the version and where it was loaded from
  --help       print this

exit status: 0 every check passes, a record is verified, nothing differs (or the wizard ended
normally); 1 a check fails, the duty is incomplete, a figure moved, records differ; 2 a record, an
argument or the terminal cannot be used; 3 as 0, but a record holds keys that were not used;
74 the wizard could not save the answers where they belong.

examples:
  conewright                                 start with the first question
  conewright shredder.toml                   go on where you left off
  conewright calc shredder.toml              print the pair, its checks and the verdict
  conewright calc duties.csv --base shredder.toml -o results.csv
  conewright report shredder.toml -o shredder.html

Nothing typed is lost: every answer is saved as it is given, under ~/.local/state/conewright until
the record has a name of its own (key w). Notice: results need a licensed engineer's approval.
"""

COMMANDS = (*(name for name in TAKES if name), "catalog", "lubricants")
__all__ = ["COMMANDS", "OPTIONS", "USAGE", "main"]


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
    if words[:1] == ["lubricants"]:
        return _lubricants(words[1:])
    if "--help" in words or "-h" in words:
        print(USAGE, end="")
        return Exit.PASSES
    if "--version" in words:
        print(f"conewright {__version__} from {Path(__file__).resolve().parent.parent}")
        return Exit.PASSES
    typed, wrong = parted(words)
    if wrong:
        print(f"conewright: {wrong}\n(conewright --help shows examples)", file=sys.stderr)
        return Exit.BAD_INPUT
    if typed.command in {"", "demo"}:
        name = typed.names[0] if typed.names else None
        return _wizard(name, typed.command == "demo", typed.options)
    return _without_screen(typed)


def _without_screen(typed: Words) -> int:
    paths, output, as_json = [Path(name) for name in typed.names], typed.values.get("-o"), "--json" in typed.options
    match typed.command:
        case "calc":
            return _calc(typed, paths)
        case "verify":
            from wizard.commands import verify

            return verify.run(paths[0], as_json)
        case "diff":
            from wizard.commands import diff

            return diff.run(paths[0], paths[1], as_json)
        case "report":
            from wizard.commands import report

            return report.run(paths[0], typed.options, output)
        case "schema":
            from wizard.commands import schema

            return schema.run("--answers" in typed.options, output)
        case "serve":
            from wizard.commands import serve

            record = typed.names[0] if typed.names else None
            return serve.run(record, typed.values.get("--host"), typed.values.get("--port"))
        case _:
            from wizard.commands import decode

            return decode.run(typed.names[0])


def _calc(typed: Words, paths: list[Path]) -> int:
    output, as_json = typed.values.get("-o"), "--json" in typed.options
    table = output is not None and output.endswith((".csv", ".jsonl"))
    if len(paths) == 1 and paths[0].suffix != ".csv" and not table and not {"--base", "--jobs"} & set(typed.values):
        from wizard.commands import calc

        return calc.run(paths[0], as_json, output)
    from wizard.commands import batch

    return batch.run(paths, typed.values.get("--base"), typed.values.get("--jobs"), output, as_json)


def _catalog(words: list[str]) -> int:
    from wizard.commands.own import catalog

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


def _lubricants(words: list[str]) -> int:
    from wizard.commands.own import lubricants

    if "--help" in words or "-h" in words:
        return lubricants.show_format()
    match words:
        case ["list"]:
            return lubricants.show()
        case ["list", file] if not file.startswith("-"):
            return lubricants.show(Path(file))
        case ["check", file] if not file.startswith("-"):
            return lubricants.check(Path(file))
        case ["use", "--builtin"]:
            return lubricants.use(None)
        case ["use", file] if not file.startswith("-"):
            return lubricants.use(Path(file))
    print(
        "conewright: lubricants takes: check FILE.toml, use FILE.toml, use --builtin, list [FILE.toml], --help",
        file=sys.stderr,
    )
    return Exit.BAD_INPUT


def _wizard(name: str | None, demo: bool, options: set[str]) -> int:
    from wizard import terminal

    refusal = terminal.refusal((sys.stdin, sys.stdout, sys.stderr), os.environ)
    if refusal:
        print(refusal, file=sys.stderr)
        return Exit.BAD_INPUT
    # what start-up makes is here to stay: looking through it for what is no longer needed would hold up the first frame
    gc.disable()
    ascii_wanted = True if "--ascii" in options else None
    begun = terminal.environ_at_start()
    can = terminal.abilities(os.environ, ascii_wanted, "--no-mouse" not in options, begun)
    terminal.prepare(os.environ, can)
    from wizard.commands import open_session
    from wizard.commands.own import catalog, lubricants

    opened, note = open_session.demo() if demo else open_session.record_or_new(name)
    ways = open_session.ways_to_begin() if name is None and not demo else []
    if name is not None:
        open_session.remember(opened.path)
    # imported last: the framework reads the environment that was just prepared
    from wizard.app import run
    from wizard.screens.opening.beginning import Beginning

    beginning = Beginning(
        ways, open_session.chosen, open_session.remember, open_session.ways_to_begin, open_session.document,
        open_session.verified, open_session.compared,
    )  # fmt: skip
    return run(opened, can, note, (catalog.active(), lubricants.active()), beginning, can.mouse)
