"""Interval arithmetic: holds what it should, is no wider than it must be, and never loses itself in NaN."""

from __future__ import annotations

import itertools
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kitproof.mechanics import ranges
from kitproof.mechanics.ranges import WHOLE, Interval

INF = math.inf

ends = st.one_of(st.sampled_from([-INF, -1.0, 0.0, -0.0, 1.0, INF]), st.floats(-1e6, 1e6))
intervals = st.tuples(ends, ends).map(lambda pair: (min(pair), max(pair))).filter(lambda a: a[0] < INF and a[1] > -INF)


def points(a: Interval) -> list[float]:
    """Finite values in an interval: its ends or near them, its middle, and 0 where it lies inside."""
    low, high = max(a[0], -1e9), min(a[1], 1e9)
    return [low, (low + high) / 2, high, *([0.0] if low <= 0 <= high else [])]


def holds(a: Interval, value: float) -> bool:
    slack = 1e-12 * abs(value)
    return a[0] - slack <= value <= a[1] + slack


@given(intervals, intervals)
def test_every_result_of_two_values_lies_within(a: Interval, b: Interval) -> None:
    for x, y in itertools.product(points(a), points(b)):
        assert holds(ranges.add(a, b), x + y)
        assert holds(ranges.subtract(a, b), x - y)
        assert holds(ranges.multiply(a, b), x * y)
        assert holds(ranges.least(a, b), min(x, y))
        assert holds(ranges.greatest(a, b), max(x, y))
        assert holds(ranges.hull(a, b), x)
        assert holds(ranges.hull(a, b), y)
        if y != 0 and math.isfinite(x / y):
            assert holds(ranges.divide(a, b), x / y)


@given(intervals)
def test_every_result_of_one_value_lies_within(a: Interval) -> None:
    for x in points(a):
        assert holds(ranges.negate(a), -x)
        assert holds(ranges.square(a), x * x)
        assert holds(ranges.absolute(a), abs(x))
        if x >= 0:
            assert holds(ranges.root(a), math.sqrt(x))


@given(intervals, intervals)
def test_nothing_is_nan_and_no_interval_is_turned_round(a: Interval, b: Interval) -> None:
    both = (ranges.add, ranges.subtract, ranges.multiply, ranges.divide, ranges.least, ranges.greatest, ranges.hull)
    one = (ranges.negate, ranges.square, ranges.root, ranges.absolute)
    for low, high in [*(each(a, b) for each in both), *(each(a) for each in one)]:
        assert low <= high


@given(st.tuples(st.floats(-1e3, 1e3), st.floats(-1e3, 1e3)), st.tuples(st.floats(-1e3, 1e3), st.floats(-1e3, 1e3)))
def test_both_ends_of_a_product_are_reached(one: Interval, other: Interval) -> None:
    a, b = (min(one), max(one)), (min(other), max(other))
    reached = [x * y for x in a for y in b]
    assert ranges.multiply(a, b) == (min(reached), max(reached))


@given(st.lists(intervals, min_size=1, max_size=4))
def test_the_least_and_the_greatest_reach_both_their_ends(several: list[Interval]) -> None:
    lows, highs = [low for low, _ in several], [high for _, high in several]
    assert ranges.least(*several) == (min(lows), min(highs))
    assert ranges.greatest(*several) == (max(lows), max(highs))
    assert ranges.hull(*several) == (min(lows), max(highs))


def test_nothing_times_something_without_bound_is_nothing() -> None:
    assert ranges.multiply((0, 0), (0, INF)) == (0, 0)
    assert ranges.multiply((0, 2), (3, INF)) == (0, INF)
    assert ranges.multiply((-1, 0), WHOLE) == WHOLE


@pytest.mark.parametrize(
    ("a", "b", "quotient"),
    [
        ((1, 2), (-1, 1), WHOLE),
        ((1, 2), (0, 4), (0.25, INF)),
        ((1, 2), (-4, 0), (-INF, -0.25)),
        ((-1, 2), (0, 4), WHOLE),
        ((1, 2), (0, 0), WHOLE),
        ((0, 0), (0, 0), WHOLE),
        ((0, 0), (-1, 1), (0, 0)),
        ((1, 2), (4, INF), (0, 0.5)),
        ((0, 1), (0, 1), (0, INF)),
        ((-1, 0), (0, 1), (-INF, 0)),
        ((-1, 0), (-1, 0), (0, INF)),
    ],
)
def test_division_leaves_out_nothing_but_the_divisor_0(a: Interval, b: Interval, quotient: Interval) -> None:
    assert ranges.divide(a, b) == quotient


def test_a_root_is_taken_of_what_is_not_negative() -> None:
    assert ranges.root((-4, 9)) == (0, 3)
    assert ranges.root((-4, -1)) == WHOLE
