"""Standing: does it stay on its feet on the slope, at every tilt, in the wind, pushed, and left alone.

What rests (sticks, head, what hangs on them) stands where it is written to, else over the middle of the feet, and takes
what tilts with it (`sideways`). A pan bar whose place is written tilts with the head; one of which nothing is written
hangs in the middle of it.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from itertools import pairwise

from msgspec import Struct

from kitproof.facts.balance import tilting
from kitproof.facts.fact import HouseNumber, fact
from kitproof.facts.mass import resting
from kitproof.facts.pushing import pushes
from kitproof.facts.rig import RigSubject
from kitproof.facts.sideways import resting_aside
from kitproof.facts.tilting import axis_of, no_weight, slide_of, spring_left, weights
from kitproof.facts.values import Amount, joined, number, reach
from kitproof.mechanics import feet
from kitproof.mechanics.means import mass_range, mean_range
from kitproof.mechanics.overturning import (
    SAFETY,
    ballast_needed,
    least_tipping_energy,
    overturn_share,
    tipping_energy,
)
from kitproof.mechanics.ranges import add, divide, subtract
from kitproof.mechanics.stance import Stance
from kitproof.mechanics.tipping import lean, tip_angle
from kitproof.mechanics.torques import fall_energy_range, forward_left_range
from kitproof.model.parts import Part, Point
from kitproof.model.quantities import ANYWHERE, Range, Reach
from kitproof.words.dimensions import ANGLE, FORCE, LENGTH, MASS, NUMBER
from kitproof.words.units import G

TIPPING = "statics: moments about the edge between two feet, in the worst direction of pan"
LEVEL: Range = (0.0, 0.0)

HOUSE_NUMBERS = (
    HouseNumber(
        "ballast_safety", SAFETY, NUMBER, "restoring over overturning moment wanted (IBC §1807.2.3, as quoted)"
    ),
    HouseNumber("left_standing_push", 40.0, FORCE, "a push at the plate that a rig left standing must bear"),
)


class Legs(Struct, frozen=True):
    """The rig at one leg height: how it stands, how far the edge between two feet is, and what is missing."""

    height: float
    radius: Range
    stance: Stance
    missing: tuple[str, ...]

    @property
    def edge(self) -> Range:
        return feet.edge_flat(self.radius)


def _sticks(rig: RigSubject) -> Part | None:
    found = rig.build.first("sticks")
    return found.part if found else None


def _legs(rig: RigSubject) -> Reach | None:
    found = rig.build.first("sticks")
    return (found.line.legs or found.part.legs) if found else None


def _chart(points: tuple[Point, ...]) -> list[feet.ChartPoint]:
    return [(point.at.range, point.value.range) for point in points if point.at is not None]


def heights(rig: RigSubject) -> tuple[tuple[float, ...], tuple[str, ...]]:
    """The leg heights to look at, or none and what is missing."""
    sticks, legs = _sticks(rig), _legs(rig)
    if sticks is None:
        return (), (f"{rig.label}: sticks",)
    if legs is None or not legs.known:
        return (), (sticks.lacks("legs"),)
    chart = _chart(sticks.feet)
    if not chart or feet.foot_radius(chart, (legs.low, legs.high)) is None:
        return (), (sticks.lacks("feet") + (", at this leg height" if chart else ""),)
    return feet.deciding_heights(chart, (legs.low, legs.high)), ()


def _radius(sticks: Part, legs: Range) -> Range:
    radius = feet.foot_radius(_chart(sticks.feet), legs)
    assert radius is not None, "heights() gives none that their feet do not reach"
    return radius


def _axis(rig: RigSubject) -> tuple[Range, tuple[str, ...]]:
    """The depth of the tilt axis: as written; left out, anywhere that the house has for it; `?` takes no stand-in.

    The lean asks little of it, where the torque of a head rests on it: so torque is not known then, and this is.
    """
    head = rig.build.first("head")
    if head is not None and head.part.tilt_axis is None:
        return (rig.setting.house["axis_least"], rig.setting.house["axis_most"]), ()
    return axis_of(rig)


def _not_resting(rig: RigSubject, *, ballast: bool) -> set[int]:
    """The ids of what does not rest on the feet: what tilts, and ballast that lies on the ground or is not to count."""
    tilts = {id(each.standing) for each in tilting(rig)}
    bags = (each for each in rig.placed if each.standing.line.slot == "ballast")
    return tilts | {id(each.standing) for each in bags if not ballast or each.group == "ground"}


def at_legs(rig: RigSubject, height: float, tilts: Range, *, ballast: bool = True) -> Legs:
    """The rig with its bowl at one height, tilting anywhere within a reach; `ballast` that hangs counts or not."""
    sticks = _sticks(rig)
    assert sticks is not None, "heights() gives none without sticks"
    leaving_out = _not_resting(rig, ballast=ballast)
    found, plate, missing = resting(rig, sticks, height, leaving_out=leaving_out)
    aside = resting_aside(rig, leaving_out)
    things, turning = weights(rig), tilting(rig)
    mass = mass_range([each.term for each in things])
    slide, no_slide = slide_of(rig)
    axis, no_axis = _axis(rig)
    level = tilts == LEVEL
    stance = Stance(
        carried=mass,
        forward=divide(forward_left_range(things, slide), (G * mass[0], G * mass[1])) if mass[1] > 0 else LEVEL,
        left=add(mean_range([each.term("left") for each in turning]), aside.head.left) if turning else LEVEL,
        up=mean_range([each.term for each in things]) if things else LEVEL,
        plate=plate,
        plate_forward=aside.head.forward,
        axis=LEVEL if level else axis,  # on the level the depth of the axis makes no difference
        rest=mass_range(found),
        rest_forward=mean_range(aside.forward),
        rest_left=mean_range(aside.left),
        rest_up=mean_range(found),
        tilts=tilts,
    )
    lacks = joined(missing, aside.missing, no_weight(rig, "up", "forward", "left"), no_slide, () if level else no_axis)
    return Legs(height, _radius(sticks, (height, height)), stance, lacks)


def worst_over(
    rig: RigSubject,
    of: Callable[[Legs], Range],
    unknown: Range,
    tilts: Range,
    pick: Callable[..., float],
    *,
    ballast: bool = True,
) -> Amount:
    """The worst of something over the legs' reach: all of it is used, so the worst height counts for certain."""
    at, missing = heights(rig)
    if not at:
        return Amount(*unknown, missing)
    found = [at_legs(rig, height, tilts, ballast=ballast) for height in at]
    values = [of(each) for each in found]
    missing = joined(*(each.missing for each in found))
    return Amount(pick(low for low, _ in values), pick(high for _, high in values), missing)


def tilts_of(rig: RigSubject) -> tuple[Range, tuple[str, ...]]:
    """The rig's tilts; not said, the head's own reach; level where neither is known, and that is missing."""
    head = rig.build.first("head")
    for found in (rig.rig.tilts, head.part.tilt if head else None):
        if found is not None:
            return ((found.low, found.high), ()) if found.known else (LEVEL, (f"{rig.label}: tilts",))
    return LEVEL, (f"{rig.label}: tilts",)


def slope_of(rig: RigSubject) -> tuple[float, tuple[str, ...]]:
    """The steepest ground that is said; level where nothing is said, not known where `?` is."""
    slope = rig.rig.site.ground_slope
    if slope is None:
        return 0.0, ()
    return (slope.high, ()) if slope.known else (0.0, (rig.lacks("ground slope"),))


@fact(
    "legs_at", "rig", reach(LENGTH), "the height from the ground to the bowl at which the legs stand", source="as said"
)
def legs_at(rig: RigSubject) -> Amount:
    legs = _legs(rig)
    sticks = _sticks(rig)
    if legs is None or not legs.known:
        return Amount(0.0, math.inf, (sticks.lacks("legs") if sticks else f"{rig.label}: sticks",))
    return Amount(legs.low, legs.high)


@fact(
    "slope", "rig", number(ANGLE), "the steepest ground that the list says; 0 where it says nothing", source="as said"
)
def slope(rig: RigSubject) -> Amount:
    steepest, missing = slope_of(rig)
    return Amount(steepest, math.pi / 2 if missing else steepest, missing)


@fact(
    "foot_radius",
    "rig",
    number(LENGTH),
    "radius of the circle on which the feet stand, over the legs' reach",
    "straight between the points of the sticks' feet",
    "geometry",
)
def foot_radius(rig: RigSubject) -> Amount:
    at, missing = heights(rig)
    sticks = _sticks(rig)
    if not at:
        return Amount(0.0, math.inf, missing)
    assert sticks is not None, "heights() gives none without sticks"
    return Amount(*_radius(sticks, (at[0], at[-1])))


@fact(
    "tip_angle_level",
    "rig",
    number(ANGLE),
    "the slope at which it tips, head level, sticks set down on the slope and not levelled",
    "arctangent of (half the foot radius less the lean) over the height of the centre of gravity",
    TIPPING,
)
def tip_angle_level(rig: RigSubject) -> Amount:
    unknown = (-math.pi / 2, math.pi / 2)
    return worst_over(rig, lambda legs: tip_angle(legs.stance, legs.edge), unknown, LEVEL, min)


@fact(
    "tip_angle_tilted",
    "rig",
    number(ANGLE),
    "the slope at which it tips at the worst tilt within its tilts",
    "the least of that angle over the tilts",
    TIPPING,
)
def tip_angle_tilted(rig: RigSubject) -> Amount:
    tilts, no_tilts = tilts_of(rig)
    unknown = (-math.pi / 2, math.pi / 2)
    found = worst_over(rig, lambda legs: tip_angle(legs.stance, legs.edge), unknown, tilts, min)
    if no_tilts:
        return Amount(-math.pi / 2, found.high, joined(found.missing, no_tilts))
    return found


@fact(
    "lean",
    "rig",
    number(LENGTH),
    "how far from the middle of the feet the centre of gravity of everything lies at the worst tilt",
    "the greatest distance over the tilts",
    TIPPING,
)
def lean_most(rig: RigSubject) -> Amount:
    tilts, no_tilts = tilts_of(rig)
    found = worst_over(rig, lambda legs: lean(legs.stance), (0.0, math.inf), tilts, max)
    return Amount(found.low, math.inf if no_tilts else found.high, joined(found.missing, no_tilts))


@fact(
    "levelled_share",
    "rig",
    number(NUMBER),
    "the lean over the distance of the nearest edge, legs levelled on the slope by their length",
    "lean over the edge distance, the edge uphill having come nearer",
    TIPPING,
)
def levelled_share(rig: RigSubject) -> Amount:
    steepest, no_slope = slope_of(rig)

    def share(legs: Legs) -> Range:
        apex = (legs.height, legs.height)
        return divide(lean(legs.stance), feet.edge_levelled(legs.radius, apex, steepest))

    found = worst_over(rig, share, (0.0, math.inf), LEVEL, max)
    return Amount(found.low, math.inf if no_slope else found.high, joined(found.missing, no_slope))


@fact(
    "overturn_share",
    "rig",
    number(NUMBER),
    "what overturns it over what keeps it on its feet, on the slope, at its worst tilt, in the wind and pushed",
    "[W (e cos α + h sin α) + F_w h_w + F_p h_p] over W cos α R/2",
    f"{TIPPING}; wind ½ρv² C_d A, C_d 1.28 (NASA Glenn)",
)
def overturn(rig: RigSubject) -> Amount:
    steepest, no_slope = slope_of(rig)
    tilts, no_tilts = tilts_of(rig)
    lacks: list[tuple[str, ...]] = []

    def share(legs: Legs) -> Range:
        moment, missing = pushes(rig, legs.stance.plate)
        lacks.append(missing)
        return overturn_share(legs.stance, legs.edge, steepest, moment)

    found = worst_over(rig, share, (0.0, math.inf), tilts, max)
    unsure = no_slope or no_tilts
    return Amount(found.low, math.inf if unsure else found.high, joined(found.missing, no_slope, no_tilts, *lacks))


@fact(
    "ballast_hung",
    "rig",
    number(MASS),
    "the ballast that hangs from the sticks, none of it touching the ground",
    source="as said",
)
def ballast_hung(rig: RigSubject) -> Amount:
    found = [each for each in rig.placed if each.standing.line.slot == "ballast" and each.group != "ground"]
    low, high = mass_range([each.term("up") for each in found])
    return Amount(low, high, joined(*(each.no_mass for each in found)))


@fact(
    "ballast_needed",
    "rig",
    number(MASS),
    "the ballast that would keep it on its feet with the house's safety factor, hung in the middle",
    "[safety × overturning − restoring] over g (R/2 cos α − safety × hook height × sin α)",
    f"{TIPPING}; safety factor 1.5, IBC §1807.2.3 as quoted",
)
def ballast(rig: RigSubject) -> Amount:
    """The hook is where the list hangs its ballast, else at the bowl, the worst place for it."""
    steepest, no_slope = slope_of(rig)
    tilts, no_tilts = tilts_of(rig)
    line = next((each.line for each in rig.build.standing if each.line.slot == "ballast"), None)
    lacks: list[tuple[str, ...]] = []

    def wanted(legs: Legs) -> Range:
        moment, missing = pushes(rig, legs.stance.plate)
        lacks.append(missing)
        hung = line.hung.range if line is not None and line.hung is not None else (legs.height, legs.height)
        safety = rig.setting.house["ballast_safety"]
        return ballast_needed(legs.stance, legs.edge, steepest, moment, hung, safety)

    found = worst_over(rig, wanted, (0.0, math.inf), tilts, max, ballast=False)
    unsure = no_slope or no_tilts
    return Amount(found.low, math.inf if unsure else found.high, joined(found.missing, no_slope, no_tilts, *lacks))


@fact(
    "feet_friction",
    "rig",
    number(NUMBER),
    "the friction that the feet need to stay where they are with neither spreader nor mat",
    "foot radius over the height of the bowl",
    "statics: a straight leg bears along its own length",
)
def feet_friction(rig: RigSubject) -> Amount:
    def friction(legs: Legs) -> Range:
        return feet.friction_needed(legs.radius, (legs.height, legs.height))

    found = worst_over(rig, friction, (0.0, math.inf), LEVEL, max)
    _, missing = heights(rig)
    return Amount(found.low, found.high, missing)


@fact(
    "fall_share",
    "rig",
    number(NUMBER),
    "the energy of a camera that falls from level, tilt free, over what it takes to tip the sticks",
    "(M g H − K)(1 − cos θ) over W (√(d² + h²) − h)",
    "energy: more than 100 % is doubt, not certainty, since sudden stops are not statics",
)
def fall_share(rig: RigSubject) -> Amount:
    """Less than 1 cannot tip the sticks; more may, so that the low end is never more than 1.

    All of the legs' reach is used, and where it takes least to tip them may lie between two heights.
    """
    left, no_spring = spring_left(rig)
    tilts, no_tilts = tilts_of(rig)
    falling = fall_energy_range(left, tilts) if left != ANYWHERE else (0.0, math.inf)
    at, no_legs = heights(rig)
    found = [at_legs(rig, height, LEVEL) for height in at]
    missing = joined(no_legs, *(each.missing for each in found), no_spring, no_tilts)
    if not found or not all(each.stance.known for each in found):
        return Amount(0.0, math.inf, missing)
    asked = [_tipping(each) for each in found]
    shares = [divide(falling, tipping_energy(*each)) for each in asked]
    for (weight, start, up), (_, end, top) in pairwise(asked):
        least = least_tipping_energy(weight[0], (start[0], up[1]), (end[0], top[1]))
        shares.append((0.0, divide(falling, (least, least))[1]))
    # Where it takes nothing to tip them the share has no value, and nothing is said of it.
    low, high = max(0.0, *(low for low, _ in shares)), max(high for _, high in shares)
    return Amount(min(low, 1.0), math.inf if no_tilts else high, missing)


def _tipping(legs: Legs) -> tuple[Range, Range, Range]:
    """Weight in N, how far the centre of gravity is from the edge and how high it is, in m, with the head level."""
    stance = legs.stance
    weight = (G * (stance.carried[0] + stance.rest[0]), G * (stance.carried[1] + stance.rest[1]))
    return weight, subtract(legs.edge, lean(stance)), stance.nearest(0.0)[1]
