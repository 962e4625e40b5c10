"""Load cases as arrays, one element a case or bin of a spectrum, ready for any number of pairs at once."""

from dataclasses import dataclass

import numpy as np

from engine.answers.resolved import Resolved
from engine.answers.running import Case
from engine.duty import onshaft
from engine.duty.element import Element
from engine.duty.shaft import BearingLoad, Forces, bearing_loads, radial_loads, reduced
from engine.duty.spectrum import Spectrum, merged, scaled_forces
from engine.numerics import Floats, by_case


@dataclass(frozen=True)
class LoadCases:
    """Shares, speeds and forces of k load cases; the forces are reduced to plane z = 0 of bearing A.

    share [-], n [rpm], forces as `engine.duty.shaft.Forces`, shock [-] the factor on loads for static safety only,
    temperature [degC] of the bearings; all of shape (k,). `elements` holds, for each case that was answered, what acts
    on the shaft in it; a case with a measured spectrum has as many places in the arrays as there are bins, and
    `case_of` tells which case each place is of.
    """

    names: tuple[str, ...]
    share: Floats
    n: Floats
    forces: Forces
    shock: Floats
    temperature: Floats
    elements: tuple[tuple[Element, ...], ...]
    case_of: tuple[int, ...]

    def __len__(self) -> int:
        return len(self.names)

    @property
    def K_a(self) -> Floats:
        """External axial force, positive towards B [N]."""
        return self.forces.F_a

    @property
    def running(self) -> Floats:
        """Which cases consume life: those that turn for a share of the time."""
        return (self.n > 0) & (self.share > 0)

    @property
    def weights(self) -> Floats:
        """Shares of the running time (k,), of all cases where none runs."""
        return self.share * (self.running if self.running.any() else 1.0)

    def radial_loads(self, z_A: Floats, z_B: Floats) -> tuple[Floats, Floats]:
        """Return the radial load on A and on B per pair and case, for load centres of shape (pairs, 1)."""
        return radial_loads(self.forces, by_case(z_A, len(self)), z_B)

    def bearing_loads(self, z_A: Floats, z_B: Floats) -> tuple[BearingLoad, BearingLoad]:
        """Return the same with parts and directions."""
        return bearing_loads(self.forces, z_A, z_B)


def load_cases(resolved: Resolved) -> LoadCases:
    """Return the cases of the answers as arrays."""
    cases = resolved.cases
    acting = tuple(onshaft.elements(resolved.shaft, case) for case in cases)
    bins = [_bins(case) for case in cases]
    forces = [
        scaled_forces(elements, case.n, spectrum) for elements, case, spectrum in zip(acting, cases, bins, strict=True)
    ]
    sizes = [len(spectrum) for spectrum in bins]

    def each(values: list[float]) -> Floats:
        return np.repeat(np.array(values, dtype=np.float64), sizes)

    def joined(columns: list[Floats]) -> Floats:
        return np.concatenate(columns) if columns else np.zeros(0)

    return LoadCases(
        names=tuple(name for case, size in zip(cases, sizes, strict=True) for name in _names(case, size)),
        share=each([case.share for case in cases]) * joined([spectrum.share for spectrum in bins]),
        n=joined([spectrum.n for spectrum in bins]),
        forces=_joined(forces),
        shock=each([case.shock for case in cases]),
        temperature=joined([spectrum.temperature for spectrum in bins]),
        elements=acting,
        case_of=tuple(np.repeat(np.arange(len(cases)), sizes).tolist()),
    )


def _bins(case: Case) -> Spectrum:
    """Return the bins of a case: those that were measured, equal ones made one, else the case itself."""
    if case.bins is not None:
        measured = case.bins
        share = np.array(measured.share)
        temperature = np.array(measured.temperature) if measured.temperature else np.full(len(share), case.temperature)
        whole = Spectrum(share / share.sum(), np.array(measured.speed), np.array(measured.level), temperature)
        return merged(whole)
    return Spectrum(np.ones(1), np.array([case.n]), np.ones(1), np.array([case.temperature]))


def _names(case: Case, size: int) -> list[str]:
    return [case.name] if size == 1 else [f"{case.name}, bin {at + 1}" for at in range(size)]


def _joined(forces: list[Forces]) -> Forces:
    """Return the forces of all cases one behind the other."""
    if not forces:
        return reduced((), np.zeros(0))
    still, turning = (
        tuple(np.concatenate([getattr(one, kind)[part] for one in forces]) for part in range(4))
        for kind in ("still", "turning")
    )
    F_a, T = (np.concatenate([getattr(one, name) for one in forces]) for name in ("F_a", "T"))
    return Forces(still, turning, F_a, T)  # type: ignore[arg-type]
