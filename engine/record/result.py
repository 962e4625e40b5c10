"""Everything computed about the chosen pair, as figures and checks with their clauses."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from engine.checks import setting
from engine.checks.check import Outcome, weight
from engine.checks.every import Evaluated, evaluate
from engine.figures import Block
from engine.numerics import Floats
from engine.operating import Conditions
from engine.record.blocks import bearings_block, case_blocks, pair_block
from engine.record.loads import of_duty
from engine.record.lubrication.cautions import cautions as oil_cautions
from engine.record.lubrication.grease_block import grease_block
from engine.record.lubrication.oil_blocks import lubricant_block, speeds_block
from engine.record.seats import blocks as seat_blocks
from engine.record.seats import cautions, steels
from engine.record.setting_blocks import setting_blocks
from engine.setting.study import Study, Tick, study
from engine.setting.system import NotComputed

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
    margin: bool = True  # whether room left in it is worth having
    by_distribution: bool = False  # by the load distribution at the setting, else by closed formulas

    @property
    def judged(self) -> bool:
        """Whether it could be judged; what could not rules nothing out, and its demand is not known."""
        return not (self.passes and math.isnan(self.demand))


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
    steels: tuple[str, ...] = ()  # what is said of both heat treatments
    study: Study | None = None  # the setting, where it has been computed
    #: Those of the cautions that are of the duty itself, whatever the pair.
    of_duty: tuple[str, ...] = ()
    why_no_study: str = ""  # why the load distribution could not be computed

    @property
    def passes(self) -> bool:
        """Whether loads are known and every check that is not advisory passes."""
        return not self.missing and all(check.passes for check in self.checks if not check.advisory)

    @property
    def not_judged(self) -> tuple[CheckRow, ...]:
        """The checks that could not be judged, for want of what they take."""
        return tuple(check for check in self.checks if not check.judged)

    def governing(self, by_distribution: bool = False) -> CheckRow | None:
        """Return the check by which the pair is nearest its limit, or fails; None where there is none.

        It is one of those that rule out: of the closed formulas, as wherever many pairs are computed, or of the load
        distribution.
        """
        counted = [one for one in self.checks if not one.advisory and one.by_distribution == by_distribution]
        return max(counted, key=lambda one: weight(one.utilisation, one.margin)) if counted else None

    @property
    def verdict(self) -> str:
        """Return passes, fails, or incomplete."""
        if any(not check.passes for check in self.checks if not check.advisory):
            return "fails"
        return "incomplete" if self.missing else "passes"


def compute(A: Catalogue, B: Catalogue, conditions: Conditions, tick: Tick = lambda _: None) -> Result:
    """Return everything about one pair, given as catalogues of one row each.

    `tick` is told the share of the work done, most of which is the load distribution; an exception it raises ends it.
    """
    evaluated = evaluate(A, B, conditions)
    if evaluated.states is None:
        return _result(evaluated, conditions, None, "")
    try:
        return _result(evaluated, conditions, study(A, B, conditions, tick=tick), "")
    except NotComputed as why:
        return _result(evaluated, conditions, None, str(why))


def without_setting(A: Catalogue, B: Catalogue, conditions: Conditions) -> Result:
    """Return what the closed formulas say of one pair: at once, while its load distribution is still being computed."""
    return _result(evaluate(A, B, conditions), conditions, None, "")


def _result(evaluated: Evaluated, conditions: Conditions, made: Study | None, why: str) -> Result:
    A, B, resolved = evaluated.A, evaluated.B, conditions.resolved
    found, said = list(evaluated.outcomes), tuple(of_duty.cautions(conditions))
    blocks = [bearings_block(A, B), lubricant_block(evaluated, conditions)]
    if evaluated.states is not None:
        blocks += [pair_block(evaluated, conditions), speeds_block(evaluated, conditions)]
        blocks += [*grease_block(evaluated, conditions), *case_blocks(evaluated, conditions)]
    blocks += [*seat_blocks.blocks(evaluated, conditions), steels.block(evaluated, conditions)]
    if made is not None:
        found = sorted([*found, *setting.outcomes(made)], key=lambda outcome: outcome.check.advisory)
        blocks += setting_blocks(made)
    # checks that hold a value of the catalogue, as it stands there, against a limit
    as_it_stands = {"mass": "mass", "speed": "n_grease" if resolved.supply == "grease" else "n_oil"}
    closed = {id(outcome) for outcome in evaluated.outcomes}
    checks = tuple(
        replace(
            _check_row(outcome, {"A": A, "B": B}, as_it_stands.get(outcome.check.key)),
            by_distribution=id(outcome) not in closed,
        )
        for outcome in found
    )
    return Result(
        bearing_A=str(A.designation[0]),
        bearing_B=str(B.designation[0]),
        blocks=tuple(blocks),
        checks=checks,
        assumptions=tuple(str(assumption) for assumption in resolved.assumptions),
        cautions=(
            *said,
            *_short(checks),
            *cautions.of(evaluated, conditions),
            *oil_cautions(evaluated, conditions),
            *([f"The load distribution is not computed: {why}"] if why else []),
        ),
        missing=resolved.missing,
        steels=steels.sentences(evaluated, conditions),
        study=made,
        of_duty=said,
        why_no_study=why,
    )


def _check_row(outcome: Outcome, rows: dict[str, Catalogue], column: str | None) -> CheckRow:
    check = outcome.check
    sides = [rows[outcome.side]] if outcome.side in rows else list(rows.values())
    guessed = column is not None and any(side.is_estimated(column)[0] for side in sides)
    name = f"{check.name} (estimated)" if guessed else check.name

    def first(values: Floats) -> float:
        return float(np.ravel(values)[0])

    return CheckRow(
        check.key, name, outcome.side, first(outcome.demand), first(outcome.capacity), check.unit,
        first(outcome.utilisation), bool(np.ravel(outcome.passes)[0]), check.advisory, str(check.source),
        check.demand_is, check.capacity_is, check.margin,
    )  # fmt: skip


def _short(checks: tuple[CheckRow, ...]) -> list[str]:
    """Return one sentence for each check that cautions."""
    return [
        f"{c.name} at {c.side}: {c.capacity_is} is short of {c.demand_is}"
        for c in checks
        if c.advisory and not c.passes
    ]
