"""How much driver and driven machine add to the nominal load: the application factor."""

from engine.sources import ISO_6336_6, cited

#: Driving machines by how evenly they run, with examples; ISO 6336-6 Annex B (recalled).
DRIVERS = {
    "uniform": "electric motor, steam or gas turbine in even running",
    "light": "gas turbine or hydraulic motor, large motor that starts often",
    "moderate": "combustion engine with several cylinders",
    "heavy": "combustion engine with a single cylinder",
}
#: Driven machines by how evenly they run, with examples; ISO 6336-6 Annex B (recalled).
DRIVEN = {
    "uniform": "generator, evenly loaded conveyor, light lift, ventilator, mixer for even density",
    "light": "unevenly loaded conveyor, main drive of a machine tool, heavy lift, crane, industrial fan, agitator",
    "moderate": "rubber extruder, woodworking machine, light ball mill, lifting gear, single-cylinder pump",
    "heavy": "excavator, heavy ball mill, rubber kneader, stone crusher, rotary drill, brick press, rolling mill",
}
_TABLE = {
    "uniform": (1.00, 1.25, 1.50, 1.75),
    "light": (1.10, 1.35, 1.60, 1.85),
    "moderate": (1.25, 1.50, 1.75, 2.00),
    "heavy": (1.50, 1.75, 2.00, 2.25),
}


@cited(ISO_6336_6, "Annex B, Table B.1")
def application_factor_KA(driver: str, driven: str) -> float:
    """Application factor, which multiplies the nominal load for shock from outside the gear unit.

    K_A by rows of the driving and columns of the driven machine

    Parameters (words)
    ----------
    driver : how evenly the driving machine runs: "uniform", "light", "moderate" or "heavy" shocks [-]
    driven : the same of the driven machine [-]

    Returns
    -------
    K_A [-]

    Valid for speed-reducing drives that stay clear of resonance; another word is an error. Heavy on heavy is "2.25 or
    more" in the table.

    Source: ISO 6336-6:2006, Annex B, Table B.1; recalled, the same values as in DIN 3990.
    """
    for word, accepted in ((driver, DRIVERS), (driven, DRIVEN)):
        if word not in accepted:
            raise ValueError(f"{word!r} is no such machine, accepted are {', '.join(accepted)}")
    return _TABLE[driver][list(DRIVEN).index(driven)]
