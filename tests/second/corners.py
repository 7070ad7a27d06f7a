"""Brute force over corners: the ends of sums and means over boxes of masses and places, in whole numbers.

A weighted mean is linear-fractional in each mass alone, so over a box it is extreme at a corner; in each place it
rises. All corners of the masses are tried, with all places at the end that counts.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from fractions import Fraction
from typing import NamedTuple

from tests.second.described import ANYTHING, ZERO, Number, Range


class Term(NamedTuple):
    """A mass and its place."""

    mass: Range
    place: Range


def total(masses: Sequence[Range]) -> Range:
    return (sum((each[0] for each in masses), ZERO), sum((each[1] for each in masses), ZERO))


def times(a: Number, b: Number) -> Number:
    """A product in which nothing times anything is nothing."""
    return ZERO if a == 0 or b == 0 else a * b


def mean(terms: Sequence[Term], resting: Sequence[Term] = ()) -> Range:
    """Σ m r over all terms, over Σ m over those that are not resting; anything where Σ m may be 0."""
    if sum((term.mass[0] for term in terms), ZERO) == 0:
        return ANYTHING
    low = _highest([_turned(each) for each in terms], [_turned(each) for each in resting])
    return (-low, _highest(terms, resting))


def _turned(term: Term) -> Term:
    return Term(term.mass, (-term.place[1], -term.place[0]))


def _highest(terms: Sequence[Term], resting: Sequence[Term]) -> Number:
    """The highest end: all places at their high end, every corner of the masses tried."""
    extra: Number = sum((max(times(m, term.place[1]) for m in term.mass) for term in resting), ZERO)
    live = [term for term in terms if term.mass[1] > 0]
    if extra == math.inf or any(term.place[1] == math.inf for term in live):
        return math.inf
    limits = [term.place[1] for term in live if term.mass[1] == math.inf]  # a mass without bound draws the mean to it
    return max([best_corner(live, Fraction(extra)), *limits])


def best_corner(terms: Sequence[Term], extra: Fraction) -> Fraction:
    """The greatest (extra + Σ m r) / Σ m over all corners of the masses; those without bound stay at their low end."""
    sums = corner_sums(terms, extra)
    best_mass, best_moment = sums.points[0]
    for mass, moment in sums.points:
        if moment * best_mass > best_moment * mass:
            best_mass, best_moment = mass, moment
    return Fraction(best_moment * sums.mass_unit, best_mass * sums.moment_unit)


class Sums(NamedTuple):
    """Σ m and Σ m r of every corner, in whole numbers: so many parts of a kilogram, and of a kilogram metre."""

    points: list[tuple[int, int]]
    mass_unit: int
    moment_unit: int


def corner_sums(terms: Sequence[Term], extra: Fraction = ZERO, bound: Fraction | None = None) -> Sums:
    """Every corner of the masses, places at their high end. A mass without bound goes up to `bound`, or stays low."""
    sharp = [(Fraction(t.mass[0]), _high(t, bound), Fraction(t.place[1])) for t in terms]
    mass_unit = math.lcm(*(f.denominator for low, high, _ in sharp for f in (low, high)))
    place_unit = math.lcm(extra.denominator, *(place.denominator for _, _, place in sharp))
    points = [(0, int(extra * mass_unit * place_unit))]
    for low, high, place in sharp:
        steps = {int(m * mass_unit) for m in (low, high)}
        r = int(place * place_unit)
        points = [(m + step, s + step * r) for m, s in points for step in steps]
    return Sums(points, mass_unit, mass_unit * place_unit)


def _high(term: Term, bound: Fraction | None) -> Fraction:
    if term.mass[1] == math.inf:
        return Fraction(term.mass[0]) if bound is None else bound
    return Fraction(term.mass[1])
