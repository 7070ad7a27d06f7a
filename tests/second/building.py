"""Building up, after the design: the stages of a combination, and the torque if the slide is left where it was."""

from __future__ import annotations

import itertools
from collections.abc import Callable, Sequence

from tests.second.combining import Combination
from tests.second.described import ANYTHING, NOTHING, ZERO, Between, Found, Number, Range
from tests.second.placing import Stood
from tests.second.weights import G, Weight, endless, moment, tilting

Places = Callable[[Combination], Sequence[Stood]]


def ends_of(combination: Combination, carried: set[int]) -> list[int]:
    """Where the stages end: at the camera, and at each later line that adds to what is carried."""
    camera = next((n for n, each in enumerate(combination) if each.line.slot == "camera"), None)
    if camera is None:
        return []
    return [n for n, each in enumerate(combination) if n >= camera and each.number in carried]


def stages(combination: Combination, place: Places) -> list[Combination]:
    carried = {each.at.number for each in place(combination) if each.carried}
    return [combination[: end + 1] for end in ends_of(combination, carried)]


def left_over(before: Sequence[Stood] | None, now: Sequence[Stood]) -> Found:
    """g M_s (s_before − s_now), in N·m, lens-down positive.

    Exact over all corners of what stood before, but for what has no bound, and where it may be that nothing stood on
    the slide before: no wider than with the slide anywhere in its travel.
    """
    if before is None:
        return NOTHING
    slides = [each for each in now if each.slot == "slide"]
    travel = slides[0].part.travel if len(slides) == 1 else None
    if travel is None or not travel.known:
        return ANYTHING
    were = tilting(before)
    there = {w.of.at.number for w in were}
    new = [w for w in tilting(now) if w.of.at.number not in there]
    ends = (float(travel.low), float(travel.high))
    anywhere = moment([(w.mass, w.ahead(travel.range)) for w in (*were, *new)])
    wide: Range = (G * anywhere[0], G * anywhere[1])
    if not any(w.slides and w.mass[1] > 0 for w in were):
        return wide
    inner = _corners(were, new, ends)
    if endless([end for w in (*were, *new) for end in (w.mass[1], *w.forward)]):
        return Between(inner, ANYTHING)
    may_be_bare = sum((w.mass[0] for w in were if w.slides), ZERO) == 0
    return Between(inner, wide) if may_be_bare else inner


def _corners(were: Sequence[Weight], new: Sequence[Weight], travel: tuple[float, float]) -> Range:
    """All corners of the masses, with all places at either end; and what is new where the slide just meets an end."""
    found: list[float] = []
    wanted: list[float] = []
    for end in (0, 1):
        for masses in itertools.product(*(sorted({kept(m) for m in w.mass}) for w in were)):
            moving = sum(m for m, w in zip(masses, were, strict=True) if w.slides)
            if moving == 0:
                continue
            ahead = sum(m * kept(w.forward[end]) for m, w in zip(masses, were, strict=True))
            at = min(max(-ahead / moving, travel[0]), travel[1])
            wanted.append(-ahead / moving)
            was_left = ahead + moving * at if at in travel else 0.0
            found += [was_left + each for each in _tipped(new, at)]
    for limit in travel:
        if min(wanted) <= limit <= max(wanted):
            found += _tipped(new, limit)
    return (float(G) * min(found), float(G) * max(found))


def _tipped(new: Sequence[Weight], at: float) -> list[float]:
    """What is new about the tilt axis, at least and at most, with the slide in one place."""
    return [
        sum(best(kept(m) * (kept(w.forward[end]) + at * w.slides) for m in w.mass) for w in new)
        for end, best in ((0, min), (1, max))
    ]


def kept(number: Number) -> float:
    """A number, and 30 kg or m for what has no bound."""
    return max(min(float(number), 30.0), -30.0)
