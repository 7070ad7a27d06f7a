"""The reference pages say what the registries say."""

from __future__ import annotations

import re

import pytest

from kitproof.facts.registry import FACTS
from kitproof.words.kinds import KINDS
from tests.house.reference import FOLDER, PAGES, SUBJECTS, stale


def test_no_page_is_out_of_date() -> None:
    assert stale() == [], "write them with python -m tests.house.reference --write"


def test_every_subject_of_facts_is_introduced() -> None:
    assert set(FACTS) == set(SUBJECTS)


@pytest.mark.parametrize("name", PAGES)
def test_a_page_has_whole_tables(name: str) -> None:
    """Every row of a table has as many cells as its head."""
    wanted = 0
    for line in (FOLDER / name).read_text("utf-8").splitlines():
        cells = len(re.findall(r"(?<!\\)\|", line))
        if not line.startswith("|"):
            wanted = 0
        elif wanted == 0:
            wanted = cells
        else:
            assert cells == wanted, line


def test_the_pages_have_every_fact_and_every_kind() -> None:
    facts = (FOLDER / "facts.md").read_text("utf-8")
    parts = (FOLDER / "parts.md").read_text("utf-8")
    assert [name for names in FACTS.values() for name in names if f"| `{name}` |" not in facts] == []
    assert [word for word in KINDS if f"\n## {word}\n" not in parts] == []
