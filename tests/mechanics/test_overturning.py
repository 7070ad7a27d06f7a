"""Overturning, ballast and falls: brute force over corners and points inside, and laws that must hold."""

from __future__ import annotations

import math
import random
from typing import NamedTuple

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from kitproof.mechanics.overturning import (
    SAFETY,
    ballast_needed,
    least_tipping_energy,
    overturn_share,
    tipping_energy,
)
from kitproof.mechanics.ranges import Interval, negate
from kitproof.mechanics.stance import Stance
from kitproof.mechanics.tipping import lean, tip_angle
from kitproof.words.units import G
from tests.mechanics.boxes import between
from tests.mechanics.stances import Rig, few_doubts, rigs_at_corners, rigs_inside, sharp, stance_of, stances, tilts_of

INF = math.inf
CLOSE = 1e-8


class Site(NamedTuple):
    """Where it stands and what pushes it: edge in m, slope in radians, moment in N·m, height of the ballast in m."""

    edge: Interval
    slope: float
    pushing: Interval
    hung: Interval

    def corner(self, high: bool) -> Site:
        """The worst corner, or the best."""
        edge, pushing, hung = self.edge[not high], self.pushing[high], self.hung[high]
        return Site((edge, edge), self.slope, (pushing, pushing), (hung, hung))

    def inside(self, chance: random.Random) -> Site:
        edge, pushing, hung = (chance.uniform(*each) for each in (self.edge, self.pushing, self.hung))
        return Site((edge, edge), self.slope, (pushing, pushing), (hung, hung))


def sites(known: bool = False) -> st.SearchStrategy[Site]:
    of = sharp if known else between
    slopes = st.integers(0, 30).map(math.radians)
    return st.builds(Site, of(0.05, 0.6), slopes, of(0.0, 200.0), of(0.0, 1.0))


def share_of(rig: Rig, site: Site, tilt: float) -> float:
    """Moments about the edge, in N·m, worked out mass by mass."""
    e, up = rig.lean(tilt)
    weight = rig.mass * G
    overturning = weight * (e * math.cos(site.slope) + up * math.sin(site.slope)) + site.pushing[0]
    return overturning / (weight * math.cos(site.slope) * site.edge[0])


def worst_share(rig: Rig, site: Site, tilts: list[float]) -> float:
    return max(share_of(rig, site, tilt) for tilt in tilts)


def with_ballast(rig: Rig, mass: float, at: float) -> Rig:
    """The same rig with a mass in the middle at a height."""
    rest = rig.rest + mass
    return rig._replace(
        rest=rest,
        rest_forward=rig.rest * rig.rest_forward / rest,
        rest_left=rig.rest * rig.rest_left / rest,
        rest_up=(rig.rest * rig.rest_up + mass * at) / rest,
    )


def share(stance: Stance, site: Site) -> Interval:
    return overturn_share(stance, site.edge, site.slope, site.pushing)


def ballast(stance: Stance, site: Site, safety: float = SAFETY) -> Interval:
    return ballast_needed(stance, site.edge, site.slope, site.pushing, site.hung, safety)


def close(value: float) -> float:
    """How far two searches for one worst may differ."""
    return 0.0 if math.isinf(value) else CLOSE * max(1.0, abs(value))


@given(stances(), sites(), st.randoms(use_true_random=False))
def test_the_high_ends_are_what_the_corners_reach(stance: Stance, site: Site, chance: random.Random) -> None:
    stance = few_doubts(stance, chance)
    corners = [stance_of(rig, stance.tilts) for rig in rigs_at_corners(stance)]
    worst = site.corner(high=True)
    assert share(stance, site)[1] == pytest.approx(max(share(each, worst)[1] for each in corners), rel=CLOSE)
    assert ballast(stance, site)[1] == pytest.approx(max(ballast(each, worst)[1] for each in corners), rel=CLOSE)


@given(stances(known=True), sites(known=True))
def test_no_tilt_is_worse_and_a_scan_comes_near(stance: Stance, site: Site) -> None:
    (rig,) = rigs_at_corners(stance)
    scanned = worst_share(rig, site, tilts_of(stance, 721))
    low, high = share(stance, site)
    assert low == high
    assert scanned <= high + close(high)
    assert high == pytest.approx(scanned, rel=1e-3, abs=1e-3)


@given(stances(), sites(), st.integers(0, 9))
def test_nothing_inside_lies_outside(stance: Stance, site: Site, seed: int) -> None:
    whole, wanted = share(stance, site), ballast(stance, site)
    chance = random.Random(seed)
    for rig in rigs_inside(stance, 10, chance):
        one = site.inside(chance)
        inside = share(stance_of(rig, stance.tilts), one)[1]
        assert whole[0] - close(inside) <= inside <= whole[1] + close(inside)
        mass = ballast(stance_of(rig, stance.tilts), one)[1]
        assert wanted[0] - close(mass) <= mass <= wanted[1] + close(mass)


@given(stances(), sites())
def test_a_little_doubt_does_little(stance: Stance, site: Site) -> None:
    (rig, *_) = rigs_at_corners(stance)
    known = stance_of(rig, stance.tilts)
    doubt = replace(known, carried=(rig.carried, rig.carried + 0.001), up=(rig.up, rig.up + 0.0001))
    low, high = share(doubt, site.corner(high=True))
    assert 0 <= high - low < 0.005 * max(1.0, high)


@given(stances(known=True), sites(known=True))
def test_the_ballast_wanted_is_just_enough(stance: Stance, site: Site) -> None:
    """With it the share is 1 / 1.5, by the share's own formula; with a little less it is not reached."""
    (rig,) = rigs_at_corners(stance)
    mass, _ = ballast(stance, site)
    if mass == 0:
        assert share(stance, site)[1] <= 1 / SAFETY + CLOSE
        return
    if mass == INF:
        enough = with_ballast(rig, 1e6, site.hung[0])
        assert share(stance_of(enough, stance.tilts), site)[1] > 1 / SAFETY - CLOSE
        return
    loaded = share(stance_of(with_ballast(rig, mass, site.hung[0]), stance.tilts), site)[1]
    assert loaded == pytest.approx(1 / SAFETY, rel=1e-6)
    less = share(stance_of(with_ballast(rig, mass * 0.9, site.hung[0]), stance.tilts), site)[1]
    assert less > loaded


@given(stances(known=True), sites(known=True), st.floats(0, 30))
def test_ballast_on_the_ground_never_overturns_sooner(stance: Stance, site: Site, mass: float) -> None:
    (rig,) = rigs_at_corners(stance)
    heavier = stance_of(with_ballast(rig, mass, 0.0), stance.tilts)
    before = share(stance, site)[1]
    assert share(heavier, site)[1] <= before + close(before)


@given(stances(), sites(), st.floats(0, 100))
def test_more_wind_never_lowers_the_share_or_the_ballast(stance: Stance, site: Site, more: float) -> None:
    windier = site._replace(pushing=(site.pushing[0] + more, site.pushing[1] + more))
    for of in (share, ballast):
        before, after = of(stance, site), of(stance, windier)
        assert after[0] >= before[0] - close(before[0])
        assert after[1] >= before[1] or after[1] == pytest.approx(before[1], rel=CLOSE)


@given(stances(), sites(), st.floats(0, 0.3))
def test_wider_feet_never_raise_the_share(stance: Stance, site: Site, wider: float) -> None:
    other = share(stance, site._replace(edge=(site.edge[0] + wider, site.edge[1] + wider)))
    before = share(stance, site)
    assert other[0] <= before[0] + close(before[0])
    assert other[1] <= before[1] + close(before[1])


@given(stances(), sites(), st.integers(0, 50).map(math.radians))
def test_a_gentler_slope_never_raises_the_share(stance: Stance, site: Site, slope: float) -> None:
    gentle, steep = sorted((slope, site.slope))
    before = share(stance, site._replace(slope=gentle))[1]
    assert before <= share(stance, site._replace(slope=steep))[1] + close(before)


@given(stances(), sites())
def test_mirrored_left_and_right_it_is_the_same(stance: Stance, site: Site) -> None:
    other = replace(stance, left=negate(stance.left), rest_left=negate(stance.rest_left))
    assert share(other, site) == pytest.approx(share(stance, site), rel=CLOSE, abs=CLOSE)
    assert ballast(other, site) == pytest.approx(ballast(stance, site), rel=CLOSE, abs=CLOSE)


@given(stances(known=True), sites(known=True))
def test_without_wind_it_overturns_just_where_it_tips(stance: Stance, site: Site) -> None:
    """Two formulas, one law: a share of 1 is reached at the slope that is `tip_angle`."""
    angle, _ = tip_angle(stance, site.edge)
    if angle <= 0:
        assert overturn_share(stance, site.edge, 0.0, (0.0, 0.0))[1] >= 1 - CLOSE
        return
    assert overturn_share(stance, site.edge, angle, (0.0, 0.0))[1] == pytest.approx(1, abs=1e-6)


@given(stances(), sites())
def test_level_and_still_the_share_is_the_lean_over_the_edge(stance: Stance, site: Site) -> None:
    level = overturn_share(stance, site.edge, 0.0, (0.0, 0.0))
    assert level[1] == pytest.approx(lean(stance)[1] / site.edge[0], rel=CLOSE, abs=CLOSE)


@given(stances(), sites())
def test_what_is_not_known_has_no_bound(stance: Stance, site: Site) -> None:
    lost = replace(stance, carried=(1.0, 2.0), up=(-INF, INF))
    assert share(lost, site) == (0.0, INF)
    assert ballast(lost, site) == (0.0, INF)
    for gusty in (site._replace(pushing=(site.pushing[0], INF)), site._replace(edge=(0.0, INF))):
        assert share(stance, gusty)[1] == INF
        assert ballast(stance, gusty)[1] == INF


@given(stances(), sites())
def test_a_mass_without_bound_keeps_the_share_sound(stance: Stance, site: Site) -> None:
    unknown = replace(stance, carried=(stance.carried[0], INF))
    great = share(replace(stance, carried=(stance.carried[0], 1e9)), site)
    assert share(unknown, site) == pytest.approx(great, rel=1e-6, abs=1e-6)
    assert ballast(unknown, site)[1] == INF
    most = ballast(stance, site)[1]
    assert ballast(unknown, site)[0] <= most + close(most)


@given(stances(), sites())
def test_nothing_stands_on_a_wall(stance: Stance, site: Site) -> None:
    wall = site._replace(slope=math.pi / 2)
    assert share(stance, wall) == (INF, INF)
    assert ballast(stance, wall) == (INF, INF)


def test_ballast_that_hangs_too_high_is_never_enough() -> None:
    """On 10° a bag at h_b brings R / 2 cos 10° − 1.5 h_b sin 10° for each kilogram; that is 0 at
    h_b = 0.2 / (1.5 tan 10°) = 0.756 m for an edge of 0.2 m."""
    stance = stance_of(Rig(12, 0, 0, 0.2, 1.5, 0, 0.05, 8, 0, 0, 0.7), (0.0, 0.0))
    slope = math.radians(10)
    assert ballast_needed(stance, (0.2, 0.2), slope, (0.0, 0.0), (0.757, 0.757)) == (INF, INF)
    assert ballast_needed(stance, (0.2, 0.2), slope, (0.0, 0.0), (0.754, 0.754))[1] < INF


def test_a_rig_by_hand() -> None:
    """20 kg upright on an edge 0.3 m away, 60 N·m of wind on flat ground: 60 / (20 g 0.3) = 1.0197; to have 1.5 as
    much against it wants (1.5 × 60 − 20 g 0.3) / (0.3 g) = 10.59 kg."""
    stance = stance_of(Rig(12, 0, 0, 0.2, 1.5, 0, 0.05, 8, 0, 0, 0.7), (0.0, 0.0))
    assert overturn_share(stance, (0.3, 0.3), 0.0, (60.0, 60.0))[0] == pytest.approx(60 / (20 * G * 0.3))
    wanted = (1.5 * 60 - 20 * G * 0.3) / (0.3 * G)
    assert ballast_needed(stance, (0.3, 0.3), 0.0, (60.0, 60.0), (0.4, 0.4))[0] == pytest.approx(wanted)
    assert wanted == pytest.approx(10.59, abs=0.005)


@given(between(0, 300), between(-0.1, 0.5), between(0, 2), st.integers(0, 9))
def test_the_energy_to_tip_is_what_the_corners_reach(
    weight: Interval, reach: Interval, up: Interval, seed: int
) -> None:
    def needed(w: float, d: float, h: float) -> float:
        return w * (math.sqrt(max(d, 0.0) ** 2 + h**2) - h)

    low, high = tipping_energy(weight, reach, up)
    corners = [needed(w, d, h) for w in weight for d in reach for h in up]
    assert (low, high) == pytest.approx((min(corners), max(corners)), abs=1e-9)
    chance = random.Random(seed)
    for _ in range(20):
        inside = needed(chance.uniform(*weight), chance.uniform(*reach), chance.uniform(*up))
        assert low - 1e-9 <= inside <= high + 1e-9


def test_energies_of_what_is_not_known() -> None:
    assert tipping_energy((0.0, INF), (0.1, 0.2), (0.0, INF)) == (0.0, INF)
    assert tipping_energy((100.0, 100.0), (0.0, INF), (0.0, 1.0)) == (0.0, INF)
    assert tipping_energy((100.0, 100.0), (0.0, INF), (0.5, 1.0)) == (0.0, INF)
    assert tipping_energy((100.0, 100.0), (0.2, 0.3), (0.0, 0.0)) == pytest.approx((20.0, 30.0))
    assert tipping_energy((100.0, 100.0), (-0.2, -0.1), (1.0, 1.0)) == (0.0, 0.0)


PLACES = st.tuples(st.floats(-0.2, 0.6), st.floats(0.1, 2.0))


@given(PLACES, PLACES)
def test_the_least_energy_on_the_way_is_no_more_than_at_any_place_of_it(
    start: tuple[float, float], end: tuple[float, float]
) -> None:
    """Brute force: 400 places between two, and the least of them comes near."""
    found = least_tipping_energy(100.0, start, end)
    shares = [n / 400 for n in range(401)]
    ways = [tuple(a + share * (b - a) for a, b in zip(start, end, strict=True)) for share in shares]
    energies = [100.0 * (math.hypot(max(d, 0.0), h) - h) for d, h in ways]
    assert found <= min(energies) + 1e-9
    assert found == pytest.approx(min(energies), abs=1e-2)
