"""An oil known by two points of its data sheet at any two temperatures."""

import math

from engine.answers.reader import Reader


def of_points(reader: Reader) -> tuple[str, float, float, list[str]]:
    """Return what the oil is called, its viscosities at 40 and 100 deg C, and what is missing for them."""
    said, places, missing = [], [], []
    for which in (1, 2):
        T = reader.take(f"lubrication.point_{which}_temperature")
        nu = reader.take(f"lubrication.point_{which}_viscosity")
        places += [T, math.nan if nu is None else nu]
        if nu is None:
            label = reader.items[f"lubrication.point_{which}_viscosity"].question.label
            missing.append(f"{label[0].lower()}{label[1:]}")
        else:
            said.append(f"{nu:.4g} mm2/s at {T:.4g} degC")
    if missing:
        return "oil of two points", math.nan, math.nan, missing
    from engine.lubrication.two_points import at_40_and_100

    nu40, nu100 = (float(nu) for nu in at_40_and_100(*places))
    # points that no oil has are said by `answers.contradiction`
    if math.isnan(nu40) and places[0] != places[2] and (places[0] < places[2]) == (places[1] > places[3]):
        missing.append(f"viscosities at 40 and 100 degC: the line through {' and '.join(said)} leaves the chart there")
    return f"{said[0]}, {said[1]}", nu40, nu100, missing
