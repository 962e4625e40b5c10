"""What must give: each step of each answer, how many pairs it lets in, and two answers where one is not enough."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from engine.answers.document import asked_at
from engine.errors import plain
from wizard import wording
from wizard.screens.choosing.asking import InquiryScreen, Work, cut
from wizard.widgets.lines import Line, fitted, line, wrapped

if TYPE_CHECKING:
    from collections.abc import Sequence

    from engine.selection.what_gives import Given, Trial, WhatGives

#: So many newcomers are asked for at most.
MOST_ENOUGH = 1_000_000
LONGEST_NUMBER = 9
#: Columns of a line at most: the eye goes from the change to its count.
WIDEST = 90


def label_of(given: Given) -> str:
    """Return what is changed to what."""
    return " and ".join(f"{step.label}: {step.before} to {step.after}" for step in given.steps)


def step_name(given: Given) -> str:
    """Return what the step is called that makes the change."""
    return "; ".join(f"{step.label}: {step.after}" for step in given.steps)


def row(given: Given, text: str, width: int) -> Line:
    """Return one change with the pairs it lets in, and those it loses."""
    more = f"{'at most ' if given.too_many else ''}{wording.grouped(given.newcomers)} more"
    lost = f", {wording.grouped(given.lost)} lost" if given.lost else ""
    tail = f" {more}{lost}"
    width = min(width, WIDEST)
    room = max(8, width - 1 - max(14, len(tail)))
    return ((fitted(plain(text, 300), room), "plain"), (fitted(tail, width - 1 - room, True), "title"))


class GivesScreen(InquiryScreen):
    """Every step that lets pairs in, then those that let in none, then two together."""

    PLACE = "gives"
    GOES_ON = "x goes on"

    def __init__(self) -> None:
        super().__init__()
        self.enough = 1
        self.singles: list[Given] = []
        self.given: dict[int, Given] = {}
        self.trial: Trial | None = None  # what has been counted for answers, which a stop does not lose

    def work(self) -> Work | None:
        """Return the question what must give."""
        catalogue, answers, enough = self.app.search.catalogue, self.app.session.answers, self.enough
        if catalogue is None:
            return None

        def asked(ear: Any) -> WhatGives:
            from engine.selection.what_gives import Trial, what_gives

            trial = self.trial
            if trial is None or trial.catalogue is not catalogue or trial.answers is not answers:
                trial = self.trial = Trial(catalogue, answers, ear.cancelled)
            return what_gives(catalogue, answers, enough, ear.cancelled, ear.progress, ear.part, trial=trial)

        return asked

    def ask(self) -> None:
        """Begin with nothing known."""
        self.singles = []
        super().ask()

    def take_part(self, part: Any) -> None:
        """Take one step as it is counted."""
        self.singles.append(part)

    def subject(self) -> str:
        """Say what is looked for."""
        wanted = wording.counted(self.enough, "pair", "pairs")
        return f"What must give for {wanted} more" if self.enough > 1 else "What must give"

    def page(self, width: int) -> tuple[list[Line], Sequence[int]]:
        """Return the steps that let pairs in, then what two together do, then what lets in none."""
        self.given = {}
        lines: list[Line] = []
        some = [one for one in self.singles if one.newcomers]
        whole: WhatGives | None = self.found

        def add(one: Given, text: str) -> None:
            self.given[len(lines)] = one
            lines.append(row(one, text, width))

        def add_by_answer(found: Sequence[Given]) -> None:
            before = ""
            for one in found:
                step = one.steps[0]
                if step.label != before:
                    before = step.label
                    lines.append(cut(f"  {step.label}, now {step.before}", width, "quiet"))
                add(one, f"    to {step.after}")

        if not self.singles:
            return [self.nothing_yet()], []
        if whole is not None and whole.pairs:
            lines.append(cut(" One answer is not enough; the least change of two that is", width, "heading"))
            for one in whole.pairs:
                add(one, f"  {step_name(one)}")
        lines.append(cut(f" One answer by itself{self.so_far}; Enter makes the marked change", width, "heading"))
        add_by_answer(some)
        if not some:
            lines.append(cut(f"  none lets in a pair{self.so_far}", width, "caution"))
        if whole is not None and not whole.pairs and not any(one.newcomers >= self.enough for one in self.singles):
            lines.append(cut("  Neither does any change of two answers.", width, "caution"))
        none = [one for one in self.singles if not one.newcomers]
        if none:
            lines.append(cut(f" These let in none{self.so_far}", width, "heading"))
            add_by_answer(none)
        return lines, list(self.given)

    def marked_another(self) -> None:
        """Follow the mark with what is changed, and how many pairs there would be."""
        super().marked_another()
        self.show_side()

    def beside(self, width: int, height: int) -> list[Line]:
        """Return what the marked change does, the help on each question that it changes, and how things stand."""
        one = self.given.get(self.rows.at)
        if one is None:
            return self.stands(width, height)
        from wizard.screens import form  # only where there is room for it

        found: list[Line] = [line(fitted("The marked change", width), "heading")]
        lost = f"; {wording.counted(one.lost, 'pair is', 'pairs are')} lost" if one.lost else ""
        told = f"{self.effect(one)}{lost}"
        found += [line(f" {part}") for part in wrapped(plain(told, 600), width - 2)]
        for step in one.steps:
            item = asked_at(self.app.session.answers, step.path)
            if item is not None:
                found += [line(""), line(fitted(f"{item.number} {step.label}", width), "heading")]
                found += form.help_lines(item, width, 12)
        found.append(line(""))
        return [*found, *self.stands(width, height - len(found))]

    @staticmethod
    def effect(one: Given) -> str:
        """Say how many pairs would pass."""
        then = wording.counted(one.count, "pair passes", "pairs pass")
        return f"{label_of(one)}: {'at most ' if one.too_many else ''}{then} then"

    def about(self) -> str:
        """Say how many pairs there would be, or what can be typed."""
        if self.entering:
            return "How many more pairs are enough; Enter looks anew, Esc leaves it as it was."
        one = self.given.get(self.rows.at)
        return self.effect(one) if one is not None else ""

    # keys

    def action_apply(self) -> None:
        """Make the marked change."""
        one = self.given.get(self.rows.at)
        if one is None:
            self.say("There is no change to make yet.", "caution")
        elif self.stale:
            self.say("The answers have changed since; x looks anew.", "caution")
        else:
            self.rows.at = 0
            self.apply([(step.path, step.value) for step in one.steps], step_name(one))

    def action_enough(self) -> None:
        """Say how many more pairs are enough."""
        self.begin_entry("enough", "", LONGEST_NUMBER)
        self.marked_another()

    def submit_entry(self) -> None:
        """Take the number."""
        text = self.entry.text.strip().replace(" ", "")
        if not text.isdecimal() or not 1 <= int(text) <= MOST_ENOUGH:
            self.say(f'"{plain(text, 20)}" is no count of pairs. Accepted: 1 to {MOST_ENOUGH}', "fails")
            return
        self.close_entry()
        self.enough = int(text)
        self.message = ("", "plain")
        self.ask()
        self.show_all()

    def leave_entry(self) -> None:
        """Leave the number as it was."""
        self.close_entry()
        self.marked_another()
