"""Two records side by side: which answers differ, whether another pair was chosen, which figures moved."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from engine.answers.document import CHAPTERS, Answers, Asked, all_asked, items_at, listing_at, listings_of
from engine.answers.plain import to_plain
from engine.record.carried.alignment import aligned
from engine.record.compared.stored import Value, has_keys, values
from engine.record.compared.verify import Moved, Verification, rounding, verify
from engine.record.document import result_tables

if TYPE_CHECKING:
    from engine.record.computed import Computed

OPEN = "open"
#: A result as a record holds it.
Results = Mapping[str, Any]


@dataclass(frozen=True)
class Changed:
    """An answer that differs: its chapter, its path in the first record (or in the second), and both as shown."""

    chapter: str
    path: str
    label: str
    before: str
    after: str


@dataclass(frozen=True)
class Difference:
    """All that differs between two records; figures only where both could be computed.

    Figures are those computed now or, where a record's pair cannot be computed, those that the records hold
    (`as_held`). `stored` says of each record whether the result that it holds says the same, None where it holds none
    or cannot be computed; `unproved` are the records, "A" and "B", that hold a result which cannot be computed again.
    """

    answers: tuple[Changed, ...]
    choice: tuple[Changed, ...]
    moved: tuple[Moved, ...] = ()
    gone: tuple[Value, ...] = ()
    new: tuple[Value, ...] = ()
    compared: int = 0
    stored: tuple[Verification | None, Verification | None] = (None, None)
    as_held: bool = False
    unproved: tuple[str, ...] = ()

    @property
    def alike(self) -> bool:
        """Whether neither the answers nor what is computed of them differs."""
        return not (self.answers or self.choice or self.moved or self.gone or self.new)

    @property
    def same(self) -> bool:
        """Whether nothing differs, and both records hold what is computed of them."""
        return self.alike and not self.unproved and all(one is None or one.holds for one in self.stored)


def between(
    one: Answers,
    other: Answers,
    computed: tuple[Computed | None, Computed | None] = (None, None),
    held: tuple[Results, Results] = ({}, {}),
) -> Difference:
    """Return the difference between the answers of two records, and between their results.

    `held` are the results that the records hold: they are compared where not both records are computed.
    """
    changed = tuple(_answers(one, other))
    answers = tuple(change for change in changed if not change.path.startswith("choice."))
    choice = tuple(change for change in changed if change.path.startswith("choice."))
    first, second = computed
    both = first is not None and second is not None
    if first is not None and second is not None:
        before, after = (values(result_tables(each.result)) for each in (first, second))
    else:
        named = all(map(has_keys, held))
        before, after = (values(each, named) for each in held)
    moved = tuple(
        Moved.between(before[key], value)
        for key, value in after.items()
        if key in before and not rounding(before[key].value, value.value)
    )
    gone = tuple(value for key, value in before.items() if key not in after)
    new = tuple(value for key, value in after.items() if key not in before)
    held_one, held_other = (verify(each) if each is not None and each.record.found else None for each in computed)
    unproved = tuple(side for side, each, result in zip("AB", computed, held, strict=True) if each is None and result)
    compared = len(before.keys() & after.keys())
    return Difference(answers, choice, moved, gone, new, compared, (held_one, held_other), not both, unproved)


def _answers(one: Answers, other: Answers) -> Iterator[Changed]:
    """Walk the answers that differ; items of lists are held against their counterparts."""
    before = {item.path: item for item in all_asked(one, every=True)}
    after = {item.path: item for item in all_asked(other, every=True)}
    titles = {chapter.field: chapter.title for chapter in CHAPTERS}
    counterpart = _counterparts(one, other)
    met: set[str] = set()
    for path, item in before.items():
        where = counterpart.get(item.item_path, item.item_path) if item.listed else ""
        if where is None:
            continue
        now_path = f"{where}{path[len(item.item_path) :]}" if item.listed else path
        met.add(now_path)
        now = after[now_path]
        if item.value != now.value:
            yield Changed(titles[path.partition(".")[0]], path, _label(item), _shown(item), _shown(now))
    for path in (path for path in counterpart if counterpart[path] is None):
        yield Changed(titles[path.partition(".")[0]], path, _item_label(path), _filled(before, path), "not there")
    for path in dict.fromkeys(item.item_path for item in after.values() if item.listed and item.path not in met):
        yield Changed(titles[path.partition(".")[0]], path, _item_label(path), "not there", _filled(after, path))


def _counterparts(one: Answers, other: Answers) -> dict[str, str | None]:
    """Return for each item of the lists of one record its path in the other; None where it has no counterpart."""
    plain_one, plain_other = to_plain(one), to_plain(other)
    found: dict[str, str | None] = {}
    for chapter in CHAPTERS:
        for name in listings_of(type(getattr(one, chapter.field))):
            path = f"{chapter.field}.{name}"
            # a list without any answer is not written, so its items are all alike
            before, after = (
                plain.get(chapter.field, {}).get(name) or [{}] * len(items_at(answers, path))
                for plain, answers in ((plain_one, one), (plain_other, other))
            )
            places = aligned(before, after)
            for at in range(len(before)):
                found[f"{path}[{at}]"] = f"{path}[{places[at]}]" if at in places else None
    return found


def _label(item: Asked) -> str:
    if not item.listed:
        return item.question.label
    label = item.question.label
    return f"{_item_label(item.item_path)}, {label[0].lower()}{label[1:]}"


def _item_label(path: str) -> str:
    listed, _, number = path.rstrip("]").rpartition("[")
    one = listing_at(listed).one
    return f"{one[0].upper()}{one[1:]} {int(number) + 1}"


def _shown(item: Asked) -> str:
    return OPEN if item.value is None else str(item.question.show(item.value))


def _filled(asked: dict[str, Asked], path: str) -> str:
    """Return the answers of a whole item on one line."""
    own: list[Any] = [item for item in asked.values() if item.item_path == path and item.value is not None]
    return "; ".join(f"{item.question.label}: {item.question.show(item.value)}" for item in own) or "empty"
