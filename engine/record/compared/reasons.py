"""Why a record no longer says what is computed: another program or catalogue, answers edited, a result changed."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from engine import __version__
from engine.answers.document import CHAPTERS
from engine.errors import plain
from engine.record.compared.digest import ANSWERS, SEAL, of_answers, seal
from engine.record.compared.edited import edited
from engine.record.compared.stored import any_key

if TYPE_CHECKING:
    from engine.record.computed import Computed
    from engine.record.document import Record

#: The layout before the first in which every result has a seal.
UNSEALED = "1.0"


@dataclass(frozen=True)
class Reason:
    """Why values may have moved: engine, catalogue, answers, result, version or unexplained; and that in words."""

    kind: str
    words: str


def unsealed(record: Record) -> bool:
    """Return whether the result of a record is older than the seal.

    The version alone does not tell, since it is a line that can be edited like any other: hashes of answers and keys
    of figures came with the seal, so that a result that has them once had a seal too.
    """
    return record.found_schema == UNSEALED and not (
        SEAL in record.found or ANSWERS in record.found or any_key(record.found)
    )


def worded(record: Record) -> bool:
    """Return whether the words of a result must be those of now, as its figures must.

    Without a seal the words of another version of the program say nothing: they may have been put better since.
    """
    return record.engine == __version__ or not unsealed(record)


def reasons(computed: Computed, differs: bool, numbers: Iterable[float] = ()) -> tuple[Reason, ...]:
    """Return all that may be why values differ; what was changed by hand is said even where none does.

    `numbers` are stored ones that are not what is computed now: an edited answer may be among them.
    """
    record = computed.record
    found: list[Reason] = []
    if record.engine != __version__ and record.found:
        words = f"The result was computed by version {plain(record.engine, 40)}; this is {__version__}."
        found.append(Reason("engine", words))
    if record.catalogue_hash and record.catalogue_hash != computed.source.content:
        words = (
            f"The catalogue has another content: {plain(record.catalogue, 80)} {record.catalogue_hash[:12]} then, "
            f"{plain(computed.source.name, 80)} {computed.source.content[:12]} now."
        )
        found.append(Reason("catalogue", words))
    found += [*_edited(record, numbers), *_tampered(record)]
    if differs and all(one.kind == "version" for one in found):
        sealed = "Version, catalogue and answers are the same and the result is as it was written"
        words = (
            f"{'Version and catalogue are the same' if unsealed(record) else sealed}: another processor or numeric "
            "library rounds otherwise, or the program was changed without a new version."
        )
        found.append(Reason("unexplained", words))
    return tuple(found)


def _edited(record: Record, numbers: Iterable[float]) -> list[Reason]:
    """Return which chapters of the answers, and which answer, are no longer what the result was computed from."""
    stored = record.found.get(ANSWERS)
    if not isinstance(stored, Mapping):
        return []
    now = of_answers(record.answers)
    titles = {chapter.field: chapter.title for chapter in CHAPTERS}
    # a chapter that did not exist then has no hash, and matters only where it has answers now
    empty = of_answers(type(record.answers)())
    then = {name: stored.get(name, empty[name]) for name in now}
    changed = {name: edited(record.answers, name, str(then[name]), numbers) for name in now if then[name] != now[name]}
    if not changed:
        return []
    told = "; ".join(titles[name] + (f" ({plain(which, 200)})" if which else "") for name, which in changed.items())
    return [Reason("answers", f"Answers were changed after the result was computed: {told}.")]


def _tampered(record: Record) -> list[Reason]:
    if not record.found:
        return []
    if unsealed(record):
        shows = "figures and words" if worded(record) else "figures"
        words = f"The record is older than the seal of a result (1.1): a change by hand shows only in its {shows}."
        return [Reason("version", words)]
    lost = [what for key, what in ((SEAL, "seal"), (ANSWERS, "hashes of the answers")) if key not in record.found]
    if lost:
        words = (
            f"The result was changed by hand after it was written: its {' and its '.join(lost)} "
            f"{'is' if lost == ['seal'] else 'are'} gone, which every result of its kind is written with."
        )
        return [Reason("result", words)]
    if record.found[SEAL] == seal(record.found_made_with, record.found):
        return []
    words = "The result was changed by hand after it was written: its seal does not fit what stands there."
    return [Reason("result", words)]
