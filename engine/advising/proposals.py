"""Changes of answers that the figures of a pair ask for, each computed anew with everything that follows from it."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from engine.advising.standing import Standing, standing
from engine.answers.contradiction import contradictions
from engine.answers.document import Answers, put, question_at
from engine.answers.lubricated.own import OwnLubricant
from engine.answers.question import Quantity
from engine.catalogue.lubricants.read import builtin
from engine.lubrication.advice import GRADES, INTERVAL_LEAST, why_oil
from engine.lubrication.cleanliness import LEVELS
from engine.lubrication.contact.rib import usual_rib_speed
from engine.lubrication.lubricant import FLOWING, Lubricant
from engine.units import number_text

if TYPE_CHECKING:
    from engine.catalogue.columns import Catalogue

#: A proposal that moves a life or kappa by less than this share is not worth a line.
WORTH = 0.02
#: So many may be picked by a digit.
MOST = 9
KAPPA_ENOUGH = 4.0
EP_CLEAN = 0.2
#: Ways of lubrication beside which there is one for a faster rib.
_FASTER = ("bath", "mist", "circulating")


@dataclass(frozen=True)
class Proposal:
    """Answers to change together, what the change is called, and what it does, in figures."""

    label: str
    effect: str
    changes: tuple[tuple[str, Any], ...]

    def applied(self, answers: Answers) -> Answers:
        """Return the answers with the changes made."""
        for path, value in self.changes:
            answers = put(answers, path, value)
        return answers


Pause = Callable[[], None]


def _go_on() -> None:
    """Never stop."""


def proposals(
    answers: Answers, A: Catalogue, B: Catalogue, pause: Pause = _go_on, own: tuple[OwnLubricant, ...] = ()
) -> tuple[Proposal, ...]:
    """Return what a pair's figures ask for, most telling first; nothing while loads are not known.

    `own` are the lubricants of the user's own list, which can be had as the built-in ones can.
    `pause()` is called before each computation and may raise, to stop.
    """
    now = standing(answers, A, B)
    if now is None:
        return ()
    trial = _Trial(answers, (A, B), now, pause, own)
    found: list[Proposal] = []
    for look in (_grade, _cleanliness, _oil, _circulation, _flow, _additive, _interval):
        found += look(trial)
    return tuple(found[:MOST])


@dataclass(frozen=True)
class _Trial:
    """One pair under the answers as they are, and under changed ones."""

    answers: Answers
    pair: tuple[Catalogue, Catalogue]
    now: Standing
    pause: Pause
    own: tuple[OwnLubricant, ...]

    def with_changes(self, changes: tuple[tuple[str, Any], ...]) -> Standing | None:
        """Return how the pair would stand; None where the answers would contradict each other."""
        self.pause()
        changed = Proposal("", "", changes).applied(self.answers)
        if set(contradictions(changed)) - set(contradictions(self.answers)):
            return None
        return standing(changed, *self.pair)

    def proposal(self, label: str, changes: tuple[tuple[str, Any], ...], then: Standing) -> Proposal:
        """Return a proposal with what it does to the figures that it moves."""
        return Proposal(label, _effect(self.now, then), changes)


def _effect(now: Standing, then: Standing) -> str:
    """Return the figures that move: kappa, temperature where it settles, friction, life."""
    said = []
    if _moved(now.kappa, then.kappa):
        said.append(f"kappa {then.kappa:.2f} (now {now.kappa:.2f})")
    if now.conditions.resolved.lubricated.settled and _moved(now.T + 273.15, then.T + 273.15, 0.002):
        said.append(f"{_degrees(then.T)} (now {_degrees(now.T)})")
    if _moved(now.heat, then.heat, 0.05):
        said.append(f"friction {number_text(then.heat, 3)} W (now {number_text(now.heat, 3)} W)")
    if _moved(now.life, then.life):
        said.append(f"life {number_text(then.life, 3)} h (now {number_text(now.life, 3)} h)")
    return ", ".join(said)


def _degrees(T: float) -> str:
    return "no temperature settles" if math.isnan(T) else f"{T:.0f} degC"


def _moved(now: float, then: float, share: float = WORTH) -> bool:
    if math.isnan(now) or math.isnan(then):
        return math.isnan(now) != math.isnan(then)
    return now != then and not abs(then - now) <= share * abs(now)


def _grade(trial: _Trial) -> Iterator[Proposal]:
    """Propose the thinnest grade that gives the kappa wanted: thicker where it is short, thinner where it is wasted."""
    now = trial.now
    wanted = now.conditions.resolved.lubricated.kappa_wanted
    short, wasted = not now.kappa >= wanted, now.kappa_most > KAPPA_ENOUGH and now.kappa > wanted
    if not (short or wasted):
        return
    nu40 = now.conditions.resolved.lubricated.lubricant.nu40
    for grade, label, changes in _grades(trial):
        if (grade > nu40) is not short or grade == nu40:
            continue
        then = trial.with_changes(changes)
        lives = then is not None and (short or then.life >= now.conditions.resolved.life)
        if then is not None and then.kappa >= wanted and lives:
            yield trial.proposal(label, changes, then)
            return


def _grades(trial: _Trial) -> list[tuple[float, str, tuple[tuple[str, Any], ...]]]:
    """Return the viscosities that could be had, thinnest first: others like the named one, else ISO grades."""
    oil = trial.now.conditions.resolved.lubricated.lubricant
    given = trial.answers.lubrication
    if given.lubricant is not None:
        had: list[tuple[Lubricant, str | OwnLubricant]] = [(one, one.name) for one in builtin()]
        had += [(one.lubricant, one) for one in trial.own]
        alike = [(one, answer) for one, answer in had if (one.form, one.base) == (oil.form, oil.base)]
        alike.sort(key=lambda pair: pair[0].nu40)
        return [(one.nu40, one.name, (("lubrication.lubricant", answer),)) for one, answer in alike]
    measured = [(f"lubrication.{name}", None) for name in ("nu40", "nu100") if getattr(given, name) is not None]
    if given.viscosity_by == "points":
        measured.append(("lubrication.viscosity_by", None))
    return [(VG, f"ISO VG {VG}", (*measured, ("lubrication.grade", str(VG)))) for VG in GRADES]


def _cleanliness(trial: _Trial) -> Iterator[Proposal]:
    """Propose the dirtiest level that gives the life wanted; where it is there already, the next cleaner one."""
    resolved = trial.now.conditions.resolved
    at = LEVELS.index(resolved.cleanliness)
    for level in reversed(LEVELS[:at]):
        changes: tuple[tuple[str, Any], ...] = (("lubrication.cleanliness", level),)
        if trial.answers.lubrication.cleanliness_by not in (None, "level"):
            changes = (("lubrication.cleanliness_by", "level"), *changes)
        then = trial.with_changes(changes)
        enough = then is not None and then.life >= resolved.life
        if then is not None and enough and _moved(trial.now.life, then.life):
            shown = question_at("lubrication.cleanliness").show(level)
            yield trial.proposal(f"Cleanliness {shown}", changes, then)
            return


def _oil(trial: _Trial) -> Iterator[Proposal]:
    """Propose an oil bath where grease is asked too much: speed, heat or an interval of less than a week."""
    now, resolved = trial.now, trial.now.conditions.resolved
    if resolved.supply != "grease":
        return
    running = now.conditions.cases.running
    fastest = float(now.conditions.cases.n[running].max()) if running.any() else 0.0
    slowest_limit = min(float(rows.n_grease[0]) for rows in trial.pair)
    limit = resolved.lubricated.lubricant.T_greatest
    reasons = why_oil(fastest, slowest_limit, now.T, limit, now.interval)
    if not reasons:
        return
    oil = resolved.lubricated.lubricant
    changes: tuple[tuple[str, Any], ...] = (("lubrication.supply", "bath"),)
    if trial.answers.lubrication.lubricant is not None:
        grades = [option.value for option in question_at("lubrication.grade").options]  # type: ignore[attr-defined]
        base = f"{oil.nu40:.0f}"
        changes = (("lubrication.lubricant", None), ("lubrication.grade", base if base in grades else None), *changes)
        if trial.answers.lubrication.viscosity_by is not None:
            changes = (*changes, ("lubrication.viscosity_by", None))
    then = trial.with_changes(changes)
    if then is not None:
        moved = _effect(now, then)
        yield Proposal("Oil bath in place of grease", "; ".join([*reasons, *([moved] if moved else [])]), changes)


def _circulation(trial: _Trial) -> Iterator[Proposal]:
    """Propose circulating oil where a bath runs too fast at the rib or too hot, a jet where that is too fast too."""
    now, resolved = trial.now, trial.now.conditions.resolved
    if resolved.supply not in _FASTER:
        return
    usual = usual_rib_speed(resolved.supply)
    limit = min(resolved.lubricated.lubricant.T_greatest, *(float(rows.max_temperature[0]) for rows in trial.pair))
    hot = resolved.lubricated.settled and not limit >= now.T and resolved.supply not in FLOWING
    if now.rib <= usual and not hot:
        return
    way = "jet" if now.rib > usual_rib_speed("circulating") else "circulating"
    named, here = (question_at("lubrication.supply").show(one) for one in (way, resolved.supply))
    why = f"{_degrees(now.T)}, limit {limit:.0f} degC" if hot else f"rib {now.rib:.1f} m/s, {here} {usual:g} m/s"
    yield from _flowing(trial, (("lubrication.supply", way),), f"{named[0].upper()}{named[1:]}: {why}")


def _flow(trial: _Trial) -> Iterator[Proposal]:
    """Propose the flow of oil that holds the temperature asked for, where the one answered does not."""
    now = trial.now
    flow = now.conditions.resolved.lubricated.surroundings.oil_flow
    if now.conditions.resolved.supply in FLOWING and (flow is None or flow < now.flow) and now.flow > 0:
        yield from _flowing(trial, (), "Oil flow")


def _flowing(trial: _Trial, changes: tuple[tuple[str, Any], ...], label: str) -> Iterator[Proposal]:
    first = trial.with_changes(changes) if changes else trial.now
    if first is None or not math.isfinite(first.flow):
        return
    flow = _rounded_up(first.flow)
    changes = (*changes, ("lubrication.oil_flow", Quantity(flow)))
    then = trial.with_changes(changes)
    if then is not None:
        around = then.conditions.resolved.lubricated.surroundings
        said = f"{flow:g} l/min in at {around.oil_inlet:g} degC hold {around.hold:g} degC"
        moved = _effect(trial.now, then)
        yield Proposal(label, f"{said}, {moved}" if moved else said, changes)


def _rounded_up(flow: float) -> float:
    """Return a flow rounded up to two digits, as it would be ordered."""
    if flow <= 0:
        return 0.0
    last = 10.0 ** (math.floor(math.log10(flow)) - 1)
    return float(f"{math.ceil(flow / last - 1e-9) * last:.6g}")


def _additive(trial: _Trial) -> Iterator[Proposal]:
    """Propose a proven additive where ISO 281 lets one count and it makes a difference."""
    now, resolved = trial.now, trial.now.conditions.resolved
    if resolved.ep_additive or not (now.kappa < 1 and now.e_C >= EP_CLEAN):
        return
    changes: tuple[tuple[str, Any], ...] = (("lubrication.ep_additive", True),)
    then = trial.with_changes(changes)
    if then is not None and _moved(now.life, then.life):
        yield trial.proposal("A proven EP additive", changes, then)


def _interval(trial: _Trial) -> Iterator[Proposal]:
    """Propose to regrease as often as the grease needs it, where that is a plan at all."""
    now, greasing = trial.now, trial.now.conditions.resolved.lubricated.greasing
    if greasing is None:
        return
    wanted = now.conditions.resolved.life if greasing.wanted is None else greasing.wanted
    if not 24.0 <= now.interval < wanted:
        return
    hours = float(f"{math.floor(now.interval / 10) * 10:.0f}")
    changes: tuple[tuple[str, Any], ...] = (("lubrication.interval", Quantity(hours)),)
    if greasing.wanted is None:
        changes = (("lubrication.regreasing", "hand"), *changes)
    often = "" if hours >= INTERVAL_LEAST else ", more than once a week"
    yield Proposal(f"Regrease every {hours:.0f} h", f"the grease lasts {now.interval:.0f} h{often}", changes)
