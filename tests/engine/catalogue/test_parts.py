"""Cones and cups as parts: which assemblies they form, and what those take from either."""

import dataclasses
from importlib.resources import files

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.catalogue.invention.inch_series import inch_parts
from engine.catalogue.parts import CONE_COLUMNS, CUP_COLUMNS, Cones, Cups, assemblies
from engine.catalogue.read import builtin, read_parts, read_table
from engine.catalogue.write import as_csv
from engine.errors import Problems

CONES, CUPS = inch_parts(12, 3)


def with_cells(parts, **cells):
    """Return the parts with single cells put in place: name=(row, value)."""
    columns = {}
    for name, (row, value) in cells.items():
        values = getattr(parts, name).astype("U60") if isinstance(value, str) else getattr(parts, name).copy()
        values[row] = value
        columns[name] = values
    return dataclasses.replace(parts, **columns)


def take(parts, rows):
    return type(parts)(**{field.name: getattr(parts, field.name)[rows] for field in dataclasses.fields(parts)})


def test_every_cone_meets_every_cup_of_its_series_and_no_other():
    formed = list(zip(assemblies(CONES, CUPS).cone.tolist(), assemblies(CONES, CUPS).cup.tolist(), strict=True))
    wanted = [
        (cone, cup)
        for cone, one in zip(CONES.designation.tolist(), CONES.series.tolist(), strict=True)
        for cup, other in zip(CUPS.designation.tolist(), CUPS.series.tolist(), strict=True)
        if one == other
    ]
    assert formed == wanted


@settings(max_examples=60)
@given(data=st.data())
def test_parts_in_any_order_form_the_same_assemblies(data):
    cones = take(CONES, np.array(data.draw(st.permutations(range(len(CONES.designation))))))
    cups = take(CUPS, np.array(data.draw(st.permutations(range(len(CUPS.designation))))))
    mixed, straight = assemblies(cones, cups), assemblies(CONES, CUPS)
    assert sorted(mixed.designation.tolist()) == sorted(straight.designation.tolist())
    row = data.draw(st.integers(0, len(mixed) - 1))
    same = straight.index_of(str(mixed.designation[row]))
    assert mixed.take([row]).content_hash() == straight.take([same]).content_hash()


def test_an_assembly_is_named_cone_first_then_cup():
    c = assemblies(CONES, CUPS)
    for name, cone, cup in zip(c.designation.tolist(), c.cone.tolist(), c.cup.tolist(), strict=True):
        assert name == f"{cone}+{cup.split('.')[1]}"


def test_widths_add_up_and_masses_and_costs_too():
    # ISO 355 (recalled): T = T1 + T2
    c = assemblies(CONES, CUPS)
    cone = {name: row for row, name in enumerate(CONES.designation.tolist())}
    cup = {name: row for row, name in enumerate(CUPS.designation.tolist())}
    for row in range(len(c)):
        i, o = cone[str(c.cone[row])], cup[str(c.cup[row])]
        assert c.T[row] == pytest.approx(CONES.T1[i] + CUPS.T2[o], abs=5e-6)
        assert c.mass[row] == pytest.approx(CONES.mass[i] + CUPS.mass[o], abs=1e-9)
        assert c.cost[row] == pytest.approx(CONES.cost[i] + CUPS.cost[o], abs=1e-9)
        assert (c.d[row], c.B[row], c.D[row], c.C[row]) == (CONES.d[i], CONES.B[i], CUPS.D[o], CUPS.C[o])


def test_listed_are_the_sets_that_the_cones_name():
    c = assemblies(CONES, CUPS)
    stated = sum(len(sets.split()) for sets in CONES.sets.tolist())
    assert np.count_nonzero(c.listed == "listed") == stated
    assert set(c.listed.tolist()) == {"listed", "formed"}
    alone = assemblies(with_cells(CONES, sets=(0, "")), CUPS)
    assert set(alone.listed[alone.cone == CONES.designation[0]].tolist()) == {"formed"}


def test_a_set_with_a_cup_that_is_not_there_is_refused():
    with pytest.raises(Problems, match=r"Q101\.1\+5.*no such cup"):
        assemblies(with_cells(CONES, sets=(0, "6 5")), CUPS)


@pytest.mark.parametrize(
    ("cone", "cup", "both"),
    [
        ("stocked", "stocked", "stocked"),
        ("stocked", "on_request", "on_request"),
        ("discontinued", "stocked", "discontinued"),
        ("on_request", "discontinued", "discontinued"),
        ("stocked", "", ""),
        ("", "on_request", "on_request"),
    ],
)
def test_the_part_that_is_harder_to_come_by_decides(cone, cup, both):
    c = assemblies(with_cells(CONES, availability=(0, cone)), with_cells(CUPS, availability=(0, cup)))
    assert c.availability[0] == both


def test_the_ring_that_stands_less_heat_decides():
    c = assemblies(CONES, with_cells(CUPS, max_temperature=(0, 120.0)))
    assert c.max_temperature[0] == 120 and c.max_temperature[-1] == 150


def test_a_cost_that_is_not_known_leaves_that_of_the_assembly_open():
    c = assemblies(with_cells(CONES, cost=(0, np.nan)), CUPS)
    assert np.isnan(c.cost[0]) and not np.isnan(c.cost[-1])


def test_parts_without_a_counterpart_form_nothing():
    lonely = take(with_cells(CONES, sets=(0, "")), [0])
    assert len(assemblies(lonely, take(CUPS, [len(CUPS.series) - 1]))) == 0


def test_parts_are_read_as_they_were_written(tmp_path):
    (tmp_path / "inch_cones.csv").write_bytes(as_csv(CONES, CONE_COLUMNS))
    (tmp_path / "inch_cups.csv").write_bytes(as_csv(CUPS, CUP_COLUMNS))
    assert read_parts(tmp_path).content_hash() == assemblies(CONES, CUPS).content_hash()


def test_a_bad_cell_of_a_part_is_named(tmp_path):
    path = tmp_path / "inch_cups.csv"
    path.write_bytes(as_csv(CUPS, CUP_COLUMNS).replace(b",case,", b",cased,", 1))
    with pytest.raises(Problems, match=r'inch_cups\.csv, line 2, column "steel": "cased" is not known'):
        read_table(path, CUP_COLUMNS)


def test_the_files_of_the_package_hold_what_the_built_in_catalogue_has():
    folder = files("catalogs")
    cones = Cones(**read_table(folder.joinpath("inch_cones.csv"), CONE_COLUMNS).columns)
    cups = Cups(**read_table(folder.joinpath("inch_cups.csv"), CUP_COLUMNS).columns)
    inch = builtin().take(builtin().system == "inch")
    assert inch.content_hash() == assemblies(cones, cups).content_hash()
    assert set(inch.cone.tolist()) == set(cones.designation.tolist())
    assert set(inch.cup.tolist()) == set(cups.designation.tolist())
