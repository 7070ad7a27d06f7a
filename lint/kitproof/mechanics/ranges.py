"""Plain interval arithmetic on pairs (low, high) of floats, low <= high.

Ends may be infinite; an infinite end means "no bound is known", never a value that is reached. So 0 × ∞ is 0: nothing
times something finite, however large. No result is ever NaN. Ends are rounded to nearest, not outward: what is compared
with them is known to a few digits at best.

These work term by term and forget that two operands may hold the same unknown. Where one does (every mass stands in
both sums of a centre of gravity), `means` and `loads` give the exact range instead.
"""

from __future__ import annotations

import math

Interval = tuple[float, float]

WHOLE: Interval = (-math.inf, math.inf)
"""Nothing is known."""


def times(a: float, b: float) -> float:
    """a × b with 0 × ∞ = 0."""
    return 0.0 if a == 0 or b == 0 else a * b


def add(a: Interval, b: Interval) -> Interval:
    return a[0] + b[0], a[1] + b[1]


def negate(a: Interval) -> Interval:
    return -a[1], -a[0]


def subtract(a: Interval, b: Interval) -> Interval:
    return a[0] - b[1], a[1] - b[0]


def multiply(a: Interval, b: Interval) -> Interval:
    (low, high), (least, most) = a, b
    ends = (times(low, least), times(low, most), times(high, least), times(high, most))
    return min(ends), max(ends)


def divide(a: Interval, b: Interval) -> Interval:
    """The hull of x / y over all x in a and all y in b that are not 0.

    With 0 inside b the quotient has no bound on either side (one side only, where a keeps to one side of 0 and 0 is an
    end of b). b exactly 0 has no quotient: nothing is known, the whole line. a exactly 0 gives 0 for any other b.
    """
    if b[0] == 0 == b[1] or b[0] < 0 < b[1]:
        return (0.0, 0.0) if a[0] == 0 == a[1] and b[0] < b[1] else WHOLE
    ends = [_quotient(x, y, b[1] > 0) for x in a for y in b]
    return min(ends), max(ends)


def _quotient(x: float, y: float, positive: bool) -> float:
    """x / y in the limit: a y of 0 is met from the side on which b lies, and ∞ / ∞ adds nothing to the other ends."""
    if x == 0 or math.isinf(y):
        return 0.0
    if y:
        return x / y
    return x * (math.inf if positive else -math.inf)


def square(a: Interval) -> Interval:
    low, high = absolute(a)
    return low * low, high * high


def root(a: Interval) -> Interval:
    """Square root of the part of a that is not negative; the whole line where all of a is negative."""
    if a[1] < 0:
        return WHOLE
    return math.sqrt(max(a[0], 0.0)), math.sqrt(a[1])


def absolute(a: Interval) -> Interval:
    return max(a[0], -a[1], 0.0), max(-a[0], a[1])


def least(*several: Interval) -> Interval:
    """The range of the least of several values."""
    return min(a[0] for a in several), min(a[1] for a in several)


def greatest(*several: Interval) -> Interval:
    """The range of the greatest of several values."""
    return max(a[0] for a in several), max(a[1] for a in several)


def hull(*several: Interval) -> Interval:
    """The least interval that holds all of several."""
    return min(a[0] for a in several), max(a[1] for a in several)
