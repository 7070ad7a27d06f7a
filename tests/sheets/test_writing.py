"""The list that is made: in the canonical layout, nothing of a cell ever a word of the format, and marked."""

from __future__ import annotations

from kitproof.mending.layout import neatened
from kitproof.reading.entries import read
from kitproof.sheets.writing import WIDTH, made_from_a_sheet
from tests.sheets.made import listed

SHEET = """The Long Tide
Dates:,7 June 2027 to 25 June 2027

Qty,Item,Notes,Rig,Supplier
1,Tern S2,,A,Heronsgate
1,Dunlin 50mm,,A,Heronsgate
,POWER
6 (2 spare),Sorrel 98,,,
2,Bramble head,small one if there is,,
0,Vetch 5,,,
"""
LIST = """# 10 rows: 3 written, 1 in doubt, 1 not wanted, 2 headings, 2 beside the list, 1
#   empty.
# Beside each line stand its row and how alike the names are, of 100. A row in
#   doubt is a comment: below it stand lines to choose from; take the # away
#   before the one that is meant.
# Columns by row 4: how many in "Qty", what it is in "Item", notes in "Notes",
#   the rig that it is for in "Rig", whom it is from in "Supplier".

list "The Long Tide"
  dates     2027-06-07 to 2027-06-25

use "stock/house.kitlist"

# row 1: "The Long Tide"
# row 2: "Dates:"; "7 June 2027 to 25 June 2027"
# row 4, headings
order "From Heronsgate"
  1 x "Tern S2", for rig A  # row 5, 100
  1 x "Dunlin 50", for rig A  # row 6, 100: "Dunlin 50mm"

# row 7, section "POWER"
order
  6 x "Sorrel 98", spare 2  # row 8, 100
  # row 9, in doubt: "Bramble head", count "2": which part it is, is not sure;
  #   note "small one if there is". Nearest:
  #   2 x "Bramble 12"  # row 9, 80
  #   2 x "Bramble 18"  # row 9, 80
  #   2 x "Bramble tie-down"  # row 9, 72
  # row 10, none wanted: "Vetch 5"

# Proposed from rows 5 to 6, as the sheet groups them. It does not say the order
#   of building up, nor where things sit: look it over.
rig A
  camera    "Tern S2"
  lens      "Dunlin 50"
"""


def test_a_whole_list_as_it_is_written() -> None:
    first, _, rest = listed(SHEET).partition("\n")
    assert rest == LIST
    assert first.startswith('# Made from the sheet "order.csv" by kitproof from-sheet. Mark ')


def test_it_is_in_the_canonical_layout() -> None:
    assert neatened(listed(SHEET)) == listed(SHEET)


def test_a_line_to_choose_from_is_a_line_once_its_mark_is_taken_away() -> None:
    chosen = listed(SHEET).replace('  #   2 x "Bramble 12"', '  2 x "Bramble 12"')
    document = read(chosen, "order.kitlist")
    assert not document.slips
    assert len([field for entry in document.entries if entry.kind == "order" for field in entry.fields]) == 4


def test_no_comment_is_longer_than_a_terminal_is_wide() -> None:
    text = listed("Qty,Item,Notes\n1,Vetch 7," + "words and more " * 40 + "\n2,thing," + "x" * 500 + "\n")
    assert max(len(line) for line in text.splitlines()[1:]) <= WIDTH
    assert text.count("words and more") >= 30


def test_the_mark_tells_a_list_as_made_from_one_changed_by_hand() -> None:
    text = listed(SHEET)
    made = made_from_a_sheet(text)
    assert made is not None
    assert made.untouched
    assert made_from_a_sheet(text.replace("\n", "\r\n")) == made
    changed = made_from_a_sheet(text.replace("Tern S2", "Tern S6"))
    assert changed is not None
    assert (changed.mark, changed.untouched) == (made.mark, False)
    assert made_from_a_sheet('list "x"\n') is None


def test_the_same_sheet_gives_the_same_list() -> None:
    assert listed(SHEET) == listed(SHEET)


def test_rigs_of_more_than_a_letter_are_named_in_quotes() -> None:
    text = listed("Rig,Qty,Item\nJetty like A,1,Tern S2\nJetty like A,1,Dunlin 50\n")
    assert 'rig "Jetty like A"\n' in text
    assert ', for "Jetty like A"' in text


def test_a_rig_has_its_days_where_the_list_has_none() -> None:
    rig = "A,1,Tern S2,2027-06-07,2027-06-25\nA,1,Dunlin 50,2027-06-07,2027-06-25\n"
    text = listed("Rig,Qty,Item,From,To\n" + rig + ",1,Vetch 7,2027-06-07,2027-06-08\n")
    assert '  lens      "Dunlin 50"\n  dates     2027-06-07 to 2027-06-25\n' in text
    assert text.count("dates") == 3
    assert listed("Rig,Qty,Item,From,To\n" + rig).count("dates") == 1


def test_sections_named_in_a_column_are_told_above_their_orders() -> None:
    text = listed("Qty,Item,Dept\n1,Dunlin 50,Glass\n1,Vetch 7,\n")
    assert '# section "Glass"\norder\n' in text
    assert "# no section\norder\n" in text


def test_an_order_from_somebody_has_its_section_in_its_name() -> None:
    assert 'order "Glass, from Heronsgate"' in listed("Qty,Item,Dept,Supplier\n1,Dunlin 50,Glass:,Heronsgate\n")
