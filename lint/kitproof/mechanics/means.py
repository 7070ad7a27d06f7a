"""Exact ranges of sums, moments and centres of gravity, where masses and places are known to intervals.

Every mass stands in both sums of Σmr / Σm, so interval arithmetic term by term is far too wide. The fraction is
monotone in each mass and each place while the others stand still; its extremes lie at corners of the box. The highest
has all places at their high end and, by the derivative (r − mean) / Σm, every mass at its high end where its place lies
above the mean and at its low end where below: sort by place and raise the masses one after another while that helps.

Edge cases, which a second implementation should share:

- Σm may be 0 (the low ends are all 0, or there are no terms): the centre is not known, (−∞, ∞), even where all the
  places agree.
- A mass without bound (high end ∞) pulls the mean to its own place in the limit; that limit counts as reached.
- A place without bound (−∞ or ∞) at a mass that may be more than 0 takes its end of the mean with it. At a mass that
  is certainly 0 a place does not count.
- 0 × ∞ is 0.

Low ends of masses are finite and not negative; low ends of places are less than ∞, high ends more than −∞.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from kitproof.mechanics.ranges import WHOLE, Interval, negate, times


class Term(NamedTuple):
    """One mass, in kg, anywhere from `m_low` to `m_high`, at a place, in m, anywhere from `r_low` to `r_high`."""

    m_low: float
    m_high: float
    r_low: float
    r_high: float

    @property
    def mirrored(self) -> Term:
        """The same mass with its place turned to the other side of 0."""
        return Term(self.m_low, self.m_high, -self.r_high, -self.r_low)


def mass_range(terms: Sequence[Term]) -> Interval:
    """Σm, in kg."""
    return math.fsum(term.m_low for term in terms), math.fsum(term.m_high for term in terms)


def moment_range(terms: Sequence[Term]) -> Interval:
    """Σmr, in kg·m. It is linear in each mass and place, so its ends are the sums of its terms' ends."""
    low = math.fsum(min(times(term.m_low, term.r_low), times(term.m_high, term.r_low)) for term in terms)
    high = math.fsum(max(times(term.m_low, term.r_high), times(term.m_high, term.r_high)) for term in terms)
    return low, high


def mean_range(terms: Sequence[Term]) -> Interval:
    """Σmr / Σm, in m: the centre of gravity along one axis, exactly. Values that are sharp give a sharp centre."""
    if math.fsum(term.m_low for term in terms) <= 0:
        return WHOLE
    live = [term for term in terms if term.m_high > 0]
    first, last = min(term.r_low for term in live), max(term.r_high for term in live)
    ends = -_highest([term.mirrored for term in live], 0.0), _highest(live, 0.0)
    # A rounding must neither turn the range round nor put a centre outside the places of its parts.
    low, high = (min(max(end, first), last) for end in ends)
    return min(low, high), max(low, high)


def balance_range(moving: Sequence[Term], resting: Sequence[Term]) -> Interval:
    """How far the slide must go forward for balance, s = −Σmx / M_s in m, exactly.

    `moving` is what stands above the sliding joint: it is in Σmx and is M_s. `resting` tilts as well but does not move
    with the slide (a plate, the slide's own lower half): it is in Σmx only. Places are forward of the tilt axis with
    the slide at its mark. Not known, (−∞, ∞), where M_s may be 0.
    """
    if math.fsum(term.m_low for term in moving) <= 0:
        return WHOLE
    extra = moment_range(resting)
    live = [term for term in moving if term.m_high > 0]
    high = _highest(live, extra[1])
    low = -_highest([term.mirrored for term in live], -extra[0])
    return negate((min(low, high), max(low, high)))


def two_scales(front: Term, rear: Term) -> tuple[Interval, Interval]:
    """Mass, m = F + R in kg, and balance point, x = (F x_F + R x_R) / m in m, from what two scales show.

    Each term is a scale's reading and the place of its support. Both are exact, each for itself.
    """
    return mass_range((front, rear)), mean_range((front, rear))


def _highest(terms: Sequence[Term], extra: float) -> float:
    """The highest (extra + Σmr) / Σm over the box; Σm is more than 0 with all masses at their low end."""
    if extra == math.inf or any(term.r_high == math.inf for term in terms):
        return math.inf
    order = sorted(terms, key=lambda term: -term.r_high)
    mass = math.fsum(term.m_low for term in order)
    moment = extra + math.fsum(term.m_low * term.r_high for term in order)
    raised = 0
    for term in order:
        if term.r_high <= moment / mass:
            break
        if term.m_high == math.inf:
            return term.r_high
        mass += term.m_high - term.m_low
        moment += (term.m_high - term.m_low) * term.r_high
        raised += 1
    # Summed again at the corner that was found: fsum does not depend on the order, so a sharp box stays sharp.
    corner = [(term.m_high if place < raised else term.m_low, term.r_high) for place, term in enumerate(order)]
    return math.fsum([extra, *(m * r for m, r in corner)]) / math.fsum(m for m, _ in corner)
