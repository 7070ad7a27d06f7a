"""What the author of a rule should look at, though the rule can be used: sides that share inputs, rules that never
apply, messages that print what the rule does not rest on."""

from __future__ import annotations

from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kitproof.facts.fields import knows
from kitproof.facts.registry import FACTS
from kitproof.facts.uses import INPUTS, NEVER_BELOW_NOTHING, USES
from kitproof.rulebook.check import checked
from kitproof.rulebook.loading import load
from kitproof.rulebook.never import always, clashes
from kitproof.rulebook.scope import Scope
from kitproof.rulebook.typed import CompareNumbers, Typed
from tests.rulebook.fakes import rule_text


def warned(fails: str, **more: str) -> list[str]:
    """The warnings of a rule over the facts as they are registered."""
    files = {"backs/mine.rule": rule_text(fails, **more)}
    return [each.says for each in load(files, FACTS, knows=knows).warnings]


def condition(text: str, about: str = "rig") -> Typed:
    typed, problems = checked(text, Scope(about, FACTS, knows), "truth")
    assert typed is not None, problems
    return typed


TWICE = "so doubt about that counts twice: let one fact work it out"


# Sides that share inputs


@pytest.mark.parametrize(
    ("fails", "both"),
    [
        ("carried > capacity", "carried and capacity both rest on the masses of its parts"),
        ("capacity < sticks_bear", "capacity and sticks_bear both rest on the masses of its parts"),
        ("carried / 2 + 1 kg > capacity", "carried and capacity both rest on the masses of its parts"),
        ("cog_up > height_limit", "cog_up and height_limit both rest on the masses of its parts"),
        (
            "cog_up > cog_forward",
            "cog_up and cog_forward both rest on the masses of its parts and the places of its parts",
        ),
    ],
)
def test_sides_that_share_inputs(fails: str, both: str) -> None:
    assert warned(fails) == [f"{both}, {TWICE}"]


@pytest.mark.parametrize(
    ("fails", "says"),
    [
        ("cog_up > chart_top", '"It stands at {cog_up}."'),
        ("load_share > 100 %", '"It carries {carried} and holds {capacity} at {cog_up}."'),
        ("carried > 12 kg and capacity < 10 kg", '"It carries {carried}."'),
        ("head.mass > camera.mass", '"It fails."'),
    ],
)
def test_sides_that_share_nothing(fails: str, says: str) -> None:
    assert warned(fails, says=says) == []


# Messages that print what the rule does not rest on


def test_a_message_prints_a_fact_that_the_rule_does_not_rest_on() -> None:
    assert warned("carried > 12 kg", says='"It stands at {cog_up}."', doubt='"whether {cog_up in mm} is fine"') == [
        "the rule does not rest on cog_up, and yet says it",
        "the rule does not rest on cog_up, and yet says it",
    ]


def test_what_a_fact_rests_on_by_way_of_others_may_be_printed() -> None:
    assert warned("load_share > 90 %", says='"It stands at {cog_up}."') == []


def test_nothing_is_said_where_a_fact_does_not_tell_what_it_rests_on() -> None:
    assert FACTS["packed"]["tilted"].uses is None
    assert warned("tilted > 3°", about="packed", says='"For {longest_journey}."') == []


# Comparisons that are always the same


@pytest.mark.parametrize(
    ("comparison", "holds"),
    [
        ("count(parts) < 0", False),
        ("count(p in parts where p.kind = \"lens\") >= 0", True),
        ("load_share < 0 %", False),
        ("carried >= 0 kg", True),
        ("head.mass < -1 kg", False),
        ("abs(cog_left) < -1 mm", False),
        ("carried + head.mass < 0 kg", False),
        ("max(carried, 3 kg) < 2 kg", False),
        ("min(carried, 3 kg) > 4 kg", False),
        ("carried * load_share < 0 kg", False),
        ("carried - 1 kg < 0 kg", None),
        ("cog_up < 0 mm", None),
        ("counterbalance_needed < 0 N·m", None),
        ("load_share > 100 %", None),
    ],
)  # fmt: skip
def test_a_comparison_that_is_the_same_for_every_list(comparison: str, holds: bool | None) -> None:
    typed = condition(comparison)
    assert isinstance(typed, CompareNumbers)
    assert always(typed) is holds


def test_a_comparison_that_is_always_the_same_is_warned_of() -> None:
    assert warned("load_share > 1 and count(parts) < 0") == ["a comparison in this never holds"]
    assert warned("load_share > 1 and count(parts) >= 0") == ["a comparison in this holds for every list"]


def test_a_limit_may_be_set_to_anything() -> None:
    assert warned("load_share < lowest", limit="lowest -1 %", says='"Below {lowest}."') == []


# Rules that never apply


NEVER = "can never be all that is asked of it, so the rule can never apply"
OPPOSITE = "this is the opposite of what is asked above it, so the rule can never apply"


@pytest.mark.parametrize(
    ("tests", "says"),
    [
        (['kind = "head"', 'kind = "camera"'], [f"kind {NEVER}"]),
        (['kind is one of "head", "lens"', 'kind = "camera"'], [f"kind {NEVER}"]),
        (['kind = "head"', 'not kind = "head"'], [OPPOSITE, f"kind {NEVER}"]),
        (['kind = "head"', 'kind != "head"'], [f"kind {NEVER}"]),
        (['kind = "head" and kind = "lens"'], [f"kind {NEVER}"]),
        (['kind is one of "head", "lens"', 'kind != "head"', 'kind != "lens"'], [f"kind {NEVER}"]),
        (['kind = "head" or kind = "lens"', 'kind = "camera"'], []),
        (['kind is one of "head", "lens"', 'kind = "lens"'], []),
        (["mass > 3 kg", "mass < 2 kg"], [f"mass {NEVER}"]),
        (["3 kg < mass", "mass <= 3 kg"], [f"mass {NEVER}"]),
        (["mass > 3 kg", "mass >= 5 kg", "mass <= 5 kg"], []),
        (["mass >= 5 kg", "mass > 5 kg", "mass <= 5 kg"], [f"mass {NEVER}"]),
        (["not mass > 3 kg", "mass > 4 kg"], [f"mass {NEVER}"]),
        (["mass = 3 kg", "mass = 4 kg"], [f"mass {NEVER}"]),
        (["mass > 3 kg or mass < 2 kg"], []),
        (["not (mass > 3 kg or mass < 4 kg)"], [f"mass {NEVER}"]),
        (["needs_support", "not needs_support"],
         [OPPOSITE]),
        (["mass is known and not mass is known"],
         [OPPOSITE]),
        (['kind = "head"', "energy > 3 Wh"], ["a head has no energy, so this is never known"]),
        (['kind is one of "head", "battery"', "energy > 3 Wh"], []),
        (['kind = "head"', "mass > 3 kg", 'tag.colour = "red"'], []),
    ],
)  # fmt: skip
def test_conditions_that_can_never_all_hold(tests: list[str], says: list[str]) -> None:
    found = [text for _, text in clashes([condition(each, "part") for each in tests], knows)]
    assert found == says


def test_a_packed_thing_of_one_kind_is_asked_for_what_that_kind_has() -> None:
    tests = [condition('kind = "head"', "packed"), condition("part.energy > 3 Wh", "packed")]
    assert list(clashes(tests, knows)) == [(1, "a head has no energy, so this is never known")]


def test_a_rule_that_never_applies_is_warned_of_at_the_line_that_clashes() -> None:
    text = rule_text('kind = "lens"', about="part", given='kind = "head"', doubt="")
    (warning,) = load({"backs/mine.rule": text}, FACTS, knows=knows).warnings
    assert warning.says == f"kind {NEVER}"
    assert text.splitlines()[warning.line - 1].startswith("fails")


BOUND = st.tuples(st.sampled_from([">", ">=", "<", "<=", "="]), st.integers(0, 4), st.booleans())
HOLDS = {
    ">": lambda one, other: one > other,
    ">=": lambda one, other: one >= other,
    "<": lambda one, other: one < other,
    "<=": lambda one, other: one <= other,
    "=": lambda one, other: one == other,
}


@given(st.lists(BOUND, min_size=1, max_size=4))
def test_bounds_clash_where_no_number_is_within_all(bounds: list[tuple[str, int, bool]]) -> None:
    """Brute force over halves: between two whole numbers there is one, so that no gap is missed."""
    tests = [condition(f"{'not ' if no else ''}mass {sign} {value} kg", "part") for sign, value, no in bounds]
    within = [
        half / 2 for half in range(-2, 12) if all(HOLDS[sign](half / 2, value) is not no for sign, value, no in bounds)
    ]
    never_equal = [(sign, value) for sign, value, no in bounds if sign == "=" and no]
    found = list(clashes(tests, knows))
    opposites = [text for _, text in found if text.startswith("this is the opposite")]
    if found:
        assert within == []
    elif not never_equal:
        assert within != []
    assert not opposites or any(
        one[:2] == other[:2] and one[2] is not other[2] for one, other in product(bounds, repeat=2)
    )


# The table behind it


def test_what_facts_rest_on_are_facts_or_inputs() -> None:
    named = {(about, name) for about, facts in USES.items() for uses in facts.values() for name in uses}
    assert {(about, name) for about, name in named if name not in FACTS[about] and name not in INPUTS} == set()
    assert {(about, name) for about, facts in USES.items() for name in facts if name not in FACTS[about]} == set()


def test_what_is_never_below_nothing_is_a_fact() -> None:
    assert set(FACTS["rig"]) >= NEVER_BELOW_NOTHING
    assert {FACTS["rig"][name].least for name in NEVER_BELOW_NOTHING} == {0.0}
