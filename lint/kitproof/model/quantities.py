"""Intervals, reaches and places: SI floats with a dimension. Doubt and reach are two types on purpose."""

from __future__ import annotations

import math
from typing import TypeGuard

from msgspec import Struct

from kitproof.words.dimensions import LENGTH, Dimension

Range = tuple[float, float]
ANYWHERE: Range = (-math.inf, math.inf)


class Interval(Struct, frozen=True):
    """One quantity, anywhere between `low` and `high`. `known` is False for `?` and for what could not be read."""

    low: float
    high: float
    dimension: Dimension
    known: bool = True

    @property
    def range(self) -> Range:
        return (self.low, self.high)


def is_known(interval: Interval | None) -> TypeGuard[Interval]:
    """Whether a quantity is written, and not as `?` or in a way that cannot be read."""
    return interval is not None and interval.known


class Reach(Struct, frozen=True):
    """All from `low` to `high`: it will be used, or is allowed. Not doubt."""

    low: float
    high: float
    dimension: Dimension
    known: bool = True


class Spot(Struct, frozen=True):
    """A place from a seat, in metres: forward, up and left, each anywhere in its range."""

    forward: Range = (0.0, 0.0)
    up: Range = (0.0, 0.0)
    left: Range = (0.0, 0.0)

    def plus(self, other: Spot) -> Spot:
        return Spot(
            _sum(self.forward, other.forward),
            _sum(self.up, other.up),
            _sum(self.left, other.left),
        )


UNKNOWN_SPOT = Spot(ANYWHERE, ANYWHERE, ANYWHERE)


def _sum(a: Range, b: Range) -> Range:
    return (a[0] + b[0], a[1] + b[1])


def unknown(dimension: Dimension, *, positive: bool) -> Interval:
    """A quantity of which nothing is known; one that cannot be negative starts at 0."""
    return Interval(0.0 if positive else -math.inf, math.inf, dimension, known=False)


def length(low: float, high: float | None = None) -> Interval:
    return Interval(low, low if high is None else high, LENGTH)
