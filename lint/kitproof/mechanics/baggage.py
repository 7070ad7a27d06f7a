"""Bags and batteries of travellers: what is counted before the limits of air transport are looked at.

The limits themselves are dated data that a house may replace, with their sources, in `rules/air/limits`.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from kitproof.mechanics.ranges import Interval
from kitproof.mechanics.rounding import round_up


def side_sum(sides: Sequence[Interval]) -> Interval:
    """Length + width + height of a bag, in m: what carriers measure. Exact. No sides known: [0, ∞)."""
    if not sides:
        return 0.0, math.inf
    return math.fsum(low for low, _ in sides), math.fsum(high for _, high in sides)


def per_traveller(count: Interval, people: Interval) -> Interval:
    """The most that somebody carries where so many travellers share things as evenly as whole things can be shared.

    ⌈count / people⌉, a plain number; exact for whole counts. At least one person travels with what is carried; a number
    of people that is not known has no upper bound.
    """
    return _shared(count[0], people[1]), _shared(count[1], people[0])


def _shared(count: float, people: float) -> float:
    """Whoever carries anything carries one at least, however many share."""
    one = round_up(min(count, 1.0))
    return one if people == math.inf else max(one, round_up(count / max(people, 1.0)))
