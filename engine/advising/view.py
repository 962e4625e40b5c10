"""Everything that a screen draws of a pair's lubrication, computed in one go."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from engine.advising.curves import Heats, Viscosities, heats, viscosities
from engine.advising.proposals import Pause, Proposal, proposals
from engine.advising.standing import standing
from engine.answers.document import Answers
from engine.answers.lubricated.own import OwnLubricant
from engine.answers.resolved import resolve

if TYPE_CHECKING:
    from engine.catalogue.columns import Catalogue


@dataclass(frozen=True)
class View:
    """Curves, where a pair runs on them, proposals, and how the level of cleanliness came about.

    `names` are the designations at A and B, "" where no pair is known; `chosen` whether it is the chosen pair, else it
    leads the shortlist.
    """

    names: tuple[str, str]
    chosen: bool
    viscosities: Viscosities
    heats: tuple[Heats, ...]
    proposals: tuple[Proposal, ...]
    cleanliness: tuple[tuple[str, str], ...]  # what was said, and the level after it


def view(
    answers: Answers,
    pair: tuple[Catalogue, Catalogue] | None,
    chosen: bool,
    pause: Pause = lambda: None,
    own: tuple[OwnLubricant, ...] = (),
) -> View:
    """Return the view of a pair, given as catalogues of one row each, or of the lubricant alone.

    `own` are lubricants that can be had beside the built-in ones.
    """
    pause()
    now = standing(answers, *pair) if pair is not None else None
    pause()
    wet = (resolve(answers) if now is None else now.conditions.resolved).lubricated
    steps = tuple((step.said, step.level.replace("_", " ")) for step in wet.cleanliness.steps)
    names = (str(pair[0].designation[0]), str(pair[1].designation[0])) if pair is not None else ("", "")
    return View(
        names,
        chosen,
        viscosities(wet.lubricant, now),
        heats(now) if now is not None else (),
        proposals(answers, *pair, pause, own) if pair is not None else (),
        steps,
    )
