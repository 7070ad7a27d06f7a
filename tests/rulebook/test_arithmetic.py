"""Random expressions: the interval of the result holds the result for every choice of values inside the inputs."""

from __future__ import annotations

import math
from collections.abc import Callable
from fractions import Fraction

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from kitproof.facts.fact import Fact
from kitproof.facts.values import Amount, Held, Truth, number
from kitproof.rulebook.arithmetic import ends_of, minus, over, plus, size, times
from kitproof.rulebook.check import checked
from kitproof.rulebook.compile import amount
from kitproof.rulebook.loading import load
from kitproof.rulebook.scope import Scope
from kitproof.words.dimensions import NUMBER
from tests.rulebook.fakes import ENV, Fake, about, rule_text

NAMES = ("n0", "n1", "n2", "n3")


def _never(subject: object) -> Held:
    raise AssertionError("values come from the fake things")


VOCABULARY = {"rig": {name: Fact(name, "rig", number(NUMBER), name, _never) for name in NAMES}}
SCOPE = Scope("rig", VOCABULARY)

Tree = tuple[str, tuple["Tree", ...]] | str
"""An action and what it is of; or a name, or a number as written."""

TREES: st.SearchStrategy[Tree] = st.recursive(
    st.sampled_from([*NAMES, "2", "0.5", "7"]),
    lambda inner: st.one_of(
        st.tuples(st.sampled_from("+-*/"), st.tuples(inner, inner)),
        st.tuples(st.sampled_from(["min", "max"]), st.tuples(inner, inner)),
        st.tuples(st.sampled_from(["abs", "negative"]), st.tuples(inner)),
    ),
    max_leaves=8,
)
ENDS = st.tuples(st.integers(-20, 20), st.integers(-20, 20)).map(lambda pair: (min(pair), max(pair)))

EXACT: dict[str, Callable[..., Fraction]] = {
    "+": lambda a, b: a + b,
    "-": lambda a, b: a - b,
    "*": lambda a, b: a * b,
    "/": lambda a, b: a / b,
    "min": min,
    "max": max,
    "abs": abs,
    "negative": lambda a: -a,
}


def written(tree: Tree) -> str:
    if isinstance(tree, str):
        return tree
    action, of = tree
    inner = [written(each) for each in of]
    if action in ("min", "max", "abs"):
        return f"{action}({', '.join(inner)})"
    return f"(-({inner[0]}))" if action == "negative" else f"({inner[0]} {action} {inner[1]})"


def worked_out(tree: Tree, point: dict[str, Fraction]) -> Fraction:
    """The same by exact fractions, for one choice of values."""
    if isinstance(tree, str):
        return point[tree] if tree in point else Fraction(tree)
    action, of = tree
    return EXACT[action](*(worked_out(each, point) for each in of))


def interval_of(text: str, thing: Fake) -> Amount:
    typed, problems = checked(text, SCOPE, "number")
    assert typed is not None, problems
    found = amount(typed)(thing, ENV)
    assert found is not None
    return found


@given(tree=TREES, boxes=st.tuples(ENDS, ENDS, ENDS, ENDS), data=st.data())
def test_the_interval_holds_every_point(tree: Tree, boxes: tuple[tuple[int, int], ...], data: st.DataObject) -> None:
    thing = Fake(values={name: about(*box) for name, box in zip(NAMES, boxes, strict=True)})
    found = interval_of(written(tree), thing)
    point = {
        name: Fraction(data.draw(st.integers(16 * box[0], 16 * box[1])), 16)
        for name, box in zip(NAMES, boxes, strict=True)
    }
    try:
        exact = worked_out(tree, point)
    except ZeroDivisionError:
        assume(False)
    slack = 1e-9 * max(1.0, abs(float(exact)), *(abs(end) for end in (found.low, found.high) if math.isfinite(end)))
    assert found.low - slack <= exact <= found.high + slack


@given(tree=TREES, boxes=st.tuples(ENDS, ENDS, ENDS, ENDS), limit=st.integers(-50, 50), data=st.data())
def test_narrowing_an_input_never_turns_a_certain_verdict_about(
    tree: Tree, boxes: tuple[tuple[int, int], ...], limit: int, data: st.DataObject
) -> None:
    rule = load({"a/b.rule": rule_text(f"{written(tree)} > {limit}")}, VOCABULARY).rules["b"]
    wide = Fake(values={name: about(*box) for name, box in zip(NAMES, boxes, strict=True)})
    inside: dict[str, Held] = {}
    for name, box in zip(NAMES, boxes, strict=True):
        low, high = sorted(data.draw(st.tuples(st.integers(*box), st.integers(*box))))
        inside[name] = about(low, high)
    before, after = (rule.applies_and_fails(thing, ENV).truth for thing in (wide, Fake(values=inside)))
    if before in (Truth.TRUE, Truth.FALSE):
        assert after is before


@given(tree=TREES, boxes=st.tuples(ENDS, ENDS, ENDS, ENDS))
def test_a_sharp_input_gives_a_sharp_result(tree: Tree, boxes: tuple[tuple[int, int], ...]) -> None:
    point = {name: Fraction(box[0]) for name, box in zip(NAMES, boxes, strict=True)}
    try:
        exact = float(worked_out(tree, point))
    except ZeroDivisionError:
        assume(False)
    found = interval_of(written(tree), Fake(values={name: about(float(value)) for name, value in point.items()}))
    assert found.low == pytest.approx(exact, rel=1e-9, abs=1e-9)
    assert found.high == pytest.approx(exact, rel=1e-9, abs=1e-9)


# IEEE 1788 vectors, as ITF1788 has them.


def test_sums_products_and_quotients_of_intervals_as_published() -> None:
    assert plus(about(1, 2), about(3, 4)) == about(4, 6)
    assert minus(about(1, 2), about(3, 4)) == about(-3, -1)
    assert over(about(-30, 15), about(-5, -3)) == about(-5, 10)


def test_what_is_missing_of_any_input_is_missing_of_the_result() -> None:
    assert times(about(0, math.inf, "mass"), about(2, 3)) == about(0, math.inf, "mass")
    for action in (plus, minus, times, over):
        assert action(about(1, 1, "mass"), about(1, 1, "height", "mass")).missing == ("mass", "height")


def test_over_what_may_be_nothing_has_no_bound() -> None:
    assert over(about(1, 2), about(0, 4)) == about(0.25, math.inf)
    assert over(about(1), about(0)) == about(-math.inf, math.inf)
    assert over(about(1), about(-1, 1)) == about(-math.inf, math.inf)


def test_infinity_less_infinity_says_nothing() -> None:
    assert minus(about(math.inf), about(math.inf)) == about(-math.inf, math.inf)


def test_abs_of_what_may_be_either_side_of_nothing_starts_at_nothing() -> None:
    assert size(about(-3, 2)) == about(0, 3)
    assert size(about(-3, -2)) == about(2, 3)


def test_the_ends_of_a_reach_are_sharp_unless_it_is_not_known() -> None:
    assert ends_of(about(0.6, 1.6)) == (about(0.6), about(1.6))
    unknown = about(0, math.inf, "legs")
    assert ends_of(unknown) == (unknown, unknown)
