"""Interval arithmetic, against vectors of the IEEE 1788 test suite (ITF1788) and against `mpmath.iv`."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from mpmath import iv, mp

from kitproof.mechanics import ranges
from kitproof.mechanics.ranges import Interval

numbers = st.one_of(st.integers(-1000, 1000).map(float), st.floats(-1e6, 1e6).filter(lambda x: x == 0 or abs(x) > 1e-6))
intervals = st.tuples(numbers, numbers).map(lambda pair: (min(pair), max(pair)))


def test_vectors_of_the_standard() -> None:
    """IEEE 1788 vectors, ITF1788 (read)."""
    assert ranges.add((1, 2), (3, 4)) == (4, 6)
    assert ranges.subtract((1, 2), (3, 4)) == (-3, -1)
    assert ranges.divide((-30, 15), (-5, -3)) == (-5, 10)
    assert ranges.square((-5, 3)) == (0, 25)


@pytest.mark.parametrize(
    ("ours", "theirs"),
    [
        (ranges.add, lambda a, b: a + b),
        (ranges.subtract, lambda a, b: a - b),
        (ranges.multiply, lambda a, b: a * b),
        (ranges.divide, lambda a, b: a / b),
    ],
    ids=["add", "subtract", "multiply", "divide"],
)
@given(a=intervals, b=intervals)
def test_two_values(ours: Callable[..., Interval], theirs: Callable[..., object], a: Interval, b: Interval) -> None:
    """`mpmath.iv`, an independent interval arithmetic with outward rounding."""
    assume(ours is not ranges.divide or 0 not in (*a, *b))  # 0 / 0 and a divisor's end of 0: conventions differ
    agrees(ours(a, b), theirs(iv.mpf(a), iv.mpf(b)))


@given(intervals)
def test_one_value(a: Interval) -> None:
    """`mpmath.iv`, as above."""
    agrees(ranges.negate(a), -iv.mpf(a))
    agrees(ranges.square(a), iv.mpf(a) ** 2)
    agrees(ranges.absolute(a), abs(iv.mpf(a)))
    if a[0] >= 0:
        agrees(ranges.root(a), iv.sqrt(iv.mpf(a)))


def agrees(ours: Interval, theirs: object) -> None:
    """Ends equal to a rounding or two: theirs are rounded outward, ours to nearest."""
    ends = float(mp.mpf(theirs.a)), float(mp.mpf(theirs.b))  # type: ignore[attr-defined] # mpmath has no types
    for one, other in zip(ours, ends, strict=True):
        assert one == other if math.isinf(other) else one == pytest.approx(other, rel=1e-14, abs=1e-300)
