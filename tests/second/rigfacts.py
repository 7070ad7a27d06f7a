"""The facts of one combination of a rig, after the design."""

from __future__ import annotations

import math
from collections.abc import Sequence

from tests.second.combining import Combination
from tests.second.corners import Term, mean, total
from tests.second.described import (
    ANY_MASS,
    ANYTHING,
    ZERO,
    Between,
    Figure,
    Found,
    Kit,
    Number,
    Range,
    Rig,
    between,
)
from tests.second.heads import capacity, head_of, lower, upper
from tests.second.lenses import lens_facts
from tests.second.placing import Stood, mass_of, place_all
from tests.second.quantities import minus
from tests.second.shares import load_and_safe_share
from tests.second.springs import counterbalance, torque_left
from tests.second.standing import standing_facts
from tests.second.weights import IN_STACK, above_ground, axis_of, moves_with, sliding, tilting


def placed(rig: Rig, combination: Combination) -> list[Stood]:
    """Every part in its place; hung below the head where the rig says so."""
    stood = place_all(combination)
    for each in stood:
        each.hangs = rig.underslung and each.carried
    return stood


def facts_of(rig: Rig, combination: Combination) -> dict[str, Found]:
    """Mass, holding, balance and counterbalance of a combination, by name. Ranges in SI."""
    stood = placed(rig, combination)
    carried = [each for each in stood if each.carried]
    found = facts_of_a_stage(stood)
    standing = [each for each in stood if each.slot == "ballast" or not each.on_ground]
    found |= {
        "sticks_bear": total([mass_of(each.part) for each in stood if _borne(each)]),
        "standing": total([mass_of(each.part) for each in standing]),
        "standing_cog_up": mean([Term(mass_of(each.part), above_ground(each, stood)) for each in standing]),
        "stack_share": _stack_share(stood),
        "legs_share": _legs_share(stood),
    }
    for axis in ("forward", "left"):
        found[f"cog_{axis}"] = mean(_terms(carried, axis))
    return found


def facts_of_a_stage(stood: Sequence[Stood]) -> dict[str, Found]:
    """Those that every stage of building up has as well."""
    carried = [each for each in stood if each.carried]
    found: dict[str, Found] = {
        "carried": total([mass_of(each.part) for each in carried]),
        "cog_up": mean(_terms(carried, "up")),
    }
    found |= _holding(stood, carried) | _sliding(stood, carried)
    head = next((each for each in stood if each.slot == "head"), None)
    return found | (counterbalance(tilting(stood), axis_of(head), head.part.spring) if head else {})


def mechanics_of(kit: Kit, rig: Rig, combination: Combination) -> dict[str, Found]:
    """What is left over in tilting, how it stands, and what hangs on lens and rods."""
    stood = placed(rig, combination)
    head = next(each for each in stood if each.slot == "head")
    left = _torque_left(rig, head, stood)
    hung = [each for each in stood if each.slot == "ballast" and not each.on_ground]
    return {
        "torque_left": left,
        "drag_hold": _drag_hold(head, left),
        "ballast_hung": total([mass_of(each.part) for each in hung]),
        **standing_facts(kit, rig, combination, stood),
        **lens_facts(stood),
    }


def _torque_left(rig: Rig, head: Stood, stood: Sequence[Stood]) -> Found:
    """Over the tilts that are said; those that are not may be any that take in level."""
    weights, axis, slide = tilting(stood), axis_of(head), sliding(stood)
    if rig.tilts is not None and rig.tilts.known:
        said = (float(rig.tilts.low), float(rig.tilts.high))
        left = torque_left(weights, axis, head.part.spring, slide, said)
        return between(left.inner, left.outer)
    level, any_tilt = (torque_left(weights, axis, head.part.spring, slide, (-t, t)) for t in (0.0, math.pi))
    return between((level.inner[0], any_tilt.inner[1]), (level.outer[0], any_tilt.outer[1]))


def _drag_hold(head: Stood, left: Found) -> Found:
    """What is left over the most drag."""
    drag = head.part.drag
    if drag is None or not drag.known:
        return ANY_MASS
    if isinstance(left, Between):
        return Between(_shared(left.inner, drag.high), _shared(left.outer, drag.high))
    assert isinstance(left, tuple)
    return _shared(left, drag.high)


def _shared(left: Range, most: Number) -> Range:
    return (float(left[0]) / float(most), float(left[1]) / float(most))


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


def _sliding(stood: Sequence[Stood], carried: Sequence[Stood]) -> dict[str, Found]:
    slides = [each for each in stood if each.slot == "slide"]
    if not slides:
        return {}
    if len(slides) > 1:
        return {"slide_needed": ANYTHING, "slide_spare": ANYTHING}
    slide = slides[0]
    moves = [each for each in carried if moves_with(each, slide)]
    moving = _terms(moves, "forward")
    resting = _terms([each for each in carried if each not in moves], "forward")
    # A pan bar tilts as well; it counts where its place is written.
    bars = [each for each in stood if each.slot == "pan bar" and each.at.line.at is not None]
    needed = minus(mean(moving, [*resting, *_terms(bars, "forward")]))
    return {"slide_needed": needed, "slide_spare": _spare(slide, needed)}


def _spare(slide: Stood, needed: Range) -> Range:
    """Travel left to the nearer end, over all that may be needed: it is greatest in the middle of the travel."""
    travel = slide.part.travel
    if travel is None or not travel.known:
        return ANYTHING
    rear, front = travel.range
    middle = (rear + front) / 2
    nearest = min(max(middle, needed[0]), needed[1])
    return (min(needed[0] - rear, front - needed[1]), min(nearest - rear, front - nearest))
