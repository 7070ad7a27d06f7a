"""Feet against published and geometrical values, and against shapely and scipy. Each test names its source."""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import optimize
from shapely import LineString, Point, Polygon, maximum_inscribed_circle

from kitproof.mechanics.feet import Plan, borne, edge_flat, edge_levelled, feet, feet_levelled, friction_needed

RADII = st.floats(0.15, 0.9)
APEXES = st.floats(0.3, 1.8)
SLOPES = st.integers(0, 20).map(math.radians)


def test_a_three_legged_table() -> None:
    """Side 900 mm, 500 N at 325 mm from A and 625 mm from B: 291.98, 116.05, 91.97 N. Problem as quoted, numbers
    derived."""
    a, b, c = (0.0, 0.0), (0.9, 0.0), (0.45, 0.9 * math.sqrt(3) / 2)
    along = (0.325**2 - 0.625**2 + 0.9**2) / (2 * 0.9)
    place = (along, math.sqrt(0.325**2 - along**2))
    assert borne(500.0, place, (a, b, c)) == pytest.approx((291.98, 116.05, 91.97), abs=0.005)


def test_an_equilateral_triangle_of_900_mm() -> None:
    """Inradius 259.808 mm: geometry; shapely's largest inscribed circle agrees."""
    radius = 0.9 / math.sqrt(3)
    assert edge_flat((radius, radius))[0] == pytest.approx(0.259808, abs=5e-7)
    triangle = Polygon(feet(radius, 0.4))
    assert triangle.exterior.length == pytest.approx(2.7)
    assert maximum_inscribed_circle(triangle, tolerance=1e-7).length == pytest.approx(0.259808, abs=1e-6)


@given(RADII, st.floats(-math.pi, math.pi))
def test_the_edge_is_where_shapely_finds_it(radius: float, turn: float) -> None:
    nearest = Polygon(feet(radius, turn)).exterior.distance(Point(0, 0))
    assert edge_flat((radius, radius))[0] == pytest.approx(nearest)


@given(st.floats(1, 500), st.floats(-0.4, 0.4), st.floats(-0.4, 0.4), RADII)
def test_a_foot_lifts_just_where_the_place_leaves_the_triangle(
    weight: float, ahead: float, left: float, radius: float
) -> None:
    """Against shapely: inside all feet bear, outside one would have to pull."""
    triangle = Polygon(feet(radius))
    least = min(borne(weight, (ahead, left), feet(radius)))
    gap = triangle.exterior.distance(Point(ahead, left))
    inside = triangle.contains(Point(ahead, left))
    assert (least > 0) == inside or gap < 1e-9
    assert least == pytest.approx((1 if inside else -1) * abs(least), abs=1e-9 * weight)


def nearest_edge(corners: tuple[Plan, Plan, Plan]) -> float:
    """By shapely, in m: from the middle to the nearest of the three lines between the feet."""
    return float(min(LineString(pair).distance(Point(0, 0)) for pair in pairwise([*corners, corners[0]])))


def by_legs(radius: float, apex: float, slope: float, turn: float) -> tuple[Plan, Plan, Plan]:
    """Where three straight legs of unchanged splay meet a slope, found by scipy's root finder: (downhill, across)."""

    def foot(angle: float) -> Plan:
        def above_ground(out: float) -> float:
            return apex - out * apex / radius + out * math.cos(angle) * math.tan(slope)

        out = optimize.brentq(above_ground, 0, 100, xtol=1e-13)
        return out * math.cos(angle), out * math.sin(angle)

    first, second, third = (foot(turn + part * math.tau / 3) for part in range(3))
    return first, second, third


@given(RADII, APEXES, SLOPES, st.floats(-math.pi, math.pi))
def test_levelled_feet_stand_where_their_legs_meet_the_ground(
    radius: float, apex: float, slope: float, turn: float
) -> None:
    ours = np.array(feet_levelled(radius, apex, slope, turn))
    assert ours == pytest.approx(np.array(by_legs(radius, apex, slope, turn)), abs=1e-8)


@pytest.mark.parametrize("radius", [0.2, 0.5, 0.8])
@pytest.mark.parametrize("apex", [0.6, 1.5])
@pytest.mark.parametrize("degrees", [0, 5, 10, 20])
def test_no_pan_brings_a_levelled_edge_nearer(radius: float, apex: float, degrees: float) -> None:
    """The worst pan by a scan, made closer by scipy, with edges from shapely."""
    slope = math.radians(degrees)

    def nearest(turn: float) -> float:
        return nearest_edge(by_legs(radius, apex, slope, turn))

    scan = np.linspace(0, math.tau / 3, 121)
    start = min(scan, key=nearest)
    found = optimize.minimize_scalar(nearest, bounds=(start - 0.03, start + 0.03), method="bounded")
    ours, same = edge_levelled((radius, radius), (apex, apex), slope)
    assert ours == same == pytest.approx(float(found.fun), rel=1e-6)
    assert ours <= float(found.fun) + 1e-9


def test_friction_by_the_balance_of_one_leg() -> None:
    """Derived: a leg at 30° from upright pushes out tan 30° = 0.577 of what it bears, and one of 1 : 2 a half."""
    apex = math.cos(math.radians(30))
    assert friction_needed((0.5, 0.5), (apex, apex))[0] == pytest.approx(0.57735, abs=5e-6)
    assert friction_needed((0.7, 0.7), (1.4, 1.4)) == pytest.approx((0.5, 0.5))
