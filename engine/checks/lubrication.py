"""Checks of film, rib, speed by heat and grease. They caution only, and are computed for given pairs."""

import numpy as np

from engine.checks.check import Check, Outcome
from engine.checks.loads import over_running
from engine.lubrication import contamination, heat, thermal_speed
from engine.lubrication.contact import film, rib
from engine.lubrication.grease import interval
from engine.numerics import Floats, greatest, least
from engine.operating import Bearings, Conditions
from engine.sources import ISO_281, Citation, citation_of
from engine.warmth.contact import Contact, flows_needed

#: Below this film ratio the peaks of the surfaces touch: common practice, no source.
LAMBDA_WANTED = 1.0

THICK = Check(
    "film_thick", "Film not thicker than counts", "-", Citation(ISO_281, "clause 9.3.3.4"),
    "greatest kappa", "kappa 4, beyond which oil only adds friction", advisory=True,
)  # fmt: skip
LAMBDA = Check(
    "film_ratio", "Film over roughness", "-", citation_of(film.film_ratio_lambda),
    "lambda 1", "least film over roughness", advisory=True,
)  # fmt: skip
RIB = Check(
    "rib_speed", "Rib speed suits the lubrication", "m/s", citation_of(rib.usual_rib_speed),
    "greatest mean rib speed", "usual limit of this lubrication", advisory=True,
)  # fmt: skip
SAFE_SPEED = Check(
    "safe_speed", "Speed is thermally safe", "rpm", citation_of(thermal_speed.thermally_safe_speed),
    "speed of the hardest case", "thermally safe speed at the stated temperature", advisory=True,
)  # fmt: skip
REFERENCE = Check(
    "reference_speed", "Thermal reference speed", "rpm", citation_of(thermal_speed.thermal_reference_speed),
    "highest speed of the cases", "thermal reference speed", advisory=True,
)  # fmt: skip
GREASE = Check(
    "grease_interval", "Grease lasts", "h", citation_of(interval.regreasing_interval),
    "interval wanted, or life where greased for life", "regreasing interval over the cases", advisory=True,
)  # fmt: skip
OIL_FLOW = Check(
    "oil_flow", "Oil flow holds the temperature", "l/min", citation_of(heat.oil_flow_needed),
    "flow needed in the hardest case", "oil flow", advisory=True,
)  # fmt: skip


def advisory(side: str, bearings: Bearings, contact: Contact, conditions: Conditions) -> list[Outcome]:
    """Return the cautions of one side."""
    resolved = conditions.resolved
    wet, n = resolved.lubricated, conditions.cases.n
    fastest = over_running(np.broadcast_to(n, np.shape(bearings.kappa)), conditions, greatest, 0.0)
    found = [
        Outcome(THICK, side, over_running(bearings.kappa, conditions, greatest, 0.0),
                np.asarray(contamination.KAPPA_GREATEST)),
        Outcome(LAMBDA, side, np.asarray(LAMBDA_WANTED), over_running(contact.film.lam, conditions, least, np.inf)),
        Outcome(RIB, side, over_running(contact.rib_speed, conditions, greatest, 0.0),
                np.asarray(rib.usual_rib_speed(resolved.supply))),
        Outcome(REFERENCE, side, fastest, contact.n_ref[..., 0]),
    ]  # fmt: skip
    if not wet.settled:
        found.append(_safe(side, contact, conditions))
    if contact.interval is not None and wet.greasing is not None:
        wanted = resolved.life if wet.greasing.wanted is None else wet.greasing.wanted
        found.append(Outcome(GREASE, side, np.asarray(wanted), grease_interval(contact, conditions)))
    return found


def _safe(side: str, contact: Contact, conditions: Conditions) -> Outcome:
    """Return the case whose speed lies highest over what is thermally safe in it."""
    safe = np.where(conditions.cases.running, contact.safe_speed, np.inf)
    with np.errstate(divide="ignore", invalid="ignore"):
        use = np.where(safe > 0, conditions.cases.n / safe, np.inf)
    at = np.argmax(np.where(np.isnan(use), np.inf, use), axis=-1)[:, None]
    n = np.broadcast_to(np.where(conditions.cases.running, conditions.cases.n, 0.0), safe.shape)
    return Outcome(SAFE_SPEED, side, *(np.take_along_axis(values, at, axis=-1)[:, 0] for values in (n, safe)))


def grease_interval(contact: Contact, conditions: Conditions) -> Floats:
    """Return the regreasing interval over the cases that run [h]; without end where none does."""
    running = conditions.cases.running
    assert contact.interval is not None
    if not running.any():
        return np.full(contact.interval.shape[:-1], np.inf)
    share = conditions.cases.share[running]
    return interval.interval_over_cases(share / share.sum(), contact.interval[..., running])


def oil_flow(contacts: tuple[Contact, Contact], conditions: Conditions) -> list[Outcome]:
    """Return whether the flow that was answered is what the temperature needs, of each housing."""
    around = conditions.resolved.lubricated.surroundings
    if around.oil_flow is None:
        return []
    needed = flows_needed(contacts, conditions)
    sides = zip(("pair",) if around.shared else ("A", "B"), needed, strict=False)
    return [
        Outcome(OIL_FLOW, side, over_running(flow, conditions, greatest, 0.0), np.asarray(around.oil_flow))
        for side, flow in sides
    ]
