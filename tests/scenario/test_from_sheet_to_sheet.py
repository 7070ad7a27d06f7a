"""One order from the sheet that came in to the sheet that goes back, as a coordinator would do it at a desk.

Each step is the command in a process of its own, on a copy of the samples: sheet, list, proof, mend, compare, return.
"""

from __future__ import annotations

import json
import os
import re
import shutil
import subprocess
import sys
from pathlib import Path
from typing import Any

import openpyxl
import pytest
import python_calamine

from tests.house.repository import ROOT

SHEET = "sheets/larkspur-quay.xlsx"
LIST, FIRST = "larkspur-quay.kitlist", "larkspur-quay-first.kitlist"
ON = ("--on", "2027-03-01")


@pytest.fixture(scope="module")
def desk(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A copy of the samples, as the folder of a house, in which all steps are done once, one after the other."""
    folder = tmp_path_factory.mktemp("scenario") / "desk"
    shutil.copytree(ROOT / "samples", folder, ignore=shutil.ignore_patterns("__pycache__"))
    (folder / "kitproof.toml").touch()
    run(folder, 1, "from-sheet", SHEET, "--books", "stock/thrapley.kitlist", "-o", LIST)
    shutil.copy(folder / LIST, folder / FIRST)
    run(folder, 1, "from-sheet", SHEET, "--return", "--list", FIRST, *ON, "-o", "first-back.xlsx")
    run(folder, 0, "mend", LIST, *ON)
    run(folder, 1, "from-sheet", SHEET, "--return", "--list", LIST, *ON, "-o", "back.xlsx")
    return folder


def run(folder: Path, status: int, *words: str) -> str:
    """What the command prints, where it ends with this status and says nothing that a traceback would."""
    surroundings = {**os.environ, "NO_COLOR": "1", "PYTHONUTF8": "1", "COLUMNS": "80"}
    done = subprocess.run(
        [sys.executable, "-m", "kitproof", *words],
        cwd=folder,
        env=surroundings,
        capture_output=True,
        text=True,
        encoding="utf-8",
        check=False,
    )
    assert done.returncode == status, f"{done.stdout}{done.stderr}"
    assert "Traceback" not in done.stderr
    return done.stdout


def findings(desk: Path, name: str, status: int) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = json.loads(run(desk, status, "proof", name, *ON, "--as", "json"))["findings"]
    return found


def cells(path: Path) -> dict[str, list[list[Any]]]:
    """A workbook by a reader of another make than what wrote it."""
    book = python_calamine.CalamineWorkbook.from_path(path)
    return {name: book.get_sheet_by_name(name).to_python(skip_empty_area=False) for name in book.sheet_names}


def text_of(sheets: dict[str, list[list[Any]]]) -> str:
    return "\n".join(str(cell) for rows in sheets.values() for row in rows for cell in row)


def test_the_list_tells_of_every_row(desk: Path) -> None:
    text = (desk / FIRST).read_text("utf-8")
    order = cells(desk / SHEET)["Order"]
    filled = [number for number, row in enumerate(order, start=1) if any(str(cell).strip() for cell in row)]
    assert [number for number in filled if f'"Order" row {number}' not in text] == []


def test_it_would_be_sent_back_as_it_came(desk: Path) -> None:
    found = findings(desk, FIRST, 1)
    assert {each["rule"] for each in found} >= {"slide-out-of-reach", "companion-missing", "ordered-not-used"}


def test_mending_leaves_nothing_to_send_back_and_comparing_says_what_it_did(desk: Path) -> None:
    left = findings(desk, LIST, 0)
    assert {each["grade"] for each in left} <= {"watch", "note"}
    compared = " ".join(run(desk, 0, "compare", FIRST, LIST, *ON).split())
    assert "(slide-out-of-reach)" in compared
    assert "Larkhaw wide slide 300" in compared
    again = run(desk, 0, "mend", "--show", LIST, *ON)
    assert again == "", "what was mended is not mended again"


@pytest.mark.parametrize(("name", "back", "status"), [(FIRST, "first-back.xlsx", 1), (LIST, "back.xlsx", 0)])
def test_every_finding_goes_back_with_the_sheet(desk: Path, name: str, back: str, status: int) -> None:
    sheets = cells(desk / back)
    whole = text_of(sheets)
    found = findings(desk, name, status)
    assert found
    assert [each["says"] for each in found if each["says"].rstrip(".") not in whole] == []
    in_doubt = (desk / name).read_text("utf-8").count(", in doubt: ")
    assert whole.count("This row is in doubt: ") == in_doubt > 0
    beside = sum(whole.count(f"{grade}: ") for grade in ("STOP", "WRONG", "WATCH", "NOTE", "ASK", "WAIVED"))
    below = sum(row[0] in ("STOP", "WRONG", "WATCH", "NOTE", "ASK", "WAIVED") for row in sheets["Proof"])
    assert beside + below == len(found) + in_doubt


def test_the_slide_s_finding_stands_beside_the_slide_s_row(desk: Path) -> None:
    (number,) = re.findall(r'"Larkhaw wide slide 160".*# "Order" row (\d+)', (desk / FIRST).read_text("utf-8"))
    row = cells(desk / "first-back.xlsx")["Order"][int(number) - 1]
    assert any("cannot be balanced within the slide's travel" in str(cell) for cell in row)


def test_all_of_the_sender_s_comes_back_as_it_was(desk: Path) -> None:
    was, now = openpyxl.load_workbook(desk / SHEET), openpyxl.load_workbook(desk / "back.xlsx")
    assert now.sheetnames == [*was.sheetnames, "Proof"]
    for sheet in was.worksheets:
        same = now[sheet.title]
        assert (same.sheet_state, str(same.merged_cells)) == (sheet.sheet_state, str(sheet.merged_cells))
        for row in sheet.iter_rows():
            for cell in row:
                if cell.value is not None:
                    other = same[cell.coordinate]
                    assert (other.value, other.data_type) == (cell.value, cell.data_type)
                    assert repr((other.font, other.fill)) == repr((cell.font, cell.fill))


def test_the_order_itself_is_never_written_to(desk: Path) -> None:
    assert (desk / SHEET).read_bytes() == (ROOT / "samples" / SHEET).read_bytes()
