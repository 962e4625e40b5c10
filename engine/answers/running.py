"""The load cases of the answers made complete: shares of the whole time, forces with their factors."""

from dataclasses import dataclass

from engine.answers.binned import Bins
from engine.answers.chapters.duty import LoadCase
from engine.answers.chapters.element import Element
from engine.answers.contradiction import ROUNDING
from engine.answers.document import Answers, answered
from engine.answers.question import Quantity
from engine.answers.reader import Assumption, Reader
from engine.rating.application import DRIVEN, application_factor_KA
from engine.sources import citation_of


@dataclass(frozen=True)
class Case:
    """A load case in engine units: share of time as a fraction, thrust signed (positive towards B).

    The forces carry load level and application factor, which `level` holds as one number for the shaft's elements;
    `sense` is 1 for the usual rotation and -1 for the reversed one, `shock` multiplies loads for static safety only;
    `number` is that among the answers, from 1.
    """

    name: str
    share: float
    n: float
    F_y: float
    F_z: float
    position: float
    K_a: float
    level: float = 1.0
    sense: float = 1.0
    shock: float = 1.0
    temperature: float = 70.0
    bins: Bins | None = None
    number: int = 1

    @property
    def fastest(self) -> float:
        """The greatest speed, of the bins where a spectrum was measured [rpm]."""
        return max(self.bins.speed) if self.bins is not None else self.n

    @property
    def hottest(self) -> float:
        """The greatest temperature of the bearings [degC]."""
        return max(self.bins.temperature) if self.bins is not None and self.bins.temperature else self.temperature


_NO_CASE = "a load case with its speed and a force"


def _loaded(case: LoadCase) -> bool:
    return any(force is not None for force in (case.radial_y, case.radial_z, case.axial))


def needed(answers: Answers) -> tuple[str, ...]:
    """Return the paths of the open questions that lives cannot be computed without, in the order to ask them.

    What elements of the shaft still lack is not among them: `engine.answers.mounted` says it.
    """
    given = [(at, case) for at, case in enumerate(answers.duty.cases) if case != LoadCase()] or [(0, LoadCase())]
    on_shaft = any(element != Element() for element in answers.shaft.elements)
    found = []
    for at, case in given:
        if case.speed is None:
            found.append(f"duty.cases[{at}].speed")
        if not _loaded(case) and not on_shaft:
            found.append(f"duty.cases[{at}].radial_y")
    return (*found, *(["duty.distance"] if answers.duty.distance is None else []))


def cases(
    answers: Answers, reader: Reader, distance: float | None, temperature: float
) -> tuple[tuple[Case, ...], list[str]]:
    """Return the load cases, or nothing and what is missing for them."""
    given = [(i, case) for i, case in enumerate(answers.duty.cases) if case != LoadCase()]
    powered = [at for at, element in enumerate(answers.shaft.elements, 1) if answered(element, "power")]
    on_shaft = any(element != Element() for element in answers.shaft.elements)
    for_power = f", for the power of element {powered[0]}" if powered else ""
    missing = [] if given else ["the speed of a load case" + for_power if on_shaft else _NO_CASE]
    for i, case in given:
        if case.speed is None:
            missing.append(f"speed of load case {i + 1}{for_power}")
        if not _loaded(case) and not on_shaft:
            missing.append(f"a force of load case {i + 1}")
    if distance is None:
        missing.append("distance between the bearings")
    if missing or distance is None:
        return (), missing
    shares = _shares(given, reader)
    factor = _application_factor(answers)
    return tuple(_case(i, case, shares[i], reader, (distance, temperature, factor, on_shaft)) for i, case in given), []


def _shares(given: list[tuple[int, LoadCase]], reader: Reader) -> dict[int, float]:
    """Return the shares as fractions of one; open ones split what is left, and the sum is scaled to the whole."""
    stated = {i: case.share.value for i, case in given if case.share is not None}
    open_ones = [i for i, case in given if case.share is None]
    left = max(0.0, 100.0 - sum(stated.values()))
    for i in open_ones:
        path = f"duty.cases[{i}].share"
        reader.note(path, reader.items[path].question, Quantity(left / len(open_ones)))
    shares = stated | {i: left / len(open_ones) for i in open_ones}
    total = sum(shares.values())
    # more than the whole time is a contradiction, and is said as that alone: nothing is computed with it
    if 0 < total <= 100.0 + ROUNDING and abs(total - 100.0) > 1e-9:
        reader.assumptions.append(
            Assumption("duty.cases", "Shares of time", f"scaled to 100 % from {total:g} %", "they do not add up")
        )
    # all shares zero: no running time at all; every case then only counts for static safety
    return {i: share / total if total > 0 else 0.0 for i, share in shares.items()}


def _application_factor(answers: Answers) -> float:
    """Return what cases get that leave their application factor open: by driver and driven machine, else 1."""
    duty = answers.duty
    if duty.driver is None and duty.driven is None:
        return 1.0
    return application_factor_KA(duty.driver or "uniform", duty.driven or "uniform")


def application_told(answers: Answers) -> str:
    """Return what driver and driven machine make of the application factor, with the row of the table it stands in."""
    driver = answers.duty.driver or "uniform"
    row = ", ".join(f"{kind} {application_factor_KA(driver, kind):g}" for kind in DRIVEN)
    return (
        f"Cases that leave it open get the application factor {_application_factor(answers):g}. This driver, by the "
        f"driven machine's shocks: {row} ({citation_of(application_factor_KA)})."
    )


def _case(index: int, case: LoadCase, share: float, reader: Reader, common: tuple[float, float, float, bool]) -> Case:
    distance, temperature, factor, on_shaft = common
    path = f"duty.cases[{index}]"
    take = reader.take
    level = take(f"{path}.load_level") / 100.0 * take(f"{path}.application_factor", Quantity(factor))
    # that a case has no forces of its own goes without saying where the load comes from what sits on the shaft, and
    # side and place are only needed, and only assumed, where there is a force
    own = _loaded(case) or not on_shaft
    for note in case.histogram.notes if case.histogram is not None else ():
        label = f"Load case {index + 1}, measured spectrum"
        reader.assumptions.append(Assumption(f"{path}.histogram", label, note.rstrip("."), "when its file was read"))
    thrust, F_y, F_z = (take(f"{path}.{name}") if own else 0.0 for name in ("axial", "radial_y", "radial_z"))
    towards = take(f"{path}.axial_towards") if thrust else "B"
    return Case(
        name=case.name or f"case {index + 1}",
        share=share,
        n=take(f"{path}.speed"),
        F_y=level * F_y,
        F_z=level * F_z,
        position=take(f"{path}.position", Quantity(distance / 2)) if F_y or F_z else distance / 2,
        K_a=level * thrust * (1.0 if towards == "B" else -1.0),
        level=level,
        sense=-1.0 if take(f"{path}.rotation") == "reversed" else 1.0,
        shock=take(f"{path}.shock_factor"),
        temperature=case.temperature.value if case.temperature is not None else temperature,
        bins=case.histogram,
        number=index + 1,
    )
