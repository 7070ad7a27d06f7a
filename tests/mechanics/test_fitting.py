"""Fit: held to brute force over every place in small cases, to what a witness must be, and to laws."""

from __future__ import annotations

import itertools
import math
import random
from collections.abc import Sequence
from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kitproof.mechanics.fitting import MOST_THINGS, MOST_TRIED, Fit, Size, fits, fits_alone, folded, pack
from kitproof.mechanics.packings import HAIR, EndedError, Placed, Sides, first_try, search
from kitproof.mechanics.ranges import Interval

INF = math.inf
Whole = tuple[int, int, int]


def sizes(low: int, high: int) -> st.SearchStrategy[Whole]:
    side = st.integers(low, high)
    return st.tuples(side, side, side)


def in_cm(size: Sequence[int]) -> Sides:
    """Sides in m from whole centimetres: decimals that no binary number holds."""
    return size[0] / 100, size[1] / 100, size[2] / 100


def sharp(size: Sequence[float]) -> Size:
    return (size[0], size[0]), (size[1], size[1]), (size[2], size[2])


@cache
def masks(thing: Whole, inside: Whole) -> tuple[int, ...]:
    """Every rotation and every whole place of a thing, as the set of unit cubes that it fills."""
    found = set()
    for turned in set(itertools.permutations(thing)):
        if any(a > b for a, b in zip(turned, inside, strict=True)):
            continue
        for corner in itertools.product(*(range(b - a + 1) for a, b in zip(turned, inside, strict=True))):
            cubes = itertools.product(*(range(c, c + s) for c, s in zip(corner, turned, strict=True)))
            found.add(sum(1 << (x * inside[1] + y) * inside[2] + z for x, y, z in cubes))
    return tuple(found)


def fits_somehow(things: Sequence[Whole], inside: Whole) -> bool:
    """Whole sides pack at whole places or not at all: pushed towards one corner, every thing touches its neighbours."""

    def place(left: Sequence[Whole], filled: int) -> bool:
        if not left:
            return True
        return any(not mask & filled and place(left[1:], filled | mask) for mask in masks(left[0], inside))

    return place(sorted(things, key=math.prod, reverse=True), 0)


def check_witness(packing: Sequence[Placed], things: Sequence[Sides], inside: Sides) -> None:
    """Each lies inside, turned by right angles, and no two overlap by more than a hair."""
    near = 2 * HAIR
    for placed, thing in zip(packing, things, strict=True):
        assert sorted(placed.sides) == sorted(thing)
        for corner, side, room in zip(*placed, inside, strict=True):
            assert corner >= 0
            assert corner + side <= room + near
    for a, b in itertools.combinations(packing, 2):
        apart = (
            one.corner[axis] + one.sides[axis] <= other.corner[axis] + near
            for axis in range(3)
            for one, other in ((a, b), (b, a))
        )
        assert any(apart)


@settings(max_examples=300)
@given(st.lists(sizes(1, 4), min_size=1, max_size=4), sizes(2, 5))
def test_the_search_agrees_with_every_place_tried(things: list[Whole], inside: Whole) -> None:
    answer = pack([in_cm(each) for each in things], in_cm(inside))
    assert (answer.fit is Fit.YES) == fits_somehow(things, inside)
    assert answer.fit is not Fit.SEARCH
    if answer.fit is Fit.YES:
        check_witness(answer.packing, [in_cm(each) for each in things], in_cm(inside))
    else:
        assert answer.packing == ()


@st.composite
def cut_up(draw: st.DrawFn) -> tuple[list[Whole], Whole]:
    """A case cut into five at random, one piece with a side perhaps a little longer: just fits, or just not."""
    inside = draw(st.tuples(*[st.integers(3, 5)] * 3))
    pieces = [inside]
    for _ in range(4):
        pieces.sort(key=math.prod)
        piece = list(pieces.pop())
        axis = draw(st.sampled_from([n for n in range(3) if piece[n] > 1]))
        at = draw(st.integers(1, piece[axis] - 1))
        for length in (at, piece[axis] - at):
            pieces.append((*piece[:axis], length, *piece[axis + 1 :]))
    pieces = pieces[draw(st.integers(0, 1)) :]
    grown = list(pieces[-1])
    grown[draw(st.integers(0, 2))] += draw(st.integers(0, 1))
    return [*pieces[:-1], (grown[0], grown[1], grown[2])], (inside[0], inside[1], inside[2])


@given(cut_up())
def test_the_search_itself_agrees_where_it_is_tight(made: tuple[list[Whole], Whole]) -> None:
    """The complete search alone, without the first try and without the volume."""
    things, inside = made
    found = search([in_cm(each) for each in things], in_cm(inside), 10**6)
    assert (found is not None) == fits_somehow(things, inside)
    if found is not None:
        check_witness(found, [in_cm(each) for each in things], in_cm(inside))


@given(st.lists(sizes(1, 4), max_size=6), sizes(2, 6))
def test_the_first_try_is_right_where_it_finds_something(things: list[Whole], inside: Whole) -> None:
    found = first_try([in_cm(each) for each in things], in_cm(inside))
    if found is not None:
        check_witness(found, [in_cm(each) for each in things], in_cm(inside))


def test_a_packing_that_no_straight_cut_divides_is_found() -> None:
    """Five in a ring about a middle one: no saw cut goes through, and the greedy first try has to be lucky."""
    ring = [(1, 2, 1), (2, 1, 1), (1, 2, 1), (2, 1, 1), (1, 1, 1)]
    assert fits_somehow(ring, (3, 3, 1))
    found = search([in_cm(each) for each in ring], in_cm((3, 3, 1)), 10**4)
    assert found is not None
    check_witness(found, [in_cm(each) for each in ring], in_cm((3, 3, 1)))


@given(sizes(1, 6), sizes(1, 6))
def test_one_thing_by_all_its_rotations(thing: Whole, inside: Whole) -> None:
    squarely = any(all(a <= b for a, b in zip(turned, inside, strict=True)) for turned in itertools.permutations(thing))
    found = fits_alone(sharp(in_cm(thing)), sharp(in_cm(inside)))
    assert (found is Fit.YES) == squarely
    if not squarely:
        assert found in (Fit.NO, Fit.ASLANT)


def turned(chance: random.Random) -> list[list[float]]:
    """A rotation at random: the axes of three random directions made square to each other."""
    rows: list[list[float]] = []
    while len(rows) < 3:
        row = [chance.gauss(0, 1) for _ in range(3)]
        for other in rows:
            along = sum(a * b for a, b in zip(row, other, strict=True))
            row = [a - along * b for a, b in zip(row, other, strict=True)]
        length = math.hypot(*row)
        if length > 1e-3:
            rows.append([a / length for a in row])
    return rows


@given(sizes(1, 12), st.integers(0, 999))
def test_no_is_never_said_of_what_fits_aslant(thing: Whole, seed: int) -> None:
    """A case just as large as a thing turned at random takes it, and so it must not be said that it does not."""
    chance = random.Random(seed)
    for _ in range(5):
        rows = turned(chance)
        room = [sum(abs(row[axis]) * side for row, side in zip(rows, thing, strict=True)) for axis in range(3)]
        assert fits_alone(sharp(thing), sharp(room)) is not Fit.NO


def test_a_thing_that_fits_only_aslant_and_one_that_does_not() -> None:
    case = sharp((0.6, 0.4, 0.2))
    assert fits_alone(sharp((0.65, 0.02, 0.02)), case) is Fit.ASLANT
    assert fits_alone(sharp((0.76, 0.01, 0.01)), case) is Fit.NO
    assert fits_alone(sharp((0.3, 0.3, 0.21)), case) is Fit.NO
    assert fits_alone(sharp((0.62, 0.4, 0.2)), case) is Fit.NO
    # Smaller than a long case by its least side, its diagonal, its sum and its volume, and yet with more skin.
    assert fits_alone(sharp((0.05, 0.5, 0.5)), sharp((1.0, 0.13, 0.13))) is Fit.NO
    assert fits([sharp((0.65, 0.02, 0.02)), sharp((0.1, 0.1, 0.1))], case).fit is Fit.ASLANT


def test_what_only_folds_to_a_length() -> None:
    case = sharp((1.2, 0.3, 0.3))
    assert fits_alone(folded((1.12, 1.12)), case) is Fit.SIZES
    assert fits_alone(folded((1.21, 1.21)), case) is Fit.ASLANT
    assert fits_alone(folded((1.3, 1.3)), case) is Fit.NO
    assert fits_alone(folded((0.29, 0.29)), case) is Fit.YES
    assert fits_alone(folded((0.0, INF)), case) is Fit.SIZES


def test_sizes_known_loosely() -> None:
    case: Size = (0.5, 0.6), (0.4, 0.4), (0.2, 0.2)
    assert fits_alone(sharp((0.5, 0.4, 0.2)), case) is Fit.YES
    assert fits_alone(sharp((0.55, 0.4, 0.2)), case) is Fit.SIZES
    assert fits_alone(sharp((0.61, 0.4, 0.2)), case) is Fit.NO
    assert fits_alone(((0.4, 0.55), (0.4, 0.4), (0.2, 0.2)), case) is Fit.SIZES


UNKNOWN: Interval = (0.0, INF)


def test_what_is_not_known_is_not_decided() -> None:
    nothing: Size = (UNKNOWN, UNKNOWN, UNKNOWN)
    assert fits_alone(sharp((0.5, 0.4, 0.2)), nothing) is Fit.SIZES
    assert fits_alone(nothing, sharp((0.5, 0.4, 0.2))) is Fit.SIZES
    assert fits_alone(nothing, nothing) is Fit.SIZES
    assert fits([nothing, sharp((0.6, 0.1, 0.1))], sharp((0.5, 0.1, 0.1))).fit is Fit.NO
    assert fits([], nothing).fit is Fit.YES


@given(st.lists(sizes(1, 4), min_size=1, max_size=3), sizes(3, 5), sizes(1, 4))
def test_adding_a_thing_never_makes_fit_what_did_not(things: list[Whole], inside: Whole, more: Whole) -> None:
    room = sharp(in_cm(inside))
    before = fits([sharp(in_cm(each)) for each in things], room).fit
    after = fits([sharp(in_cm(each)) for each in (*things, more)], room).fit
    if before is not Fit.YES:
        assert after is not Fit.YES
    if before is Fit.NO:
        assert after is Fit.NO


def loosely(low: int, high: int) -> st.SearchStrategy[Size]:
    side = st.tuples(st.integers(low, high), st.integers(0, 1)).map(lambda s: (s[0] / 100, (s[0] + s[1]) / 100))
    return st.tuples(side, side, side)


@given(st.lists(loosely(1, 4), min_size=1, max_size=3), loosely(3, 5), st.integers(0, 9))
def test_what_is_certain_of_ranges_is_so_of_every_size_within(things: list[Size], inside: Size, seed: int) -> None:
    chance = random.Random(seed)
    whole = fits(things, inside).fit
    for _ in range(4):
        picked = [sharp([chance.uniform(*side) for side in each]) for each in things]
        one = fits(picked, sharp([chance.uniform(*side) for side in inside])).fit
        if whole in (Fit.YES, Fit.NO):
            assert one is whole
        if whole is Fit.ASLANT:
            assert one in (Fit.ASLANT, Fit.NO)


def test_a_witness_of_ranges_holds_the_greatest_sizes() -> None:
    things: list[Size] = [((0.2, 0.25), (0.2, 0.2), (0.1, 0.1)), sharp((0.25, 0.2, 0.1))]
    answer = fits(things, sharp((0.5, 0.2, 0.1)))
    assert answer.fit is Fit.YES
    check_witness(answer.packing, [(0.25, 0.2, 0.1)] * 2, (0.5, 0.2, 0.1))


def test_decimals_fill_a_case_to_the_last() -> None:
    """0.1 + 0.2 is more than 0.3 in binary numbers."""
    assert pack([(0.1, 0.1, 0.1), (0.2, 0.1, 0.1)], (0.3, 0.1, 0.1)).fit is Fit.YES
    assert pack([(0.1, 0.1, 0.1)] * 12, (0.3, 0.2, 0.2)).fit is Fit.YES
    assert pack([(0.1, 0.1, 0.1)] * 13, (0.3, 0.2, 0.2)).fit is Fit.NO


def test_what_has_no_thickness_takes_no_room() -> None:
    full = [(0.3, 0.2, 0.1)]
    assert pack([*full, (0.3, 0.2, 0.0)], (0.3, 0.2, 0.1)).fit is Fit.YES
    assert pack([*full, (0.4, 0.0, 0.0)], (0.3, 0.2, 0.1)).fit is Fit.NO
    assert pack([(0.0, 0.0, 0.0)], (0.0, 0.0, 0.0)).fit is Fit.YES


def test_a_search_that_was_cut_short_decides_nothing() -> None:
    things = [(0.3, 0.2, 0.2), (0.3, 0.2, 0.2), (0.2, 0.2, 0.2), (0.2, 0.3, 0.1), (0.2, 0.1, 0.1)]
    with pytest.raises(EndedError):
        search(things, (0.5, 0.4, 0.3), 2)
    assert pack([(0.16, 0.16, 0.16)] * 8, (0.31, 0.4, 0.31), steps=2).fit is Fit.SEARCH


def test_more_things_than_can_be_searched_are_tried_once_and_more_than_that_are_not() -> None:
    small, room = (0.1, 0.07, 0.05), (0.6, 0.4, 0.3)
    assert pack([small] * (MOST_THINGS + 1), room).fit is Fit.YES
    assert pack([small] * (MOST_TRIED + 1), room).fit is Fit.SEARCH
    assert pack([(0.16, 0.15, 0.15)] * (MOST_THINGS + 1), (0.45, 0.45, 0.31)).fit in (Fit.SEARCH, Fit.NO)


def test_many_things_that_fill_a_case_are_found_at_once() -> None:
    found = first_try([(0.1, 0.1, 0.1)] * 27, (0.3, 0.3, 0.3))
    assert found is not None
    assert len({tuple(round(at, 6) for at in each.corner) for each in found}) == 27
    assert all(0 <= at <= 0.2 + HAIR for each in found for at in each.corner)
