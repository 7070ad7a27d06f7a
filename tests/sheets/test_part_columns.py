"""The table of an inventory's columns agrees with itself and with the kinds of part."""

from __future__ import annotations

from collections import Counter

from kitproof.sheets.headings import key
from kitproof.sheets.part_columns import FIELDS, PARTS, SIDES
from kitproof.words.kinds import KINDS, fields_of
from kitproof.words.shapes import Shape

EVERY = {word: field for kind in KINDS for word, field in fields_of("part", kind).items()}


def test_no_heading_means_two_things_for_sure() -> None:
    counts = Counter(word for role in PARTS for word in role.sure)
    assert {word for word, count in counts.items() if count > 1} == set()
    assert len({role.name for role in PARTS}) == len(PARTS)


def test_headings_are_written_as_they_are_compared() -> None:
    assert [word for role in PARTS for word in (*role.sure, *role.maybe) if key(word) != word] == []


def test_every_column_fills_a_field_that_there_is_in_its_own_dimension() -> None:
    for each in (*FIELDS, *SIDES):
        if each.shape is Shape.INTERFACE or each.word == "width":
            continue  # a bowl is what a head sits on and sticks take; a width is a part of a size
        field = EVERY[each.word]
        assert each.dimension in (None, field.dimension), each.word
        assert each.shape is field.shape or each.word in ("front", "length"), each.word
