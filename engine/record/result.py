"""Everything computed about the chosen pair, as figures and checks with their clauses."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from engine.answers.chapters.duty import NOT_COVERED
from engine.checks.check import Outcome
from engine.checks.every import evaluate
from engine.figures import Block
from engine.numerics import Floats
from engine.operating import Conditions
from engine.record.blocks import bearings_block, case_blocks, pair_block
from engine.record.lubrication.cautions import cautions as oil_cautions
from engine.record.lubrication.grease_block import grease_block
from engine.record.lubrication.oil_blocks import lubricant_block, speeds_block
from engine.steel.verdict import reasons_for_case_hardening

if TYPE_CHECKING:
    from engine.catalogue.columns import Catalogue


@dataclass(frozen=True)
class CheckRow:
    """One check of the chosen pair with its numbers."""

    key: str
    name: str
    side: str
    demand: float
    capacity: float
    unit: str
    utilisation: float
    passes: bool
    advisory: bool
    source: str
    demand_is: str
    capacity_is: str


@dataclass(frozen=True)
class Result:
    """The chosen pair, computed: figures in blocks, checks, the verdict, what was assumed and what to mind."""

    bearing_A: str
    bearing_B: str
    blocks: tuple[Block, ...]
    checks: tuple[CheckRow, ...]
    assumptions: tuple[str, ...]
    cautions: tuple[str, ...]
    missing: tuple[str, ...]

    @property
    def passes(self) -> bool:
        """Whether loads are known and every check that is not advisory passes."""
        return not self.missing and all(check.passes for check in self.checks if not check.advisory)

    @property
    def verdict(self) -> str:
        """Return passes, fails, or incomplete."""
        if any(not check.passes for check in self.checks if not check.advisory):
            return "fails"
        return "incomplete" if self.missing else "passes"


def compute(A: Catalogue, B: Catalogue, conditions: Conditions) -> Result:
    """Return everything about one pair, given as catalogues of one row each."""
    evaluated = evaluate(A, B, conditions)
    checks = tuple(_check_row(outcome) for outcome in evaluated.outcomes)
    blocks = [bearings_block(A, B), lubricant_block(conditions)]
    if evaluated.states is not None:
        blocks += [pair_block(evaluated, conditions), speeds_block(evaluated, conditions)]
        blocks += [*grease_block(evaluated, conditions), *case_blocks(evaluated, conditions)]
    resolved = conditions.resolved
    return Result(
        bearing_A=str(A.designation[0]),
        bearing_B=str(B.designation[0]),
        blocks=tuple(blocks),
        checks=checks,
        assumptions=tuple(str(assumption) for assumption in resolved.assumptions),
        cautions=(*_cautions(checks, conditions), *oil_cautions(evaluated, conditions)),
        missing=resolved.missing,
    )


def _check_row(outcome: Outcome) -> CheckRow:
    check = outcome.check

    def first(values: Floats) -> float:
        return float(np.ravel(values)[0])

    return CheckRow(
        check.key, check.name, outcome.side, first(outcome.demand), first(outcome.capacity), check.unit,
        first(outcome.utilisation), bool(np.ravel(outcome.passes)[0]), check.advisory, str(check.source),
        check.demand_is, check.capacity_is,
    )  # fmt: skip


UNITS_CAUTION = f"Paired units are taken as one simple support each, in their middle; {NOT_COVERED}"


def _cautions(checks: tuple[CheckRow, ...], conditions: Conditions) -> list[str]:
    resolved = conditions.resolved
    found = [
        f"{c.name} at {c.side}: {c.capacity_is} is short of {c.demand_is}"
        for c in checks
        if c.advisory and not c.passes
    ]
    reasons = reasons_for_case_hardening(
        resolved.shock, resolved.heavy_interference, resolved.hollow_shaft, resolved.dirt
    )
    if resolved.locating:
        found.append(UNITS_CAUTION)
    found += [f"Case-hardened rings are asked for: {reason}" for reason in reasons]
    found += _tight_ring(resolved.rotating_ring, resolved.load_direction)
    return found


def _tight_ring(rotating_ring: str, load_direction: str) -> list[str]:
    """Return which ring sees a circumferential load and must sit tightly; by the definition of the load itself."""
    if load_direction == "indeterminate":
        return ["The load direction is unknown: both rings must sit tightly (circumferential load on either)"]
    load_turns_with = {"with_cone": "cone", "with_cup": "cup"}.get(load_direction, "")
    turning = [ring for ring in ("cone", "cup") if (ring == rotating_ring) != (ring == load_turns_with)]
    # a load that turns with the turning ring stands still relative to it and walks round the other one
    return [f"The {ring} sees a circumferential load and must sit tightly on its seat" for ring in turning]
