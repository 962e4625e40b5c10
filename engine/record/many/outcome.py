"""One duty of many computed: the pair, the verdict, what binds, and every check; or what was wrong with it."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import numpy as np

from engine.answers.resolved import resolve
from engine.catalogue import source
from engine.catalogue.columns import Catalogue
from engine.catalogue.source import Source
from engine.checks.check import weight
from engine.checks.every import Evaluated, evaluate
from engine.errors import Problems, plain
from engine.operating import Conditions
from engine.record.computed import rows_of
from engine.record.consistent import insist
from engine.record.document import Record
from engine.record.many.duties import Duties, Row
from engine.record.read import read

#: The columns of a table of results; a figure that was not computed stays empty.
COLUMNS = (
    "row", "id", "job", "bearing_a", "bearing_b", "verdict", "governing_check", "governing_side", "utilisation",
    "life_a_h", "life_b_h", "life_pair_h", "static_safety_a", "static_safety_b", "mass_kg", "cautions", "problem",
)  # fmt: skip
#: So many bearings are kept at hand.
MOST_TAKEN = 256
#: Columns that are the capacity of a check: key and side.
_CAPACITIES = {
    "life_a_h": ("life", "A"), "life_b_h": ("life", "B"), "life_pair_h": ("system_life", "pair"),
    "static_safety_a": ("static", "A"), "static_safety_b": ("static", "B"),
}  # fmt: skip


@dataclass(frozen=True)
class Outcome:
    """What came out of one duty: the columns of a table of results, and each check in full."""

    columns: dict[str, Any]
    checks: list[dict[str, Any]] = field(default_factory=list)
    unused: bool = False  # whether the record holds keys that were not used

    @property
    def passes(self) -> bool:
        """Whether the duty was computed and its pair passes."""
        return self.columns.get("verdict") == "passes"


@dataclass
class Bench:
    """What a process computes duties with: the table they come from, and the catalogues opened so far."""

    duties: Duties | None
    otherwise: Path | None
    opened: dict[Path | None, Source] = field(default_factory=dict)
    taken: dict[tuple[Path | None, int], Catalogue] = field(default_factory=dict)

    def outcome(self, one: Row | str) -> Outcome:
        """Return the outcome of a row of the table, or of the record in a file. Never raises: one stops no other."""
        if isinstance(one, Row):
            assert self.duties is not None
            columns = {"row": f"{self.duties.file}:{one.line}", "id": self.duties.name_of(one)}
        else:
            columns = {"row": one, "id": ""}
        try:
            record = self.duties.record(one) if isinstance(one, Row) and self.duties else read(Path(str(one)))
            file = self.duties.file if isinstance(one, Row) and self.duties else str(one)
            columns["job"] = record.answers.duty.job or ""
            return self._computed(columns, record, file)
        except Problems as problems:
            return Outcome(columns | {"problem": str(problems).replace("\n", " | ")})
        except Exception as error:  # a fault of ours in one duty must not take the others with it
            return Outcome(columns | {"problem": f"could not be computed: {type(error).__name__}: {plain(error)}"})

    def _computed(self, columns: dict[str, Any], record: Record, file: str) -> Outcome:
        insist(record, file)
        path = source.placed(record.answers.choice.catalogue, Path(file).parent, self.otherwise)
        if path not in self.opened:
            self.opened[path] = source.opened(path)
        catalogue = self.opened[path].rows
        conditions = Conditions.of(resolve(record.answers))
        (row_A, row_B), _ = rows_of(record, catalogue, conditions, file)
        evaluated = evaluate(self._taken(path, row_A), self._taken(path, row_B), conditions)
        outcome = judged(columns, evaluated, conditions)
        return with_unused(outcome, record) if record.unused else outcome

    def _taken(self, path: Path | None, row: int) -> Catalogue:
        """Return a row of a catalogue, the same object each time: what is known of its seats is then kept too."""
        if (path, row) not in self.taken:
            if len(self.taken) >= MOST_TAKEN:
                self.taken.clear()
            self.taken[path, row] = self.opened[path].rows.take([row])
        return self.taken[path, row]


def judged(columns: dict[str, Any], evaluated: Evaluated, conditions: Conditions, at: int = 0) -> Outcome:
    """Return the outcome of one of some evaluated pairs; `columns` say which duty it is."""
    checks = list(_checks(evaluated, at))
    return Outcome(columns | _summary(evaluated, checks, conditions, at), checks)


def with_unused(outcome: Outcome, record: Record) -> Outcome:
    """Return an outcome that names the keys of its record that were not used."""
    problem = " | ".join(filter(None, [outcome.columns["problem"], *str(record.unused).splitlines()]))
    return Outcome(outcome.columns | {"problem": problem}, outcome.checks, unused=True)


def _checks(evaluated: Evaluated, at: int) -> list[dict[str, Any]]:
    def its(values: Any) -> float:
        flat = np.ravel(values)
        return float(flat[at if flat.size > 1 else 0])  # what is the same for all pairs stands once

    return [
        {
            "key": one.check.key, "side": one.side, "demand": its(one.demand), "capacity": its(one.capacity),
            "unit": one.check.unit, "utilisation": utilisation, "passes": utilisation <= 1.0,
            "advisory": one.check.advisory, "margin": one.check.margin,
        }
        for one in evaluated.outcomes
        for utilisation in (its(one.utilisation),)
    ]  # fmt: skip


def _summary(evaluated: Evaluated, checks: list[dict[str, Any]], conditions: Conditions, at: int) -> dict[str, Any]:
    binding = [check for check in checks if not check["advisory"]]
    fails = any(not check["passes"] for check in binding)
    missing = conditions.resolved.missing
    worst = max(binding, key=lambda check: weight(check["utilisation"], check["margin"]))
    found = {(check["key"], check["side"]): check["capacity"] for check in checks}
    return {
        "bearing_a": str(evaluated.A.designation[at]), "bearing_b": str(evaluated.B.designation[at]),
        "verdict": "fails" if fails else ("incomplete" if missing else "passes"),
        "governing_check": worst["key"], "governing_side": worst["side"], "utilisation": worst["utilisation"],
        **{name: found[place] for name, place in _CAPACITIES.items() if place in found},
        "mass_kg": conditions.resolved.per_side * float(evaluated.A.mass[at] + evaluated.B.mass[at]),
        "cautions": " ".join(f"{one['key']} {one['side']}" for one in checks if one["advisory"] and not one["passes"]),
        "problem": f"missing: {'; '.join(missing)}" if missing else "",
    }  # fmt: skip
