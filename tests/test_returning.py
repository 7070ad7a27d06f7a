"""`kitproof from-sheet --return`: the sender's sheet with the findings beside its rows, and what stops it."""

from __future__ import annotations

import io
import json
from pathlib import Path
from typing import Any

import openpyxl
import pytest
import python_calamine
from click.testing import CliRunner, Result

from kitproof.command import main

BOOK = """\
part head "Tolland 30"
  mass      6 kg
  rated     30 kg at 150 mm
  goes with "Tolland bar"
  have      1

part pan bar "Tolland bar"
  mass      0.4 kg

part monitor "Tarn 7"
  mass      0.8 kg
"""
ROWS = [
    ["Pier, B unit"],
    ["Qty", "Item", "Note"],
    [2, "Tolland 30", None],
    [1, "Tarn 7", None],
    [3, "blue thing", None],
]
ON = ("--on", "2027-03-01")


@pytest.fixture
def desk(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "house.kitlist").write_text(BOOK, "utf-8")
    book = openpyxl.Workbook()
    assert book.active is not None
    for row in ROWS:
        book.active.append(row)
    data = io.BytesIO()
    book.save(data)
    (tmp_path / "order.xlsx").write_bytes(data.getvalue())
    (tmp_path / "order.csv").write_text("Qty,Item\n2,Tolland 30\n1,Tarn 7\n3,blue thing\n", "utf-8")
    return tmp_path


def run(*words: str) -> Result:
    return CliRunner().invoke(main, list(words), catch_exceptions=False)


def sheets(path: Path) -> dict[str, list[list[Any]]]:
    book = python_calamine.CalamineWorkbook.from_path(path)
    return {name: book.get_sheet_by_name(name).to_python(skip_empty_area=False) for name in book.sheet_names}


def findings(*words: str) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = json.loads(run("proof", "--as", "json", *ON, *words).stdout)["findings"]
    return found


def test_every_finding_of_the_list_stands_in_the_copy(desk: Path) -> None:
    run("from-sheet", "order.xlsx", "-o", "order.kitlist")
    found = findings("order.kitlist")
    assert found
    result = run("from-sheet", "order.xlsx", "--return", "--list", "order.kitlist", *ON, "-o", "back.xlsx")
    assert (result.exit_code, result.stdout) == (1, "")
    whole = sheets(desk / "back.xlsx")
    text = "\n".join(str(cell) for rows in whole.values() for row in rows for cell in row)
    assert [each["says"] for each in found if each["says"] not in text] == []
    said = text.count("NOTE: ") + text.count("WATCH: ") + text.count("WRONG: ") + text.count("STOP: ")
    own = [row[0] for row in whole["Proof"][4:]]
    assert said + len(own) == len(found)
    assert "Tolland 30" in whole["Sheet"][2][4]
    assert whole["Sheet"][4][3] == "ASK"
    assert f"{len(found) + 1} remarks" in result.stderr


def test_without_a_list_it_is_made_anew(desk: Path) -> None:
    result = run("from-sheet", "order.xlsx", "--return", *ON, "-o", "back.xlsx")
    assert result.exit_code == 1
    assert sheets(desk / "back.xlsx")["Sheet"][4][3] == "ASK"
    assert sorted(path.name for path in desk.iterdir()) == ["back.xlsx", "house.kitlist", "order.csv", "order.xlsx"]


def test_what_was_settled_by_hand_is_asked_no_more(desk: Path) -> None:
    run("from-sheet", "order.xlsx", "-o", "order.kitlist")
    path = desk / "order.kitlist"
    text = path.read_text("utf-8").replace("  2 x", "  1 x")
    path.write_text(text.replace("  # row 5, in doubt", '  3 x "Tarn 7"  # row 5, 60\n  # row 5, in doubt'), "utf-8")
    run("from-sheet", "order.xlsx", "--return", "--list", "order.kitlist", *ON, "-o", "back.xlsx")
    assert "in doubt" not in str(sheets(desk / "back.xlsx")["Sheet"])


def test_a_csv_gets_a_csv_back(desk: Path) -> None:
    result = run("from-sheet", "order.csv", "--return", *ON, "-o", "back.csv")
    assert result.exit_code == 1
    text = (desk / "back.csv").read_text("utf-8")
    assert text.startswith('Qty,Item,"Grade","Found in the proof","What to do"\n2,Tolland 30,"')
    assert '\n3,blue thing,"ASK","' in text


def test_a_list_with_nothing_to_send_back_ends_with_0(desk: Path) -> None:
    (desk / "small.csv").write_text("Qty,Item\n1,Tarn 7\n", "utf-8")
    result = run("from-sheet", "small.csv", "--return", *ON, "-o", "back.csv")
    assert (result.exit_code, result.stdout) == (0, "")


def test_settings_of_the_house_hold(desk: Path) -> None:
    (desk / "kitproof.toml").write_text('retired = ["ordered-not-used", "nothing-packed-for"]\n', "utf-8")
    run("from-sheet", "order.csv", "--return", *ON, "-o", "back.csv", "--retire", "companion-missing")
    said = (desk / "back.csv").read_text("utf-8")
    assert "WATCH" not in said
    (desk / "kitproof.toml").write_text('retird = ["x"]\n', "utf-8")
    result = run("from-sheet", "order.csv", "--return", *ON, "-o", "other.csv")
    assert (result.exit_code, (desk / "other.csv").exists()) == (2, False)


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("order.xlsx",), "say where the copy goes: -o FILE"),
        (("order.xlsx", "-o", "order.xlsx"), "the sender's own sheet is never written over"),
        (("order.xlsx", "-o", "b.xlsx", "--list", "ordr.kitlist"), 'There is no file or folder "ordr.kitlist".'),
        (("formula.csv", "-o", "b.csv"), 'take cells for formulas and run them: C2 ("=1+1")'),
        (("old.xls", "-o", "b.xls"), "Open it in the program that made it"),
    ],
)
def test_what_stops_it(desk: Path, words: tuple[str, ...], told: str) -> None:
    (desk / "formula.csv").write_text("Qty,Item,Note\n1,Tarn 7,=1+1\n", "utf-8")
    (desk / "old.xls").write_bytes(b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1 no more than a beginning")
    was = (desk / "order.xlsx").read_bytes()
    result = run("from-sheet", "--return", *words)
    assert (result.exit_code, result.stdout) == (2, "")
    assert told in " ".join(result.stderr.split())
    assert (desk / "order.xlsx").read_bytes() == was
    assert not any((desk / name).exists() for name in ("b.xlsx", "b.csv", "b.xls"))
