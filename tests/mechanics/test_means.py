"""Exact ranges of centres of gravity, held to brute force over all corners and to points anywhere inside."""

from __future__ import annotations

import math
import random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kitproof.mechanics.means import Term, balance_range, mass_range, mean_range, moment_range, two_scales
from kitproof.mechanics.ranges import WHOLE
from tests.mechanics.boxes import boxes, centre, corners, inside

INF = math.inf


def sharp(mass: float, place: float) -> Term:
    return Term(mass, mass, place, place)


@given(boxes(most=5))
def test_a_mean_is_exactly_what_the_corners_reach(box: list[Term]) -> None:
    low, high = mean_range(box)
    if sum(term.m_low for term in box) == 0:
        assert (low, high) == WHOLE
        return
    means = [centre(corner) for corner in corners(box)]
    assert low == pytest.approx(min(means), abs=1e-12)
    assert high == pytest.approx(max(means), abs=1e-12)


@given(boxes(most=6, least=0.001), st.integers(0, 9))
def test_no_point_inside_the_box_lies_outside_the_mean(box: list[Term], seed: int) -> None:
    low, high = mean_range(box)
    for point in inside(box, 40, random.Random(seed)):
        assert low - 1e-12 <= centre(point) <= high + 1e-12


@given(boxes(most=5))
def test_moment_and_mass_are_what_the_corners_reach(box: list[Term]) -> None:
    moments = [math.fsum(m * r for m, r in corner) for corner in corners(box)]
    assert moment_range(box) == pytest.approx((min(moments), max(moments)), abs=1e-12)
    masses = [math.fsum(m for m, _ in corner) for corner in corners(box)]
    assert mass_range(box) == pytest.approx((min(masses), max(masses)), abs=1e-12)


@given(boxes(most=3), boxes(most=2))
def test_a_balance_is_exactly_what_the_corners_reach(moving: list[Term], resting: list[Term]) -> None:
    low, high = balance_range(moving, resting)
    if sum(term.m_low for term in moving) == 0:
        assert (low, high) == WHOLE
        return
    reached = [
        -math.fsum(m * r for m, r in (*one, *other)) / math.fsum(m for m, _ in one)
        for one in corners(moving)
        for other in corners(resting)
    ]
    assert low == pytest.approx(min(reached), rel=1e-12, abs=1e-12)
    assert high == pytest.approx(max(reached), rel=1e-12, abs=1e-12)


@given(boxes(most=6, least=0.001))
def test_sharp_masses_and_places_give_a_sharp_centre(box: list[Term]) -> None:
    low, high = mean_range([Term(term.m_low, term.m_low, term.r_low, term.r_low) for term in box])
    assert low == high


@given(boxes(most=6, least=0.001), st.randoms(use_true_random=False))
def test_the_order_of_parts_changes_nothing(box: list[Term], chance: random.Random) -> None:
    other = list(box)
    chance.shuffle(other)
    assert mean_range(other) == pytest.approx(mean_range(box), abs=1e-15)


@given(boxes(most=4), st.sampled_from([1e6, 1e9]))
def test_a_mass_without_bound_is_the_limit_of_a_great_one(box: list[Term], great: float) -> None:
    box = [sharp(2.0, 0.1), *box]
    unknown = [box[0], *(term._replace(m_high=INF) for term in box[1:])]
    known = [box[0], *(term._replace(m_high=great) for term in box[1:])]
    assert mean_range(unknown) == pytest.approx(mean_range(known), abs=100 / great)


def test_an_unknown_mass_takes_the_mean_as_far_as_its_own_places() -> None:
    assert mean_range([sharp(4, 0.1), Term(0, INF, 0.3, 0.4)]) == (0.1, 0.4)
    assert mean_range([sharp(4, 0.1), Term(0, INF, -0.2, 0.05)]) == (-0.2, 0.1)


def test_an_unknown_place_leaves_the_mean_unknown_unless_nothing_is_there() -> None:
    assert mean_range([sharp(4, 0.1), Term(1, 2, -INF, INF)]) == WHOLE
    assert mean_range([sharp(4, 0.1), Term(0, 2, 0.2, INF)]) == (0.1, INF)
    assert mean_range([sharp(4, 0.1), Term(0, 0, -INF, INF)]) == (0.1, 0.1)


def test_with_no_certain_mass_the_centre_is_not_known() -> None:
    assert mean_range([]) == WHOLE
    assert mean_range([Term(0, 3, 0.1, 0.1)]) == WHOLE
    assert balance_range([Term(0, 3, 0.1, 0.1)], [sharp(1, 0.2)]) == WHOLE


def test_a_moment_of_an_unknown_mass_on_the_axis_is_nothing() -> None:
    assert moment_range([Term(0, INF, 0, 0), sharp(2, 0.1)]) == (0.2, 0.2)
    assert moment_range([Term(0, INF, -0.1, 0.2)]) == WHOLE


def test_balance_with_unknowns() -> None:
    camera = sharp(10, 0.03)
    assert balance_range([camera], [Term(0, INF, 0.1, 0.1)]) == (-INF, pytest.approx(-0.03))
    assert balance_range([camera, Term(0, INF, 0.2, 0.2)], []) == (-0.2, pytest.approx(-0.03))
    assert balance_range([camera], [Term(1, 1, -INF, INF)]) == WHOLE
    # What weighs nothing balances nothing, wherever it is.
    assert balance_range([camera, Term(0, 0, -INF, INF)], []) == balance_range([camera], [])


def test_a_part_that_rests_counts_in_the_moment_alone() -> None:
    assert balance_range([sharp(10, 0.03)], [sharp(1, -0.1)]) == pytest.approx((-0.02, -0.02))


def test_two_scales_give_mass_and_balance_point() -> None:
    mass, place = two_scales(sharp(2.1, 0.06), sharp(1.9, -0.09))
    assert mass == (4.0, 4.0)
    assert place == pytest.approx(((2.1 * 0.06 - 1.9 * 0.09) / 4.0,) * 2)
