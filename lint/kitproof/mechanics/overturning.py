"""What overturns a rig against what keeps it on its feet, the ballast that is wanted, and the energy that tips it.

Moments about the edge between two feet, on a slope α along that edge's normal: W e cos α + W h sin α from the weight,
F h from wind and push, against W cos α × edge. Forces in N, moments in N·m, masses in kg, lengths in m, angles in
radians. The slope is a reach from level: give its steep end, which is the worst for all of these. Nothing stands on
one of 90° or more.

Source: statics, moments about the tipping edge; derived.
"""

from __future__ import annotations

import math

from kitproof.mechanics.arcs import Turning
from kitproof.mechanics.ranges import Interval, times
from kitproof.mechanics.stance import Masses, Stance, at_best, worst_of
from kitproof.words.units import G

SAFETY = 1.5
"""Stabilising over overturning moment: IBC §1807.2.3, as quoted (it is for retaining walls). A house may set it."""

STEEPEST = math.pi / 2

GREAT = 1e9
"""In kg, what a mass without bound is taken as where only the place of its worst is asked for."""


def overturn_share(stance: Stance, edge: Interval, slope: float, pushing: Interval) -> Interval:
    """[W (e cos α + h sin α) + F_w h_w + F_p h_p] / (W cos α × edge): 1 and more overturns; a plain number.

    `pushing`, in N·m, is F_w h_w + F_p h_p, wind and push. `edge` is R / 2, or `feet.edge_levelled` with a slope of 0.
    The high end is exact (to `arcs.NEAR`) where `pushing` and `edge` do not depend on the rest, the low end sound; for
    sharp values both are the same. Not known, [0, ∞), where the rig may have no mass or a place is not known. No base
    (`edge` 0) is ∞.
    """
    if not stance.known:
        return 0.0, math.inf
    if slope >= STEEPEST:
        return math.inf, math.inf
    steep, cos = math.tan(slope), math.cos(slope)
    most, tilt = worst_of(stance, lambda masses: Turning(1.0, steep, _over(pushing[1], masses.whole * G * cos)))
    high = most / edge[0] if edge[0] > 0 else math.inf
    if stance.sharp and _sharp(edge, pushing):
        return high, high
    whole = (stance.carried[1] + stance.rest[1]) * G * cos
    least = at_best(stance, lambda lean, up: lean + up[0] * steep + _over(pushing[0], whole), tilt)
    return min(max(_over(least, edge[1]), 0.0), high), high


def ballast_needed(
    stance: Stance, edge: Interval, slope: float, pushing: Interval, hung: Interval, safety: float = SAFETY
) -> Interval:
    """The mass, in kg, that keeps it on its feet by a safety factor s, hung in the middle at a height h_b.

    [s × overturning − restoring] / [g (edge × cos α − s h_b sin α)], 0 where nothing is wanted. `hung` is h_b: the hook
    if the bag hangs free, else the bag's centre. Where the denominator is 0 or less, none is enough: ∞ (widen the feet
    or come lower), and so it is where a mass has no bound. The high end is exact (to `arcs.NEAR`) where `edge`,
    `pushing` and `hung` do not depend on the rest, the low end sound; for sharp values both are the same. Not known,
    [0, ∞), where the rig may have no mass or a place is not known.
    """
    if not stance.known:
        return 0.0, math.inf
    if slope >= STEEPEST:
        return math.inf, math.inf
    cos, sin = math.cos(slope), math.sin(slope)
    bounded = stance.carried[1] + stance.rest[1] < math.inf
    most, tilt = worst_of(stance, lambda masses: _short(masses, edge[0], slope, pushing[1], safety))
    high = _ballast(most, edge[0] * cos - safety * hung[1] * sin) if bounded else math.inf
    if stance.sharp and _sharp(edge, pushing, hung):
        return high, high

    def least(lean: float, up: Interval) -> float:
        each = safety * (lean * cos + up[0] * sin) - edge[1] * cos
        whole = (stance.carried[each < 0] + stance.rest[each < 0]) * G
        return times(each, whole) + safety * pushing[0]

    low = _ballast(at_best(stance, least, tilt), edge[1] * cos - safety * hung[0] * sin)
    return min(low, high), high


def tipping_energy(weight: Interval, reach: Interval, up: Interval) -> Interval:
    """W (√(d² + h²) − h), in J: what it takes to lift the centre of gravity over the edge; exact.

    W in N; `reach` is d = edge − e, how far the centre of gravity is from the edge, 0 where it is beyond it already; h
    its height above the ground. A fall that gives less than this cannot tip the sticks; more is doubt.
    """
    return (
        times(weight[0], _rise(max(reach[0], 0.0), max(up[1], 0.0))),
        times(weight[1], _rise(max(reach[1], 0.0), max(up[0], 0.0))),
    )


def least_tipping_energy(weight: float, start: tuple[float, float], end: tuple[float, float]) -> float:
    """The least W (√(d² + h²) − h), in J, on the way from one (d, h) to another, both running straight: as the legs go
    up, the feet go out and the centre of gravity rises.

    It is convex along the way, so the least is at an end, or inside where it is stationary: with k = dd / dh, at
    h = (d₀ − k h₀)(1 − k²) / (k (1 + k²)). W in N, lengths in m; d counts as 0 and h as 0 below it.
    """
    found = [_rise(max(d, 0.0), max(h, 0.0)) for d, h in (start, end)]
    (d, h), (there, top) = start, end
    slope = (there - d) / (top - h) if top != h else 0.0
    if slope != 0:
        up = (d - slope * h) * (1 - slope * slope) / (slope * (1 + slope * slope))
        if min(h, top) < up < max(h, top):
            found.append(_rise(max(d + slope * (up - h), 0.0), max(up, 0.0)))
    return times(weight, min(found))


def _short(masses: Masses, edge: float, slope: float, pushing: float, safety: float) -> Turning:
    """What the safety factor is short of, s × overturning − restoring in N·m, for one corner of the masses."""
    weight = min(masses.whole, GREAT) * G
    cos, sin = math.cos(slope), math.sin(slope)
    return Turning(weight * safety * cos, weight * safety * sin, safety * pushing - weight * edge * cos)


def _ballast(short: float, each: float) -> float:
    """A shortage in N·m over what each kilogram brings, in N·m by g."""
    if each > 0:
        return max(short, 0.0) / (G * each)
    return 0.0 if short < 0 else math.inf


def _rise(reach: float, up: float) -> float:
    """√(d² + h²) − h, without taking one great number from another."""
    if reach == 0 or up == math.inf:
        return 0.0
    return math.inf if reach == math.inf else reach * reach / (math.hypot(reach, up) + up)


def _over(a: float, b: float) -> float:
    """a / b, where a thing without bound stays so, and a thing over nothing has none."""
    return math.copysign(math.inf, a) if b <= 0 or math.isinf(a) else a / b


def _sharp(*several: Interval) -> bool:
    return all(low == high for low, high in several)
