"""Rigs on their feet for the tests of standing, and the same sums done one mass at a time, to hold the facts to."""

from __future__ import annotations

import itertools
import math
import random
from collections.abc import Iterator
from typing import NamedTuple

import numpy as np
from hypothesis import strategies as st
from msgspec.structs import astuple, fields, replace

from kitproof.mechanics.ranges import Interval
from kitproof.mechanics.stance import Stance
from tests.mechanics.boxes import between


class Rig(NamedTuple):
    """One rig out of a `Stance`, all of it known. The names and units are the same."""

    carried: float
    forward: float
    left: float
    up: float
    plate: float
    plate_forward: float
    axis: float
    rest: float
    rest_forward: float
    rest_left: float
    rest_up: float

    @property
    def mass(self) -> float:
        return self.carried + self.rest

    def centre(self, tilt: float) -> tuple[float, float, float]:
        """The combined centre of gravity (forward, left, up) by turning what is carried about the axis, looking up.

        A turn that lifts what lies forward takes what lies above the axis back.
        """
        turn = np.array([[math.cos(tilt), -math.sin(tilt)], [math.sin(tilt), math.cos(tilt)]])
        ahead, above = turn @ np.array([self.forward, self.up + self.axis])
        moved = np.array([self.plate_forward + ahead, self.left, self.plate - self.axis + above])
        still = np.array([self.rest_forward, self.rest_left, self.rest_up])
        forward, left, up = (self.carried * moved + self.rest * still) / self.mass
        return float(forward), float(left), float(up)

    def lean(self, tilt: float) -> tuple[float, float]:
        """e and height at a tilt."""
        forward, left, up = self.centre(tilt)
        return math.hypot(forward, left), up


def stance_of(rig: Rig, tilts: Interval) -> Stance:
    return Stance(**{name: (value, value) for name, value in rig._asdict().items()}, tilts=tilts)


def rigs_at_corners(stance: Stance) -> Iterator[Rig]:
    for values in itertools.product(*(dict.fromkeys(ends) for ends in astuple(stance)[:-1])):
        yield Rig(*values)


def rigs_inside(stance: Stance, count: int, chance: random.Random) -> Iterator[Rig]:
    for _ in range(count):
        yield Rig(*(chance.uniform(low, high) for low, high in astuple(stance)[:-1]))


def tilts_of(stance: Stance, count: int) -> list[float]:
    return [float(tilt) for tilt in np.linspace(*stance.tilts, count)]


def sharp(low: float, high: float) -> st.SearchStrategy[Interval]:
    number = st.integers(round(low * 1000), round(high * 1000)).map(lambda n: n / 1000)
    return number.map(lambda value: (value, value))


def reaches() -> st.SearchStrategy[Interval]:
    ends = st.tuples(st.integers(-90, 90), st.integers(-90, 90))
    return ends.map(lambda pair: (math.radians(min(pair)), math.radians(max(pair))))


def stances(known: bool = False) -> st.SearchStrategy[Stance]:
    """Rigs as they stand on a film; with `known` all but the tilt is sharp, else each may be in doubt or not."""
    of = sharp if known else between
    return st.builds(
        Stance,
        carried=of(0.0, 25.0),
        forward=of(-0.2, 0.3),
        left=of(-0.05, 0.05),
        up=of(-0.1, 0.4),
        plate=of(0.5, 1.9),
        plate_forward=of(-0.1, 0.1),
        axis=of(-0.05, 0.15),
        rest=of(2.0, 20.0),
        rest_forward=of(-0.05, 0.05),
        rest_left=of(-0.05, 0.05),
        rest_up=of(0.2, 1.0),
        tilts=reaches(),
    )


def few_doubts(stance: Stance, chance: random.Random, count: int = 4) -> Stance:
    """The same with no more than a few ranges left, so that all corners can be gone through."""
    names = [each.name for each in fields(Stance) if each.name != "tilts"]
    settled = chance.sample(names, len(names) - count)
    return replace(stance, **{name: (getattr(stance, name)[0],) * 2 for name in settled})


def edges(known: bool = False) -> st.SearchStrategy[Interval]:
    return sharp(0.05, 0.6) if known else between(0.05, 0.6)
