"""Sums over sets, sets that may have had more, and a house's own words compared with one another."""

from __future__ import annotations

from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kitproof.facts.values import Amount, Held, Several, Tagged, Truth, Verdict
from kitproof.rulebook.errors import BadRules
from kitproof.rulebook.messages import message
from kitproof.words.dimensions import MASS, NUMBER
from tests.rulebook.fakes import ENV, Fake, about, part, rig, rule, words

TRUTHS = {truth: Verdict(truth, ("upright",) if truth is Truth.MISSING else ()) for truth in Truth}
OPEN = (float("-inf"), float("inf"))


def summed(expression: str, *parts: Fake, **more: Held) -> Amount | None:
    return rule(worst=expression).how_bad(rig(parts=parts, **more), ENV)


def test_a_sum_adds_up() -> None:
    found = summed("sum(p.mass for p in parts)", part("a", mass=about(2)), part("b", mass=about(3, 4)))
    assert found == about(5, 6)


def test_a_sum_over_nothing_is_nothing() -> None:
    assert summed("sum(p.mass for p in parts)") == about(0)


def test_a_sum_of_what_holds() -> None:
    things = [part("a", mass=about(2), kind=words("head")), part("b", mass=about(3), kind=words("lens"))]
    assert summed('sum(p.mass * 2 for p in parts where p.kind = "lens")', *things) == about(6)


def test_a_sum_leaves_out_what_lacks_what_is_asked_for() -> None:
    things = [part("a", own_case=part("tube", mass=about(2))), part("b", own_case=None)]
    assert summed("sum(p.own_case.mass for p in parts)", *things) == about(2)


def test_a_sum_says_what_is_missing() -> None:
    found = summed("sum(p.mass for p in parts)", part("a", mass=about(2)), part("b", mass=about(0, 1e9, "b: mass")))
    assert found == about(2, 1e9 + 2, "b: mass")


@given(st.lists(st.tuples(st.sampled_from(list(Truth)), st.integers(-9, 9)), max_size=5))
def test_a_sum_holds_every_way_that_doubt_can_fall(given_parts: list[tuple[Truth, int]]) -> None:
    things = [part(f"p{n}", upright=TRUTHS[truth], mass=about(mass)) for n, (truth, mass) in enumerate(given_parts)]
    found = summed("sum(p.mass for p in parts where p.upright)", *things)
    choices = [
        (mass,) if truth is Truth.TRUE else (0,) if truth is Truth.FALSE else (0, mass) for truth, mass in given_parts
    ]
    ways = [sum(way) for way in product(*choices)]
    assert found is not None
    assert (found.low, found.high) == (min(ways), max(ways))
    assert bool(found.missing) is any(truth is Truth.MISSING for truth, _ in given_parts)


@pytest.mark.parametrize(
    ("expression", "says"),
    [
        ("sum(p.mass for p in parts) > 3 m", "a mass cannot be compared with a length"),
        ("sum(p.kind for p in parts) > 3", "a number is wanted here, and p.kind is a word"),
        ("sum(p.mass for carried in parts) > 3 kg", "carried is a name already: call each one in parts something else"),
        ("sum(p.mass for p in head) > 3 kg", "a set is wanted here, and head is a head"),
        ("sum(p.mass for p.q in parts) > 3 kg", "the name before `in` stands for each one in turn: write one word"),
        ("sum(p.mass for p in parts where p.mass) > 3 kg", "a condition is wanted here, and p.mass is a mass"),
        ("sum(cold for p in parts) > 3 °C", "temperatures can be compared, not reckoned with"),
    ],
)
def test_a_mistaken_sum_is_said(expression: str, says: str) -> None:
    with pytest.raises(BadRules, match=says.replace("?", r"\?")):
        rule(expression)


def test_a_number_that_stands_in_a_sum_is_printed_in_its_unit() -> None:
    thing = rig(parts=(part("a", mass=about(2)), part("b", mass=about(3))))
    found = rule("sum(p.mass for p in parts) > 4 kg", says='"All of {sum(p.mass for p in parts)}."')
    assert found.applies_and_fails(thing, ENV).truth is Truth.TRUE
    assert message(found.says, thing, ENV) == "All of 5 kg."


# A set that may have had more

LINE = "rig A: line 9, which could not be read"
ONE = Several((part("a", mass=about(2), upright=TRUTHS[Truth.TRUE]),), (LINE,))


@pytest.mark.parametrize(
    ("condition", "truth"),
    [
        ("count(parts) > 0", Truth.TRUE),
        ("count(parts) > 1", Truth.MISSING),
        ("count(p in parts where p.upright) < 1", Truth.FALSE),
        ("count(p in parts where p.upright) > 1", Truth.MISSING),
        ("any p in parts where p.upright", Truth.TRUE),
        ("any p in parts where not p.upright", Truth.MISSING),
        ("no p in parts where not p.upright", Truth.MISSING),
        ("no p in parts where p.upright", Truth.FALSE),
        ("sum(p.mass for p in parts) > 3 kg", Truth.MISSING),
    ],
)
def test_a_line_that_could_not_be_read_may_have_been_one_more(condition: str, truth: Truth) -> None:
    verdict = rule(condition).applies_and_fails(rig(parts=ONE), ENV)
    assert verdict.truth is truth
    assert verdict.missing == ((LINE,) if truth is Truth.MISSING else ())


# A house's own words

TAGS: dict[str, Held] = {"tag.set": words("P1"), "tag.worth": Tagged(900, 900), "tag.load": Tagged(4, 4, (), MASS)}
OTHERS: dict[str, Held] = {"tag.set": words("P2"), "tag.worth": Tagged(700, 700)}
HEAD = part("head", **TAGS)
TAGGED = rig(head=HEAD, camera=part("camera", **OTHERS))


@pytest.mark.parametrize(
    ("condition", "truth"),
    [
        ("head.tag.set != camera.tag.set", Truth.TRUE),
        ("head.tag.set = camera.tag.set", Truth.FALSE),
        ("head.tag.worth > camera.tag.worth", Truth.TRUE),
        ("head.tag.worth = camera.tag.worth", Truth.FALSE),
        ('head.tag.worth = "900"', Truth.TRUE),
        ("head.tag.worth > 800", Truth.TRUE),
        ("head.tag.load > 3 kg", Truth.TRUE),
        ("head.tag.load > 3", Truth.MISSING),
        ("head.tag.worth > 3 kg", Truth.MISSING),
        ("head.tag.set > 3", Truth.MISSING),
        ("head.tag.set < camera.tag.set", Truth.MISSING),
        ("head.tag.worth + camera.tag.worth > 1500", Truth.TRUE),
    ],
)
def test_own_words_are_of_the_kind_of_what_they_are_compared_with(condition: str, truth: Truth) -> None:
    assert rule(condition).applies_and_fails(TAGGED, ENV).truth is truth


def test_a_number_of_another_kind_is_asked_for() -> None:
    verdict = rule("head.tag.load > 3").applies_and_fails(TAGGED, ENV)
    assert verdict.missing == ("rig A: head.tag.load as a number",)


def test_a_tagged_number_is_an_amount_of_its_own_kind() -> None:
    assert Tagged(900, 900).dimension == NUMBER
    assert summed("sum(p.tag.worth for p in parts)", HEAD, HEAD) == about(1800)
    unsaid = part("lens", **{"tag.worth": words(None, "lens: tag worth")})
    assert summed("sum(p.tag.worth for p in parts)", HEAD, unsaid) == about(*OPEN, "lens: tag worth")
