"""Counterbalance: how much a build needs about the tilt axis, and what a head's spring can be set to.

Symbols: m mass in kg; r height of its centre of gravity above the top face of the plate, a depth of the tilt axis below
that face (negative above it), both in m; H height of the whole's centre of gravity above the axis in m; M = Σm in kg;
g = 9.80665 m/s²; K torque of the counterbalance in N·m at a tilt of 90°, K sin θ at a tilt θ.

- `counterbalance_needed` = M g H = g Σ m (r + a): with K equal to it, the torques of weight and spring, both as sin θ,
  cancel at every tilt (statics; the law of the zero-free-length spring, W d = k a b in the gravity-meter manual of
  LaCoste & Romberg). It may be negative, for a build that hangs below the axis.
- Steps: step 1 of n is the least, step n the most, evenly between; off is none, K = 0, and no step.
- A counterbalance given as masses at a height h above the plate balances m kg there: K = m g (h + a). It shares the
  depth of the axis with what is needed, so both are compared as masses at that height.
- A spring is set as near to what is needed as it goes, off among its settings, to the higher of two that are as near.
  So for what hangs below the axis (needed < 0) it is off, as any setting would add to the spring-back.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

from msgspec import Struct

from kitproof.mechanics.means import Term, moment_range
from kitproof.mechanics.ranges import WHOLE, Interval, add, divide, hull, multiply, subtract
from kitproof.words.units import G

MANY_STEPS = 100
"""From here on settings are not looked at one by one; the error of half a step is kept."""


class Setting(NamedTuple):
    """A stretch of what is needed, `low` to `high`, and what the spring is set to for it: within `set_to`.

    `half` is how far the setting may lie from what is needed, where that is not told by `set_to`.
    """

    set_to: Interval
    low: float
    high: float
    half: float = 0.0


class Spring(Struct, frozen=True):
    """What a head's counterbalance can be set to, besides off: `least` to `most`, in N·m.

    Both are finite; what is not known of a spring is not asked here. With a `height`, in m above the plate, they are
    masses in kg there instead. `steps` is None where
    their number is not known, and for a stepless one. Ends that are turned round are put right, negative ones are 0;
    one step between two ends that differ says nothing of where it is, and counts as a number of steps not known.
    """

    least: float
    most: float
    steps: int | None = None
    stepless: bool = False
    height: Interval | None = None

    @property
    def ends(self) -> Interval:
        return max(min(self.least, self.most), 0.0), max(self.least, self.most, 0.0)

    @property
    def counted(self) -> int | None:
        """How many steps there are; None where that is not known, and for a stepless one."""
        low, high = self.ends
        told = self.steps is not None and (self.steps > 1 or (self.steps == 1 and low == high))
        return self.steps if told and not self.stepless else None

    def lever(self, axis: Interval) -> Interval:
        """K over what the spring is set to: 1 for a torque, g (h + a), in m²/s², for a mass at a height."""
        if self.height is None:
            return 1.0, 1.0
        return multiply((G, G), add(self.height, axis))

    def at_step(self, number: int) -> float:
        """What step `number` of the counted ones gives, in the spring's unit; 0 is off."""
        low, high = self.ends
        count = self.counted
        if number <= 0:
            return 0.0
        if count is None or count == 1 or number >= count:
            return high
        return low + (high - low) * (number - 1) / (count - 1)


NO_SPRING = Spring(0.0, 0.0, stepless=True)
"""A head without counterbalance, or with it off."""


def needed_range(terms: Sequence[Term], axis: Interval) -> Interval:
    """`counterbalance_needed` = g Σ m (r + a) in N·m, exactly: it is linear in each mass, each height and the depth.

    `terms` are all that tilts, heights above the plate. Depth not known, (−∞, ∞): not known.
    """
    return multiply((G, G), moment_range(_above_axis(terms, axis)))


def demand_range(terms: Sequence[Term], axis: Interval, spring: Spring) -> Interval:
    """What the spring would have to be set to for K = M g H, in its own unit, exactly.

    For masses at a height h that is q = Σ m (r + a) / (h + a). With all else still it is (p + M a) / (h + a) over the
    depth, which runs one way, so that the ends of the depth are enough. Where a mass may stand at the axis or below it
    (h + a ≤ 0) it says nothing of a torque: not known.
    """
    if spring.height is None:
        return needed_range(terms, axis)
    if spring.lever(axis)[0] <= 0 or math.inf in (abs(axis[0]), axis[1]):
        return WHOLE
    moments = ((moment_range(_above_axis(terms, (depth, depth))), depth) for depth in axis)
    return hull(*(divide(moment, add(spring.height, (depth, depth))) for moment, depth in moments))


def share_range(terms: Sequence[Term], axis: Interval, spring: Spring) -> Interval:
    """`counterbalance_share` = needed / most, exactly. Above 1 it falls away at every setting; negative: hung low.

    A spring of 0 at most has an endless share of anything above the axis.
    """
    low, high = demand_range(terms, axis, spring)
    most = spring.ends[1]
    return _over(low, most), _over(high, most)


def shortfall_range(terms: Sequence[Term], axis: Interval, spring: Spring) -> Interval:
    """Too weak: what is needed beyond the most that the spring gives, max(0, M g H − K), in N·m, exactly."""
    low, high = _beyond(terms, axis, spring, spring.ends[1])
    return max(low, 0.0), max(high, 0.0)


def excess_range(terms: Sequence[Term], axis: Interval, spring: Spring) -> Interval:
    """Too strong: what the least setting gives beyond what is needed, max(0, K − M g H), in N·m, exactly.

    Off is not looked at here: it leaves the whole of what is needed.
    """
    low, high = _beyond(terms, axis, spring, spring.ends[0])
    return max(-high, 0.0), max(-low, 0.0)


def step_range(demand: Interval, spring: Spring) -> Interval:
    """`counterbalance_step`: the nearest step to what is needed, the higher on a tie; 0 is off.

    The nearest step rises with what is needed, so the ends are exact. [0, ∞) where the number of steps is not known;
    a stepless spring has no steps, and `setting_range` instead.
    """
    count = spring.counted
    if count is None:
        return 0.0, math.inf
    return float(nearest_step(demand[0], spring, count)), float(nearest_step(demand[1], spring, count))


def nearest_step(demand: float, spring: Spring, count: int) -> int:
    """The step of `count`, 0 for off, nearest to what is needed in the spring's unit; the higher on a tie."""
    low, high = spring.ends
    if demand < 0:
        return 0
    if demand >= high:
        return count
    guess = 1 if high == low else 1 + math.floor(max(demand - low, 0.0) / (high - low) * (count - 1))
    near = [number for number in (0, 1, guess, guess + 1, count) if number <= count]
    return max(near, key=lambda each: (-abs(spring.at_step(each) - demand), each))


def setting_range(demand: Interval, spring: Spring) -> Interval:
    """What the spring is set to, in its own unit; exactly for a stepless one and for counted steps.

    The setting rises with what is needed. With the number of steps not known, anywhere that even steps could be.
    """
    count = spring.counted
    if count is not None:
        low, high = step_range(demand, spring)
        return spring.at_step(int(low)), spring.at_step(int(high))
    if spring.stepless:
        return _nearest(demand[0], spring), _nearest(demand[1], spring)
    return hull(*(each.set_to for each in settings(spring, demand)))


def settings(spring: Spring, demand: Interval) -> list[Setting]:
    """What the spring may be set to over a range of what is needed: stretches side by side, the first and the last
    without an outer end, as nothing lies beyond the range."""
    every = _stretches(spring)
    first, last = (_index(every, end) for end in demand)
    chosen = every[first : last + 1]
    chosen[0] = chosen[0]._replace(low=-math.inf)
    chosen[-1] = chosen[-1]._replace(high=math.inf)
    return chosen


def _stretches(spring: Spring) -> list[Setting]:
    """All stretches, off first: a step each, or between least and most one stretch for all of them."""
    least, most = spring.ends
    count = spring.counted
    if count is not None and count <= MANY_STEPS:
        values = [spring.at_step(number) for number in range(count + 1)]
        edges = [-math.inf, *((a + b) / 2 for a, b in pairwise(values)), math.inf]
        return [Setting((v, v), *ends) for v, ends in zip(values, pairwise(edges), strict=True)]
    # Two steps, the fewest, leave half the whole between them; n steps a half of each of n − 1 gaps.
    half = 0.0 if spring.stepless else (most - least) / 2 / (1 if count is None else count - 1)
    return [
        Setting((0.0, 0.0), -math.inf, least / 2),
        Setting((least, least), least / 2, least),
        Setting((least, most), least, most, half),
        Setting((most, most), most, math.inf),
    ]


def _index(every: Sequence[Setting], demand: float) -> int:
    """The last stretch that what is needed lies in: on the border of two, the higher."""
    return max(number for number, each in enumerate(every) if number == 0 or each.low <= demand)


def _nearest(demand: float, spring: Spring) -> float:
    """What a stepless spring is set to for one value, off among its settings."""
    least, most = spring.ends
    return 0.0 if demand < least / 2 else min(max(demand, least), most)


def _above_axis(terms: Sequence[Term], axis: Interval) -> list[Term]:
    """The same terms with their heights above the axis.

    One depth is shared by all, yet as all masses are at least 0 the sum Σ m a is the same as if each had its own.
    """
    return [Term(t.m_low, t.m_high, *add((t.r_low, t.r_high), axis)) for t in terms]


def _beyond(terms: Sequence[Term], axis: Interval, spring: Spring, set_to: float) -> Interval:
    """M g H − K at one setting, in N·m: linear in the depth while the rest stands still, so its ends are enough."""
    found = (
        subtract(needed_range(terms, (depth, depth)), multiply(spring.lever((depth, depth)), (set_to, set_to)))
        for depth in axis
    )
    return WHOLE if math.inf in (abs(axis[0]), axis[1]) else hull(*found)


def _over(demand: float, most: float) -> float:
    if most > 0:
        return demand / most
    return 0.0 if demand == 0 else math.copysign(math.inf, demand)
