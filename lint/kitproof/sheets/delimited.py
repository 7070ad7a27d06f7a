"""A CSV file, as any program writes it: bytes to rows. The encoding and what parts the cells are found out."""

from __future__ import annotations

import codecs
import csv
import re
from collections import Counter
from collections.abc import Iterable, Iterator

from msgspec import Struct

from kitproof.sheets.cells import EMPTY, Cell, Row, Sheet, SheetError, Workbook

MARKS = {
    codecs.BOM_UTF8: "utf-8",
    codecs.BOM_UTF16_LE: "utf-16-le",
    codecs.BOM_UTF16_BE: "utf-16-be",
}
DELIMITERS = {",": "a comma", ";": "a semicolon", "\t": "a tab", "|": "an upright stroke"}
LOOKED_AT = 200
"""So many rows are looked at to find out what parts the cells."""

_LINES = re.compile(r"[^\r\n]*(?:\r\n|\n|\r)|[^\r\n]+\Z")
_SAID_DELIMITER = re.compile(r"sep=([^\w\s]|\t)\s*\Z")
_OLD_LETTERS = (
    "It is not saved as UTF-8 and was read as cp1252, as older office programs write: look at accents and signs."
)
_LOOSE_QUOTES = "Some cells have quotes that do not enclose the whole of them: look at how they were read."


def read_delimited(data: bytes) -> Workbook:
    """The one sheet of a CSV file. Raises SheetError for what is no text, and for a quote that is never closed."""
    text, said = _decoded(data)
    if "\x00" in text:
        raise SheetError("It is neither a text of cells nor a workbook. Save it as CSV or XLSX, and try again.")
    lines = _LINES.findall(text)
    delimiter = _delimiter(lines)
    rows, loose = _rows(lines, delimiter)
    return Workbook((Sheet("", rows),), (*said, *([_LOOSE_QUOTES] if loose else [])))


class Record(Struct, frozen=True):
    """One row of a CSV file: its cells, and its text as it stands in the file, line end included."""

    cells: tuple[str, ...]
    text: str


class Records(Struct, frozen=True):
    """A CSV file row by row, and how it is written: its byte-order mark, encoding, delimiter and line end."""

    mark: bytes
    encoding: str
    delimiter: str
    end: str
    rows: tuple[Record, ...]

    def line(self, cells: Iterable[str]) -> str:
        """Cells as a row of the file."""
        return (
            self.delimiter.join(f'"{each.replace(chr(34), chr(34) * 2)}"' if each else "" for each in cells) + self.end
        )

    def with_more(self, row: Record, width: int, cells: Iterable[str]) -> str:
        """A row as it stands, filled up to a width, with more cells after it."""
        text = row.text.rstrip("\r\n")
        filled = self.delimiter * (width - max(1, len(row.cells)))
        return f"{text}{filled}{self.delimiter}{self.line(cells)}"

    def encoded(self, text: str) -> bytes:
        """Text as the file is written: its own letters as they were, one that it cannot have as a question mark."""
        own = text.encode(self.encoding, "replace") if self.encoding != "cp1252" else _old_letters(text)
        return self.mark + own


def _quoted(cell: str) -> str:
    doubled = cell.replace('"', '""')
    return f'"{doubled}"'


def _old_letters(text: str) -> bytes:
    """Text in the code page of office programs, with bytes that stand for nothing in it as they were."""
    return b"".join(
        each.encode("cp1252", "surrogateescape" if "\udc80" <= each <= "\udcff" else "replace") for each in text
    )


def records(data: bytes) -> Records:
    """A CSV file that can be read, with the text of each row."""
    mark = next((each for each in MARKS if data.startswith(each)), b"")
    encoding = MARKS.get(mark, "utf-8")
    try:
        text = data[len(mark) :].decode(encoding)
    except UnicodeDecodeError:
        encoding, mark = ("cp1252", b"") if not mark else (encoding, mark)
        text = data[len(mark) :].decode(encoding, "surrogateescape" if encoding == "cp1252" else "replace")
    lines = _LINES.findall(text)
    reader = csv.reader(lines, delimiter=(delimiter := _delimiter(lines)))
    rows: list[Record] = []
    done = 0
    for cells in reader:
        rows.append(Record(tuple(cells), "".join(lines[done : reader.line_num])))
        done = reader.line_num
    end = next((line[len(line.rstrip("\r\n")) :] for line in lines if line.endswith(("\r", "\n"))), "\n")
    return Records(mark, encoding, delimiter, end, tuple(rows))


def _decoded(data: bytes) -> tuple[str, tuple[str, ...]]:
    """The text: as a byte-order mark says, else UTF-8, else the code page of office programs, which is then said."""
    for mark, name in MARKS.items():
        if data.startswith(mark):
            return data[len(mark) :].decode(name, errors="replace"), ()
    try:
        return data.decode("utf-8"), ()
    except UnicodeDecodeError:
        return data.decode("cp1252", errors="replace"), (_OLD_LETTERS,)


def _delimiter(lines: list[str]) -> str:
    """What parts the cells: what the first line says (`sep=;`), else what gives most rows the same number of cells."""
    said = _SAID_DELIMITER.match(lines[0]) if lines else None
    return said[1] if said else max(DELIMITERS, key=lambda each: _evenness(lines[:LOOKED_AT], each))


def _evenness(lines: list[str], delimiter: str) -> tuple[int, int]:
    """How many rows have the commonest number of cells, more than one, and how many cells these are."""
    widths = Counter(len(cells) for cells in _loosely(lines, delimiter) if len(cells) > 1)
    width, rows = max(widths.items(), key=lambda each: (each[1], each[0]), default=(0, 0))
    return rows, width


def _loosely(lines: list[str], delimiter: str) -> Iterator[list[str]]:
    reader = csv.reader(lines, delimiter=delimiter)
    try:
        yield from reader
    except csv.Error:
        return


def _rows(lines: list[str], delimiter: str) -> tuple[tuple[Row, ...], bool]:
    """The rows, and whether some quotes do not enclose whole cells. Raises SheetError for one that is never closed."""
    try:
        found = list(csv.reader(lines, delimiter=delimiter, strict=True))
        loose = False
    except csv.Error:
        found, loose = _loose_rows(lines, delimiter), True
    rows = (
        Row(number, tuple(Cell(text) if (text := cell.strip()) else EMPTY for cell in cells))
        for number, cells in enumerate(found, start=1)
    )
    return tuple(rows), loose


def _loose_rows(lines: list[str], delimiter: str) -> list[list[str]]:
    """The cells of each row, whatever their quotes. One row more is put below: a quote never closed takes it in."""
    last = "\x00"  # no text of cells has it
    found: list[list[str]] = []
    open_at = 0
    try:
        for cells in csv.reader([*lines[:-1], f"{lines[-1]}\n", last], delimiter=delimiter):
            found.append(cells)
    except csv.Error:  # a cell of more than 131,072 characters
        open_at = len(found) + 1
    if not open_at and found[-1] != [last]:
        open_at = len(found)
    if open_at:
        raise SheetError(f"A quote is opened in row {open_at} and never closed. Close it or take it out.")
    return found[:-1]
