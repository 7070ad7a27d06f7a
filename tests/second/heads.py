"""What a head holds at each height, after the design, in exact fractions.

A curve is a run of pieces from the left, each holding over (start, end]: at a drop the better side holds. That is
shared with the first implementation, as are its readings of an axis above the plate and of a trial.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from tests.second.described import ANYTHING, ZERO, Number, Part, Quantity, Range
from tests.second.quantities import INCH

SHARE_BEYOND = Fraction(7, 10)
REACH_BEYOND = 2
UNCHARTED_SHARE = Fraction(7, 10)
UNCHARTED_HEIGHT = 6 * INCH
UNCHARTED_TOP = 12 * INCH
AXIS_UNSAID: Range = (ZERO, Fraction(120, 1000))


@dataclass(frozen=True)
class Piece:
    """C = level + slope × h, or with a `lever` C = lever / (h + axis), over (start, end]."""

    start: Number
    end: Number
    level: Number = ZERO
    slope: Fraction = ZERO
    lever: Fraction | None = None
    axis: Fraction = ZERO

    def at(self, height: Number) -> Number:
        if self.lever is not None:
            return self.lever / (height + self.axis)
        return self.level + self.slope * height if self.slope else self.level

    def reaches(self, mass: Number) -> list[Fraction]:
        """Heights within it at which it is just this mass; none where it is level."""
        found: list[Fraction] = []
        if self.lever is not None and mass > 0 and mass < math.inf:
            found = [self.lever / Fraction(mass) - self.axis]
        elif self.slope and mass < math.inf:
            found = [(Fraction(mass) - Fraction(self.level)) / self.slope]
        return [height for height in found if self.start < height <= self.end]


@dataclass(frozen=True)
class Curve:
    """From −∞ to ∞; `hung` is what it is below 0 where that differs from the pieces."""

    pieces: tuple[Piece, ...]
    hung: Number | None = None

    def at(self, height: Number) -> Number:
        if height < 0 and self.hung is not None:
            return self.hung
        return next(each for each in self.pieces if height <= each.end).at(height)

    def greatest_height(self, mass: Number) -> Number:
        """The greatest height at which it is still at least this mass; −∞ where there is none."""
        for piece in reversed(self.pieces):
            if piece.lever is None and not piece.slope:
                if piece.level >= mass:
                    return piece.end
            elif piece.end < math.inf and piece.at(piece.end) >= mass:
                return piece.end
            elif mass == 0:
                return math.inf
            elif spots := piece.reaches(mass):
                return max(spots)
        return -math.inf


@dataclass(frozen=True)
class Head:
    """A head's figures as the design takes them: points with heights, the cap, trials, and the depth of the axis."""

    points: tuple[tuple[Range, Range], ...]  # (height, mass)
    cap: Range | None
    tried: tuple[tuple[Range, Range], ...]
    axis: Range

    @property
    def kind(self) -> str:
        if self.points:
            return "chart" if len(self.points) > 1 else "single"
        return "none" if self.cap else "unknown"

    @property
    def top(self) -> Range:
        if not self.points:
            return ANYTHING  # none is published
        return (max(each[0][0] for each in self.points), max(each[0][1] for each in self.points))


def head_of(part: Part) -> Head:
    rated = part.rated
    figures = [*part.chart, *([rated] if rated and rated.at else [])]
    points = sorted((_ends(each.at), _ends(each.mass)) for each in figures if each.at)
    axis = AXIS_UNSAID
    if part.axis is not None:
        axis = part.axis.range if part.axis.known else ANYTHING
    return Head(
        points=tuple(points),
        cap=_ends(rated.mass) if rated else None,
        tried=tuple((_ends(each.at), _ends(each.mass)) for each in part.tried if each.at),
        axis=axis,
    )


def _ends(quantity: Quantity | None) -> Range:
    if quantity is None or not quantity.known:
        return (ZERO, math.inf)
    return quantity.range


def upper(head: Head) -> Curve:
    """Above this it fails for certain."""
    if head.kind == "unknown":
        return Curve((Piece(-math.inf, math.inf, math.inf),))
    cap = head.cap[1] if head.cap else math.inf
    if head.kind == "none":
        return Curve((Piece(-math.inf, math.inf, cap),))
    heights = [each[0][1] for each in head.points]
    points = [(min(heights[n:]), each[1][1]) for n, each in enumerate(head.points)]
    pieces = _falling(points, cap)
    top, mass = pieces[-1].end, pieces[-1].at(pieces[-1].end)
    low, high = head.axis
    if high == math.inf or low <= -max(each[0][0] for each in head.points):
        beyond = Piece(top, math.inf, mass)
    else:
        beyond = Piece(top, math.inf, lever=Fraction(mass * (top + high)), axis=Fraction(high))
    return Curve((*pieces, beyond))


def lower(head: Head) -> Curve:
    """Up to this it holds for certain."""
    if head.kind == "unknown":
        pieces = [Piece(-math.inf, math.inf)]
    elif head.kind == "none":
        rated = UNCHARTED_SHARE * Fraction(head.cap[0] if head.cap else 0)
        near = Piece(-math.inf, UNCHARTED_HEIGHT, rated)
        beyond = Piece(UNCHARTED_HEIGHT, UNCHARTED_TOP, lever=rated * UNCHARTED_HEIGHT)
        pieces = [near, beyond, Piece(UNCHARTED_TOP, math.inf)]
    else:
        pieces = _falling([(each[0][0], each[1][0]) for each in head.points], head.cap[0] if head.cap else math.inf)
        top, mass = Fraction(pieces[-1].end), pieces[-1].at(pieces[-1].end)
        axis = Fraction(min(head.axis[0], ZERO)) if head.axis[0] > -math.inf else -top
        if axis <= -top:
            pieces.append(Piece(top, math.inf))
        else:
            lever = Piece(top, REACH_BEYOND * top, lever=SHARE_BEYOND * Fraction(mass) * (top + axis), axis=axis)
            pieces += [lever, Piece(REACH_BEYOND * top, math.inf)]
    curve = Curve(tuple(pieces), ZERO)
    most = upper(head)
    for height, mass_tried in head.tried:
        curve = _raised(curve, most, height[0], mass_tried[0])
    return curve


def _falling(points: Sequence[tuple[Number, Number]], cap: Number) -> list[Piece]:
    """The least of a straight line through the points over all smaller heights, and never above the cap."""
    height, mass = points[0]
    least = min(mass, cap)
    pieces = [Piece(-math.inf, height, least)]
    for right, there in points[1:]:
        if right > height and there < least and there < mass:
            slope = Fraction(there - mass) / Fraction(right - height)
            line = Piece(height, right, mass - slope * height, slope)
            meets = max(height, *line.reaches(least), height)
            pieces += [Piece(height, meets, least), Piece(meets, right, line.level, slope)]
        else:
            pieces.append(Piece(height, right, least))
        height, mass, least = right, there, min(least, there)
    if pieces[-1].at(pieces[-1].end) > least:  # two figures at one height: beyond it the lesser holds
        pieces.append(Piece(height, height, least))
    return [each for each in pieces if each.start < each.end or each is pieces[-1]]


def _raised(curve: Curve, most: Curve, height: Number, mass: Number) -> Curve:
    """Raised to `mass` up to a height, never above the upper curve: of the three the middle one."""
    if height < 0:
        return curve
    spots: set[Number] = {height}
    for piece in (*curve.pieces, *most.pieces):
        spots |= {piece.end, *piece.reaches(mass)}
    start: Number = -math.inf
    pieces = []
    for end in sorted(spots):
        inside = _between(start, end)
        here, above = _piece(curve, inside), _piece(most, inside)
        chosen = here
        if end <= height and here.at(inside) < mass:
            chosen = Piece(start, end, mass) if mass <= above.at(inside) else above
        pieces.append(Piece(start, end, chosen.level, chosen.slope, chosen.lever, chosen.axis))
        start = end
    return Curve(tuple(pieces), curve.hung)


def _piece(curve: Curve, height: Number) -> Piece:
    return next(each for each in curve.pieces if height <= each.end)


def _between(start: Number, end: Number) -> Fraction:
    if start == -math.inf:
        return Fraction(end) - 1 if end < math.inf else ZERO
    return (Fraction(start) + Fraction(end)) / 2 if end < math.inf else Fraction(start) + 1


def capacity(least: Curve, most: Curve, height: Range) -> Range:
    """At a height anywhere in a range. Both curves fall with it, but the lower one starts at 0 below the plate."""
    held = least.pieces[-1].level if height[1] == math.inf else least.at(height[1])
    return (ZERO if height[0] < 0 else held, most.pieces[0].level if height[0] == -math.inf else most.at(height[0]))
