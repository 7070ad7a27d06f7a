"""What tilts, where the slide stands and how deep the tilt axis lies, after the design."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from tests.second.combining import SUPPORT
from tests.second.corners import times
from tests.second.described import ANYTHING, NOTHING, ZERO, Number, Range
from tests.second.placing import Stood, height_of, mass_of, plus
from tests.second.quantities import minus

G = Fraction(980665, 100000)
IN_STACK = ("riser", "adapter", "plate", "slide", "base")
AXIS_LEFT_OUT: Range = (ZERO, Fraction(120, 1000))


@dataclass(frozen=True)
class Weight:
    """Something that tilts: mass, and place from the plate's top face over the tilt axis with the slide at its mark."""

    mass: Range
    forward: Range
    left: Range
    up: Range
    slides: bool
    of: Stood

    def ahead(self, at: Range) -> Range:
        """How far forward it is with the slide within a stretch of its travel."""
        return plus(self.forward, at) if self.slides else self.forward


@dataclass(frozen=True)
class Sliding:
    """Where the slide stands: within `at`; with `balances`, where the build balances or at the nearer end."""

    at: Range
    balances: bool = False


def tilting(stood: Sequence[Stood]) -> list[Weight]:
    """`carried`, and a pan bar whose place is written."""
    slides = [each for each in stood if each.slot == "slide"]
    found = []
    for each in stood:
        if each.carried:
            up = each.centre("up")
        elif each.slot == "pan bar" and each.at.line.at is not None:
            up = plus(minus(height_of(each.on.part)) if each.on else ANYTHING, plus(each.at.line.at.up, each.own("up")))
        else:
            continue
        moves = any(moves_with(each, slide) for slide in slides)
        found.append(Weight(mass_of(each.part), each.centre("forward"), each.centre("left"), up, moves, each))
    return found


def moves_with(thing: Stood, slide: Stood) -> bool:
    """What stands above the sliding joint; the slide, and what hangs on it, only if it slides itself."""
    if thing is slide:
        return slide.part.slides_itself
    if thing.on is None:
        return False
    return moves_with(thing.on, slide) or (thing.on is slide and thing.slot in SUPPORT)


def sliding(stood: Sequence[Stood]) -> Sliding:
    """The slide's `at` if given, else where the build balances, held to its travel; anywhere on that with `at ?`; two
    slides: ask."""
    slides = [each for each in stood if each.slot == "slide"]
    if not slides:
        return Sliding(NOTHING)
    if len(slides) > 1:
        return Sliding(ANYTHING)
    line, travel = slides[0].at.line, slides[0].part.travel
    if line.at is not None and line.at.known:
        return Sliding(line.at.forward)
    if travel is None or not travel.known:
        return Sliding(ANYTHING)
    return Sliding(travel.range, balances=line.at is None)


def axis_of(head: Stood) -> Range:
    """The depth of the tilt axis; not known: torque not known."""
    axis = head.part.axis
    return axis.range if axis is not None and axis.known else ANYTHING


def standing_axis(head: Stood) -> Range:
    """The same for what leans: left out, what the house has for it; `?` stays not known."""
    return AXIS_LEFT_OUT if head.part.axis is None else axis_of(head)


def moment(masses_and_places: Sequence[tuple[Range, Range]]) -> Range:
    """Σ m r at all corners: each term stands in it alone."""
    low: Number = sum((min(times(m, r[0]) for m in mass) for mass, r in masses_and_places), ZERO)
    high: Number = sum((max(times(m, r[1]) for m in mass) for mass, r in masses_and_places), ZERO)
    return (low, high)


def endless(ends: Sequence[Number]) -> bool:
    return any(math.isinf(end) for end in ends)


def above_ground(each: Stood, stood: Sequence[Stood]) -> Range:
    """The height of a centre of gravity above ground; what is carried has its own from the plate's top face.

    The design does not say where what is below the plate lies when nothing is written of it. Taken is: its
    seat anywhere from the ground to the plate, what stands in the stack anywhere in itself, sticks and spreader up to
    the bowl.
    """
    plate = next(other for other in stood if other.slot == "head")
    if each.carried:
        return plus(plate.top, each.centre("up"))
    place = each.centre("up")
    if math.inf not in (-place[0], place[1]):
        return place
    if each.slot in IN_STACK or each is plate:
        return (each.seat["up"][0], each.top[1])
    sticks = next(other for other in stood if other.slot == "sticks")
    if each.slot in ("sticks", "spreader"):
        return (ZERO, sticks.top[1])
    own = each.own("up")
    return plus((ZERO, plate.top[1]), own if math.inf not in (-own[0], own[1]) else (ZERO, ZERO))
