"""Wind on what stands: exact ranges, and an area that is only known to lie between one part and all."""

from __future__ import annotations

import math
from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kitproof.mechanics.ranges import Interval
from kitproof.mechanics.winds import (
    AIR,
    BEAUFORT_NAMES,
    BEAUFORT_TOPS,
    FLAT_PLATE,
    Sail,
    beaufort,
    force,
    pressure,
    push_moment,
    pushing,
    sail_area,
    side,
    wind_moment,
    wind_name,
)
from tests.mechanics.boxes import between

sails = st.builds(Sail, between(0.0, 0.3), between(0.2, 2.0))


def pushed(speed: float, area: float) -> float:
    return 0.5 * AIR * speed**2 * FLAT_PLATE * area


@given(between(0, 30), between(0, 0.5))
def test_a_force_is_what_the_corners_reach(speed: Interval, area: Interval) -> None:
    each = [pushed(v, a) for v, a in product(speed, area)]
    assert force(speed, area) == pytest.approx((min(each), max(each)))


@given(between(0, 30), st.lists(sails, max_size=5))
def test_the_moment_lies_between_one_part_and_all(speed: Interval, several: list[Sail]) -> None:
    low, high = wind_moment(speed, several)
    assert high == pytest.approx(sum(pushed(speed[1], sail.area[1]) * sail.height[1] for sail in several))
    each = [pushed(speed[0], sail.area[0]) * sail.height[0] for sail in several]
    assert low == pytest.approx(max(each, default=0.0))
    for sail in several:
        one = wind_moment(speed, [sail])
        assert low >= one[0] - 1e-9
        assert one[1] <= high + 1e-9


@given(st.lists(sails, max_size=5), sails)
def test_one_more_part_never_takes_area_away(several: list[Sail], more: Sail) -> None:
    before, after = sail_area(several), sail_area([*several, more])
    assert after[0] >= before[0]
    assert after[1] >= before[1]
    assert before[0] <= before[1]


@given(st.lists(sails, min_size=1, max_size=5), between(0, 20), between(0, 10))
def test_more_wind_never_pushes_less(several: list[Sail], speed: Interval, more: Interval) -> None:
    before = wind_moment(speed, several)
    after = wind_moment((speed[0] + more[0], speed[1] + more[1]), several)
    assert after[0] >= before[0]
    assert after[1] >= before[1]


@given(between(0, 0.5), between(0, 0.5), between(0, 0.5))
def test_a_side_is_the_greater_of_two(along: Interval, across: Interval, high: Interval) -> None:
    each = [max(a, b) * c for a, b, c in product(along, across, high)]
    assert side(along, across, high) == pytest.approx((min(each), max(each)))


def test_no_parts_and_no_wind_push_nothing() -> None:
    assert sail_area([]) == (0.0, 0.0)
    assert wind_moment((10.0, 10.0), []) == (0.0, 0.0)
    assert wind_moment((0.0, 0.0), [Sail((0.0, math.inf), (0.0, math.inf))]) == (0.0, 0.0)
    assert wind_moment((1.0, 2.0), [Sail((0.0, math.inf), (1.0, 1.0))]) == (0.0, math.inf)
    assert pushing() == (0.0, 0.0)


def test_wind_and_push_add_up() -> None:
    """10 m/s on 0.2 m² at 1.6 m: ½ 1.225 × 100 × 1.28 × 0.2 = 15.68 N, 25.088 N·m; 80 N at 1.5 m are 120 N·m more."""
    assert pressure((10.0, 10.0)) == pytest.approx((61.25, 61.25))
    assert force((10.0, 10.0), (0.2, 0.2)) == pytest.approx((15.68, 15.68))
    wind = wind_moment((10.0, 10.0), [Sail((0.2, 0.2), (1.6, 1.6))])
    both = pushing(wind, push_moment((80.0, 80.0), (1.5, 1.5)))
    assert both == pytest.approx((145.088, 145.088))


@given(st.floats(0, 60), st.floats(0, 60))
def test_more_wind_never_has_a_lower_number(one: float, other: float) -> None:
    assert beaufort(min(one, other)) <= beaufort(max(one, other))


def test_every_force_has_a_name() -> None:
    assert len(BEAUFORT_NAMES) == len(BEAUFORT_TOPS) + 1
    assert wind_name(10.0) == "fresh breeze"
    assert wind_name(0.0) == "calm"
    assert wind_name(40.0) == "hurricane"


def test_each_force_has_its_name() -> None:
    """WMO scale, the names from memory."""
    named = (
        "calm, light air, light breeze, gentle breeze, moderate breeze, fresh breeze, strong breeze, near gale, gale"
    )
    named += ", strong gale, storm, violent storm, hurricane"
    assert [wind_name(top) for top in (*BEAUFORT_TOPS, 40.0)] == named.split(", ")
