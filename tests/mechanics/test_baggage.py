"""Bags and travellers: worked values, and ends held to every whole number within."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kitproof.mechanics.baggage import per_traveller, side_sum

INF = math.inf


def test_the_sum_of_sides() -> None:
    assert side_sum([(0.76, 0.76), (0.5, 0.5), (0.32, 0.34)]) == pytest.approx((1.58, 1.60))
    assert side_sum([(0.76, 0.76), (0.5, 0.5), (0.0, INF)]) == (pytest.approx(1.26), INF)
    assert side_sum([]) == (0, INF)


def shared(things: int, people: int) -> int:
    """The fullest hands after things are handed out one after another, each to whoever has the fewest."""
    hands = [0] * people
    for _ in range(things):
        hands[hands.index(min(hands))] += 1
    return max(hands)


@given(st.tuples(st.integers(0, 12), st.integers(0, 6)), st.tuples(st.integers(1, 5), st.integers(0, 4)))
def test_things_shared_out_one_by_one(things: tuple[int, int], people: tuple[int, int]) -> None:
    counts = range(things[0], things[0] + things[1] + 1)
    heads = range(people[0], people[0] + people[1] + 1)
    found = [shared(count, head) for count in counts for head in heads]
    assert per_traveller((counts[0], counts[-1]), (heads[0], heads[-1])) == (min(found), max(found))


def test_how_many_travel_is_not_known() -> None:
    assert per_traveller((5, 5), (0, INF)) == (1, 5)
    assert per_traveller((0, 0), (0, INF)) == (0, 0)
    assert per_traveller((0, INF), (2, 2)) == (0, INF)
    assert per_traveller((1, 1), (1e300, INF)) == (1, 1)
