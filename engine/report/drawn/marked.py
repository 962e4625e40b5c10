"""What is marked on the curve of life against setting: where the pair runs, what keeps a long life, what is asked."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import TYPE_CHECKING

from engine.report.drawn.plots import Span
from engine.report.drawn.series import Marked

if TYPE_CHECKING:
    from engine.record.computed import Computed

#: The block whose curve it is, and the one that holds the chain from the bench to service.
_CURVE, _CHAIN = "setting_life", "setting"


def of_setting(computed: Computed) -> dict[str, Marked]:
    """Return what to mark on the curve of life, by the block that has the curve; nothing where none was computed."""
    figures = {
        (block.key, figure.key): figure.A
        for block in computed.result.blocks if block.key in {_CURVE, _CHAIN}
        for figure in block.figures
    }  # fmt: skip
    service, bench = (_number(figures, (_CHAIN, key)) for key in ("service", "bench"))
    if not math.isfinite(service):
        return {}
    shift = service - bench
    spans = (
        Span(_number(figures, (_CURVE, "band_low")), _number(figures, (_CURVE, "band_high")), "band of long life"),
        # what is left on the bench arrives in service as far off the middle as it was there
        Span(
            _number(figures, (_CHAIN, "bench_from")) + shift, _number(figures, (_CHAIN, "bench_to")) + shift,
            "bench band, as it runs",
        ),
    )  # fmt: skip
    asked = computed.conditions.resolved.life
    return {
        _CURVE: Marked(
            "setting in service, mm (end play; negative: preload)",
            tuple(one for one in spans if math.isfinite(one.low) and math.isfinite(one.high) and one.low < one.high),
            ((service, "setting in service, aimed at"),),
            (asked, "required life"),
        )
    }


def _number(figures: Mapping[tuple[str, str], object], key: tuple[str, str]) -> float:
    value = figures.get(key)
    return value if isinstance(value, float) else math.nan
