"""The worst of many combinations: best first, and what cannot be as bad as the worst so far is not looked at."""

from __future__ import annotations

import heapq
import math
from collections.abc import Callable, Sequence
from functools import partial
from typing import NamedTuple

from kitproof.facts.boxes import Box
from kitproof.facts.hulls import PINNED, PINS, BlurredError, DiffersError, Pin
from kitproof.facts.rig import RigSubject
from kitproof.facts.subject import Subject
from kitproof.proofing.hits import Rank, how_bad
from kitproof.proofing.looking import Case, Leaf, Rigs, Weighing
from kitproof.rulebook.compile import Env
from kitproof.rulebook.rules import Rule

Bad = tuple[float, float]
"""How bad it is, from least to most: the greater least is the worse, then the greater most."""


Bounded = tuple[Bad, frozenset[int]]
"""How bad it is, and the lines that are blurred in that; where any are, no combination of the box is worse."""


class Start(NamedTuple):
    """Combinations to look through, and what is judged there."""

    box: Box
    case: Case


class _Waiting(NamedTuple):
    """A box to be looked at, the worst that may be in it first: no combination of it is worse than `bound`."""

    bound: Bad
    rank: Rank
    start: Start

    @property
    def place(self) -> tuple[float, float, Rank]:
        return (-self.bound[0], -self.bound[1], self.rank)


def worst(rigs: Rigs, rule: Rule, leaves: Sequence[Leaf]) -> tuple[Bad, Subject, Env]:
    """The combination of some boxes that is worst by how bad it is, and how bad; the first in the order written of
    those that are as bad."""
    if rule.worst is None:
        leaves = [min(leaves, key=lambda leaf: (leaf.box.first, leaf.case))]

    def bounded(start: Start) -> Bounded:
        return bounds(rigs, start.box, lambda rig: how_bad(rule, *rigs.find(rule, start.case, rig)))

    starts = [Start(leaf.box, leaf.case) for leaf in leaves]
    bad, found = worst_of(rigs, starts, bounded, lambda start: rigs.weighing(rule, start.case))
    return (bad, *rigs.find(rule, found.case, rigs.single(found.box.first, found.box)))


def worst_of(
    rigs: Rigs,
    starts: Sequence[Start],
    bounded: Callable[[Start], Bounded],
    by: Callable[[Start], Weighing],
    looks: float = math.inf,
) -> tuple[Bad, Start]:
    """How bad the worst combination of some boxes is, and that combination, the first of its box.

    After so many `looks` it is how bad it is at most, with the combinations that may be.
    """
    queue = [_Waiting((math.inf, math.inf), each.box.first, each) for each in starts]
    waiting = [(each.place, number, each) for number, each in enumerate(queue)]
    heapq.heapify(waiting)
    best: tuple[Bad, _Waiting] | None = None
    number = len(waiting)
    while waiting and (best is None or waiting[0][2].bound >= best[0]):
        each = heapq.heappop(waiting)[2]
        looks -= 1
        if looks < 0 and math.isfinite(each.bound[0]):
            return each.bound, each.start
        box, bad = each.start.box, each.bound
        try:
            bad, blurred = bounded(each.start)
            if not blurred:
                if best is None or bad > best[0] or (bad == best[0] and each.rank < best[1].rank):
                    best = (bad, each)
                continue
            parts = rigs.apart(box, blurred, by(each.start))
        except (DiffersError, BlurredError) as why:
            parts = rigs.apart(box, why, by(each.start))
        for part in parts:
            new = _Waiting(min(bad, each.bound), part.first, Start(part, each.start.case))
            heapq.heappush(waiting, (new.place, number := number + 1, new))
    assert best is not None, "a box holds at least one combination"
    return best[0], best[1].start


def bounds(rigs: Rigs, box: Box, of: Callable[[RigSubject], Bad]) -> Bounded:
    """How bad all combinations of a box are, where nothing is blurred; else how bad they are at most.

    The least that one may be is not more than what it is with its numbers in doubt taken as any that they may be.
    """
    bad, blurred = rigs.noting(lambda: of(rigs.at(box)))
    if not blurred:
        return bad, blurred
    least = most = bad[1]
    for pin in PINS:
        (_, high), lines = rigs.noting(partial(_pinned, rigs, box, pin, of))
        least = min(least, high)
        if PINNED not in lines:
            break
    return (least, most), blurred


def _pinned(rigs: Rigs, box: Box, pin: Pin, of: Callable[[RigSubject], Bad]) -> Bad:
    return of(rigs.at(box, pin))


def most(
    rigs: Rigs, boxes: Sequence[Box], of: Callable[[RigSubject], float], name: str, looks: float = math.inf
) -> tuple[float, Box]:
    """The greatest that a number comes to, with the first combination, of some boxes, in which it does.

    After so many `looks` it is what the number comes to at most.
    """
    starts = [Start(box, Case("rig", 0, 0)) for box in boxes]

    def bounded(start: Start) -> Bounded:
        number, blurred = rigs.noting(lambda: of(rigs.at(start.box)))
        return (number, number), blurred

    by = Weighing(name, lambda box: of(rigs.at(box)))
    (number, _), found = worst_of(rigs, starts, bounded, lambda start: by, looks)
    return number, found.box.only(found.box.first)
