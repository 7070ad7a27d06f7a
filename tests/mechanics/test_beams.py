"""Lens torque, what a support bears, and rod sag: worked values, and ends held to brute force over the box."""

from __future__ import annotations

import itertools
import math
import random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kitproof.mechanics.beams import (
    ELASTICITY,
    Load,
    Rods,
    lens_share_range,
    lens_torque_range,
    rod_sag_range,
    second_moment,
    support_range,
    tip_sag,
)
from kitproof.mechanics.means import Term
from kitproof.mechanics.ranges import Interval
from tests.mechanics.boxes import between, boxes, corners
from tests.mechanics.weights import G, pick

INF = math.inf
LENGTHS = between(0.05, 0.5)
DIAMETERS = between(0.010, 0.020)
WALLS = between(0.001, 0.012)
MODULI = between(60, 200).map(lambda ends: (ends[0] * 1e9, ends[1] * 1e9))
LOADS = st.lists(st.builds(Load, between(0, 5), between(-0.05, 0.6)), min_size=1, max_size=3)


@given(boxes(most=3), between(0.02, 0.4))
def test_lens_torque_and_support_are_exactly_what_the_corners_reach(box: list[Term], place: Interval) -> None:
    torques = [G * sum(m * d for m, d in corner) for corner in corners(box)]
    assert lens_torque_range(box) == pytest.approx((min(torques), max(torques)), abs=1e-12)
    bears = [torque / s for torque in torques for s in place]
    assert support_range(box, place) == pytest.approx((min(bears), max(bears)), abs=1e-9)
    shares = [torque / most for torque in torques for most in place]
    assert lens_share_range(box, place) == pytest.approx((min(shares), max(shares)), abs=1e-9)


def test_a_worked_lens() -> None:
    """3 kg at 150 mm and a matte box of 0.5 kg at 320 mm: 5.982 N·m; a support at 200 mm bears 29.91 N."""
    hung = [Term(3, 3, 0.15, 0.15), Term(0.5, 0.5, 0.32, 0.32)]
    assert lens_torque_range(hung) == pytest.approx((5.98206, 5.98206), abs=1e-5)
    assert support_range(hung, (0.2, 0.2)) == pytest.approx((29.9103, 29.9103), abs=1e-4)
    assert lens_share_range(hung, (4, 4)) == pytest.approx((1.495515,) * 2, abs=1e-6)
    assert lens_share_range(hung, (0, INF)) == (0, INF)
    assert lens_torque_range([*hung, Term(0, INF, 0.1, 0.2)]) == (pytest.approx(5.98206, abs=1e-5), INF)


@given(LOADS, LENGTHS, DIAMETERS, WALLS, MODULI, st.integers(0, 9))
def test_no_rods_within_the_box_sag_outside_the_range(
    loads: list[Load], length: Interval, diameter: Interval, wall: Interval, modulus: Interval, seed: int
) -> None:
    """Only what can be: a load sits on its rods, not beyond their end."""
    chance = random.Random(seed)
    low, high = rod_sag_range(loads, Rods(length, diameter, wall, modulus))
    for _ in range(40):
        size = pick(length, chance)
        picked = [(pick(load.mass, chance), pick(load.at, chance)) for load in loads]
        if any(place > size for _, place in picked):
            continue
        outer, metal = pick(diameter, chance), pick(wall, chance)
        bore = max(outer - 2 * metal, 0)
        moment = math.pi / 64 * (outer**4 - bore**4)
        stiffness = 6 * pick(modulus, chance) * moment
        sag = sum(m * G / 2 * max(a, 0) ** 2 * (3 * size - max(a, 0)) / stiffness for m, a in picked)
        assert low - 1e-12 <= sag <= high + 1e-12


@given(st.lists(st.builds(Load, between(0, 5), between(0, 0.2)), min_size=1, max_size=2), between(0.2, 0.5), DIAMETERS)
def test_sag_is_reached_at_corners(loads: list[Load], length: Interval, diameter: Interval) -> None:
    found = []
    wall, modulus = (0.001, 0.002), (70e9, 200e9)
    boxes_of_loads = itertools.product(*(itertools.product(load.mass, load.at) for load in loads))
    for picked, size, outer, metal, e in itertools.product(boxes_of_loads, length, diameter, wall, modulus):
        stiffness = e * second_moment(outer, metal)
        found.append(sum(tip_sag(m * G / 2, a, size, stiffness) for m, a in picked))
    low, high = rod_sag_range(loads, Rods(length, diameter, wall, modulus))
    assert low == pytest.approx(min(found), rel=1e-9, abs=1e-15)
    assert high == pytest.approx(max(found), rel=1e-9, abs=1e-15)


@given(DIAMETERS, WALLS, between(0.001, 0.003))
def test_more_metal_is_stiffer(diameter: Interval, wall: Interval, more: Interval) -> None:
    assert second_moment(diameter[0] + more[0], wall[0]) > second_moment(diameter[0], wall[0])
    assert second_moment(diameter[0], wall[0] + more[0]) >= second_moment(diameter[0], wall[0])


def test_a_wall_that_is_not_known_is_at_best_solid() -> None:
    load = [Load((2, 2), (0.2, 0.2))]
    rods = Rods((0.3, 0.3), (0.015, 0.015), elasticity=ELASTICITY["steel"])
    solid = Rods((0.3, 0.3), (0.015, 0.015), (0.0075, 0.0075), ELASTICITY["steel"])
    assert rod_sag_range(load, rods) == (pytest.approx(rod_sag_range(load, solid)[0]), INF)


def test_what_is_not_known_of_rods() -> None:
    load = [Load((2, 2), (0.1, 0.1))]
    assert rod_sag_range(load, Rods((0.3, 0.3), (0, INF))) == (0, INF)
    assert rod_sag_range(load, Rods((0.3, INF), (0.015, 0.015), (0.001, 0.001)))[1] == INF
    assert rod_sag_range([Load((0, INF), (0.1, 0.1))], Rods((0.3, 0.3), (0.015, 0.015), (0.001, 0.001))) == (0, INF)
    assert rod_sag_range([Load((1, 1), (-INF, INF))], Rods((0.3, INF), (0.015, 0.015), (0.001, 0.001))) == (0, INF)
    assert rod_sag_range([], Rods((0, INF), (0, INF))) == (0, 0)
    assert rod_sag_range([Load((2, 2), (0, 0))], Rods((0, INF), (0, INF))) == (0, 0)


def test_a_load_behind_the_clamp_bends_nothing_and_one_at_the_end_most() -> None:
    rods = Rods((0.2, 0.2), (0.015, 0.015), (0.001, 0.001), ELASTICITY["aluminium"])
    assert rod_sag_range([Load((2, 2), (-0.1, 0))], rods) == (0, 0)
    beyond = rod_sag_range([Load((2, 2), (0.1, 0.9))], rods)
    assert beyond[1] == pytest.approx(rod_sag_range([Load((2, 2), (0.2, 0.2))], rods)[1])


def test_moduli_are_those_of_the_table() -> None:
    """Aluminium 70 GPa and steel 200 GPa: OpenStax University Physics 1, table 12.1, read."""
    assert ELASTICITY["aluminium"] == (70e9, 70e9)
    assert ELASTICITY["steel"] == (200e9, 200e9)
    assert ELASTICITY["carbon"] == (60e9, 140e9)  # from memory: it depends on how the fibres lie
