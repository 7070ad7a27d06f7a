"""The facts of one combination of a rig, after the design: a range, a word, or None where there is nothing to say."""

from __future__ import annotations

import math
from collections.abc import Sequence

from tests.second.combining import SUPPORT, Combination
from tests.second.corners import Term, mean, total
from tests.second.described import ANYTHING, ZERO, Figure, Number, Range, Rig
from tests.second.heads import capacity, head_of, lower, upper
from tests.second.placing import Stood, mass_of, place_all, plus
from tests.second.quantities import minus
from tests.second.shares import load_and_safe_share

Found = Range | str | None
IN_STACK = ("riser", "adapter", "plate", "slide", "base")


def facts_of(rig: Rig, combination: Combination) -> dict[str, Found]:
    """Every fact of a combination by its name. Ranges in SI."""
    stood = place_all(combination)
    if rig.underslung:
        for each in stood:
            if each.carried:
                each.hangs = True
    carried = [each for each in stood if each.carried]
    standing = [each for each in stood if each.slot == "ballast" or not each.on_ground]
    found: dict[str, Found] = {
        "carried": total([mass_of(each.part) for each in carried]),
        "sticks_bear": total([mass_of(each.part) for each in stood if _borne(each)]),
        "standing": total([mass_of(each.part) for each in standing]),
        "standing_cog_up": mean([Term(mass_of(each.part), _above_ground(each, stood)) for each in standing]),
        "stack_share": _stack_share(stood),
        "legs_share": _legs_share(stood),
    }
    for axis in ("up", "forward", "left"):
        found[f"cog_{axis}"] = mean(_terms(carried, axis))
    return found | _holding(stood, carried) | _sliding(stood, carried)


def _terms(things: Sequence[Stood], axis: str) -> list[Term]:
    return [Term(mass_of(each.part), each.centre(axis)) for each in things]


def _holding(stood: Sequence[Stood], carried: Sequence[Stood]) -> dict[str, Found]:
    part = next((each.part for each in stood if each.slot == "head"), None)
    if part is None:
        return {}
    head = head_of(part)
    terms = _terms(carried, "up")
    mass = total([term.mass for term in terms])
    least, most = lower(head), upper(head)
    load, safe = load_and_safe_share(terms, least, most)
    return {
        "chart_kind": head.kind,
        "chart_top": head.top,
        "capacity": capacity(least, most, mean(terms)),
        "load_share": load,
        "safe_share": safe,
        "height_limit": (least.greatest_height(mass[1]), most.greatest_height(mass[0])),
    }


def _borne(each: Stood) -> bool:
    """Whether the sticks bear it: all but themselves, the spreader, and what lies on the ground and is no ballast."""
    if each.slot in ("sticks", "spreader"):
        return False
    return each.slot == "ballast" or not each.on_ground


def _legs_share(stood: Sequence[Stood]) -> Found:
    sticks = next((each.part for each in stood if each.slot == "sticks"), None)
    if sticks is None:
        return None
    return over(total([mass_of(each.part) for each in stood if _borne(each)]), _rating(sticks.rated))


def _rating(figure: Figure | None) -> Range:
    return figure.mass.range if figure is not None and figure.mass.known else (ZERO, math.inf)


def over(mass: Range, rating: Range) -> Range:
    """A quotient of two ranges that are not negative."""
    low: Number = ZERO if rating[1] == math.inf or mass[0] == 0 else mass[0] / rating[1]
    if mass[1] == 0:
        return (low, ZERO)
    return (low, math.inf if rating[0] == 0 or mass[1] == math.inf else mass[1] / rating[0])


def _stack_share(stood: Sequence[Stood]) -> Range:
    """The greatest of mass above over rating; each end by itself, since all shares are least and greatest together."""
    shares = [
        over(total([_rests(other, each) for other in stood]), _rating(each.part.rated))
        for each in stood
        if each.slot in IN_STACK and each.part.rated
    ]
    return (max((low for low, _ in shares), default=ZERO), max((high for _, high in shares), default=ZERO))


def _rests(thing: Stood, below: Stood) -> Range:
    """What of its mass rests on another; of a thing that is on nothing known, nothing up to all."""
    if _above(thing, below):
        return mass_of(thing.part)
    return (ZERO, mass_of(thing.part)[1]) if thing.lost else (ZERO, ZERO)


def _above(thing: Stood, below: Stood) -> bool:
    """Whether a part stands on another, directly or on what stands on it."""
    on = thing.on
    while on is not None:
        if on is below:
            return True
        on = on.on
    return False


def _above_ground(each: Stood, stood: Sequence[Stood]) -> Range:
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


def _sliding(stood: Sequence[Stood], carried: Sequence[Stood]) -> dict[str, Found]:
    slides = [each for each in stood if each.slot == "slide"]
    if not slides:
        return {}
    if len(slides) > 1:
        return {"slide_needed": ANYTHING, "slide_spare": ANYTHING}
    slide = slides[0]
    moves = [each for each in carried if _moves(each, slide)]
    moving = _terms(moves, "forward")
    resting = _terms([each for each in carried if each not in moves], "forward")
    # A pan bar tilts as well; it counts where its place is written.
    bars = [each for each in stood if each.slot == "pan bar" and each.at.line.at is not None]
    needed = minus(mean(moving, [*resting, *_terms(bars, "forward")]))
    return {"slide_needed": needed, "slide_spare": _spare(slide, needed)}


def _moves(thing: Stood, slide: Stood) -> bool:
    """What stands above the sliding joint; the slide, and what hangs on it, only if it slides itself."""
    if thing is slide:
        return slide.part.slides_itself
    if thing.on is None:
        return False
    return _moves(thing.on, slide) or (thing.on is slide and thing.slot in SUPPORT)


def _spare(slide: Stood, needed: Range) -> Range:
    """Travel left to the nearer end, over all that may be needed: it is greatest in the middle of the travel."""
    travel = slide.part.travel
    if travel is None or not travel.known:
        return ANYTHING
    rear, front = travel.range
    middle = (rear + front) / 2
    nearest = min(max(middle, needed[0]), needed[1])
    return (min(needed[0] - rear, front - needed[1]), min(nearest - rear, front - nearest))
