"""`load_share`, `safe_share` and what else is a share, by corners, their hull and what can be extreme along its sides.

With all places at one end, (Σ m, Σ m r) over the box of the masses is a convex figure whose corners are among those of
the box: its hull is found from all of them. A share M / C(S / M) rises with S at one M, so the greatest lies on the
hull's upper side and the least on its lower side. Along a straight side every stretch between the heights at which the
curve changes has its extremes at its ends or where C = c − b h makes the share stationary. A mass without bound goes
up to a bound so high that no figure of a head changes beyond it.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Sequence
from fractions import Fraction

from tests.second.corners import Term, corner_sums
from tests.second.described import ZERO, Number, Range
from tests.second.heads import Curve, Piece

BOUND = Fraction(10**9)  # kg
Point = tuple[Fraction, Fraction]


def load_and_safe_share(terms: Sequence[Term], least: Curve, most: Curve) -> tuple[Range, Range]:
    """Both shares by the lower and the upper curve of a head; their greatest is one and the same."""
    live = [term for term in terms if term.mass[1] > 0]
    greatest = _greatest(live, least)
    return (_least(live, most), greatest), (_least_safe(live, least), greatest)


def share(mass: Number, capacity: Number) -> Number:
    if mass == 0 or capacity == math.inf:
        return ZERO
    return math.inf if capacity == 0 or mass == math.inf else mass / capacity


def _low(terms: Sequence[Term]) -> Fraction:
    return Fraction(sum((term.mass[0] for term in terms), ZERO))


def hull(terms: Sequence[Term], *, high: bool) -> list[Point]:
    """The upper or lower side of what (M, S) can be, from the least M up, with all places at that end."""
    sign = 1 if high else -1
    turned = [Term(t.mass, (ZERO, t.place[1] if high else -t.place[0])) for t in terms]
    sums = corner_sums(turned, bound=BOUND)
    best: dict[int, int] = {}
    for mass, moment in sums.points:
        best[mass] = max(moment, best.get(mass, moment))
    corners: list[tuple[int, int]] = []
    for m, s in sorted(best.items()):
        while len(corners) > 1 and _not_above(corners[-2], corners[-1], (m, s)):
            corners.pop()
        corners.append((m, s))
    return [(Fraction(m, sums.mass_unit), Fraction(sign * s, sums.moment_unit)) for m, s in corners]


def _not_above(a: tuple[int, int], b: tuple[int, int], c: tuple[int, int]) -> bool:
    return (b[1] - a[1]) * (c[0] - a[0]) <= (c[1] - a[1]) * (b[0] - a[0])


def _greatest(terms: Sequence[Term], curve: Curve) -> Number:
    """On the upper side. Anything that may hang, or has no bound, makes it ∞."""
    if not terms:
        return ZERO
    if any(math.inf in (abs(t.place[0]), abs(t.place[1]), t.mass[1]) for t in terms):
        return math.inf
    if any(s < 0 for m, s in hull(terms, high=False) if m > 0):
        return math.inf
    return max(_shares(hull(terms, high=True), curve, worst=True))


def _least(terms: Sequence[Term], curve: Curve) -> Number:
    mass = _low(terms)
    if mass == 0:
        return ZERO
    if any(term.place[0] == -math.inf for term in terms):
        return share(mass, curve.pieces[0].at(-1))
    return min(_shares(hull(terms, high=False), curve, worst=False))


def _least_safe(terms: Sequence[Term], curve: Curve) -> Number:
    """The lower curve is nothing below the plate: the best height is the lowest from 0 up.

    On the lower side where that is above the plate; else at 0, with the least M that can have its centre there: the
    least M of all, or where a side crosses the plate's face.
    """
    mass = _low(terms)
    if mass == 0:
        return ZERO
    below = any(term.place[0] == -math.inf for term in terms)
    above = any(term.place[1] == math.inf for term in terms)
    found: list[Number] = [math.inf]
    low_side = [] if below else hull(terms, high=False)
    high_side = [] if above else hull(terms, high=True)
    if low_side:
        upright = list(_upright(low_side))
        found += _shares(upright, curve, worst=False) if upright else []
    start_low = -math.inf if below else low_side[0][1]
    start_high = math.inf if above else high_side[0][1]
    crossings = [*_crossings(low_side), *_crossings(high_side)]
    masses = [mass] if start_low <= 0 <= start_high else [m for m, _ in crossings]
    return min([*found, *(share(m, curve.at(ZERO)) for m in masses)])


def _upright(side: Sequence[Point]) -> Iterator[Point]:
    """The stretch of a side that is not below the plate's face; the lower side bends upward, so at most two."""
    for n, point in enumerate(side):
        if n and (side[n - 1][1] < 0 < point[1] or side[n - 1][1] > 0 > point[1]):
            yield _crossing(side[n - 1], point)
        if point[1] >= 0:
            yield point


def _crossing(a: Point, b: Point) -> Point:
    return (a[0] + (b[0] - a[0]) * a[1] / (a[1] - b[1]), ZERO)


def _crossings(side: Sequence[Point]) -> Iterator[Point]:
    for a, b in itertools.pairwise(side):
        if (a[1] < 0) != (b[1] < 0) or a[1] == 0:
            yield _crossing(a, b) if a[1] != b[1] else a


def _shares(side: Sequence[Point], curve: Curve, *, worst: bool) -> list[Number]:
    """The shares at all points of a side that can be extreme; with `worst` also just above the heights of drops."""
    found = [share(m, curve.at(s / m)) for m, s in side if m > 0] or [ZERO]
    for a, b in itertools.pairwise(side):
        for piece in curve.pieces:
            found += list(_along(a, b, piece, curve, worst=worst))
    return found


def _along(a: Point, b: Point, piece: Piece, curve: Curve, *, worst: bool) -> Iterator[Number]:
    slope = (b[1] - a[1]) / (b[0] - a[0])
    offset = a[1] - slope * a[0]
    for height in (piece.start, piece.end):
        if abs(height) == math.inf or height == slope:
            continue
        mass = offset / (Fraction(height) - slope)
        if a[0] <= mass <= b[0] and mass > 0:
            yield share(mass, curve.at(height))
            goes_above = any(m > 0 and s / m > height for m, s in (a, b))
            if worst and height == piece.start and goes_above:
                yield share(mass, piece.at(height))
    if piece.slope:
        rise = Fraction(piece.level) + piece.slope * slope
        mass = -2 * piece.slope * offset / rise if rise else ZERO
        if a[0] <= mass <= b[0] and mass > 0 and piece.start < offset / mass + slope <= piece.end:
            yield share(mass, piece.at(offset / mass + slope))
