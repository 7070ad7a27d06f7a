"""The torque that is left, held to builds anywhere in the box worked out one at a time, and to laws of statics."""

from __future__ import annotations

import itertools
import math
import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kitproof.mechanics.counterbalancing import (
    NO_SPRING,
    Spring,
    demand_range,
    excess_range,
    nearest_step,
    needed_range,
    setting_range,
    share_range,
    shortfall_range,
    step_range,
)
from kitproof.mechanics.ranges import WHOLE, Interval
from kitproof.mechanics.torques import (
    NO_SLIDE,
    Slide,
    Weight,
    drag_share,
    fall_energy_range,
    forward_left_range,
    left_over_range,
    spring_left_range,
    torque,
    torque_left_range,
    worst_tilt,
    worst_torque,
)
from tests.mechanics.boxes import between
from tests.mechanics.weights import (
    TILTS,
    G,
    Sharp,
    builds,
    forward_left,
    needed,
    pick,
    slides,
    spring_torques,
    springs,
    weights,
    worst,
)

INF = math.inf
DEPTHS = between(-0.05, 0.12)
DEGREE = math.pi / 180
CAMERA = Weight((6.4, 6.4), (0.02, 0.02), (0.15, 0.15))


def corners(box: list[Weight]) -> list[list[Sharp]]:
    each = [[Sharp(*values, w.slides) for values in itertools.product(w.mass, w.forward, w.up)] for w in box]
    return [list(choice) for choice in itertools.product(*each)]


def sharpened(box: list[Weight], chance: random.Random) -> list[Weight]:
    """One build of a box, as weights."""
    (build,) = builds(box, 1, chance)
    return [Weight((m, m), (x, x), (r, r), slid) for m, x, r, slid in build]


@settings(deadline=None)
@given(weights(), DEPTHS, springs(), TILTS, slides(), st.integers(0, 9))
def test_no_build_in_the_box_leaves_more_or_less(
    box: list[Weight], axis: Interval, spring: Spring, tilts: Interval, slide: Slide, seed: int
) -> None:
    chance = random.Random(seed)
    low, high = torque_left_range(box, axis, spring, tilts, slide)
    left = spring_left_range(box, axis, spring)
    fore = forward_left_range(box, slide)
    for build in builds(box, 12, chance):
        depth, at = pick(axis, chance), pick((slide.low, slide.high), chance)
        lever = 1.0 if spring.height is None else G * (pick(spring.height, chance) + depth)
        forward, wanted = forward_left(build, slide, at), needed(build, depth)
        assert fore[0] - 1e-9 <= forward <= fore[1] + 1e-9
        for set_to in spring_torques(spring, lever, wanted):
            assert left[0] - 1e-9 <= set_to - wanted <= left[1] + 1e-9
            value = worst(forward, set_to - wanted, tilts)
            assert low - 1e-5 - 1e-4 * value <= value <= high + 1e-9


@settings(deadline=None)
@given(weights(most=2), DEPTHS, TILTS)
def test_with_the_spring_off_the_greatest_is_at_a_corner(box: list[Weight], axis: Interval, tilts: Interval) -> None:
    """The worst torque is convex in each mass and place while the rest stands still."""
    found = [
        worst_torque(forward_left(build, NO_SLIDE, 0.0), -needed(build, depth), tilts)
        for build in corners(box)
        for depth in axis
    ]
    assert torque_left_range(box, axis, NO_SPRING, tilts)[1] == pytest.approx(max(found), abs=1e-9)


@settings(deadline=None)
@given(weights(), DEPTHS, springs(), TILTS, slides(), st.integers(0, 9))
def test_to_know_more_never_widens_what_is_left(
    box: list[Weight], axis: Interval, spring: Spring, tilts: Interval, slide: Slide, seed: int
) -> None:
    chance = random.Random(seed)
    depth = pick(axis, chance)
    low, high = torque_left_range(box, axis, spring, tilts, slide)
    found = torque_left_range(sharpened(box, chance), (depth, depth), spring, tilts, slide)
    assert low - 1e-8 <= found[0] <= found[1] <= high + 1e-8


@settings(deadline=None, max_examples=40)
@given(weights(most=2), DEPTHS, st.integers(2, 12), TILTS)
def test_a_depth_that_is_not_sharp_is_all_the_depths_in_it(
    box: list[Weight], axis: Interval, steps: int, tilts: Interval
) -> None:
    spring = Spring(2, 20, steps)
    depths = [axis[0] + (axis[1] - axis[0]) * number / 60 for number in range(61)]
    found = [torque_left_range(box, (depth, depth), spring, tilts) for depth in depths]
    room = G * sum(weight.mass[1] for weight in box) * (axis[1] - axis[0]) / 60 + 1e-9
    low, high = torque_left_range(box, axis, spring, tilts)
    assert min(each[0] for each in found) - room <= low <= min(each[0] for each in found) + 1e-9
    assert max(each[1] for each in found) - 1e-9 <= high <= max(each[1] for each in found) + room


@given(weights(), DEPTHS, st.integers(2, 12), TILTS, slides(), st.integers(0, 9))
def test_what_is_sharp_stays_sharp(
    box: list[Weight], axis: Interval, steps: int, tilts: Interval, slide: Slide, seed: int
) -> None:
    chance = random.Random(seed)
    depth, at = pick(axis, chance), pick((slide.low, slide.high), chance)
    still = slide if slide.balances else Slide(at, at)
    low, high = torque_left_range(sharpened(box, chance), (depth, depth), Spring(2, 20, steps), tilts, still)
    assert low == pytest.approx(high, abs=1e-8)


@given(weights(), DEPTHS, springs(), TILTS, slides())
def test_a_mirror_changes_nothing(
    box: list[Weight], axis: Interval, spring: Spring, tilts: Interval, slide: Slide
) -> None:
    """Fore becomes aft, looking up becomes looking down: the same torque is left, with its sign turned."""
    turned = [weight._replace(forward=(-weight.forward[1], -weight.forward[0])) for weight in box]
    back = Slide(-slide.high, -slide.low, slide.balances)
    here = torque_left_range(box, axis, spring, tilts, slide)
    there = torque_left_range(turned, axis, spring, (-tilts[1], -tilts[0]), back)
    assert there == pytest.approx(here, abs=1e-8)
    low, high = forward_left_range(box, slide)
    assert forward_left_range(turned, back) == pytest.approx((-high, -low), abs=1e-9)


@given(weights(), DEPTHS, between(-3, 3))
def test_a_spring_in_perfect_balance_leaves_no_torque_at_any_tilt(
    box: list[Weight], axis: Interval, tilts: Interval
) -> None:
    """Whatever the build is within its box, a stepless spring that reaches follows it."""
    centred = [weight._replace(forward=(0.0, 0.0), up=(0.06, 0.2)) for weight in box]
    high = needed_range([weight.term for weight in centred], axis)[1]
    spring = Spring(0, high + 1, stepless=True)
    assert torque_left_range(centred, axis, spring, tilts) == (0, 0)


@given(weights(), DEPTHS, springs(), st.permutations(range(4)))
def test_the_order_of_parts_changes_nothing(
    box: list[Weight], axis: Interval, spring: Spring, order: list[int]
) -> None:
    other = [box[place] for place in order if place < len(box)]
    tilts = (-0.6, 0.4)
    here = torque_left_range(box, axis, spring, tilts)
    assert torque_left_range(other, axis, spring, tilts) == pytest.approx(here, abs=1e-8)


@given(weights(), DEPTHS, TILTS, between(0.1, 3))
def test_what_stands_higher_leaves_more_to_the_spring(
    box: list[Weight], axis: Interval, tilts: Interval, mass: Interval
) -> None:
    raised = [weight._replace(up=(weight.up[0] + 0.1, weight.up[1] + 0.1)) for weight in box]
    low, high = spring_left_range([*box, Weight(mass, (0, 0), (0.1, 0.2))], axis, NO_SPRING)
    lower, higher = spring_left_range([*raised, Weight(mass, (0, 0), (0.2, 0.3))], axis, NO_SPRING)
    assert lower < low
    assert higher < high


@given(between(-30, 30), between(-30, 30), TILTS)
def test_the_worst_tilt_is_where_the_torque_is_greatest(fore: Interval, spring: Interval, tilts: Interval) -> None:
    forward, left = fore[0], spring[0]
    tilt = worst_tilt(forward, left, tilts)
    assert tilts[0] <= tilt <= tilts[1]
    assert worst_torque(forward, left, tilts) == abs(torque(forward, left, tilt))
    assert worst_torque(forward, left, tilts) >= worst(forward, left, tilts) - 1e-12


def test_a_worked_build() -> None:
    """6.4 kg, 20 mm forward, 150 mm above a plate 42 mm above its axis: F = 1.2553, M g H = 12.0504; the nearest of
    4..38 N·m in ten steps is step 3, 11.5556: V = −0.4949. Looking down 30° F cos θ + V sin θ = 1.3346; the worst,
    hypot = 1.3493, lies at −21.5°."""
    found = torque_left_range([CAMERA], (0.042, 0.042), Spring(4, 38, 10), (-30 * DEGREE, 20 * DEGREE))
    assert found == pytest.approx((1.34934, 1.34934), abs=1e-4)
    assert worst_tilt(1.2553, -0.4949, (-30 * DEGREE, 20 * DEGREE)) == pytest.approx(-21.516 * DEGREE, abs=1e-4)
    level = torque_left_range([CAMERA], (0.042, 0.042), Spring(4, 38, 10), (0, 0))
    assert level == pytest.approx((6.4 * 0.02 * G,) * 2)


def test_too_little_falls_away_and_too_much_springs_back() -> None:
    assert spring_left_range([CAMERA], (0.042, 0.042), Spring(2, 8, 4)) == pytest.approx((-4.0504, -4.0504), abs=1e-4)
    assert spring_left_range([CAMERA], (0.042, 0.042), Spring(16, 38, 4)) == pytest.approx((3.9496, 3.9496), abs=1e-4)


def test_hung_low_the_spring_is_off_and_what_is_left_rights_itself() -> None:
    hung = Weight((6.4, 6.4), (0, 0), (-0.15, -0.15))
    assert spring_left_range([hung], (0.042, 0.042), Spring(4, 38, 10)) == pytest.approx((6.4 * G * 0.108,) * 2)


def test_a_slide_out_of_reach_leaves_what_its_end_leaves() -> None:
    heavy = Weight((10, 10), (0.1, 0.12), (0.1, 0.1))
    travel = Slide(-0.08, 0.08, balances=True)
    assert forward_left_range([heavy], travel) == pytest.approx((10 * G * 0.02, 10 * G * 0.04))
    follow = Spring(0, 99, stepless=True)
    left = torque_left_range([heavy], (0.05, 0.05), follow, (-0.5, 0.5), travel)
    assert left == pytest.approx((10 * G * 0.02, 10 * G * 0.04))
    free = Slide(-INF, INF, balances=True)
    assert forward_left_range([heavy], free) == (0, 0)
    assert forward_left_range([heavy, Weight((1, 1), WHOLE, (0, 0), slides=False)], free) == WHOLE


def test_what_rests_is_balanced_by_what_slides() -> None:
    plate = Weight((1, 1), (0.2, 0.2), (0, 0), slides=False)
    camera = Weight((4, 4), (0, 0), (0.1, 0.1))
    assert forward_left_range([plate, camera], Slide(-0.06, 0.06, True)) == (0, 0)
    assert forward_left_range([plate, camera], Slide(-0.04, 0.06, True)) == pytest.approx((0.04 * G, 0.04 * G))


def test_without_bound() -> None:
    unknown = Weight((0, INF), (0.1, 0.1), (0.1, 0.1))
    spring = Spring(4, 38, 10)
    low, high = torque_left_range([CAMERA, unknown], (0.042, 0.042), spring, (-0.5, 0.3))
    assert low == pytest.approx(1.3493, abs=1e-4)
    assert high == INF
    assert torque_left_range([CAMERA], WHOLE, spring, (-0.5, 0.3))[1] == INF
    assert torque_left_range([CAMERA], (0, 0.1), spring, (-INF, INF))[1] < INF
    anywhere = Weight((1, 1), WHOLE, WHOLE)
    assert torque_left_range([anywhere], (0, 0), spring, (-0.5, 0.3)) == (pytest.approx(0, abs=1e-6), INF)
    assert spring_left_range([anywhere], (0, 0), spring) == WHOLE
    nothing = Weight((0, 0), WHOLE, WHOLE)
    assert torque_left_range([nothing], (0, 0), spring, (-0.5, 0.3)) == (0, 0)
    assert torque_left_range([], (0, 0), spring, (-0.5, 0.3)) == (0, 0)


def test_a_mass_at_the_axis_for_a_counterbalance_leaves_all_open() -> None:
    spring = Spring(2, 12, 6, height=(0.1, 0.1))
    assert torque_left_range([CAMERA], (-0.1, 0), spring, (-0.5, 0.3)) == (0, INF)
    assert torque_left_range([CAMERA], (0, 0), Spring(2, 12, 6, height=(0.1, INF)), (-0.5, 0.3)) == (0, INF)
    assert spring_left_range([CAMERA], (-0.1, 0), spring) == WHOLE


def test_drag() -> None:
    assert drag_share((2, 5), 4) == (0.5, 1.25)
    assert drag_share((0, 5), 0) == (0, INF)
    assert drag_share((1, INF), 4) == (0.25, INF)


@settings(deadline=None)
@given(weights(most=3), weights(most=2), between(-0.1, 0.1), st.integers(0, 9))
def test_no_stage_leaves_more_over_than_said(
    before: list[Weight], new: list[Weight], travel: Interval, seed: int
) -> None:
    camera = Weight((1, 4), (-0.2, 0.2), (0.1, 0.1))
    low, high = left_over_range([camera, *before], new, travel)
    free = left_over_range([camera, *before], new)
    for build in builds([camera, *before, *new], 30, random.Random(seed)):
        old = build[: len(before) + 1]
        moving = sum(each.mass for each in old if each.slides)
        wanted = -sum(each.mass * each.forward for each in old) / moving
        held = min(max(wanted, travel[0]), travel[1])
        assert low - 1e-9 <= forward_left(build, NO_SLIDE, held) <= high + 1e-9
        assert free[0] - 1e-9 <= forward_left(build, NO_SLIDE, wanted) <= free[1] + 1e-9


@given(weights(most=2), weights(most=2))
def test_a_stage_with_the_slide_free_reaches_its_ends_at_corners(before: list[Weight], new: list[Weight]) -> None:
    camera = Weight((2, 2), (0.1, 0.1), (0.1, 0.1))
    box = [camera, *before]
    found = []
    for old, added in itertools.product(corners(box), corners(new)):
        moving = sum(each.mass for each in old if each.slides)
        wanted = -sum(each.mass * each.forward for each in old) / moving
        found.append(forward_left([*old, *added], NO_SLIDE, wanted))
    assert left_over_range(box, new) == pytest.approx((min(found), max(found)), abs=1e-9)


def test_a_battery_behind_lifts_the_lens() -> None:
    """Camera of 4 kg 30 mm forward: slide 30 mm back. A battery of 1 kg 150 mm back of the mark stands 180 mm back."""
    camera = Weight((4, 4), (0.03, 0.03), (0.1, 0.1))
    battery = Weight((1, 1), (-0.15, -0.15), (0.1, 0.1))
    assert left_over_range([camera], [battery]) == pytest.approx((-0.18 * G, -0.18 * G))
    assert left_over_range([camera], [battery], (-0.02, 0.06)) == pytest.approx((-0.13 * G, -0.13 * G))
    assert left_over_range([camera], []) == (0, 0)


def test_a_slide_that_may_be_just_out_of_reach_may_also_have_been_in_balance() -> None:
    """10 kg from 61 mm back of the mark to on it: the slide was anywhere from 0 to its end at 60 mm, or 1 mm short.

    2 kg 300 mm back of the mark then stand 240 to 300 mm back.
    """
    camera = Weight((10, 10), (-0.061, 0.0), (0.1, 0.1))
    battery = Weight((2, 2), (-0.3, -0.3), (0.1, 0.1))
    found = left_over_range([camera], [battery], (-0.02, 0.06))
    assert found == pytest.approx((-0.6 * G, -0.48 * G))


def test_with_nothing_on_the_slide_its_place_is_not_known() -> None:
    plate = Weight((1, 1), (0.1, 0.1), (0, 0), slides=False)
    new = Weight((2, 2), (0, 0), (0.1, 0.1))
    assert left_over_range([plate], [new]) == WHOLE
    assert left_over_range([plate], [new], (-0.1, 0.1)) == pytest.approx((-0.1 * G, 0.3 * G))


def test_a_camera_that_falls() -> None:
    """8 N·m too little, from level to 60°: 8 (1 − 1/2) = 4 J, either way; what springs back does not fall."""
    assert fall_energy_range((-8, -8), (-60 * DEGREE, 20 * DEGREE)) == pytest.approx((4, 4))
    assert fall_energy_range((-8, 3), (-20 * DEGREE, 60 * DEGREE)) == pytest.approx((0, 4))
    assert fall_energy_range((1, 3), (-1, 1)) == (0, 0)
    assert fall_energy_range(WHOLE, (-1, 1)) == (0, INF)
    assert fall_energy_range((-8, -8), (-9, 9)) == pytest.approx((16, 16))


def test_the_nearest_step_of_the_worked_build() -> None:
    assert nearest_step(12.0504, Spring(4, 38, 10), 10) == 3


SIZES = st.sampled_from([0.0, 1e-300, 1e-9, 0.1, 1.0, 50.0, 1e6, 1e100, INF])
MASSES = st.tuples(SIZES, SIZES).map(lambda pair: (min(*pair, 1e100), max(pair)))
PLACES = st.tuples(SIZES, SIZES).map(lambda pair: (max(-pair[0], -INF), pair[1]))
UNLIKELY = st.lists(st.builds(Weight, MASSES, PLACES, PLACES, st.booleans()), max_size=3)
STEPS = st.sampled_from([None, 0, 1, 2, 9, 5000, 10**9])


@settings(deadline=None)
@given(UNLIKELY, PLACES, st.tuples(SIZES, SIZES), STEPS, st.one_of(st.none(), PLACES), PLACES, st.booleans())
def test_numbers_of_any_size_give_a_range(
    box: list[Weight],
    axis: Interval,
    ends: Interval,
    steps: int | None,
    height: Interval | None,
    travel: Interval,
    balances: bool,
) -> None:
    """A slip of the pen or nothing known at all: still two ends in order, and never an error."""
    spring = Spring(min(ends[0], 1e100), min(ends[1], 1e100), steps, height=height)
    terms = [weight.term for weight in box]
    demand = demand_range(terms, axis, spring)
    found = [
        torque_left_range(box, axis, spring, travel, Slide(*travel, balances)),
        spring_left_range(box, axis, spring),
        forward_left_range(box, Slide(*travel, balances)),
        left_over_range(box, box[:1], travel),
        fall_energy_range(axis, travel),
        demand,
        needed_range(terms, axis),
        share_range(terms, axis, spring),
        shortfall_range(terms, axis, spring),
        excess_range(terms, axis, spring),
        step_range(demand, spring),
        setting_range(demand, spring),
    ]
    assert [pair for pair in found if not pair[0] <= pair[1] + 1e-9 * max(abs(pair[1]), 1)] == []
