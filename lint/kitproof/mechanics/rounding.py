"""Rounding up to whole things: batteries, pieces for each traveller."""

from __future__ import annotations

import math

from kitproof.mechanics.ranges import Interval

NEAR = 1e-9
"""A share of a number, as far as which it may miss a whole one by rounding and is still taken for it."""


def round_up(number: float) -> float:
    """The next whole number, or the nearest where only a rounding lies between. ∞ stays ∞."""
    if math.isinf(number):
        return number
    nearest = float(round(number))
    return nearest if abs(number - nearest) <= NEAR * max(abs(nearest), 1.0) else float(math.ceil(number))


def rounded_up(range_: Interval) -> Interval:
    """Both ends rounded up. Exact, as rounding up never turns an order round."""
    return round_up(range_[0]), round_up(range_[1])
