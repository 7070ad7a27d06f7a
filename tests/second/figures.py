"""Flat convex figures in floats, and the worst torque over them."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

Point = tuple[float, float]
Polygon = list[Point]

HAIR = 1e-12
"""By how much a figure may miss a cut: a rounding."""


def hull(points: Sequence[Point]) -> Polygon:
    """The corners of the convex hull, in order; one or two points for what is flat."""
    ordered = sorted(set(points))
    if len(ordered) < 3:
        return ordered
    return _side(ordered)[:-1] + _side(ordered[::-1])[:-1]


def _side(points: Sequence[Point]) -> Polygon:
    found: Polygon = []
    for point in points:
        while len(found) > 1 and _turn(found[-2], found[-1], point) <= 0:
            found.pop()
        found.append(point)
    return found


def _turn(a: Point, b: Point, c: Point) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def added(a: Polygon, b: Sequence[Point]) -> Polygon:
    """All sums of a point of one and a point of the other."""
    corners = hull(b)
    if len(corners) == 1:
        return [(p[0] + corners[0][0], p[1] + corners[0][1]) for p in a]
    return hull([(p[0] + q[0], p[1] + q[1]) for p in a for q in corners])


def clipped(figure: Polygon, axis: int, low: float, high: float) -> Polygon:
    """What of a figure lies within two ends along one axis."""
    return _below(_below(figure, axis, high, 1), axis, low, -1)


def _below(figure: Polygon, axis: int, limit: float, sign: int) -> Polygon:
    if math.isinf(limit) or not figure:
        return figure
    found: Polygon = []
    for here, there in zip(figure, [*figure[1:], figure[0]], strict=True):
        over, next_over = sign * (here[axis] - limit), sign * (there[axis] - limit)
        if over <= HAIR:
            found.append(here)
        if min(over, next_over) < 0 < max(over, next_over):
            share = over / (over - next_over)
            found.append((here[0] + share * (there[0] - here[0]), here[1] + share * (there[1] - here[1])))
    return found


def spanned(figure: Polygon, axis: int) -> tuple[float, float]:
    values = [point[axis] for point in figure]
    return (min(values), max(values))


def worst(point: Point, tilts: tuple[float, float]) -> float:
    """The greatest |F cos θ + V sin θ|: at an end, or hypot(F, V) where a steepest angle lies inside."""
    forward, left = point
    steepest = math.atan2(left, forward)
    if any(tilts[0] <= steepest + turn * math.pi <= tilts[1] for turn in range(-3, 4)):
        return math.hypot(forward, left)
    return max(abs(forward * math.cos(tilt) + left * math.sin(tilt)) for tilt in tilts)


def greatest(figure: Sequence[Point], tilts: tuple[float, float]) -> float:
    return max(worst(point, tilts) for point in figure)


def least(figure: Sequence[Point], tilts: tuple[float, float]) -> float:
    """The least of what is worst: 0 with (0, 0) inside, else on a side. Sides that cannot hold it are passed over: no
    torque changes by more than (F, V) does."""
    corners = hull(figure)
    if len(corners) > 2 and all(_turn(a, b, (0.0, 0.0)) >= 0 for a, b in _sides(corners)):
        return 0.0
    best = min(worst(point, tilts) for point in corners)
    for start, end in _sides(corners):
        if (worst(start, tilts) + worst(end, tilts) - math.dist(start, end)) / 2 < best:
            best = min(best, _searched(start, end, tilts))
    return best


def _sides(corners: Polygon) -> list[tuple[Point, Point]]:
    return list(itertools.pairwise([*corners, corners[0]])) if len(corners) > 1 else []


def _searched(start: Point, end: Point, tilts: tuple[float, float]) -> float:
    """The least along a side, a convex function of how far along it is: by thirds."""

    def at(share: float) -> float:
        return worst((start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1])), tilts)

    low, high = 0.0, 1.0
    for _ in range(90):
        third = (high - low) / 3
        if at(low + third) <= at(high - third):
            high -= third
        else:
            low += third
    return at((low + high) / 2)
