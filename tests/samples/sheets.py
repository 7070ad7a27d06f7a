"""Orders as coordinators send them, of our own invention, and the lists that are taken from them.

`python -m tests.samples.sheets` writes the workbook and both lists anew. The CSV file was typed by hand.
"""

from __future__ import annotations

import contextlib
import io
import shutil
import sys
import tempfile
from datetime import date, datetime
from pathlib import Path

import xlsxwriter
from click.testing import CliRunner

from kitproof.command import main as kitproof
from tests.house.repository import ROOT

FOLDER = ROOT / "samples" / "sheets"
SHEETS = ("nine-bells-pick-ups.csv", "larkspur-quay.xlsx")
BOOK = "samples/stock/thrapley.kitlist"
OUT, BACK = date(2027, 10, 4), date(2027, 10, 15)
SHORT = date(2027, 10, 8)

ORDER: tuple[tuple[object, ...], ...] = (
    ("LARKSPUR QUAY – second unit",),
    ("Camera order, issue 2", None, None, None, None, None, "from: the unit's own coordinator"),
    (),
    ("Rig", "Quantity", "Make", "Model", "Out", "Back", "Hire from whom", "Remarks"),
    ("A", 1, "Quillon", "S2", OUT, BACK, "Thrapley"),
    (None, 1, "Quillon", "top handle", OUT, BACK, "Thrapley"),
    (None, 1, "Corbane", "18", OUT, BACK, "Thrapley", "was the 30, but it is out"),
    (None, 1, "Corbane", "long bar", OUT, BACK, "Thrapley"),
    (None, 1, "Corbane", "tie down", OUT, BACK, "Thrapley"),
    (None, 1, "Wendle", "tall 100", OUT, BACK, "Thrapley"),
    (None, "one", "Larkhaw", "wide slide 160", OUT, BACK, "Thrapley"),
    (None, 1, "Larkhaw", "Light base", OUT, BACK, "Thrapley"),
    (None, "4 + 1 spare", "Osmer", "150 battery", OUT, BACK, "Thrapley"),
    ("B", 1, "Marrick", "M1 body", OUT, SHORT, "Thrapley", "drone days only"),
    ("B", 1, "Marrick", "35mm", OUT, SHORT, "Thrapley"),
    ("A & B", 2, "Brack", '5"', OUT, BACK, "Thrapley"),
    ("A & B", "a pair", "Osmer", "four way charger", OUT, BACK, "Thrapley"),
    (),
    ("Spares and bits:",),
    (None, "?", "Fernley", "video links", OUT, BACK, "the production's own"),
    (None, 2, None, "sand bags", OUT, BACK, "Thrapley"),
    (None, 1, "Brack", "Field Recorder", "4/10/2027", "8/10/2027", "Thrapley"),
    (None, 1, "Fernley", "eye light", OUT, BACK, "Thrapley"),
)
LENSES: tuple[tuple[object, ...], ...] = (
    ("Item", "No.", "Note"),
    ("Pell prime set", 1, "32, 50 and 85, all with caps"),
    ("Pel 135", 1, None),
    ("Auvane zoom 24-90", 1, None),
    ("Auvane 100–500mm", 0, "too dear"),
)
TERMS = (("Hire is for the days above. The crew unload.",), ("Signed:",))
RATES = (("Item", "£ / day"), ("Quillon S2", 260), ("Corbane 18", 70))


def workbook() -> bytes:
    """The order as a workbook: cells set as one, one struck out, a total by a formula, a hidden sheet."""
    file = io.BytesIO()
    with xlsxwriter.Workbook(file, {"default_date_format": "d mmm yyyy"}) as book:
        book.set_properties({"created": datetime(2027, 9, 1)})
        for name, rows in (("Order", ORDER), ("Lenses", LENSES), ("Terms", TERMS), ("Rates", RATES)):
            page = book.add_worksheet(name)
            for at, row in enumerate(rows):
                page.write_row(at, 0, row)
        page.hide()
        order, bold = book.get_worksheet_by_name("Order"), book.add_format({"bold": True})
        order.merge_range("A5:A13", "A", bold)
        order.merge_range("A19:H19", "Spares and bits:", bold)
        order.write("D23", "eye light", book.add_format({"font_strikeout": True}))
        order.write("D25", "Total", bold)
        order.write_formula("B25", "=SUM(B5:B23)", bold, 17)
    return file.getvalue()


def taken(sheet: str, *, anew: bool) -> tuple[int, bytes]:
    """Takes a list from a sheet, over the list that is there or `anew`: the exit status, and the list.

    Done in a copy of the samples whose root is marked, so that it is the same wherever it runs.
    """
    name = f"samples/sheets/{Path(sheet).stem}.kitlist"
    with tempfile.TemporaryDirectory() as folder, contextlib.chdir(folder):
        shutil.copytree(ROOT / "samples", "samples", ignore=shutil.ignore_patterns("__pycache__"))
        Path("kitproof.toml").touch()
        if anew:
            Path(name).unlink(missing_ok=True)
        words = ["from-sheet", f"samples/sheets/{sheet}", "--books", BOOK, "-o", name]
        status = CliRunner().invoke(kitproof, words, catch_exceptions=False).exit_code
        return status, Path(name).read_bytes()


def main() -> int:
    (FOLDER / "larkspur-quay.xlsx").write_bytes(workbook())
    for sheet in SHEETS:
        (FOLDER / f"{Path(sheet).stem}.kitlist").write_bytes(taken(sheet, anew=True)[1])
    return 0


if __name__ == "__main__":
    sys.exit(main())
