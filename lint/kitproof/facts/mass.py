"""Mass and centre of gravity of a rig."""

from __future__ import annotations

import math
from collections.abc import Container, Sequence

from kitproof.facts.build import Standing
from kitproof.facts.fact import fact
from kitproof.facts.geometry import Placed
from kitproof.facts.grounded import finite, hanging
from kitproof.facts.outlines import centre_of, height_of, mass_of
from kitproof.facts.rig import RigSubject
from kitproof.facts.values import Amount, joined, number
from kitproof.mechanics.means import Term, mass_range, mean_range
from kitproof.model.parts import Part
from kitproof.model.quantities import ANYWHERE, Range
from kitproof.words.dimensions import LENGTH, MASS

MEAN = "statics: the centre of gravity is the mean of the places weighted by mass; exact range by sorting"
STICKS_COG = (0.4, 0.6)
"""Where the centre of gravity of sticks lies, as a share of leg height: house, common practice, no source."""

ANY_TERM = Term(0.0, math.inf, -math.inf, math.inf)


def masses(rig: RigSubject, things: Sequence[Placed]) -> Amount:
    """Sum of masses; a line that could not be read may have added any mass."""
    low, high = mass_range([each.term("up") for each in things])
    missing = joined(*(each.no_mass for each in things), rig.unread)
    return Amount(low, math.inf if rig.unread else high, missing)


def terms(rig: RigSubject, axis: str) -> list[Term]:
    """What is carried, as terms along one axis. Hung below the head (underslung), up counts down."""
    found = [each.term(axis) for each in rig.carried]
    if axis == "up" and rig.rig.underslung:
        found = [term.mirrored for term in found]
    return found + [ANY_TERM] * bool(rig.unread)


def lacking(rig: RigSubject, axis: str) -> tuple[str, ...]:
    """What is missing to know where what is carried has its centre of gravity."""
    return joined(*(each.no_mass for each in rig.carried), *(each.no_axis(axis) for each in rig.carried), rig.unread)


def _centre(rig: RigSubject, axis: str) -> Amount:
    if not rig.carried:
        return Amount(-math.inf, math.inf, (f"{rig.label}: anything on the head",))
    return Amount(*mean_range(terms(rig, axis)), lacking(rig, axis))


@fact("carried", "rig", number(MASS), "the mass of all that stands on the head's plate", "sum of the masses", "statics")
def carried(rig: RigSubject) -> Amount:
    return masses(rig, rig.carried)


@fact(
    "cog_up",
    "rig",
    number(LENGTH),
    "height of the centre of gravity of what is carried, above the top face of the plate",
    "sum of mass × height over the sum of the masses",
    MEAN,
)
def cog_up(rig: RigSubject) -> Amount:
    return _centre(rig, "up")


@fact(
    "cog_forward",
    "rig",
    number(LENGTH),
    "how far forward of the tilt axis the centre of gravity of what is carried lies, with the slide at its mark",
    "sum of mass × distance forward over the sum of the masses",
    MEAN,
)
def cog_forward(rig: RigSubject) -> Amount:
    return _centre(rig, "forward")


@fact(
    "cog_left",
    "rig",
    number(LENGTH),
    "how far left of the middle the centre of gravity of what is carried lies",
    "sum of mass × distance left over the sum of the masses",
    MEAN,
)
def cog_left(rig: RigSubject) -> Amount:
    return _centre(rig, "left")


@fact(
    "sticks_bear",
    "rig",
    number(MASS),
    "the mass that the sticks bear: head, pan bar, what is carried, risers and adapters, ballast, what hangs on them",
    "sum of the masses",
    "statics",
)
def sticks_bear(rig: RigSubject) -> Amount:
    return masses(rig, [each for each in rig.placed if each.on_sticks])


@fact(
    "standing",
    "rig",
    number(MASS),
    "the mass of everything that stands, sticks and ballast included, what is beside it on the ground left out",
    "sum of the masses",
    "statics",
)
def standing(rig: RigSubject) -> Amount:
    bear = rig.amount("sticks_bear")
    feet = [mass_of(each.part) for each in rig.build.standing if each.line.slot in ("sticks", "spreader")]
    low = sum(mass[0] for mass, _ in feet)
    high = sum(mass[1] for mass, _ in feet)
    return Amount(bear.low + low, bear.high + high, joined(bear.missing, *(lack for _, lack in feet)))


@fact(
    "standing_cog_up",
    "rig",
    number(LENGTH),
    "height above the ground of the centre of gravity of everything that stands",
    "sum of mass × height over the sum of the masses",
    MEAN,
)
def standing_cog_up(rig: RigSubject) -> Amount:
    """Every height but the ground's rises with the legs, so the lowest comes with the legs low, the highest with them
    high; the sticks' own centre of gravity is taken at 0.4 to 0.6 of the leg height."""
    sticks = rig.build.first("sticks")
    if sticks is None:
        return Amount(-math.inf, math.inf, (f"{rig.label}: sticks",))
    legs = sticks.line.legs or sticks.part.legs
    if legs is None or not legs.known:
        return Amount(-math.inf, math.inf, (sticks.part.lacks("legs"),))
    lowest, missing = _above_ground(rig, sticks.part, legs.low)
    highest, _ = _above_ground(rig, sticks.part, legs.high)
    return Amount(mean_range(lowest)[0], mean_range(highest)[1], missing)


def _sticks_centre(sticks: Part, leg: float) -> tuple[tuple[float, float], tuple[str, ...]]:
    """Height of the sticks' own centre of gravity above the ground: as written, else a share of their leg height."""
    if sticks.cog is not None:
        return sticks.cog.up, ((sticks.lacks("cog"),) if sticks.cog.up == ANYWHERE else ())
    return (STICKS_COG[0] * leg, STICKS_COG[1] * leg), ()


def _above_ground(rig: RigSubject, sticks: Part, leg: float) -> tuple[list[Term], tuple[str, ...]]:
    """Terms above the ground of everything that stands, with the bowl at `leg`, and what is missing."""
    found, plate, missing = resting(rig, sticks, leg)
    for thing, term in zip(rig.carried, terms(rig, "up"), strict=False):
        found.append(Term(term.m_low, term.m_high, plate[0] + term.r_low, plate[1] + term.r_high))
        missing = joined(missing, thing.no_mass, thing.no_axis("up"))
    return found + [ANY_TERM] * bool(rig.unread), joined(missing, rig.unread)


def resting(
    rig: RigSubject, sticks: Part, leg: float, *, leaving_out: Container[int] = ()
) -> tuple[list[Term], Range, tuple[str, ...]]:
    """What does not tilt, as terms above the ground with the bowl at `leg`; the height of the plate; what is missing.

    `leaving_out` holds the ids of what hangs or lies there and does not count.
    """
    weight, missing = mass_of(sticks)
    centre, no_centre = _sticks_centre(sticks, leg)
    found = [Term(*weight, *centre)]
    missing = joined(missing, no_centre)
    low = high = leg
    seats: dict[int, tuple[Standing, Range]] = {}
    for each in rig.build.chain:
        if each in rig.build.above:
            continue
        seats[id(each)] = (each, (0.0, 0.0) if each.part is sticks else (low, high))
        if each.part is sticks:
            continue
        height, lacks = height_of(each.part)
        mass, no_mass = mass_of(each.part)
        # Its centre as written, or the stand-in for it: a written one may lie outside what its height would say.
        up = centre_of(each.part)[0].up
        found.append(Term(*mass, low + up[0], high + up[1]) if finite(up) else Term(*mass, low, high + height[1]))
        low, high = low + height[0], high + height[1]
        missing = joined(missing, lacks, no_mass)
    for hung in hanging([thing for thing in rig.group("hung", "ground") if thing.on_sticks], seats, leg, high):
        if id(hung.thing.standing) in leaving_out:
            continue
        found.append(Term(*hung.thing.mass, *hung.height))
        missing = joined(missing, hung.thing.no_mass)
    for spreader in (each for each in rig.build.standing if each.line.slot == "spreader"):
        mass, no_mass = mass_of(spreader.part)
        up = centre_of(spreader.part)[0].up
        found.append(Term(*mass, *(up if finite(up) else (0.0, leg))))
        missing = joined(missing, no_mass)
    return found, (low, high), missing
