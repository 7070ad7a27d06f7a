"""Weights that tilt, springs and slides for the tests of torques; one build at a time worked out the plain way."""

from __future__ import annotations

import math
import random
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from hypothesis import strategies as st

from kitproof.mechanics.counterbalancing import Spring
from kitproof.mechanics.torques import Slide, Weight
from tests.mechanics.boxes import between

G = 9.80665
TILTS = between(-1.5, 1.5)


class Sharp(NamedTuple):
    """One weight with everything known, in kg and m."""

    mass: float
    forward: float
    up: float
    slides: bool


def weights(most: int = 4) -> st.SearchStrategy[list[Weight]]:
    one = st.builds(Weight, between(0.0, 8.0), between(-0.4, 0.4), between(-0.2, 0.4), st.booleans())
    return st.lists(one, min_size=1, max_size=most)


def springs() -> st.SearchStrategy[Spring]:
    ends = between(0.0, 30.0)
    stepped = st.builds(lambda e, n: Spring(e[0], e[1], n), ends, st.integers(2, 12))
    stepless = ends.map(lambda e: Spring(*e, stepless=True))
    uncounted = ends.map(lambda e: Spring(*e))
    masses = st.builds(
        lambda e, n, h: Spring(e[0], e[1], n, stepless=n == 1, height=h),
        between(0.0, 15.0),
        st.integers(1, 9),
        between(0.1, 0.3),
    )
    return st.one_of(stepped, stepless, uncounted, masses)


def slides() -> st.SearchStrategy[Slide]:
    return st.one_of(
        st.just(Slide()),
        between(-0.1, 0.1).map(lambda ends: Slide(*ends)),
        between(-0.1, 0.1).map(lambda ends: Slide(*ends, balances=True)),
    )


def pick(interval: tuple[float, float], chance: random.Random) -> float:
    """Anywhere in an interval, its ends more often than chance would have it."""
    low, high = interval
    return min(max(chance.uniform(low - 0.4 * (high - low), high + 0.4 * (high - low)), low), high)


def builds(box: Sequence[Weight], count: int, chance: random.Random) -> Iterator[list[Sharp]]:
    for _ in range(count):
        yield [Sharp(pick(w.mass, chance), pick(w.forward, chance), pick(w.up, chance), w.slides) for w in box]


def needed(build: Sequence[Sharp], depth: float) -> float:
    return G * math.fsum(each.mass * (each.up + depth) for each in build)


def forward_left(build: Sequence[Sharp], slide: Slide, at: float) -> float:
    """g Σ m x with the slide at a place, or where it balances within its travel."""
    moment = math.fsum(each.mass * each.forward for each in build)
    moving = math.fsum(each.mass for each in build if each.slides)
    if slide.balances:
        back, front = moment + moving * slide.low, moment + moving * slide.high
        if back <= 0 <= front:
            return 0.0
        return G * min((back, front), key=abs)
    return G * (moment + moving * at)


def spring_torques(spring: Spring, lever: float, wanted: float) -> list[float]:
    """The torque of the spring's nearest setting, found by looking at all of them. With no count, two to nine steps."""
    low, high = spring.least, spring.most
    if spring.stepless:
        middle = min(max(wanted / lever, low), high)
        return [lever * max((0.0, middle), key=lambda each: (-abs(lever * each - wanted), each))]
    counts = [spring.steps] if spring.steps else range(2, 10)
    found = []
    for count in counts:
        gap = (high - low) / (count - 1) if count > 1 else 0.0
        values = [0.0, *(low + gap * number for number in range(count))]
        found.append(lever * max(values, key=lambda each: (-abs(lever * each - wanted), each)))
    return found


def worst(forward: float, spring: float, tilts: tuple[float, float], count: int = 721) -> float:
    """The greatest |T| over tilts taken densely."""
    width = tilts[1] - tilts[0]
    grid = (tilts[0] + width * number / (count - 1) for number in range(count))
    return max(abs(forward * math.cos(tilt) + spring * math.sin(tilt)) for tilt in grid)
