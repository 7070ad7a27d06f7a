"""What is not there, what is not known, and what is never in doubt."""

from __future__ import annotations

import pytest

from kitproof.facts.values import Truth, Verdict
from tests.rulebook.fakes import ENV, Fake, about, part, rig, rule, words

F, T, M = Truth.FALSE, Truth.TRUE, Truth.MISSING
HEAD = part('"Fenner 12 head"', rated=about(12), height=about(0, float("inf"), "height"), chart=())


@pytest.mark.parametrize(
    "condition",
    [
        "head.rated > 3 kg",
        "not (head.rated > 3 kg)",
        "not not (head.rated > 3 kg)",
        "not (head.rated > 3 kg and head.rated < 9 kg)",
        "head.rated + carried > 3 kg",
        "head.upright",
        "not head.upright",
        "head.rated is known",
        "not (head.rated is known)",
        "head.own_case is there",
        "not (head.own_case is there)",
        "any p in head.chart where p.mass > 3 kg",
        "no p in head.chart where p.mass > 3 kg",
        "count(head.chart) = 0",
        "cog_up within head.legs",
        "not (cog_up within head.legs)",
        'head.kind = "head"',
        'head.kind != "head"',
    ],
)
def test_a_rule_does_not_apply_to_what_is_not_there(condition: str) -> None:
    condition = condition.replace("head.legs", "camera.legs")
    thing = rig(carried=about(5), cog_up=about(0.1))
    assert rule(condition).applies_and_fails(thing, ENV).truth is F


def test_another_branch_still_counts() -> None:
    thing = rig(carried=about(5))
    assert rule("head.rated > 3 kg or carried > 4 kg").applies_and_fails(thing, ENV).truth is T


def test_is_there_is_never_in_doubt() -> None:
    assert rule("head is there").applies_and_fails(rig(head=HEAD), ENV).truth is T
    assert rule("not (head is there)").applies_and_fails(rig(head=HEAD), ENV).truth is F
    assert rule("head is there").applies_and_fails(rig(), ENV).truth is F
    assert rule("not (head is there)").applies_and_fails(rig(), ENV).truth is T
    assert rule("head.own_case is there").applies_and_fails(rig(head=HEAD), ENV).truth is F


def test_is_known_is_never_in_doubt() -> None:
    assert rule("head.rated is known").applies_and_fails(rig(head=HEAD), ENV).truth is T
    assert rule("head.height is known").applies_and_fails(rig(head=HEAD), ENV).truth is F
    assert rule("not (head.height is known)").applies_and_fails(rig(head=HEAD), ENV).truth is T
    assert rule("mates is known").applies_and_fails(rig(mates=Verdict(M, ("a seat",))), ENV).truth is F
    assert rule("mates is known").applies_and_fails(rig(mates=Verdict(Truth.UNDECIDED)), ENV).truth is T
    assert rule("note is known").applies_and_fails(rig(note=words(None, "note")), ENV).truth is F
    assert rule("note is known").applies_and_fails(rig(note=words("dry")), ENV).truth is T


def test_a_word_that_is_not_known_is_missing_and_one_that_is_not_there_is_not() -> None:
    asked = rule('note = "dry"')
    assert asked.applies_and_fails(rig(note=words(None, "note")), ENV) == Verdict(M, ("note",))
    assert asked.applies_and_fails(rig(note=words(None)), ENV).truth is F
    assert rule('note != "dry"').applies_and_fails(rig(note=words(None)), ENV).truth is F
    assert rule('note is one of "wet", "dry"').applies_and_fails(rig(note=words("dry")), ENV).truth is T


def test_an_element_that_lacks_a_thing_is_not_one_of_those_meant() -> None:
    things = (part("a", kind=words("lens")), part("b", own_case=part("case", mass=about(4))))
    thing = rig(parts=things)
    assert rule("any p in parts where p.own_case.mass > 3 kg").applies_and_fails(thing, ENV).truth is T
    assert rule("no p in parts where p.own_case.mass > 5 kg").applies_and_fails(thing, ENV).truth is T
    assert rule("count(p in parts where p.own_case.mass > 3 kg) = 1").applies_and_fails(thing, ENV).truth is T


def test_given_is_judged_first_and_alone() -> None:
    judged = rule(given="head is there")
    absent = judged.judge(rig(carried=about(9), capacity=about(3)), ENV)
    assert (absent.given.truth, absent.verdict.truth, absent.outcome) == (F, F, "")
    there = judged.judge(rig(head=HEAD, carried=about(9), capacity=about(3, 12)), ENV)
    assert (there.given.truth, there.outcome) == (T, "may fail")


def test_a_given_that_is_not_known_leaves_the_verdict_open() -> None:
    judged = rule(given='chart_kind = "chart"')
    thing = rig(chart_kind=words(None, "chart"), carried=about(9), capacity=about(3))
    assert judged.judge(thing, ENV).verdict == Verdict(M, ("chart",))
    assert judged.judge(thing, ENV).outcome == "cannot tell"
    light = rig(chart_kind=words(None, "chart"), carried=about(2), capacity=about(3))
    assert judged.judge(light, ENV).outcome == ""


def test_a_reach_is_no_doubt() -> None:
    within = rule("tilts within legs_at")
    known = rig(tilts=about(0.7, 1.0), legs_at=about(0.6, 1.6))
    assert within.applies_and_fails(known, ENV).truth is T
    beyond = rig(tilts=about(0.5, 1.0), legs_at=about(0.6, 1.6))
    assert within.applies_and_fails(beyond, ENV).truth is F
    assert rule("not (tilts within legs_at)").applies_and_fails(beyond, ENV).truth is T
    assert rule("max(tilts) > min(legs_at)").applies_and_fails(beyond, ENV).truth is T


def test_a_reach_that_is_not_known_is_missing() -> None:
    thing = rig(cog_up=about(0.7), legs_at=about(0, float("inf"), "legs"))
    assert rule("cog_up within legs_at").applies_and_fails(thing, ENV) == Verdict(M, ("legs",))
    below = rig(cog_up=about(-0.7), legs_at=about(0, float("inf"), "legs"))
    assert rule("cog_up within legs_at").applies_and_fails(below, ENV).truth is F


def test_a_number_that_straddles_the_end_of_a_reach_is_undecided() -> None:
    thing = rig(cog_up=about(0.5, 0.7), legs_at=about(0.6, 1.6))
    assert rule("cog_up within legs_at").applies_and_fails(thing, ENV).truth is Truth.UNDECIDED


def test_a_houses_own_word_is_what_it_is_compared_with() -> None:
    insured, colour = "head.tag.insured > 10000", 'head.tag.colour = "red"'
    tagged = rig(head=Fake("head", "part", {"tag.insured": about(12000), "tag.colour": words("red")}))
    assert rule(insured).applies_and_fails(tagged, ENV).truth is T
    assert rule(colour).applies_and_fails(tagged, ENV).truth is T
    swapped = rig(head=Fake("head", "part", {"tag.insured": words("a lot"), "tag.colour": about(3)}))
    assert rule(insured).applies_and_fails(swapped, ENV).truth is M
    assert rule(colour).applies_and_fails(swapped, ENV).truth is M
