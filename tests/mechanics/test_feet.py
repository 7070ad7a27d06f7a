"""Feet: the foot circle from the leg height, the nearest edge, what each foot bears."""

from __future__ import annotations

import math
import random
from itertools import pairwise, product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kitproof.mechanics.feet import (
    ChartPoint,
    Plan,
    borne,
    deciding_heights,
    edge_flat,
    edge_levelled,
    feet,
    feet_levelled,
    foot_radius,
    friction_needed,
    least_borne,
)
from kitproof.mechanics.ranges import Interval
from tests.mechanics.boxes import between

INF = math.inf
CHART = (((0.8, 0.8), (0.42, 0.42)), ((1.5, 1.5), (0.61, 0.61)))

heights = st.integers(300, 1800).map(lambda n: n / 1000)
turns = st.floats(-math.pi, math.pi)


def sharp_charts() -> st.SearchStrategy[list[ChartPoint]]:
    several = st.lists(heights, min_size=1, max_size=4, unique=True)
    pairs = several.flatmap(lambda tops: st.tuples(st.just(tops), st.lists(between(0.2, 0.9), min_size=4, max_size=4)))
    return pairs.map(lambda pair: [((top, top), radius) for top, radius in zip(pair[0], pair[1], strict=False)])


def charts() -> st.SearchStrategy[list[ChartPoint]]:
    return st.lists(st.tuples(between(0.3, 1.8), between(0.2, 0.9)), min_size=1, max_size=4)


def straight(points: list[Plan], leg: float) -> float:
    """Plain interpolation between known points."""
    for (start, radius), (end, other) in pairwise(sorted(points)):
        if start <= leg <= end:
            return radius if start == end else radius + (other - radius) * (leg - start) / (end - start)
    return dict(points)[leg]


def test_between_two_points_it_is_straight() -> None:
    """Halfway from 800 to 1500 mm the feet are halfway from 420 to 610 mm."""
    assert foot_radius(CHART, (1.15, 1.15)) == pytest.approx((0.515, 0.515))
    assert foot_radius(CHART, (0.8, 0.8)) == (0.42, 0.42)
    assert foot_radius(CHART, (1.5, 1.5)) == (0.61, 0.61)
    assert foot_radius(CHART, (0.8, 1.15)) == pytest.approx((0.42, 0.515))


def test_outside_its_points_it_is_not_known() -> None:
    for legs in ((0.79, 0.79), (1.51, 1.51), (0.7, 1.0), (1.0, 1.6)):
        assert foot_radius(CHART, legs) is None
    assert foot_radius((), (1.0, 1.0)) is None
    assert foot_radius(CHART[:1], (0.8, 0.8)) == (0.42, 0.42)
    assert foot_radius(CHART[:1], (0.9, 0.9)) is None


def test_one_height_with_two_radii_is_anywhere_between() -> None:
    twice = (CHART[0], ((0.8, 0.8), (0.5, 0.5)), CHART[1])
    assert foot_radius(twice, (0.8, 0.8)) == (0.42, 0.5)


def test_a_point_inside_a_reach_of_the_legs_counts() -> None:
    bulge = (*CHART, ((1.0, 1.0), (0.9, 0.9)))
    assert foot_radius(bulge, (0.9, 1.2)) == pytest.approx((0.66, 0.9))
    assert deciding_heights(bulge, (0.9, 1.2)) == (0.9, 1.0, 1.2)
    assert deciding_heights(bulge, (1.0, 1.0)) == (1.0,)


@given(sharp_charts(), heights, heights)
def test_of_sharp_heights_it_is_exactly_what_is_reached(chart: list[ChartPoint], one: float, other: float) -> None:
    legs = min(one, other), max(one, other)
    tops = [height[0] for height, _ in chart]
    found = foot_radius(chart, legs)
    if not min(tops) <= legs[0] <= legs[1] <= max(tops):
        assert found is None
        return
    looks = [legs[0] + (legs[1] - legs[0]) * part / 50 for part in range(51)] + [*legs]
    looks = [min(max(leg, legs[0]), legs[1]) for leg in looks] + [top for top in tops if legs[0] <= top <= legs[1]]
    low = min(straight([(height[0], radius[0]) for height, radius in chart], leg) for leg in looks)
    high = max(straight([(height[0], radius[1]) for height, radius in chart], leg) for leg in looks)
    assert found == pytest.approx((low, high), abs=1e-9)


@given(charts(), between(0.3, 1.8), st.integers(0, 9))
def test_nothing_inside_lies_outside(chart: list[ChartPoint], legs: Interval, seed: int) -> None:
    found = foot_radius(chart, legs)
    if found is None:
        return
    chance = random.Random(seed)
    for _ in range(30):
        points = [(chance.uniform(*height), chance.uniform(*radius)) for height, radius in chart]
        leg = chance.uniform(*legs)
        if min(points)[0] <= leg <= max(points)[0]:
            assert found[0] - 1e-9 <= straight(points, leg) <= found[1] + 1e-9


@given(sharp_charts(), heights, heights)
def test_between_deciding_heights_it_is_straight(chart: list[ChartPoint], one: float, other: float) -> None:
    legs = min(one, other), max(one, other)
    if foot_radius(chart, legs) is None:
        return
    for start, end in pairwise(deciding_heights(chart, legs)):
        at_start, middle, at_end = (foot_radius(chart, (leg, leg)) for leg in (start, (start + end) / 2, end))
        assert at_start is not None
        assert middle is not None
        assert at_end is not None
        means = [(a + b) / 2 for a, b in zip(at_start, at_end, strict=True)]
        assert middle == pytest.approx(means, abs=1e-9)


@given(between(0.0, 0.9), between(0.3, 1.8))
def test_levelled_on_flat_ground_is_flat(radius: Interval, apex: Interval) -> None:
    assert edge_levelled(radius, apex, 0.0) == pytest.approx(edge_flat(radius))


@given(between(0.0, 0.9), between(0.3, 1.8), st.integers(0, 40).map(math.radians), st.integers(0, 9))
def test_a_levelled_edge_is_what_the_corners_reach(radius: Interval, apex: Interval, slope: float, seed: int) -> None:
    low, high = edge_levelled(radius, apex, slope)
    each = [edge_levelled((r, r), (h, h), slope)[0] for r, h in product(radius, apex)]
    assert (low, high) == pytest.approx((min(each), max(each)))
    chance = random.Random(seed)
    r, h = chance.uniform(*radius), chance.uniform(*apex)
    assert low - 1e-12 <= edge_levelled((r, r), (h, h), slope)[0] <= high + 1e-12
    assert edge_levelled(radius, apex, -slope) == (low, high)


@given(st.floats(0.2, 0.9), st.floats(0.3, 1.8), st.integers(0, 20).map(math.radians), turns)
def test_levelled_feet_stand_on_the_slope_along_their_legs(
    radius: float, apex: float, slope: float, turn: float
) -> None:
    """Each foot is on the ground, which falls by tan α downhill, and on the straight line of its leg from the apex."""
    for down, across in feet_levelled(radius, apex, slope, turn):
        out = math.hypot(down, across)
        assert apex + down * math.tan(slope) == pytest.approx(out * apex / radius)


def test_what_is_not_known_of_an_edge_has_no_bound() -> None:
    assert edge_levelled((0.0, INF), (0.0, INF), 0.1) == (0.0, INF)
    assert edge_levelled((0.4, 0.4), (0.0, INF), 0.1) == (0.0, 0.2)
    assert edge_levelled((0.4, 0.4), (0.0, 1.0), 0.0) == (0.2, 0.2)


places = st.floats(-0.5, 0.5)


@given(st.floats(1, 500), places, places, st.floats(0.1, 0.9), turns)
def test_three_feet_bear_it_all_and_balance_it(
    weight: float, ahead: float, left: float, radius: float, turn: float
) -> None:
    triangle = feet(radius, turn)
    loads = borne(weight, (ahead, left), triangle)
    assert sum(loads) == pytest.approx(weight)
    for axis, place in enumerate((ahead, left)):
        moment = sum(load * foot[axis] for load, foot in zip(loads, triangle, strict=True))
        assert moment == pytest.approx(weight * place, abs=1e-9 * weight)


@given(st.floats(1, 500), places, places, st.floats(0.1, 0.9), turns)
def test_on_a_circle_it_is_the_formula_of_thirds(
    weight: float, ahead: float, left: float, radius: float, turn: float
) -> None:
    """W (1/3 + 2 e·u / 3R)."""
    triangle = feet(radius, turn)
    for load, (x, y) in zip(borne(weight, (ahead, left), triangle), triangle, strict=True):
        along = (ahead * x + left * y) / radius
        assert load == pytest.approx(weight * (1 / 3 + 2 * along / (3 * radius)), abs=1e-9 * weight)


@given(st.floats(1, 500), places, places, st.floats(0.1, 0.9), turns, turns)
def test_turning_or_mirroring_the_whole_changes_nothing(
    weight: float, ahead: float, left: float, radius: float, turn: float, by: float
) -> None:
    cos, sin = math.cos(by), math.sin(by)
    loads = borne(weight, (ahead, left), feet(radius, turn))
    turned = borne(weight, (ahead * cos - left * sin, ahead * sin + left * cos), feet(radius, turn + by))
    assert turned == pytest.approx(loads, abs=1e-9 * weight)
    first, second, third = feet(radius, turn)
    mirrored = borne(weight, (ahead, -left), ((first[0], -first[1]), (second[0], -second[1]), (third[0], -third[1])))
    assert mirrored == pytest.approx(loads, abs=1e-9 * weight)


@given(st.floats(1, 500), st.floats(0, 0.6), st.floats(0.1, 0.9))
def test_the_lightest_foot_in_the_worst_pan(weight: float, lean: float, radius: float) -> None:
    """Against all directions, a degree apart; and it lifts just where the plumb line leaves the triangle."""
    directions = [math.radians(degree) for degree in range(360)]
    places = [(lean * math.cos(each), lean * math.sin(each)) for each in directions]
    scanned = min(min(borne(weight, place, feet(radius))) for place in places)
    least, same = least_borne((weight, weight), (lean, lean), (radius, radius))
    assert least == same == pytest.approx(scanned, abs=1e-9 * weight)
    assert (least >= -1e-9) == (lean <= edge_flat((radius, radius))[0] + 1e-9) or abs(least) < 1e-6


@given(between(0, 500), between(0, 0.6), between(0.1, 0.9))
def test_the_lightest_foot_is_what_the_corners_reach(weight: Interval, lean: Interval, radius: Interval) -> None:
    each = [w * (1 / 3 - 2 * e / (3 * r)) for w, e, r in product(weight, lean, radius)]
    assert least_borne(weight, lean, radius) == pytest.approx((min(each), max(each)), abs=1e-9)


@given(between(0.1, 0.9), between(0.3, 1.8))
def test_friction_is_what_the_corners_reach(radius: Interval, apex: Interval) -> None:
    each = [r / h for r, h in product(radius, apex)]
    assert friction_needed(radius, apex) == pytest.approx((min(each), max(each)))


def test_a_point_that_may_lie_past_another_may_be_the_neighbour() -> None:
    """At 1 m the nearest point below may be the one at 600..700 mm or, at its highest, the one at 500..900 mm: the
    feet are then (200 × 2 + 800) / 3 = 400 mm or less out, else up to 800."""
    passing = (((0.5, 0.9), (0.2, 0.2)), ((0.6, 0.7), (0.8, 0.8)), ((1.2, 1.2), (0.8, 0.8)))
    found = foot_radius(passing, (1.0, 1.0))
    assert found is not None
    assert found[0] <= 0.4 + 1e-9
    assert found[1] == pytest.approx(0.8)
