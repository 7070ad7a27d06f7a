"""Flat convex regions, held to points anywhere inside them and to areas worked out another way."""

from __future__ import annotations

import math
import random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kitproof.mechanics.regions import Point, Region, added, cut, holds_origin, hull, scaled, sides, span
from tests.mechanics.boxes import between
from tests.mechanics.weights import pick

POINTS = st.lists(st.tuples(st.integers(-9, 9), st.integers(-9, 9)), min_size=1, max_size=12)
PARTS = st.lists(st.tuples(between(0, 8), between(-0.4, 0.4), between(-0.4, 0.4)), min_size=1, max_size=4)


def area(region: Region) -> float:
    return sum(a[0] * b[1] - a[1] * b[0] for a, b in sides(region)) / 2 if region else 0.0


def outside(region: Region, point: Point) -> float:
    """How far a point lies outside a region with an area; 0 or less within."""
    found = []
    for a, b in sides(region):
        length = math.dist(a, b)
        found.append(((b[1] - a[1]) * (point[0] - a[0]) - (b[0] - a[0]) * (point[1] - a[1])) / length)
    return max(found)


@given(POINTS)
def test_a_hull_turns_left_at_every_corner_and_leaves_no_point_out(points: list[Point]) -> None:
    region = hull(points)
    assert set(region) <= set(points)
    if len(region) > 2:
        assert area(region) > 0
        assert all(outside(region, point) <= 1e-12 for point in points)
    else:
        assert all(span(region, axis) == span(tuple(points), axis) for axis in (0, 1))


@given(PARTS, st.integers(0, 9))
def test_a_sum_holds_every_sum_of_points(parts: list[tuple[Point, Point, Point]], seed: int) -> None:
    chance = random.Random(seed)
    region = added([scaled(*part) for part in parts])
    for _ in range(40):
        picked = [tuple(pick(each, chance) for each in part) for part in parts]
        point = sum(m * x for m, x, _ in picked), sum(m * y for m, _, y in picked)
        if len(region) > 2:
            assert outside(region, point) <= 1e-9
        assert all(span(region, k)[0] - 1e-9 <= point[k] <= span(region, k)[1] + 1e-9 for k in (0, 1))


@given(PARTS)
def test_a_sum_is_no_larger_than_its_parts_make_it(parts: list[tuple[Point, Point, Point]]) -> None:
    """In every direction a sum reaches exactly as far as its parts do together."""
    regions = [scaled(*part) for part in parts]
    region = added(regions)
    for number in range(24):
        way = math.cos(number * math.pi / 12), math.sin(number * math.pi / 12)
        reach = sum(max(x * way[0] + y * way[1] for x, y in each) for each in regions)
        assert max(x * way[0] + y * way[1] for x, y in region) == pytest.approx(reach, abs=1e-9)


@given(POINTS, st.integers(0, 1), st.integers(-9, 9))
def test_both_sides_of_a_cut_are_the_whole(points: list[Point], axis: int, at: int) -> None:
    region = hull(points)
    low, high = cut(region, axis, -math.inf, at), cut(region, axis, at, math.inf)
    assert area(low) + area(high) == pytest.approx(area(region), abs=1e-9)
    assert all(corner[axis] <= at for corner in low)
    assert all(corner[axis] >= at for corner in high)
    assert low or high


def test_a_sum_of_squares() -> None:
    square = ((0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0))
    assert added([square, square]) == ((0, 0), (2, 0), (2, 2), (0, 2))
    assert added([square, ((0.5, 0.5),)])[0] == (0.5, 0.5)
    assert added([]) == ((0, 0),)


def test_what_is_sharp_stays_a_point() -> None:
    assert scaled((2, 2), (0.1, 0.1), (0.3, 0.3)) == ((0.2, 0.6),)
    assert len(added([scaled((2, 2), (0.1, 0.1), (0.3, 0.3))] * 7)) == 1


def test_a_cut_of_a_point_and_of_a_line() -> None:
    assert cut(((1.0, 2.0),), 0, 1, 1) == ((1, 2),)
    assert cut(((1.0, 2.0),), 0, 2, 3) == ()
    assert cut(((0.0, 0.0), (4.0, 2.0)), 0, 1, 3) == ((1, 0.5), (3, 1.5))
    assert cut(((0.0, 0.0), (4.0, 2.0)), 0, 2, 2) == ((2, 1),)
    assert cut((), 0, 1, 2) == ()


def test_the_origin_is_held_inside_and_on_the_edge_alone() -> None:
    square = ((0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0))
    moved = tuple((x - 0.5, y - 0.5) for x, y in square)
    assert holds_origin(square)
    assert holds_origin(moved)
    assert not holds_origin(tuple((x + 0.1, y) for x, y in square))
    assert not holds_origin(((1.0, 1.0), (2.0, 2.0)))
