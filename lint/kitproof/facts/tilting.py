"""Counterbalance and drag: what the build asks of the head's spring, what is left over, and whether drag slows it."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

from kitproof.facts.balance import MOMENTS, slides, tilting
from kitproof.facts.fact import fact
from kitproof.facts.geometry import Placed
from kitproof.facts.rig import RigSubject
from kitproof.facts.values import Amount, joined, number
from kitproof.mechanics import counterbalancing as springs
from kitproof.mechanics.counterbalancing import Spring
from kitproof.mechanics.means import Term
from kitproof.mechanics.torques import NO_SLIDE, Slide, Weight, drag_share, spring_left_range, torque_left_range
from kitproof.model.quantities import ANYWHERE, Range
from kitproof.words.dimensions import NUMBER, TORQUE

SPRING = "statics: weight and spring both turn as the sine of the tilt (the law of the zero-free-length spring)"


def weights(rig: RigSubject) -> list[Weight]:
    """All that tilts, with its place; hung below the head (underslung) its height counts down."""
    found = [weight(rig, each) for each in tilting(rig)]
    return found + [Weight((0.0, math.inf), ANYWHERE, ANYWHERE)] * bool(rig.unread)


def weight(rig: RigSubject, each: Placed) -> Weight:
    """One thing that tilts, with its place."""
    low, high = each.centre.up
    up = (-high, -low) if rig.rig.underslung and each.group == "carried" else (low, high)
    return Weight(each.mass, each.centre.forward, up, each.moves)


def no_weight(rig: RigSubject, *axes: str) -> tuple[str, ...]:
    """What is missing of all that tilts, along some axes."""
    things = tilting(rig)
    places = (each.no_axis(axis) for axis in axes for each in things)
    return joined(*(each.no_mass for each in things), *places, rig.unread)


def axis_of(rig: RigSubject) -> tuple[Range, tuple[str, ...]]:
    """Depth of the tilt axis below the plate in m. Not known: torque is not known either, and nothing stands in."""
    head = rig.build.first("head")
    if head is None:
        return ANYWHERE, (f"{rig.label}: a head",)
    depth = head.part.tilt_axis
    if depth is None or not depth.known:
        return ANYWHERE, (head.part.lacks("tilt_axis"),)
    return depth.range, ()


def spring_of(rig: RigSubject) -> tuple[Spring | None, tuple[str, ...]]:
    """The head's counterbalance; None where it is not known."""
    head = rig.build.first("head")
    if head is None:
        return None, (f"{rig.label}: a head",)
    found, lacks = head.part.counterbalance, (head.part.lacks("counterbalance"),)
    if found is None or not found.reach.known or "counterbalance" in head.part.unread:
        return None, lacks
    if found.at is not None and not found.at.known:
        return None, lacks
    height = found.at.range if found.at is not None else None
    return Spring(found.reach.low, found.reach.high, found.steps, found.stepless, height), ()


def sprung(rig: RigSubject, *axes: str) -> tuple[Spring | None, Range, tuple[str, ...]]:
    """The head's counterbalance (None where it is not known) and the depth of its axis, and what is missing to hold
    them against all that tilts."""
    axis, no_axis = axis_of(rig)
    spring, no_spring = spring_of(rig)
    return spring, axis, joined(no_weight(rig, *axes), no_axis, no_spring)


def slide_of(rig: RigSubject) -> tuple[Slide, tuple[str, ...]]:
    """Where the slide stands: as the line says, else where the build balances, held to its travel; anywhere on that
    where the line says `at ?`."""
    found = slides(rig)
    if not found:
        return NO_SLIDE, ()
    if len(found) > 1:
        return Slide(-math.inf, math.inf), (f"{rig.label}: which of its slides is set, and where the other stands",)
    line, part = found[0].line, found[0].part
    if line.at is not None and line.at_known:
        return Slide(*line.at.forward), ()
    no_place = () if line.at_known else (part.lacks("its place on its travel"),)
    if part.travel is None or not part.travel.known:
        return Slide(-math.inf, math.inf), no_place or (part.lacks("travel"),)
    return Slide(part.travel.low, part.travel.high, balances=line.at_known), no_place


def _terms(rig: RigSubject) -> list[Term]:
    return [each.term for each in weights(rig)]


@fact(
    "counterbalance_needed",
    "rig",
    number(TORQUE),
    "the counterbalance that the build asks for; negative when it hangs below the tilt axis",
    "g × the sum of mass × height above the tilt axis",
    SPRING,
)
def counterbalance_needed(rig: RigSubject) -> Amount:
    axis, lacks = axis_of(rig)
    return Amount(*springs.needed_range(_terms(rig), axis), joined(no_weight(rig, "up"), lacks))


@fact(
    "counterbalance_share",
    "rig",
    number(NUMBER),
    "what the build asks of the counterbalance over the most that the head gives",
    "counterbalance_needed over the most counterbalance of the head",
    SPRING,
)
def counterbalance_share(rig: RigSubject) -> Amount:
    spring, axis, missing = sprung(rig, "up")
    if spring is None:
        return rig.whatever(Amount(-math.inf, math.inf, missing))
    return Amount(*springs.share_range(_terms(rig), axis, spring), missing)


@fact(
    "counterbalance_short",
    "rig",
    number(TORQUE),
    "how much the strongest counterbalance of the head falls short of what is needed; 0 where it is enough",
    "counterbalance_needed less the most counterbalance, not below 0",
    SPRING,
)
def counterbalance_short(rig: RigSubject) -> Amount:
    return _against(rig, springs.shortfall_range)


@fact(
    "counterbalance_over",
    "rig",
    number(TORQUE),
    "how much the weakest setting of the head's counterbalance, off left aside, gives beyond what is needed",
    "the least counterbalance less counterbalance_needed, not below 0",
    SPRING,
)
def counterbalance_over(rig: RigSubject) -> Amount:
    return _against(rig, springs.excess_range)


def _against(rig: RigSubject, of: Callable[[Sequence[Term], Range, Spring], Range]) -> Amount:
    spring, axis, missing = sprung(rig, "up")
    if spring is None:
        return rig.whatever(Amount(0.0, math.inf, missing))
    return Amount(*of(_terms(rig), axis, spring), missing)


@fact(
    "counterbalance_step",
    "rig",
    number(NUMBER),
    "the step of the counterbalance nearest to what is needed; 0 is off",
    "the nearest of the head's steps, the higher on a tie",
    SPRING,
)
def counterbalance_step(rig: RigSubject) -> Amount:
    """Not known for a stepless head: it has no steps, and is set by feel."""
    spring, axis, missing = sprung(rig, "up")
    if spring is None:
        return rig.whatever(Amount(0.0, math.inf, missing))
    low, high = springs.step_range(springs.demand_range(_terms(rig), axis, spring), spring)
    return Amount(low, high, joined(missing, _no_steps(rig) if spring.counted is None else ()))


def _no_steps(rig: RigSubject) -> tuple[str, ...]:
    """What is missing where a spring has no steps, or they are not said."""
    head = rig.build.first("head")
    assert head is not None, "a spring is a head's"
    return (f"{head.part.lacks('counterbalance')}, its steps",)


@fact(
    "torque_left",
    "rig",
    number(TORQUE),
    "the greatest torque left about the tilt axis anywhere within the rig's tilts, slide and counterbalance set",
    "the worst of M g X cos θ + (K − M g H) sin θ over the tilts, K the nearest setting to M g H",
    f"{MOMENTS}; {SPRING}",
)
def torque_left(rig: RigSubject) -> Amount:
    spring, axis, lacks = sprung(rig, "up", "forward")
    slide, no_slide = slide_of(rig)
    tilts = rig.rig.tilts
    no_tilts = () if tilts is not None and tilts.known else (f"{rig.label}: tilts",)
    missing = joined(lacks, no_slide, no_tilts)
    if spring is None:
        return rig.whatever(Amount(0.0, math.inf, missing))
    things = weights(rig)
    if tilts is not None and tilts.known:
        return Amount(*torque_left_range(things, axis, spring, (tilts.low, tilts.high), slide), missing)
    # Whatever it is tilted through takes in level, so that what is left there is left for certain.
    low, _ = torque_left_range(things, axis, spring, (0.0, 0.0), slide)
    _, high = torque_left_range(things, axis, spring, (-math.pi, math.pi), slide)
    return Amount(low, high, missing)


@fact(
    "drag_hold",
    "rig",
    number(NUMBER),
    "the torque that is left over the most tilt drag of the head; drag slows a tilt and does not hold one",
    "torque_left over the most drag of the head",
    "statics; common practice, no source",
)
def drag_hold(rig: RigSubject) -> Amount:
    left = rig.amount("torque_left")
    most, lacks = _most_drag(rig)
    missing = joined(left.missing, lacks)
    if most is None:
        return rig.whatever(Amount(0.0, math.inf, missing))
    return Amount(*drag_share((left.low, left.high), most), missing)


def _most_drag(rig: RigSubject) -> tuple[float | None, tuple[str, ...]]:
    """The most tilt drag of the head in N·m; None where it is not known."""
    head = rig.build.first("head")
    if head is None:
        return None, (f"{rig.label}: a head",)
    drag = head.part.drag
    return (drag.high, ()) if drag is not None and drag.known else (None, (head.part.lacks("drag"),))


def spring_left(rig: RigSubject) -> tuple[Range, tuple[str, ...]]:
    """K − M g H in N·m with the spring at its nearest setting, and what is missing to know it."""
    spring, axis, missing = sprung(rig, "up")
    return (ANYWHERE if spring is None else spring_left_range(weights(rig), axis, spring)), missing
