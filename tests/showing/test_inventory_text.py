"""What people are shown of an inventory: every reading with its column, and what became of it."""

from __future__ import annotations

from kitproof.sheets.booking import booked, kinds_of, opening_of
from kitproof.sheets.inventory import inventory
from kitproof.sheets.matching import Shelf
from kitproof.sheets.opening import opened
from kitproof.showing.inventory_text import inventory_lines
from kitproof.showing.text import plain

SHEET = b"""\
Item,Kind,Qty,Weight (kg),Payload,Barcode
Tolland 30,,2,6.4,30,0017
Tarn 7,monitor,1,"0,8",,0018
"""
BOOK = 'part head "Tolland 30"\n  mass 14.1 lb\n  have 1\n'
SHOWN = """\
stock.csv for "house.kitlist": 2 parts, 1 of them new; 1 to be added, 1 that the
book has already, 1 that the book contradicts, which stays.

head "Tolland 30" (row 2; head by the parts book)
  have            2                       column C, "Qty"
                  not taken: the book says 1, and --overwrite would change it
  mass            6.4 kg                  column D, "Weight (kg)"
                  as in the book: 14.1 lb

monitor "Tarn 7" (row 3; monitor by column B, "Kind"), new
  have            1                       column C, "Qty"

Not taken:
  row 2 of "Tolland 30", column E, "Payload": "30": neither it nor its heading
    has a unit; it should be a mass, such as 6.4 kg.
  row 3 of "Tarn 7", column D, "Weight (kg)": "0,8": it should be one decimal
    number, with a point and no comma.

Not read, since its heading is not known: column F, "Barcode".
"""


def test_every_reading_is_shown_with_what_became_of_it() -> None:
    found = inventory(opened(SHEET), {}, Shelf(kinds_of(BOOK)))
    done = booked(found, BOOK, opening_of("stock.csv"), overwrite=False)
    assert plain(inventory_lines(found, done, "stock.csv", "house.kitlist")) == SHOWN


def test_what_takes_the_place_of_something_says_of_what() -> None:
    found = inventory(opened(SHEET), {}, Shelf(kinds_of(BOOK)))
    done = booked(found, BOOK, opening_of("stock.csv"), overwrite=True)
    shown = plain(inventory_lines(found, done, "stock.csv", ""))
    assert "1 to take the place of what the book says" in " ".join(shown.split())
    assert "instead of 1\n" in shown
    assert "--overwrite" not in shown
