"""The names of the invented catalogue: V050-3DB-C, Q112.1+6 and the parts of both."""

import re

from engine.catalogue.naming import series_code
from engine.catalogue.naming.reading import Limits, Range, Reading
from engine.sources import Citation, Document

OWN_SCHEME = Document("Own scheme", "Names of the invented catalogue that comes with the program", "defined here")
_OWN_METRIC = re.compile(
    r"V(?P<bore>[0-9]{3,4})-(?P<series>[1-7][A-G][A-E])(?:-(?P<execution>[A-Z][A-Z0-9]{0,2})(?P<ring>\.[IO])?)?"
)
_OWN_INCH = re.compile(r"(?P<series>Q[0-9]{3,4})(?:\.(?P<one>[0-9]{1,2})(?:\+(?P<other>[0-9]{1,2}))?)?")
_RINGS = {".I": ("cone", ".i"), ".O": ("cup", ".o")}
#: Steel letters, and what may stand behind one.
_STEELS = {
    "C": "rings case-hardened",
    "T": "rings through-hardened",
    "S": "rings through-hardened and stabilised for higher temperatures",
}
_PROFILES = {"L": "rollers with a logarithmic profile"}
#: Cones of an inch series count from 1, cups from this number.
FIRST_CUP = 6
_OWN_SOURCES = (Citation(OWN_SCHEME, "names of parts and assemblies"),)


def metric_readings(code: str) -> list[Reading]:
    """Return the reading as a metric name, and what the dimension series in it says."""
    match = _OWN_METRIC.fullmatch(code)
    if match is None or int(match["bore"]) == 0:
        return []
    if match["execution"] is None:
        return _every_execution(match["bore"], match["series"])
    ring, suffix = _RINGS.get(match["ring"] or "", ("assembly", ""))
    name = f"V{match['bore']}-{match['series']}-{match['execution']}{suffix}"
    execution = match["execution"]
    parts = [
        ("V", "metric, of the invented range"),
        (match["bore"], f"bore d {int(match['bore'])} mm"),
        (match["series"], "ISO 355 dimension series"),
        (execution[0], _STEELS.get(execution[0], "execution, not described by the scheme")),
    ]
    parts += [(execution[1:], _PROFILES.get(execution[1:], "not described by the scheme"))] if execution[1:] else []
    parts += [(suffix, f"the {ring} alone")] if suffix else []
    unknown = ["load ratings and exact sizes: the row of the catalogue gives them"]
    if execution[1:] and execution[1:] not in _PROFILES:
        unknown.append(f"what {execution[1:]} after the steel letter is")
    limits = Limits(d=Range(float(match["bore"]), float(match["bore"])), system="metric", name=name)
    own = Reading(f"Own scheme, metric {ring}", name, _OWN_SOURCES, tuple(parts), tuple(unknown), limits)
    return [own, *series_code.readings(f"T{match['series']}{match['bore']}")]


def _every_execution(bore: str, series: str) -> list[Reading]:
    d = float(bore)
    parts = (
        ("V", "metric, of the invented range"),
        (bore, f"bore d {int(bore)} mm"),
        (series, "ISO 355 dimension series"),
    )
    unknown = ("steel and roller profile: the letters behind a second hyphen give them", "load ratings and exact sizes")
    limits = Limits(d=Range(d, d), dimension_series=series, system="metric")
    own = Reading("Own scheme, metric size", f"V{bore}-{series}", _OWN_SOURCES, parts, unknown, limits)
    return [own, *series_code.readings(f"T{series}{bore}")]


def inch_readings(code: str) -> list[Reading]:
    """Return the reading as an inch name: a series, an assembly, a cone or a cup."""
    match = _OWN_INCH.fullmatch(code)
    if match is None:
        return []
    one, other = match["one"], match["other"]
    if one is None:
        return [_whole_series(match["series"])]
    cone = int(one) < FIRST_CUP
    if other is not None and (not cone or int(other) < FIRST_CUP):
        return []
    parts = [(match["series"], "inch series of the invented range: any of its cones fits any of its cups")]
    parts += [(f".{one}", f"cone {one}" if cone else f"cup {one}")]
    parts += [(f"+{other}", f"cup {other}")] if other is not None else []
    ring = "assembly, cone first" if other is not None else "cone" if cone else "cup"
    unknown = ("bore, sizes and ratings: the name carries none, the row of the catalogue gives them",)
    limits = Limits(series=match["series"], system="inch", name=code)
    return [Reading(f"Own scheme, inch {ring}", code, _OWN_SOURCES, tuple(parts), unknown, limits)]


def _whole_series(series: str) -> Reading:
    parts = ((series, "inch series of the invented range: any of its cones fits any of its cups"),)
    unknown = ("bore, sizes and ratings: the name carries none, the rows of the catalogue give them",)
    limits = Limits(series=series, system="inch")
    return Reading("Own scheme, inch series", series, _OWN_SOURCES, parts, unknown, limits)
