"""Keys for what stands in lists: load cases, elements and steps of the shaft are added, copied, removed and moved."""

from __future__ import annotations

from typing import TYPE_CHECKING

from engine.answers.document import items_at, listing_at, listings_of
from wizard.screens import form
from wizard.screens.base import EntryScreen

if TYPE_CHECKING:
    from engine.answers.document import Asked


class ItemKeys(EntryScreen):
    """The part of the screen of questions that changes its lists."""

    chapter: str
    form: form.Form | None

    @property
    def marked(self) -> Asked | None:
        """The marked question."""
        return self.form.questions.get(self.rows.at) if self.form else None

    def say(self, text: str, meaning: str = "plain") -> None:
        """Put a message where the help stands."""
        raise NotImplementedError

    def show_chapter(self, at: int | None = None) -> None:
        """Bring the chapter up to date, with a line of it marked."""
        raise NotImplementedError

    def _list(self) -> str:
        """Return the list that the mark stands in, else the chapter's first one, else that of the load cases."""
        if self.marked is not None and self.marked.listed:
            return f"{self.chapter}.{self.marked.listed}"
        empty = self.form.empty.get(self.rows.at) if self.form else None
        own = next(iter(listings_of(type(getattr(self.app.session.answers, self.chapter)))), None)
        return empty or (f"{self.chapter}.{own}" if own else "duty.cases")

    def _show_item(self, path: str, at: int) -> None:
        self.chapter = path.partition(".")[0]
        self.app.answered()
        found = form.form(self.app.session.answers, self.chapter, self.app.glyphs, self.width)
        self.show_chapter(found.line_of(f"{path}[{max(0, at)}]"))

    def _marked_item(self, verb: str) -> tuple[str, int] | None:
        if self.marked is not None and self.marked.listed:
            return self._list(), self.marked.item
        one = listing_at(self._list()).one
        self.say(f"Mark a line of {'an' if one[0] in 'aeiou' else 'a'} {one} first; {verb}.", "caution")
        return None

    def action_add_item(self) -> None:
        """Add an empty item to the list that the mark stands in."""
        self._add(self._list())

    def action_copy_item(self) -> None:
        """Copy the marked item."""
        found = self._marked_item("c copies it")
        if found:
            self._add(*found)

    def _add(self, path: str, like: int | None = None) -> None:
        listing, many = listing_at(path), len(items_at(self.app.session.answers, path))
        at = self.app.session.add_item(path, like)
        self._show_item(path, at)
        if many >= listing.most:
            self.say(f"There are {many} already, which is as many as are taken.", "caution")

    def action_remove_item(self) -> None:
        """Remove the marked item; undo brings it back."""
        found = self._marked_item("x removes it")
        if found:
            path, at = found
            self.app.session.remove_item(path, at)
            self._show_item(path, at - 1)
            one = listing_at(path).one
            self.say(f"{one[0].upper()}{one[1:]} {at + 1} removed; u brings it back.")

    def action_move_down(self) -> None:
        """Move the marked item one place down in its list."""
        self._move_item(1)

    def action_move_up(self) -> None:
        """Move the marked item one place up in its list."""
        self._move_item(-1)

    def _move_item(self, by: int) -> None:
        found = self._marked_item("J and K move it down and up")
        if found:
            self._show_item(found[0], self.app.session.move_item(*found, by))

    def action_next_item(self) -> None:
        """Mark the first question of the next item."""
        self._to_item(1)

    def action_previous_item(self) -> None:
        """Mark the first question of this item, or of the one before."""
        self._to_item(-1)

    def _to_item(self, by: int) -> None:
        if self.form is None:
            return
        begins: dict[str, int] = {}
        for at, asked in self.form.questions.items():
            if asked.listed:
                begins.setdefault(asked.item_path, at)
        places = sorted([*begins.values(), *self.form.empty])
        here = self.rows.at
        found = [at for at in places if (at > here if by > 0 else at < here)]
        if found:
            self.rows.mark(found[0 if by > 0 else -1])
            self.marked_another()
        elif not places:
            self.say("There is no list in this chapter.", "caution")
