"""Every action once: its keys, its name, and where it stands. Footer and help page are made from this list."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Key:
    """One action: the key names, what the footer shows, the screen's method, where it works, and one sentence."""

    keys: tuple[str, ...]
    shown: str
    action: str
    label: str
    place: str  # the screen it belongs to, or every
    help: str
    in_footer: bool = True


KEYS = (
    Key(("enter",), "Enter", "edit", "answer", "chapter", "Answer the marked question; Enter again takes it."),
    Key(("right", "tab"), "Right", "next_chapter", "next", "chapter", "Go to the next chapter."),
    Key(("left", "shift+tab"), "Left", "previous_chapter", "back", "chapter", "Go to the chapter before.", False),
    Key(("s",), "s", "shortlist", "shortlist", "chapter", "See the pairs that pass."),
    Key(("v",), "v", "view", "view", "chapter", "See what the answers of this chapter come to, where it has a view."),
    Key(("delete", "backspace"), "Del", "clear", "clear", "chapter", "Open the marked question again.", False),
    Key(("a",), "a", "add_item", "add", "chapter", "Add a load case, or to the list that the mark stands in."),
    Key(("c",), "c", "copy_item", "copy", "chapter", "Copy the marked load case or other listed item.", False),
    Key(("x",), "x", "remove_item", "drop", "chapter", "Remove the marked load case or other listed item.", False),
    Key(("J",), "J", "move_down", "move down", "chapter", "Move the marked item down in its list.", False),
    Key(("K",), "K", "move_up", "move up", "chapter", "Move the marked item up in its list.", False),
    Key(
        ("right_square_bracket",), "]", "next_item", "next item", "chapter", "Go to the next load case or item.", False
    ),
    Key(("left_square_bracket",), "[", "previous_item", "item before", "chapter", "Go to the item before.", False),
    Key(("u",), "u", "undo", "undo", "chapter", "Take back the last change, as often as you like."),
    Key(("r",), "r", "redo", "redo", "chapter", "Bring back what was undone.", False),
    Key(("w",), "w", "save_as", "save as", "chapter", "Keep the record under a name of yours."),
    Key(("o",), "o", "open_unfinished", "open unfinished", "chapter", "Go on with the unfinished session.", False),
    Key(("equals_sign",), "=", "repeat", "repeat", "chapter", "Give the marked question what was typed last.", False),
    Key(("ctrl+l",), "Ctrl-L", "repaint", "repaint", "every", "Paint the screen again, say after noise.", False),
    Key(("n",), "n", "next_open", "next open", "chapter", "Go to the next question without an answer.", False),
    Key(("t",), "t", "assumed", "assumed", "chapter", "See what is taken for granted, and visit each.", False),
    Key(("enter",), "Enter", "visit", "go there", "assumed", "Go to the question behind the marked assumption."),
    Key(("escape", "left", "b"), "Esc", "back", "back", "assumed", "Back to the questions."),
    Key(("right",), "Right", "next_case", "next case", "shaft", "Show the next load case."),
    Key(("left",), "Left", "previous_case", "case before", "shaft", "Show the load case before.", False),
    Key(("p",), "p", "plane", "plane", "shaft", "Change between plane y and plane z."),
    Key(("o",), "o", "arrangement", "other arrangement", "shaft", "Set the other arrangement beside this one."),
    Key(("enter",), "Enter", "unfold", "unfold", "shaft", "Show the steps behind the marked line, or hide them."),
    Key(("escape", "v", "b"), "Esc", "back", "back", "shaft", "Back to the questions."),
    Key(("enter",), "Enter", "detail", "detail", "shortlist", "See every figure of the marked pair."),
    Key(("c",), "c", "choose", "choose", "shortlist", "Choose the marked pair; the record keeps it."),
    Key(("m",), "m", "rank_mass", "by mass", "shortlist", "Lightest pairs first."),
    Key(("z",), "z", "rank_size", "by size", "shortlist", "Smallest pairs first."),
    Key(("l",), "l", "rank_life", "by life", "shortlist", "Longest-lived pairs first."),
    Key(("p",), "p", "rank_cost", "by cost", "shortlist", "Cheapest pairs first, by the catalogue's relative cost."),
    Key(("v",), "v", "setting", "setting", "shortlist", "See the setting of the marked pair and its roller loads."),
    Key(("v",), "v", "setting", "setting", "pair", "See the setting of the pair and its roller loads."),
    Key(("x",), "x", "halt", "stop", "pair", "Stop the load distribution being computed, or go on with it."),
    Key(("n",), "n", "next_case", "next case", "setting", "Show the rollers in the next load case."),
    Key(("i",), "i", "units", "mm/in", "setting", "Change between millimetres and inches."),
    Key(("x",), "x", "halt", "stop", "setting", "Stop the load distribution being computed, or go on with it."),
    Key(("escape", "left", "b"), "Esc", "back", "back", "setting", "Back to where you were."),
    Key(("c",), "c", "choose", "choose", "pair", "Choose this pair; the record keeps it."),
    Key(("plus", "greater_than_sign"), "+", "tighter", "tighter", "fits", "Take the next tighter class for this seat."),
    Key(("minus", "less_than_sign"), "-", "looser", "looser", "fits", "Take the next looser class for this seat."),
    Key(("r",), "r", "recommended", "recommended", "fits", "Go back to the class that is recommended."),
    Key(("right", "tab"), "Right", "next_seat", "next seat", "fits", "See the next seat: cones, then cups."),
    Key(("left", "shift+tab"), "Left", "previous_seat", "seat before", "fits", "See the seat before.", False),
    Key(("escape", "b", "v"), "Esc", "back", "back", "fits", "Back to the questions."),
    Key(("b",), "b", "browse", "catalogue", "chapter", "Look through the catalogue."),
    Key(
        ("enter",),
        "Enter",
        "apply",
        "do it",
        "lubrication",
        "Make the marked change; a digit makes the one of that number.",
    ),
    Key(("u",), "u", "undo", "undo", "lubrication", "Take back the last change, as often as you like."),
    Key(("escape", "left", "b"), "Esc", "back", "back", "lubrication", "Back to the questions."),
    Key(
        ("enter",),
        "Enter",
        "choose",
        "take it",
        "lubricants",
        "Take the marked lubricant; what is typed narrows the list.",
    ),
    Key(("escape",), "Esc", "back", "back", "lubricants", "Back to the questions."),
    Key(("slash",), "/", "filter", "filter", "browse", "Filter as you type: d=60, D<=5in, steep, case ..."),
    Key(("enter",), "Enter", "section", "section", "browse", "See the section of the marked one and its neighbours."),
    Key(("d",), "d", "decode", "decode", "browse", "Say what a designation means."),
    Key(("o",), "o", "order", "order", "browse", "Order by the next column."),
    Key(("v",), "v", "reverse", "turn", "browse", "Turn the order round."),
    Key(("i",), "i", "units", "mm/in", "browse", "Change between millimetres and inches."),
    Key(("escape", "left", "b"), "Esc", "back", "back", "browse", "Back to the questions."),
    Key(("escape", "left", "b"), "Esc", "back", "back", "reading", "Back to the catalogue."),
    Key(("i",), "i", "units", "mm/in", "section", "Change between millimetres and inches."),
    Key(("enter",), "Enter", "open", "open", "section", "See the section of the marked neighbour."),
    Key(("escape", "left", "b"), "Esc", "back", "back", "section", "Back to the catalogue."),
    Key(("escape", "left", "b"), "Esc", "back", "back", "shortlist", "Back to the questions."),
    Key(("escape", "left", "b"), "Esc", "back", "back", "pair", "Back to the shortlist."),
    Key(("escape", "left", "b"), "Esc", "back", "back", "help", "Back to where you were."),
    Key(("enter",), "Enter", "go", "go there", "find", "Go to the marked question or part, or do the marked action."),
    Key(("enter",), "Enter", "begin", "begin", "start", "Begin in the marked way; a digit takes one at once."),
    Key(("escape",), "Esc", "back", "new session", "start", "Begin a new session."),
    Key(("escape",), "Esc", "back", "back", "find", "Back to where you were."),
    Key(("g",), "g", "find", "find", "every", "Find a question by number or words, a part, or an action, by typing."),
    Key(("question_mark", "f1"), "?", "help", "help", "every", "This page, with the marked question first."),
    Key(("q", "f10", "ctrl+q", "ctrl+c"), "q", "quit", "quit", "every", "Leave; everything is already saved."),
)


def at(place: str) -> tuple[Key, ...]:
    """Return the actions that work at a place, its own first."""
    return tuple(key for key in KEYS if key.place == place) + tuple(key for key in KEYS if key.place == "every")


#: Keys that move the mark: how far, counted in lines, screenfuls or to the ends.
STEPS = {
    "up": ("line", -1),
    "k": ("line", -1),
    "down": ("line", 1),
    "j": ("line", 1),
    "pageup": ("page", -1),
    "pagedown": ("page", 1),
    "home": ("end", -1),
    "end": ("end", 1),
}

MOVES = (
    ("Up Down", "Move from line to line; PgUp PgDn Home End move further."),
    ("0-9 + - . < >", "Begin a number at once; with options, choose the one of that number."),
    ("Esc", "While typing: leave the answer as it was."),
)
