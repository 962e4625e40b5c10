"""Reads answers for whoever computes with them: defaults stand in for open questions, and each is written down."""

from dataclasses import dataclass
from typing import Any

from engine.answers.document import Answers, all_asked, listing_at
from engine.answers.question import Quantity, Question


@dataclass(frozen=True)
class Assumption:
    """One thing that was taken for granted: the question's path and label, what was assumed and why."""

    path: str
    label: str
    shown: str
    why: str

    def __str__(self) -> str:
        """Return it as one line."""
        return f"{self.label}: {self.shown} ({self.why})" if self.why else f"{self.label}: {self.shown}"


class Reader:
    """Hands out answers or defaults and notes what had to be assumed."""

    def __init__(self, answers: Answers) -> None:
        self.items = {item.path: item for item in all_asked(answers, every=True)}
        self.assumptions: list[Assumption] = []
        self._noted: set[str] = set()

    def take(self, path: str, otherwise: Any = None) -> Any:
        """Return the answer's plain value, or the default, which is then noted; None where it is not asked."""
        item = self.items[path]
        if not item.applies:
            return None
        if item.value is not None:
            return item.value.value if isinstance(item.value, Quantity) else item.value
        value = otherwise if otherwise is not None else item.question.default
        if value is None:
            return None
        self.note(path, item.question, value)
        return value.value if isinstance(value, Quantity) else value

    def note(self, path: str, question: Question, value: Any) -> None:
        """Write down that an open question was taken for answered with `value`."""
        if path in self._noted:  # what is read twice is assumed once
            return
        self._noted.add(path)
        label, item = question.label, self.items[path]
        if item.listed:
            one = listing_at(f"{path.partition('.')[0]}.{item.listed}").one
            label = f"{one[0].upper()}{one[1:]} {item.item + 1}, {label[0].lower()}{label[1:]}"
        self.assumptions.append(Assumption(path, label, question.show(value), question.default_why))
