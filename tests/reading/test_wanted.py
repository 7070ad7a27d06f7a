"""What a slip asks for is for people, and its own example reads without a slip."""

from __future__ import annotations

import re

import pytest

from kitproof.reading import wanted
from kitproof.reading.entries import read
from kitproof.words.kinds import ENTRIES, KINDS, FieldWord, fields_of
from kitproof.words.shapes import Shape
from tests.reading.samples import case_text

_FIRST = {
    "list": 'list "x"',
    "use": 'use "x"',
    "weights": "weights within 2 %",
    "order": "order",
    "rig": 'rig A\n  lens "x"',
    "move": 'move "x"',
    "case": 'case "x"',
    "waive": "waive some-rule in list",
}


def _all() -> list[tuple[str, FieldWord]]:
    entries = [(_FIRST[entry], field) for entry in ENTRIES for field in fields_of(entry).values()]
    parts = [(f'part {kind} "x"', field) for kind in KINDS for field in fields_of("part", kind).values()]
    return [*entries, *parts]


@pytest.mark.parametrize(("first", "field"), _all(), ids=lambda each: getattr(each, "word", each))
def test_the_example_reads(first: str, field: FieldWord) -> None:
    says = wanted.of_field(field)
    if field.shape is Shape.FLAG:
        examples = [""]
    elif field.shape is Shape.PHRASES:
        examples = says.removeprefix("one of: ").split(", ")
    else:
        examples = re.findall(r"such as (.+?)(?:, or an? |$)", says) or ["some words"]
    for example in examples:
        value = example.removeprefix("or ") if field.shape is Shape.OR_SLOT else example
        entry = read(f"{first}\n  {field.word} {value}\n", "a").entries[0]
        assert entry.slips == (), (says, entry.slips)
        assert entry.fields[-1].word == field.word


def test_no_word_of_the_grammar_reaches_people() -> None:
    texts = [wanted.of_field(field) for _, field in _all()]
    texts += [slip.wanted for entry in read(case_text("slips"), "a").entries for slip in entry.slips]
    assert len(texts) > 200
    for text in texts:
        assert not re.search(r"[A-Z]{3,}|_|token|invalid|unexpected", text), text
