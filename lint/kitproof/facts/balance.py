"""Fore-aft balance: where the slide must stand, and how much travel is left."""

from __future__ import annotations

import math

from kitproof.facts.build import Standing
from kitproof.facts.fact import fact
from kitproof.facts.geometry import Placed
from kitproof.facts.mass import ANY_TERM
from kitproof.facts.rig import RigSubject
from kitproof.facts.values import Amount, joined, number
from kitproof.mechanics.means import balance_range
from kitproof.mechanics.ranges import Interval, hull
from kitproof.words.dimensions import LENGTH

MOMENTS = "statics: moments about the tilt axis, forward and back, are equal"


def slides(rig: RigSubject) -> list[Standing]:
    """The sliding joints above the plate."""
    return [each for each in rig.build.above if each.line.slot == "slide"]


def tilting(rig: RigSubject) -> list[Placed]:
    """What tilts: what is carried, and a pan bar whose place is written, if as `?` (otherwise it is left out)."""
    bars = [each for each in rig.group("hung") if each.standing.line.slot == "pan bar" and _place_written(each)]
    return [*rig.carried, *bars]


def _place_written(bar: Placed) -> bool:
    return bar.standing.line.at is not None or not bar.standing.line.at_known


@fact(
    "slide_needed",
    "rig",
    number(LENGTH),
    "how far forward of its mark the slide must stand for the build to balance fore and aft",
    "minus the sum of mass × distance forward of all that tilts, over the mass above the sliding joint",
    MOMENTS,
)
def slide_needed(rig: RigSubject) -> Amount:
    """Two sliding joints share the work in any proportion, so that neither place is known: it is asked for."""
    found = slides(rig)
    if len(found) != 1:
        asks = "which of its slides is set, and where the other stands" if found else "a slide"
        return Amount(-math.inf, math.inf, (f"{rig.label}: {asks}",))
    things = tilting(rig)
    missing = joined(*(joined(each.no_mass, each.no_axis("forward")) for each in things), rig.unread)
    if not any(each.moves for each in things):
        missing = (f"{rig.label}: anything on the slide",)
    if not found[0].part.blank("slides_itself"):
        return Amount(*_needed(rig, [(each, each.moves) for each in things]), missing)
    ways = (
        _needed(rig, [(each, moves if each.standing is found[0] else each.moves) for each in things])
        for moves in (True, False)
    )
    return Amount(*hull(*ways), joined(missing, (found[0].part.lacks("slides_itself"),)))


def _needed(rig: RigSubject, things: list[tuple[Placed, bool]]) -> Interval:
    """The place of the slide at which things balance, each with whether it moves with the slide."""
    moving = [each.term("forward") for each, moves in things if moves] + [ANY_TERM] * bool(rig.unread)
    return balance_range(moving, [each.term("forward") for each, moves in things if not moves])


@fact(
    "slide_spare",
    "rig",
    number(LENGTH),
    "travel left between where the slide must stand and the nearer end; negative when that is out of reach",
    "the smaller of needed − rearmost and foremost − needed",
    MOMENTS,
)
def slide_spare(rig: RigSubject) -> Amount:
    """As a function of the place needed this is a roof, highest in the middle of the travel."""
    needed = rig.amount("slide_needed")
    found = slides(rig)
    travel = found[0].part.travel if len(found) == 1 else None
    if travel is None or not travel.known:
        lacks = (found[0].part.lacks("travel"),) if len(found) == 1 else ()
        return rig.whatever(Amount(-math.inf, math.inf, joined(needed.missing, lacks)))
    ends = [min(at - travel.low, travel.high - at) for at in (needed.low, needed.high)]
    middle = (travel.low + travel.high) / 2
    top = (travel.high - travel.low) / 2 if needed.low <= middle <= needed.high else max(ends)
    return Amount(min(ends), top, needed.missing)
