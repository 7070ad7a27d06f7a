"""Which things are the same ones."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from kitproof.comparing.matching import Pairs, Thing, paired


def things(**holds: str) -> list[Thing[str]]:
    """Things by their names, each holding the letters of a word."""
    return [Thing(name, word, tuple(word), name) for name, word in holds.items()]


def pairs(before: list[Thing[str]], now: list[Thing[str]]) -> Pairs[str]:
    return paired(before, now)


def test_what_is_alike_is_one_under_whatever_name() -> None:
    found = pairs(things(a="xyz", b="pqr"), things(b="xyz", c="pqr"))
    assert found == Pairs((("a", "b"), ("b", "c")), (), ())


def test_of_two_that_are_alike_the_one_that_kept_its_name_is_it() -> None:
    assert pairs(things(a="xyz", b="xyz"), things(b="xyz", a="xyz")).both == (("b", "b"), ("a", "a"))


def test_of_the_rest_those_that_share_most_are_one() -> None:
    found = pairs(things(a="wxyz", b="pqrs"), things(c="pqrt", d="wxyv"))
    assert found.both == (("b", "c"), ("a", "d"))


def test_a_name_that_was_kept_is_enough() -> None:
    assert pairs(things(a="xyz"), things(a="pqr")).both == (("a", "a"),)


def test_less_than_half_in_common_under_another_name_is_another_thing() -> None:
    assert pairs(things(a="wxyz"), things(b="wpqr")) == Pairs((), ("a",), ("b",))


def test_nothing_in_common_and_nothing_there() -> None:
    assert pairs([], things(a="")) == Pairs((), (), ("a",))
    assert pairs(things(a=""), []) == Pairs((), ("a",), ())


LOTS = st.dictionaries(st.sampled_from("abcdef"), st.text("wxyz", max_size=4), max_size=6)


@given(LOTS, LOTS)
def test_each_is_used_once_and_none_is_lost(before: dict[str, str], now: dict[str, str]) -> None:
    found = pairs(things(**before), things(**now))
    assert sorted([*(old for old, _ in found.both), *found.gone]) == sorted(before)
    assert sorted([*(new for _, new in found.both), *found.new]) == sorted(now)
    assert not set(found.gone) & set(found.new)


@given(LOTS)
def test_everything_is_found_again_in_itself(lot: dict[str, str]) -> None:
    assert pairs(things(**lot), things(**lot)).both == tuple((name, name) for name in lot)
