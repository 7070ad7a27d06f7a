"""Rows that head a section, and words that name a rig."""

from __future__ import annotations

import pytest

from kitproof.sheets.cells import EMPTY, Row
from kitproof.sheets.opening import opened
from kitproof.sheets.sections import heads_a_section, rig_headed, rig_said
from tests.sheets.made import sheet, workbook


@pytest.mark.parametrize(
    "text", ["LENSES", "Lenses", "Power & batteries:", "Camera support", "A CAMERA", "GLASS AND TAPE"]
)
def test_a_row_of_one_cell_that_reads_as_a_heading_heads_a_section(text: str) -> None:
    whole = sheet(f",{text},,\n")
    assert heads_a_section(whole.rows[0], whole)


@pytest.mark.parametrize("text", ["Vetch 7", "please call before delivery", "7", "2 x Vetch", "x" * 80 + ":"])
def test_a_row_of_one_cell_that_lists_or_says_something_does_not(text: str) -> None:
    whole = sheet(f",{text},,\n")
    assert not heads_a_section(whole.rows[0], whole)


def test_a_row_with_more_in_it_heads_nothing() -> None:
    whole = sheet("LENSES,2\n")
    assert not heads_a_section(whole.rows[0], whole)
    assert not heads_a_section(Row(2, (EMPTY, EMPTY)), whole)


def test_a_cell_set_across_the_sheet_heads_a_section() -> None:
    whole = opened(workbook({"Order": [["from the truck"], ["from the truck"]]}, merged=["A2:D2"])).sheets[0]
    assert [heads_a_section(each, whole) for each in whole.rows] == [False, True]


@pytest.mark.parametrize(
    ("text", "rig"),
    [
        ("A CAMERA", "A"), ("Camera B", "B"), ("Cam C build", "C"), ("B-cam", "B"), ("Rig 2", "2"),
        ("RIG Main unit", "main unit"),
        ("Camera", ""), ("CAMERAS", ""), ("Lenses", ""), ("A", ""),
    ],
)  # fmt: skip
def test_a_heading_may_name_a_rig(text: str, rig: str) -> None:
    assert rig_headed(text) == rig


@pytest.mark.parametrize(
    ("text", "rig"),
    [
        ("a", "A"),
        ("A cam", "A"),
        ("Jetty", "Jetty"),
        ("A & B", ""),
        ("both", ""),
        ("A/B", ""),
        ("spare", ""),
        ("", ""),
        ("?", ""),
    ],
)
def test_a_cell_for_the_rig_names_one_or_none(text: str, rig: str) -> None:
    assert rig_said(text) == rig
