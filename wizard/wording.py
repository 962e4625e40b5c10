"""Sentences that the screens share, so that one thing is said one way."""

import shlex
from datetime import datetime
from pathlib import Path

from engine.answers.question import Question
from engine.answers.worded import Choice
from engine.errors import plain


def grouped(number: int) -> str:
    """Return a count with all its digits, in groups of three from five digits up, as ISO 80000-1 has it."""
    return f"{number:,}".replace(",", " ") if abs(number) >= 10_000 else str(number)


def counted(number: int, one: str, many: str) -> str:
    """Return '1 pair' or '2 pairs'."""
    return f"{grouped(number)} {one if number == 1 else many}"


def remaining(count: int, listed: int) -> str:
    """Return how many pairs remain of those that the catalogue can form."""
    return f"{grouped(count)} of {counted(listed, 'pair remains', 'pairs remain')}"


NO_LOADS = "Loads are not yet known: no lives, only space and steel. n asks for them."
TOO_MANY = "Too many to look through one by one: give a bore, an outside diameter or a load first."


def change(label: str, before: int, after: int) -> str:
    """Return what the last answer took away or gave back."""
    if after < before:
        return f"{label} took away {grouped(before - after)}"
    if after > before:
        return f"{label} gave back {grouped(after - before)}"
    return f"{label} left the count as it was"


def assumed(question: Question, default: object) -> str:
    """Return how an open question stands on the form."""
    if default is not None:
        return f"assumed: {question.show(default)}"
    return f"open: {question.default_why}" if question.default_why else "open"


def options_line(question: Question) -> str:
    """Return a choice's options with the number that picks each."""
    options = getattr(question, "options", ())
    if isinstance(question, Choice) and not question.by_number:
        return "  ".join(option.label for option in options)
    return "  ".join(f"{at} {option.label}" for at, option in enumerate(options, 1))


#: So few pairs are worth a word on how there would be more.
FEW = 3


def few(count: int) -> str:
    """Return where it is said what must give, for a short list or an empty one."""
    left = "No pair passes" if count == 0 else f"Only {counted(count, 'pair passes', 'pairs pass')}"
    return f"{left}: M says what must give, u takes the last answer back."


def farewell(path: Path, trouble: str, chosen: bool, rescued: bool = False) -> list[str]:
    """Return where the session is kept, once the terminal is restored; what went wrong where it is not."""
    wrong = [f"conewright: {trouble}"] if trouble else []
    if (trouble and not rescued) or not path.exists():
        return wrong
    name = shlex.quote(plain(path, 1000))
    return [
        *wrong,
        f"Saved in {name}" if not rescued else f"Saved instead in {name}",
        f"Go on with:  conewright {name}",
        *([f"Compute it:  conewright calc {name}"] if chosen else []),
    ]


def going_on(path: Path, record: Path | None) -> str:
    """Return that a session goes on, and how it gets into the record that it could not be saved in."""
    said = f"Going on with {plain(path.name)}."
    return said if record is None else f"{said} w and Enter save it in {plain(record.name, 60)}."


def new_record(path: Path, near: str) -> str:
    """Return that a record begins because there is no file of its name, and which file may have been meant."""
    meant = f" Did you mean {plain(near, 60)}?" if near else ""
    name = plain(path.name, 60)
    return f"{name} is new: there is no file of this name yet.{meant} It is written with the first answer."


def open_elsewhere(name: str, process: int, since: datetime) -> str:
    """Return that a record is open in another session, and what comes of changing it in both."""
    day = "" if since.date() == datetime.now().date() else f"{since:%Y-%m-%d} "
    return (
        f"{plain(name, 60)} is open in another session too (process {process}, since {day}{since:%H:%M}). "
        "Changed in both, this one goes on in a file of its own."
    )


def rescued(path: Path) -> str:
    """Return that a session holds what could not be saved in the record that was opened."""
    return f"Later answers, which could not be saved here, are kept in {plain(path.name)}; o goes on with them."


def nothing_lost(path: Path, trouble: str) -> list[str]:
    """Return what is said where a file could not be written again, but every answer stands in it, or none was given."""
    where = f"Every answer stands in {shlex.quote(plain(path, 1000))}" if path.exists() else "No answer was given"
    return [f"conewright: {trouble}", f"{where}; nothing is lost."]


def mishap(what: str, kept: str, report: Path | None) -> tuple[str, str]:
    """Return what is said where an error inside stopped something and the program goes on: in short, and in full."""
    said = f"{what} stopped: an error inside Conewright. {kept}."
    if report is None:
        return said, said
    where = f"What happened stands in {plain(report, 1000)}; please send that file to whoever keeps Conewright."
    return f"{said} See {plain(report.name)}.", f"{said} {where}"


def last_words(error: BaseException | None, path: Path, trouble: str, report: Path | None) -> str:
    """Return where the answers are, and where the details of an error inside are for those who can mend it."""
    kept = path.exists()
    where = f"Your answers are saved in {plain(path, 1000)}" if kept else "No answer had been given"
    where = plain(trouble) if trouble else where
    again = f"Go on with:  conewright {shlex.quote(plain(path, 1000))}\n" if kept else ""
    details = f"What happened stands in {plain(report, 1000)}; please send that file to whoever keeps Conewright.\n"
    return (
        f"Conewright had to stop: an error inside it ({type(error).__name__}).\n{where}.\n"
        f"{details if report else ''}{again}"
    )
