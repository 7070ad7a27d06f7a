"""Interval arithmetic of the rule language: + - * / min max abs, and the ends of a reach.

Every result holds the result for each choice of values inside its inputs, and carries what is missing of all of them.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from kitproof.facts.values import Amount, joined


def plus(one: Amount, other: Amount) -> Amount:
    return _spanned(one.low + other.low, one.high + other.high, one, other)


def minus(one: Amount, other: Amount) -> Amount:
    return _spanned(one.low - other.high, one.high - other.low, one, other)


def times(one: Amount, other: Amount) -> Amount:
    corners = [_product(a, b) for a in (one.low, one.high) for b in (other.low, other.high)]
    return Amount(min(corners), max(corners), joined(one.missing, other.missing))


def over(one: Amount, other: Amount) -> Amount:
    """Quotient. Over what may be nothing it has no bound on that side; over nothing at all it can be anything."""
    if other.low == 0 == other.high or other.low < 0 < other.high:
        return Amount(-math.inf, math.inf, joined(one.missing, other.missing))
    ends = sorted(_inverse(end, other) for end in (other.low, other.high))
    return times(one, Amount(ends[0], ends[1], other.missing))


def negative(of: Amount) -> Amount:
    return Amount(-of.high, -of.low, of.missing)


def least(of: Sequence[Amount]) -> Amount:
    missing = joined(*(each.missing for each in of))
    return Amount(min(each.low for each in of), min(each.high for each in of), missing)


def greatest(of: Sequence[Amount]) -> Amount:
    missing = joined(*(each.missing for each in of))
    return Amount(max(each.low for each in of), max(each.high for each in of), missing)


def size(of: Amount) -> Amount:
    """abs: how far from nothing, either way."""
    ends = (abs(of.low), abs(of.high))
    return Amount(0.0 if of.low <= 0 <= of.high else min(ends), max(ends), of.missing)


def ends_of(reach: Amount) -> tuple[Amount, Amount]:
    """The two ends of a reach as numbers. Of a reach that is not known each end may be anywhere in what is known."""
    if reach.missing:
        return reach, reach
    return Amount(reach.low, reach.low), Amount(reach.high, reach.high)


def _spanned(low: float, high: float, one: Amount, other: Amount) -> Amount:
    """An interval whose ends may be infinity less infinity: then nothing is known of that end."""
    low = -math.inf if math.isnan(low) else low
    high = math.inf if math.isnan(high) else high
    return Amount(low, high, joined(one.missing, other.missing))


def _product(a: float, b: float) -> float:
    """Nothing times what has no bound is nothing: the bound is never reached."""
    return 0.0 if a == 0 or b == 0 else a * b


def _inverse(end: float, of: Amount) -> float:
    if end == 0:
        return math.inf if of.high > 0 else -math.inf
    return 1 / end
