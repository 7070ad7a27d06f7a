"""The search for a packing: things turned by right angles and set square into a case, none overlapping.

It is complete. In any packing two things are apart along one of the three axes, one before the other. So the search
gives each thing a rotation, lays all as near to the corner as the order chosen so far lets them, and takes two that
overlap there: one of the six ways to set them apart holds in every packing that keeps to that order. Each branch orders
one more pair, so it ends; where nothing overlaps a packing is found, and where every branch leads out of the case there
is none. Two kinds of branch are left out, as they are copies of others: of the first order along an axis its mirror
image, and of things of one size those that differ by which of them is turned which way.

Source: derived; held to brute force and to an independent solver in the tests.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import combinations, permutations
from typing import NamedTuple

Sides = tuple[float, float, float]
"""In m, along the axes of the case."""

HAIR = 1e-9
"""How far sides may miss each other, in m."""

AXES = (0, 1, 2)


class Placed(NamedTuple):
    """Where a thing lies in the case: its corner nearest to the case's own, and its sides as turned, in m."""

    corner: Sides
    sides: Sides


class Order(NamedTuple):
    """One thing before another along an axis, by their places in the list."""

    axis: int
    first: int
    second: int


class EndedError(Exception):
    """The steps allowed were used up before the search was through."""


def rotations(thing: Sides, inside: Sides) -> list[Sides]:
    """The different rotations of a thing that lie within a case, the flattest first."""
    ways: list[Sides] = [(a, b, c) for a, b, c in permutations(thing)]
    turned = {each for each in ways if all(a <= b + HAIR for a, b in zip(each, inside, strict=True))}
    return sorted(turned, key=lambda sides: sides[::-1])


def search(things: Sequence[Sides], inside: Sides, steps: int) -> list[Placed] | None:
    """A packing, in the order of the things; None where there is none. Every side must be more than 0.

    Raises EndedError where so many steps were not enough to tell.
    """
    largest = sorted(range(len(things)), key=lambda place: -things[place][0] * things[place][1] * things[place][2])
    found = _Search([things[place] for place in largest], inside, steps)
    if not found.place_next(0):
        return None
    by_place = dict(zip(largest, found.placed(), strict=True))
    return [by_place[place] for place in range(len(things))]


def first_try(things: Sequence[Sides], inside: Sides) -> list[Placed] | None:
    """A packing found at once, for the many cases that are far from full; None says nothing.

    The largest first, each as low as it lies at the case's corner or at a corner that another leaves beside, before or
    upon it.
    """
    largest = sorted(range(len(things)), key=lambda place: -things[place][0] * things[place][1] * things[place][2])
    found: dict[int, Placed] = {}
    corners: list[Sides] = [(0.0, 0.0, 0.0)]
    for place in largest:
        tries = (Placed(corner, sides) for corner in corners for sides in rotations(things[place], inside))
        laid = next((each for each in tries if _free(each, found.values(), inside)), None)
        if laid is None:
            return None
        found[place] = laid
        ends = [c + s for c, s in zip(laid.corner, laid.sides, strict=True)]
        new = [(*laid.corner[:axis], ends[axis], *laid.corner[axis + 1 :]) for axis in AXES]
        corners = sorted({*corners, *((c[0], c[1], c[2]) for c in new)} - {laid.corner}, key=lambda c: c[::-1])
    return [found[place] for place in range(len(things))]


def _free(new: Placed, others: Iterable[Placed], inside: Sides) -> bool:
    """Whether a thing lies within the case and overlaps no other."""
    within = all(new.corner[axis] + new.sides[axis] <= inside[axis] + HAIR for axis in AXES)
    return within and not any(_overlap(*new, *other) for other in others)


def _overlap(corner: Sequence[float], sides: Sides, other: Sequence[float], others: Sides) -> bool:
    return all(
        corner[axis] + sides[axis] > other[axis] + HAIR and other[axis] + others[axis] > corner[axis] + HAIR
        for axis in AXES
    )


class _Search:
    """The things laid so far: their sides as turned, their corners, and what is ordered before what along each axis."""

    def __init__(self, things: Sequence[Sides], inside: Sides, steps: int) -> None:
        self.inside, self.steps = inside, steps
        self.turns = [rotations(each, inside) for each in things]
        same = [sorted(each) for each in things]
        self.twin = [same.index(each, 0, place) if each in same[:place] else None for place, each in enumerate(same)]
        self.turn = [0] * len(things)
        self.sides: list[Sides] = [(0.0, 0.0, 0.0)] * len(things)
        self.corners: list[list[float]] = [[0.0, 0.0, 0.0] for _ in things]
        self.after: list[list[list[int]]] = [[[] for _ in things] for _ in AXES]
        self.ordered = [0, 0, 0]

    def placed(self) -> list[Placed]:
        return [Placed((c[0], c[1], c[2]), sides) for c, sides in zip(self.corners, self.sides, strict=True)]

    def place_next(self, count: int) -> bool:
        """Adds one thing to so many that lie without overlapping, in each of its rotations, and settles them anew."""
        if count == len(self.turns):
            return True
        for turn in range(self._first_turn(count), len(self.turns[count])):
            self.turn[count], self.sides[count] = turn, self.turns[count][turn]
            self.corners[count] = [0.0, 0.0, 0.0]
            if self._settle(count + 1):
                return True
        return False

    def _first_turn(self, place: int) -> int:
        """Things of one size are turned in order, the last of them met so far first."""
        before = [other for other in range(place) if other == self.twin[place] or self.twin[other] == self.twin[place]]
        return self.turn[before[-1]] if self.twin[place] is not None else 0

    def _settle(self, count: int) -> bool:
        """Sets two of the first so many that overlap apart in each way that there is, then goes on."""
        self.steps -= 1
        if self.steps < 0:
            raise EndedError
        ways = self._fewest_ways(count)
        if ways is None:
            return self.place_next(count)
        for order in ways:
            moved: list[tuple[int, float]] = []
            self._add(order)
            if self._push(order, moved) and self._settle(count):
                return True
            self._take_back(order, moved)
        return False

    def _fewest_ways(self, count: int) -> list[Order] | None:
        """The ways to set apart the two that overlap and have the fewest of them; None where nothing overlaps."""
        fewest: list[Order] | None = None
        for a, b in combinations(range(count), 2):
            if _overlap(self.corners[a], self.sides[a], self.corners[b], self.sides[b]):
                ways = list(self._ways(a, b))
                if fewest is None or len(ways) < len(fewest):
                    fewest = ways
                if not ways:
                    break
        return fewest

    def _ways(self, a: int, b: int) -> Iterator[Order]:
        """Those that do not leave the case at once; along an axis with nothing in order yet one stands for both."""
        for axis in AXES:
            for order in (Order(axis, a, b), Order(axis, b, a))[: 2 if self.ordered[axis] else 1]:
                end = self.corners[order.first][axis] + self.sides[a][axis] + self.sides[b][axis]
                if end <= self.inside[axis] + HAIR and not self._leads(axis, order.second, order.first):
                    yield order

    def _leads(self, axis: int, start: int, end: int) -> bool:
        """Whether one thing is before another along an axis, directly or by way of others."""
        waiting = [start]
        while waiting:
            each = waiting.pop()
            if each == end:
                return True
            waiting += self.after[axis][each]
        return False

    def _add(self, order: Order) -> None:
        self.after[order.axis][order.first].append(order.second)
        self.ordered[order.axis] += 1

    def _take_back(self, order: Order, moved: list[tuple[int, float]]) -> None:
        for place, before in reversed(moved):
            self.corners[place][order.axis] = before
        self.after[order.axis][order.first].pop()
        self.ordered[order.axis] -= 1

    def _push(self, order: Order, moved: list[tuple[int, float]]) -> bool:
        """Moves what comes after as far as it must, and notes what it moved; False where something leaves the case."""
        axis = order.axis
        waiting = [order.first]
        while waiting:
            each = waiting.pop()
            end = self.corners[each][axis] + self.sides[each][axis]
            for later in self.after[axis][each]:
                if self.corners[later][axis] < end:
                    if end + self.sides[later][axis] > self.inside[axis] + HAIR:
                        return False
                    moved.append((later, self.corners[later][axis]))
                    self.corners[later][axis] = end
                    waiting.append(later)
        return True
