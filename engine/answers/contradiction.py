"""Answers that contradict one another: each may be right by itself, but not beside the others."""

from collections.abc import Iterator
from dataclasses import dataclass

from engine.answers.chapters.duty import LoadCase
from engine.answers.chapters.element import TURNING, Element, kind_of
from engine.answers.chapters.lubrication import Lubrication
from engine.answers.document import Answers, answered, questions_of
from engine.answers.lubricated.own import OwnLubricant
from engine.answers.measured import Measure
from engine.answers.mounted import ends, spans
from engine.answers.question import Refused
from engine.units import number_text

#: Letters of shaft fits that nobody calls heavy.
_LIGHTER = tuple("ghjkmn")
#: Shares typed as rounded percentages (33.3 three times) still count as the whole.
ROUNDING = 1.0


@dataclass(frozen=True)
class Contradiction:
    """The path of an answer that cannot stand beside the others, why not, and what would be accepted."""

    path: str
    wrong: str
    accepted: str

    def __str__(self) -> str:
        """Return it as one line."""
        return f"{self.wrong}; accepted: {self.accepted}"


def contradictions(answers: Answers) -> tuple[Contradiction, ...]:
    """Return everything in the answers that cannot be true together."""
    found = (_shares, _nothing, _twice, _standing, _outside, _hollow, _fits, _oil)
    return tuple(one for contradict in found for one in contradict(answers))


def refuse_new(before: Answers, after: Answers, path: str) -> None:
    """Raise Refused where a change of the answer at `path` brought in a contradiction that was not there before."""
    known = {one.path for one in contradictions(before)}
    new = [one for one in contradictions(after) if one.path not in known or one.path == path]
    if path.startswith("shaft.sections"):
        # steps are given one after the other: until the last one stands the shaft is too short for what sits on it
        new = [one for one in new if one.path.startswith("shaft.sections")]
    if new:
        raise Refused(new[0].wrong, new[0].accepted)


def _shares(answers: Answers) -> Iterator[Contradiction]:
    """Yield shares of more than the whole time; what is left over belongs to a case that leaves it open."""
    total = 0.0
    for at, case in enumerate(answers.duty.cases):
        total += case.share.value if case.share is not None else 0.0
        if total > 100.0 + ROUNDING:
            yield Contradiction(
                f"duty.cases[{at}].share",
                f"the shares of time of load cases 1 to {at + 1} add up to {number_text(total)} %",
                "100 % in all; leave a share open and the case gets what the others leave",
            )
            return


def shares_stated(answers: Answers) -> float:
    """Return what the shares of time add up to [%]; a case that leaves its share open gets what the others leave."""
    shares = [case.share for case in answers.duty.cases if case != LoadCase()]
    total = sum(share.value for share in shares if share is not None)
    return total if shares and None not in shares else max(100.0, total)


def shares_told(answers: Answers) -> str:
    """Return what becomes of shares that are all stated and do not add up, in a sentence; "" where there is nothing."""
    total = shares_stated(answers)
    if abs(total - 100.0) <= ROUNDING:
        return ""
    if total == 0:
        return "The shares of time are all 0 %: no case runs, and each counts for static safety only."
    return (
        f"The shares of time add up to {number_text(total)} %; they are scaled to 100 %. A case that leaves its share "
        "open gets what the others leave."
    )


def _nothing(answers: Answers) -> Iterator[Contradiction]:
    """Yield diameters that transmit nothing, and a seal that is wider than the ring around it."""
    for at, element in enumerate(answers.shaft.elements):
        which = f"element {at + 1} ({kind_of(element)})"
        diameter, path = element.diameter, f"shaft.elements[{at}]"
        if element.kind in TURNING and diameter is not None and diameter.value == 0:
            measure = questions_of(Element)["diameter"]
            assert isinstance(measure, Measure)
            yield Contradiction(
                f"{path}.diameter",
                f"the diameter of {which} is 0 mm, which transmits no torque",
                f"above 0, up to {number_text(measure.greatest)} mm",
            )
        ring, seal = element.ring_diameter, element.seal_diameter
        if element.kind == "impeller" and ring and ring.value and seal and seal.value > ring.value:
            yield Contradiction(
                f"{path}.seal_diameter",
                f"the shaft at the seal of {which}, {number_text(seal.value)} mm, is wider than its wear ring",
                f"at most the diameter of the wear ring, {number_text(ring.value)} mm",
            )


def _twice(answers: Answers) -> Iterator[Contradiction]:
    """Yield answers that say the same thing in two ways."""
    for at, element in enumerate(answers.shaft.elements):
        for one, other in (("power", "torque"), ("eccentricity", "balance_grade")):
            if answered(element, one) and answered(element, other):
                yield Contradiction(
                    f"shaft.elements[{at}].{other}",
                    f"{_word(one)} and {_word(other)} of element {at + 1} on the shaft are both given",
                    "one of them; clear the other",
                )


def _word(name: str) -> str:
    return name.replace("_", " ")


def _standing(answers: Answers) -> Iterator[Contradiction]:
    """Yield cases that stand: a power says nothing of the torque there."""
    powered = [at for at, element in enumerate(answers.shaft.elements) if answered(element, "power")]
    for at, case in enumerate(answers.duty.cases):
        if powered and case.speed is not None and case.speed.value == 0:
            yield Contradiction(
                f"duty.cases[{at}].speed",
                f"load case {at + 1} stands still, where the power of element {powered[0] + 1} gives no torque",
                "a torque for that element, or a speed above 0",
            )


def _outside(answers: Answers) -> Iterator[Contradiction]:
    """Yield elements beyond the ends of the shaft, which are known once every step is measured."""
    sections = answers.shaft.sections
    # a shaft that does not reach its bearings is one whose steps are still being given
    if not sections or any(section.length is None for section in sections) or not spans(answers):
        return
    begin, end = ends(answers)
    for at, element in enumerate(answers.shaft.elements):
        if element.position is not None and not begin <= element.position.value <= end:
            yield Contradiction(
                f"shaft.elements[{at}].position",
                f"element {at + 1} at {number_text(element.position.value)} mm lies outside the shaft",
                f"{number_text(begin)} to {number_text(end)} mm, or other steps of the shaft",
            )


def _hollow(answers: Answers) -> Iterator[Contradiction]:
    for at, section in enumerate(answers.shaft.sections):
        if section.bore is None or section.diameter is None or section.bore.value < section.diameter.value:
            continue
        yield Contradiction(
            f"shaft.sections[{at}].bore",
            f"the bore of step {at + 1} of the shaft leaves no wall",
            f"less than its diameter, {number_text(section.diameter.value)} mm",
        )


def _fits(answers: Answers) -> Iterator[Contradiction]:
    """Yield a bore that a shaft cannot have, and fits that the words of the steel chapter deny."""
    fits, steel, envelope = answers.fits, answers.steel, answers.envelope
    bore = fits.shaft_bore.value if fits.shaft_bore is not None else 0.0
    if bore and steel.hollow_shaft is False:
        yield Contradiction(
            "fits.shaft_bore",
            f"the shaft has a bore of {number_text(bore)} mm and is answered not to be hollow",
            "0 for a solid shaft, or yes to a hollow one in the chapter Steel",
        )
    for side, limits in (("A", envelope.bore_a), ("B", envelope.bore_b)):
        if limits is not None and limits.greatest is not None and bore >= limits.greatest:
            yield Contradiction(
                "fits.shaft_bore",
                f"a shaft bore of {number_text(bore)} mm leaves no wall in bearings of at most "
                f"{number_text(limits.greatest)} mm at {side}",
                f"less than {number_text(limits.greatest)} mm",
            )
    if steel.heavy_interference:
        for side in "ab":
            stated = getattr(fits, f"shaft_fit_{side}")
            if stated and stated.startswith(_LIGHTER):
                yield Contradiction(
                    f"fits.shaft_fit_{side}",
                    f"a heavy interference fit is answered, and {stated} at {side.upper()} is none",
                    "p or r, or no to the heavy interference in the chapter Steel",
                )


def _oil(answers: Answers) -> Iterator[Contradiction]:
    """Yield a lubricant that the supply cannot bring, and viscosities that no oil has."""
    oil = answers.lubrication
    if oil.lubricant is not None:
        supply = oil.supply or questions_of(type(oil))["supply"].default
        name, form = _named(oil.lubricant)
        if form and (form == "grease") != (supply == "grease"):
            yield Contradiction(
                "lubrication.lubricant",
                f"{name} is {'a grease' if form == 'grease' else 'an oil'}, and the supply is "
                f"{'grease' if supply == 'grease' else 'oil'}",
                "a lubricant that goes with the supply; clear it to change the supply",
            )
        return
    if oil.viscosity_by == "points":
        yield from _points(oil)
        return
    if oil.vi is not None and oil.nu100 is not None:
        yield Contradiction(
            "lubrication.vi", "viscosity index and viscosity at 100 degC are both given", "one of them; clear the other"
        )
    if oil.nu40 is not None and oil.nu100 is not None and oil.nu100.value >= oil.nu40.value:
        yield Contradiction(
            "lubrication.nu100",
            f"{number_text(oil.nu100.value)} mm2/s at 100 degC is not below {number_text(oil.nu40.value)} at 40 degC",
            "an oil that thins as it warms",
        )


def _named(lubricant: str | OwnLubricant) -> tuple[str, str]:
    """Return what a lubricant of a list is called, and whether it is an oil or a grease."""
    if isinstance(lubricant, OwnLubricant):
        return lubricant.name, lubricant.form
    from engine.catalogue.lubricants.names import builtin_forms

    return lubricant, builtin_forms().get(lubricant, "")


def _points(oil: Lubrication) -> Iterator[Contradiction]:
    """Yield two points of a data sheet that are at one temperature, or of which the hotter is not the thinner."""
    if oil.point_1_viscosity is None or oil.point_2_viscosity is None:
        return
    asked = questions_of(type(oil))
    at = [(getattr(oil, name) or asked[name].default).value for name in ("point_1_temperature", "point_2_temperature")]
    nu = [oil.point_1_viscosity.value, oil.point_2_viscosity.value]
    if at[0] == at[1]:
        yield Contradiction(
            "lubrication.point_2_temperature",
            f"both points of the viscosity are at {number_text(at[0])} degC",
            "two temperatures that differ",
        )
        return
    hotter = 0 if at[0] > at[1] else 1
    if nu[hotter] >= nu[1 - hotter]:
        yield Contradiction(
            "lubrication.point_2_viscosity",
            f"{number_text(nu[hotter])} mm2/s at {number_text(at[hotter])} degC is not below "
            f"{number_text(nu[1 - hotter])} at {number_text(at[1 - hotter])} degC",
            "an oil that thins as it warms",
        )
