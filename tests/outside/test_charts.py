"""Charts and load shares, against scipy: its interpolation between points and its optimisers over the whole box."""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.interpolate import interp1d
from scipy.optimize import differential_evolution

from kitproof.mechanics.holding import Figure, Holding
from kitproof.mechanics.loads import share_range
from kitproof.mechanics.means import Term

Chart = list[tuple[float, float]]

POINTS: Chart = [(0.15, 18.0), (0.22, 12.0), (0.4, 5.0)]
AXIS = 0.042


def head(points: Chart) -> Holding:
    return Holding(chart=tuple(Figure((m, m), (h, h)) for h, m in points), axis=(AXIS, AXIS))


charts = st.lists(
    st.tuples(st.integers(20, 500), st.integers(500, 25000)), min_size=2, max_size=6, unique_by=lambda each: each[0]
).map(lambda points: [(h / 1000, m / 1000) for h, m in sorted(points)])


@given(charts, st.floats(0, 1))
def test_a_falling_chart_is_straight_between_its_points(points: Chart, share: float) -> None:
    """`scipy.interpolate.interp1d` on charts whose masses fall with height (derived)."""
    heights = [h for h, _ in points]
    masses = sorted((m for _, m in points), reverse=True)
    height = heights[0] + share * (heights[-1] - heights[0])
    wanted = float(interp1d(heights, masses, bounds_error=False, fill_value=(masses[0], masses[-1]))(height))
    low, high = head(list(zip(heights, masses, strict=True))).capacity(height, height)
    assert low == pytest.approx(wanted, rel=1e-9)
    assert high == pytest.approx(wanted, rel=1e-9)


@given(charts)
def test_a_rising_chart_is_its_least_so_far(points: Chart) -> None:
    """`numpy.minimum.accumulate` over `scipy.interpolate.interp1d`, taken every tenth of a millimetre (derived)."""
    heights = np.arange(round(points[0][0] * 10000), round(points[-1][0] * 10000) + 1) / 10000
    between = interp1d([h for h, _ in points], [m for _, m in points], bounds_error=False, fill_value="extrapolate")
    wanted = np.minimum.accumulate(between(heights))
    upper = head(points).upper
    for height, mass in list(zip(heights, wanted, strict=True))[:: max(len(heights) // 40, 1)]:
        assert upper.value(float(height)) == pytest.approx(float(mass), abs=1e-9)


def capacity(height: float, beyond: Callable[[float], float]) -> float:
    """The chart above as the design's words have it, worked by numpy; `beyond` for what lies above its last point."""
    if height > POINTS[-1][0]:
        return beyond(height)
    return float(np.interp(height, [h for h, _ in POINTS], [m for _, m in POINTS]))


def most(height: float) -> float:
    return capacity(height, lambda h: 5.0 * (0.4 + AXIS) / (h + AXIS))


def least(height: float) -> float:
    return capacity(height, lambda h: 0.7 * 5.0 * 0.4 / h if h <= 0.8 else 0.0)


RIGS: dict[str, list[Term]] = {
    "on the chart": [Term(4, 5, 0.1, 0.12), Term(2, 4, 0.25, 0.3), Term(0.5, 1.5, 0.05, 0.4)],
    "across all its pieces": [Term(1, 6, 0.02, 0.05), Term(1, 5, 0.3, 0.55), Term(0.1, 3, 0.15, 0.3)],
    "a mass low down in doubt": [Term(8, 8, 0.36, 0.36), Term(0.1, 12, 0.04, 0.05)],
    "beyond it": [Term(1, 3, 0.45, 0.6), Term(0.5, 0.8, 0.4, 0.7)],
}


@pytest.mark.parametrize("name", RIGS)
def test_a_load_share_is_what_an_optimiser_finds(name: str) -> None:
    """`scipy.optimize.differential_evolution` over masses and places at once, its start fixed (derived).

    It comes near the ends from inside, so it must lie within, and no further off than its own tolerance.
    """
    box = RIGS[name]
    low, high = share_range(box, head(POINTS))
    found = _extreme(box, most, 1.0)
    assert low * (1 - 1e-12) <= found <= low * (1 + 1e-6)
    found = -_extreme(box, least, -1.0)
    assert high * (1 - 1e-6) <= found <= high * (1 + 1e-12)


def _extreme(box: list[Term], holds: Callable[[float], float], sign: float) -> float:
    count = len(box)

    def share(point: np.ndarray) -> float:
        masses, places = point[:count], point[count:]
        return sign * float(masses.sum()) / holds(float(masses @ places / masses.sum()))

    bounds = [(t.m_low, t.m_high) for t in box] + [(t.r_low, t.r_high) for t in box]
    result = differential_evolution(share, bounds, seed=1, popsize=8, tol=1e-8, maxiter=200, polish=True)
    assert math.isfinite(result.fun)
    return float(result.fun)
