"""Words for facts name facts that there are."""

from __future__ import annotations

import re

import pytest

from kitproof.facts.registry import FACTS
from kitproof.facts.wordings import ASKED_TO_BE, ENDLESS, NOUNS

NAME = re.compile(r"(?:(?P<slot>[a-z_]+)\.)?(?P<name>[a-z_]+)")


@pytest.mark.parametrize("written", [*ASKED_TO_BE, *NOUNS, *ENDLESS])
def test_words_are_for_facts_that_there_are(written: str) -> None:
    found = NAME.fullmatch(written.removeprefix("max(").removesuffix(")"))
    assert found is not None
    known = FACTS["rig"] if found["slot"] is None else {**FACTS["part"], **FACTS.get(f"part {found['slot']}", {})}
    assert found["name"] in known


@pytest.mark.parametrize("clause", ASKED_TO_BE.values())
def test_a_clause_has_one_place_for_what_is_asked_for(clause: str) -> None:
    assert clause.count("{}") == 1
