"""One build in doubt at one leg height, as its parts say it: picked at a point of the doubt, or taken term by term."""

from __future__ import annotations

import math
import random
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from tests.second.described import Number, Range
from tests.second.footing import Step
from tests.second.placing import Stood
from tests.second.weights import Sliding, Weight

LOOKS = 24
GOLDEN = (math.sqrt(5) - 1) / 2
Tilts = tuple[float, float]


@dataclass(frozen=True)
class Sharp:
    """A build with everything known, at one leg height: weights in kg, places in m.

    Combined, its centre is at `middle` + `ahead` cos θ − `above` sin θ forward, `left` to the left, and `base` +
    `ahead` sin θ + `above` cos θ above the ground.
    """

    mass: float
    ahead: float
    above: float
    left: float
    base: float
    axis: float
    middle: float

    def lean(self, tilt: float) -> float:
        forward = self.middle + self.ahead * math.cos(tilt) - self.above * math.sin(tilt)
        return math.hypot(forward, self.left)

    def height(self, tilt: float) -> float:
        return self.base + self.ahead * math.sin(tilt) + self.above * math.cos(tilt)


@dataclass(frozen=True)
class Rest:
    """What does not tilt: mass, height above the ground, and steps forward and left from the middle of the feet."""

    mass: Range
    up: Range
    of: Stood
    forward: tuple[Step, ...]
    left: tuple[Step, ...]


@dataclass(frozen=True)
class Box:
    """A build in doubt at one leg height."""

    weights: tuple[Weight, ...]
    rest: tuple[Rest, ...]
    slide: Sliding
    plate: Range
    axis: Range
    radius: Range
    leg: float
    head_forward: tuple[Step, ...]
    head_left: tuple[Step, ...]

    @property
    def steps(self) -> list[Range]:
        """Every step from the middle of the feet."""
        all_steps = [self.head_forward, self.head_left, *(each for r in self.rest for each in (r.forward, r.left))]
        return [ends for steps in all_steps for _, ends in steps]

    @property
    def sharp(self) -> bool:
        ranges = [self.plate, self.axis, self.radius, *self.steps]
        ranges += [each for w in self.weights for each in (w.mass, w.forward, w.left, w.up)]
        ranges += [each for r in self.rest for each in (r.mass, r.up)]
        return all(low == high for low, high in ranges) and (
            self.slide.balances or self.slide.at[0] == self.slide.at[1]
        )


class Picks:
    """For every range of a build a share of the way from its low end to its high end, the same at each leg height."""

    def __init__(self, number: int) -> None:
        self.chance = random.Random(number)
        self.at: dict[object, float] = {}
        self.ends = number % 2 == 0
        """Only ends, or anywhere."""

    def pick(self, ends: Range, key: object) -> float:
        share = self.at.get(key)
        if share is None:
            share = self.chance.choice((0.0, 1.0)) if self.ends else self.chance.random()
            self.at[key] = share
        low, high = (_finite(end) for end in ends)
        return low if share == 0 else high if share == 1 else low + share * (high - low)

    def along(self, steps: Sequence[Step]) -> float:
        """All steps together."""
        return sum(self.pick(ends, key) for key, ends in steps)


def _finite(end: Number) -> float:
    """What has no bound is picked up to 30 kg or m."""
    return math.copysign(30.0, end) if math.isinf(end) else float(end)


def picked(box: Box, picks: Picks) -> Sharp:
    tilting = [
        (
            picks.pick(w.mass, (w.of.at.number, "mass")),
            picks.pick(w.forward, (w.of.at.number, "forward")),
            picks.pick(w.left, (w.of.at.number, "left")),
            picks.pick(w.up, (w.of.at.number, "up")),
            w.slides,
        )
        for w in box.weights
    ]
    resting = [(picks.pick(r.mass, (r.of.at.number, "mass")), picks.pick(r.up, _rising(r))) for r in box.rest]
    aside = [(m, picks.along(r.forward), picks.along(r.left)) for (m, _), r in zip(resting, box.rest, strict=True)]
    at = _slide_at(box.slide, [(m, x, slides) for m, x, _, _, slides in tilting], picks)
    plate, axis = picks.pick(box.plate, "plate"), picks.pick(box.axis, "axis")
    mass = sum(m for m, *_ in tilting) + sum(m for m, _ in resting)
    if mass == 0:
        return Sharp(1e-300, 0.0, 0.0, 0.0, 0.0, axis, 0.0)
    carried = sum(m for m, *_ in tilting)
    return Sharp(
        mass,
        sum(m * (x + at * slides) for m, x, _, _, slides in tilting) / mass,
        sum(m * (r + axis) for m, _, _, r, _ in tilting) / mass,
        (
            carried * picks.along(box.head_left)
            + sum(m * y for m, _, y, _, _ in tilting)
            + sum(m * y for m, _, y in aside)
        )
        / mass,
        (carried * (plate - axis) + sum(m * z for m, z in resting)) / mass,
        axis,
        (carried * picks.along(box.head_forward) + sum(m * x for m, x, _ in aside)) / mass,
    )


def _rising(rest: Rest) -> object:
    """What stands below the plate rises with it; what hangs on something is wherever it is."""
    return "plate" if rest.of.slot in ("riser", "adapter", "head") else (rest.of.at.number, "up")


def _slide_at(slide: Sliding, weights: Sequence[tuple[float, float, bool]], picks: Picks) -> float:
    """Where the slide stands: picked, or where it balances, held to its travel."""
    if not slide.balances:
        return picks.pick(slide.at, "slide")
    moving = sum(m for m, _, slides in weights if slides)
    first, last = (float(end) for end in slide.at)
    if moving == 0:
        return first
    return min(max(-sum(m * x for m, x, _ in weights) / moving, first), last)


def worst_over(bad: Callable[[float], float], tilts: Tilts) -> float:
    """The greatest of a function over a reach of tilts: looked at closely, then by golden sections."""
    low, high = tilts
    step = (high - low) / LOOKS
    if step == 0:
        return bad(low)
    values = [bad(low + n * step) for n in range(LOOKS + 1)]
    best = max(values)
    for n, value in enumerate(values):
        around = values[max(n - 1, 0) : n + 2]
        if value == max(around) and best - value <= max(max(around) - min(around), 1e-3 * abs(best)):
            best = max(best, _golden(bad, max(low, low + (n - 1) * step), min(high, low + (n + 1) * step)))
    return best


def _golden(bad: Callable[[float], float], low: float, high: float) -> float:
    a, b = high - GOLDEN * (high - low), low + GOLDEN * (high - low)
    at_a, at_b = bad(a), bad(b)
    best = max(at_a, at_b)
    for _ in range(45):
        if at_a >= at_b:
            high, b, at_b = b, a, at_a
            a = high - GOLDEN * (high - low)
            at_a = bad(a)
        else:
            low, a, at_a = a, b, at_b
            b = low + GOLDEN * (high - low)
            at_b = bad(b)
        best = max(best, at_a, at_b)
    return best
