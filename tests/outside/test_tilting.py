"""The torque left over the tilts, against `scipy`: searches over the tilt, and linear programmes over the box.

The programmes know nothing of regions. With u = m x and v = m (r + a) of each part as unknowns beside its m, what a box
allows is linear (m x₁ ≤ u ≤ m x₂, and so on), and so is the torque at one tilt: `linprog` finds the greatest torque at
each of many tilts, and the least that the worst of them can be. For a spring with steps, once for each step, with what
is needed kept to where that step is the nearest.
"""

from __future__ import annotations

import itertools
import math
import random
from collections.abc import Iterator

import numpy as np
import pytest
from scipy.optimize import linprog, minimize_scalar

from kitproof.mechanics.counterbalancing import NO_SPRING, Spring
from kitproof.mechanics.torques import Slide, Weight, torque_left_range, worst_torque

G = 9.80665
TILTS = (-0.7, 0.4)
GRID = np.linspace(*TILTS, 45)
NEAR = 2e-4
"""How near the worst of 45 tilts comes to the worst of all, as a share: 1 − cos of half a step is 8e-5."""


@pytest.mark.parametrize("seed", range(20))
def test_the_worst_tilt_is_the_one_that_a_search_finds(seed: int) -> None:
    chance = random.Random(seed)
    forward, spring = chance.uniform(-20, 20), chance.uniform(-20, 20)
    low, high = sorted(chance.uniform(-1.6, 1.6) for _ in range(2))
    starts = np.linspace(low, high, 9)
    found = [
        -minimize_scalar(
            lambda tilt: -abs(forward * math.cos(tilt) + spring * math.sin(tilt)), bounds=pair, method="bounded"
        ).fun
        for pair in itertools.pairwise(starts)
    ]
    assert worst_torque(forward, spring, (low, high)) == pytest.approx(max(found), rel=1e-4)


def some_box(seed: int) -> tuple[list[Weight], tuple[float, float]]:
    chance = random.Random(seed)

    def about(low: float, high: float) -> tuple[float, float]:
        at, width = chance.uniform(low, high), chance.choice((0.0, 0.05, 0.3)) * (high - low)
        return at, at + width

    box = [Weight(about(0.3, 5), about(-0.1, 0.15), about(0.02, 0.3), chance.random() < 0.7) for _ in range(3)]
    return box, about(0.0, 0.08)


class Programme:
    """What a box allows, as rows of a linear programme over m, u and v of each part."""

    def __init__(self, box: list[Weight], depth: tuple[float, float], at: tuple[float, float]) -> None:
        self.count = len(box)
        rows, self.bounds = [], []
        for number, weight in enumerate(box):
            self.bounds += [weight.mass, (None, None), (None, None)]
            forward = [end + shift * weight.slides for end, shift in zip(weight.forward, at, strict=True)]
            up = [end + shift for end, shift in zip(weight.up, depth, strict=True)]
            for place, (low, high) in ((1, forward), (2, up)):
                rows += [self.row(number, {0: low, place: -1}), self.row(number, {0: -high, place: 1})]
        self.rows = [*rows]
        self.limits = [0.0] * len(rows)

    def row(self, part: int, values: dict[int, float]) -> np.ndarray:
        found = np.zeros(3 * self.count)
        for place, value in values.items():
            found[3 * part + place] = value
        return found

    @property
    def forward(self) -> np.ndarray:
        return np.array([0, G, 0] * self.count)

    @property
    def needed(self) -> np.ndarray:
        return np.array([0, 0, G] * self.count)

    def keep(self, row: np.ndarray, low: float, high: float) -> None:
        """Keeps a sum between two ends."""
        for sign, limit in ((1, high), (-1, -low)):
            if math.isfinite(limit):
                self.rows.append(sign * row)
                self.limits.append(limit)

    def at_tilt(self, tilt: float) -> np.ndarray:
        return self.forward * math.cos(tilt) - self.needed * math.sin(tilt)

    def greatest(self, spring: float) -> float:
        """The greatest |T| over all tilts of the grid; −∞ where the box allows nothing."""
        worst = -math.inf
        for tilt in GRID:
            for sign in (1, -1):
                found = linprog(-sign * self.at_tilt(tilt), np.array(self.rows), self.limits, bounds=self.bounds)
                if found.status == 2:
                    return -math.inf
                worst = max(worst, -found.fun + sign * spring * math.sin(tilt))
        return worst

    def least(self, spring: float) -> float:
        """The least that the worst |T| of the grid can be: one more unknown, above all of them."""
        rows = [np.append(row, 0) for row in self.rows]
        limits = list(self.limits)
        for tilt in GRID:
            for sign in (1, -1):
                rows.append(np.append(sign * self.at_tilt(tilt), -1))
                limits.append(-sign * spring * math.sin(tilt))
        aim = np.append(np.zeros(3 * self.count), 1)
        found = linprog(aim, np.array(rows), limits, bounds=[*self.bounds, (0, None)])
        return math.inf if found.status == 2 else found.fun


def programmes(box: list[Weight], depth: tuple[float, float], slide: Slide) -> Iterator[Programme]:
    """Each way in which a slide can stand: right back with what is left ahead, right forward, or in balance."""
    ends = slide.low, slide.high
    if not slide.balances:
        yield Programme(box, depth, ends)
        return
    for at, kept in (((ends[0],) * 2, (0, math.inf)), ((ends[1],) * 2, (-math.inf, 0)), (ends, (0, 0))):
        programme = Programme(box, depth, at)
        programme.keep(programme.forward, *kept)
        yield programme


def by_programmes(
    box: list[Weight], depth: tuple[float, float], values: list[float], slide: Slide
) -> tuple[float, float]:
    edges = [-math.inf, *((a + b) / 2 for a, b in itertools.pairwise(values)), math.inf]
    low, high = math.inf, -math.inf
    for value, low_edge, high_edge in zip(values, edges, edges[1:], strict=False):
        for programme in programmes(box, depth, slide):
            programme.keep(programme.needed, low_edge, high_edge)
            low, high = min(low, programme.least(value)), max(high, programme.greatest(value))
    return low, high


@pytest.mark.parametrize("seed", range(4))
def test_with_the_spring_off_both_ends_are_the_programmes(seed: int) -> None:
    box, depth = some_box(seed)
    found = torque_left_range(box, depth, NO_SPRING, TILTS)
    assert found == pytest.approx(by_programmes(box, depth, [0.0], Slide()), rel=NEAR, abs=1e-6)


@pytest.mark.parametrize("seed", range(10, 14))
def test_with_steps_and_a_slide_that_balances_both_ends_are_the_programmes(seed: int) -> None:
    box, depth = some_box(seed)
    slide = Slide(-0.03, 0.02, balances=True)
    found = torque_left_range(box, depth, Spring(6, 18, 3), TILTS, slide)
    assert found == pytest.approx(by_programmes(box, depth, [0.0, 6.0, 12.0, 18.0], slide), rel=NEAR, abs=1e-6)


@pytest.mark.parametrize("seed", range(20, 23))
def test_with_steps_and_a_slide_somewhere_both_ends_are_the_programmes(seed: int) -> None:
    box, depth = some_box(seed)
    slide = Slide(-0.02, 0.01)
    found = torque_left_range(box, depth, Spring(5, 25, 2), TILTS, slide)
    assert found == pytest.approx(by_programmes(box, depth, [0.0, 5.0, 25.0], slide), rel=NEAR, abs=1e-6)
