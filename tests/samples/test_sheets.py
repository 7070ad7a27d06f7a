"""The orders in sheets, and the lists taken from them: what the command writes, and nothing else."""

from __future__ import annotations

from pathlib import Path

import pytest

from kitproof.sheets.opening import opened
from tests.samples.sheets import FOLDER, SHEETS, taken, workbook


@pytest.mark.parametrize("anew", [False, True])
@pytest.mark.parametrize("sheet", SHEETS)
def test_a_list_is_just_what_is_taken_from_its_sheet(sheet: str, anew: bool) -> None:
    """Taken over the first, the command leaves it as it is, since it would write the same."""
    assert taken(sheet, anew=anew) == (1, (FOLDER / f"{Path(sheet).stem}.kitlist").read_bytes())


def test_the_workbook_is_what_the_script_makes() -> None:
    assert opened((FOLDER / "larkspur-quay.xlsx").read_bytes()) == opened(workbook())


def test_the_sheets_are_untidy_in_the_usual_ways() -> None:
    csv = opened((FOLDER / SHEETS[0]).read_bytes())
    assert any("cp1252" in said for said in csv.said)
    book = opened((FOLDER / SHEETS[1]).read_bytes())
    assert [sheet.name for sheet in book.sheets if sheet.hidden] == ["Rates"]
    assert book.sheets[0].merged
    assert len({len(row.cells) for row in csv.sheets[0].rows}) == 1
    assert {row.empty for row in csv.sheets[0].rows} == {True, False}
