"""Sticks on their feet: leg heights to look at, foot circle, edges, and the friction that the feet need."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import replace
from functools import lru_cache

from tests.second.combining import Combination, Stands
from tests.second.described import ANY_MASS, ANYTHING, NOTHING, ZERO, Found, Number, Quantity, Range
from tests.second.placing import Stood, place_all

BETWEEN = 1
"""How many leg heights are looked at between two points of the feet, besides the points."""


def legs_of(stood: Sequence[Stood]) -> Quantity | None:
    sticks = next((each for each in stood if each.slot == "sticks"), None)
    return (sticks.at.line.legs or sticks.part.legs) if sticks else None


def feet_of(stood: Sequence[Stood]) -> Sequence[tuple[Quantity, Quantity]]:
    return next((each.part.feet for each in stood if each.slot == "sticks"), ())


def heights(stood: Sequence[Stood]) -> list[Number]:
    """Leg heights over the whole reach: its ends, the points of the feet within it, and some between. None where the
    feet are not known over all of it."""
    legs, feet = legs_of(stood), feet_of(stood)
    if legs is None or not legs.known or not feet:
        return []
    if legs.low < feet[0][1].low or legs.high > feet[-1][1].high:
        return []
    ends = sorted({legs.low, legs.high, *(at.low for _, at in feet if legs.low < at.low < legs.high)})
    found = set(ends)
    for a, b in itertools.pairwise(ends):
        found |= {a + (b - a) * n / (BETWEEN + 1) for n in range(1, BETWEEN + 1)}
    return sorted(found)


def radius_at(feet: Sequence[tuple[Quantity, Quantity]], leg: Number) -> Range:
    """Straight between the points; the radii may be in doubt, the heights are not."""
    for (radius, at), (other, there) in itertools.pairwise(feet):
        if at.low <= leg <= there.low:
            share = (leg - at.low) / (there.low - at.low)
            low, high = (a + share * (b - a) for a, b in zip(radius.range, other.range, strict=True))
            return (low, high)
    return feet[0][0].range


def standing_at(combination: Combination, leg: Number) -> list[Stood]:
    """Everything in its place with the bowl at one height."""
    legs = Quantity("", leg, leg)
    moved = [
        Stands(replace(each.line, legs=legs), each.part, each.number) if each.line.slot == "sticks" else each
        for each in combination
    ]
    return place_all(tuple(moved))


def feet_facts(stood: Sequence[Stood]) -> dict[str, Found]:
    at = heights(stood)
    feet = feet_of(stood)
    if not at:
        return {"foot_radius": ANY_MASS, "feet_friction": ANY_MASS}
    radii = [radius_at(feet, leg) for leg in at]
    friction = [(low / leg, high / leg) for (low, high), leg in zip(radii, at, strict=True)]
    return {
        "foot_radius": (min(low for low, _ in radii), max(high for _, high in radii)),
        "feet_friction": (max(low for low, _ in friction), max(high for _, high in friction)),
    }


def edge_levelled(radius: float, bowl: float, slope: float) -> float:
    """The nearest edge with legs levelled on a slope: as far out as the circle, by what the slope takes of it."""
    return radius * _nearest_edge(radius / bowl * math.tan(slope))


@lru_cache(maxsize=4096)
def _nearest_edge(steep: float) -> float:
    """For a circle of 1, by turning the feet and looking, the worst turn made closer. `steep` is (R / H) tan α."""

    def nearest(turn: float) -> float:
        feet = [_foot(steep, turn + n * math.tau / 3) for n in range(3)]
        return min(_to_line(a, b) for a, b in itertools.pairwise([*feet, feet[0]]))

    start = min((n * math.tau / 72 for n in range(24)), key=nearest)
    low, high = start - math.tau / 72, start + math.tau / 72
    for _ in range(50):
        third = (high - low) / 3
        if nearest(low + third) <= nearest(high - third):
            high -= third
        else:
            low += third
    return nearest((low + high) / 2)


def _foot(steep: float, turn: float) -> tuple[float, float]:
    """A foot on the slope, its leg's splay unchanged: R / (1 − (R / H) tan α cos φ), φ from downhill."""
    out = 1 / (1 - steep * math.cos(turn))
    return (out * math.cos(turn), out * math.sin(turn))


def _to_line(a: tuple[float, float], b: tuple[float, float]) -> float:
    return abs(a[0] * b[1] - a[1] * b[0]) / math.dist(a, b)


Step = tuple[object, Range]
"""How far one thing is from another along one axis, with what it is known by: the same doubt for all that is on it."""


def steps_to_seat(thing: Stood, axis: str, stood: Sequence[Stood]) -> tuple[Step, ...]:
    """From the middle of the feet to the seat of what does not tilt, forward or left.

    As its line says, else to the port it sits in, else over the middle of what it is on.
    """
    below = thing.on
    if thing.slot == "ballast":
        below = next(each for each in stood if each.slot == "sticks")
    line = thing.at.line
    step = line.at.along(axis) if line.at is not None else thing.sitting.get(axis, NOTHING)
    before = () if below is None else steps_to_seat(below, axis, stood)
    return (*before, ((thing.at.number, "seat", axis), ANYTHING if thing.lost else step))


def steps_to_centre(thing: Stood, axis: str, stood: Sequence[Stood]) -> tuple[Step, ...]:
    """On to its centre of gravity, if that is written; ballast hangs plumb."""
    steps = steps_to_seat(thing, axis, stood)
    part = thing.part
    written = part.cog is not None or (axis == "forward" and part.weighed is not None)
    own = thing.own(axis) if written and thing.slot != "ballast" else NOTHING
    return (*steps, ((thing.at.number, "centre", axis), own))


def length_of(steps: Sequence[Step]) -> Range:
    return (sum((low for _, (low, _) in steps), ZERO), sum((high for _, (_, high) in steps), ZERO))
