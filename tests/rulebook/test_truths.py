"""The four truths by brute force: every pair and every triple of truths, against the table written out."""

from __future__ import annotations

from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kitproof.facts.values import Amount, Truth, Verdict
from kitproof.rulebook.truths import COMPARED, TINY, above, all_of, any_of, compare, opposite
from tests.rulebook.fakes import ENV, about, part, rig, rule

F, T, U, M = Truth.FALSE, Truth.TRUE, Truth.UNDECIDED, Truth.MISSING

# The table of `and`, written out cell by cell from the design of the language.
AND = {
    (F, F): F, (F, T): F, (F, U): F, (F, M): F,
    (T, F): F, (T, T): T, (T, U): U, (T, M): M,
    (U, F): F, (U, T): U, (U, U): U, (U, M): M,
    (M, F): F, (M, T): M, (M, U): M, (M, M): M,
}  # fmt: skip
OR = {
    (F, F): F, (F, T): T, (F, U): U, (F, M): M,
    (T, F): T, (T, T): T, (T, U): T, (T, M): T,
    (U, F): U, (U, T): T, (U, U): U, (U, M): M,
    (M, F): M, (M, T): T, (M, U): M, (M, M): M,
}  # fmt: skip
NOT = {F: T, T: F, U: U, M: M}


def verdict(truth: Truth, name: str = "a mass") -> Verdict:
    return Verdict(truth, (name,) if truth is M else ())


@pytest.mark.parametrize(("one", "other"), list(product(Truth, repeat=2)))
def test_and_or_of_two_are_the_tables(one: Truth, other: Truth) -> None:
    assert all_of([verdict(one), verdict(other)]).truth is AND[one, other]
    assert any_of([verdict(one), verdict(other)]).truth is OR[one, other]


@pytest.mark.parametrize("three", list(product(Truth, repeat=3)))
def test_and_or_of_three_are_those_of_two_twice(three: tuple[Truth, Truth, Truth]) -> None:
    a, b, c = three
    assert all_of(verdict(each) for each in three).truth is AND[AND[a, b], c]
    assert any_of(verdict(each) for each in three).truth is OR[OR[a, b], c]


@pytest.mark.parametrize("truth", list(Truth))
def test_not_keeps_doubt_and_undoes_itself(truth: Truth) -> None:
    assert opposite(verdict(truth)).truth is NOT[truth]
    assert opposite(opposite(verdict(truth))) == verdict(truth)


@pytest.mark.parametrize(("one", "other"), list(product(Truth, repeat=2)))
def test_the_language_has_the_same_tables(one: Truth, other: Truth) -> None:
    thing = rig(left_standing=verdict(one), underslung=verdict(other))
    assert rule("left_standing and underslung").applies_and_fails(thing, ENV).truth is AND[one, other]
    assert rule("left_standing or underslung").applies_and_fails(thing, ENV).truth is OR[one, other]
    assert rule("not left_standing").applies_and_fails(thing, ENV).truth is NOT[one]
    assert rule("not not left_standing").applies_and_fails(thing, ENV).truth is one
    neither = rule("not (left_standing or underslung)").applies_and_fails(thing, ENV)
    assert neither == rule("not left_standing and not underslung").applies_and_fails(thing, ENV)


@pytest.mark.parametrize("truths", [each for size in range(4) for each in product(Truth, repeat=size)])
def test_quantifiers_fold(truths: tuple[Truth, ...]) -> None:
    things = tuple(part(str(at), upright=verdict(truth)) for at, truth in enumerate(truths))
    found = F
    for truth in truths:
        found = OR[found, truth]
    assert rule("any p in parts where p.upright").applies_and_fails(rig(parts=things), ENV).truth is found
    assert rule("no p in parts where p.upright").applies_and_fails(rig(parts=things), ENV).truth is NOT[found]


@pytest.mark.parametrize("truths", [each for size in range(4) for each in product(Truth, repeat=size)])
def test_count_is_an_interval_over_every_way_doubt_can_fall(truths: tuple[Truth, ...]) -> None:
    things = tuple(part(str(at), upright=verdict(truth, f"mass {at}")) for at, truth in enumerate(truths))
    ways = [sum(chosen) for chosen in product(*([[0], [1], [0, 1], [0, 1]][truth] for truth in truths))]
    counted = rule(worst="count(p in parts where p.upright)").how_bad(rig(parts=things), ENV)
    missing = tuple(f"mass {at}" for at, truth in enumerate(truths) if truth is M)
    assert counted == Amount(float(min(ways)), float(max(ways)), missing)


def test_what_is_missing_is_named_by_all_that_wait_for_it() -> None:
    both = all_of([verdict(M, "mass of the head"), verdict(U), verdict(M, "chart"), verdict(M, "chart")])
    assert both == Verdict(M, ("mass of the head", "chart"))


def test_an_and_that_is_false_names_nothing_missing() -> None:
    assert all_of([verdict(M), verdict(F)]) == Verdict(F)


POINTS = {
    "=": lambda a, b: a == b,
    "!=": lambda a, b: a != b,
    "<": lambda a, b: a < b,
    ">": lambda a, b: a > b,
    "<=": lambda a, b: a <= b,
    ">=": lambda a, b: a >= b,
}
GRID = range(5)
INTERVALS = [(low, high) for low in GRID for high in GRID if low <= high]


@pytest.mark.parametrize("sign", list(COMPARED))
def test_comparisons_against_every_pair_of_points(sign: str) -> None:
    """Steps of a quarter stand for all points: on ends that are whole numbers no other pair decides differently."""
    for one, other in product(INTERVALS, repeat=2):
        pairs = product(_quarters(one), _quarters(other))
        met = {POINTS[sign](a, b) for a, b in pairs}
        wanted = U if len(met) == 2 else (T if met == {True} else F)
        assert compare(sign, about(*one), about(*other)).truth is wanted, (sign, one, other)


def _quarters(ends: tuple[int, int]) -> list[float]:
    return [ends[0] + step / 4 for step in range(4 * (ends[1] - ends[0]) + 1)]


def test_an_unknown_mass_can_be_too_much_already() -> None:
    """Twelve known kilograms and an unknown rest, on a head good for ten."""
    thing = rig(carried=about(12, float("inf"), "mass of the monitor"), capacity=about(10))
    assert rule().applies_and_fails(thing, ENV).truth is T


def test_an_unknown_mass_that_decides_is_missing() -> None:
    thing = rig(carried=about(8, float("inf"), "mass of the monitor"), capacity=about(10))
    assert rule().applies_and_fails(thing, ENV) == Verdict(M, ("mass of the monitor",))


def test_numbers_that_a_conversion_made_unequal_are_equal() -> None:
    assert compare("=", about(1.5 * 0.01), about(15 * 0.001)).truth is T
    assert compare(">", about(0.1 + 0.2), about(0.3)).truth is F


def test_a_billionth_of_a_number_or_next_to_nothing_makes_no_difference() -> None:
    for one in (1.0, -1.0, 250.0):
        assert not above(one + 0.8e-9 * abs(one), one)
        assert above(one + 1.2e-9 * abs(one), one)
    assert not above(TINY, 0.0)
    assert not above(0.8e-12, 0.0)
    assert above(1.2e-12, 0.0)


def test_no_bound_is_not_above_no_bound() -> None:
    inf = float("inf")
    assert not above(inf, inf)
    assert not above(-inf, -inf)
    assert above(inf, 1e300)
    assert above(-1e300, -inf)


def test_what_a_comparison_waits_for_is_named_from_left_to_right() -> None:
    assert compare(">", about(0, 9, "a mass"), about(1, 2, "a chart")) == Verdict(M, ("a mass", "a chart"))


ENDS = st.tuples(st.floats(-1e6, 1e6), st.floats(-1e6, 1e6)).map(lambda pair: (min(pair), max(pair)))


@given(sign=st.sampled_from(list(COMPARED)), one=ENDS, other=ENDS, data=st.data())
def test_narrowing_never_turns_a_certain_comparison_about(
    sign: str, one: tuple[float, float], other: tuple[float, float], data: st.DataObject
) -> None:
    wide = compare(sign, about(*one), about(*other)).truth
    inner = [sorted(data.draw(st.tuples(st.floats(*ends), st.floats(*ends)))) for ends in (one, other)]
    narrow = compare(sign, *(about(low, high) for low, high in inner)).truth
    if wide in (T, F):
        assert narrow is wide
