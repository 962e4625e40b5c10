"""The words of a command line: what each command takes, and what is wrong with what was typed."""

from __future__ import annotations

from dataclasses import dataclass, field

from engine.errors import nearest, plain


@dataclass(frozen=True)
class Command:
    """What a command takes: names from `least` to `most`, options, and how it is written.

    `needs` says in words what names it needs.
    """

    usage: str
    needs: str
    least: int = 1
    most: int = 1
    options: tuple[str, ...] = ()


@dataclass(frozen=True)
class Words:
    """A command line taken apart: the command, its names, the options that were set, those with a value."""

    command: str
    names: list[str]
    options: set[str] = field(default_factory=set)
    values: dict[str, str] = field(default_factory=dict)


MANY = 1_000_000
COMMANDS = {
    "calc": Command(
        "conewright calc RECORD.toml [--json]", "calc needs a record, or duties in a CSV file", 1, MANY,
        ("--json", "--base", "--jobs", "-o"),
    ),
    "verify": Command("conewright verify RECORD.toml [--json]", "verify needs one record", options=("--json",)),
    "diff": Command("conewright diff A.toml B.toml [--json]", "diff needs two records", 2, 2, ("--json",)),
    "report": Command(
        "conewright report RECORD.toml --html -o FILE", "report needs one record",
        options=("--html", "--markdown", "--pdf", "--fitter", "-o"),
    ),
    "schema": Command("conewright schema [-o FOLDER]", "schema takes no file", 0, 0, ("--answers", "-o")),
    "demo": Command("conewright demo", "demo takes no file", 0, 0, ("--ascii", "--no-mouse")),
    "serve": Command("conewright serve [RECORD.toml]", "", 0, 1, ("--port", "--host")),
    "decode": Command("conewright decode T3DB050", "decode needs one designation"),
    "": Command("conewright RECORD.toml", "", 0, 1, ("--ascii", "--no-mouse")),
}  # fmt: skip
#: Options that are followed by a value, and what that is.
VALUED = {"-o": "a file", "--base": "a record", "--jobs": "a number", "--port": "a number", "--host": "an address"}
OPTIONS = ("--ascii", "--no-mouse", "--json", "--html", "--markdown", "--pdf", "--fitter", "--answers", *VALUED)


def parted(words: list[str]) -> tuple[Words, str]:
    """Return the words of a command line taken apart, and what is wrong with them or ""."""
    names: list[str] = []
    options: set[str] = set()
    values: dict[str, str] = {}
    wrong = ""
    at = 0
    while at < len(words):
        word = words[at]
        at += 1
        if word in VALUED:
            if at == len(words):
                wrong = wrong or f"{word} needs {VALUED[word]} behind it"
            else:
                values[word] = words[at]
                at += 1
        elif word.startswith("-") and word != "-":
            options.add(word)
        else:
            names.append(word)
    command = names.pop(0) if names and names[0] in COMMANDS else ""
    found = Words(command, names, options, values)
    return found, _unknown(options) or wrong or _misplaced(found) or _count(found)


def _unknown(options: set[str]) -> str:
    unknown = sorted(options - set(OPTIONS))
    if not unknown:
        return ""
    near = nearest(unknown[0], OPTIONS)
    meant = f'; did you mean "{near}"?' if near else ""
    return f"there is no option {plain(unknown[0])}; accepted: {', '.join(OPTIONS)}, --version, --help{meant}"


def _misplaced(words: Words) -> str:
    given = {*words.options, *words.values}
    for option in sorted(given - set(COMMANDS[words.command].options)):
        taking = [name for name, command in COMMANDS.items() if option in command.options]
        named = ", ".join(name or "the wizard" for name in taking)
        return f"{option} goes with {named}: {COMMANDS[taking[0]].usage}"
    return ""


def _count(words: Words) -> str:
    command, count = COMMANDS[words.command], len(words.names)
    if command.least <= count <= command.most:
        return ""
    if not words.command:
        return f"one record at a time; {count} were given"
    return f"{command.needs}: {command.usage}"
