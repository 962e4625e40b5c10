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


#: What chooses among the pairs: on the shortlist, and on the screens that it opens.
CHOOSING = (
    Key(("y",), "y", "why", "why", "shortlist", "See why the marked pair does not stand first."),
    Key(("M",), "M", "gives", "must give", "shortlist", "See what must give for more pairs to pass."),
    Key(("w",), "w", "weigh", "weigh", "shortlist", "Weigh utilisation, mass, cost and more, and rank by all of them."),
    Key(("s",), "s", "compare", "compare", "shortlist",
        "See the marked pairs side by side, up to four; with none marked the first four."),
    Key(("space",), "Space", "mark", "mark", "shortlist",
        "Mark the pair for the comparison, or take its mark away.", False),
    Key(("d",), "d", "scatter", "draw", "shortlist", "Draw the pairs by any two criteria.", False),
    Key(("t",), "t", "sensitivity", "hangs on", "shortlist",
        "See on which inputs the verdict on the marked pair hangs.", False),
    Key(("Y",), "Y", "why_typed", "why not", "shortlist", "Type a pair or part to see why it is out.", False),
    Key(("escape", "left", "b"), "Esc", "back", "back", "shortlist", "Back to the questions."),
    Key(("m",), "m", "rank_mass", "by mass", "shortlist", "Lightest pairs first."),
    Key(("z",), "z", "rank_size", "by size", "shortlist", "Smallest pairs first."),
    Key(("l",), "l", "rank_life", "by life", "shortlist", "Longest-lived pairs first."),
    Key(("p",), "p", "rank_cost", "by cost", "shortlist", "Cheapest pairs first, by the catalogue's relative cost."),
    Key(("n",), "n", "needed", "needed", "shortlist", "Go to the next question that lives need.", False),
    Key(("x",), "x", "halt", "stop", "shortlist", "Stop what is being searched and computed, or go on with it.", False),
    Key(("enter",), "Enter", "edit", "type", "weights",
        "Type the weight of the marked criterion; a digit begins it at once."),
    Key(("plus",), "+", "more", "more", "weights", "Let the marked criterion count more."),
    Key(("minus",), "-", "less", "less", "weights", "Let the marked criterion count less."),
    Key(("escape", "left", "b"), "Esc", "back", "back", "weights", "Back to the shortlist."),
    Key(("w",), "w", "rank", "rank", "weights", "Rank by the weights as they stand."),
    Key(("u",), "u", "undo", "undo", "weights", "Take back the last change, as often as you like."),
    Key(("equals_sign",), "=", "repeat", "repeat", "weights",
        "Give the marked criterion the last weight typed.", False),
    Key(("delete", "backspace"), "Del", "clear", "clear", "weights", "Take the weight back to what is assumed.", False),
    Key(("enter",), "Enter", "apply", "do it", "why",
        "Put the marked change, or all that are needed, into the answers."),
    Key(("escape", "left", "b"), "Esc", "back", "back", "why", "Stop what runs; then back to where you were."),
    Key(("slash",), "/", "name", "name", "why", "Type a pair or part: a designation, or two with a comma between."),
    Key(("l",), "l", "alike", "like this", "why",
        "Look for one like this but steeper, wider, of the other system and so on."),
    Key(("o",), "o", "other_side", "turn", "why",
        "Ask about the part on the other side, or the pair turned round.", False),
    Key(("space",), "Space", "mark", "mark", "why", "Mark the pair for the comparison, or take its mark away.", False),
    Key(("s",), "s", "compare", "compare", "why", "See the marked pairs side by side.", False),
    Key(("u",), "u", "undo", "undo", "why", "Take back the last change, as often as you like."),
    Key(("x",), "x", "halt", "stop", "why", "Stop what is being looked at, or begin it anew.", False),
    Key(("enter",), "Enter", "apply", "do it", "gives", "Make the marked change."),
    Key(("escape", "left", "b"), "Esc", "back", "back", "gives", "Stop what runs; then back to where you were."),
    Key(("e",), "e", "enough", "enough", "gives",
        "Say how many more pairs are enough; where one answer lets in fewer, two change."),
    Key(("u",), "u", "undo", "undo", "gives", "Take back the last change, as often as you like."),
    Key(("x",), "x", "halt", "stop", "gives", "Stop what is being looked at, or go on with it.", False),
    Key(("enter",), "Enter", "detail", "detail", "scatter", "See every figure of the marked pair."),
    Key(("escape", "left", "b"), "Esc", "back", "back", "scatter", "Stop what runs; then back to where you were."),
    Key(("r",), "r", "next_across", "across", "scatter", "Draw the next criterion across."),
    Key(("t",), "t", "next_up", "upwards", "scatter", "Draw the next criterion upwards."),
    Key(("y",), "y", "why", "why", "scatter", "See why the marked pair does not stand first."),
    Key(("space",), "Space", "mark", "mark", "scatter",
        "Mark the pair for the comparison, or take its mark away.", False),
    Key(("x",), "x", "halt", "stop", "scatter", "Stop what is being looked at, or begin it anew.", False),
    Key(("t",), "t", "try", "try", "compare", "Change one answer for these pairs alone and see them move."),
    Key(("escape", "left", "b"), "Esc", "back", "back", "compare",
        "Stop what runs, or drop what is tried; then back to where you were."),
    Key(("a",), "a", "take", "take it", "compare", "Take the change that is tried into the answers."),
    Key(("d",), "d", "drop", "drop it", "compare", "Drop the change that is tried."),
    Key(("o",), "o", "only", "differing", "compare", "Show only what differs, or everything."),
    Key(("c",), "c", "unmark", "unmark all", "compare", "Take away all marks and go back.", False),
    Key(("u",), "u", "undo", "undo", "compare", "Take back the last change, as often as you like."),
    Key(("x",), "x", "halt", "stop", "compare",
        "Stop what is being looked at and the load distributions, or go on with them.", False),
    Key(("escape", "left", "b"), "Esc", "back", "back", "sensitivity", "Stop what runs; then back to where you were."),
    Key(("x",), "x", "halt", "stop", "sensitivity", "Stop what is being looked at, or begin it anew.", False),
)  # fmt: skip

#: Where the record is computed again, or held against another one.
RECORDS = (
    Key(("escape", "left", "b"), "Esc", "back", "back", "verify", "Stop what runs; then back to the questions."),
    Key(("x",), "x", "halt", "anew", "verify", "Stop what is being computed, or verify anew."),
    Key(("slash",), "/", "name", "other record", "diff", "Type the file of another record."),
    Key(("escape", "left", "b"), "Esc", "back", "back", "diff", "Stop what runs; then back to the questions."),
    Key(("x",), "x", "halt", "anew", "diff", "Stop what is being computed, or compare anew."),
)  # fmt: skip

#: The same from where a pair or a part is looked at; behind their own keys, which the footer shows first.
EXPLAINING = (
    Key(("y",), "y", "why", "why", "browse", "See why the marked part is in no pair that passes."),
    Key(("y",), "y", "why", "why not", "section", "See why this part is in no pair that passes."),
    Key(("y",), "y", "why", "why", "pair", "See why this pair does not stand first, or fails."),
    Key(("t",), "t", "sensitivity", "hangs on", "pair", "See on which inputs the verdict on this pair hangs."),
    Key(("space",), "Space", "mark", "mark", "pair",
        "Mark this pair for the comparison, or take its mark away.", False),
)  # fmt: skip

KEYS = (
    Key(("enter",), "Enter", "edit", "answer", "chapter", "Answer the marked question; Enter again takes it."),
    Key(("right", "tab"), "Right", "next_chapter", "next", "chapter", "Go to the next chapter."),
    Key(("left", "shift+tab"), "Left", "previous_chapter", "back", "chapter", "Go to the chapter before.", False),
    Key(("s",), "s", "shortlist", "pairs", "chapter", "See the shortlist: the pairs that pass, best first."),
    Key(("u",), "u", "undo", "undo", "chapter", "Take back the last change, as often as you like."),
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
    Key(("r", "R"), "r", "redo", "redo", "chapter", "Bring back what was undone.", False),
    Key(("w",), "w", "save_as", "save as", "chapter", "Keep the record under a name of yours."),
    Key(("o",), "o", "open_unfinished", "open unfinished", "chapter", "Go on with the unfinished session.", False),
    Key(("M",), "M", "gives", "must give", "chapter", "See what must give for more pairs to pass.", False),
    Key(
        ("y",),
        "y",
        "why",
        "why not",
        "chapter",
        "Type a pair or part to see why it is out, and what would admit it.",
        False,
    ),
    Key(("equals_sign",), "=", "repeat", "repeat", "chapter", "Give the marked question what was typed last.", False),
    Key(("u",), "u", "undo", "undo", "every", "Take back the last change, as often as you like.", False),
    Key(("R",), "R", "redo", "redo", "every", "Bring back what was undone.", False),
    Key(("ctrl+l",), "Ctrl-L", "repaint", "repaint", "every", "Paint the screen again, say after noise.", False),
    Key(("ctrl+z",), "Ctrl-Z", "stand_aside", "stand aside", "every", "Back to the shell; fg there goes on.", False),
    Key(
        ("n",),
        "n",
        "next_open",
        "next open",
        "chapter",
        "Go to the next question that lives need, then to the next without an answer.",
        False,
    ),
    Key(
        ("T",),
        "T",
        "next_assumed",
        "next assumed",
        "chapter",
        "Go to the next question for which something is assumed.",
        False,
    ),
    Key(("t",), "t", "assumed", "assumed", "chapter", "See what is taken for granted, and visit each.", False),
    Key(
        ("equals_sign",),
        "=",
        "repeat",
        "repeat",
        "assumed",
        "Give the question behind the mark what was typed last.",
        False,
    ),
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
    *CHOOSING,
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
    Key(("right", "tab"), "Right", "next_seat", "next seat", "fits", "See the next seat: cones, then cups."),
    Key(("r",), "r", "recommended", "recommended", "fits", "Go back to the class that is recommended."),
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
    Key(("escape", "left", "b"), "Esc", "back", "back", "pair", "Back to the shortlist."),
    Key(("escape", "left", "b"), "Esc", "back", "back", "help", "Back to where you were."),
    *EXPLAINING,
    *RECORDS,
    Key(("enter",), "Enter", "go", "go there", "find", "Go to the marked question or part, or do the marked action."),
    Key(("enter",), "Enter", "begin", "begin", "start", "Begin in the marked way; a digit takes one at once."),
    Key(("escape",), "Esc", "wait", "wait", "small", "Nothing, until the terminal is large enough again."),
    Key(("y",), "y", "lose", "leave without saving", "leaving", "Leave, though the answers can be saved nowhere."),
    Key(("n", "escape"), "n", "back", "stay", "leaving", "Go back; nothing is lost as long as the wizard runs."),
    Key(("escape",), "Esc", "back", "new session", "start", "Begin a new session."),
    Key(("escape",), "Esc", "back", "back", "find", "Back to where you were."),
    Key(("g",), "g", "find", "find", "every", "Find a question by number or words, a part, or an action, by typing."),
    Key(("question_mark", "f1"), "?", "help", "help", "every", "This page, with the marked question first."),
    Key(("q", "f10", "ctrl+c"), "q", "quit", "quit", "every", "Leave; everything is already saved."),
)


#: XON and XOFF, as they arrive where the line does not obey them itself: sent by a terminal, not by a hand.
FLOW = frozenset({"ctrl+q", "ctrl+s"})

#: What keys do while something is typed: those that type no character.
TYPING = (
    Key(("enter",), "Enter", "submit", "take it", "typing", "Take what was typed."),
    Key(("escape",), "Esc", "leave", "leave it", "typing", "Leave it as it was."),
    Key(("ctrl+g", "f1"), "Ctrl-G", "help", "help", "typing", "This page; what was typed stays. F1 does so too."),
    Key(("ctrl+c", "f10"), "Ctrl-C", "quit", "quit", "typing", "Leave; what was typed is not taken."),
    Key(
        ("ctrl+z",), "Ctrl-Z", "stand_aside", "stand aside", "typing", "Back to the shell; what was typed stays.", False
    ),
    Key(("ctrl+l",), "Ctrl-L", "repaint", "repaint", "typing", "Paint the screen again.", False),
    Key(
        ("ctrl+u",),
        "Ctrl-U",
        "cut",
        "cut",
        "typing",
        "Take away what stands before the caret; Ctrl-K behind it.",
        False,
    ),
)
#: Where something is typed all the time, so that Enter and Esc have a meaning of their own.
SEARCHED = ("find", "lubricants")


def while_typing(place: str) -> tuple[Key, ...]:
    """Return the actions that work at a place while something is typed there."""
    own = tuple(key for key in KEYS if key.place == place) if place in SEARCHED else TYPING[:2]
    return own + TYPING[2:]


def at(place: str) -> tuple[Key, ...]:
    """Return the actions that work at a place, its own first."""
    own = tuple(key for key in KEYS if key.place == place)
    known = {key.action for key in own}
    # an action that a place shows in its own footer is the same one there
    return own + tuple(key for key in KEYS if key.place == "every" and key.action not in known)


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
