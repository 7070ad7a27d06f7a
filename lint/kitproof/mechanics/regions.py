"""Flat convex regions: all pairs of two sums over masses that are known to intervals, such as (Σmx, Σmr), exactly.

Both sums hold the same masses, so that not every pair of their separate ranges can be reached. What one mass
contributes, (m x, m r) with m, x and r each anywhere in its interval, fills a convex polygon: the hull of the eight
points at the ends. The whole is the sum of these polygons point by point (Minkowski's sum), convex again.

A region is the tuple of its corners, counter-clockwise; a sharp pair is a region of one corner, a line has two, and a
region of none is empty. Coordinates are finite. Ends are rounded to nearest, as everywhere (see `ranges`).
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from itertools import product

from kitproof.mechanics.ranges import Interval

Point = tuple[float, float]
Region = tuple[Point, ...]


def hull(points: Iterable[Point]) -> Region:
    """The least convex region that holds all points."""
    ordered = sorted(set(points))
    if len(ordered) < 3:
        return tuple(ordered)
    below, above = _chain(ordered), _chain(ordered[::-1])
    return tuple(below[:-1] + above[:-1])


def scaled(mass: Interval, first: Interval, second: Interval) -> Region:
    """All (m x, m y) with m, x and y anywhere in their intervals; m is not negative."""
    return hull((m * x, m * y) for m, x, y in product(mass, first, second))


def added(regions: Sequence[Region]) -> Region:
    """All sums of one point from each region. No regions: (0, 0)."""
    starts = [min(region, key=lambda point: (point[1], point[0])) for region in regions]
    x, y = math.fsum(point[0] for point in starts), math.fsum(point[1] for point in starts)
    corners = [(x, y)]
    # Every region is walked round once from its lowest corner; their edges, taken by direction, are those of the sum.
    for across, up in sorted((edge for region in regions for edge in _edges(region)), key=_direction):
        x, y = x + across, y + up
        corners.append((x, y))
    return hull(corners)


def cut(region: Region, axis: int, low: float, high: float) -> Region:
    """The part of a region whose first (axis 0) or second (axis 1) coordinate lies from `low` to `high`."""
    return hull(_kept(_kept(region, axis, high, 1), axis, low, -1))


def span(region: Region, axis: int) -> Interval:
    """The range of one coordinate over a region that is not empty."""
    return min(point[axis] for point in region), max(point[axis] for point in region)


def holds_origin(region: Region) -> bool:
    """Whether (0, 0) lies in a region that has an area, its edge included."""
    # The spans are looked at as well, lest a sliver on a line through the origin hold it by a rounding.
    return (
        len(region) > 2
        and all(low <= 0 <= high for low, high in (span(region, 0), span(region, 1)))
        and all(here[0] * there[1] - here[1] * there[0] >= 0 for here, there in sides(region))
    )


def sides(region: Region) -> Iterator[tuple[Point, Point]]:
    """Its corners with the next one each, round and round; a sharp pair is its own neighbour."""
    return zip(region, region[1:] + region[:1], strict=True)


def _chain(ordered: Sequence[Point]) -> list[Point]:
    """The convex chain below points in order."""
    chain: list[Point] = []
    for point in ordered:
        while len(chain) > 1 and _turn(chain[-2], chain[-1], point) <= 0:
            chain.pop()
        chain.append(point)
    return chain


def _turn(a: Point, b: Point, c: Point) -> float:
    """More than 0 where the way from a over b to c turns left."""
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _edges(region: Region) -> Iterator[Point]:
    if len(region) > 1:
        for here, there in sides(region):
            yield there[0] - here[0], there[1] - here[1]


def _direction(edge: Point) -> float:
    """From 0, along the first coordinate, up to 2π."""
    return math.atan2(edge[1], edge[0]) % (2 * math.pi)


def _kept(region: Region, axis: int, limit: float, sign: int) -> Region:
    """The corners of what is left of a region on one side of a line, the line included."""
    kept: list[Point] = []
    for here, there in sides(region):
        within = sign * here[axis] <= sign * limit
        if within:
            kept.append(here)
        if within != (sign * there[axis] <= sign * limit):
            kept.append(_crossing(here, there, axis, limit))
    return tuple(kept)


def _crossing(here: Point, there: Point, axis: int, limit: float) -> Point:
    along = (limit - here[axis]) / (there[axis] - here[axis])
    other = here[1 - axis] + along * (there[1 - axis] - here[1 - axis])
    return (limit, other) if axis == 0 else (other, limit)
