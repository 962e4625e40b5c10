"""The candidates for one side of the shaft."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING, Any

import numpy as np

from engine.numerics import Floats, Rows
from engine.operating import Bearings, Conditions, Thermal, load_centre, seated_of
from engine.warmth.ladder import Ladder

if TYPE_CHECKING:
    from engine.catalogue.columns import Catalogue

#: Films of more numbers than this are computed where they are needed and not kept: a spectrum of a thousand bins makes
#: them as wide as long.
MOST_KEPT = 2_000_000
#: Of larger catalogues the fits of the candidates alone are computed.
MOST_SEATED = 20_000


@dataclass(frozen=True, eq=False)
class Side:
    """Rows of a catalogue mounted on side A or B, with what every stage asks of them."""

    name: str
    catalogue: Catalogue
    rows: Rows
    conditions: Conditions

    def __len__(self) -> int:
        return len(self.rows)

    def keep(self, index: Rows) -> Side:
        """Return some of the candidates; what is known of them is not computed again."""
        kept = Side(self.name, self.catalogue, self.rows[index], self.conditions)
        whole = self.__dict__.get("_whole")
        if whole is not None:
            kept.__dict__["_whole"] = whole.take(index)
        return kept

    def parts(self, index: Any) -> Catalogue:
        """Return the catalogue rows of some candidates."""
        return self.catalogue.take(self.rows[index])

    def bearings(self, index: Any) -> Bearings:
        """Return some candidates (a slice or row numbers) with their films."""
        if self._whole is not None:
            return self._whole.take(index)
        return self._bearings(self.rows[index])

    @cached_property
    def _whole(self) -> Bearings | None:
        if len(self.rows) * len(self.conditions.cases) > MOST_KEPT:
            return None
        return self._bearings(self.rows)

    def _bearings(self, rows: Rows) -> Bearings:
        # what the fits do changes with few answers, so that of the whole catalogue is kept
        seated = None
        if len(self.catalogue) <= MOST_SEATED:
            strain, hold = seated_of(self.catalogue, self.name, self.conditions)
            seated = strain and strain.take(rows), hold and hold.take(rows)
        return Bearings.of(self.catalogue.take(rows), self.name, self.conditions, seated)

    @cached_property
    def thermal(self) -> Thermal | None:
        """What they make and shed of heat; None where no temperature settles."""
        if not self.conditions.settling.any():
            return None
        own = self.catalogue.take(self.rows)
        return Thermal.of(own, np.zeros((len(self.rows), 0)), self.conditions.resolved)

    @cached_property
    def ladder(self) -> Ladder | None:
        """What bounds the temperatures of its pairs; None where none settles."""
        return Ladder.of(self.conditions) if self.conditions.settling.any() else None

    @cached_property
    def z(self) -> Floats:
        """Where the load centres lie along the shaft [mm]."""
        own = self.catalogue.take(self.rows)
        return np.asarray(load_centre(own, self.name, self.conditions.resolved))

    @cached_property
    def Y(self) -> Floats:
        """Axial load factors [-]."""
        return self.catalogue.Y[self.rows]
