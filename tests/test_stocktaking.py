"""`kitproof from-sheet --parts`: a parts book made or updated from an inventory, and what stops it."""

from __future__ import annotations

import io
from pathlib import Path

import openpyxl
import pytest
from click.testing import CliRunner, Result

from kitproof.command import main

SHEET = "Item,Kind,Qty,Weight (kg)\nTolland 30,head,2,6.4\nTarn 7,monitor,1,0.8\n"
BOOK = """\
# Taken from the inventory "stock.csv" by kitproof from-sheet --parts.

part head "Tolland 30"
  have      2
  mass      6.4 kg

part monitor "Tarn 7"
  have      1
  mass      0.8 kg
"""


@pytest.fixture
def desk(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "stock.csv").write_text(SHEET, "utf-8")
    return tmp_path


def run(*words: str) -> Result:
    return CliRunner().invoke(main, ["from-sheet", *words], catch_exceptions=False)


def take(*words: str) -> Result:
    return run("stock.csv", "--parts", *words)


def test_without_a_book_it_only_shows(desk: Path) -> None:
    result = take()
    assert (result.exit_code, [path.name for path in desk.iterdir()]) == (0, ["stock.csv"])
    assert "mass            6.4 kg" in result.stdout
    assert result.stderr == "Nothing was written. -o FILE writes a parts book, or updates one.\n"


def test_a_book_is_made_that_can_be_proofed(desk: Path) -> None:
    result = take("-o", "house.kitlist")
    assert (result.exit_code, result.stderr) == (0, '"house.kitlist" is written.\n')
    assert (desk / "house.kitlist").read_text("utf-8") == BOOK
    proofed = CliRunner().invoke(main, ["proof", "house.kitlist"])
    assert (proofed.exit_code, proofed.stderr) == (0, "")


def test_the_same_again_changes_nothing(desk: Path) -> None:
    take("-o", "house.kitlist")
    before = (desk / "house.kitlist").stat().st_mtime_ns
    result = take("-o", "house.kitlist")
    assert result.stderr == '"house.kitlist" has all of it already; nothing was changed.\n'
    assert (desk / "house.kitlist").stat().st_mtime_ns == before


def test_show_holds_the_writing_back(desk: Path) -> None:
    assert take("-o", "house.kitlist", "--show").stderr == "Nothing was written, as --show asks.\n"
    assert not (desk / "house.kitlist").exists()


def test_an_update_keeps_what_contradicts_it_until_told(desk: Path) -> None:
    own = BOOK.replace("  mass      6.4 kg", "  mass      7 kg  # weighed in March").replace("\n", "\r\n").encode()
    (desk / "house.kitlist").write_bytes(own)
    result = take("-o", "house.kitlist")
    assert result.exit_code == 1
    assert "not taken: the book says 7 kg, and --overwrite would change it" in result.stdout
    assert (desk / "house.kitlist").read_bytes() == own
    result = take("-o", "house.kitlist", "--overwrite")
    assert (result.exit_code, result.stderr) == (0, '"house.kitlist" is updated.\n')
    assert "instead of 7 kg" in result.stdout
    assert (desk / "house.kitlist").read_bytes() == own.replace(b"7 kg  # weighed", b"6.4 kg  # weighed")


def test_bytes_that_are_no_text_stay_in_the_book(desk: Path) -> None:
    (desk / "house.kitlist").write_bytes(b'# caf\xe9\n\npart head "Tolland 30"\n  mass 6.4 kg\n')
    assert take("-o", "house.kitlist").exit_code == 0
    now = (desk / "house.kitlist").read_bytes()
    assert now.startswith(b'# caf\xe9\n\npart head "Tolland 30"\n  mass 6.4 kg\n  have      2\n')


def test_a_workbook_is_an_inventory_as_well(desk: Path) -> None:
    book = openpyxl.Workbook()
    assert book.active is not None
    for row in (["Item", "Kind", "Qty", "Weight (kg)"], ["Tolland 30", "head", 2, 6.4], ["Tarn 7", "monitor", 1, 0.8]):
        book.active.append(row)
    data = io.BytesIO()
    book.save(data)
    (desk / "stock.csv").write_bytes(data.getvalue())
    assert take("-o", "house.kitlist").exit_code == 0
    assert (desk / "house.kitlist").read_text("utf-8") == BOOK


def test_a_column_is_said_by_a_person(desk: Path) -> None:
    (desk / "stock.csv").write_text(SHEET.replace("Weight (kg)", "Heft (kg)"), "utf-8")
    assert "mass" not in take().stdout
    assert "mass            6.4 kg" in take("--column", "mass=Heft (kg)").stdout


@pytest.mark.parametrize(
    ("name", "text", "told"),
    [
        ("no.csv", "aaa,bbb\n1,2\n", "No row of it has headings that are known"),
        (
            "two.csv",
            "Item,Qty,Quantity\nTarn,1,2\n",
            'could both be how many there are: column B, "Qty" and column C, "Quantity"',
        ),
        ("empty.csv", "", "It is empty"),
    ],
)
def test_a_sheet_that_cannot_be_used_stops_it(desk: Path, name: str, text: str, told: str) -> None:
    (desk / name).write_text(text, "utf-8")
    result = run(name, "--parts", "-o", "house.kitlist")
    assert (result.exit_code, result.stdout) == (2, "")
    assert told in " ".join(result.stderr.split())
    assert not (desk / "house.kitlist").exists()


@pytest.mark.parametrize(
    ("data", "told"),
    [
        ("no list\n".encode("utf-16"), "is UTF-16 text and was left as it is"),
        (b"Dear all,\nthe order is attached\n", "is there already and is no parts book"),
    ],
)
def test_what_is_no_parts_book_is_left_alone(desk: Path, data: bytes, told: str) -> None:
    (desk / "house.kitlist").write_bytes(data)
    result = take("-o", "house.kitlist")
    assert (result.exit_code, result.stdout) == (2, "")
    assert told in result.stderr
    assert (desk / "house.kitlist").read_bytes() == data


def test_a_sheet_is_not_its_own_book(desk: Path) -> None:
    result = take("-o", "stock.csv")
    assert result.exit_code == 2
    assert "cannot be its own parts book" in result.stderr
    assert (desk / "stock.csv").read_text("utf-8") == SHEET


def test_a_book_that_cannot_be_written_is_said(desk: Path) -> None:
    (desk / "house.kitlist").write_text('part head "Tolland 30"\n', "utf-8")
    (desk / "house.kitlist").chmod(0o444)
    result = take("-o", "house.kitlist")
    assert result.exit_code == 2
    assert "is read-only and was left as it is" in result.stderr


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("--parts", "--return"), "give one of them"),
        (("--overwrite",), "--overwrite goes with --parts."),
        (("--show", "--return"), "--show goes with --parts."),
        (("--list", "a.kitlist"), "--list goes with --return."),
        (("--on", "2027-03-01", "--parts"), "--on goes with --return."),
        (("--retire", "chart-rises"), "--retire goes with --return."),
        (("--limit", "least_spare", "1 mm", "--parts"), "--limit goes with --return."),
        (("--books", "a.kitlist", "--parts"), "--books is for an order whose list is made now"),
        (("--books", "a.kitlist", "--return", "--list", "b.kitlist"), "--books is for an order whose list is made now"),
    ],
)
@pytest.mark.usefixtures("desk")
def test_options_that_do_not_go_together(words: tuple[str, ...], told: str) -> None:
    result = run("stock.csv", *words)
    assert (result.exit_code, result.stdout) == (2, "")
    assert told in result.stderr
