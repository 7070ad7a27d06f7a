"""A capacity as a function of height: pieces side by side, never rising.

A piece is a straight line or a lever law, k / (h + a). A piece holds above its start, up to and at its end; where two
pieces do not meet, the curve falls, and at that very height the piece to the left, the higher one, holds. The first
piece holds at its start as well. Heights that differ by less than `HAIR` are the same height: a centre of gravity
worked out in floats must not fall off a chart's last point by a rounding.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from itertools import pairwise
from typing import NamedTuple

from msgspec import Struct

HAIR = 1e-12
"""In m: a millionth of a micrometre, far below anything that is measured and far above the rounding of floats."""


class Line(NamedTuple):
    """Straight from `at_start` to `at_end`, in kg, between two heights in m. Without an end it is level."""

    start: float
    end: float
    at_start: float
    at_end: float

    def value(self, height: float) -> float:
        if self.at_start == self.at_end or height <= self.start:
            return self.at_start
        if height >= self.end - HAIR:
            return self.at_end
        return self.at_start - self.slope * (height - self.start)

    @property
    def slope(self) -> float:
        """b of C = c − b h, in kg/m: not negative."""
        return 0.0 if self.at_start == self.at_end else (self.at_start - self.at_end) / (self.end - self.start)

    def reach(self, mass: float) -> float:
        """The greatest height at which it is `mass` or more; −∞ where there is none."""
        if self.at_end >= mass:
            return self.end
        if self.at_start < mass:
            return -math.inf
        return self.start + (self.at_start - mass) / self.slope

    def cut(self, start: float, end: float) -> Line:
        return Line(start, end, self.value(start), self.value(end))


class Lever(NamedTuple):
    """C = moment / (h + axis): one torque at every height. Moment in kg·m; h + axis is more than 0 on all of it."""

    start: float
    end: float
    moment: float
    axis: float

    def value(self, height: float) -> float:
        return self.moment / (height + self.axis)

    def reach(self, mass: float) -> float:
        if self.value(self.end) >= mass:
            return self.end
        if self.value(self.start) < mass:
            return -math.inf
        return min(max(self.moment / mass - self.axis, self.start), self.end)

    def cut(self, start: float, end: float) -> Lever:
        return Lever(start, end, self.moment, self.axis)


Piece = Line | Lever


class Curve(Struct, frozen=True):
    """Pieces from left to right, without gaps, the last one without end. Left of the first it is 0."""

    pieces: tuple[Piece, ...]

    def value(self, height: float) -> float:
        """The capacity at a height, in kg."""
        if height < self.pieces[0].start - HAIR:
            return 0.0
        piece = next(piece for piece in self.pieces if height <= piece.end + HAIR)
        return piece.value(min(max(height, piece.start), piece.end))

    def reach(self, mass: float) -> float:
        """The greatest height at which it is `mass` or more: ∞ where it always is, −∞ where it never is."""
        if mass <= 0:
            return math.inf
        return max(piece.reach(mass) for piece in self.pieces)

    def between(self, start: float, end: float) -> list[Piece]:
        """Its pieces between two heights, those cut that reach beyond."""
        within = ((piece, max(piece.start, start), min(piece.end, end)) for piece in self.pieces)
        return [piece.cut(low, high) for piece, low, high in within if low < high]


def curve(pieces: Iterable[Piece]) -> Curve:
    """A curve of the pieces that have a length; the first is kept without one too, as it holds at its start."""
    first, *rest = pieces
    return Curve((first, *(piece for piece in rest if piece.start < piece.end)))


def falling(points: Sequence[tuple[float, float]], cap: float, start: float) -> list[Line]:
    """Lines through points (height, mass), in order of height, never above `cap` or what a smaller height allows.

    That is the least, over all heights up to h, of straight lines between the points. Up to the first point it is level
    from `start` on. Points at one height make a drop. Masses and heights may be without bound.
    """
    level = min(cap, points[0][1])
    lines = [Line(start, points[0][0], level, level)]
    for (left, at_left), (right, at_right) in pairwise(points):
        if left < right:
            lines += _under(level, left, at_left, right, at_right)
        level = min(level, at_right)
    return lines


def _under(level: float, left: float, at_left: float, right: float, at_right: float) -> list[Line]:
    """One straight line between two points, cut off at a level that its left end is not below.

    Where the right end's height or the left end's mass has no bound, the line leaves the level only in the limit.
    """
    if at_right >= level or math.inf in (right, at_left):
        return [Line(left, right, level, level)]
    meets = left + (at_left - level) / (at_left - at_right) * (right - left)
    return [Line(left, meets, level, level), Line(meets, right, level, at_right)]


def raised(lower: Curve, upper: Curve, mass: float, height: float) -> Curve:
    """The lower curve raised to `mass` from height 0 to `height`, but not above the upper one, which lies above it."""
    first = min(max(lower.reach(mass), 0.0), height)
    level = min(max(upper.reach(mass), first), height)
    at_plate = min(max(lower.value(0.0), mass), upper.value(0.0))
    return curve(
        [
            Line(0.0, 0.0, at_plate, at_plate),
            *lower.between(0.0, first),
            Line(first, level, mass, mass),
            *upper.between(level, height),
            *lower.between(height, math.inf),
        ]
    )
