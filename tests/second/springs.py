"""Counterbalance and the torque that is left, after the design.

(F, N) = (g Σ m x, g Σ m (r + a)) of a build in doubt is a flat convex figure: each part gives the hull of its corners,
and the figures add up. It is cut into strips of N, in each of which the spring has one setting, and T = F cos θ +
(K − N) sin θ. |T| at its worst tilt is convex over each piece: greatest at a corner, least at 0 or on a side, where it
is searched for. All in floats.

Held between two ranges, not to both ends: a counterbalance that is a mass at a height, where that height or the depth
of the axis is in doubt (no wider than if any setting went with any need), one with steps whose number is not said (no
wider than if the nearest were always half the reach away), and what rests on anything without bound.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from tests.second.described import ANY_MASS, ANYTHING, NOTHING, ZERO, Between, Found, Number, Range, Spring
from tests.second.figures import Polygon, added, clipped, greatest, least, spanned
from tests.second.placing import plus
from tests.second.weights import G, Sliding, Weight, endless, moment

FEWEST_STEPS = (2, 3, 4, 7)
"""Tried where the number of steps is not said: none may be fewer than two."""

TALL = 10.0
HEAVY = 1000.0
"""What stands in, in m and kg, for what has no bound, where only some of what can be is looked at."""


@dataclass(frozen=True)
class Strip:
    """A stretch of what is needed, and what is left of it, K − N: `rest` about a setting K, or about N itself."""

    low: float
    high: float
    setting: float | None
    rest: float = 0.0

    def left(self, needed: float) -> tuple[float, float]:
        middle = 0.0 if self.setting is None else self.setting - needed
        return (middle - self.rest, middle + self.rest)


def usable(spring: Spring | None) -> bool:
    return spring is not None and spring.reach.known and not (spring.at and not spring.at.known)


def lever(spring: Spring, axis: Range) -> Range:
    """The torque of what the spring is set to, over it."""
    if spring.at is None:
        return (Fraction(1), Fraction(1))
    low, high = plus(spring.at.range, axis)
    return (G * low, G * high)


def counterbalance(weights: Sequence[Weight], axis: Range, spring: Spring | None) -> dict[str, Found]:
    """needed, share, short, over and step."""
    need = moment([(each.mass, plus(each.up, axis)) for each in weights])
    found: dict[str, Found] = {"counterbalance_needed": (G * need[0], G * need[1])}
    if spring is None or not usable(spring):
        unknown = {"share": ANYTHING, "short": ANY_MASS, "over": ANY_MASS, "step": ANY_MASS}
        return found | {f"counterbalance_{name}": each for name, each in unknown.items()}
    asked = _asked(weights, axis, spring)
    least_set, most = spring.reach.range
    short = _beyond(weights, axis, spring, most)
    over = _beyond(weights, axis, spring, least_set)
    steps: Range = ANY_MASS
    if spring.steps:
        steps = (_step(asked[0], spring, spring.steps), _step(asked[1], spring, spring.steps))
    return found | {
        "counterbalance_share": (asked[0] / most, asked[1] / most),
        "counterbalance_short": (max(short[0], ZERO), max(short[1], ZERO)),
        "counterbalance_over": (max(-over[1], ZERO), max(-over[0], ZERO)),
        "counterbalance_step": steps,
    }


def _asked(weights: Sequence[Weight], axis: Range, spring: Spring) -> Range:
    """What the spring would have to be set to, in its own unit: all corners, the depth and its height among them."""
    if spring.at is None:
        low, high = moment([(each.mass, plus(each.up, axis)) for each in weights])
        return (G * low, G * high)
    if endless(axis) or lever(spring, axis)[0] <= 0:
        return ANYTHING
    found = []
    for depth, height in itertools.product(axis, spring.at.range):
        ends = moment([(each.mass, plus(each.up, (depth, depth))) for each in weights])
        found += [end / (height + depth) for end in ends]
    return (min(found), max(found))


def _beyond(weights: Sequence[Weight], axis: Range, spring: Spring, set_to: Number) -> Range:
    """What is needed less what one setting gives, at all corners."""
    if endless(axis):
        return ANYTHING
    found: list[Number] = []
    for depth in axis:
        ends = moment([(each.mass, plus(each.up, (depth, depth))) for each in weights])
        found += [G * end - each * set_to for end in ends for each in lever(spring, (depth, depth))]
    return (min(found), max(found))


def _step(asked: Number, spring: Spring, steps: int) -> Number:
    """The nearest of all steps, off among them; the higher on a tie. What hangs below the axis wants it off."""
    least_set, most = spring.reach.range
    values = [ZERO, *(least_set + (most - least_set) * n / (steps - 1) for n in range(steps))]
    if asked < 0:
        return ZERO
    if math.isinf(asked):
        return ZERO + steps
    return Fraction(min(range(steps + 1), key=lambda n: (abs(values[n] - asked), -n)))


def strips(spring: Spring, torque: float, steps: int | None, rest: float = 0.0) -> list[Strip]:
    """Which setting is nearest to each need, in N·m; without steps it follows the need between its ends."""
    low, high = (float(end) * torque for end in spring.reach.range)
    if steps:
        values = [0.0, *(low + (high - low) * n / (steps - 1) for n in range(steps))]
        edges = [-math.inf, *((a + b) / 2 for a, b in itertools.pairwise(values)), math.inf]
        return [Strip(*ends, value) for value, ends in zip(values, itertools.pairwise(edges), strict=True)]
    return [
        Strip(-math.inf, low / 2, 0.0),
        Strip(low / 2, low, low),
        Strip(low, high, None, rest),
        Strip(high, math.inf, high),
    ]


def ways(spring: Spring, axis: Range) -> tuple[list[tuple[Range, list[Strip]]], list[Strip] | None]:
    """Depths of the axis with the strips that hold there; and, where those are but some of all, what holds them all.

    The second is None where the first is all there is.
    """
    torque = lever(spring, axis)
    sharp = torque[0] == torque[1]
    counts = [spring.steps] if spring.steps or spring.stepless else list(FEWEST_STEPS)
    if sharp and len(counts) == 1:
        return [(axis, strips(spring, float(torque[0]), counts[0]))], None
    found = []
    for depth in dict.fromkeys((axis[0], axis[1])) if not sharp else (None,):
        here = axis if depth is None else (depth, depth)
        for each in dict.fromkeys(lever(spring, here)):
            found += [(here, strips(spring, float(each), count)) for count in counts]
    half = float(spring.reach.high - spring.reach.low) / 2
    if sharp:
        return found, strips(spring, float(torque[0]), None, half * float(torque[0]))
    return found, []


def torque_left(
    weights: Sequence[Weight], axis: Range, spring: Spring | None, slide: Sliding, tilts: tuple[float, float]
) -> Between:
    """The worst |T| over tilts, with spring and slide set as well as they go; both alike where it is exact."""
    if spring is None or not usable(spring):
        return Between(ANY_MASS, ANY_MASS)
    live = [each for each in weights if each.mass[1] > 0]
    if spring.at is not None and (endless(axis) or lever(spring, axis)[0] <= 0):
        return Between(ANY_MASS, ANY_MASS)
    unbounded = bool(live) and endless(
        [*axis, *slide.at, *(end for each in live for end in (each.mass[1], *each.forward, *each.up))]
    )
    depth = _kept(axis, TALL)
    some, all_of = ways(spring, depth)
    inner = _ends([piece for here, cut in some for piece in pieces(live, here, cut, slide)], tilts)
    if unbounded:
        return Between((inner[0], math.inf), ANY_MASS)
    if all_of is None:
        return Between(inner, inner)
    if all_of:
        return Between(inner, _ends(pieces(live, depth, all_of, slide), tilts))
    return Between(inner, (ZERO, _any_setting(live, depth, spring, slide, tilts)))


def _ends(found: Sequence[Polygon], tilts: tuple[float, float]) -> Range:
    return (min(least(piece, tilts) for piece in found), max(greatest(piece, tilts) for piece in found))


def _any_setting(
    weights: Sequence[Weight], axis: Range, spring: Spring, slide: Sliding, tilts: tuple[float, float]
) -> float:
    """The worst if any setting went with any need."""
    whole = [piece for at, _ in _slid(slide) for piece in [figure(weights, axis, at)]]
    levers = lever(spring, axis)
    most = float(levers[1] * spring.reach.range[1])
    corners = [(f, k - n) for piece in whole for f, n in piece for k in (0.0, most)]
    return greatest(corners, tilts)


def figure(weights: Sequence[Weight], axis: Range, at: Range) -> Polygon:
    """All (F, N) with the slide within a stretch and the axis within its depth."""
    found: Polygon = [(0.0, 0.0)]
    g = float(G)
    for each in weights:
        mass = _kept(each.mass, HEAVY)
        ahead, up = _kept(each.ahead(at), TALL), _kept(plus(each.up, axis), TALL)
        found = added(
            found, [(g * float(m) * float(x), g * float(m) * float(r)) for m in mass for x in ahead for r in up]
        )
    return found


def _kept(ends: Range, top: float) -> Range:
    """The same, or some of it, without infinite ends: no number that is written comes near these."""
    low = -top if ends[0] == -math.inf else ends[0]
    return (low, max(low, top) if ends[1] == math.inf else ends[1])


def _slid(slide: Sliding) -> list[tuple[Range, tuple[float, float]]]:
    """Where the slide may stand, and what F is kept to there: right back it only stays with weight left ahead."""
    low, high = _kept(slide.at, TALL)
    if not slide.balances:
        return [((low, high), (-math.inf, math.inf))]
    return [((low, low), (0.0, math.inf)), ((high, high), (-math.inf, 0.0)), ((low, high), (0.0, 0.0))]


def pieces(weights: Sequence[Weight], axis: Range, cut: Sequence[Strip], slide: Sliding) -> list[Polygon]:
    """All (F, V) that can be, as convex pieces."""
    found = []
    for at, kept in _slid(slide):
        whole = clipped(figure(weights, axis, at), 0, *kept)
        for strip in cut:
            piece = clipped(whole, 1, strip.low, strip.high)
            if piece and strip.setting is None:  # nothing is left but the rest, whatever is needed
                found.append([(f, rest) for f in spanned(piece, 0) for rest in (-strip.rest, strip.rest)])
            elif piece:
                found.append([(f, left) for f, n in piece for left in strip.left(n)[:1]])
    return found


def spring_left(weights: Sequence[Weight], axis: Range, spring: Spring | None) -> tuple[Range, Range]:
    """V = K − N with the spring set: what it is at least, and what it is at most; alike where that is exact."""
    if spring is None or not usable(spring) or (spring.at and (endless(axis) or lever(spring, axis)[0] <= 0)):
        return ANYTHING, ANYTHING
    live = [each for each in weights if each.mass[1] > 0]
    if live and endless([*axis, *(end for each in live for end in (each.mass[1], *each.up))]):
        return ANYTHING, ANYTHING
    some, all_of = ways(spring, axis)
    inner = _span([end for here, cut in some for end in _left(live, here, cut)])
    if all_of is None:
        return inner, inner
    if all_of:
        return inner, _span(_left(live, axis, all_of))
    need = spanned(figure(live, axis, NOTHING), 1)
    most = float(lever(spring, axis)[1] * spring.reach.range[1])
    return inner, (-need[1], most - need[0])


def _left(weights: Sequence[Weight], axis: Range, cut: Sequence[Strip]) -> list[float]:
    low, high = spanned(figure(weights, axis, NOTHING), 1)
    return [
        left
        for strip in cut
        if strip.low <= high and strip.high >= low
        for needed in (max(low, strip.low), min(high, strip.high))
        for left in strip.left(needed)
    ]


def _span(values: Sequence[float]) -> Range:
    return (min(values), max(values))
