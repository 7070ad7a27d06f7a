"""The torque that is left about the tilt axis, with slide and counterbalance set as well as they go.

Symbols: θ tilt in rad, positive looking up; X how far forward of the axis the centre of gravity of all that tilts lies,
H how far above it, both in m at level; M its mass in kg; K the counterbalance in N·m; g = 9.80665 m/s². Torque,
lens-down positive (statics):

    T(θ) = M g X cos θ + (K − M g H) sin θ = F cos θ + V sin θ

with F = g Σ m x and V = K − g Σ m (r + a), both in N·m. V > 0: the spring is too strong and the build springs back;
V < 0: it falls away. The worst |T| over tilts t₁ to t₂ is |T| at t₁, at t₂, and hypot(F, V) at θ* = atan2(V, F), or
at θ* ± 180°, where one of them lies between. Tilts beyond a whole turn either way count as that turn.

**Exact over intervals.** F and V share their masses. What (F, V) can reach is worked out as flat convex regions (see
`regions`), one for each setting of the spring and each way of setting the slide. The worst |T| is a convex function of
(F, V), the greatest of |linear| functions: over a region it is greatest at a corner, and least at 0, if the region
holds (0, 0), or on a side, where it is stationary or bends. So both ends are exact, and both are reached by some build
within the box.

A slide that is set for balance takes F to 0 where its travel reaches; else it stands at an end of its travel, and what
is left has the sign of that end: F ≥ 0 with the slide right back, F ≤ 0 with it right forward.

Not exact, but never narrower than the truth: a counterbalance given as a mass at a height, with that height or the
depth of the axis not sharp; a number of steps that is not known, or more than `MANY_STEPS`.

Without bound: a mass, place or depth without bound makes the greatest ∞; for the least it is looked at up to
`MASS_TOP` and `PLACE_TOP`, which no part of a rig comes near. A mass that stands for a counterbalance at or below the
axis says nothing of its torque: [0, ∞).
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from kitproof.mechanics.counterbalancing import Setting, Spring, demand_range, settings
from kitproof.mechanics.means import Term, balance_range, moment_range
from kitproof.mechanics.ranges import WHOLE, Interval, add, multiply, negate
from kitproof.mechanics.ranges import hull as hull_of
from kitproof.mechanics.regions import Point, Region, added, cut, holds_origin, hull, scaled, sides, span
from kitproof.words.units import G

MASS_TOP = 1e5
"""In kg."""

PLACE_TOP = 1e3
"""In m."""

WHOLE_TURN = 2 * math.pi

BALANCED = 1e-9
"""In N·m: a torque fore and aft that counts as none, so that a rounding does not hide a build that balances."""


class Weight(NamedTuple):
    """Something that tilts: its mass in kg, its place in m forward of the tilt axis with the slide at its mark, and
    above the plate; `slides` if it moves with the slide."""

    mass: Interval
    forward: Interval
    up: Interval
    slides: bool = True

    @property
    def term(self) -> Term:
        """Its mass and height."""
        return Term(*self.mass, *self.up)


class Slide(NamedTuple):
    """Where the slide stands, in m forward of its mark: anywhere from `low` to `high`, not known where; or, if it
    `balances`, within that travel where the build balances, at the nearer end if that is out of reach."""

    low: float = 0.0
    high: float = 0.0
    balances: bool = False


NO_SLIDE = Slide()


def torque(forward: float, spring: float, tilt: float) -> float:
    """T(θ) = F cos θ + V sin θ in N·m, lens-down positive; F = M g X, V = K − M g H in N·m, θ in rad. Statics."""
    return forward * math.cos(tilt) + spring * math.sin(tilt)


def worst_tilt(forward: float, spring: float, tilts: Interval) -> float:
    """The tilt from `tilts[0]` to `tilts[1]`, in rad, at which |T| is greatest; the lowest of several."""
    tilts = _limited(tilts, WHOLE_TURN)
    steepest = math.atan2(spring, forward)
    turns = range(math.ceil((tilts[0] - steepest) / math.pi), math.floor((tilts[1] - steepest) / math.pi) + 1)
    inside = [steepest + turns[0] * math.pi] if turns else []
    return max((tilts[0], *inside, tilts[1]), key=lambda tilt: abs(torque(forward, spring, tilt)))


def worst_torque(forward: float, spring: float, tilts: Interval) -> float:
    """The greatest |T| in N·m over tilts in rad, for one pair of F and V."""
    return abs(torque(forward, spring, worst_tilt(forward, spring, tilts)))


def torque_left_range(
    weights: Sequence[Weight], axis: Interval, spring: Spring, tilts: Interval, slide: Slide = NO_SLIDE
) -> Interval:
    """`torque_left`: the worst |T| in N·m over tilts in rad, with the spring at its nearest setting.

    `axis` is the depth of the tilt axis below the plate in m. `tilts` is a reach: all of it is used.
    """
    found = list(_reached(weights, axis, spring, slide))
    if not found:
        return 0.0, math.inf
    low = min(_least_worst(region, _limited(tilts, WHOLE_TURN)) for region in found)
    if _endless(weights, axis, slide):
        return low, math.inf
    return low, max(worst_torque(*corner, tilts) for region in found for corner in region)


def spring_left_range(weights: Sequence[Weight], axis: Interval, spring: Spring) -> Interval:
    """V = K − M g H in N·m with the spring at its nearest setting: below 0 it falls away, above it springs back.

    Exact, or wider, as `torque_left_range` is.
    """
    upright = [weight._replace(forward=(0.0, 0.0)) for weight in weights]
    found = list(_reached(upright, axis, spring, NO_SLIDE))
    if not found or _endless(upright, axis, NO_SLIDE):
        return WHOLE
    return hull_of(*(span(region, 1) for region in found))


def forward_left_range(weights: Sequence[Weight], slide: Slide) -> Interval:
    """F = M g X in N·m, exactly: what is left fore and aft with the slide where it stands, lens-down positive."""
    if not slide.balances:
        return multiply((G, G), _forward_moment(weights, (slide.low, slide.high)))
    ends = _limited((slide.low, slide.high), PLACE_TOP)
    back, front = (_forward_moment(weights, (at, at)) for at in ends)
    return multiply((G, G), (max(back[0], 0.0) + min(front[0], 0.0), max(back[1], 0.0) + min(front[1], 0.0)))


def drag_share(left: Interval, most: float) -> Interval:
    """`drag_hold`: the torque left over the most drag, both in N·m, exactly.

    Above 1 it cannot even be slowed. At 1 or below the words are "slowed, not held: lock the tilt": fluid drag resists
    a motion and does not hold a load (statics: it is a torque that goes with the speed, nothing at rest).
    """
    if most > 0:
        return left[0] / most, left[1] / most
    return (0.0 if left[0] == 0 else math.inf), (0.0 if left[1] == 0 else math.inf)


def left_over_range(before: Sequence[Weight], new: Sequence[Weight], travel: Interval = WHOLE) -> Interval:
    """`left_over` = g M_s (s_before − s_now) in N·m: the torque, lens-down positive, after `new` was added to `before`
    with the slide left where `before` wanted it. Exactly.

    s = −Σ m x / M_s in m is where the slide balances a build, M_s in kg what moves with it. As `before` was in balance,
    only what is new tips it: g Σ m (x + s_before) over what is new (x alone for what does not slide), and s_before does
    not depend on what is new. Within a `travel`, in m, the slide stands at its nearer end where s_before is out of
    reach, and what was left over then counts as well. Where nothing may have stood on the slide before, it may
    stand anywhere in its travel.
    """
    first, last = min(travel[0], PLACE_TOP), max(travel[1], -PLACE_TOP)
    wanted = balance_range(_terms(before, slides=True), _terms(before, slides=False))
    if wanted == WHOLE:
        return multiply((G, G), _forward_moment([*before, *new], travel))
    found = []
    if max(wanted[0], first) <= min(wanted[1], last):
        found.append(_forward_moment(new, (max(wanted[0], first), min(wanted[1], last))))
    if wanted[0] < first:
        rest = _forward_moment(before, (first, first))
        found.append(add((max(rest[0], 0.0), max(rest[1], 0.0)), _forward_moment(new, (first, first))))
    if wanted[1] > last:
        rest = _forward_moment(before, (last, last))
        found.append(add((min(rest[0], 0.0), min(rest[1], 0.0)), _forward_moment(new, (last, last))))
    return multiply((G, G), hull_of(*found))


def fall_energy_range(spring_left: Interval, tilts: Interval) -> Interval:
    """(M g H − K)(1 − cos θ) in J: what a camera gains that falls from level with the tilt free and X = 0.

    `spring_left` is V = K − M g H in N·m; where it is not negative nothing falls. θ is the farthest of `tilts`, in rad,
    from level, either way: a reach, so the worst end counts; no more than half a turn. Energy: the work of T(θ).
    """
    farthest = min(max(abs(tilts[0]), abs(tilts[1])), math.pi)
    falling = negate((min(spring_left[0], 0.0), min(spring_left[1], 0.0)))
    return multiply(falling, (1 - math.cos(farthest),) * 2)


def _terms(weights: Sequence[Weight], *, slides: bool) -> list[Term]:
    return [Term(*weight.mass, *weight.forward) for weight in weights if weight.slides == slides]


def _forward(weight: Weight, at: Interval) -> Interval:
    return add(weight.forward, at) if weight.slides else weight.forward


def _forward_moment(weights: Sequence[Weight], at: Interval) -> Interval:
    """Σ m x in kg·m with the slide anywhere within `at`. One place is shared by all that slides, yet as masses are at
    least 0 the sum is the same as if each had its own."""
    return moment_range([Term(*weight.mass, *_forward(weight, at)) for weight in weights])


def _endless(weights: Sequence[Weight], axis: Interval, slide: Slide) -> bool:
    live = [weight for weight in weights if weight.mass[1] > 0]
    ends = [end for weight in live for end in (weight.mass[1], *weight.forward, *weight.up)]
    return bool(live) and not all(math.isfinite(end) for end in (*ends, *axis, slide.low, slide.high))


def _reached(weights: Sequence[Weight], axis: Interval, spring: Spring, slide: Slide) -> Iterator[Region]:
    """All (F, V) that can be reached, as convex regions; none where the spring says nothing of its torque."""
    live = [_bounded(weight) for weight in weights if weight.mass[1] > 0]
    depth = _limited(axis, PLACE_TOP)
    if not 0 < spring.lever(depth)[0] <= spring.lever(depth)[1] < math.inf:
        return
    demand = demand_range([weight.term for weight in live], depth, spring)
    for sums in _moments(live, depth, slide):
        for setting in settings(spring, demand):
            region = _set(sums, setting, spring)
            if region:
                yield region


class _Sums(NamedTuple):
    """(F, g Σ m (r + a)) at each end of the depth a, and what F is kept to by the way in which the slide is set."""

    regions: tuple[tuple[float, Region], ...]
    kept: Interval
    balanced: bool = False


def _moments(weights: Sequence[Weight], axis: Interval, slide: Slide) -> Iterator[_Sums]:
    low, high = _limited((slide.low, slide.high), PLACE_TOP)
    if not slide.balances:
        yield _Sums(_at(weights, axis, (low, high)), WHOLE)
        return
    yield _Sums(_at(weights, axis, (low, low)), (0.0, math.inf))
    yield _Sums(_at(weights, axis, (high, high)), (-math.inf, 0.0))
    yield _Sums(_at(weights, axis, (low, high)), (-BALANCED, BALANCED), balanced=True)


def _at(weights: Sequence[Weight], axis: Interval, at: Interval) -> tuple[tuple[float, Region], ...]:
    """For each end of the depth the region of both sums, in N·m, with the slide anywhere within `at`."""
    found = []
    for depth in dict.fromkeys(axis):
        each = [scaled(w.mass, _forward(w, at), add(w.up, (depth, depth))) for w in weights]
        found.append((depth, tuple((G * x, G * y) for x, y in added(each))))
    return tuple(found)


def _set(sums: _Sums, setting: Setting, spring: Spring) -> Region:
    """The (F, V) reached with the spring at one setting: only those for which it is the nearest.

    The hull over the two ends of the depth is what lies between them as well: V is linear in the depth while all else
    stands still. `lever` is K over what the spring is set to; V = lever × (setting − what is needed in its unit).
    """
    levers = {depth: spring.lever((depth, depth)) for depth, _ in sums.regions}
    lever = hull_of(*levers.values())
    value = setting.set_to[0]
    region = hull(
        (forward, each * value - needed)
        for depth, corners in sums.regions
        for each in levers[depth]
        for forward, needed in corners
    )
    over = multiply(lever, (value - setting.high, value - setting.low))
    region = cut(cut(region, 0, *sums.kept), 1, *over)
    if region and setting.set_to[0] < setting.set_to[1]:
        rest = multiply(lever, (-setting.half, setting.half))
        region = hull((forward, left) for forward in span(region, 0) for left in rest)
    return hull((0.0, left) for _, left in region) if sums.balanced else region


def _least_worst(region: Region, tilts: Interval) -> float:
    """The least, over a region, of the worst |T| over tilts."""
    if holds_origin(region):
        return 0.0
    return min(worst_torque(*point, tilts) for side in sides(region) for point in _telling(*side, tilts))


def _telling(start: Point, end: Point, tilts: Interval) -> Iterator[Point]:
    """Points of a side among which the worst |T|, convex along it, is least: the ends; the foot of the perpendicular
    from (0, 0), where hypot(F, V) is least; and where |T| is the same at both ends of the tilts, where it bends."""
    yield start
    yield end
    run = end[0] - start[0], end[1] - start[1]
    first, last = ((math.cos(tilt), math.sin(tilt)) for tilt in tilts)
    bends = ((first[0] + sign * last[0], first[1] + sign * last[1]) for sign in (1, -1))
    for normal in (run, *bends):
        slope = normal[0] * run[0] + normal[1] * run[1]
        share = -(normal[0] * start[0] + normal[1] * start[1]) / slope if slope != 0 else 0.0
        if 0 < share < 1:
            yield start[0] + share * run[0], start[1] + share * run[1]


def _bounded(weight: Weight) -> Weight:
    mass = min(weight.mass[0], MASS_TOP), min(weight.mass[1], MASS_TOP)
    return weight._replace(mass=mass, forward=_limited(weight.forward, PLACE_TOP), up=_limited(weight.up, PLACE_TOP))


def _limited(interval: Interval, top: float) -> Interval:
    return max(min(interval[0], top), -top), max(min(interval[1], top), -top)
