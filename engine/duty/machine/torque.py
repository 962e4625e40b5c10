"""Whether the torques on a shaft are in balance: what runs into it leaves it again, or is described by nobody."""

from collections.abc import Iterable
from dataclasses import dataclass

from engine.duty.element import Element, Step
from engine.units import number_text

#: What runs in and out may differ by this share of the greater of the two: powers and torques are typed rounded.
TOLERANCE = 0.02
#: Kinds that take torque from a shaft without being asked for it; the rest may be theirs.
TAKERS = ("impeller", "ram")
#: What is found of the torques of a case, see `Balance.finding`.
BALANCED, INTO, OUT, TAKEN, UNBALANCED = "in balance", "in", "out", "taken", "out of balance"
_SOURCE = "Statics, sum of the torques on a shaft"


@dataclass(frozen=True)
class Balance:
    """Torques of one case [N mm]: `into` the shaft, in its sense of rotation, and `out` of it; both 0 or more.

    `takers` says that something on the shaft takes torque that is not described.
    """

    into: float
    out: float
    takers: bool = False

    @property
    def carried(self) -> bool:
        """Whether any element carries torque."""
        return max(self.into, self.out) > 0

    @property
    def rest(self) -> float:
        """What is left of the torques, positive where more runs into the shaft than out of it [N mm]."""
        return self.into - self.out

    @property
    def holds(self) -> bool:
        """Whether the torques are in balance within TOLERANCE."""
        return abs(self.rest) <= TOLERANCE * max(self.into, self.out)

    @property
    def finding(self) -> str:
        """What is found: "in balance", "in" or "out" where torque runs one way only, "taken", or "out of balance"."""
        if self.holds:
            return BALANCED
        if not self.out or not self.into:
            return INTO if self.into else OUT
        return TAKEN if self.takers and self.rest > 0 else UNBALANCED

    @property
    def said(self) -> str:
        """What is to be minded, in words; "" where the torques are in balance or none is carried."""
        into, out, rest = (f"{number_text(abs(T) / 1000, 4)} N m" for T in (self.into, self.out, self.rest))
        both = f"{into} into the shaft, {out} out of it"
        return {
            BALANCED: "",
            INTO: f"torque runs into the shaft only, {into}; the rest leaves by what is not described, such as a "
            "coupling, a brake or a machine",
            OUT: f"torque runs out of the shaft only, {out}; the rest comes in by what is not described, such as a "
            "coupling or a motor",
            TAKEN: f"torque runs {both}; the rest, {rest}, leaves by what is not described, such as the impeller",
            UNBALANCED: f"torque is OUT OF BALANCE by {rest}: {both}; more than {100 * TOLERANCE:g} % is no rounding, "
            "so check powers, torques and which way they run",
        }[self.finding]


def balance(elements: Iterable[Element], rotation: float, kinds: Iterable[str] = ()) -> Balance:
    """Return the balance of the elements of one case on a shaft that turns with `rotation` (+1 or -1).

    `kinds` are those of everything on the shaft.
    """
    along = [float(element.T) * rotation for element in elements]
    return Balance(
        into=sum(T for T in along if T > 0),
        out=-sum(T for T in along if T < 0),
        takers=any(kind in TAKERS for kind in kinds),
    )


def steps(held: Balance) -> tuple[Step, ...]:
    """Return the sums as steps to be done by hand; none where no element carries torque."""
    if not held.carried:
        return ()
    return (
        _sum("T_in", "torques that run into the shaft", held.into, "sum(T_s) with the rotation"),
        _sum("T_out", "torques that run out of the shaft", held.out, "sum(T_s) against the rotation"),
        _sum("T", f"what is left; {100 * TOLERANCE:g} % may be rounding", held.rest, "T_in - T_out"),
    )


def _sum(symbol: str, name: str, value: float, formula: str) -> Step:
    return Step(symbol, name, value, "N mm", f"{symbol} = {formula}", _SOURCE)
