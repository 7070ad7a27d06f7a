"""What a head holds: worked values, the heights at which its curves drop, and doubt in every figure."""

from __future__ import annotations

import math
import random

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from kitproof.mechanics.curves import HAIR
from kitproof.mechanics.holding import Figure, Holding, HoldingLimits
from kitproof.mechanics.ranges import WHOLE
from tests.mechanics.boxes import figures, heads, sharp_figures

INF = math.inf


def figure(mass: float, height: float | None = None) -> Figure:
    return Figure((mass, mass), None if height is None else (height, height))


CHARTED = Holding(chart=(figure(18, 0.15), figure(12, 0.22), figure(5, 0.4)), axis=(0.042, 0.042))


def at(holding: Holding, height: float) -> tuple[float, float]:
    return holding.capacity(height, height)


def test_on_the_chart_it_is_straight_between_the_points() -> None:
    assert at(CHARTED, 0.15) == (18, 18)
    assert at(CHARTED, 0.185) == pytest.approx((15, 15))
    assert at(CHARTED, 0.22) == (12, 12)
    assert at(CHARTED, 0.4) == (5, 5)


def test_below_the_chart_it_holds_no_more_than_at_its_lowest_point() -> None:
    assert at(CHARTED, 0.0) == (18, 18)
    assert at(CHARTED, 0.1) == (18, 18)


def test_hung_below_the_plate_nothing_is_certain() -> None:
    assert at(CHARTED, -1e-6) == (0, 18)
    assert CHARTED.capacity(-0.1, 0.22) == (0, 18)


def test_above_the_chart_it_is_between_a_share_of_the_lever_and_the_lever_about_the_axis() -> None:
    assert at(CHARTED, 0.5) == pytest.approx((0.7 * 5 * 0.4 / 0.5, 5 * 0.442 / 0.542))
    assert at(CHARTED, 0.8) == pytest.approx((0.7 * 5 / 2, 5 * 0.442 / 0.842))
    assert at(CHARTED, 0.8 + 1e-6) == pytest.approx((0, 5 * 0.442 / 0.842), rel=1e-5)
    assert at(CHARTED, INF) == (0, 0)


def test_just_above_the_chart_the_lower_bound_drops() -> None:
    assert at(CHARTED, 0.4 + HAIR / 2)[0] == 5
    assert at(CHARTED, 0.4 + 1e-9)[0] == pytest.approx(3.5)


def test_an_axis_not_said_is_somewhere_up_to_120_mm_below_the_plate() -> None:
    unsaid = Holding(chart=(figure(5, 0.4),))
    assert at(unsaid, 0.5) == pytest.approx((0.7 * 5 * 0.4 / 0.5, 5 * 0.52 / 0.62))


def test_an_axis_of_which_nothing_is_known_bounds_the_torque_nowhere() -> None:
    assert at(Holding(chart=(figure(5, 0.4),), axis=WHOLE), 0.5) == (0, 5)


def test_an_axis_above_the_plate_shortens_the_lever() -> None:
    above = Holding(chart=(figure(5, 0.4),), axis=(-0.1, -0.1))
    assert at(above, 0.5) == pytest.approx((0.7 * 5 * 0.3 / 0.4, 5 * 0.3 / 0.4))
    assert at(Holding(chart=(figure(5, 0.1),), axis=(-0.1, -0.1)), 0.15) == (0, 5)


def test_a_rated_figure_caps_a_chart_and_stands_on_it() -> None:
    capped = Holding(chart=CHARTED.chart, rated=figure(10))
    assert [at(capped, h) for h in (0.1, 0.22, 0.4)] == [(10, 10), (10, 10), (5, 5)]
    assert at(capped, 0.5) == at(Holding(chart=CHARTED.chart), 0.5)
    lower_down = Holding(chart=CHARTED.chart[1:], rated=figure(18, 0.15))
    assert at(lower_down, 0.15) == (18, 18)
    assert at(lower_down, 0.185) == pytest.approx((15, 15))


def test_a_chart_figure_without_a_height_is_a_rated_figure() -> None:
    assert at(Holding(chart=(figure(9), figure(12, 0.2))), 0.1) == (9, 9)
    assert Holding(chart=(figure(9),)).kind == "none"


def test_a_rating_at_a_height_is_a_chart_of_one_point() -> None:
    single = Holding(rated=figure(18, 0.15), axis=(0.0, 0.0))
    assert single.kind == "single"
    assert single.top == (0.15, 0.15)
    assert [at(single, h) for h in (0.0, 0.15)] == [(18, 18), (18, 18)]
    assert at(single, 0.2) == pytest.approx((0.7 * 18 * 0.15 / 0.2, 18 * 0.15 / 0.2))


def test_a_rating_at_a_range_of_heights_is_doubt() -> None:
    doubt = Holding(rated=Figure((18, 18), (0.15, 0.2)), axis=(0.0, 0.0))
    assert doubt.top == (0.15, 0.2)
    assert at(doubt, 0.15) == (18, 18)
    assert at(doubt, 0.18) == pytest.approx((0.7 * 18 * 0.15 / 0.18, 18))
    assert at(doubt, 0.25) == pytest.approx((0.7 * 18 * 0.15 / 0.25, 18 * 0.2 / 0.25))
    assert at(doubt, 0.301) == pytest.approx((0, 18 * 0.2 / 0.301))


def test_a_rating_without_a_height_is_counted_on_in_part() -> None:
    none = Holding(rated=figure(20))
    assert (none.kind, none.top) == ("none", None)
    wanted = [(0, 20), (14, 20), (14, 20), (14 * 0.75, 20), (7, 20), (0, 20), (0, 20)]
    for height, capacity in zip((-0.01, 0, 0.1524, 0.2032, 0.3048, 0.3049, 2), wanted, strict=True):
        assert at(none, height) == pytest.approx(capacity), height


def test_with_no_figure_nothing_is_known() -> None:
    nothing = Holding()
    assert (nothing.kind, nothing.top) == ("unknown", None)
    assert at(nothing, 0.1) == (0, INF)
    assert nothing.height_limit(1, 2) == (-INF, INF)


def test_a_trial_raises_the_lower_bound_at_its_height_and_below() -> None:
    tried = Holding(rated=figure(20), tried=(figure(16, 0.25),))
    assert [at(tried, h) for h in (0.0, 0.1, 0.25)] == [(16, 20)] * 3
    assert at(tried, 0.26) == at(Holding(rated=figure(20)), 0.26)
    assert at(tried, -0.1) == (0, 20)
    assert at(Holding(tried=(figure(16, 0.25),)), 0.2) == (16, INF)


def test_a_trial_never_raises_it_above_what_is_published() -> None:
    assert at(Holding(rated=figure(20), tried=(figure(30, 0.25),)), 0.1) == (20, 20)
    charted = Holding(chart=CHARTED.chart, tried=(figure(11, 0.4),))
    assert at(charted, 0.4) == (5, 5)
    beyond = Holding(chart=CHARTED.chart, axis=(0.042, 0.042), tried=(figure(4.2, 0.6),))
    assert at(beyond, 0.45) == pytest.approx((4.2, 5 * 0.442 / 0.492))
    assert at(beyond, 0.6) == pytest.approx((5 * 0.442 / 0.642,) * 2)


def test_a_trial_hung_or_without_a_height_raises_nothing() -> None:
    for trial in (figure(16), figure(16, -0.1)):
        assert at(Holding(rated=figure(20), tried=(trial,)), 0.1) == (14, 20)


def test_a_trial_of_a_doubtful_mass_counts_for_its_least() -> None:
    assert at(Holding(rated=figure(20), tried=(Figure((15, 17), (0.2, 0.3)),)), 0.2) == (15, 20)
    assert at(Holding(rated=figure(20), tried=(Figure((15, 17), (0.2, 0.3)),)), 0.25)[0] < 15


def test_two_masses_at_one_height_are_doubt() -> None:
    torn = Holding(chart=(figure(18, 0.15), figure(12, 0.15), figure(6, 0.3)))
    assert at(torn, 0.15) == (12, 18)
    assert at(torn, 0.1) == (12, 18)
    assert at(torn, 0.15 + 1e-6) == pytest.approx((12, 12), rel=1e-4)


def test_a_figure_not_known_bounds_only_what_it_can() -> None:
    anywhere = Holding(chart=(figure(18, 0.15), Figure((12, 12), (0, INF))))
    assert [at(anywhere, h) for h in (0.1, 0.15, INF)] == [(12, 18), (12, 18), (0, 18)]
    last = Holding(chart=(figure(18, 0.15), Figure((12, 12), (0.2, INF))), axis=(0, 0))
    assert [at(last, h) for h in (0.15, 0.2)] == [(18, 18), (12, 18)]
    assert at(last, 0.3) == pytest.approx((0.7 * 12 * 0.2 / 0.3, 18))
    unweighed = Holding(chart=(Figure((0, INF), (0.15, 0.15)), figure(12, 0.2)))
    assert [at(unweighed, h)[1] for h in (0.1, 0.18, 0.21)] == [INF, INF, pytest.approx(12 * 0.32 / 0.33)]
    assert at(Holding(chart=unweighed.chart, rated=figure(15)), 0.18) == (0, 15)
    assert at(Holding(chart=(Figure((0, INF), (0, INF)),)), 0.18) == (0, INF)
    assert at(Holding(chart=(Figure((0, INF), (0.1, 0.1)),)), INF) == (0, INF)
    assert at(Holding(rated=Figure((0, INF)), tried=(Figure((0, INF), WHOLE),)), 0.1) == (0, INF)


def test_where_doubts_of_two_heights_overlap_the_greater_mass_comes_first() -> None:
    """10 kg anywhere in 0.1..0.3 before 5 kg anywhere in 0.15..0.25: no point lies above 0.25."""
    head = Holding(chart=(Figure((10, 10), (0.1, 0.3)), Figure((5, 5), (0.15, 0.25))), axis=(0, 0))
    assert [at(head, h)[1] for h in (0.2, 0.25, 0.27)] == pytest.approx([10, 10, 5 * 0.25 / 0.27])
    assert [at(head, h)[0] for h in (0.1, 0.125, 0.15)] == pytest.approx([10, 7.5, 5])
    swapped = Holding(chart=(Figure((5, 5), (0.1, 0.3)), Figure((10, 10), (0.15, 0.25))), axis=(0, 0))
    assert list(swapped.points[0][1]) == [10, 10]
    apart = Holding(chart=(Figure((5, 5), (0.1, 0.15)), Figure((10, 10), (0.15, 0.25))))
    assert at(apart, 0.2) == at(Holding(chart=(Figure((5, 5), (0.1, 0.15)), Figure((5, 5), (0.15, 0.25)))), 0.2)


def test_height_limit_is_where_it_holds_for_certain_and_where_it_may() -> None:
    assert CHARTED.height_limit(12, 12) == pytest.approx((0.22, 0.22))
    assert CHARTED.height_limit(12, 15) == pytest.approx((0.185, 0.22))
    assert CHARTED.height_limit(4, 4) == pytest.approx((0.4, 5 * 0.442 / 4 - 0.042))
    assert CHARTED.height_limit(2, 2) == pytest.approx((0.7, 5 * 0.442 / 2 - 0.042))
    assert CHARTED.height_limit(1, 1) == pytest.approx((0.8, 5 * 0.442 - 0.042))
    assert CHARTED.height_limit(19, 19) == (-INF, -INF)
    assert CHARTED.height_limit(0, INF) == (-INF, INF)
    assert Holding(rated=figure(20)).height_limit(10, 14) == pytest.approx((0.1524, INF))


def test_the_house_sets_its_own_numbers() -> None:
    house = HoldingLimits(
        beyond_share=0.5, beyond_reach=1.5, uncharted_share=0.6, uncharted_height=0.1, uncharted_top=0.2, axis=(0, 0)
    )
    charted = Holding(chart=(figure(5, 0.4),), limits=house)
    assert at(charted, 0.5) == pytest.approx((0.5 * 5 * 0.8, 5 * 0.8))
    assert at(charted, 0.61)[0] == 0
    none = Holding(rated=figure(10), limits=house)
    assert [at(none, h)[0] for h in (0.1, 0.2, 0.21)] == pytest.approx([6, 3, 0])


@given(heads(figures()))
def test_curves_never_rise_never_cross_and_are_never_nan(head: Holding) -> None:
    before = (INF, INF)
    for height in (0.0, *np.linspace(0.001, 1.5, 300), INF):
        low, high = at(head, float(height))
        assert 0 <= low <= high + 1e-9
        assert low <= before[0] + 1e-9
        assert high <= before[1] + 1e-9
        before = low, high


@given(heads(figures()), st.floats(0.05, 30))
def test_height_limit_turns_capacity_round(head: Holding, mass: float) -> None:
    for curve, limit in zip((head.lower, head.upper), head.height_limit(mass, mass), strict=True):
        if limit > -INF:
            assert curve.value(limit) >= mass * (1 - 1e-9)
        if limit < INF:
            assert curve.value(max(limit, 0.0) + 1e-6) < mass


def published(points: list[tuple[float, float]], cap: float, axis: float, height: float) -> tuple[float, float]:
    """The design's words, for sharp figures at different heights and an axis below the plate, worked another way."""
    points = sorted(points)
    here = float(np.interp(height, [h for h, _ in points], [m for _, m in points]))
    mass = min([cap, here, *(m for h, m in points if h <= height)])
    top = points[-1][0]
    if height <= top:
        return (mass if height >= 0 else 0.0), mass
    return (0.7 * mass * top / height if height <= 2 * top else 0.0), mass * (top + axis) / (height + axis)


@given(
    st.lists(figures(), min_size=1, max_size=3),
    st.tuples(st.floats(0, 0.1), st.floats(0, 0.1)).map(lambda pair: (min(pair), max(pair))),
    st.integers(0, 9),
)
def test_every_choice_within_the_doubt_lies_within_the_capacity(
    chart: list[Figure], axis: tuple[float, float], seed: int
) -> None:
    chance = random.Random(seed)
    head = Holding(chart=tuple(chart), axis=axis)
    for _ in range(30):
        heights = [chance.uniform(*height) for height, _ in head.points]
        if heights != sorted(set(heights)):
            continue
        points = [(height, chance.uniform(*mass)) for height, (_, mass) in zip(heights, head.points, strict=True)]
        height = chance.uniform(-0.1, 1.2)
        low, high = published(points, INF, chance.uniform(*axis), height)
        whole = at(head, height)
        assert whole[0] - 1e-9 <= low
        assert high <= whole[1] + 1e-9


@given(
    st.lists(sharp_figures(), min_size=1, max_size=4, unique_by=lambda each: each.height),
    st.integers(1, 25).map(float),
    st.integers(0, 150).map(lambda n: n / 1000),
    st.integers(-100, 1200).map(lambda n: n / 1000),
)
def test_sharp_figures_give_the_published_values(chart: list[Figure], cap: float, axis: float, height: float) -> None:
    head = Holding(chart=tuple(chart), rated=figure(cap), axis=(axis, axis))
    points = [(each.height[0], each.mass[0]) for each in chart if each.height]
    assert at(head, height) == pytest.approx(published(points, cap, axis, height), abs=1e-9)


@given(heads(figures()), st.floats(-0.2, 1.0), st.floats(0, 0.5))
def test_capacity_over_a_range_is_exactly_what_its_heights_reach(head: Holding, low: float, width: float) -> None:
    reached = [at(head, float(height)) for height in np.linspace(low, low + width, 101)]
    whole = head.capacity(low, low + width)
    assert whole[0] == pytest.approx(min(each[0] for each in reached), abs=1e-9)
    assert whole[1] == max(each[1] for each in reached)
