"""The lifting equation: held to a second one in cm, degrees and minutes, to points within the box, and to laws."""

from __future__ import annotations

import math
import random

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from kitproof.mechanics.lifting import (
    COUPLINGS,
    FM_HIGH,
    FM_LOW,
    HOUR,
    NOT_COVERED,
    RATES,
    Coupling,
    Hands,
    Lift,
    asymmetry,
    coupling,
    distance,
    frequency,
    horizontal,
    lifting_index,
    reach,
    team_guide,
    vertical,
    weight_limit,
)
from kitproof.mechanics.ranges import Interval
from tests.mechanics.boxes import between
from tests.mechanics.weights import pick

INF = math.inf

HANDS = st.builds(Hands, between(0.15, 0.75), between(0.0, 1.9), between(-2.5, 2.5))
KINDS = st.sets(st.sampled_from(COUPLINGS), min_size=1).map(lambda kinds: tuple(sorted(kinds)))
LIFTS = st.builds(
    Lift,
    HANDS,
    HANDS,
    between(0.0, 16.0).map(lambda ends: (ends[0] / 60, ends[1] / 60)),
    between(0.1, 8.0).map(lambda ends: (ends[0] * HOUR, ends[1] * HOUR)),
    KINDS,
)


def limit_in_cm(h: float, v: float, d: float, a: float, f: float, hours: float, grip: str) -> float:
    """RWL in kg from cm, degrees, lifts a minute and hours, in the manual's own order of multipliers."""
    hm = 0 if h > 63 else 25 / max(h, 25)
    vm = 0 if v > 175 else 1 - 0.003 * abs(v - 75)
    dm = 0 if d > 175 else 0.82 + 4.5 / max(d, 25)
    am = 0 if a > 135 else 1 - 0.0032 * a
    table = FM_LOW if v < 75 else FM_HIGH
    column = table[min(each for each in (1, 2, 8) if hours <= each)]
    often = max(f, 0.2)
    fm = 0.0
    if often <= RATES[len(column) - 1]:
        after = next(place for place, rate in enumerate(RATES) if rate >= often)
        before = max(after - 1, 0)
        gap = RATES[after] - RATES[before]
        fm = column[after] - (column[after] - column[before]) * ((RATES[after] - often) / gap if gap else 0)
    cm = {"good": 1.0, "fair": 0.95 if v < 75 else 1.0, "poor": 0.9}[grip]
    return 23 * hm * vm * dm * am * fm * cm


def index_in_cm(mass: float, ends: list[tuple[float, float, float]], f: float, hours: float, grip: str) -> float:
    """LI: the greater of two ends, each an H, V and A."""
    d = abs(ends[0][1] - ends[1][1])
    limits = [limit_in_cm(h, v, d, a, f, hours, grip) for h, v, a in ends]
    if mass == 0:
        return 0
    return max(mass / limit if limit else INF for limit in limits)


@given(LIFTS, between(0.0, 40.0), st.integers(0, 99))
def test_no_lift_within_the_box_has_an_index_outside_the_range(lift: Lift, mass: Interval, seed: int) -> None:
    chance = random.Random(seed)
    low, high = lifting_index(mass, lift)
    assert 0 <= low <= high
    for _ in range(20):
        ends = [
            (pick(each.out, chance) * 100, pick(each.up, chance) * 100, abs(math.degrees(pick(each.twist, chance))))
            for each in (lift.origin, lift.destination)
        ]
        rate, hours = pick(lift.rate, chance) * 60, pick(lift.work, chance) / HOUR
        found = index_in_cm(pick(mass, chance), ends, rate, hours, chance.choice(lift.couplings))
        assert found == INF or low * (1 - 1e-9) <= found
        assert found <= high * (1 + 1e-9)


@st.composite
def sharp_lifts(draw: st.DrawFn) -> Lift:
    def sharp(low: float, high: float) -> Interval:
        value = draw(st.integers(round(low * 1000), round(high * 1000))) / 1000
        return value, value

    ends = [Hands(sharp(0.2, 0.63), sharp(0.0, 1.75), sharp(0.0, 2.3)) for _ in range(2)]
    rate = draw(st.integers(1, 900)) / 3600
    work = draw(st.sampled_from([HOUR, 2 * HOUR, 8 * HOUR]))
    return Lift(ends[0], ends[1], (rate, rate), (work, work), (draw(st.sampled_from(COUPLINGS)),))


@given(sharp_lifts(), st.integers(1, 40))
def test_sharp_values_give_the_value_itself(lift: Lift, mass: int) -> None:
    ends = [
        (each.out[0] * 100, each.up[0] * 100, math.degrees(each.twist[0])) for each in (lift.origin, lift.destination)
    ]
    expected = index_in_cm(mass, ends, lift.rate[0] * 60, lift.work[0] / HOUR, lift.couplings[0])
    assert lifting_index((mass, mass), lift) == pytest.approx((expected, expected), rel=1e-9)


@given(LIFTS, between(0.0, 40.0), between(0.0, 10.0))
def test_more_mass_never_lowers_the_index(lift: Lift, mass: Interval, more: Interval) -> None:
    before, after = lifting_index(mass, lift), lifting_index((mass[0] + more[0], mass[1] + more[1]), lift)
    assert before[0] <= after[0]
    assert before[1] <= after[1]


@given(sharp_lifts(), st.integers(2, 40), st.data())
def test_splitting_a_case_never_raises_the_greatest_index(lift: Lift, mass: int, data: st.DataObject) -> None:
    """Both halves together weigh as much as the whole, and neither is deeper in front of the body."""
    part = data.draw(st.integers(1, mass - 1))
    depth = data.draw(st.integers(100, 700)) / 1000
    depths = [data.draw(st.integers(100, round(depth * 1000))) / 1000 for _ in range(2)]

    def index(kg: float, deep: float) -> float:
        ends = [replace(each, out=reach((deep, deep), each.up)) for each in (lift.origin, lift.destination)]
        return lifting_index((kg, kg), replace(lift, origin=ends[0], destination=ends[1]))[1]

    assert max(index(part, depths[0]), index(mass - part, depths[1])) <= index(mass, depth)


@given(between(0.05, 1.2), between(0.0, 1.9), st.integers(0, 9))
def test_reach_is_exactly_what_its_box_holds(depth: Interval, up: Interval, seed: int) -> None:
    chance = random.Random(seed)
    low, high = reach(depth, up)
    found = [(0.20 if v >= 0.25 else 0.25) + w / 2 for w in depth for v in up]
    assert (low, high) == (min(found), max(found))
    v, w = pick(up, chance), pick(depth, chance)
    assert low - 1e-12 <= (0.20 if v >= 0.25 else 0.25) + w / 2 <= high + 1e-12


@pytest.mark.parametrize(
    ("multiplier", "at", "expected"),
    [
        (horizontal, 0.10, 1),
        (horizontal, 0.25, 1),
        (horizontal, 0.50, 0.5),
        (horizontal, 0.63, 25 / 63),
        (horizontal, 0.631, 0),
        (vertical, 0.0, 0.775),
        (vertical, 0.75, 1),
        (vertical, 1.75, 0.7),
        (vertical, 1.751, 0),
        (vertical, -0.1, 0),
        (distance, 0.0, 1),
        (distance, 0.25, 1),
        (distance, 1.75, 0.82 + 4.5 / 175),
        (distance, 1.76, 0),
        (asymmetry, 0.0, 1),
        (asymmetry, math.radians(90), 0.712),
        (asymmetry, math.radians(-90), 0.712),
        (asymmetry, math.radians(135), 0.568),
        (asymmetry, math.radians(135.5), 0),
    ],
)
def test_multipliers_at_their_ends(multiplier, at, expected) -> None:  # type: ignore[no-untyped-def]  # four functions
    assert multiplier((at, at)) == pytest.approx((expected, expected), abs=1e-12)


def test_a_range_across_the_best_height_holds_it() -> None:
    assert vertical((0.5, 1.0)) == pytest.approx((0.925, 1))
    assert vertical((0.5, 2.0)) == (0, 1)


def test_frequency_between_lines_and_beyond_the_table() -> None:
    hour, low, high = (HOUR, HOUR), (0.5, 0.5), (1.0, 1.0)
    assert frequency((1.5 / 60, 1.5 / 60), hour, low) == pytest.approx((0.925, 0.925))
    assert frequency((0.0, 0.0), hour, low) == (1, 1)
    assert frequency((12.5 / 60, 12.5 / 60), hour, low) == (0, 0)
    assert frequency((12.5 / 60, 12.5 / 60), hour, high) == pytest.approx((0.355, 0.355))
    assert frequency((15.1 / 60, 15.1 / 60), hour, high) == (0, 0)
    assert frequency((12.5 / 60, 12.5 / 60), hour, (0.5, 1.0)) == pytest.approx((0, 0.355))
    assert frequency((0.2 / 60, 0.2 / 60), (HOUR, 8 * HOUR), low) == (0.85, 1)


def test_a_height_on_either_side_of_the_waist_counts_on_both_sides() -> None:
    """At 12.5 a minute the table has a line from the waist up alone: 0 below it, 0.355 above."""
    hands = Hands((0.25, 0.25), (0.5, 1.0))
    lift = Lift(hands, hands, (12.5 / 60, 12.5 / 60), (HOUR, HOUR), ("good",))
    low, high = weight_limit(lift, hands)
    assert low == 0
    assert high == pytest.approx(23 * 0.355)


def test_what_is_not_known_of_rate_and_work() -> None:
    assert frequency((0, INF), (0, 8 * HOUR), (0, 1.75)) == (0, 1)
    assert frequency((0, 0), (0, INF), (0, 1.75)) == (0, 1)
    assert frequency((0, 0), (9 * HOUR, 9 * HOUR), (1, 1)) == (0, 0.85)


@pytest.mark.parametrize(
    ("kinds", "up", "expected"),
    [
        (("good",), (0.0, 1.75), (1, 1)),
        (("fair",), (0.0, 0.74), (0.95, 0.95)),
        (("fair",), (0.75, 1.0), (1, 1)),
        (("fair",), (0.7, 0.8), (0.95, 1)),
        (("poor",), (0.0, 1.75), (0.9, 0.9)),
        ((), (0.75, 1.0), (0.9, 1)),
    ],
)
def test_coupling(kinds: tuple[Coupling, ...], up: Interval, expected: Interval) -> None:
    assert coupling(kinds, up) == expected


def test_a_case_lifted_into_a_van() -> None:
    """16 kg, 35 cm out, from the floor to 90 cm, twenty an hour all day, held fairly: 23 × 0.714 × 0.775 × 0.87 × FM ×
    0.95 = 10.52 × FM at the floor, FM at 0.333 a minute between 0.85 and 0.81: 0.8322."""
    lift = Lift(
        Hands((0.35, 0.35), (0.0, 0.0)),
        Hands((0.35, 0.35), (0.9, 0.9)),
        (20 / 3600, 20 / 3600),
        couplings=("fair",),
    )
    assert weight_limit(lift, lift.origin) == pytest.approx((8.757, 8.757), abs=1e-3)
    assert lifting_index((16, 16), lift) == pytest.approx((1.827, 1.827), abs=1e-3)


def test_where_nothing_is_recommended() -> None:
    far = Hands((0.7, 0.7), (0.75, 0.75))
    lift = Lift(far, far, (0, 0))
    assert weight_limit(lift, far) == (0, 0)
    assert lifting_index((5, 5), lift) == (INF, INF)
    assert lifting_index((0, 5), lift) == (0, INF)
    assert lifting_index((0, 0), lift) == (0, 0)


def test_a_mass_that_is_not_known() -> None:
    near = Hands((0.25, 0.25), (0.75, 0.75))
    assert lifting_index((11.5, INF), Lift(near, near, (0, 0), (HOUR, HOUR))) == (0.5, INF)


def test_a_team_counts_for_less_than_its_heads() -> None:
    assert team_guide((2.0, 2.4), 1) == (2.0, 2.4)
    assert team_guide((2.0, 2.4), 2) == pytest.approx((1.5, 1.8))
    assert team_guide((2.0, INF), 3) == (pytest.approx(4 / 3), INF)
    assert team_guide((2.0, 2.4), 4) is None
    assert team_guide((2.0, 2.4), 0) is None


def test_what_is_not_covered_is_said_and_team_lifts_are_among_it() -> None:
    assert len(set(NOT_COVERED)) == len(NOT_COVERED) == 10
    assert any("more than one person" in each for each in NOT_COVERED)
