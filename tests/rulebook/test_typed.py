"""Checked expressions: all that is in them, whether they can be in doubt, and how long they may be."""

from __future__ import annotations

import pytest

from kitproof.rulebook.check import checked
from kitproof.rulebook.scope import Scope
from kitproof.rulebook.typed import DEEPEST, MOST_NODES, Calculation, Read, Typed, all_in, can_doubt, too_long
from tests.rulebook.fakes import VOCABULARY

SCOPE = Scope("rig", VOCABULARY)


def typed(text: str) -> Typed:
    found, problems = checked(text, SCOPE)
    assert found is not None, problems
    return found


@pytest.mark.parametrize(
    ("text", "reads"),
    [
        ("carried + capacity > 3 kg", ["carried", "capacity"]),
        ("max(carried, capacity)", ["carried", "capacity"]),
        ("cog_up within legs_at", ["cog_up", "legs_at"]),
        ("chart_kind = note", ["chart_kind", "note"]),
        ("not (carried is known) or head is there", ["carried", "head"]),
        ("count(parts)", ["parts"]),
        ("count(p in parts where p.upright)", ["parts", "p.upright"]),
        ("sum(p.mass for p in parts)", ["parts", "p.mass"]),
        ("sum(p.mass for p in parts where p.upright)", ["parts", "p.mass", "p.upright"]),
        ("any p in parts where p.mass > carried", ["parts", "p.mass", "carried"]),
    ],
)
def test_all_that_is_read_is_in_it(text: str, reads: list[str]) -> None:
    assert None not in all_in(typed(text))
    found = [each for each in all_in(typed(text)) if isinstance(each, Read)]
    assert [".".join(filter(None, (each.variable, *each.steps))) for each in found] == reads


@pytest.mark.parametrize(
    ("text", "doubts"),
    [
        ("carried > 3 kg", True),
        ("3 kg > 2 kg", False),
        ("carried is known", False),
        ("head is there", False),
        ("not (head is there)", False),
        ('head.kind = "head"', False),
        ('chart_kind = "none"', True),
        ("head is there and carried > 3 kg", True),
        ("count(parts) > 3", False),
        ('any p in parts where p.kind = "lens"', False),
        ("any p in parts where p.upright", True),
        ("head", False),
        ("parts", False),
        ("carried", True),
    ],
)
def test_what_can_be_in_doubt(text: str, doubts: bool) -> None:
    assert can_doubt(typed(text)) is doubts


def _long(nodes: int) -> Typed:
    """An expression of so many nodes, two deep."""
    one = typed("carried")
    return Calculation("max", (one,) * (nodes - 1), one.type)


def _deep(depth: int) -> Typed:
    found = typed("carried")
    for _ in range(depth - 1):
        found = Calculation("negative", (found,), found.type)
    return found


def test_how_long_and_how_deep_an_expression_may_be() -> None:
    assert too_long(_long(MOST_NODES)) is False
    assert too_long(_long(MOST_NODES + 1)) is True
    assert too_long(_deep(DEEPEST)) is False
    assert too_long(_deep(DEEPEST + 1)) is True
