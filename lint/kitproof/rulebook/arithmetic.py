"""Interval arithmetic of the rule language: + - * / min max abs, and the ends of a reach.

Every result holds the result for each choice of values inside its inputs, and carries what is missing of all of them.
The ranges themselves are `facts.ranges`'.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from kitproof.facts.values import Amount, joined
from kitproof.mechanics import ranges


def plus(one: Amount, other: Amount) -> Amount:
    return _amount(ranges.add(_ends(one), _ends(other)), one, other)


def minus(one: Amount, other: Amount) -> Amount:
    return _amount(ranges.subtract(_ends(one), _ends(other)), one, other)


def times(one: Amount, other: Amount) -> Amount:
    return _amount(ranges.multiply(_ends(one), _ends(other)), one, other)


def over(one: Amount, other: Amount) -> Amount:
    """Quotient. Over what may be nothing it has no bound on that side; over nothing at all it can be anything."""
    return _amount(ranges.divide(_ends(one), _ends(other)), one, other)


def negative(of: Amount) -> Amount:
    return _amount(ranges.negate(_ends(of)), of)


def least(of: Sequence[Amount]) -> Amount:
    return _amount(ranges.least(*(_ends(each) for each in of)), *of)


def greatest(of: Sequence[Amount]) -> Amount:
    return _amount(ranges.greatest(*(_ends(each) for each in of)), *of)


def size(of: Amount) -> Amount:
    """abs: how far from nothing, either way."""
    return _amount(ranges.absolute(_ends(of)), of)


def ends_of(reach: Amount) -> tuple[Amount, Amount]:
    """The two ends of a reach as numbers. Of a reach that is not known each end may be anywhere in what is known."""
    if reach.missing:
        return reach, reach
    return Amount(reach.low, reach.low), Amount(reach.high, reach.high)


def _ends(amount: Amount) -> ranges.Interval:
    return amount.low, amount.high


def _amount(ends: ranges.Interval, *of: Amount) -> Amount:
    """A range as an amount. Infinity less infinity says nothing: that end then has no bound."""
    low, high = ends
    low = -math.inf if math.isnan(low) else low
    high = math.inf if math.isnan(high) else high
    return Amount(low, high, joined(*(each.missing for each in of)))
