"""The conformance cases: each list reads as its file says, and the reference's own example reads without a slip."""

from __future__ import annotations

from pathlib import Path

import pytest

from kitproof.reading.entries import read
from kitproof.words.shipped import folder
from tests.reading.rendering import rendered

CASES = sorted((folder("grammar") / "cases").glob("*.case"))


def test_there_are_cases() -> None:
    assert len(CASES) >= 5


@pytest.mark.parametrize("path", CASES, ids=lambda path: path.stem)
def test_a_case_reads_as_it_says(path: Path) -> None:
    text, expected = path.read_text("utf-8").split("\n---\n")
    assert rendered(read(text + "\n", "case")) == expected


def test_the_example_of_the_reference_reads_without_a_slip() -> None:
    page = (folder("grammar") / "format.md").read_text("utf-8")
    document = read(page.split("```")[1], "format.md")
    assert [entry.kind for entry in document.entries] == ["list", "use", "rig", "case"]
    assert [entry.slips for entry in document.entries] == [()] * 4
    assert document.slips == ()
