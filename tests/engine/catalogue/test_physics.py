"""Rows that no bearing could have are caught, each by the figure that gives it away."""

import numpy as np
import pytest

from engine.catalogue.columns import COLUMNS, Catalogue
from engine.catalogue.physics import BANDS
from engine.catalogue.read import builtin, read
from engine.catalogue.write import as_csv
from engine.errors import Problems

ROW = 40


def planted(tmp_path, **cells):
    """Read the built-in catalogue with cells of one row put wrong, and return the problems."""
    catalogue = builtin()
    columns = {column.name: getattr(catalogue, column.name).copy() for column in COLUMNS}
    for name, change in cells.items():
        columns[name][ROW] = change(catalogue.take([ROW]))[0]
    path = tmp_path / "planted.csv"
    path.write_bytes(as_csv(Catalogue(**columns)))
    with pytest.raises(Problems) as caught:
        read(path)
    assert {problem.line for problem in caught.value.problems} == {ROW + 2}
    return {problem.field for problem in caught.value.problems}


@pytest.mark.parametrize(
    ("cells", "blamed"),
    [
        ({"d": lambda c: c.D, "D": lambda c: c.d}, "D_mm"),
        ({"B": lambda c: 1.3 * c.T}, "B_mm"),
        ({"C": lambda c: 1.05 * c.T}, "C_mm"),
        ({"T": lambda c: 4 * c.T}, "T_mm"),
        ({"Z": lambda c: c.Z + 4}, "Z"),
        ({"Dwe": lambda c: 1.3 * c.Dwe}, "Z"),
        ({"Dwe": lambda c: 2.5 * c.Dwe}, "Dwe_mm"),
        ({"Dpw": lambda c: c.D}, "Dpw_mm"),
        ({"Dpw": lambda c: c.d}, "Dpw_mm"),
        ({"Lwe": lambda c: 1.5 * c.T}, "Lwe_mm"),
        ({"e": lambda c: 1.03 * c.e}, "e"),
        ({"Y": lambda c: 0.97 * c.Y}, "Y"),
        ({"Y": lambda c: c.Y0, "Y0": lambda c: c.Y}, "Y0"),
        ({"alpha": lambda c: 0.9 * c.alpha}, "e"),
        ({"a": lambda c: c.T - c.a}, "a_mm"),
        ({"a": lambda c: c.a - c.T}, "a_mm"),
        ({"Cr": lambda c: c.Cr / 10}, "Cr_N"),
        ({"Cr": lambda c: c.Cr * 2.2}, "Cr_N"),
        ({"C0r": lambda c: c.C0r / 4.448}, "C0r_N"),
        ({"Cu": lambda c: c.C0r}, "Cu_N"),
        ({"mass": lambda c: c.mass * 2.2046}, "mass_kg"),
        ({"F": lambda c: c.E, "E": lambda c: c.F}, "F_mm"),
        ({"E": lambda c: c.D}, "E_mm"),
        ({"r_cone": lambda c: c.r_cone * 10}, "r_cone_mm"),
        ({"r_cup": lambda c: 0.06 + 0 * c.r_cup}, "r_cup_mm"),
        ({"n_grease": lambda c: c.n_oil, "n_oil": lambda c: c.n_grease}, "n_oil_rpm"),
    ],
    ids=[
        "bore and outside swapped",
        "cone wider than the bearing",
        "cup wider than the bearing",
        "width four times",
        "four rollers too many",
        "rollers too thick",
        "gamma past the table of ISO 281",
        "pitch circle at the outside",
        "pitch circle at the bore",
        "rollers longer than the bearing",
        "e 3 % off",
        "Y 3 % off",
        "Y and Y0 swapped",
        "angle of another bearing",
        "a from the other face",
        "a beyond the back face by a width",
        "a decimal point lost",
        "pounds for newtons, dynamic",
        "pounds for newtons, static",
        "C0 for Cu",
        "pounds for kilograms",
        "raceways swapped",
        "outside diameter for the cup raceway",
        "a decimal point lost in a chamfer",
        "inches for millimetres in a chamfer",
        "speeds swapped",
    ],
)
def test_planted_error_is_caught_and_blamed_on_its_column(tmp_path, cells, blamed):
    assert blamed in planted(tmp_path, **cells)


def test_every_built_in_row_lies_inside_every_band():
    catalogue = builtin()
    for band in BANDS:
        values = band.value(catalogue)
        assert np.all((values >= band.least) & (values <= band.greatest)), band.figure


def test_a_maker_who_rates_higher_or_does_not_say_a_mass_is_still_read(tmp_path):
    catalogue = builtin()
    columns = {column.name: getattr(catalogue, column.name).copy() for column in COLUMNS}
    columns["Cr"] *= 1.3
    columns["e"] = np.round(columns["e"], 2)
    columns["mass"][:] = np.nan
    columns["r_cone"][:] = np.nan
    columns["n_grease"][:] = np.nan
    path = tmp_path / "other.csv"
    path.write_bytes(as_csv(Catalogue(**columns)))
    assert len(read(path)) == len(catalogue)
