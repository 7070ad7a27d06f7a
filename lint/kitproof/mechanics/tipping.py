"""The slope at which a rig tips, set down on it without levelling, in the worst pan and at the worst tilt.

Source: a body stands as long as the plumb line through its centre of gravity meets its base; the static stability
factor (half the track over the height, its arctangent the angle) is the same law for a vehicle. The worst pan brings
pan and slope along the same edge's normal.
"""

from __future__ import annotations

import math

from kitproof.mechanics.arcs import Tipping, Turning
from kitproof.mechanics.ranges import Interval
from kitproof.mechanics.stance import Stance, at_best, worst_of

ANY_SLOPE: Interval = (-math.pi / 2, math.pi / 2)
"""Nothing is known of the slope at which it tips."""


def tip_angle(stance: Stance, edge: Interval) -> Interval:
    """The least slope, in radians, at which it tips: the least over all tilts of atan((edge − e) / h).

    e, in m, is how far the combined centre of gravity is from the middle at each tilt, h its height above the ground;
    `edge`, in m, is how far the nearest edge is from the middle, R / 2. Negative where it falls on level ground. The
    low end is exact (to `arcs.NEAR`), the high end sound; for sharp values both are the same. Not known, −90° to 90°,
    where the rig may have no mass or a place is not known.
    """
    if not stance.known:
        return ANY_SLOPE
    bad, tilt = worst_of(stance, lambda _: Tipping(edge[0]))
    if stance.sharp and edge[0] == edge[1]:
        return -bad, -bad
    widest = Tipping(edge[1])
    good = at_best(stance, lambda lean, up: min(widest.value(lean, up[0]), widest.value(lean, up[1])), tilt)
    return -bad, max(-good, -bad)


def lean(stance: Stance) -> Interval:
    """e, in m: the greatest distance of the combined centre of gravity from the middle over all tilts.

    The high end is exact (to `arcs.NEAR`), the low end sound; for sharp values both are the same. Not known, [0, ∞),
    where the rig may have no mass or a place is not known.
    """
    if not stance.known:
        return 0.0, math.inf
    most, tilt = worst_of(stance, lambda _: Turning(1.0, 0.0, 0.0))
    if stance.sharp:
        return most, most
    return min(at_best(stance, lambda lean, _: lean, tilt), most), most
