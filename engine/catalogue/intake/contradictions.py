"""Rows whose values contradict each other: found, explained by the likeliest cause, and the fitting value named."""

from collections.abc import Mapping
from dataclasses import dataclass, field

import numpy as np

from engine.catalogue.intake import estimate
from engine.catalogue.intake.corrections import Correction, suspicions
from engine.catalogue.intake.headers import BY_NAME
from engine.catalogue.intake.rules import RULES, Rule, badness
from engine.catalogue.intake.stated import Stated, accepted
from engine.catalogue.trouble import Trouble
from engine.numerics import Bools, Floats, Rows

#: Causes are sought for so many rows; a file in which more are wrong is wrong in the same way.
MOST_SOUGHT = 2000
#: Rollers of a tapered bearing hardly fit a smaller outside diameter [mm]: there inches are likelier than newtons.
_SMALLEST_USUAL = 25.0
_UNLIKELY = 3.0
#: Whoever states e, Y and alpha: two that agree outvote the third.
_ANGLE = (("e", ("e", "alpha")), ("Y", ("Y", "alpha")), ("Y", ("Y", "e")))


@dataclass
class Contradictions:
    """What was found: rows left out, and by suspicion the rows that show it and those that were looked at."""

    left_out: Bools
    warned: Bools
    shown_by: dict[Correction, Bools] = field(default_factory=dict)
    sought: Bools = field(default_factory=lambda: np.zeros(0, dtype=np.bool_))


@dataclass(frozen=True, eq=False)
class Telling:
    """Which findings are told: those of some causes, or all with None; `hard` are the rows that are left out anyway."""

    causes: frozenset[Correction] | None = None
    hard: Bools | None = None


EVERYTHING = Telling()


def contradictions(
    stated: Stated, values: Mapping[str, Floats], refusing: Trouble, warning: Trouble, telling: Telling = EVERYTHING
) -> Contradictions:
    """Note every contradiction in the filled `values`: as refusing where the row is left out, else as warning."""
    rows = len(stated)
    found = Contradictions(np.zeros(rows, dtype=np.bool_), np.zeros(rows, dtype=np.bool_))
    with np.errstate(all="ignore"):
        off = {rule: _off(rule, stated, values) for rule in RULES if all(name in stated.places for name in rule.stated)}
        _outvote(off)
        hard = stated.refused.copy()
        for rule, one in off.items():
            if np.any(one > 1):
                figures = rule.value(values)
                hard |= (one > 1) & ~((figures >= rule.possible[0]) & (figures <= rule.possible[1]))
        suspicious = np.zeros(rows, dtype=np.bool_)
        for mask in [*(one > 1 for one in off.values()), *stated.outside.values()]:
            suspicious |= mask
        every = np.flatnonzero(suspicious)
        found.sought = np.zeros(rows, dtype=np.bool_)
        found.sought[every[:MOST_SOUGHT]] = True
        causes = _Causes(stated, every[:MOST_SOUGHT], list(off))
        hard = hard if telling.hard is None else telling.hard
        report = _Report(stated, values, causes, found, hard, refusing, warning, telling.causes)
        for name, mask in stated.outside.items():
            report.of_limit(name, mask)
        for rule, one in off.items():
            if np.any(one > 1):
                report.of_rule(rule, one > 1)
    return found


def _off(rule: Rule, stated: Stated, values: Mapping[str, Floats]) -> Floats:
    known = ~np.any([np.isnan(stated.numbers[name]) for name in rule.stated], axis=0)
    return np.where(known, badness(rule, values), np.nan)


def _outvote(off: dict[Rule, Floats]) -> None:
    """Where e, Y and alpha are stated and one disagrees with the two others, leave it to the rule that blames it."""
    by_pair = {frozenset(rule.stated): rule for rule in off if rule.column in {"e", "Y"}}
    pairs = [by_pair.get(frozenset(pair)) for _, pair in _ANGLE]
    if None in pairs:
        return
    e_alpha, Y_alpha, Y_e = (off[rule] > 1 for rule in pairs if rule)
    # e wrong: its rule stays; Y wrong: that of Y and alpha stays; alpha wrong: that of e and alpha stays
    off[pairs[2]] = np.where(e_alpha | Y_alpha, np.nan, off[pairs[2]])  # type: ignore[index]
    off[pairs[1]] = np.where(e_alpha & ~Y_e, np.nan, off[pairs[1]])  # type: ignore[index]


class _Causes:
    """For the rows looked at: what each suspicion would leave wrong."""

    def __init__(self, stated: Stated, rows: Rows, rules: list[Rule]) -> None:
        self.rows = {int(row): place for place, row in enumerate(rows.tolist())}
        self._stated = stated
        self._numbers = {name: column[rows] for name, column in stated.numbers.items()}
        self._rules = rules
        self._small = self._numbers["D"] < _SMALLEST_USUAL
        self.suspected = suspicions(stated.places) if rows.size else []
        self._places = {one: place for place, one in enumerate(self.suspected)}
        self.now = self._judged(self._numbers)
        # every suspicion is a row of one table of (suspicions, rows), so that each formula runs once
        changed = [one.on_numbers(self._numbers) for one in self.suspected] or [self._numbers]
        self.then = self._judged({name: np.stack([one[name] for one in changed]) for name in self._numbers})
        # a figure that can no longer be told is not mended
        lost = [np.isnan(one) & ~np.isnan(self.now.off[rule]) for rule, one in self.then.off.items()]
        self._left = self.then.total + np.sum(lost, axis=0)

    def _judged(self, numbers: dict[str, Floats]) -> "_Judged":
        values, _ = estimate.filled(numbers)
        off = {}
        for rule in self._rules:
            known = ~np.any([np.isnan(numbers[name]) for name in rule.stated], axis=0)
            off[rule] = np.where(known, badness(rule, values), np.nan)
        outside = {}
        for name in self._stated.places:
            column = BY_NAME[name]
            if column.kind != "text":
                number = np.round(numbers[name] / column.scale, 9)
                outside[name] = (number < column.least) | (number > column.greatest)
        masks = [*(one > 1 for one in off.values()), *outside.values()]
        total = np.sum(masks, axis=0)
        distance = np.nansum([np.square(np.minimum(one, 10)) for one in off.values()], axis=0)
        return _Judged(numbers, off, outside, total, distance)

    def of(self, row: int, rule: Rule | None, name: str) -> Correction | None:
        """Return what makes a rule hold, or a column lie within its limits, and leaves the least else wrong."""
        place = self.rows.get(row)
        if place is None:
            return None
        best, best_score = None, (float(self.now.total[place]), np.inf)
        total, distance = self._left[:, place].tolist(), self.then.distance[:, place].tolist()
        for at, one in enumerate(self.suspected):
            concerned = rule.concerns if rule else frozenset(one.columns if name in one.columns else ())
            near = concerned.issuperset(one.columns) if one.swapped else bool(concerned & set(one.columns))
            if not near or total[at] >= float(self.now.total[place]):
                continue
            mended = self.mends(one, row, rule, name)
            score = (total[at], distance[at] + self._unlikely(one, place))
            if mended and score < best_score:
                best, best_score = one, score
        return best

    def mends(self, one: Correction, row: int, rule: Rule | None, name: str) -> bool:
        """Return whether a rule holds, or a column lies within its limits, when the suspicion is true."""
        at = self._places[one], self.rows[row]
        return bool(self.then.off[rule][at] <= 1) if rule else not self.then.outside[name][at]

    def _unlikely(self, one: Correction, place: int) -> float:
        inches = one.unit is not None and one.unit.name == "in" and len(one.columns) > 1
        loads = one.unit is not None and bool({"Cr", "C0r"} & set(one.columns))
        small = bool(self._small[place])
        return _UNLIKELY if (inches and not small) or (loads and small) else 0.0

    def value(self, row: int, cause: Correction, name: str) -> float:
        """Return what a column holds when the suspicion is true, in engine units."""
        return float(self.then.numbers[name][self._places[cause], self.rows[row]])


@dataclass(frozen=True, eq=False)
class _Judged:
    numbers: dict[str, Floats]
    off: dict[Rule, Floats]
    outside: dict[str, Bools]
    total: Floats
    distance: Floats


@dataclass
class _Report:
    """Turns what is off into sentences, one for each row and cause."""

    stated: Stated
    values: Mapping[str, Floats]
    causes: _Causes
    found: Contradictions
    hard: Bools
    refusing: Trouble
    warning: Trouble
    telling: frozenset[Correction] | None = None
    _told: dict[int, list[Correction]] = field(default_factory=dict)

    def of_rule(self, rule: Rule, mask: Bools) -> None:
        figures = rule.value(self.values)
        header = self.stated.places[rule.column].header
        for row in np.flatnonzero(mask).tolist():
            if self._is_explained(row, rule, rule.column):
                continue
            figure = float(figures[row])
            cause = self.causes.of(row, rule, rule.column)
            if not self._is_new(row, cause):
                continue
            wrong = f"{self._cells(rule, row)}: {rule.figure} is {figure:.3g}"
            fits = f"{rule.figure.rstrip(',')} from {rule.kept[0]:g} to {rule.kept[1]:g}"
            if cause is None and rule.column == "a":
                a, T = (float(self.values[name][row]) for name in ("a", "T"))
                fits = f"{fits} (about {self._in_header('a', a - figure * T):.3g} would fit)"
            if cause is None and rule.proportional and figure > 0:
                value = self._in_header(
                    rule.column, float(self.stated.numbers[rule.column][row]) * rule.around / figure
                )
                fits = f"{fits} (about {value:.3g} would fit)"
            self._add(row, header, wrong, cause, fits)

    def of_limit(self, name: str, mask: Bools) -> None:
        place = self.stated.places[name]
        for row in np.flatnonzero(mask).tolist():
            if self._is_explained(row, None, name):
                continue
            cause = self.causes.of(row, None, name)
            if self._is_new(row, cause):
                wrong = f'"{self.stated.shown(name, row)}" lies outside the limits'
                self._add(row, place.header, wrong, cause, accepted(place))

    def _is_explained(self, row: int, rule: Rule | None, name: str) -> bool:
        """Return whether a cause that was told for the row already makes this right as well."""
        told = self._told.get(row, ())
        return any(self.causes.mends(cause, row, rule, name) for cause in told)

    def _is_new(self, row: int, cause: Correction | None) -> bool:
        """Note the row; False when its cause was told already, as of a unit that is wrong in several columns."""
        (self.found.left_out if self.hard[row] else self.found.warned)[row] = True
        if cause is None:
            return True
        self._told.setdefault(row, []).append(cause)
        shown = self.found.shown_by.setdefault(cause, np.zeros(len(self.stated), dtype=np.bool_))
        new = not shown[row]
        shown[row] = True
        return new

    def _add(self, row: int, header: str, wrong: str, cause: Correction | None, fits: str) -> None:
        if self.telling is not None and cause not in self.telling:
            return
        trouble = self.refusing if self.hard[row] else self.warning
        if cause:
            header = self.stated.places[cause.columns[0]].header
            wrong = f"{wrong}; suspected: {cause.words}"
            known = [name for name in cause.columns if not np.isnan(self.causes.value(row, cause, name))]
            fits = "; ".join(self._fit(row, cause, name) for name in known[:3])
        trouble.add(self.stated.lines[row], header, wrong, fits)

    def _fit(self, row: int, cause: Correction, name: str) -> str:
        value = self._in_header(name, self.causes.value(row, cause, name))
        return f"{value:.6g} in {self.stated.places[name].header} would fit"

    def _in_header(self, name: str, value: float) -> float:
        unit = self.stated.places[name].unit
        return (value / BY_NAME[name].scale - unit.offset) / unit.factor

    def _cells(self, rule: Rule, row: int) -> str:
        names = [name for name in (*rule.stated, *rule.touched) if name in self.stated.places]
        return ", ".join(f"{name} {self.stated.shown(name, row)}" for name in dict.fromkeys(names))
