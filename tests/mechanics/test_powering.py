"""Batteries: worked values, charging held to a day played through minute by minute, and laws."""

from __future__ import annotations

import math
import random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kitproof.mechanics.powering import (
    Charging,
    Cold,
    Draw,
    Stock,
    batteries_charging,
    batteries_needed,
    current,
    draw_of,
    draw_share,
    energy_of,
    energy_on_hand,
    runtime,
    share_left,
    voltage_span,
    voltage_spare,
)
from kitproof.mechanics.ranges import Interval
from kitproof.mechanics.rounding import round_up, rounded_up
from tests.mechanics.boxes import between
from tests.mechanics.weights import pick

INF = math.inf
WH = AH = HOUR = 3600.0
ZERO = 273.15


def hours(value: float) -> Interval:
    return value * HOUR, value * HOUR


def test_a_day_on_one_kind_of_battery() -> None:
    """38 W for eleven hours is 418 Wh; at 98 Wh each that is five batteries, each lasting 2 h 34 min 44 s."""
    each = runtime((98 * WH, 98 * WH), (1, 1), (38, 38))
    assert each == pytest.approx((9284.2105,) * 2, abs=1e-3)
    assert batteries_needed(hours(11), each) == (5, 5)


def test_doubt_is_rounded_up_at_both_ends() -> None:
    each = runtime((90 * WH, 100 * WH), (1, 1), (36, 45))
    assert each == pytest.approx((2 * HOUR, 100 / 36 * HOUR))
    assert batteries_needed(hours(11), each) == (4, 6)


def test_a_day_that_batteries_fill_to_the_last_wants_none_more() -> None:
    each = runtime((0.3 * WH, 0.3 * WH), (1, 1), (0.1, 0.1))
    assert batteries_needed(hours(9), each) == (3, 3)
    assert round_up(3.0000000001) == 3
    assert round_up(3.0001) == 4
    assert rounded_up((0.0, INF)) == (0, INF)


def test_sums_of_draws_and_energies() -> None:
    draws = [Draw((30, 30), (45, 50)), Draw((6, 8), (6, 8))]
    assert draw_of(draws) == ((36, 38), (51, 58))
    assert draw_of([]) == ((0, 0), (0, 0))
    assert energy_on_hand([Stock((98, 98), (4, 6)), Stock((0, INF), (0, 0))]) == (392, 588)
    assert energy_on_hand([Stock((0, INF), (1, 1))]) == (0, INF)


def test_shares_and_currents() -> None:
    assert draw_share((60, 60), (140, 140)) == pytest.approx((3 / 7, 3 / 7))
    assert draw_share((0, INF), (140, 140)) == (0, INF)
    assert draw_share((60, 60), (0, INF)) == (0, INF)
    assert current((60, 66), (11, 11)) == pytest.approx((60 / 11, 6))
    assert energy_of((7 * AH, 7 * AH), (14.4, 14.4)) == pytest.approx((100.8 * WH,) * 2)


def test_what_is_not_known_of_a_battery() -> None:
    assert runtime((0, INF), (1, 1), (38, 38)) == (0, INF)
    assert runtime((98 * WH, 98 * WH), (1, 1), (0, INF)) == (0, INF)
    assert runtime((98 * WH, 98 * WH), (1, 1), (0, 0)) == (INF, INF)
    assert batteries_needed(hours(11), (0, INF)) == (0, INF)
    assert batteries_needed(hours(11), (INF, INF)) == (0, 0)
    assert batteries_needed((0, 0), (0, 0)) == (0, 0)


def test_cold_by_the_house() -> None:
    """House numbers, from memory: all from 20 °C, 80 % at freezing, half at −20 °C, nothing certain below."""
    assert share_left((ZERO + 20, ZERO + 35)) == (1, 1)
    assert share_left((ZERO, ZERO)) == pytest.approx((0.8, 0.8))
    assert share_left((ZERO - 10, ZERO + 10)) == pytest.approx((0.65, 0.9))
    assert share_left((ZERO - 20, ZERO - 20)) == pytest.approx((0.5, 0.5))
    assert share_left((ZERO - 30, ZERO - 25)) == (0, 0.5)
    assert share_left((0, INF)) == (0, 1)
    assert share_left((ZERO, ZERO), Cold(at_freezing=0.7)) == pytest.approx((0.7, 0.7))


def test_a_battery_swings_about_its_nominal_voltage() -> None:
    empty, full = voltage_span((14.4, 14.4))
    assert empty == pytest.approx((12.0, 12.0))
    assert full == pytest.approx((16.8, 16.8))


@given(between(5, 20), between(6, 18), st.integers(0, 9))
def test_voltage_to_spare_is_exactly_what_its_range_holds(voltage: Interval, reach: Interval, seed: int) -> None:
    chance = random.Random(seed)
    low, high = voltage_spare(voltage, reach)
    steps = [voltage[0] + (voltage[1] - voltage[0]) * n / 200 for n in range(201)] + [pick(voltage, chance)]
    found = [min(each - reach[0], reach[1] - each) for each in steps]
    assert low == pytest.approx(min(found), abs=1e-9)
    assert high + 1e-9 >= max(found)
    assert high == pytest.approx(max(found), abs=(voltage[1] - voltage[0]) / 200 + 1e-9)


def test_an_end_that_is_not_known_is_never_near() -> None:
    assert voltage_spare((14, 14), (11, INF)) == (3, 3)
    assert voltage_spare((14, 14), (-INF, INF)) == (INF, INF)
    assert voltage_spare((0, INF), (11, 17)) == (-INF, 3)


def lasts(count: int, day: int, each: int, time: int, places: int) -> bool:
    """A day played through minute by minute: one battery runs, those that are down wait for a free place."""
    ready, queue, on_charge = count, 0, [0] * 0
    left = 0
    for _ in range(day):
        on_charge = [minutes - 1 for minutes in on_charge]
        ready += on_charge.count(0)
        on_charge = [minutes for minutes in on_charge if minutes > 0]
        while queue and len(on_charge) < places:
            queue -= 1
            on_charge.append(time)
        if left == 0:
            if ready == 0:
                return False
            ready, left = ready - 1, each
        left -= 1
        if left == 0:
            queue += 1
    return True


@given(st.integers(0, 300), st.integers(1, 60), st.integers(1, 120), st.integers(0, 4))
def test_charging_agrees_with_a_day_played_through(day: int, each: int, time: int, places: int) -> None:
    expected = next((count for count in range(1, 400) if lasts(count, day, each, time, places)), 0) if day else 0
    found = batteries_charging((day, day), (each, each), Charging((time, time), (places, places)))
    assert found == (expected, expected)


DAYS, RUNS = between(0, 30), between(0.1, 6)
CHARGES = st.builds(Charging, between(0.1, 9), st.tuples(st.integers(0, 2), st.integers(2, 6)))


@given(DAYS, RUNS, CHARGES, between(0, 5))
def test_a_longer_day_never_wants_fewer_batteries(
    day: Interval, each: Interval, charging: Charging, more: Interval
) -> None:
    longer = day[0] + more[0], day[1] + more[1]
    for before, after in (
        (batteries_needed(day, each), batteries_needed(longer, each)),
        (batteries_charging(day, each, charging), batteries_charging(longer, each, charging)),
    ):
        assert before[0] <= after[0]
        assert before[1] <= after[1]


@given(DAYS, RUNS, CHARGES, st.integers(0, 9))
def test_no_day_within_the_box_wants_a_number_outside_the_range(
    day: Interval, each: Interval, charging: Charging, seed: int
) -> None:
    chance = random.Random(seed)
    low, high = batteries_charging(day, each, charging)
    most = batteries_needed(day, each)
    assert low <= most[0]
    assert high <= most[1]
    for _ in range(10):
        at = [(pick(whole, chance),) * 2 for whole in (day, each, charging.time)]
        places = float(chance.randint(int(charging.places[0]), int(charging.places[1])))
        found = batteries_charging(at[0], at[1], Charging(at[2], (places, places)))
        assert low <= found[0] == found[1] <= high


def test_charging_that_is_not_known_saves_nothing_for_certain() -> None:
    assert batteries_charging((10, 10), (1, 1), Charging((0, INF), (0, INF))) == (1, 10)
    assert batteries_charging((10, 10), (0, INF), Charging((1, 1), (1, 1))) == (0, INF)
    assert batteries_charging((10, 10), (1, 1), Charging((1e300, INF), (2, INF))) == (10, 10)
