"""Fit against an independent solver: the packing written as a mixed-integer programme for scipy's HiGHS."""

from __future__ import annotations

import itertools
import random
from collections.abc import Sequence

import numpy as np
import pytest
from scipy.optimize import Bounds, LinearConstraint, milp

from kitproof.mechanics.fitting import Fit, pack
from kitproof.mechanics.packings import Sides

TURNS = list(itertools.permutations(range(3)))


def solver_fits(things: Sequence[Sides], inside: Sides) -> bool:
    """Unknowns: three coordinates and six rotations of each thing, six ways to be apart for each pair.

    One rotation each and one way for each pair, at least. A way that is not taken is loosened by the case's own length.
    """
    pairs = list(itertools.combinations(range(len(things)), 2))
    each, many = 3 + len(TURNS), len(things) * (3 + len(TURNS))
    width = many + 6 * len(pairs)
    rows: list[np.ndarray] = []
    highs: list[float] = []

    def row(terms: dict[int, float], high: float) -> None:
        made = np.zeros(width)
        for at, factor in terms.items():
            made[at] += factor
        rows.append(made)
        highs.append(high)

    def sides(thing: int, axis: int) -> dict[int, float]:
        return {thing * each + 3 + n: things[thing][turn[axis]] for n, turn in enumerate(TURNS)}

    for thing in range(len(things)):
        turns = [thing * each + 3 + n for n in range(len(TURNS))]
        row(dict.fromkeys(turns, 1.0), 1)
        row(dict.fromkeys(turns, -1.0), -1)
        for axis in range(3):
            row({thing * each + axis: 1.0, **sides(thing, axis)}, inside[axis])
    for number, (a, b) in enumerate(pairs):
        ways = [many + 6 * number + n for n in range(6)]
        row(dict.fromkeys(ways, -1.0), -1)
        for way, (axis, (one, other)) in zip(ways, itertools.product(range(3), ((a, b), (b, a))), strict=True):
            loose = inside[axis]
            apart = {one * each + axis: 1.0, other * each + axis: -1.0, way: loose, **sides(one, axis)}
            row(apart, loose)
    whole = np.ones(width)
    for thing in range(len(things)):
        whole[thing * each : thing * each + 3] = 0
    top = np.where(whole == 1, 1.0, max(inside))
    found = milp(
        np.zeros(width),
        constraints=LinearConstraint(np.array(rows), -np.inf, np.array(highs)),
        integrality=whole,
        bounds=Bounds(0, top),
    )
    assert found.status in (0, 2), found.message
    return bool(found.status == 0)


def case(number: int) -> tuple[list[Sides], Sides]:
    """Two to four things in whole cm that come near to filling a case."""
    chance = random.Random(number)
    inside = (chance.randint(30, 70), chance.randint(25, 50), chance.randint(15, 35))
    things: list[Sides] = []
    while len(things) < 2 + number % 3:
        sides = [chance.randint(side * 2 // 5, side * (9 - number % 3) // 10) for side in inside]
        chance.shuffle(sides)
        things.append((float(sides[0]), float(sides[1]), float(sides[2])))
    return things, (float(inside[0]), float(inside[1]), float(inside[2]))


@pytest.mark.parametrize("number", range(60))
def test_the_solver_agrees(number: int) -> None:
    """scipy.optimize.milp, with no packing code of ours."""
    things, inside = case(number)
    found = pack(things, inside).fit
    assert found is not Fit.SEARCH
    assert (found is Fit.YES) == solver_fits(things, inside)


def test_the_cases_fall_on_both_sides() -> None:
    """Were they all alike, the test above would tell little."""
    found = [pack(*case(number)).fit is Fit.YES for number in range(60)]
    assert 15 <= sum(found) <= 45
