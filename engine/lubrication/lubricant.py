"""What a lubricant is: an oil, or a grease by its base oil and thickener. No numpy here: records are read by it."""

from dataclasses import dataclass

FORMS = ("oil", "grease")
BASES = ("mineral", "pao", "ester", "pag")

#: Ways in which a lubricant reaches the bearing, and the kind of ISO 281 Annex A (A.4 to A.6) that each counts as. The
#: annex names neither jet nor mist: a jet is oil that circulates through a filter in the line, a mist is oil that goes
#: through no filter in the line; common practice, no source.
ANNEX_KINDS = {"grease": "grease", "bath": "bath", "circulating": "circulating", "jet": "circulating", "mist": "bath"}
#: Those of which the oil carries heat away.
FLOWING = ("circulating", "jet")

#: ISO 3448 (recalled): the grade is the rounded mid-point viscosity at 40 deg C [mm2/s], limits +-10 %; of the four
#: thinnest the mid-point is not the number itself.
ISO_VG = (2, 3, 5, 7, 10, 15, 22, 32, 46, 68, 100, 150, 220, 320, 460, 680, 1000, 1500, 2200, 3200)
NU40_OF_THIN = {2: 2.2, 3: 3.2, 5: 4.6, 7: 6.8}


@dataclass(frozen=True)
class Lubricant:
    """One oil or grease; of a grease, viscosity, density and base are those of its base oil.

    nu40, nu100 [mm2/s] at 40 and 100 deg C, `two_points` where those follow from viscosities at two other temperatures;
    VG and VI as stated, None where two viscosities were given; rho15 [kg/m3]; T_least, T_greatest [deg C] in lasting
    service; nlgi, thickener and bleed of greases only, "" or None for oils.
    """

    name: str
    form: str
    base: str
    nu40: float
    nu100: float
    rho15: float
    ep: bool
    T_least: float
    T_greatest: float
    VG: float | None = None
    VI: float | None = None
    nlgi: float | None = None
    thickener: str = ""
    bleed: str = ""
    note: str = ""
    two_points: bool = False
