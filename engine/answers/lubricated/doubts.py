"""Answers on dirt that do not go together with the cleanliness that is claimed: no contradiction, but worth a word."""

from engine.answers.document import Answers, questions_of
from engine.lubrication.cleanliness import LEVELS, level_in_words

#: The best level to be expected where so much abrasive dirt reaches the rings: common practice, no source.
BEST_BY_DIRT = {"some": "slight", "much": "severe"}
#: So many levels may an analysis be cleaner than the words: they are a first estimate only. Common practice, no source.
WITHIN = 1
_WORDS = ("filter", "seals", "breather", "air")


def doubts(answers: Answers, supply: str, level: str) -> tuple[str, ...]:
    """Return sentences on a level of cleanliness that other answers on dirt make doubtful.

    The words on filter, seals, breather and air count while the level or a code is claimed beside them, too: whoever
    gave them has seen the place.
    """
    return (*_by_rings(answers, level), *_by_words(answers, supply, level))


def _by_rings(answers: Answers, level: str) -> list[str]:
    best = BEST_BY_DIRT.get(answers.steel.dirt or "")
    if best is None or LEVELS.index(level) >= LEVELS.index(best):
        return []
    dirt = questions_of(type(answers.steel))["dirt"].show(answers.steel.dirt)
    return [
        f"Cleanliness {_said(level)} beside abrasive dirt at the rings ({dirt}): it dents the raceways too, and "
        f"{_said(best)} is the best to be expected; have the lubricant analysed in service"
    ]


def _by_words(answers: Answers, supply: str, level: str) -> list[str]:
    oil = answers.lubrication
    if oil.cleanliness_by == "words" or (oil.seals is None and oil.air is None):
        return []
    asked = questions_of(type(oil))
    words = {name: getattr(oil, name) or asked[name].default for name in _WORDS}
    made = level_in_words(supply, words["filter"], words["seals"], words["breather"], words["air"]).level
    if LEVELS.index(made) - LEVELS.index(level) <= WITHIN:
        return []
    told = ", ".join(f"{asked[name].label.lower()}: {asked[name].show(words[name])}" for name in ("seals", "air"))
    return [
        f"Cleanliness {_said(level)} is claimed, and the answers on dirt ({told}) would make it {_said(made)}: "
        "see to the seals, or have the lubricant analysed in service"
    ]


def _said(level: str) -> str:
    return level.replace("_", " ")
