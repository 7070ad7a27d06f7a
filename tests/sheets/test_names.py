"""Names taken apart: words, and numbers that are compared exactly."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kitproof.sheets.names import taken_apart


@pytest.mark.parametrize("text", ["Tern S2", "tern s 2", "TERN  S-2", "Tern-S2", "Tern S02", "Tern S2.0"])
def test_one_name_in_many_spellings_is_one(text: str) -> None:
    name = taken_apart(text)
    assert (name.words, name.same_numbers(taken_apart("Tern S2"))) == (("tern", "s"), True)


@pytest.mark.parametrize(
    ("one", "other", "same"),
    [
        ("Dunlin 31-217", "Dunlin 217-31", True),
        ("Dunlin 50", "Dunlin 50 mm", True),
        ("Bowl 10 cm", "Bowl 100 mm", True),
        ("Plate 1 in", "Plate 25.4 mm", True),
        ('Vetch 7"', "Vetch 7 inches", True),
        ("Sorrel 98Wh", "Sorrel 98", True),
        ("Sorrel 98 Wh", "Sorrel 98 W", False),
        ("Dunlin 50", "Dunlin 55", False),
        ("Dunlin 50", "Dunlin 50 50", False),
        ("Dunlin 50", "Dunlin", False),
        ("Bowl 10 cm", "Bowl 10 mm", False),
        ("Bowl 10 cm", "Bowl 100", False),
        ("Rods 1.5", "Rods 15", False),
    ],
)
def test_numbers_are_the_same_or_they_are_not(one: str, other: str, same: bool) -> None:
    assert taken_apart(one).same_numbers(taken_apart(other)) is same
    assert taken_apart(other).same_numbers(taken_apart(one)) is same


@given(st.text(max_size=60))
def test_any_text_is_taken_apart_and_is_like_itself(text: str) -> None:
    name = taken_apart(text)
    assert name.same_numbers(taken_apart(text.upper())) or text.upper().lower() != text.lower()
    assert name.same_numbers(name)
