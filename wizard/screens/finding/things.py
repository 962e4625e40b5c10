"""What can be found by typing: chapters, questions, actions, parts of the catalogue; and how well each one matches."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from engine.answers.document import CHAPTERS, all_asked, listings_of, questions_of
from engine.answers.uses.use import use_of
from engine.errors import plain
from wizard import keys, wording
from wizard.screens import form
from wizard.screens.help import PLACES

if TYPE_CHECKING:
    from collections.abc import Iterator

    from engine.answers.document import Answers, Asked
    from engine.answers.question import Question
    from engine.catalogue.columns import Catalogue
    from wizard.commands.recent import Offer

#: So many assemblies are listed; a longer part of the name finds the rest.
MOST_PARTS = 40
#: What matches no better than this is listed behind the parts whose name begins with what was typed.
WEAK = 5
#: Where actions are done at once: at the questions, on the shortlist, anywhere. The others are gone to.
DONE_AT = ("chapter", "shortlist", "every")
#: Places that are asked on the way, or have nothing to be gone to for.
_NOT_GONE_TO = {"help", "find", "leaving", "start", "assumed", "small"}
#: Kinds that do something: another word for one, typed whole, comes before what only holds the word.
_DOES = {"action", "place", "document", "record"}
#: Other words for actions, by name.
_WORDS = {
    "undo": "revert take back history", "redo": "repeat forward", "quit": "exit close leave end",
    "save_as": "export file name store record", "shortlist": "results candidates ranking list bearings",
    "browse": "catalog parts bearings search", "view": "picture drawing chart plot diagram shaft report",
    "gives": "loosen relax infeasible nothing passes", "why": "rejected excluded reason",
    "assumed": "assumptions defaults taken for granted", "next_assumed": "assumptions defaults walk",
    "next_open": "unanswered missing", "needed": "missing quick start minimum first", "repeat": "again last",
    "compare": "side by side versus", "sensitivity": "tornado sensitivity what if",
    "scatter": "scatter chart plot pareto",
    "weigh": "weights priorities multi-criteria", "choose": "pick select", "repaint": "redraw refresh",
    "stand_aside": "suspend shell background", "help": "keys manual documentation", "halt": "cancel interrupt",
    "add_item": "insert new element case step", "copy_item": "duplicate", "remove_item": "delete",
    "clear": "delete reset open again", "decode": "designation part number meaning",
    "setting": "roller loads load distribution",
}  # fmt: skip


@dataclass(frozen=True)
class Found:
    """One thing that can be gone to.

    Its kind (chapter, question, action, place, part, session, document, record), what it is called, more about it, its
    name; and what else it is looked for by, from other words for it to what only helps where nothing better is found.
    """

    kind: str
    title: str
    about: str
    name: str
    words: tuple[str, ...] = ()


#: What the command line writes of a record, by the form: where it is written, and other words for it.
DOCUMENTS = (
    Found("document", "> Report as HTML", "every figure with its clause, and the order; beside the record", "html",
          ("report print document write export order line purchase browser",)),
    Found("document", "> Report as Markdown", "the same as a text file; beside the record", "markdown",
          ("report print document write export order line purchase text md",)),
    Found("document", "> Report as PDF", "the same for the printer; beside the record", "pdf",
          ("report print document write export order line purchase",)),
    Found("document", "> Fitter's sheet as HTML", "fits, setting and mounting on one page; beside the record", "fitter",
          ("report print document write export workshop assembly sheet mounting",)),
    Found("document", "> Record as JSON", "answers, checks and figures for a program; beside the record", "json",
          ("export write save document machine data interchange calc",)),
    Found("document", "> Shortlist as CSV", "a row a pair with its verdict and lives; beside the record", "csv",
          ("export write save document table spreadsheet excel results candidates list",)),
)  # fmt: skip
#: What the command line says of a record, by the screen that says it here.
RECORDS = (
    Found("record", "> Verify this record", "compute its file again: what moved, by how much, why", "verify",
          ("check audit recompute reproduce prove verification",)),
    Found("record", "> Diff with another record", "answers, choice and figures of two records, compared", "diff",
          ("compare records difference delta changes between versus revision file",)),
)  # fmt: skip


def everything(answers: Answers, place: str) -> list[Found]:
    """Return every chapter, question and action; the actions of the place where it is looked for come first."""
    chapters = [Found("chapter", f"{at} {one.title}", one.about, one.field) for at, one in enumerate(CHAPTERS, 1)]
    order = dict.fromkeys((place, *DONE_AT, *(key.place for key in keys.KEYS)))
    actions: dict[tuple[str, str], Found] = {}
    for one in order:
        for key in keys.KEYS:
            if key.place == one and key.action not in {"find", "back"} and (one == place or one not in _NOT_GONE_TO):
                actions.setdefault((key.action, key.help), _action(key, place))
    return [*chapters, *_questions(answers), *RECORDS, *actions.values(), *DOCUMENTS]


def _questions(answers: Answers) -> Iterator[Found]:
    """Walk the questions that are asked, then those that are not, which lead to what they hang on."""
    every = list(all_asked(answers, every=True))
    yield from (_question(answers, item) for item in every if item.applies)
    yield from (_hidden({one.path: one for one in every}, item) for item in every if not item.applies)
    for chapter in CHAPTERS:
        table = getattr(answers, chapter.field)
        for name, listing in listings_of(type(table)).items():
            if not getattr(table, name):
                about = f"asked of each {listing.one}; a adds one"
                for inner, question in questions_of(listing.of).items():
                    path = f"{chapter.field}.{name}[0].{inner}"
                    yield Found("question", f"- {question.label}", about, path, _words_of(question, path))


def _hidden(every: dict[str, Asked], item: Asked) -> Found:
    """Return a question that is not asked as things stand: going to it goes to the one that it hangs on."""
    holder, _, _ = item.path.rpartition(".")
    above = item
    while not above.applies:
        holds = [one for one in (above.question.only_if, above.question.and_if) if one is not None]
        others = [every[f"{holder}.{name}"] for name, _ in holds]
        above = next((one for one in others if not one.applies), others[-1])
    about = f"asked only by the answer to {above.number} {above.question.label}"
    return Found("question", f"- {item.question.label}", about, above.path, _words_of(item.question, item.path))


def _question(answers: Answers, item: Asked) -> Found:
    question = item.question
    shown = wording.assumed(question, question.default) if item.value is None else question.show(item.value)
    chapter = next(one.title for one in CHAPTERS if one.field == item.path.partition(".")[0])
    where = form.item_title(answers, item) if item.listed else chapter
    return Found(
        "question", f"{item.number} {question.label}", f"{where}: {shown}", item.path, _words_of(question, item.path)
    )  # fmt: skip


def _words_of(question: Question, path: str) -> tuple[str, ...]:
    """Return other words for a question and its units, its options, and what explains it."""
    use, options = use_of(path), getattr(question, "options", ())
    units = getattr(getattr(question, "dimension", None), "units", ())
    explained = [*(one.means for one in options), question.why, use.does]
    return " ".join([use.words, *units]), " ".join(one.label for one in options), " ".join(explained)


def _action(key: keys.Key, place: str) -> Found:
    here = key.place in {place, *DONE_AT}
    about = key.help if here else f"{PLACES[key.place]}: {key.help}"
    kind = "action" if here else "place"
    words = (f"{_WORDS.get(key.action, '')} {PLACES[key.place]}",)
    return Found(kind, f"{key.shown}  {key.label}", about, f"{key.place}.{key.action}", words)


def sessions(offers: list[Offer]) -> list[Found]:
    """Return the other sessions that can be gone on with: a new one, those worked on last, the example."""
    words = {"": "start begin empty fresh", "demo": "demo demonstration sample tutorial finished"}
    return [
        Found("session", f"> {plain(one.title, 40)}", plain(one.about, 200), one.path,
              (f"session record open recent resume {words.get(one.path, '')}",))
        for one in offers
    ]  # fmt: skip


def matching(things: list[Found], text: str) -> list[tuple[int, Found]]:
    """Return the things in which every typed word stands, best first, each with how well it matches: 0 is best.

    The number of a chapter or question comes before all else, then a beginning of its name, another word for an action,
    then its name, other words for it, its options, and last what only explains it.
    """
    words = text.casefold().split()
    if not words:
        return [(0, one) for one in things]
    ranked = [(_rank(one, words), one) for one in things]
    return sorted(((rank, one) for rank, one in ranked if rank is not None), key=lambda both: both[0])


def _rank(one: Found, words: list[str]) -> int | None:
    lead, _, label = one.title.casefold().partition(" ")
    label = label.strip()
    if lead == words[0] and len(words) == 1:
        return 0
    if len(words) == 1 and words[0].isdigit() and lead.startswith(f"{words[0]}."):
        return 0  # all of a chapter, in order, behind the chapter itself
    if label.startswith(" ".join(words)):
        return 1 if lead != "-" else 3
    typed, others = " ".join(words), one.words[0].casefold() if one.words else ""
    if len(words) > 1 and one.kind == "action" and one.about.casefold().startswith(typed):
        return 2
    if one.kind in _DOES and f" {typed} " in f" {others} ":
        return 2
    fields = [f"{lead} {label}", others, one.about.casefold(), *(field.casefold() for field in one.words[1:])]
    ranks = [_where(word, fields) for word in words]
    if None in ranks:
        return None
    return max(rank for rank in ranks if rank is not None) + (lead == "-")


def _where(word: str, fields: list[str]) -> int | None:
    """Return how far back a word first stands: as the beginning of a word before the middle of one."""
    for at, field in enumerate(fields):
        if f" {word}" in f" {field}".replace("(", "( ").replace("/", "/ "):
            return 2 + 2 * at if at < 2 else WEAK + at
    held = next((at for at, field in enumerate(fields) if word in field), None)
    return None if held is None else 3 if held == 0 else WEAK + len(fields) + held


def with_parts(found: list[tuple[int, Found]], named: list[Found]) -> list[Found]:
    """Return what matches with the parts that are meant, which stand before what matches weakly."""
    strong = [one for rank, one in found if rank <= WEAK]
    return [*strong, *named, *(one for rank, one in found if rank > WEAK)]


def parts(catalogue: Catalogue | None, text: str) -> Iterator[Found]:
    """Walk the assemblies that are meant: by name, else by a part's name, else by what the text decodes to."""
    wanted = text.strip().casefold()
    if catalogue is None or len(wanted) < 2:
        return
    names = [str(name) for name in catalogue.designation.tolist()]
    held = [at for at, name in enumerate(names) if wanted in name.casefold()]
    held.sort(key=lambda at: (not names[at].casefold().startswith(wanted), at))
    for at in (held or _of_parts(catalogue, wanted) or _decoded(catalogue, text))[:MOST_PARTS]:
        size = f"d {catalogue.d[at]:g}  D {catalogue.D[at]:g}  T {catalogue.T[at]:g} mm"
        yield Found("part", plain(names[at], 40), size, str(at))


def _of_parts(catalogue: Catalogue, wanted: str) -> list[int]:
    both = zip(catalogue.cone.tolist(), catalogue.cup.tolist(), strict=True)
    return [at for at, (cone, cup) in enumerate(both) if wanted in cone.casefold() or wanted in cup.casefold()]


def _decoded(catalogue: Catalogue, text: str) -> list[int]:
    """Return the rows that the readings of a designation fix, however it is written."""
    from engine.catalogue.designation import decode
    from engine.catalogue.equivalents import find

    rows = (int(row) for reading in decode(text) for row in find(catalogue, reading))
    return list(dict.fromkeys(rows))
