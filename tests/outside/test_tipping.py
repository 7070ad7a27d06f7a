"""Tipping against published values, against shapely's foot triangle and against scipy's optimisers."""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import optimize
from shapely import Point, Polygon, prepare

from kitproof.mechanics.overturning import SAFETY, ballast_needed, overturn_share
from kitproof.mechanics.stance import Stance
from kitproof.mechanics.tipping import lean, tip_angle
from kitproof.words.units import G
from tests.mechanics.stances import Rig, rigs_at_corners, stance_of, stances

LEVEL = (0.0, 0.0)
PANS = np.radians(np.arange(0.0, 120.0, 5.0))
DIRECTIONS = np.radians(np.arange(0.0, 360.0, 5.0))


def upright(mass: float, up: float) -> Stance:
    """One thing of a mass whose centre of gravity is over the middle."""
    return stance_of(Rig(0, 0, 0, 0, up, 0, 0, mass, 0, 0, up), LEVEL)


def test_a_block_half_as_wide_as_high() -> None:
    """b / h = 0.5 on a slope: tips at 26.56°. Wolfson, Essential University Physics 3e, ch. 12 (as quoted)."""
    wide, high = 0.5, 1.0
    low, same = tip_angle(upright(10, high / 2), (wide / 2, wide / 2))
    assert low == same
    assert math.degrees(low) == pytest.approx(26.56, abs=0.01)


@pytest.mark.parametrize(("factor", "degrees"), [(1.0, 45.0), (1.5, 56.31)])
def test_static_stability_factor(factor: float, degrees: float) -> None:
    """Half the track over the height of the centre of gravity; its arctangent is the tilt of a rigid vehicle. NHTSA
    rollover rulemaking, ch. V (read); angles derived."""
    height = 0.65
    edge = factor * height
    assert math.degrees(tip_angle(upright(1500, height), (edge, edge))[0]) == pytest.approx(degrees, abs=0.005)


def stands(rig: Rig, radius: float, slope: float, tilt: float) -> bool:
    """Whether the plumb line meets the foot triangle, by shapely, on all pans and in all slope directions."""
    forward, left, up = rig.centre(tilt)
    slide = up * math.tan(slope)
    for pan in PANS:
        triangle = Polygon(
            [(radius * math.cos(pan + k), radius * math.sin(pan + k)) for k in np.arange(3) * math.tau / 3]
        )
        prepare(triangle)
        for down in DIRECTIONS:
            if not triangle.contains(Point(forward + slide * math.cos(down), left + slide * math.sin(down))):
                return False
    return True


@pytest.mark.parametrize(("edge", "holds"), [(0.24, True), (0.22, False)])
def test_stands_on_a_plane_of_ten_degrees_all_round(edge: float, holds: bool) -> None:
    """Equipment stands still on a 10° plane, all round: IEC 62368-1 cl. 8.6 (as quoted). A centre 1.33 m up wants an
    edge of 1.33 tan 10° = 0.2345 m; shapely says the same of the triangle."""
    rig = Rig(12, 0, 0, 0.2, 1.55, 0, 0.05, 8, 0, 0, 0.7)
    low, _ = tip_angle(stance_of(rig, LEVEL), (edge, edge))
    assert (low >= math.radians(10)) is holds
    assert stands(rig, 2 * edge, math.radians(10), 0.0) is holds


@settings(max_examples=15)
@given(stances(known=True), st.floats(0.2, 0.6))
def test_the_foot_triangle_gives_the_same_slope(stance: Stance, edge: float) -> None:
    """Brute force over pan, slope direction and tilt with shapely. Directions are 5° apart, so the worst of them may
    miss by a little: it stands just below `tip_angle`, and a little above it no longer does."""
    (rig,) = rigs_at_corners(stance)
    angle, _ = tip_angle(stance, (edge, edge))
    if angle <= 0:
        return
    tilts = np.linspace(*stance.tilts, 7)
    assert all(stands(rig, 2 * edge, 0.999 * angle, float(tilt)) for tilt in tilts)
    worst = max(tilts_nearby(stance), key=lambda tilt: -math.atan2(edge - rig.lean(tilt)[0], rig.lean(tilt)[1]))
    assert not stands(rig, 2 * edge, angle + 0.02 + 0.02 * angle, worst)


def tilts_nearby(stance: Stance) -> list[float]:
    return [float(tilt) for tilt in np.linspace(*stance.tilts, 181)]


def worst_by_scipy(bad: Callable[[float], float], tilts: tuple[float, float]) -> float:
    """The greatest of a function over a reach: the ends, and scipy's bounded search in each of 24 parts of it."""
    found = [bad(tilts[0]), bad(tilts[1])]
    parts = np.linspace(*tilts, 25)
    for start, end in itertools.pairwise(parts):
        if end > start:
            least = optimize.minimize_scalar(
                lambda tilt: -bad(tilt), bounds=(start, end), method="bounded", options={"xatol": 1e-9}
            )
            found.append(-float(least.fun))
    return max(found)


@given(stances(known=True), st.floats(0.05, 0.6))
def test_scipy_finds_the_same_worst_tilt(stance: Stance, edge: float) -> None:
    (rig,) = rigs_at_corners(stance)

    def slope_taken(tilt: float) -> float:
        e, up = rig.lean(tilt)
        return -math.atan2(edge - e, up)

    assert -tip_angle(stance, (edge, edge))[0] == pytest.approx(worst_by_scipy(slope_taken, stance.tilts), abs=1e-9)
    assert lean(stance)[1] == pytest.approx(worst_by_scipy(lambda tilt: rig.lean(tilt)[0], stance.tilts), abs=1e-9)


def overturning_over(
    rig: Rig, radius: float, slope: float, pushing: float, directions: tuple[float, float, float, float]
) -> float:
    """Overturning over restoring moment about one edge of the triangle, for any pan, tilt, slope and push direction.

    Moments as vectors: the weight leans along the slope, the push goes its own way, the edge has its own normal.
    """
    pan, tilt, down, way = directions
    forward, left, up = rig.centre(tilt)
    normal = np.array([math.cos(pan), math.sin(pan)])
    weight = rig.mass * G
    along = weight * math.sin(slope) * np.array([math.cos(down), math.sin(down)])
    pressed = weight * math.cos(slope)
    push = pushing * np.array([math.cos(way), math.sin(way)])
    moment = pressed * (normal @ np.array([forward, left])) + up * (normal @ along) + normal @ push
    return float(moment / (pressed * radius / 2))


@pytest.mark.parametrize("number", range(6))
def test_scipy_finds_no_worse_pan_tilt_slope_or_push(number: int) -> None:
    """A grid over all four directions at once, made closer by scipy from its best places, ends at `overturn_share`."""
    chance = np.random.default_rng(number)
    rig = Rig(
        chance.uniform(5, 20),
        chance.uniform(-0.1, 0.1),
        chance.uniform(-0.03, 0.03),
        chance.uniform(0.05, 0.3),
        chance.uniform(0.6, 1.8),
        chance.uniform(-0.05, 0.05),
        0.05,
        chance.uniform(5, 15),
        chance.uniform(-0.02, 0.02),
        chance.uniform(-0.02, 0.02),
        0.7,
    )
    tilts = (math.radians(-40), math.radians(25))
    radius, slope, pushing = chance.uniform(0.3, 0.8), math.radians(chance.uniform(0, 12)), chance.uniform(0, 120)
    bounds = [(-math.pi, math.pi), tilts, (-math.pi, math.pi), (-math.pi, math.pi)]

    def good(each: tuple[float, float, float, float]) -> float:
        return -overturning_over(rig, radius, slope, pushing, each)

    grid = list(itertools.product(*(np.linspace(*ends, 9) for ends in bounds)))
    starts = sorted(grid, key=good)[:20]
    found = min(float(optimize.minimize(good, start, bounds=bounds, options={"ftol": 1e-14}).fun) for start in starts)
    edge = radius / 2
    _, ours = overturn_share(stance_of(rig, tilts), (edge, edge), slope, (pushing, pushing))
    assert ours == pytest.approx(-found, rel=1e-6)
    assert ours >= -found - 1e-9


def test_the_safety_factor_is_that_of_the_code() -> None:
    """1.5: IBC §1807.2.3 (as quoted). With the ballast that is wanted, restoring is 1.5 × overturning."""
    assert SAFETY == 1.5
    stance = upright(20, 1.3)
    mass, _ = ballast_needed(stance, (0.3, 0.3), math.radians(5), (40.0, 40.0), (0.3, 0.3))
    slope = math.radians(5)
    restoring = (20 + mass) * G * math.cos(slope) * 0.3
    overturning = (20 * 1.3 + mass * 0.3) * G * math.sin(slope) + 40.0
    assert restoring / overturning == pytest.approx(1.5)


def test_falls_between_two_legs() -> None:
    """Common practice, no source: a camera that tips with the tilt free may bring the sticks down between two legs.

    A centre of gravity 0.20 m out, on feet 0.35 m from the middle: over a foot it stands, between two it falls.
    """
    rig = Rig(0, 0, 0, 0, 1.5, 0, 0, 20, 0.20, 0, 1.3)
    assert tip_angle(stance_of(rig, LEVEL), (0.175, 0.175))[0] < 0
    corners = [(0.35 * math.cos(k), 0.35 * math.sin(k)) for k in np.arange(3) * math.tau / 3]
    triangle = Polygon(corners)
    assert triangle.contains(Point(0.20, 0.0))
    assert not triangle.contains(Point(-0.20, 0.0))
