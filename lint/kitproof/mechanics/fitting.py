"""Whether things fit in a case: rotated by right angles and set square to its sides, exactly.

Sizes are three sides in m, in any order for a thing. What is decided, and how:

- One thing fits squarely if its sides, sorted, are no longer than the case's, sorted: no other of its six rotations
  does better.
- Several fit if a packing is found, which is given back as a witness. They do not if the search has gone through all
  packings, or if a single one does not, or if their volume is more than the case's.
- The search (`packings`) is complete, but for more things than `MOST_THINGS` or more steps than `MOST_STEPS`, which are
  not decided.
- A thing set aslant is not looked for. That squarely there is no packing is a certain no only where no rotation at all
  can help: its diagonal is over the case's, or its shortest side, its surface, the sum of its sides or all volume. A
  convex body inside another has no more width, mean width or surface than that one.

Sizes known to intervals: a packing of the greatest sizes in the least case fits for certain; where the least sizes do
not fit in the greatest case, nothing does; in between it is not decided, for want of closer sizes. Sides may miss each
other by a nanometre (`HAIR`), so that what is written in decimals and fills a case to the last fits.

Source: geometry; derived.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from enum import Enum

from msgspec import Struct

from kitproof.mechanics.packings import HAIR, EndedError, Placed, Sides, first_try, rotations, search
from kitproof.mechanics.ranges import Interval

Size = tuple[Interval, Interval, Interval]
"""Three sides in m, each anywhere in its range."""

MOST_THINGS = 12
"""Beyond so many only a first try is made."""

MOST_TRIED = 80
"""Beyond so many not even that."""

MOST_STEPS = 2000
"""Of the search; some seconds' worth at the very most."""


class Fit(Enum):
    """Whether it fits. `ASLANT`: not squarely, and aslant is not decided."""

    YES = "fits"
    NO = "does not fit"
    ASLANT = "does not fit squarely"
    SIZES = "sizes are not known closely enough"
    SEARCH = "too many things to decide"


class Answer(Struct, frozen=True):
    """Whether things fit, and a packing of their greatest sizes where one was found, in the order given."""

    fit: Fit
    packing: tuple[Placed, ...] = ()


def folded(length: Interval) -> Size:
    """What is known of a thing of which only its greatest length when folded is: the other two sides are no longer."""
    return length, (0.0, length[1]), (0.0, length[1])


def fits(things: Sequence[Size], inside: Size, steps: int = MOST_STEPS) -> Answer:
    """Whether all things together fit in a case with these inner sides."""
    most = pack([_ends(each, 1) for each in things], _ends(inside, 0), steps)
    if most.fit is Fit.YES or all(low == high for size in (*things, inside) for low, high in size):
        return most
    least = pack([_ends(each, 0) for each in things], _ends(inside, 1), steps)
    if least.fit in (Fit.NO, Fit.ASLANT):
        return Answer(least.fit)
    return Answer(Fit.SEARCH if Fit.SEARCH in (most.fit, least.fit) else Fit.SIZES)


def fits_alone(thing: Size, inside: Size) -> Fit:
    """Whether one thing fits in an empty case."""
    return fits([thing], inside).fit


def pack(things: Sequence[Sides], inside: Sides, steps: int = MOST_STEPS) -> Answer:
    """The same for sharp sizes."""
    singles = [_alone(each, inside) for each in things]
    if Fit.NO in singles or math.fsum(map(math.prod, things)) > math.prod(side + HAIR for side in inside):
        return Answer(Fit.NO)
    if Fit.ASLANT in singles:
        return Answer(Fit.ASLANT)
    # What has no thickness takes no room, and lies flat against any side that is long enough for it.
    solid = [place for place, each in enumerate(things) if min(each) > 0]
    found = _packed([things[place] for place in solid], inside, steps)
    if isinstance(found, Fit):
        return Answer(found)
    by_place = dict(zip(solid, found, strict=True))
    return Answer(Fit.YES, tuple(by_place.get(place) or _flat(each, inside) for place, each in enumerate(things)))


def _packed(things: Sequence[Sides], inside: Sides, steps: int) -> list[Placed] | Fit:
    """A packing, or why there is none."""
    if len(things) > MOST_TRIED:
        return Fit.SEARCH
    found = first_try(things, inside)
    if found is not None:
        return found
    if len(things) > MOST_THINGS:
        return Fit.SEARCH
    try:
        return search(things, inside, steps) or Fit.ASLANT
    except EndedError:
        return Fit.SEARCH


def _alone(thing: Sides, inside: Sides) -> Fit:
    mine, room = sorted(thing), sorted(inside)
    if all(a <= b + HAIR for a, b in zip(mine, room, strict=True)):
        return Fit.YES
    cannot = (
        mine[0] > room[0] + HAIR
        or math.hypot(*mine) > math.hypot(*room) + HAIR
        or sum(mine) > sum(room) + HAIR
        or _surface(thing) > _surface((room[0] + HAIR, room[1] + HAIR, room[2] + HAIR))
    )
    return Fit.NO if cannot else Fit.ASLANT


def _surface(sides: Sides) -> float:
    a, b, c = sides
    return a * b + b * c + c * a


def _flat(thing: Sides, inside: Sides) -> Placed:
    return Placed((0.0, 0.0, 0.0), rotations(thing, inside)[0])


def _ends(size: Size, end: int) -> Sides:
    return size[0][end], size[1][end], size[2][end]
