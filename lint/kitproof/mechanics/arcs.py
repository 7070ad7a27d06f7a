"""The path of a rig's centre of gravity while the head tilts, and the worst place on it.

What is carried turns about the tilt axis, so the combined centre of gravity of the whole rig runs on an arc: with the
tilt θ positive looking up, X the distance of what is carried forward of the axis and H its height above it,

    forward = x₀ + p (X cos θ − H sin θ)        up = z₀ + p (X sin θ + H cos θ)

where p is the share that what is carried has in the whole mass. Looking up brings a high centre back and a forward one
up. Left of the middle it stays at l. How far it lies from the middle of the feet is e = √(forward² + l²).

The worst tilt is found by halving (`worst`). Over a stretch of tilt w the height differs from its chord by at most
p √(X² + H²) w² / 8, and e exceeds its chord by no more than that: its second derivative is
l² f′² / e³ + f f″ / e ≥ −|f″|, which also holds where l = 0 and e has a corner. So each stretch has a bound that closes
in with the square of w, and a stretch is dropped only where nothing on it can be worse than what was found. Nothing
is missed by more than `NEAR`.

Source: statics; derived, and checked by dense scans and by scipy's optimisers.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import NamedTuple, Protocol

from msgspec import Struct

from kitproof.mechanics.ranges import Interval

NEAR = 1e-11
"""How close the worst is found, relative to the greater of itself and 1: in radians for an angle, else a share."""


class Arc(NamedTuple):
    """x₀, z₀ and l in m, p X and p H in m: the combined centre of gravity as a function of the tilt."""

    forward: float
    up: float
    left: float
    ahead: float
    above: float

    def at(self, tilt: float) -> tuple[float, float]:
        """e and height above the ground, in m, at a tilt in radians."""
        cos, sin = math.cos(tilt), math.sin(tilt)
        forward = self.forward + self.ahead * cos - self.above * sin
        return math.hypot(forward, self.left), self.up + self.ahead * sin + self.above * cos

    def room(self, width: float) -> float:
        """By how much e may exceed its chord, and the height leave it, over a stretch of tilt, in m."""
        return math.hypot(self.ahead, self.above) * width * width / 8


class Measure(Protocol):
    """How bad a place of the centre of gravity is: no worse for a smaller e, and worst over a polygon at a corner."""

    def value(self, lean: float, up: float) -> float:
        """How bad it is to have the centre of gravity `lean` from the middle and `up` above the ground, both in m."""

    def most(self, lean: float, up: float, room: float) -> float:
        """The worst with e up to `room` more and the height up to `room` more or less."""


class Tipping(Struct, frozen=True):
    """The slope at which it tips, turned round so that more is worse: −atan((edge − e) / h), in radians.

    Source: a body tips once the plumb line through its centre of gravity leaves its base. A centre below the ground is
    taken to be on it.
    """

    edge: float

    def value(self, lean: float, up: float) -> float:
        return -math.atan2(self.edge - lean, max(up, 0.0))

    def most(self, lean: float, up: float, room: float) -> float:
        return max(self.value(lean + room, up + room), self.value(lean + room, up - room))


class Turning(Struct, frozen=True):
    """A moment, or what goes with one: `by_lean` × e + `by_height` × h + `rest`; `by_lean` is not negative."""

    by_lean: float
    by_height: float
    rest: float

    def value(self, lean: float, up: float) -> float:
        return self.by_lean * lean + self.by_height * up + self.rest

    def most(self, lean: float, up: float, room: float) -> float:
        return self.value(lean, up) + (self.by_lean + abs(self.by_height)) * room


class _Stretch(NamedTuple):
    """An arc from one tilt to another, and the worst that can lie on it."""

    arc: Arc
    measure: Measure
    start: float
    end: float
    bound: float


def worst(arcs: Iterable[tuple[Arc, Measure]], tilts: Interval) -> tuple[float, float]:
    """The worst of several arcs over a reach of tilts in radians, each by its own measure, and the tilt of it."""
    tilts = tilts[0], min(tilts[1], tilts[0] + math.tau)
    best, tilt = -math.inf, tilts[0]
    waiting = []
    for arc, measure in arcs:
        for end in tilts:
            best, tilt = max((best, tilt), (measure.value(*arc.at(end)), end))
        waiting.append(_stretch(arc, measure, *tilts))
    while waiting:
        halves = []
        for stretch in waiting:
            if _settled(stretch.bound, best):
                continue
            middle = (stretch.start + stretch.end) / 2
            best, tilt = max((best, tilt), (stretch.measure.value(*stretch.arc.at(middle)), middle))
            halves.append(_stretch(stretch.arc, stretch.measure, stretch.start, middle))
            halves.append(_stretch(stretch.arc, stretch.measure, middle, stretch.end))
        waiting = [half for half in halves if not _settled(half.bound, best)]
    return best, tilt


def _stretch(arc: Arc, measure: Measure, start: float, end: float) -> _Stretch:
    room = arc.room(end - start)
    bound = max(measure.most(*arc.at(tilt), room) for tilt in (start, end))
    return _Stretch(arc, measure, start, end, bound)


def _settled(bound: float, best: float) -> bool:
    return bound <= best + NEAR * max(1.0, abs(best))
