"""Standing, after the design: tipping, overturning, ballast, levelling and the fall of a camera.

A build of which all is known is worked out to both ends. One in doubt is worked out at points of its doubt, each of
which our range must hold, and taken term by term, which our range must not exceed: `tip_angle_level`,
`tip_angle_tilted`, `lean`, `levelled_share`, `overturn_share`, `ballast_needed` and `fall_share` are outer bounds
there, and only held between the two.

Taken is, where the design could be read in more than one way: what rests, and of
which no place is written, stands over the middle of what it is on, and sticks over that of their feet; tilts not
said are the head's own reach, and those that are not known may be any that take in level; ground of which nothing is
said is level; ballast that lies on the ground holds nothing down; wanted ballast hangs where the list hangs its own,
else at the bowl.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from tests.second import termwise
from tests.second.combining import Combination
from tests.second.corners import times
from tests.second.described import (
    ANY_MASS,
    NOTHING,
    Found,
    Kit,
    Number,
    Quantity,
    Range,
    Rig,
    Spring,
    between,
)
from tests.second.footing import (
    edge_levelled,
    feet_facts,
    feet_of,
    heights,
    legs_of,
    radius_at,
    standing_at,
    steps_to_centre,
    steps_to_seat,
)
from tests.second.leaning import Box, Picks, Rest, Tilts, picked, worst_over
from tests.second.placing import Stood, mass_of
from tests.second.pushing import Pushed, pushed, site
from tests.second.springs import FEWEST_STEPS, lever, spring_left, strips, usable
from tests.second.termwise import SAFETY, Ends, Fall, G, kilograms, worst_on_the_way
from tests.second.weights import above_ground, axis_of, endless, sliding, standing_axis, tilting

POINTS = 4
"""At how many points of its doubt a build is worked out."""

LEVEL: Tilts = (0.0, 0.0)
WHOLE_SLOPE: Range = (-math.pi / 2, math.pi / 2)
FACTS = ("lean", "levelled_share", "overturn_share", "ballast_needed", "fall_share")
AT_LEVEL = ("tip_angle_level", "levelled_share")
TIPS = ("tip_angle_level", "tip_angle_tilted")


@dataclass(frozen=True)
class Place:
    """Ground, tilts and what pushes; None where they are not known."""

    slope: float | None
    tilts: Tilts | None
    pushed: Pushed
    hook: Range | None
    spring: Spring | None
    torque_axis: Range

    @property
    def reach(self) -> Tilts:
        return self.tilts or LEVEL

    @property
    def ground(self) -> float:
        return self.slope or 0.0

    @property
    def known_lever(self) -> bool:
        """Whether the torque of the spring is known: the depth of the axis is, and a mass stands above it."""
        if endless(self.torque_axis):
            return False
        return self.spring is None or self.spring.at is None or lever(self.spring, self.torque_axis)[0] > 0

    @property
    def told(self) -> bool:
        """Whether the spring has one setting for each need."""
        spring = self.spring
        if spring is None or not usable(spring) or not (spring.steps or spring.stepless):
            return False
        torque = lever(spring, self.torque_axis)
        return torque[0] == torque[1]

    def gained(self, box: Box) -> Ends:
        """What a camera gains that falls from level to the farthest tilt."""
        _, (low, high) = spring_left(box.weights, self.torque_axis, self.spring)
        turned = 1 - math.cos(max(abs(each) for each in self.reach))
        return (max(-float(high), 0.0) * turned, float(times(max(-float(low), 0.0), turned)))


def tilts_of(rig: Rig, head: Stood) -> Tilts | None:
    said = rig.tilts if rig.tilts is not None else head.part.tilt
    return (float(said.low), float(said.high)) if said is not None and said.known else None


def _slope(said: Quantity | None) -> float | None:
    if said is None:
        return 0.0
    return max(abs(float(said.low)), abs(float(said.high))) if said.known else None


def standing_facts(kit: Kit, rig: Rig, combination: Combination, stood: Sequence[Stood]) -> dict[str, Found]:
    """All of them, of one combination."""
    at = heights(stood)
    if not at:
        return feet_facts(stood) | dict.fromkeys(FACTS, ANY_MASS) | dict.fromkeys(TIPS, WHOLE_SLOPE)
    head = next(each for each in stood if each.slot == "head")
    ballast = next((each.at.line for each in stood if each.slot == "ballast"), None)
    place = Place(
        slope=_slope(site(kit, rig, "slope")),
        tilts=tilts_of(rig, head),
        pushed=pushed(kit, rig, [each for each in stood if each.carried]),
        hook=ballast.hung.range if ballast and ballast.hung else None,
        spring=head.part.spring,
        torque_axis=axis_of(head),
    )
    boxes = [box_at(rig, combination, leg) for leg in at]
    ends = _ends(stood)
    return feet_facts(stood) | _facts(place, boxes, [box.leg in ends for box in boxes])


def _ends(stood: Sequence[Stood]) -> set[float]:
    """The ends of the legs' reach, and the points of the feet between them."""
    legs = legs_of(stood)
    assert legs is not None
    return {float(each) for each in (legs.low, legs.high, *(at.low for _, at in feet_of(stood)))}


def box_at(rig: Rig, combination: Combination, leg: Number) -> Box:
    """The build with its bowl at one height: a pan bar that tilts does not rest, ballast on the ground does nothing."""
    stood = standing_at(combination, leg)
    for each in stood:
        each.hangs = rig.underslung and each.carried
    weights = tilting(stood)
    moving = {w.of.at.number for w in weights}
    resting = [each for each in stood if not (each.carried or each.on_ground or each.at.number in moving)]
    head = next(each for each in stood if each.slot == "head")
    return Box(
        weights=tuple(weights),
        rest=tuple(_rest(each, stood) for each in resting),
        slide=sliding(stood),
        plate=head.top,
        axis=standing_axis(head),
        radius=radius_at(feet_of(stood), leg),
        leg=float(leg),
        head_forward=steps_to_seat(head, "forward", stood),
        head_left=steps_to_seat(head, "left", stood),
    )


def _rest(each: Stood, stood: Sequence[Stood]) -> Rest:
    forward, left = (steps_to_centre(each, axis, stood) for axis in ("forward", "left"))
    return Rest(mass_of(each.part), above_ground(each, stood), each, forward, left)


def without_ballast(box: Box) -> Box:
    return replace(box, rest=tuple(each for each in box.rest if each.of.slot != "ballast"))


def _facts(place: Place, boxes: Sequence[Box], ends: Sequence[bool]) -> dict[str, Found]:
    sharp = all(box.sharp for box in boxes)
    points = 1 if sharp and place.pushed.sharp else POINTS
    at_points = [_at_a_point(place, boxes, Picks(number)) for number in range(points)]
    outer = _termwise(place, boxes, ends)
    found: dict[str, Found] = {}
    for name in at_points[0]:
        inner = (min(each[name] for each in at_points), max(each[name] for each in at_points))
        exact = sharp and (place.pushed.sharp or name not in ("overturn_share", "ballast_needed"))
        if name == "fall_share":
            told = inner if exact and place.told else outer[name]
            found[name] = _in_doubt(place, inner, (0.0, math.inf) if _down(place, boxes, points) else told)
        else:
            found[name] = _unsure(place, name, inner, inner if exact else outer[name])
    return found


def _down(place: Place, boxes: Sequence[Box], points: int) -> bool:
    """Whether at some point nothing is gained and nothing is needed, since it lies already: their quotient is no value,
    and anything may be said of it."""
    falls = (_fall(place, box, Picks(number)) for number in range(points) for box in boxes)
    return any(fall.energy == 0 and fall.reach <= 0 for fall in falls)


def _in_doubt(place: Place, inner: Range, outer: Range) -> Found:
    """A fall tips it in doubt at most. Of a spring that is not known nothing can be told, without tilts not how far."""
    if not usable(place.spring) or not place.known_lever:
        return ANY_MASS
    top = math.inf if place.tilts is None else inner[1], math.inf if place.tilts is None else outer[1]
    return between((min(inner[0], 1.0), top[0]), (min(outer[0], 1.0), top[1]))


def _unsure(place: Place, name: str, inner: Range, outer: Range) -> Found:
    """With ground, tilts, wind or push not known the bad end has no bound."""
    bad = place.tilts is None and name not in ("tip_angle_level", "levelled_share")
    bad = bad or (place.slope is None and name in ("levelled_share", "overturn_share", "ballast_needed"))
    bad = bad or (place.pushed.unsaid and name in ("overturn_share", "ballast_needed"))
    if bad and name == "tip_angle_tilted":
        return between((-math.pi / 2, inner[1]), (-math.pi / 2, outer[1]))
    return between((inner[0], math.inf), (outer[0], math.inf)) if bad else between(inner, outer)


def _at_a_point(place: Place, boxes: Sequence[Box], picks: Picks) -> dict[str, float]:
    """Every fact at one point of the doubt: the worst over all leg heights."""
    found = [_at_a_height(place, box, picks) for box in boxes]
    worst = {n: (min if n in TIPS else max)(each[n] for each in found) for n in found[0]}
    return worst | {"fall_share": worst_on_the_way([_fall(place, box, picks) for box in boxes])}


def _at_a_height(place: Place, box: Box, picks: Picks) -> dict[str, float]:
    here, bare = picked(box, picks), picked(without_ballast(box), picks)
    radius = picks.pick(box.radius, "radius")
    edge, moment = radius / 2, place.pushed.picked(box, picks)
    cos, sin = math.cos(place.ground), math.sin(place.ground)
    hook = picks.pick(place.hook or (box.leg, box.leg), "hook")

    def tip(tilt: float) -> float:
        return -math.atan2(edge - here.lean(tilt), max(here.height(tilt), 0.0))

    def turning(tilt: float) -> float:
        return here.mass * G * (here.lean(tilt) * cos + here.height(tilt) * sin) + moment

    def short(tilt: float) -> float:
        weighed = bare.mass * G * (bare.lean(tilt) * cos + bare.height(tilt) * sin)
        return SAFETY * (weighed + moment) - bare.mass * G * edge * cos

    return {
        "tip_angle_level": -tip(0.0),
        "tip_angle_tilted": -worst_over(tip, place.reach),
        "lean": worst_over(here.lean, place.reach),
        "levelled_share": here.lean(0.0) / edge_levelled(radius, box.leg, place.ground),
        "overturn_share": max(worst_over(turning, place.reach), 0.0) / (here.mass * G * cos * edge),
        "ballast_needed": kilograms(worst_over(short, place.reach), edge * cos - SAFETY * hook * sin),
    }


def _fall(place: Place, box: Box, picks: Picks) -> Fall:
    """What a camera gains, (M g H − K)(1 − cos θ), and what it would have to lift, at one leg height."""
    here, edge = picked(box, picks), picks.pick(box.radius, "radius") / 2
    gained = 0.0
    if place.spring is not None and usable(place.spring) and place.known_lever:
        count = place.spring.steps or (None if place.spring.stepless else FEWEST_STEPS[0])
        needed = here.above * here.mass * G
        cut = strips(place.spring, picks.pick(lever(place.spring, (here.axis, here.axis)), "lever"), count)
        left = next(strip.left(needed)[0] for strip in cut if strip.low <= needed <= strip.high)
        gained = max(-left, 0.0) * (1 - math.cos(max(abs(each) for each in place.reach)))
    return Fall(gained, here.mass * G, edge - here.lean(0.0), here.height(0.0))


def _termwise(place: Place, boxes: Sequence[Box], ends: Sequence[bool]) -> dict[str, Range]:
    """Every fact term by term, worst over tilts and leg heights at the bad end; at the good end the worst of those at
    the ends of both, and at the points of the feet."""
    each = [_at_height_termwise(place, box) for box in boxes]
    found: dict[str, Range] = {}
    for name in each[0]:
        good = [good for (good, _), end in zip((at[name] for at in each), ends, strict=True) if end]
        bad = [at[name][1] for at in each]
        found[name] = (-max(bad), -max(good)) if name in TIPS else (max(good), max(bad))
    whole = [(box, termwise.sums(replace(box, axis=NOTHING))) for box, end in zip(boxes, ends, strict=True) if end]
    found["fall_share"] = (0.0, math.inf)
    if all(level for _, level in whole):
        falls = [termwise.falls(level, _halved(box.radius), place.gained(box)) for box, level in whole if level]
        good = [worst_on_the_way([each]) for each, _ in falls]
        found["fall_share"] = (max(good), worst_on_the_way([each for _, each in falls]))
    return found


def _at_height_termwise(place: Place, box: Box) -> dict[str, Ends]:
    """The good and the bad end of each fact at one leg height; an angle at which it tips is turned round."""
    level, whole = termwise.sums(replace(box, axis=NOTHING)), termwise.sums(box)
    bare, edge = termwise.sums(without_ballast(box)), _halved(box.radius)
    ground, hook = place.ground, place.hook or (box.leg, box.leg)
    pushing = _floats(place.pushed.within(box.plate))
    at: dict[str, Callable[[float], Ends]] = {}
    if level:
        at["tip_angle_level"] = lambda _: termwise.tip(level, edge, 0.0)
        at["levelled_share"] = lambda _: termwise.levelled(level, _floats(box.radius), box.leg, ground)
    if whole:
        at["tip_angle_tilted"] = lambda tilt: termwise.tip(whole, edge, tilt)
        at["lean"] = whole.lean
        at["overturn_share"] = lambda tilt: termwise.overturning(whole, edge, ground, pushing, tilt)
    if bare:
        at["ballast_needed"] = lambda tilt: termwise.ballast(bare, edge, ground, pushing, _floats(hook), tilt)
    unknown = dict.fromkeys(FACTS, (0.0, math.inf)) | dict.fromkeys(TIPS, (-math.pi / 2, math.pi / 2))
    return unknown | {name: _both_ends(of, LEVEL if name in AT_LEVEL else place.reach) for name, of in at.items()}


def _both_ends(of: Callable[[float], Ends], tilts: Tilts) -> Ends:
    return (max(of(tilt)[0] for tilt in tilts), worst_over(lambda tilt: of(tilt)[1], tilts))


def _halved(radius: Range) -> Ends:
    return (float(radius[0]) / 2, float(radius[1]) / 2)


def _floats(ends: Range) -> Ends:
    return (float(ends[0]), float(ends[1]))
