"""What hangs on what rests on the feet, and what lies between the legs, counts in the lean where it is said to be.

Source: elementary statics, Σ m r / Σ m, worked out by hand beside each test: 5 kg of sticks, 1 kg of adapter, 4 kg of
head and 2 kg of camera, 12 kg with nothing more.
"""

from __future__ import annotations

import math

import pytest

from tests.facts.amounts import ends
from tests.facts.test_sideways import ADAPTER, LEGS, TOP, of

EXTRA = """
part tie-down "E"
  mass 1 kg
  cog 0 mm up
part spreader "P"
  mass 3 kg
  cog 0 mm up
"""
BOOK = LEGS + ADAPTER.replace("PORT", "20 mm up") + TOP + EXTRA


@pytest.mark.parametrize(
    ("head", "more", "lean"),
    [
        ("", '  spreader "P", at 150 mm left\n', 3 * 0.150 / 15),
        ("", '  spreader "P"\n', 0),
        (", at 60 mm left", '  tie-down "D"\n', (6 + 3) * 0.060 / 15),
        (", at 60 mm left", '  tie-down "D", on sticks\n', 6 * 0.060 / 15),
        (", at 60 mm left", "  ballast 3 kg\n", 6 * 0.060 / 15),
        (", at 60 mm left", "  ballast 3 kg, on head\n", (6 + 3) * 0.060 / 15),
        (", at 60 mm left", '  tie-down "D", on "H", at 40 mm left\n', (6 * 0.060 + 3 * 0.100) / 15),
        (", at 60 mm left", '  tie-down "D", on "A", at 40 mm left\n', (6 * 0.060 + 3 * 0.040) / 15),
        (
            "",
            '  tie-down "E", on "D", at 100 mm forward\n  tie-down "D", on sticks, at 200 mm forward\n',
            (3 * 0.200 + 1 * 0.300) / 16,
        ),
        ("", '  tie-down "D", on ground, at 500 mm left\n', 0),
    ],
)
def test_what_hangs_is_where_its_line_says_from_what_it_hangs_on(head: str, more: str, lean: float) -> None:
    """Ballast hangs on the sticks and all else on the head, unless its line says more. The ground bears its own."""
    found = of(head=head, more=more, parts=BOOK)
    assert ends(found) == pytest.approx((lean, lean))
    assert found.missing == ()


@pytest.mark.parametrize(
    ("more", "missing"),
    [
        ('  spreader "P", at ?\n', ['spreader "P"']),
        ('  tie-down "D", at ?, on sticks\n', ['tie-down "D"']),
        ('  tie-down "D", at 10 mm left, ? forward, on sticks\n', ['tie-down "D"']),
        ('  tie-down "D", on "E"\n  tie-down "E", on "D"\n', ['tie-down "D"', 'tie-down "E"']),
        ('  tie-down "D", on slide\n', ['tie-down "D"']),
        ('  tie-down "D", at ?, on sticks\n  tie-down "E", on "D", at ?\n', ['tie-down "D"', 'tie-down "E"']),
    ],
)
def test_what_hangs_nowhere_known_may_lean_by_anything_and_is_asked_for(more: str, missing: list[str]) -> None:
    """Two that hang on one another hang on nothing."""
    found = of(more=more, parts=BOOK)
    assert ends(found) == (0, math.inf)
    assert found.missing == tuple(f"{each}: its place on the rig" for each in missing)


@pytest.mark.parametrize("slot", ["S", "A", "H"])
def test_a_centre_of_gravity_that_is_not_known_is_asked_for(slot: str) -> None:
    was = {"S": "  cog 500 mm up", "A": "  cog 10 mm up", "H": "  cog 50 mm up"}[slot]
    label = {"S": 'sticks "S"', "A": 'adapter "A"', "H": 'head "H"'}[slot]
    found = of(parts=BOOK.replace(was, "  cog ?"))
    assert ends(found) == (0, math.inf)
    assert found.missing == (f"{label}: cog",)
    assert ends(of(parts=BOOK.replace(f"{was}\n", ""))) == (0, 0)
