"""From a list made from a sheet back to its rows."""

from __future__ import annotations

from collections.abc import Sequence

from kitproof.proofing.findings import Finding
from kitproof.reading.document import Where
from kitproof.sheets.row_marks import Marked, RowOf, marked
from tests.proofing.lists import read_bytes

TEXT = """\
list "Pier"

part head "Tolland 30"
  mass      6 kg

part monitor "Tarn 7"
  mass      1 kg

order
  1 x "Tolland 30"  # row 4, 100
  2 x "Tarn 7"  # "Cam, A" row 5, 95: "Tarn seven"
  # row 6, in doubt: "Tarn 5", count "2": which part it is, is
  #   not sure. Nearest:
  #   2 x "Tarn 7"  # row 6, 60
  # row 7, in doubt: "blue thing": no part has a name like it.
  3 x "Tarn 7"  # row 8, 60
  # row 8, in doubt: "Tarn 5": which part it is, is not sure. Nearest:
  1 x "Tarn 7"

rig A
  head      "Tolland 30"  # we wrote row 99, 100 by hand
  monitor   "Tarn 7"
"""


def marks(text: str = TEXT) -> Marked:
    return marked(read_bytes(text.encode()))


def finding(line: int, column: int = 1, to_column: int = 1, see: Sequence[Where] = (), path: str = "") -> Finding:
    where = Where(path or marks().path, line, column, line, to_column)
    return Finding("r", "note", "fails", "t", where.path, None, "list", where, "s", "b", see=tuple(see))


def line_of(text: str) -> int:
    return TEXT.splitlines().index(text) + 1


def test_a_line_knows_its_row() -> None:
    first = line_of('  1 x "Tolland 30"  # row 4, 100')
    assert marks().lines[first] == RowOf("", 4)
    assert marks().lines[first + 1] == RowOf("Cam, A", 5)
    assert marks().row_of(finding(first)) == RowOf("", 4)


def test_a_row_is_in_doubt_until_a_line_has_it() -> None:
    assert [row for row, _ in marks().doubts] == [RowOf("", 6), RowOf("", 7)]
    says = dict(marks().doubts)
    assert says[RowOf("", 6)] == ('"Tarn 5", count "2": which part it is, is not sure. Nearest: 2 x "Tarn 7"')
    assert says[RowOf("", 7)] == '"blue thing": no part has a name like it.'


def test_a_finding_elsewhere_is_placed_by_what_else_it_speaks_of_else_by_the_part_it_names() -> None:
    found = marks()
    order = line_of('  2 x "Tarn 7"  # "Cam, A" row 5, 95: "Tarn seven"')
    assert found.row_of(finding(1, see=[Where(found.path, order, 1, order, 2)])) == RowOf("Cam, A", 5)
    rig = line_of('  monitor   "Tarn 7"')
    assert found.row_of(finding(rig, 13, 21)) == RowOf("Cam, A", 5)
    assert found.row_of(finding(rig)) is None
    assert found.row_of(finding(1)) is None
    assert found.row_of(finding(order, path="stock.kitlist")) is None
