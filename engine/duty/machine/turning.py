"""What a part transmits: torque, the sense in which its shaft turns, and whether it drives."""

from dataclasses import dataclass

from engine.duty import mesh
from engine.duty.element import Step, given, made


@dataclass(frozen=True)
class Turning:
    """Torque T [N mm] through one part, rotation +1 or -1 (see `engine.duty.element`), and whether the part drives.

    A part drives where it passes torque on to its mate, and is driven where it brings torque into the shaft.
    """

    T: float
    rotation: int
    driving: bool
    steps: tuple[Step, ...] = ()

    def __post_init__(self) -> None:
        if self.rotation not in (1, -1):
            raise ValueError(f"rotation is {self.rotation!r}, accepted are 1 and -1")

    @property
    def sense(self) -> int:
        """Sense of the tangential force: with the rotation where the part is driven, against it where it drives."""
        return -self.rotation if self.driving else self.rotation

    @property
    def reversed(self) -> "Turning":
        """The same torque on a shaft that turns the other way round, the part still driving or driven."""
        return Turning(self.T, -self.rotation, self.driving, self.steps)


def by_torque(T: float, rotation: int, driving: bool) -> Turning:
    """Return what transmits a torque [N mm]."""
    return Turning(T, rotation, driving, (given("T", "torque", T, "N mm"),))


def by_power(P: float, n: float, rotation: int, driving: bool) -> Turning:
    """Return what transmits a power [W] at a speed [rpm]."""
    T = float(mesh.torque_of_power(P, n))
    steps = given("P", "power", P, "W"), given("n", "speed", n, "rpm")
    return Turning(T, rotation, driving, (*steps, made("T", "torque", T, "N mm", mesh.torque_of_power)))
