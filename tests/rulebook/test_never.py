"""Conditions that are the same for every list, or that cannot hold together, against every value that decides."""

from __future__ import annotations

from functools import cache
from itertools import product

import pytest

from kitproof.facts.fact import Fact
from kitproof.facts.values import Amount, number, text, thing
from kitproof.rulebook.check import checked
from kitproof.rulebook.never import always, clashes, possible
from kitproof.rulebook.scope import Scope
from kitproof.rulebook.typed import CompareNumbers, Typed
from kitproof.words.dimensions import MASS, NUMBER
from tests.rulebook.fakes import VOCABULARY, knows

INF = float("inf")
SCOPE = Scope("rig", VOCABULARY, knows)
SIGNS = {
    "=": lambda a, b: a == b,
    "!=": lambda a, b: a != b,
    "<": lambda a, b: a < b,
    ">": lambda a, b: a > b,
    "<=": lambda a, b: a <= b,
    ">=": lambda a, b: a >= b,
}
VALUES = [step / 2 for step in range(-2, 11)]
"""What `ratio` may be: with whole numbers from 1 to 3 written, these stand for all."""


@cache
def read(text: str) -> Typed:
    return typed(text, SCOPE)


def typed(text: str, scope: Scope) -> Typed:
    found, problems = checked(text, scope)
    assert found is not None, problems
    return found


def said_of(*conditions: str) -> list[tuple[int, str]]:
    return list(clashes([read(each) for each in conditions], knows))


def _asked(sign: str, limit: int, form: str) -> tuple[str, frozenset[float]]:
    """A condition of `ratio`, and the values for which it holds."""
    holds = frozenset(value for value in VALUES if SIGNS[sign](value, limit))
    if form == "turned":
        return f"{limit} {sign} ratio", frozenset(value for value in VALUES if SIGNS[sign](limit, value))
    if form == "not":
        return f"not (ratio {sign} {limit})", frozenset(VALUES) - holds
    return f"ratio {sign} {limit}", holds


ASKED = [_asked(sign, limit, form) for sign in SIGNS for limit in (1, 2, 3) for form in ("plain", "turned", "not")]


def _excepts(text: str) -> bool:
    """Whether a condition leaves out a single value: of that nothing is kept."""
    return ("!=" if not text.startswith("not") else " = ") in text


def test_two_conditions_of_one_number_clash_just_where_no_value_holds_both() -> None:
    for (one, first), (other, second) in product(ASKED, repeat=2):
        said = said_of(one, other)
        if first & second:
            assert said == [], (one, other)
        elif not _excepts(one) and not _excepts(other):
            assert {place for place, _ in said} == {1}, (one, other)


def test_what_can_never_be_all_that_is_asked_of_it_is_named() -> None:
    (said,) = said_of("ratio > 2", "ratio < 1")
    assert said == (1, "ratio can never be all that is asked of it, so the rule can never apply")
    (said,) = said_of("any p in parts where p.mass > 2 kg and p.mass < 1 kg", "head.rated > 2 kg", "head.rated = 1 kg")
    assert said == (2, "head.rated can never be all that is asked of it, so the rule can never apply")


@pytest.mark.parametrize("third", [each for each in ASKED if not _excepts(each[0])], ids=lambda each: each[0])
def test_three_conditions_of_one_number_clash_just_where_no_value_holds_all(
    third: tuple[str, frozenset[float]],
) -> None:
    few = [each for each in ASKED if "turned" not in each[0] and not _excepts(each[0])][::2]
    for (one, first), (other, second) in product(few, repeat=2):
        said = said_of(one, other, third[0])
        assert bool(said) is not bool(first & second & third[1]), (one, other, third[0])


KINDS = {"chart", "single", "none"}
WORDS = [
    ('chart_kind = "chart"', {"chart"}),
    ('"single" = chart_kind', {"single"}),
    ('chart_kind is one of "chart", "none"', {"chart", "none"}),
    ('chart_kind != "chart"', {"single", "none"}),
    ('not (chart_kind = "none")', {"chart", "single"}),
    ('not (chart_kind is one of "chart", "single")', {"none"}),
    ('not (chart_kind != "single")', {"single"}),
]


def test_conditions_of_one_word_clash_just_where_no_word_holds_all() -> None:
    for (one, first), (other, second), (more, third) in product(WORDS, repeat=3):
        said = said_of(one, other, more)
        assert bool(said) is not bool(first & second & third), (one, other, more)


def test_a_word_that_is_not_fixed_may_be_anything_that_is_not_refused() -> None:
    assert said_of('note != "a"', 'note != "b"') == []
    assert said_of('note = "a"', 'note != "a"') != []
    assert said_of('note is one of "a", "b"', 'note != "a"') == []
    assert said_of('chart_kind = "chart"', 'note = "a"') == []
    assert said_of("chart_kind = note", 'note = "a"', 'chart_kind = "chart"') == []


def test_the_opposite_of_what_is_asked_before_clashes_wherever_it_stands() -> None:
    opposite = "this is the opposite of what is asked above it, so the rule can never apply"
    assert said_of("mates", "not mates") == [(1, opposite)]
    assert said_of("not mates", "mates") == [(1, opposite)]
    assert said_of("mates and not mates") == [(0, opposite)]
    assert said_of("not (mates or left_standing)", "left_standing") == [(1, opposite)]
    assert said_of("mates", "left_standing or not mates") == []
    assert said_of("mates", "not (mates and left_standing)") == []
    assert said_of("mates", "mates") == []
    assert said_of("carried > capacity", "not (carried > capacity)") == [(1, opposite)]


def test_numbers_of_two_things_do_not_clash() -> None:
    assert said_of("carried > 3 kg", "capacity < 2 kg") == []
    assert said_of("carried > capacity", "carried < 2 kg") == []
    assert said_of("2 kg > 3 kg", "carried < 2 kg") == []


def strictly(kind: str, name: str) -> bool:
    """Every kind has a mass; only a head is rated."""
    return name in ("mass", "kind", "own_case") or kind == "head"


OTHERS = ("slide", "camera", "riser", "adapter", "lens")
PARTS = {
    "part": VOCABULARY["part"],
    "packed": {
        "kind": Fact("kind", "packed", text("head", *OTHERS), "its kind", lambda subject: None),
        "colour": Fact("colour", "packed", text(), "its colour", lambda subject: None),
        "part": Fact("part", "packed", thing("part"), "what it is", lambda subject: None),
        "mass": Fact("mass", "packed", number(MASS), "its mass", lambda subject: None),
    },
}
NO_RATED = "a camera has no rated, so this is never known"


@pytest.mark.parametrize(
    ("subject", "conditions", "said"),
    [
        ("part", ['kind = "camera"', "rated > 3 kg"], [(1, NO_RATED)]),
        ("part", ["rated > 3 kg", 'kind = "camera"'], [(0, NO_RATED)]),
        ("part", ["mass > 1 kg", 'kind = "camera"', "rated > 3 kg"], [(2, NO_RATED)]),
        ("part", ['kind = "camera"', "tag.insured > 3 and rated > 3 kg"], [(1, NO_RATED)]),
        (
            "part",
            ['kind is one of "lens", "camera"', "rated > 3 kg"],
            [(1, "a camera or a lens has no rated, so this is never known")],
        ),
        ("part", ['kind is one of "camera", "head"', "rated > 3 kg"], []),
        ("part", ['kind = "camera"', "mass > 3 kg"], []),
        ("part", ['kind != "camera"', "rated > 3 kg"], []),
        ("part", ['kind = "camera"', "tag.insured > 3"], []),
        ("part", ['kind = "camera"', "own_case.rated > 3 kg"], []),
        ("part", ["mass = 1 kg", "rated > 3 kg"], []),
        ("part", ['kind = "camera"', "p.rated > 3 kg"], []),
        ("part", ['p.kind = "camera"', "rated > 3 kg"], []),
        ("part", ['p.kind = "camera"', "p.rated > 3 kg"], [(1, NO_RATED)]),
        ("part", ['p.kind = "camera"', "p is there"], []),
        ("packed", ['kind = "camera"', "part.rated > 3 kg"], [(1, NO_RATED)]),
        ("packed", ['part.kind = "camera"', "part.rated > 3 kg"], [(1, NO_RATED)]),
        ("packed", ['part.kind = "camera"', "mass > 3 kg"], []),
        ("packed", ['part.kind = "camera"', 'colour = "red"'], []),
        ("packed", ['colour = "red"', "part.rated > 3 kg"], []),
        (
            "packed",
            ['kind is one of "slide", "camera", "riser", "adapter", "lens"', "part.rated > 3 kg"],
            [(1, f"an adapter or {NO_RATED.replace('has', 'or a lens or a riser or a slide has')}")],
        ),
    ],
)
def test_what_a_kind_does_not_have_is_never_known(
    subject: str, conditions: list[str], said: list[tuple[int, str]]
) -> None:
    scope = Scope(subject, PARTS, variables={"p": thing("part")})
    assert list(clashes([typed(each, scope) for each in conditions], strictly)) == said


LEAST = {
    "rig": {
        "n": Fact("n", "rig", number(NUMBER), "n", lambda subject: None, least=1.0),
        "m": Fact("m", "rig", number(NUMBER), "m", lambda subject: None, least=-2.0),
        "any_at_all": Fact("any_at_all", "rig", number(NUMBER), "x", lambda subject: None),
        **{"parts": VOCABULARY["rig"]["parts"]},
    }
}


@pytest.mark.parametrize(
    ("text", "low", "high"),
    [
        ("3", 3, 3),
        ("n", 1, INF),
        ("any_at_all", -INF, INF),
        ("count(parts)", 0, INF),
        ("n + 2", 3, INF),
        ("n + m", -1, INF),
        ("n * 2", 2, INF),
        ("min(n, 5)", 1, 5),
        ("max(n, 5)", 5, INF),
        ("abs(m)", 0, INF),
        ("n - 2", -INF, INF),
        ("n / 2", -INF, INF),
        ("-n", -INF, INF),
    ],
)
def test_what_a_number_can_be_whatever_a_list_says(text: str, low: float, high: float) -> None:
    assert possible(typed(text, Scope("rig", LEAST))) == Amount(low, high)


@pytest.mark.parametrize(
    ("text", "held"),
    [
        ("n >= 1", True),
        ("n < 1", False),
        ("n > 1", None),
        ("m < -3", False),
        ("count(parts) >= 0", True),
        ("count(parts) > 0", None),
        ("2 > 3", False),
        ("any_at_all > 0", None),
    ],
)
def test_a_comparison_that_is_the_same_for_every_list(text: str, held: bool | None) -> None:
    comparison = typed(text, Scope("rig", LEAST))
    assert isinstance(comparison, CompareNumbers)
    assert always(comparison) is held
