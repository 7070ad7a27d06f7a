"""Exact ranges of centres of gravity and of the slide's place, against all corners in exact fractions.

Independent arithmetic: Python's `fractions`, no sorting, no floats until the end. That the extremes lie at corners
is a property of linear-fractional functions (derived).
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kitproof.mechanics.means import Term, balance_range, mean_range

Exact = tuple[tuple[Fraction, Fraction], tuple[Fraction, Fraction]]
"""The ends of a mass, in kg, and of a place, in m."""


def ends(low: int, high: int) -> st.SearchStrategy[tuple[Fraction, Fraction]]:
    number = st.integers(low, high).map(lambda n: Fraction(n, 1000))
    return st.tuples(number, number).map(lambda pair: (min(pair), max(pair)))


parts = st.lists(st.tuples(ends(1, 9000), ends(-400, 600)), min_size=1, max_size=4)


def corners(exact: Sequence[Exact]) -> Iterator[tuple[tuple[Fraction, Fraction], ...]]:
    return itertools.product(*(tuple(itertools.product(masses, places)) for masses, places in exact))


def terms(exact: Sequence[Exact]) -> list[Term]:
    return [Term(*map(float, masses), *map(float, places)) for masses, places in exact]


def moment(corner: Sequence[tuple[Fraction, Fraction]]) -> Fraction:
    return sum((m * r for m, r in corner), Fraction(0))


@given(parts)
def test_centre_of_gravity(exact: list[Exact]) -> None:
    reached = [moment(corner) / sum(m for m, _ in corner) for corner in corners(exact)]
    assert mean_range(terms(exact)) == pytest.approx((float(min(reached)), float(max(reached))), abs=1e-12)


@given(parts, st.lists(st.tuples(ends(0, 3000), ends(-400, 600)), max_size=2))
def test_place_of_the_slide(moving: list[Exact], resting: list[Exact]) -> None:
    below = [moment(corner) for corner in corners(resting)]
    reached = [
        -(moment(corner) + rest) / sum(m for m, _ in corner)
        for corner in corners(moving)
        for rest in (min(below), max(below))
    ]
    wanted = float(min(reached)), float(max(reached))
    assert balance_range(terms(moving), terms(resting)) == pytest.approx(wanted, rel=1e-12, abs=1e-12)
