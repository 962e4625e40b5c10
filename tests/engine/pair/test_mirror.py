"""Seen from behind, it is the same pair: A and B swapped, the thrust reversed."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.duty.statics import radial_load, reactions
from engine.pair.arrangement import effective_spread, load_centres
from engine.pair.equilibrium import axial_loads, induced_axial_load_S
from tests.strategies import arrangements, forces, moments, numbers, places, thrusts
from tests.strategies import axial_loads as sizes

distances = numbers(60.0, 500.0)
distances_a = numbers(-20.0, 25.0)
insets = numbers(0.0, 5.0)


@given(arrangements, sizes, sizes, thrusts)
def test_axial_loads(arrangement, S_A, S_B, K_a):
    Fa_A, Fa_B = axial_loads(arrangement, S_A, S_B, K_a)
    assert axial_loads(arrangement, S_B, S_A, -K_a) == (Fa_B, Fa_A)


@given(arrangements, distances, distances_a, distances_a, insets, insets)
def test_load_centres(arrangement, distance, a_A, a_B, inset_A, inset_B):
    z_A, z_B = load_centres(arrangement, distance, a_A, a_B, inset_A, inset_B)
    mirrored = load_centres(arrangement, distance, a_B, a_A, inset_B, inset_A)
    assert mirrored == pytest.approx((distance - z_B, distance - z_A), abs=1e-9)
    assert effective_spread(*mirrored) == pytest.approx(effective_spread(z_A, z_B), abs=1e-9)


@given(
    arrangements,
    distances,
    st.tuples(distances_a, distances_a),
    st.tuples(numbers(0.7, 3.0), numbers(0.7, 3.0)),
    st.lists(st.tuples(places, forces, forces), min_size=1, max_size=5),
    st.tuples(moments, moments),
    thrusts,
)
def test_the_whole_way_from_forces_to_axial_loads(arrangement, distance, a, Y, load, M, K_a):
    def solve(x, M, a, Y, K_a):
        z = load_centres(arrangement, distance, *a)
        R_y, R_z = (reactions(x, F, [moment], *z) for F, moment in zip((F_y, F_z), M, strict=True))
        S = [induced_axial_load_S(radial_load(*R), one) for R, one in zip(zip(R_y, R_z, strict=True), Y, strict=True)]
        return np.array(axial_loads(arrangement, *S, K_a))

    x, F_y, F_z = np.array(load).T
    seen = solve(x, M, a, Y, K_a)
    behind = solve(distance - x, [-moment for moment in M], a[::-1], Y[::-1], -K_a)
    assert behind[::-1] == pytest.approx(seen, rel=1e-9, abs=1e-3)
