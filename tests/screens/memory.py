"""What the engine said, kept for the next screen that asks the same of the built-in catalogue."""

from functools import wraps

from engine.advising.view import view
from engine.record.result import compute
from engine.selection.stages.load_distribution import lead
from engine.selection.what_gives import what_gives


def _names(A, B):
    return str(A.designation[0]), str(B.designation[0])


def _of_pair(A, B, conditions, *_):
    return *_names(A, B), conditions.resolved


def _of_view(answers, pair, chosen, _pause, own):
    return answers, pair and _names(*pair), chosen, own


def _once(function, question):
    """Return a function that says again what it said to the same question; what is stopped on its way is not kept."""
    known = []

    @wraps(function)
    def said(*given):
        asked = question(*given)
        for one, answer in known:
            if one == asked:
                return answer
        known.append((asked, function(*given)))
        return known[-1][1]

    return said


def _gives_once():
    """Return what tells every step as it is counted, as the function itself does."""
    known = _once(lambda *given: what_gives(*given[:-1]), lambda _, answers, enough, *_ears: (answers, enough))

    def said(*given):
        found = known(*given)
        for one in found.singles:
            given[-1](one)
        return found

    return said


def functions():
    """Return the functions of the engine that take longest, by where the wizard looks them up."""
    return {
        "engine.record.result.compute": _once(compute, _of_pair),
        "engine.selection.stages.load_distribution.lead": _once(lead, _of_pair),
        "engine.advising.view.view": _once(view, _of_view),
        "engine.selection.what_gives.what_gives": _gives_once(),
    }
