"""Capacity curves: pieces side by side that never rise, with a better side at every drop."""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from kitproof.mechanics.curves import HAIR, Curve, Lever, Line, curve, falling, raised

INF = math.inf

masses = st.integers(1, 250).map(lambda n: n / 10)
heights = st.integers(1, 60).map(lambda n: n / 100)
charts = st.dictionaries(heights, masses, min_size=1, max_size=6).map(lambda chart: sorted(chart.items()))


def least_so_far(chart: list[tuple[float, float]], cap: float, height: float) -> float:
    """A straight line between points, and the least of that, the cap, and every point passed on the way."""
    here = float(np.interp(height, [h for h, _ in chart], [m for _, m in chart]))
    return min([cap, here, *(m for h, m in chart if h <= height)])


@given(charts, masses, st.integers(0, 120).map(lambda n: n / 200))
def test_falling_lines_are_the_least_of_straight_lines_so_far(
    chart: list[tuple[float, float]], cap: float, height: float
) -> None:
    lines = falling(chart, cap, 0.0)
    height = min(height, chart[-1][0])
    assert Curve(tuple(lines)).value(height) == pytest.approx(least_so_far(chart, cap, height), abs=1e-9)


@given(charts, masses)
def test_falling_lines_have_no_gaps_and_never_rise(chart: list[tuple[float, float]], cap: float) -> None:
    lines = [line for line in falling(chart, cap, 0.0) if line.start < line.end]
    assert all(line.at_start >= line.at_end for line in lines)
    for left, right in pairwise(lines):
        assert left.end == right.start
        assert left.at_end >= right.at_start


def test_a_chart_that_rises_and_falls_again_follows_the_chart_once_it_is_below() -> None:
    """10 kg at 0.1, 14 at 0.2, 6 at 0.4: level at 10 until the last line comes down to 10, at 0.3."""
    lines = Curve(tuple(falling([(0.1, 10), (0.2, 14), (0.4, 6)], INF, 0.0)))
    assert [lines.value(h) for h in (0.05, 0.2, 0.3, 0.35, 0.4)] == pytest.approx([10, 10, 10, 8, 6])


@pytest.fixture
def steps() -> Curve:
    """10 kg up to 0.2, a drop to 6, falling to 4 at 0.4; a lever law from there."""
    return Curve((Line(0, 0.2, 10, 10), Line(0.2, 0.4, 6, 4), Lever(0.4, INF, 4 * 0.5, 0.1)))


def test_at_a_drop_the_higher_side_holds(steps: Curve) -> None:
    assert steps.value(0.2) == 10
    assert steps.value(0.2 + HAIR / 2) == 10
    assert steps.value(0.2 + 1e-9) == pytest.approx(6)


def test_left_of_the_first_piece_there_is_nothing(steps: Curve) -> None:
    assert steps.value(-HAIR / 2) == 10
    assert steps.value(-1e-9) == 0
    assert steps.value(-INF) == 0
    assert steps.value(INF) == 0


def test_reach_is_the_last_height_that_holds(steps: Curve) -> None:
    reaches = [steps.reach(mass) for mass in (10, 8, 6, 5, 4, 2)]
    assert reaches == pytest.approx([0.2, 0.2, 0.2, 0.3, 0.4, 0.9])
    assert steps.reach(10.1) == -INF
    assert steps.reach(0) == INF
    assert steps.reach(1e-9) > 1e8


@given(st.floats(0.01, 12))
def test_reach_turns_value_round(mass: float) -> None:
    steps = Curve((Line(0, 0.2, 10, 10), Line(0.2, 0.4, 6, 4), Lever(0.4, INF, 4 * 0.5, 0.1)))
    reach = steps.reach(mass)
    if reach == -INF:
        assert mass > 10
        return
    assert steps.value(reach) >= mass - 1e-9
    assert steps.value(reach + 1e-6) < mass


def test_between_cuts_the_pieces_that_reach_beyond(steps: Curve) -> None:
    cut = steps.between(0.1, 0.3)
    assert [(piece.start, piece.end) for piece in cut] == [(0.1, 0.2), (0.2, 0.3)]
    assert curve(cut).value(0.15) == 10
    assert curve(cut).value(0.3) == pytest.approx(5)


@given(st.integers(1, 120).map(lambda n: n / 10), st.integers(0, 10).map(lambda n: n / 10))
def test_raised_is_the_greater_of_the_lower_curve_and_the_trial_under_the_upper(mass: float, height: float) -> None:
    lower = Curve((Line(0, 0.2, 8, 8), Line(0.2, 0.4, 5, 3), Line(0.4, INF, 0, 0)))
    upper = Curve((Line(-INF, 0.3, 10, 10), Lever(0.3, INF, 10 * 0.35, 0.05)))
    result = raised(lower, upper, mass, height)
    for at in np.linspace(0, 1.2, 481):
        wanted = max(lower.value(at), min(mass, upper.value(at))) if at <= height + HAIR else lower.value(at)
        assert result.value(at) == pytest.approx(wanted, abs=1e-9), at
