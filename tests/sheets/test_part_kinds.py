"""The kind of part that words in a sheet mean."""

from __future__ import annotations

import pytest

from kitproof.sheets.part_kinds import kind_at_the_end, kind_said
from kitproof.words.kinds import KINDS


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("HEADS", "head"),
        ("tripods:", "sticks"),
        ("Fluid Head", "head"),
        ("Batteries", "battery"),
        ("bits", ""),
        ("", ""),
    ],
)
def test_a_kind_in_a_cell_of_its_own(text: str, kind: str) -> None:
    assert kind_said(text) == kind


@pytest.mark.parametrize("kind", KINDS)
def test_every_kind_is_known_by_its_own_word(kind: str) -> None:
    assert kind_said(kind) == kind
    assert kind_at_the_end(f"Tolland 30 {kind}") == kind


@pytest.mark.parametrize(
    ("name", "kind"),
    [
        ("Mire 9 fluid head", "head"),
        ("Kelby battery charger", "charger"),
        ("Tolland 30 head case", "case"),
        ("Head Tolland 30", ""),
        ("head", ""),  # a name that is nothing but a kind may be anything of it
    ],
)
def test_a_kind_at_the_end_of_a_name(name: str, kind: str) -> None:
    assert kind_at_the_end(name) == kind
