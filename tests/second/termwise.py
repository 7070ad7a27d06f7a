"""A build in doubt taken term by term in plain interval arithmetic: what no range of ours may be wider than.

The sums that the design names are each taken over all corners for themselves: the mass of what tilts and of what rests,
their quotients X, L and H, the share of the mass that tilts. Then they are put together as if they had nothing to do
with each other.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from tests.second.corners import total
from tests.second.described import Number, Range
from tests.second.footing import edge_levelled, length_of
from tests.second.leaning import Box
from tests.second.weights import moment

Ends = tuple[float, float]
G = 9.80665
SAFETY = 1.5


def multiplied(a: Range, b: Range) -> Ends:
    """Floats; nothing times anything is nothing."""
    products = [0.0 if x == 0 or y == 0 else float(x) * float(y) for x in a for y in b]
    return (min(products), max(products))


def _sum(*several: Ends) -> Ends:
    return (sum(each[0] for each in several), sum(each[1] for each in several))


def _times(a: Ends, factor: float) -> Ends:
    return multiplied(a, (factor, factor))


def _quotient(above: Range, mass: Range) -> Ends:
    return multiplied(above, (1 / float(mass[1]), 1 / float(mass[0])))


@dataclass(frozen=True)
class Sums:
    """The sums of a box and their quotients; each in a range of its own."""

    mass: Ends
    share: Ends
    ahead: Ends
    left: Ends
    up: Ends
    plate: Ends
    axis: Ends
    rest: Ends
    head: tuple[Ends, Ends]
    beside: tuple[Ends, Ends]

    def lean(self, tilt: float) -> Ends:
        above = _times(_sum(self.up, self.axis), -math.sin(tilt))
        ahead = _sum(multiplied(self.share, _times(self.ahead, math.cos(tilt))), multiplied(self.share, above))
        others = (1 - self.share[1], 1 - self.share[0])
        off = [
            _sum(multiplied(self.share, head), multiplied(others, rest))
            for head, rest in zip(self.head, self.beside, strict=True)
        ]
        sides = [_sum(ahead, off[0]), _sum(multiplied(self.share, self.left), off[1])]
        nearest = [0.0 if low <= 0 <= high else min(abs(low), abs(high)) for low, high in sides]
        return (math.hypot(*nearest), math.hypot(*(max(abs(low), abs(high)) for low, high in sides)))

    def height(self, tilt: float) -> Ends:
        turned = [
            self.plate,
            _times(self.ahead, math.sin(tilt)),
            _times(_sum(self.up, self.axis), math.cos(tilt)),
            _times(self.axis, -1.0),
        ]
        others = (1 - self.share[1], 1 - self.share[0])
        return _sum(*(multiplied(self.share, each) for each in turned), multiplied(others, self.rest))


def sums(box: Box) -> Sums | None:
    """None where nothing can be told: nothing may weigh anything, or something has no bound."""
    carried, rest = total([w.mass for w in box.weights]), total([r.mass for r in box.rest])
    places = [each for w in box.weights for each in (w.mass, w.forward, w.left, w.up)]
    places += [box.plate, box.axis, *(each for r in box.rest for each in (r.mass, r.up)), box.slide.at, *box.steps]
    if any(math.isinf(end) for ends in places for end in ends) or carried[0] == 0 or rest[0] == 0:
        return None
    return Sums(
        mass=(float(carried[0] + rest[0]), float(carried[1] + rest[1])),
        share=(float(carried[0] / (carried[0] + rest[1])), float(carried[1] / (carried[1] + rest[0]))),
        ahead=_quotient(_ahead(box), carried),
        left=_quotient(moment([(w.mass, w.left) for w in box.weights]), carried),
        up=_quotient(moment([(w.mass, w.up) for w in box.weights]), carried),
        plate=(float(box.plate[0]), float(box.plate[1])),
        axis=(float(box.axis[0]), float(box.axis[1])),
        rest=_quotient(moment([(r.mass, r.up) for r in box.rest]), rest),
        head=(_floats(length_of(box.head_forward)), _floats(length_of(box.head_left))),
        beside=(
            _quotient(moment([(r.mass, length_of(r.forward)) for r in box.rest]), rest),
            _quotient(moment([(r.mass, length_of(r.left)) for r in box.rest]), rest),
        ),
    )


def _floats(ends: Range) -> Ends:
    return (float(ends[0]), float(ends[1]))


def _ahead(box: Box) -> Range:
    """Σ m x with the slide where it stands: set for balance, what its travel does not reach is left."""
    at = box.slide.at
    if not box.slide.balances:
        return moment([(w.mass, w.ahead(at)) for w in box.weights])
    back, front = (moment([(w.mass, w.ahead((end, end))) for w in box.weights]) for end in at)
    ends: list[Number] = [max(b, 0) + min(f, 0) for b, f in zip(back, front, strict=True)]
    return (ends[0], ends[1])


def tip(of: Sums, edge: Ends, tilt: float) -> Ends:
    """The slope at which it tips, turned round so that more is worse."""
    (near, far), up = of.lean(tilt), of.height(tilt)
    good = min(-math.atan2(edge[1] - near, max(h, 0.0)) for h in up)
    return (good, max(-math.atan2(edge[0] - far, max(h, 0.0)) for h in up))


def levelled(of: Sums, radius: Ends, bowl: float, slope: float) -> Ends:
    near, far = of.lean(0.0)
    return (near / edge_levelled(radius[1], bowl, slope), far / edge_levelled(radius[0], bowl, slope))


def overturning(of: Sums, edge: Ends, slope: float, pushing: Ends, tilt: float) -> Ends:
    (near, far), up = of.lean(tilt), of.height(tilt)
    by = [push / (mass * G * math.cos(slope)) for push, mass in zip(pushing, of.mass[::-1], strict=True)]
    return (
        max((near + up[0] * math.tan(slope) + by[0]) / edge[1], 0.0),
        (far + up[1] * math.tan(slope) + by[1]) / edge[0],
    )


def ballast(of: Sums, edge: Ends, slope: float, pushing: Ends, hook: Ends, tilt: float) -> Ends:
    (near, far), up = of.lean(tilt), of.height(tilt)
    cos, sin = math.cos(slope), math.sin(slope)
    least, most = (
        SAFETY * (e * cos + h * sin) - wide * cos for e, h, wide in ((near, up[0], edge[1]), (far, up[1], edge[0]))
    )
    short = min(least * mass * G for mass in of.mass) + SAFETY * pushing[0]
    long = max(most * mass * G for mass in of.mass) + SAFETY * pushing[1]
    return (
        kilograms(short, edge[1] * cos - SAFETY * hook[0] * sin),
        kilograms(long, edge[0] * cos - SAFETY * hook[1] * sin),
    )


def kilograms(short: float, each: float) -> float:
    """What is short, in N·m, over what a kilogram brings; none is enough where that is nothing."""
    if each > 0:
        return max(short, 0.0) / (G * each)
    return math.inf if short >= 0 else 0.0


def rise(reach: float, up: float) -> float:
    """√(d² + h²) − h."""
    d, h = max(reach, 0.0), max(up, 0.0)
    return d if h == 0 else d * d / (math.hypot(d, h) + h)


class Fall(NamedTuple):
    """The energy that a falling camera gains, and what it has to lift over the edge: weight, distance and height."""

    energy: float
    weight: float
    reach: float
    up: float


def falls(of: Sums, edge: Ends, energy: Ends) -> tuple[Fall, Fall]:
    """The mildest and the worst that can be."""
    (near, far), up = of.lean(0.0), of.height(0.0)
    mildest = Fall(energy[0], of.mass[1] * G, edge[1] - near, up[0])
    return mildest, Fall(energy[1], of.mass[0] * G, edge[0] - far, up[1])


def worst_on_the_way(each: Sequence[Fall]) -> float:
    """The greatest share of the energy that tips it, at any of them and on the way from one to the next."""
    found = [over(fall.energy, fall.weight * rise(fall.reach, fall.up)) for fall in each]
    for a, b in itertools.pairwise(each):
        low, high = 0.0, 1.0
        for _ in range(60):
            third = (high - low) / 3
            if _rise_between(a, b, low + third) <= _rise_between(a, b, high - third):
                high -= third
            else:
                low += third
        found.append(over(a.energy, a.weight * _rise_between(a, b, (low + high) / 2)))
    return max(found)


def _rise_between(a: Fall, b: Fall, share: float) -> float:
    return rise(a.reach + share * (b.reach - a.reach), a.up + share * (b.up - a.up))


def over(energy: float, needed: float) -> float:
    if energy == 0:
        return 0.0
    return energy / needed if needed > 0 else math.inf
