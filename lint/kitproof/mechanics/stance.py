"""How a rig stands: what tilts and what rests, each with its mass and centre of gravity, anywhere in ranges.

`worst_of` is the worst over the whole box and over all tilts, `at_best` the least bad that a box can be at its worst
tilt; from these `tipping` and `overturning` take the two ends of their facts. Masses in kg, lengths in m, angles in
radians.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from itertools import product
from typing import NamedTuple

from msgspec import Struct
from msgspec.structs import astuple

from kitproof.mechanics.arcs import Arc, Measure, worst
from kitproof.mechanics.ranges import Interval, absolute, add, negate, times

LOOKS = 16
"""Into how many parts the reach of tilts is cut where `at_best` looks; any number is sound, more is closer."""


class Masses(NamedTuple):
    """One corner of what is known of the two masses: the whole, and the share of it that tilts."""

    whole: float
    share: float


class Stance(Struct, frozen=True):
    """A rig on its feet, upright over the middle of its foot circle, as long as it does not tip.

    What tilts: its mass `carried`, its centre of gravity `forward` of the tilt axis, `left` of the middle and `up` from
    the top face of the plate, all as with the head level; that face `plate` above the ground, the tilt axis `axis`
    below it (negative above) and `plate_forward` of the middle. What rests (sticks, head, ballast): `rest`,
    `rest_forward`, `rest_left`, and `rest_up` above the ground. `tilts` is a reach, positive looking up: all of it is
    used, so its worst counts.
    """

    carried: Interval
    forward: Interval
    left: Interval
    up: Interval
    plate: Interval
    plate_forward: Interval
    axis: Interval
    rest: Interval
    rest_forward: Interval
    rest_left: Interval
    rest_up: Interval
    tilts: Interval

    @property
    def known(self) -> bool:
        """False where the rig may have no mass at all, or where something in it may be anywhere."""
        if self.carried[0] + self.rest[0] <= 0:
            return False
        tilting = (self.forward, self.left, self.up, self.plate, self.plate_forward, self.axis)
        resting = (self.rest_forward, self.rest_left, self.rest_up)
        places = tilting * (self.carried[1] > 0) + resting * (self.rest[1] > 0)
        return all(math.isfinite(end) for place in (*places, self.tilts) for end in place)

    @property
    def sharp(self) -> bool:
        """True where everything but the tilt is known to one value."""
        return all(low == high for low, high in astuple(self)[:-1])

    def corners(self) -> tuple[Masses, ...]:
        """The corners of what is known of the two masses. A mass without bound is a limit.

        Both without bound is left out: whatever the shares in that limit, it lies between the limits of the two others.
        """
        found = (_masses(carried, rest) for carried, rest in product(self.carried, self.rest))
        return tuple(dict.fromkeys(masses for masses in found if masses is not None))

    def arcs(self, masses: Masses) -> tuple[Arc, ...]:
        """The arcs at all corners of the places that can be worst, for one corner of the masses.

        Left or right makes no difference, so the side that is further out stands for both. What lifts the whole
        (`plate`, `rest_up`) goes together, both high or both low, and so does what moves it ahead.
        """
        share, others = masses.share, 1 - masses.share
        left = max(absolute(add(_times(self.left, share), _times(self.rest_left, others))))
        heights = add(_times(self.plate, share), _times(self.rest_up, others))
        middles = add(_times(self.plate_forward, share), _times(self.rest_forward, others))
        places = product(
            middles, heights, _times(self.forward, share), _times(self.up, share), _times(self.axis, share)
        )
        return tuple(dict.fromkeys(Arc(x, z - a, left, ahead, u + a) for x, z, ahead, u, a in places))

    def nearest(self, tilt: float) -> tuple[float, Interval]:
        """At one tilt, the least e and the height above the ground, each as its own range, over the whole box."""
        cos, sin = math.cos(tilt), math.sin(tilt)
        raised = add(_times(self.forward, sin), add(_times(self.up, cos), _times(self.axis, cos - 1)))
        turned = add(_times(self.forward, cos), negate(_times(add(self.up, self.axis), sin)))
        ahead = add(self.plate_forward, turned)
        shares = [masses.share for masses in self.corners()]
        share = min(shares), max(shares)
        forward = _mixed(ahead, self.rest_forward, share)
        left = _mixed(self.left, self.rest_left, share)
        return math.hypot(absolute(forward)[0], absolute(left)[0]), _mixed(add(self.plate, raised), self.rest_up, share)


def worst_of(stance: Stance, measure: Callable[[Masses], Measure]) -> tuple[float, float]:
    """The worst of a measure over the box and all tilts, and the tilt of it: exact, but for `arcs.NEAR`.

    At one tilt and in one direction of lean every measure here is a quotient of two functions linear in each mass and
    in each place, so it runs one way in each while the others stand still: its worst is at a corner. e is the greatest
    over all directions, and the worst over all directions of a worst at corners is at a corner too.
    """
    found = [(arc, measure(masses)) for masses in stance.corners() for arc in stance.arcs(masses)]
    return worst(found, stance.tilts)


def at_best(stance: Stance, least: Callable[[float, Interval], float], tilt: float) -> float:
    """How bad it is in any case: sound, not exact.

    `least` gives, from the least e and the range of heights at one tilt, what is reached there in any case. The worst
    tilt is at least as bad as each single tilt, so the greatest over any tilts will do: those looked at are spread over
    the reach, and `tilt`, where the worst corner has its worst.
    """
    return max(least(*stance.nearest(each)) for each in (tilt, *_spread(stance.tilts)))


def _spread(tilts: Interval) -> Iterator[float]:
    low, high = tilts
    return (low + (high - low) * part / LOOKS for part in range(LOOKS + 1))


def _masses(carried: float, rest: float) -> Masses | None:
    if carried == math.inf and rest == math.inf:
        return None
    if math.inf in (carried, rest):
        return Masses(math.inf, 1.0 if carried == math.inf else 0.0)
    return Masses(carried + rest, carried / (carried + rest))


def _times(a: Interval, factor: float) -> Interval:
    one, other = times(a[0], factor), times(a[1], factor)
    return (one, other) if factor >= 0 else (other, one)


def _mixed(tilting: Interval, resting: Interval, share: Interval) -> Interval:
    """The range of share × tilting + (1 − share) × resting: it is linear in each, so its ends are at corners."""
    low, high = ([_times(tilting, each)[end] + _times(resting, 1 - each)[end] for each in share] for end in (0, 1))
    return min(low), max(high)
