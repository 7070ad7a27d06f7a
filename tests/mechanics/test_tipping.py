"""The slope at which a rig tips: brute force over corners and points inside, and laws that must hold."""

from __future__ import annotations

import math
import random

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from kitproof.mechanics.ranges import Interval, negate
from kitproof.mechanics.stance import Stance
from kitproof.mechanics.tipping import ANY_SLOPE, lean, tip_angle
from tests.mechanics.stances import Rig, edges, few_doubts, rigs_at_corners, rigs_inside, stance_of, stances, tilts_of

INF = math.inf
WHAT_IS_LEFT = 1e-9
"""In radians or metres: how far two searches for the same worst may differ."""


def tips_at(rig: Rig, edge: float, tilts: list[float]) -> float:
    """The least slope over some tilts, worked out mass by mass."""
    return min(math.atan((edge - e) / up) for e, up in map(rig.lean, tilts))


@given(stances(), edges(), st.randoms(use_true_random=False))
def test_the_low_end_is_what_the_corners_reach(stance: Stance, edge: Interval, chance: random.Random) -> None:
    stance = few_doubts(stance, chance)
    scan = tilts_of(stance, 41)
    corners = list(rigs_at_corners(stance))
    scanned = min(tips_at(rig, edge[0], scan) for rig in corners)
    each = min(tip_angle(stance_of(rig, stance.tilts), (edge[0],) * 2)[0] for rig in corners)
    low, _ = tip_angle(stance, edge)
    assert low == pytest.approx(each, abs=WHAT_IS_LEFT)
    assert low <= scanned + WHAT_IS_LEFT
    assert low == pytest.approx(scanned, abs=0.01)


@given(stances(), edges(), st.integers(0, 9))
def test_nothing_inside_lies_outside(stance: Stance, edge: Interval, seed: int) -> None:
    low, high = tip_angle(stance, edge)
    lean_low, lean_high = lean(stance)
    scan = tilts_of(stance, 9)
    chance = random.Random(seed)
    for rig in rigs_inside(stance, 15, chance):
        assert tips_at(rig, edge[0], scan) >= low - WHAT_IS_LEFT
        whole, _ = tip_angle(stance_of(rig, stance.tilts), (chance.uniform(*edge),) * 2)
        assert low - WHAT_IS_LEFT <= whole <= high + WHAT_IS_LEFT
        most, _ = lean(stance_of(rig, stance.tilts))
        assert lean_low - WHAT_IS_LEFT <= most <= lean_high + WHAT_IS_LEFT


@given(stances(known=True), edges(known=True))
def test_what_is_sharp_gives_a_sharp_slope(stance: Stance, edge: Interval) -> None:
    low, high = tip_angle(stance, edge)
    assert low == high
    assert lean(stance)[0] == lean(stance)[1]


@given(stances(), edges())
def test_a_little_doubt_does_little(stance: Stance, edge: Interval) -> None:
    """The high end comes from single tilts: where little is in doubt it must lie near the low one all the same."""
    (rig, *_) = rigs_at_corners(stance)
    known = stance_of(rig, stance.tilts)
    doubt = replace(known, carried=(rig.carried, rig.carried + 0.001), up=(rig.up, rig.up + 0.0001))
    low, high = tip_angle(doubt, (edge[0], edge[0] + 0.0001))
    assert 0 <= high - low < 0.005


@given(stances(), edges())
def test_mirrored_left_and_right_it_is_the_same(stance: Stance, edge: Interval) -> None:
    other = replace(stance, left=negate(stance.left), rest_left=negate(stance.rest_left))
    assert tip_angle(other, edge) == pytest.approx(tip_angle(stance, edge), abs=WHAT_IS_LEFT)


@given(stances(), edges())
def test_turned_front_to_back_it_is_the_same(stance: Stance, edge: Interval) -> None:
    other = replace(
        stance,
        forward=negate(stance.forward),
        plate_forward=negate(stance.plate_forward),
        rest_forward=negate(stance.rest_forward),
        left=negate(stance.left),
        rest_left=negate(stance.rest_left),
        tilts=negate(stance.tilts),
    )
    assert tip_angle(other, edge) == pytest.approx(tip_angle(stance, edge), abs=WHAT_IS_LEFT)


@given(stances(known=True), edges(known=True), st.floats(0, 30), st.floats(0, 1))
def test_ballast_low_down_never_tips_it_sooner(stance: Stance, edge: Interval, mass: float, share: float) -> None:
    """Low down: in the middle, no higher than the centre of gravity of the rig ever comes."""
    (rig,) = rigs_at_corners(stance)
    lowest = min(rig.lean(tilt)[1] for tilt in tilts_of(stance, 181))
    at = share * max(lowest - 0.001, 0.0)
    rest = rig.rest + mass
    with_ballast = rig._replace(
        rest=rest,
        rest_forward=rig.rest * rig.rest_forward / rest,
        rest_left=rig.rest * rig.rest_left / rest,
        rest_up=(rig.rest * rig.rest_up + mass * at) / rest,
    )
    before, _ = tip_angle(stance, edge)
    after, _ = tip_angle(stance_of(with_ballast, stance.tilts), edge)
    assert after >= before - WHAT_IS_LEFT


@given(stances(), edges(), st.floats(0, 0.5))
def test_wider_feet_never_tip_sooner(stance: Stance, edge: Interval, wider: float) -> None:
    low, high = tip_angle(stance, edge)
    other = tip_angle(stance, (edge[0] + wider, edge[1] + wider))
    assert other[0] >= low - WHAT_IS_LEFT
    assert other[1] >= high - WHAT_IS_LEFT


@given(stances(), edges(), st.floats(0, 0.5))
def test_a_higher_centre_never_tips_later(stance: Stance, edge: Interval, higher: float) -> None:
    """All of it lifted. On feet that it has already left, height changes nothing but how far below level that is."""
    low, _ = tip_angle(stance, edge)
    lifted = replace(
        stance,
        plate=(stance.plate[0] + higher, stance.plate[1] + higher),
        rest_up=(stance.rest_up[0] + higher, stance.rest_up[1] + higher),
    )
    after, _ = tip_angle(lifted, edge)
    assert after <= max(low, 0.0) + WHAT_IS_LEFT
    assert (after >= 0) == (low >= 0) or abs(low) < WHAT_IS_LEFT


@given(stances(), edges())
def test_more_tilt_never_tips_later(stance: Stance, edge: Interval) -> None:
    level = replace(stance, tilts=(stance.tilts[0], stance.tilts[0]))
    assert tip_angle(stance, edge)[0] <= tip_angle(level, edge)[0] + WHAT_IS_LEFT


@given(stances(), edges())
def test_a_mass_without_bound_is_the_limit_of_a_great_one(stance: Stance, edge: Interval) -> None:
    unknown = tip_angle(replace(stance, carried=(0.0, INF)), edge)
    great = tip_angle(replace(stance, carried=(0.0, 1e9)), edge)
    assert unknown == pytest.approx(great, abs=1e-6)
    both = tip_angle(replace(stance, carried=(0.0, INF), rest=(stance.rest[0], INF)), edge)
    assert both[0] <= unknown[0] + WHAT_IS_LEFT


@given(
    stances(),
    edges(),
    st.sampled_from(["forward", "left", "up", "plate", "plate_forward", "axis", "rest_left", "rest_up"]),
)
def test_a_place_that_may_be_anywhere_is_not_known(stance: Stance, edge: Interval, name: str) -> None:
    stance = replace(stance, carried=(1.0, 2.0))
    assert tip_angle(replace(stance, **{name: (-INF, INF)}), edge) == ANY_SLOPE
    assert lean(replace(stance, **{name: (-INF, INF)})) == (0.0, INF)


@given(stances(), edges())
def test_where_nothing_is_carried_its_place_does_not_count(stance: Stance, edge: Interval) -> None:
    empty = replace(stance, carried=(0.0, 0.0))
    lost = replace(empty, forward=(-INF, INF), left=(-INF, INF), up=(-INF, INF))
    assert tip_angle(lost, edge) == pytest.approx(tip_angle(empty, edge), abs=WHAT_IS_LEFT)


def test_no_mass_at_all_is_not_known() -> None:
    nothing = stance_of(Rig(0, 0, 0, 0.1, 1.5, 0, 0, 0, 0, 0, 0.7), (0.0, 0.0))
    assert tip_angle(nothing, (0.3, 0.3)) == ANY_SLOPE == (math.radians(-90), math.radians(90))


def test_feet_that_are_not_known_leave_it_open() -> None:
    rig = stance_of(Rig(10, 0, 0, 0.1, 1.5, 0, 0, 8, 0, 0, 0.7), (0.0, 0.0))
    low, high = tip_angle(rig, (0.0, INF))
    assert low <= 0
    assert high == math.pi / 2


def test_a_rig_by_hand() -> None:
    """12 kg, 0.25 m above an axis 1.50 m above the ground, on 8 kg at 0.7 m: level, the centre is at
    (12 × 1.75 + 8 × 0.7) / 20 = 1.33 m; tilted 30° up it goes 12 × 0.125 / 20 = 0.075 m back."""
    rig = Rig(12, 0, 0, 0.2, 1.55, 0, 0.05, 8, 0, 0, 0.7)
    assert rig.centre(0.0) == pytest.approx((0.0, 0.0, 1.33))
    assert rig.centre(math.radians(30))[0] == pytest.approx(-0.075)
    level, _ = tip_angle(stance_of(rig, (0.0, 0.0)), (0.3, 0.3))
    assert level == pytest.approx(math.atan(0.3 / 1.33))
    up = 0.6 * (1.5 + 0.25 * math.cos(math.radians(30))) + 0.4 * 0.7
    tilted, _ = tip_angle(stance_of(rig, (0.0, math.radians(30))), (0.3, 0.3))
    assert tilted == pytest.approx(math.atan((0.3 - 0.075) / up))
