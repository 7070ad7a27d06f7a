"""Boxes of masses and places, and heads, for the tests of means, holding and loads; brute force to hold them to."""

from __future__ import annotations

import itertools
import math
import random
from collections.abc import Iterator, Sequence

import numpy as np
from hypothesis import strategies as st

from kitproof.mechanics.holding import Figure, Holding
from kitproof.mechanics.means import Term

Corner = tuple[tuple[float, float], ...]
"""A mass and a place for each term."""


def between(low: float, high: float) -> st.SearchStrategy[tuple[float, float]]:
    """An interval; one in four or so is sharp. Numbers are multiples of a thousandth, as people write them."""
    number = st.integers(round(low * 1000), round(high * 1000)).map(lambda n: n / 1000)
    pair = st.tuples(number, number).map(lambda ends: (min(ends), max(ends)))
    return st.one_of(number.map(lambda n: (n, n)), pair, pair, pair)


def terms(low: float = -0.4, high: float = 0.6, least: float = 0.0) -> st.SearchStrategy[Term]:
    return st.builds(lambda m, r: Term(*m, *r), between(least, 8.0), between(low, high))


def boxes(most: int = 4, low: float = -0.4, high: float = 0.6, least: float = 0.0) -> st.SearchStrategy[list[Term]]:
    return st.lists(terms(low, high, least), min_size=1, max_size=most)


def corners(box: Sequence[Term]) -> Iterator[Corner]:
    """All corners of a box."""
    each = [itertools.product((term.m_low, term.m_high), (term.r_low, term.r_high)) for term in box]
    yield from itertools.product(*each)


def inside(box: Sequence[Term], count: int, chance: random.Random) -> Iterator[Corner]:
    """Points anywhere in a box, its faces included more often than chance would have it."""
    for _ in range(count):
        yield tuple((_pick(t.m_low, t.m_high, chance), _pick(t.r_low, t.r_high, chance)) for t in box)


def _pick(low: float, high: float, chance: random.Random) -> float:
    return min(max(chance.uniform(low - 0.3 * (high - low), high + 0.3 * (high - low)), low), high)


def masses_along_box_sides(box: Sequence[Term], steps: int) -> Iterator[tuple[np.ndarray, np.ndarray]]:
    """Σm and Σmr, densely, along every side of the box of masses, for every corner of its places."""
    shares = np.linspace(0.0, 1.0, steps)
    for places in itertools.product(*((term.r_low, term.r_high) for term in box)):
        for moved, term in enumerate(box):
            others = [(t.m_low, t.m_high) if k != moved else (0.0,) for k, t in enumerate(box)]
            for masses in itertools.product(*others):
                run = term.m_low + shares * (term.m_high - term.m_low)
                moment = sum(m * r for m, r in zip(masses, places, strict=True))
                yield run + sum(masses), run * places[moved] + moment


def centre(corner: Corner) -> float:
    return math.fsum(m * r for m, r in corner) / math.fsum(m for m, _ in corner)


def figures() -> st.SearchStrategy[Figure]:
    return st.builds(Figure, between(0.5, 25.0), between(0.02, 0.5))


def sharp_figures() -> st.SearchStrategy[Figure]:
    mass = st.integers(500, 25000).map(lambda n: (n / 1000, n / 1000))
    return st.builds(Figure, mass, st.integers(20, 500).map(lambda n: (n / 1000, n / 1000)))


def axes() -> st.SearchStrategy[tuple[float, float] | None]:
    return st.one_of(st.none(), between(0.0, 0.15), between(-0.1, 0.15))


def heads(figure: st.SearchStrategy[Figure]) -> st.SearchStrategy[Holding]:
    """Charted, rated with and without a height, tried or not, and heads of which nothing is said."""
    rated = st.one_of(st.none(), figure, figure.map(lambda each: Figure(each.mass)))
    several = st.lists(figure, max_size=3).map(tuple)
    return st.builds(Holding, chart=several, rated=rated, tried=st.lists(figure, max_size=2).map(tuple), axis=axes())
