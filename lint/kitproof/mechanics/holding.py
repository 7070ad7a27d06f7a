"""What a head holds: its capacity as a function of the height of the centre of gravity above its plate.

A head is a lever, so a figure holds only at the height that it was given for. The capacity is a pair of curves, a lower
one that the head holds for certain and an upper one above which it fails for certain. Both fall with height.

- **Charted** (`chart`, and `single`, a chart of one point). Between points straight, and never above what a smaller
  height allows; level below the lowest height. A rated figure is published too: its mass caps the chart, and with a
  height it is one of its points. Above the highest height h_n nothing is published: at most C_n (h_n + a) / (h + a),
  the lever law about an axis a below the plate; at least 0.70 C_n h_n / h up to 2 h_n, and 0 above.
- **`none`**: a rated figure R without a height. At most R; at least 0.70 R min(1, 6 in / h), and 0 above 12 in.
- **`unknown`**: no figure at all, [0, ∞).
- Hung below the plate (h < 0) the lower curve is 0 and the upper what it is at 0.

At the very heights where the lower curve drops, the better side holds: at h = h_n it is C_n, at 2 h_n still
0.70 C_n / 2, at 12 in still 0.70 R / 2, at h = 0 what it is just above.

Figures may be intervals. Every height and mass that goes up raises the curves, so the upper curve takes their high
ends and the lower curve their low ends; both are then exact. Where doubts of two heights overlap, the greater mass is
given for the lower height, as a head holds less the higher it must: no point passes the next in that order. Two masses
at one height: the lesser holds for the lower curve, the greater, up to and at that height, for the upper.

An axis above the plate (a < 0) shortens the lever: the lower curve is then 0.70 C_n (h_n + a) / (h + a), so that it
never exceeds the upper. An axis at or above the last point says nothing about torque: at most C_n, at least 0.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from functools import cached_property
from itertools import accumulate
from typing import Literal, NamedTuple

from msgspec import Struct

from kitproof.mechanics.curves import HAIR, Curve, Lever, Line, Piece, curve, falling, raised
from kitproof.mechanics.ranges import Interval, greatest, least
from kitproof.words.units import INCH

ChartKind = Literal["chart", "single", "none", "unknown"]

Point = tuple[Interval, Interval]
"""A height above the plate, in m, and a mass, in kg."""


class Figure(NamedTuple):
    """A mass, in kg, and the height of the centre of gravity above the plate, in m, that it is given for (or none)."""

    mass: Interval
    height: Interval | None = None


class HoldingLimits(Struct, frozen=True):
    """House numbers: common practice, no source.

    `beyond_share` of the lever law (axis in the plate) is counted on above the chart, up to `beyond_reach` times its
    highest height. Of a figure without a height `uncharted_share` is counted on up to `uncharted_height`, in m, less by
    the lever above it, none above `uncharted_top`. `axis` is the depth of the tilt axis, in m, where it is not known.
    """

    beyond_share: float = 0.70
    beyond_reach: float = 2.0
    uncharted_share: float = 0.70
    uncharted_height: float = 6 * INCH
    uncharted_top: float = 12 * INCH
    axis: Interval = (0.0, 0.120)


HOUSE = HoldingLimits()


class Holding(Struct, frozen=True, dict=True):
    """One head's figures. `axis` is the depth of its tilt axis below the plate in m, negative above, None if not known.

    `tried` is what the house saw it hold: it raises the lower curve at that height and below (not below the plate),
    never above the upper curve. A trial without a height, or hung below the plate, raises nothing. A chart figure
    without a height is a rated figure. A height below 0 is taken as 0. An axis of (−∞, ∞) is one that nothing is known
    of. High ends of masses and heights may be ∞: a figure that is there but not known is (0, ∞).
    """

    chart: tuple[Figure, ...] = ()
    rated: Figure | None = None
    tried: tuple[Figure, ...] = ()
    axis: Interval | None = None
    limits: HoldingLimits = HOUSE

    @cached_property
    def points(self) -> tuple[Point, ...]:
        """All published figures with a height, as (height, mass) in order of height; the rated one is among them."""
        published = self.chart if self.rated is None else (*self.chart, self.rated)
        return _in_order({(_not_hung(each.height), each.mass) for each in published if each.height is not None})

    @cached_property
    def cap(self) -> Interval | None:
        """The mass of the rated figure, which no height exceeds; of several the least. None where there is none."""
        caps = [each.mass for each in self.chart if each.height is None]
        if self.rated is not None:
            caps.append(self.rated.mass)
        return least(*caps) if caps else None

    @property
    def kind(self) -> ChartKind:
        """`chart` two points or more, `single` one, `none` a figure without a height, `unknown` no figure."""
        if self.points:
            return "chart" if len(self.points) > 1 else "single"
        return "unknown" if self.cap is None else "none"

    @property
    def top(self) -> Interval | None:
        """The greatest published height, in m; None where no height is published."""
        return greatest(*(height for height, _ in self.points)) if self.points else None

    @cached_property
    def upper(self) -> Curve:
        """Above this it fails for certain."""
        if self.kind == "unknown":
            return Curve((Line(-math.inf, math.inf, math.inf, math.inf),))
        cap = self.cap[1] if self.cap else math.inf
        if not self.points:
            return Curve((Line(-math.inf, math.inf, cap, cap),))
        points = self._points_for_upper()
        lines = falling(points, cap, -math.inf)
        return curve([*lines, self._most_beyond(points[-1][0], min(cap, *(mass for _, mass in points)))])

    @cached_property
    def lower(self) -> Curve:
        """Up to this it holds for certain; 0 below the plate."""
        lower = self._published_lower()
        for each in self.tried:
            if each.height is not None and each.height[0] >= 0:
                lower = raised(lower, self.upper, each.mass[0], each.height[0])
        return lower

    def capacity(self, low: float, high: float) -> Interval:
        """What it holds, in kg, with the centre of gravity anywhere from `low` to `high` above the plate, exactly."""
        return (0.0 if low < -HAIR else self.lower.value(high)), self.upper.value(low)

    def height_limit(self, mass_low: float, mass_high: float) -> Interval:
        """The greatest height of the centre of gravity, in m, at which it still holds what is carried.

        The low end is where it holds the most that may be carried for certain, the high end where it may still hold the
        least. −∞: at no height; ∞: at every height.
        """
        return self.lower.reach(mass_high), self.upper.reach(mass_low)

    def _points_for_upper(self) -> list[tuple[float, float]]:
        """Heights and masses at their high ends, no point passing the next one."""
        tops = [height[1] for height, _ in self.points]
        held = list(accumulate(reversed(tops), min))[::-1]
        return [(height, mass[1]) for height, (_, mass) in zip(held, self.points, strict=True)]

    def _points_for_lower(self) -> list[tuple[float, float]]:
        """Heights and masses at their low ends; at one height the least mass."""
        lightest: dict[float, float] = {}
        held = accumulate((height[0] for height, _ in self.points), max)
        for height, (_, mass) in zip(held, self.points, strict=True):
            lightest[height] = min(mass[0], lightest.get(height, math.inf))
        return sorted(lightest.items())

    def _published_lower(self) -> Curve:
        if self.kind == "unknown":
            return Curve((Line(0.0, math.inf, 0.0, 0.0),))
        cap = self.cap[0] if self.cap else math.inf
        if not self.points:
            return self._uncharted_lower(cap)
        points = self._points_for_lower()
        lines = falling(points, cap, 0.0)
        return curve([*lines, *self._least_beyond(points[-1][0], min(cap, *(mass for _, mass in points)))])

    def _most_beyond(self, top: float, mass: float) -> Piece:
        """The lever law about the deepest axis that may be, from the highest point up.

        An axis that may be at or above that point says nothing about torque, and that allows the most of all.
        """
        shallow, axis = self.axis or self.limits.axis
        nearest = max(height[0] for height, _ in self.points)
        if math.inf in (axis, mass) or nearest + shallow <= 0:
            return Line(top, math.inf, mass, mass)
        return Lever(top, math.inf, mass * (top + axis), axis)

    def _least_beyond(self, top: float, mass: float) -> list[Piece]:
        """A share of the lever law about an axis in the plate, or above it if it may be; then nothing."""
        axis = min((self.axis or self.limits.axis)[0], 0.0)
        end = top * max(self.limits.beyond_reach, 1.0)
        if top + axis <= 0:
            return [Line(top, math.inf, 0.0, 0.0)]
        share = min(self.limits.beyond_share, 1.0)
        return [Lever(top, end, share * mass * (top + axis), axis), Line(end, math.inf, 0.0, 0.0)]

    def _uncharted_lower(self, rated: float) -> Curve:
        mass = min(self.limits.uncharted_share, 1.0) * rated
        level = min(self.limits.uncharted_height, self.limits.uncharted_top)
        end = self.limits.uncharted_top
        return curve(
            [
                Line(0.0, level, mass, mass),
                Lever(level, end, mass * level, 0.0),
                Line(end, math.inf, 0.0, 0.0),
            ]
        )


def _in_order(points: Iterable[Point]) -> tuple[Point, ...]:
    """Points by height; of those whose heights overlap the greatest mass first."""
    waiting = sorted(points, key=lambda point: (-point[1][1], -point[1][0], point[0]))
    ordered: list[Point] = []
    while waiting:
        # One that lies wholly above none of the others is next. There always is one: that with the least high end.
        point = next(each for each in waiting if not any(_wholly_above(each[0], other[0]) for other in waiting))
        waiting.remove(point)
        ordered.append(point)
    return tuple(ordered)


def _wholly_above(height: Interval, other: Interval) -> bool:
    return other[1] <= height[0] and other[0] < height[1]


def _not_hung(height: Interval) -> Interval:
    return max(height[0], 0.0), max(height[1], 0.0)
