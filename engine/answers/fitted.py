"""The fits of the answers made complete: classes, ring that slides, shaft and housing, in engine units."""

from dataclasses import dataclass

from engine.answers.chapters.fits import BY_LOADS, CREEP_FAILS, RECOMMENDED
from engine.answers.document import Answers, question_at
from engine.answers.question import Quantity
from engine.answers.reader import Assumption, Reader
from engine.rating.application import application_factor_KA

#: What a fit is taken for that the steel chapter calls a heavy interference.
HEAVY_FIT = "r6"
#: Bore of a shaft of which only is known that it is hollow, in diameters of the seat; common practice, no source.
HOLLOW_SHARE = 0.5
#: Engine lengths are in mm, roughness is asked in um.
_MM = 1e-3


@dataclass(frozen=True)
class Side:
    """The seats of one side: classes or "recommended", which ring must slide, bore of the shaft."""

    shaft: str = RECOMMENDED
    housing: str = RECOMMENDED
    cone_slides: bool = False
    cup_slides: bool = False
    shaft_bore: float = 0.0  # [mm]


@dataclass(frozen=True)
class Fitted:
    """Both sides, and what they share; roughness depths in mm, differences of temperature in K."""

    A: Side = Side()
    B: Side = Side()
    level: str = BY_LOADS
    hollow_share: float = 0.0  # bore of the shaft in diameters of the seat, where no bore is answered
    shaft: str = "steel"
    shaft_Rz: float = 0.0025
    housing: str = "grey_iron"
    housing_wall: float | None = None  # [mm]
    split: bool = False
    housing_Rz: float = 0.0063
    cone_hotter: float = 5.0
    cup_hotter: float = 5.0
    mounting: str | None = None
    creeping: str = CREEP_FAILS
    shock_factor: float | None = None  # of the worst load case; None where no case states one

    def side(self, name: str) -> Side:
        """Return the seats of side A or B."""
        return self.A if name == "A" else self.B


def fitted(answers: Answers, reader: Reader) -> Fitted:
    """Return the fits, with the assumptions that were needed."""
    take = reader.take
    slides = _sliding(answers, reader)
    bores, share = _bores(answers, reader, take("steel.hollow_shaft"))
    heavy = take("steel.heavy_interference")
    classes = {path: _class(reader, path, heavy) for path in _PATHS}
    sides = [
        Side(
            shaft=classes[f"fits.shaft_fit_{side}"],
            housing=classes[f"fits.housing_fit_{side}"],
            cone_slides=slides in {f"cone_{side}", "cones"},
            cup_slides=slides in {f"cup_{side}", "cups"},
            shaft_bore=bore,
        )
        for side, bore in zip("ab", bores, strict=True)
    ]
    return Fitted(
        A=sides[0], B=sides[1],
        level=take("fits.level"),
        hollow_share=share,
        shaft=take("fits.shaft_material"),
        shaft_Rz=take("fits.shaft_roughness") * _MM,
        housing=take("fits.housing_material"),
        housing_wall=take("fits.housing_wall"),
        split=take("fits.split_housing"),
        housing_Rz=take("fits.housing_roughness") * _MM,
        cone_hotter=take("fits.cone_hotter"),
        cup_hotter=take("fits.cup_hotter"),
        mounting=take("fits.mounting"),
        creeping=take("fits.creeping"),
        shock_factor=_shock_factor(answers),
    )  # fmt: skip


_PATHS = ("fits.shaft_fit_a", "fits.shaft_fit_b", "fits.housing_fit_a", "fits.housing_fit_b")


def _class(reader: Reader, path: str, heavy: bool) -> str:
    """Return the class of a seat; a heavy interference, answered in a word, stands in for an open shaft fit."""
    if reader.items[path].value is None and path.startswith("fits.shaft") and heavy:
        _assume(reader, path, HEAVY_FIT, "a heavy interference fit is answered")
        return HEAVY_FIT
    taken: str = reader.take(path)
    return taken


def _assume(reader: Reader, path: str, shown: str, why: str) -> None:
    reader.assumptions.append(Assumption(path, question_at(path).label, shown, why))


def _sliding(answers: Answers, reader: Reader) -> str:
    """Return which ring must slide; while that is open, the one by which the arrangement is adjusted."""
    stated: str | None = reader.take("fits.adjusted")
    if stated is not None:
        return stated
    duty, speed = answers.duty, answers.speed
    if duty.locating in {"unit_a", "unit_b"}:
        floating = "b" if duty.locating == "unit_a" else "a"
        turning, load = speed.rotating_ring or "cone", speed.load_direction or "fixed"
        # the ring that the load goes round must hold, so the other one gives way to heat
        held = "cone" if (turning == "cone" if load == "fixed" else load != "with_cone") else "cup"
        found, why = f"{'cup' if held == 'cone' else 'cone'}_{floating}", "the paired unit locates, its partner floats"
    elif duty.arrangement == "face_to_face":
        found, why = "cup_b", "bearings face to face are adjusted by a cup"
    else:
        found, why = "cone_b", "bearings back to back are adjusted by a cone"
    _assume(reader, "fits.adjusted", question_at("fits.adjusted").show(found), why)
    return found


def _bores(answers: Answers, reader: Reader, hollow: bool) -> tuple[tuple[float, float], float]:
    """Return the bore of the shaft at both sides [mm], and its share of the seat where only that is known."""
    path = "fits.shaft_bore"
    stated = answers.fits.shaft_bore
    if stated is not None:
        return (stated.value, stated.value), 0.0
    found = _bores_of_steps(answers)
    if any(found):
        shown = " and ".join(f"{bore:g} mm at {side}" for side, bore in zip("AB", found, strict=True))
        _assume(reader, path, shown, "as the steps of the shaft have it")
        return found, 0.0
    if hollow:
        _assume(reader, path, "half of each seat", "a hollow shaft is answered")
        return (0.0, 0.0), HOLLOW_SHARE
    _assume(reader, path, question_at(path).show(Quantity(0.0)), "solid shaft")
    return (0.0, 0.0), 0.0


def _bores_of_steps(answers: Answers) -> tuple[float, float]:
    """Return the bores of the steps that both bearings sit on, 0 where there is no such step."""
    distance = answers.duty.distance
    places = (0.0, distance.value if distance is not None else None)
    found = [0.0, 0.0]
    begin = answers.shaft.start.value if answers.shaft.start is not None else 0.0
    for section in answers.shaft.sections:
        if section.length is None:
            break
        end = begin + section.length.value
        for side, place in enumerate(places):
            if place is not None and begin <= place <= end and section.bore is not None:
                found[side] = max(found[side], section.bore.value)
        begin = end
    return found[0], found[1]


def _shock_factor(answers: Answers) -> float | None:
    """Return application factor times shock factor of the worst load case; None where none is answered."""
    duty = answers.duty
    common = duty.driver is not None or duty.driven is not None
    usual = application_factor_KA(duty.driver or "uniform", duty.driven or "uniform") if common else 1.0
    factors = []
    for case in duty.cases:
        if common or case.application_factor is not None or case.shock_factor is not None:
            applied = case.application_factor.value if case.application_factor is not None else usual
            factors.append(applied * (case.shock_factor.value if case.shock_factor is not None else 1.0))
    return max(factors, default=None)
