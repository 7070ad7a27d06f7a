"""The sender's sheet, ready to mail back: a copy with what was found beside its rows."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from kitproof.desk import Desk
    from kitproof.model.kitlist import KitList
    from kitproof.sheets.cells import Workbook

SEND_BACK_AT = "wrong"


def send_back(
    sheet: Path,
    workbook: Workbook,
    columns: Mapping[str, str],
    kitlist: KitList,
    desk: Desk,
    day: date,
    output: str | None,
) -> tuple[list[str], bool]:
    """Writes a copy of a sheet with the findings of the list that was made from it. What to tell of it, and whether
    the list has nothing to send back.

    Raises SheetError for a sheet that no copy can be made of.
    """
    from kitproof.proofing.findings import together
    from kitproof.proofing.proof import proof
    from kitproof.sheets.cells import SheetError
    from kitproof.sheets.columns import layouts
    from kitproof.sheets.delimited import records
    from kitproof.sheets.row_marks import marked
    from kitproof.sheets.workbook import is_workbook
    from kitproof.showing.output import write_bytes
    from kitproof.showing.remarks import remarks, summary
    from kitproof.showing.returned import csv_returned, workbook_returned

    if output is None:
        raise SheetError("say where the copy goes: -o FILE")
    if Path(output).exists() and Path(output).samefile(sheet):
        raise SheetError("the sender's own sheet is never written over. Name another file with -o.")
    found = together([proof(kitlist, desk.book(kitlist), day)])
    marks = marked(kitlist)
    said = remarks(found, marks)
    above = summary(found, kitlist.heading, said)
    several = len(workbook.sheets) > 1
    headings = {
        each.sheet.name if several else "": min(each.headings, default=0) for each in layouts(workbook, columns)
    }
    data = sheet.read_bytes()
    if is_workbook(data):
        macros = Path(output).suffix.casefold() == ".xlsm"
        copy, told = workbook_returned(data, headings, said, above, macros=macros)
    else:
        copy, told = csv_returned(records(data), headings.get("", 0), said, above), []
    write_bytes(copy, output)
    rows = len({each.row for each in said if each.row is not None})
    beside = sum(each.row is not None for each in said)
    told = [f'"{output}": {beside} remarks beside {rows} rows, {len(said) - beside} to no row, at its end.', *told]
    return told, not found.sends_back(SEND_BACK_AT) and not marks.doubts
