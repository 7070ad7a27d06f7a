"""The orders in sheets, and the lists taken from them: what the command writes, and nothing else."""

from __future__ import annotations

from pathlib import Path

import pytest

from kitproof.sheets.opening import opened
from tests.samples.sheets import FOLDER, SHEETS, taken, workbook


@pytest.mark.parametrize("sheet", SHEETS)
def test_a_list_is_just_what_is_taken_from_its_sheet(sheet: str) -> None:
    """Taken again beside the first: the command leaves it as it is, since it would write the same."""
    path = FOLDER / f"{Path(sheet).stem}.kitlist"
    before = path.read_bytes()
    assert taken(sheet) == 1
    assert path.read_bytes() == before


@pytest.mark.parametrize("sheet", SHEETS)
def test_a_list_taken_anew_is_the_same(sheet: str, tmp_path: Path) -> None:
    """But for the path of the parts book, which lies elsewhere from there."""
    assert taken(sheet, tmp_path) == 1
    stem = f"{Path(sheet).stem}.kitlist"

    def told(path: Path) -> list[str]:
        return [line for line in path.read_text("utf-8").splitlines()[1:] if not line.startswith("use ")]

    assert told(tmp_path / stem) == told(FOLDER / stem)


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
