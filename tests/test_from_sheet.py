"""The command that makes a list out of a sheet: what it writes, what it says, and what it never writes over."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from kitproof.command import main
from tests.sheets.made import BOOK, workbook

SHEET = "Qty,Item\n2,Vetch 7\n1,Tern S2 body\n"
DOUBTFUL = SHEET + "1,Bramble head\n"


def run(*words: str | Path) -> Result:
    return CliRunner().invoke(main, ["from-sheet", *(str(word) for word in words)], catch_exceptions=False)


def said(result: Result) -> str:
    """What stands on standard error, whatever the width at which it is broken."""
    return " ".join(result.stderr.split())


@pytest.fixture
def desk(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with a sheet and, in a folder beside it, a parts book; rules elsewhere do not reach it."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "kitproof.toml").touch()
    (tmp_path / "stock").mkdir()
    (tmp_path / "stock" / "house.kitlist").write_text(BOOK, "utf-8")
    (tmp_path / "order.csv").write_text(SHEET, "utf-8")
    return tmp_path


def test_a_list_is_printed_and_what_became_of_the_rows_is_said_apart_from_it(desk: Path) -> None:
    result = run("order.csv")
    assert result.exit_code == 0
    assert '\nuse "stock/house.kitlist"\n' in result.stdout
    assert '\n  2 x "Vetch 7"  # row 2, 100\n  1 x "Tern S2"  # row 3, 100: "Tern S2 body"\n' in result.stdout
    assert said(result) == "order.csv: 3 rows: 2 written, 1 heading."


def test_a_row_in_doubt_gives_a_status_of_its_own(desk: Path) -> None:
    (desk / "order.csv").write_text(DOUBTFUL, "utf-8")
    result = run("order.csv", "-o", "order.kitlist")
    assert (result.exit_code, result.stdout) == (1, "")
    assert "1 in doubt" in said(result)
    assert '#   1 x "Bramble 12"  # row 4, 80' in (desk / "order.kitlist").read_text("utf-8")


def test_the_list_can_be_proofed(desk: Path) -> None:
    run("order.csv", "-o", "order.kitlist")
    result = CliRunner().invoke(main, ["proof", "order.kitlist", "--as", "json"], catch_exceptions=False)
    assert result.exit_code == 0
    assert '"not_read": 0' in result.stdout


def test_a_workbook_is_read_as_well(desk: Path) -> None:
    (desk / "order.xlsx").write_bytes(workbook({"Order": [["Item", "Qty"], ["Vetch 7", 2]]}))
    assert '2 x "Vetch 7"' in run("order.xlsx").stdout


# The same sheet again, and lists that are there already


def test_the_same_sheet_again_changes_nothing(desk: Path) -> None:
    run("order.csv", "-o", "order.kitlist")
    before = (desk / "order.kitlist").stat()
    result = run("order.csv", "-o", "order.kitlist")
    assert result.exit_code == 0
    assert "nothing was changed" in said(result)
    assert (desk / "order.kitlist").stat().st_mtime_ns == before.st_mtime_ns


def test_a_list_that_nobody_touched_follows_its_sheet(desk: Path) -> None:
    run("order.csv", "-o", "order.kitlist")
    (desk / "order.csv").write_text(SHEET.replace("2,Vetch 7", "3,Vetch 7"), "utf-8")
    assert run("order.csv", "-o", "order.kitlist").exit_code == 0
    assert '  3 x "Vetch 7"' in (desk / "order.kitlist").read_text("utf-8")


def edited(desk: Path) -> str:
    """A list made from the sheet and then changed by hand."""
    run("order.csv", "-o", "order.kitlist")
    text = (desk / "order.kitlist").read_text("utf-8").replace('2 x "Vetch 7"', '4 x "Vetch 7"')
    (desk / "order.kitlist").write_text(text, "utf-8")
    return text


def test_changes_made_by_hand_stay_when_the_same_sheet_is_taken_again(desk: Path) -> None:
    text = edited(desk)
    result = run("order.csv", "-o", "order.kitlist")
    assert result.exit_code == 0
    assert "then changed by hand. It was left as it is." in said(result)
    assert (desk / "order.kitlist").read_text("utf-8") == text


def test_changes_made_by_hand_are_never_written_over_by_another_sheet(desk: Path) -> None:
    text = edited(desk)
    (desk / "order.csv").write_text(DOUBTFUL, "utf-8")
    result = run("order.csv", "-o", "order.kitlist")
    assert result.exit_code == 2
    assert "Name another file with -o" in said(result)
    assert (desk / "order.kitlist").read_text("utf-8") == text


def test_a_file_that_was_not_made_from_a_sheet_is_never_written_over(desk: Path) -> None:
    (desk / "order.kitlist").write_text('list "Mine"\n', "utf-8")
    result = run("order.csv", "-o", "order.kitlist")
    assert result.exit_code == 2
    assert said(result) == '"order.kitlist" is there already and was not made from a sheet. Name another file with -o.'
    assert (desk / "order.kitlist").read_text("utf-8") == 'list "Mine"\n'


# Parts books


def test_parts_books_may_be_named_and_are_used_from_where_the_list_lies(desk: Path) -> None:
    (desk / "lists").mkdir()
    run("order.csv", "--books", "stock/house.kitlist", "-o", "lists/order.kitlist")
    assert '\nuse "../stock/house.kitlist"\n' in (desk / "lists" / "order.kitlist").read_text("utf-8")


def test_a_list_beside_the_sheet_is_no_parts_book(desk: Path) -> None:
    (desk / "other.kitlist").write_text('list "Other"\n\n' + BOOK, "utf-8")
    (desk / ".hidden.kitlist").write_text(BOOK, "utf-8")
    assert [line for line in run("order.csv").stdout.splitlines() if line.startswith("use")] == [
        'use "stock/house.kitlist"'
    ]


def test_a_book_that_the_list_could_not_use_is_said(desk: Path) -> None:
    (desk / "work").mkdir()
    (desk / "work" / "kitproof.toml").touch()
    result = run("order.csv", "-o", "work/order.kitlist")
    assert 'lies outside the folder "work"' in said(result)


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("order.csv", "--books", "stock/hose.kitlist"), 'The nearest here is "stock/house.kitlist".'),
        (("order.csv", "--books", "kitproof.toml"), '"kitproof.toml" describes no part.'),
        (("order.cvs",), 'There is no file or folder "order.cvs". The nearest here is "order.csv".'),
        (("stock",), '"stock" is a folder. Name the sheet itself.'),
        (("order.csv", "--column", "cuont=Qty"), 'The nearest is "count".'),
        (("order.csv", "--column", "count=Number"), 'No column is headed "Number".'),
        (("order.csv", "--column", "count"), '"count" names no column. Write what it holds and its heading: count=Qty'),
        (("two.csv",), "could both be how many"),
        (("none.csv",), "No row of it has headings that are known"),
        (("empty.csv",), "It is empty"),
        (("broken.xlsx",), "It is damaged"),
    ],
)
def test_what_cannot_be_done_is_said_with_what_to_do(desk: Path, words: tuple[str, ...], says: str) -> None:
    (desk / "two.csv").write_text("Item,Qty,Quantity\nVetch 7,1,2\n", "utf-8")
    (desk / "none.csv").write_text("Vetch 7,1\n", "utf-8")
    (desk / "empty.csv").write_text("\n,,\n", "utf-8")
    (desk / "broken.xlsx").write_bytes(b"PK\x03\x04 and no more")
    result = run(*words)
    assert (result.exit_code, result.stdout) == (2, "")
    assert says in said(result)


def test_with_no_parts_book_there_is_nothing_to_match_by(desk: Path) -> None:
    (desk / "stock" / "house.kitlist").unlink()
    result = run("order.csv")
    assert result.exit_code == 2
    assert "--books FILE" in said(result)


def test_what_is_said_is_broken_at_the_width_of_a_terminal(desk: Path) -> None:
    (desk / "none.csv").write_text("Vetch 7,1\n", "utf-8")
    assert max(len(line) for line in run("none.csv").stderr.splitlines()) <= 80
