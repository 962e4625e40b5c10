"""Going about the chapters: next and back, to a question, by a click; and the panel beside them on a wide terminal."""

from __future__ import annotations

from engine.answers.document import CHAPTERS, all_asked
from wizard.screens import form
from wizard.screens.asking.items import ItemKeys
from wizard.screens.every.beside import BesideScreen
from wizard.widgets.lines import Line


class ChapterKeys(BesideScreen, ItemKeys):
    """The part of the screen of questions that goes from one to another."""

    message: list[Line]
    walked: str  # how far a walk through several questions is, while the mark stays where it led

    def beside(self, width: int, height: int) -> list[Line]:
        """Return the leading pairs, the chosen one and what is assumed."""
        from wizard.screens.asking import beside  # only where there is room for it

        return beside.lines(self.app.standing, self.app.session.answers, self.app.glyphs, width, height)

    def _go(self, by: int) -> None:
        fields = [chapter.field for chapter in CHAPTERS]
        self.go_to_chapter(fields[(fields.index(self.chapter) + by) % len(fields)])

    def go_to_chapter(self, chapter: str) -> None:
        """Show a chapter, with the mark where it was left."""
        self.chapter, self.message = chapter, []
        self.show_chapter()

    def action_next_chapter(self) -> None:
        """Show the next chapter."""
        self._go(1)

    def action_previous_chapter(self) -> None:
        """Show the chapter before."""
        self._go(-1)

    def action_next_open(self) -> None:
        """Mark the next question that lives cannot be computed without; after these the next without an answer."""
        from engine.answers.running import needed  # not before the first frame

        answers = self.app.session.answers
        asked, here = needed(answers), self.marked.path if self.marked is not None else ""
        if asked:
            # pressed once more it goes on, for whom another of them is easier
            at = asked.index(here) + 1 if self.walked and here in asked else 0
            title = f"Needed for lives, {len(asked)} to go; n goes to the next"
            self._walk_to(asked[at % len(asked)], title)
            return
        found = form.next_open(answers, self.chapter, self.marked)
        if found is None:
            self.say("Every question is answered.")
            return
        self.go_to(found.path)

    def action_next_assumed(self) -> None:
        """Mark the next question for which something is assumed, in this chapter or a later one, and round."""
        counted = self.app.standing.counted
        assumed = {one.path for one in counted.resolved.assumptions} if counted is not None else set()
        every = [item.path for item in all_asked(self.app.session.answers)]
        here = every.index(self.marked.path) if self.marked is not None else -1
        found = [at for at in (*range(here + 1, len(every)), *range(here + 1)) if every[at] in assumed]
        if not found:
            self.say("Still counting ..." if counted is None else "Nothing is assumed: every question is answered.")
            return
        at = sum(every[one] in assumed for one in range(found[0] + 1))
        title = f"Assumed, {at} of {len(found)}; T goes to the next, Enter answers it"
        self._walk_to(every[found[0]], title)

    def _walk_to(self, path: str, title: str) -> None:
        """Mark a question on a walk through several; the title of its help says how far the walk is."""
        self.go_to(path)
        self.walked = title
        self.show_help()

    def show_help(self) -> None:
        """Show the help on the marked question."""
        raise NotImplementedError

    def go_to(self, path: str) -> None:
        """Mark a question, in whatever chapter it stands."""
        self.chapter, self.message = path.partition(".")[0], []
        chapter = form.form(self.app.session.answers, self.chapter, self.app.glyphs, self.width)
        self.show_chapter(chapter.line_of(path))

    def action_assumed(self) -> None:
        """See what is taken for granted."""
        self.app.open("assumed")

    def clicked(self, block: str, index: int, piece: int | None) -> None:
        """Show the chapter whose name was clicked."""
        if block == "head" and index == 1 and piece is not None and piece % 2 == 0:
            self.go_to_chapter(CHAPTERS[piece // 2].field)
