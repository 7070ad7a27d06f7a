"""Judging many combinations at once gives what judging them one by one gives, to the last count."""

from __future__ import annotations

import random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kitproof.proofing.combining import judged_in_boxes
from kitproof.proofing.findings import Outcome
from kitproof.proofing.hits import Choices, Hit
from kitproof.proofing.judging import judged_singly
from kitproof.proofing.laps import no_lap
from kitproof.proofing.proof import setting_of
from tests.facts.alternatives import kitlist
from tests.laws.lists import FEW as FEW_EXAMPLES
from tests.proofing.lists import DAY, book


def described(hit: Hit) -> tuple[object, ...]:
    """All that a finding is made of."""
    outcome = hit.outcome
    if outcome is None:
        return (hit.rule.name,)
    bad, thing, env = hit.worst[outcome]
    rig = getattr(thing, "rig", thing)
    choice = getattr(rig, "build", None) or thing.build  # type: ignore[attr-defined]  # a rig, or a thing of one
    places = tuple(each.where() for each in env.variables.values())
    missing = hit.missing if outcome == "cannot tell" else ()
    return (hit.rule.name, hit.of, hit.counts, outcome, bad, thing.label, choice.choice, places, missing)


def spread(hit: Hit) -> dict[Outcome, list[Choices]]:
    """The combinations with each outcome, one by one."""
    return {name: sorted(one for each in met for one in singles(each)) for name, met in hit.choices.items()}


def singles(choices: Choices) -> list[Choices]:
    found: list[Choices] = [()]
    for options in choices:
        ones: list[tuple[int, ...]] = [(option,) for option in options] or [()]
        found = [(*each, one) for each in found for one in ones]
    return found


def held_to_each_other(number: int, most: int) -> None:
    made = kitlist(random.Random(number), most)
    setting, (rig,) = setting_of(made, book(), DAY), made.rigs
    singly = [hit for hit in judged_singly(setting, book(), rig) if hit.applied]
    at_once = judged_in_boxes(setting, book(), rig, no_lap)
    assert [described(hit) for hit in at_once] == [described(hit) for hit in singly]
    assert [spread(hit) for hit in at_once] == [spread(hit) for hit in singly]


@given(st.integers(0, 10**9))
@FEW_EXAMPLES
def test_what_is_found_is_the_same_as_one_by_one(number: int) -> None:
    held_to_each_other(number, 16)


@pytest.mark.parametrize("number", [3, 7, 11])
def test_so_it_is_of_rigs_with_more_combinations(number: int) -> None:
    held_to_each_other(number, 80)
