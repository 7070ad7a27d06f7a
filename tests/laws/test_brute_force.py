"""What a build weighs, where its centre of gravity is, how much of a chart it uses: against every corner of the box.

The places are worked out here anew, from the list's own numbers in whole grams and millimetres, with plain fractions
and no code of the package but the reading of the text.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from fractions import Fraction
from typing import NamedTuple

import pytest
from hypothesis import assume, given

from kitproof.facts.values import Amount
from tests.laws.lists import FEW, FIGURES, Gear, Thing, gears, kitlist
from tests.model.texts import subject

Mass = tuple[int, int]


class Spot(NamedTuple):
    """Mass, place and whether it moves with the slide, of one part."""

    mass: Mass
    forward: Mass
    up: Mass
    left: Mass
    moves: bool


Spots = list[Spot]


def plus(*several: tuple[int, int] | None) -> tuple[int, int]:
    return sum(each[0] for each in several if each), sum(each[1] for each in several if each)


def mass_of(part: Thing) -> Mass:
    assert part.mass is not None
    return part.mass


def spots(gear: Gear, lens: Thing | None) -> Spots:
    """Where everything is, in mm above the plate and forward of the axis, with the slide at its mark."""
    found: Spots = []
    level: tuple[int, int] = (0, 0)
    for part in (gear.slide, gear.base, gear.camera):
        moves = part is not gear.slide or gear.itself
        found.append(Spot(mass_of(part), plus(part.forward), plus(level, part.up), plus(part.left), moves))
        if part is not gear.camera:
            level = plus(level, part.height)
    if lens is not None:
        x, z = gear.mount
        where = (plus((x, x), lens.forward), plus(level, (z, z), lens.up), plus(lens.left))
        found.append(Spot(mass_of(lens), *where, True))
    for each in gear.hung:
        assert each.at is not None
        forward, up, left = each.at
        where = (plus(forward, each.forward), plus(level, up, each.up), plus(left, each.left))
        found.append(Spot(mass_of(each), *where, True))
    return found


def corners(box: Spots, axis: str) -> Iterator[tuple[tuple[int, ...], tuple[int, ...]]]:
    """Masses and places along one axis at every corner; all places at one end, as each end of the mean has."""
    for masses in itertools.product(*({*each.mass} for each in box)):
        for end in (0, 1):
            yield masses, tuple(getattr(each, axis)[end] for each in box)


def mean(masses: tuple[int, ...], places: tuple[int, ...]) -> Fraction:
    return Fraction(sum(m * r for m, r in zip(masses, places, strict=True)), sum(masses))


def agree(found: Amount, low: Fraction, high: Fraction) -> None:
    assert found.missing == ()
    assert found.low == pytest.approx(float(low), rel=1e-9, abs=1e-9)
    assert found.high == pytest.approx(float(high), rel=1e-9, abs=1e-9)


def each_build(gear: Gear) -> Iterator[tuple[int, Spots]]:
    for number, lens in enumerate(gear.lenses or (None,)):
        yield number, spots(gear, lens)


@given(gears())
@FEW
def test_what_is_carried_is_the_sum_of_the_masses(gear: Gear) -> None:
    listed = kitlist(gear)
    for number, box in each_build(gear):
        found = subject(listed, number=number).amount("carried")
        agree(
            found, Fraction(sum(each.mass[0] for each in box), 1000), Fraction(sum(each.mass[1] for each in box), 1000)
        )


@given(gears())
@FEW
@pytest.mark.parametrize("axis", ["forward", "up", "left"])
def test_the_centre_of_gravity_is_the_least_and_the_greatest_over_all_corners(axis: str, gear: Gear) -> None:
    listed = kitlist(gear)
    for number, box in each_build(gear):
        means = [mean(*corner) / 1000 for corner in corners(box, axis)]
        agree(subject(listed, number=number).amount(f"cog_{axis}"), min(means), max(means))


@given(gears())
@FEW
def test_the_slide_balances_what_tilts_at_every_corner(gear: Gear) -> None:
    listed = kitlist(gear)
    for number, box in each_build(gear):
        moving = [each.moves for each in box]
        needed = []
        for masses, places in corners(box, "forward"):
            moved = sum(mass for mass, moves in zip(masses, moving, strict=True) if moves)
            needed.append(-Fraction(sum(m * r for m, r in zip(masses, places, strict=True)), moved) / 1000)
        agree(subject(listed, number=number).amount("slide_needed"), min(needed), max(needed))


CHART = ((Fraction(100), Fraction(25)), (Fraction(200), Fraction(14)), (Fraction(400), Fraction(6)))
"""The first of the heads in `lists.FIGURES`: height in mm, mass in kg."""


def charted(height: Fraction) -> Fraction:
    """What the charted head holds, straight between its points; only for heights on its chart, or below it."""
    if height <= CHART[0][0]:
        return CHART[0][1]
    (left, more), (right, less) = next(pair for pair in itertools.pairwise(CHART) if height <= pair[1][0])
    return more + (less - more) * (height - left) / (right - left)


@given(gears(FIGURES[:1]))
@FEW
def test_the_load_share_holds_every_corner_and_is_met_where_all_is_sharp(gear: Gear) -> None:
    """Corners do not always meet its ends (a share can be greatest within an edge), yet none lies outside."""
    listed = kitlist(gear)
    for number, box in each_build(gear):
        heights = [(sum(masses), mean(masses, places)) for masses, places in corners(box, "up")]
        assume(all(0 <= height <= 400 for _, height in heights))
        shares = [Fraction(mass, 1000) / charted(height) for mass, height in heights]
        found = subject(listed, number=number).amount("load_share")
        assert found.low <= float(min(shares)) * (1 + 1e-9)
        assert found.high >= float(max(shares)) * (1 - 1e-9)
        if len(set(heights)) == 1:
            agree(found, shares[0], shares[0])
