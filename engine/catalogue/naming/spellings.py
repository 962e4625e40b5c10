"""The ways in which one designation is written: with the document before it, with hyphens, as cone and cup."""

import re
from collections.abc import Iterator

_DOCUMENT = re.compile(r"(?:DIN|EN|ISO)+(?:355|10317|720)(?::[0-9]{4}:?)?[-,]?(?=.)")
#: A hyphen between letters and digits, as after the class letters of an inch number.
_HYPHEN = re.compile(r"(?<=[A-Z])-(?=[0-9])|(?<=[0-9])-(?=[A-Z])")
_OWN_INCH_PAIR = re.compile(r"(?P<series>Q[0-9]{3,4})\.(?P<cone>[0-9]{1,2})[/+](?:(?P=series)\.)?(?P<cup>[0-9]{1,2})")
#: Of a cup behind its cone only the last digits may stand: they take the place of the cone's.
_SHORT_CUP = re.compile(r"[0-9]{2,3}[A-Z]?")


def spellings(code: str) -> Iterator[tuple[str, ...]]:
    """Yield what a code may spell, as it stands first: one designation, or a cone and a cup; no blanks, in capitals."""
    whole = list(dict.fromkeys((code, _DOCUMENT.sub("", code, count=1) if _DOCUMENT.match(code) else code)))
    for one in whole:
        own = _OWN_INCH_PAIR.fullmatch(one)
        yield (f"{own['series']}.{own['cone']}+{own['cup']}",) if own else (one,)
    for one in whole:
        cone, sign, cup = one.partition("/")
        if sign and cone and cup:
            yield _joined(cone), _joined(_whole_cup(_joined(cone), cup))
        elif _HYPHEN.search(one):
            yield (_joined(one),)


def _joined(code: str) -> str:
    """Return a code without the hyphens that only part letters from digits; an own metric name keeps its own."""
    return code if code.startswith("V") else _HYPHEN.sub("", code)


def _whole_cup(cone: str, cup: str) -> str:
    digits = re.search(r"[0-9]+(?=[A-Z]*$)", cone)
    if digits and _SHORT_CUP.fullmatch(cup) and len(digits[0]) > len(cup.rstrip("ABCDEFGHIJKLMNOPQRSTUVWXYZ")):
        kept = digits.end() - len(cup.rstrip("ABCDEFGHIJKLMNOPQRSTUVWXYZ"))
        return cone[:kept] + cup
    return cup
