"""A line less changes the facts that it bears on, says what they lack then, and changes no other.

What is expected is committed: `python -m tests.facts.one_less` writes it anew.
"""

from __future__ import annotations

from functools import cache

import pytest

from kitproof.facts.values import Amount
from tests.facts.every import subjects_of
from tests.facts.one_less import FOLDER, LISTS, Known, blocks, file_of, known, text_of, variants, written
from tests.proofing.lists import read_bytes

BLOCKS = [(name, heading, lines) for name in LISTS for heading, lines in blocks(text_of(name))]


@cache
def _whole(name: str) -> Known:
    return known(text_of(name))


@pytest.mark.parametrize(("name", "heading", "lines"), BLOCKS, ids=lambda each: str(each).replace(" ", "-"))
def test_what_each_line_bears_on(name: str, heading: str, lines: range) -> None:
    assert written(text_of(name), lines, _whole(name)) == file_of(name, heading).read_text(encoding="utf-8")


def test_everything_committed_is_of_a_block() -> None:
    assert set(FOLDER.rglob("*.txt")) == {file_of(name, heading) for name, heading, _ in BLOCKS}


@pytest.mark.parametrize("name", LISTS)
def test_nothing_of_the_whole_list_is_misread(name: str) -> None:
    assert not [each.label for each in subjects_of(read_bytes(text_of(name).encode())) if each.about == "slip"]


def test_a_line_is_left_out_asked_about_misread_and_blurred() -> None:
    assert [how for how, _ in variants("  mass      9 kg")] == ["left out", "asked about", "not read", "known about"]
    assert [how for how, _ in variants('  head      "steady head"')] == ["left out", "not read"]


def test_a_mass_asked_about_may_be_any() -> None:
    asked = text_of("heavy").replace("mass      9 kg", "mass      ?")
    masses = {
        each.label: each.value("mass") for each in subjects_of(read_bytes(asked.encode())) if each.about == "part"
    }
    assert masses['"tall legs"'] == Amount(0.0, float("inf"), ('sticks "tall legs": mass',))
