"""Three feet on a circle: how wide they stand, how near the edge between two of them is, what each bears.

The feet of sticks stand on a circle of radius R, a third of a turn apart. The edge between two of them is R / 2 from
the middle: a rig tips over an edge, not over a foot ("falls between two legs"), and the worst pan brings the centre of
gravity square to an edge. All lengths in m, angles in radians.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import product

from kitproof.mechanics.curves import HAIR
from kitproof.mechanics.ranges import Interval, divide, hull, multiply

Plan = tuple[float, float]
"""A place seen from above."""

ChartPoint = tuple[Interval, Interval]
"""A leg height and the radius of the foot circle there."""


def foot_radius(points: Sequence[ChartPoint], legs: Interval) -> Interval | None:
    """R, the radius of the foot circle, with the legs anywhere from one height to another; None where not known.

    Straight between the points of the chart; nothing is known outside them, so None where the legs may stand outside.
    Exact where the heights of the points are sharp: the ends of `legs` and the points between them decide. Where they
    are in doubt it is sound: each pair of points that may be the two neighbours is taken for itself.
    """
    if not any(height[1] <= legs[0] + HAIR for height, _ in points):
        return None
    if not any(height[0] >= legs[1] - HAIR for height, _ in points):
        return None
    ends = [end for height, _ in points for end in height if legs[0] < end < legs[1]]
    return hull(*(_radius(points, leg) for leg in (*legs, *ends)))


def deciding_heights(points: Sequence[ChartPoint], legs: Interval) -> tuple[float, ...]:
    """The leg heights at which to look for the worst over a reach: its ends, and the chart's points between them.

    Between two of them R and every height above ground are linear in the leg height, so `tip_angle`, `overturn_share`
    and `ballast_needed` at one tilt and one direction are quotients of linear functions, which run one way.
    """
    between = {end for height, _ in points for end in height if legs[0] < end < legs[1]}
    return tuple(sorted({*legs, *between}))


def edge_flat(radius: Interval) -> Interval:
    """How far the edge between two feet is from the middle, R / 2: exact. Source: geometry, cos 60°."""
    return radius[0] / 2, radius[1] / 2


def edge_levelled(radius: Interval, apex: Interval, slope: float) -> Interval:
    """How far the nearest edge is from the plumb line through the apex, with the legs levelled on a slope α: exact.

    R is the foot radius on flat ground and H the height of the apex, where the legs meet, above the ground below it.
    Each leg keeps its splay and changes its length, so the foot at φ from straight downhill stands at
    R / (1 − ε cos φ), ε = (R / H) tan α: the feet lie on a conic about its focus. The edge whose middle is at φ is then
    R / √(4 + ε² − 4 ε cos φ) away, nearest uphill: R / (2 + ε). On flat ground that is R / 2. The slope counts by its
    size.
    """
    tangent = math.tan(abs(slope))
    return _nearest(radius[0], apex[0], tangent), _nearest(radius[1], apex[1], tangent)


def feet(radius: float, turn: float = 0.0) -> tuple[Plan, Plan, Plan]:
    """Three feet on flat ground, (forward, left); the first at `turn` to the left of straight ahead."""
    first, second, third = (turn + third * math.tau / 3 for third in range(3))
    return _polar(radius, first), _polar(radius, second), _polar(radius, third)


def feet_levelled(radius: float, apex: float, slope: float, turn: float = 0.0) -> tuple[Plan, Plan, Plan]:
    """Three feet seen from above, levelled on a slope by leg length: (downhill, across). See `edge_levelled`.

    ε must be less than 1: else a leg is flatter than the slope and finds no ground.
    """
    lean = radius / apex * math.tan(slope)
    first, second, third = (turn + third * math.tau / 3 for third in range(3))
    return (
        _polar(radius / (1 - lean * math.cos(first)), first),
        _polar(radius / (1 - lean * math.cos(second)), second),
        _polar(radius / (1 - lean * math.cos(third)), third),
    )


def borne(weight: float, place: Plan, triangle: tuple[Plan, Plan, Plan]) -> tuple[float, float, float]:
    """What each of three feet bears of a weight at a place, in the unit of the weight; they add up to it.

    By moments about each side. One is negative where the place lies outside: that foot would have to be held down, so
    the rig tips. Any triangle with an area will do. For feet on a circle, with u the direction of a foot, it is
    W (1/3 + 2 e·u / 3R).
    """
    a, b, c = triangle
    whole = _twice_area(a, b, c)
    return (
        weight * _twice_area(place, b, c) / whole,
        weight * _twice_area(a, place, c) / whole,
        weight * _twice_area(a, b, place) / whole,
    )


def least_borne(weight: Interval, lean: Interval, radius: Interval) -> Interval:
    """What the lightest foot bears in the worst pan direction, W (1/3 − 2 e / 3R), in the unit of W.

    e is how far the centre of gravity is from the middle. Not negative just where e ≤ R / 2. Exact for W, e and R each
    anywhere in its own range.
    """
    over = divide(lean, radius)
    return multiply(weight, (1 / 3 - 2 / 3 * over[1], 1 / 3 - 2 / 3 * over[0]))


def friction_needed(radius: Interval, apex: Interval) -> Interval:
    """tan(splay) = R / H: the friction that the feet need without spreader or mat, a plain number; exact.

    H is the height of the apex above the ground. Source: a straight leg hinged at its top bears along its own length,
    so it pushes its foot outward with R / H of what it bears down.
    """
    return divide(radius, apex)


def _radius(points: Sequence[ChartPoint], leg: float) -> Interval:
    """R at one leg height, from every pair of points that may be its neighbours there."""
    found = [
        _between(leg, (start, radius), (end, other))
        for before, after in product(_below(points, leg), _below([_turned(point) for point in points], -leg))
        for start, end in product(
            (before[0][0], min(before[0][1], leg)),
            (max(-after[0][1], leg), -after[0][0]),
        )
        for radius, other in product(before[1], after[1])
    ]
    return min(found), max(found)


def _below(points: Sequence[ChartPoint], leg: float) -> list[ChartPoint]:
    """The points that may be the nearest at or below a leg height: none is sure to lie between."""
    return [
        (height, radius)
        for height, radius in points
        if height[0] <= leg + HAIR and not any(other[0] > height[1] and other[1] <= leg for other, _ in points)
    ]


def _turned(point: ChartPoint) -> ChartPoint:
    """The same point with heights counted downward."""
    (low, high), radius = point
    return (-high, -low), radius


def _between(leg: float, before: Plan, after: Plan) -> float:
    """Straight from one (height, radius) to the next."""
    run = after[0] - before[0]
    share = min(max((leg - before[0]) / run, 0.0), 1.0) if run > HAIR else 0.0
    return before[1] + share * (after[1] - before[1])


def _nearest(radius: float, apex: float, tangent: float) -> float:
    """R / (2 + R tan α / H), or its limit where R or H is 0 or has no bound."""
    if radius == 0 or (apex == 0 and tangent > 0):
        return 0.0
    under = 2 / radius + (tangent / apex if tangent > 0 else 0.0)
    return 1 / under if under > 0 else math.inf


def _polar(radius: float, angle: float) -> Plan:
    return radius * math.cos(angle), radius * math.sin(angle)


def _twice_area(a: Plan, b: Plan, c: Plan) -> float:
    """Twice the area of a triangle, positive where its corners run to the left."""
    return (b[0] - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (b[1] - a[1])
