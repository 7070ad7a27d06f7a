"""What the head holds, and what the sticks and the rest of the stack bear."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

from kitproof.facts.build import Standing
from kitproof.facts.fact import HouseNumber, fact
from kitproof.facts.hulls import of_each
from kitproof.facts.mass import lacking, masses, terms
from kitproof.facts.part import PartSubject
from kitproof.facts.rig import RigSubject
from kitproof.facts.values import Amount, Words, joined, number, text, thing
from kitproof.mechanics.holding import HOUSE, Figure, Holding, HoldingLimits
from kitproof.mechanics.loads import safe_range, share_range, stack_range
from kitproof.mechanics.means import Term, mass_range
from kitproof.model.parts import Part, Point
from kitproof.model.quantities import Range
from kitproof.words.dimensions import LENGTH, MASS, NUMBER

LEVER = "statics: torque is mass × g × height above the tilt axis; margins are common practice, no source"

HOUSE_NUMBERS = (
    HouseNumber("beyond_chart_share", HOUSE.beyond_share, NUMBER, "share of the lever law counted on above a chart"),
    HouseNumber("beyond_chart_reach", HOUSE.beyond_reach, NUMBER, "how many times a chart's top it is counted on"),
    HouseNumber("uncharted_share", HOUSE.uncharted_share, NUMBER, "share of a figure without a height counted on"),
    HouseNumber("uncharted_height", HOUSE.uncharted_height, LENGTH, "height up to which that share holds"),
    HouseNumber("uncharted_top", HOUSE.uncharted_top, LENGTH, "height above which a figure without one says nothing"),
    HouseNumber("axis_least", HOUSE.axis[0], LENGTH, "least depth of a tilt axis that is not given"),
    HouseNumber("axis_most", HOUSE.axis[1], LENGTH, "greatest depth of a tilt axis that is not given"),
)
ANY = (0.0, math.inf)


def holding_of(rig: RigSubject) -> Holding:
    """The head's figures as a capacity over height. Figures and a depth of the axis written as `?`, or in a line that
    could not be read, take no stand-in."""
    head = rig.build.first("head")
    if head is None or head.part.blank("chart") or head.part.blank("rated"):
        return Holding()
    part, house = head.part, rig.setting.house
    limits = HoldingLimits(
        house["beyond_chart_share"],
        house["beyond_chart_reach"],
        house["uncharted_share"],
        house["uncharted_height"],
        house["uncharted_top"],
        (house["axis_least"], house["axis_most"]),
    )
    return Holding(
        chart=tuple(_figure(point) for point in (*part.chart, *part.rated)),
        rated=_figure(part.rated[0]) if part.rated else None,
        tried=tuple(_figure(point) for point in part.tried),
        axis=part.tilt_axis.range if part.tilt_axis else None,
        limits=limits,
    )


def _figure(point: Point) -> Figure:
    return Figure(point.value.range, point.at.range if point.at else None)


def _no_figure(rig: RigSubject) -> tuple[str, ...]:
    """What is missing of the head's figures, and of the depth of its axis."""
    head = rig.build.first("head")
    if head is None:
        return (f"{rig.label}: a head",)
    part = head.part
    if holding_of(rig).kind == "unknown":
        return (part.lacks("rated" if part.blank("rated") else "chart"),)
    axis = (part.lacks("tilt_axis"),) if part.tilt_axis and not part.tilt_axis.known else ()
    return (*axis, *_vague(part, lambda each: each.value.known and _at_known(each)))


def _vague(part: Part, known: Callable[[Point], bool]) -> tuple[str, ...]:
    """The fields of a head's figures that hold one that is not known."""
    fields = (("chart", part.chart), ("rated", part.rated))
    return tuple(part.lacks(name) for name, points in fields if not all(known(each) for each in points))


def _at_known(point: Point) -> bool:
    return point.at is None or point.at.known


def _missing(rig: RigSubject) -> tuple[str, ...]:
    return joined(lacking(rig, "up"), _no_figure(rig))


@fact(
    "chart_kind",
    "rig",
    text("chart", "single", "none", "unknown"),
    'what its maker gives for the head: a "chart", one figure with its height ("single"), one without ("none"), '
    'or nothing ("unknown")',
    source="the head's own figures",
    certain=True,
)
def chart_kind(rig: RigSubject) -> Words:
    return Words(holding_of(rig).kind)


@fact(
    "chart_top",
    "rig",
    number(LENGTH),
    "the greatest height for which a load is given for the head",
    source="the head's own figures",
)
def chart_top(rig: RigSubject) -> Amount:
    holding, head = holding_of(rig), rig.build.first("head")
    if holding.kind == "unknown":
        return Amount(-math.inf, math.inf, _no_figure(rig))
    assert head is not None, "figures are a head's"
    if holding.top is None:
        return Amount(-math.inf, math.inf, (head.part.lacks("chart"),))
    return Amount(*holding.top, _vague(head.part, _at_known))


@fact(
    "capacity",
    "rig",
    number(MASS),
    "what the head holds at the height of the centre of gravity",
    "straight between the points of its chart; above them the last point × its height over this height, both measured "
    "from the tilt axis at most, and a share of that from the plate at least",
    LEVER,
)
def capacity(rig: RigSubject) -> Amount:
    height = rig.amount("cog_up")
    holding = holding_of(rig)
    found = Amount(*holding.capacity(height.low, height.high), joined(height.missing, _no_figure(rig)))
    return rig.whatever(found) if _holds_anything(holding) else found


def _holds_anything(holding: Holding) -> bool:
    """Whether neither a figure nor a trial says what the head holds: all loads are alike then."""
    return holding.kind == "unknown" and not holding.tried


@fact(
    "load_share",
    "rig",
    number(NUMBER),
    "what is carried over what the head holds at that height",
    "carried over capacity, worked out jointly so that masses which stand in both are not counted as two doubts",
    LEVER,
)
def load_share(rig: RigSubject) -> Amount:
    return _share(rig, share_range)


@fact(
    "safe_share",
    "rig",
    number(NUMBER),
    "what is carried over what the head may be counted on to hold at that height",
    "carried over the lower end of capacity",
    LEVER,
)
def safe_share(rig: RigSubject) -> Amount:
    return _share(rig, safe_range)


def _share(rig: RigSubject, of: Callable[[Sequence[Term], Holding], Range]) -> Amount:
    found, holding = terms(rig, "up"), holding_of(rig)
    share = Amount(*of(found, holding), _missing(rig))
    return rig.whatever(share) if _holds_anything(holding) and mass_range(found)[0] > 0 else share


@fact(
    "height_limit",
    "rig",
    number(LENGTH),
    "the greatest height of the centre of gravity above the plate at which the head still holds what is carried",
    "the height at which capacity has fallen to what is carried",
    LEVER,
)
def height_limit(rig: RigSubject) -> Amount:
    carried = rig.amount("carried")
    low, high = holding_of(rig).height_limit(carried.low, carried.high)
    return Amount(low, high, joined(carried.missing, _no_figure(rig)))


@of_each
def rating(part: Part) -> tuple[tuple[float, float], tuple[str, ...]]:
    """A part's rated load in kg; [0, inf) with its name where it is not known."""
    if part.rated and part.rated[0].value.known:
        return part.rated[0].value.range, ()
    return ANY, (part.lacks("rated"),)


@fact(
    "legs_share",
    "rig",
    number(NUMBER),
    "what the sticks bear over what they are rated for",
    "sticks_bear over the rating of the sticks",
    "common practice, no source",
)
def legs_share(rig: RigSubject) -> Amount:
    sticks = rig.build.first("sticks")
    if sticks is None:
        return Amount(0.0, math.inf, (f"{rig.label}: sticks",))
    bear = rig.amount("sticks_bear")
    rated, missing = rating(sticks.part)
    return Amount(*stack_range([((bear.low, bear.high), rated)]), joined(bear.missing, missing))


@fact(
    "stack_share",
    "rig",
    number(NUMBER),
    "the greatest of mass above a rated part over its rating, for what stands between sticks and camera but the head",
    "mass above over rating, the greatest of them; a part with no rating written is not rated and does not count",
    "common practice, no source",
)
def stack_share(rig: RigSubject) -> Amount:
    """Only parts that give a rating count. 0 where none does."""
    stack = _stack(rig)
    missing = joined(*(joined(bears.missing, lacks) for _, bears, _, lacks in stack))
    return Amount(*stack_range([((bears.low, bears.high), rated) for _, bears, rated, _ in stack]), missing)


def _stack(rig: RigSubject) -> list[tuple[Standing, Amount, tuple[float, float], tuple[str, ...]]]:
    """The rated parts of the stack, each with what it bears, its rating, and what is missing of that."""
    chain = [each for each in rig.build.chain if each.line.slot not in ("sticks", "head", "camera")]
    return [(each, _above(rig, each), *rating(each.part)) for each in chain if _counts(each.part)]


@of_each
def _counts(part: Part) -> bool:
    """Whether a part gives a rating, or may give one."""
    return bool(part.rated) or part.blank("rated") or not part.described


def _weakest(rig: RigSubject) -> tuple[Standing, Amount] | None:
    """Of the stack the part with the greatest share of its rating on it, and what it bears; the lowest on a tie."""
    watch = rig.setting.watch
    return _picked_weakest(rig) if watch is None else watch.sharply(lambda: _picked_weakest(rig))


def _picked_weakest(rig: RigSubject) -> tuple[Standing, Amount] | None:
    found = [(stack_range([((bears.low, bears.high), rated)]), each, bears) for each, bears, rated, _ in _stack(rig)]
    if not found:
        return None
    _, part, bears = max(found, key=lambda each: each[0])
    return part, bears


@fact(
    "stack_weakest",
    "rig",
    thing("part"),
    "the rated part between sticks and camera, the head left aside, that bears the greatest share of its rating",
)
def stack_weakest(rig: RigSubject) -> PartSubject | None:
    """Not there where no part of the stack gives a rating."""
    found = _weakest(rig)
    return rig.part(found[0]) if found else None


@fact("stack_bears", "rig", number(MASS), "what that part bears", "sum of the masses above it", "statics")
def stack_bears(rig: RigSubject) -> Amount:
    """0 where no part of the stack gives a rating."""
    found = _weakest(rig)
    return found[1] if found else Amount(0.0, 0.0)


def _above(rig: RigSubject, part: Standing) -> Amount:
    """The mass on one part of the chain: what comes after it, and all that rests on it or on those in the end.

    What hangs on nothing known may rest on it: it counts from nothing up.
    """
    chain = rig.build.chain
    place = next(number for number, each in enumerate(chain) if each is part)
    upper = {id(each) for each in chain[place:]}
    others = [each for each in rig.placed if each.standing is not part]
    bears = masses(rig, [each for each in others if id(each.root) in upper])
    # What stands on the ground, ballast that is tied to the sticks too, rests on nothing in the chain.
    adrift = [each for each in others if each.root is None and each.group != "ground"]
    loose = masses(rig, adrift)
    lost = [(f"{each.standing.part.label}: what it is on",) for each in adrift]
    return Amount(bears.low, bears.high + loose.high, joined(bears.missing, loose.missing, *lost))
