"""Counterbalance needed, its share, steps and ends, held to brute force over the box and to worked values."""

from __future__ import annotations

import itertools
import math
import random

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from kitproof.mechanics.counterbalancing import (
    MANY_STEPS,
    NO_SPRING,
    Spring,
    demand_range,
    excess_range,
    needed_range,
    setting_range,
    settings,
    share_range,
    shortfall_range,
    step_range,
)
from kitproof.mechanics.means import Term
from kitproof.mechanics.ranges import WHOLE, Interval
from tests.mechanics.boxes import between, boxes, corners, inside
from tests.mechanics.weights import G, pick, springs

INF = math.inf
DEPTHS = between(-0.05, 0.12)
TEN = Spring(4, 38, 10)


def sharp(mass: float, place: float) -> Term:
    return Term(mass, mass, place, place)


@given(boxes(most=3), DEPTHS)
def test_needed_is_exactly_what_the_corners_reach(box: list[Term], axis: Interval) -> None:
    found = [G * sum(m * (r + a) for m, r in corner) for corner in corners(box) for a in axis]
    assert needed_range(box, axis) == pytest.approx((min(found), max(found)), abs=1e-12)


@given(boxes(most=3), DEPTHS, between(0.1, 15), between(0.1, 0.3))
def test_a_demand_in_masses_is_exactly_what_is_reached(
    box: list[Term], axis: Interval, ends: Interval, height: Interval
) -> None:
    """The demand is monotone in each mass, place and height; over the depth it is looked at densely."""
    spring = Spring(*ends, 5, height=height)
    depths = [axis[0] + (axis[1] - axis[0]) * number / 100 for number in range(101)]
    found = [sum(m * (r + a) for m, r in corner) / (h + a) for corner in corners(box) for a in depths for h in height]
    low, high = demand_range(box, axis, spring)
    room = 0.02 * (max(found) - min(found)) + 1e-9
    assert min(found) - room <= low <= min(found) + 1e-9
    assert max(found) - 1e-9 <= high <= max(found) + room


@given(boxes(most=3), DEPTHS, springs(), st.integers(0, 9))
def test_no_build_needs_a_share_or_falls_short_outside_the_ranges(
    box: list[Term], axis: Interval, spring: Spring, seed: int
) -> None:
    assume(spring.most > 0.1)
    chance = random.Random(seed)
    share, short, over = (find(box, axis, spring) for find in (share_range, shortfall_range, excess_range))
    for point in inside(box, 20, chance):
        depth = pick(axis, chance)
        lever = 1.0 if spring.height is None else G * (pick(spring.height, chance) + depth)
        wanted = G * sum(m * (r + depth) for m, r in point)
        for value, (low, high) in (
            (wanted / lever / spring.most, share),
            (max(0, wanted - lever * spring.most), short),
            (max(0, lever * spring.least - wanted), over),
        ):
            assert low - 1e-9 <= value <= high + 1e-9


@given(boxes(most=2), DEPTHS, springs())
def test_what_falls_short_and_what_is_too_much_is_reached_at_corners(
    box: list[Term], axis: Interval, spring: Spring
) -> None:
    ends = []
    for corner, depth in itertools.product(corners(box), axis):
        for height in spring.height or (0.0,):
            lever = 1.0 if spring.height is None else G * (height + depth)
            wanted = G * sum(m * (r + depth) for m, r in corner)
            ends.append((max(0.0, wanted - lever * spring.most), max(0.0, lever * spring.least - wanted)))
    shorts, overs = zip(*ends, strict=True)
    assert shortfall_range(box, axis, spring) == pytest.approx((min(shorts), max(shorts)), abs=1e-9)
    assert excess_range(box, axis, spring) == pytest.approx((min(overs), max(overs)), abs=1e-9)


@given(between(0, 40), st.integers(1, 200), between(-20, 60))
def test_the_nearest_step_is_found_among_all_of_them(ends: Interval, count: int, demand: Interval) -> None:
    assume(count > 1 or ends[0] == ends[1])
    spring = Spring(*ends, count)
    gap = (ends[1] - ends[0]) / max(count - 1, 1)
    values = [0.0, *(ends[0] + gap * number for number in range(count))]
    for wanted, step in zip(demand, step_range(demand, spring), strict=True):
        assert abs(values[int(step)] - wanted) == pytest.approx(min(abs(v - wanted) for v in values), abs=1e-9)


def test_steps_run_evenly_from_least_to_most() -> None:
    assert [TEN.at_step(number) for number in (0, 1, 10)] == [0, 4, 38]
    assert TEN.at_step(4) == pytest.approx(4 + 34 * 3 / 9)
    assert step_range((4, 4), TEN) == (1, 1)
    assert step_range((100, 100), TEN) == (10, 10)


def test_of_two_settings_as_near_the_higher_is_taken() -> None:
    assert step_range((15, 15), Spring(10, 30, 3)) == (2, 2)
    assert step_range((25, 25), Spring(10, 30, 3)) == (3, 3)
    assert step_range((5, 5), Spring(10, 30, 3)) == (1, 1)
    assert step_range((4.99, 4.99), Spring(10, 30, 3)) == (0, 0)
    assert setting_range((5, 5), Spring(10, 30, stepless=True)) == (10, 10)


def test_what_hangs_below_the_axis_has_its_spring_off() -> None:
    assert needed_range([sharp(8, -0.2)], (0.05, 0.05))[1] < 0
    assert step_range((-20, -1), TEN) == (0, 0)
    assert step_range((-1e100, -1e100), Spring(0.1, 1, 9)) == (0, 0)
    assert setting_range((-20, -1), Spring(4, 38, stepless=True)) == (0, 0)
    assert share_range([sharp(8, -0.2)], (0.05, 0.05), TEN)[1] < 0


def test_the_depth_of_the_axis_is_added_to_a_mass_at_a_height() -> None:
    """12 kg at 150 mm with the axis 42 mm below the plate: 12 × 9.80665 × 0.192 = 22.59 N·m."""
    spring = Spring(2, 12, 6, height=(0.15, 0.15))
    assert 12 * spring.lever((0.042, 0.042))[0] == pytest.approx(22.5945, abs=1e-4)
    assert demand_range([sharp(12, 0.15)], (0, 0.12), spring) == pytest.approx((12, 12))
    assert share_range([sharp(12, 0.15)], (0, 0.12), spring) == pytest.approx((1, 1))
    assert step_range(demand_range([sharp(6.1, 0.15)], (0, 0.12), spring), spring) == (3, 3)


def test_a_depth_that_is_not_known_leaves_the_torque_unknown() -> None:
    assert needed_range([sharp(8, 0.1)], WHOLE) == WHOLE
    assert demand_range([sharp(8, 0.1)], WHOLE, Spring(2, 12, 6, height=(0.15, 0.15))) == WHOLE
    assert shortfall_range([sharp(8, 0.1)], WHOLE, TEN) == excess_range([sharp(8, 0.1)], WHOLE, TEN) == (0, INF)


def test_a_mass_at_the_axis_says_nothing_of_a_torque() -> None:
    assert demand_range([sharp(8, 0.1)], (-0.2, -0.1), Spring(2, 12, 6, height=(0.15, 0.15))) == WHOLE


def test_an_unknown_mass_needs_any_counterbalance_on_its_own_side() -> None:
    assert needed_range([sharp(2, 0.1), Term(0, INF, 0.1, 0.2)], (0, 0)) == (pytest.approx(0.2 * G), INF)
    assert step_range((10, INF), TEN) == (3, 10)
    assert step_range((-INF, 10), TEN) == (0, 3)


def test_a_spring_of_nothing_has_an_endless_share() -> None:
    assert share_range([sharp(2, 0.1)], (0, 0), NO_SPRING) == (INF, INF)
    assert share_range([sharp(2, 0.0)], (0, 0), NO_SPRING) == (0, 0)
    assert setting_range((-5, 5), NO_SPRING) == (0, 0)


def test_a_number_of_steps_that_is_not_known() -> None:
    unknown = Spring(10, 30)
    assert step_range((12, 13), unknown) == (0, INF)
    assert setting_range((12, 13), unknown) == (10, 30)
    assert setting_range((31, 40), unknown) == (30, 30)
    assert setting_range((1, 2), unknown) == (0, 0)
    assert Spring(10, 30, 1).counted is None


def test_one_step_is_told_where_its_ends_agree() -> None:
    assert Spring(10, 10, 1).counted == 1
    assert step_range((4, 6), Spring(10, 10, 1)) == (0, 1)


def test_ends_turned_round_or_below_nothing_are_put_right() -> None:
    assert Spring(38, 4, 10).ends == (4, 38)
    assert Spring(-3, 4, 10).ends == (0, 4)


def test_a_great_many_steps_are_one_stretch_with_half_a_step_of_error() -> None:
    many = Spring(0, 30, MANY_STEPS + 1)
    stretch = settings(many, (12, 13))[0]
    assert stretch.set_to == (0.0, 30.0)
    assert stretch.half == pytest.approx(30 / MANY_STEPS / 2)


@given(boxes(most=3), DEPTHS, between(0.001, 5), between(0.0, 0.4))
def test_what_is_added_above_the_axis_asks_for_more(
    box: list[Term], axis: Interval, mass: Interval, up: Interval
) -> None:
    before = needed_range(box, axis)
    after = needed_range([*box, Term(*mass, up[0] + 0.06, up[1] + 0.06)], axis)
    assert after[0] > before[0]
    assert after[1] > before[1]
    assert shortfall_range([*box, Term(*mass, 0.06, 0.06)], axis, TEN)[1] >= shortfall_range(box, axis, TEN)[1]
