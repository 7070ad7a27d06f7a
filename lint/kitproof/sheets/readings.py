"""One row of an inventory: what its cells come to as fields of a part, each held to the reading of lists."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct
from msgspec.structs import replace

from kitproof.reading.document import Slip
from kitproof.reading.fields import read_line
from kitproof.sheets.cells import EMPTY, Cell, Row
from kitproof.sheets.figures import NOT_KNOWN, joined_sides, span_of, value_of, with_height, with_steps
from kitproof.sheets.headings import Column, Headings
from kitproof.sheets.part_columns import AT_HEIGHT, FIELDS, LEGS, LEGS_ENDS, SIDES, SIZE, PartRole
from kitproof.words.dimensions import ANGLE
from kitproof.words.kinds import fields_of
from kitproof.words.phrases import with_article
from kitproof.words.shapes import Shape

SAID_NOT_KNOWN = ("?", "??", "tbc", "tba", "unknown", "not known")
_GOES_WITH = {"rated": "a load", "counterbalance": "a counterbalance"}
_BOWL_OF = {"head": "sits on", "sticks": "takes"}
"""What says a bowl's size of each kind; for any other it is not sure whether it stands in it or has it."""


class Reading(Struct, frozen=True):
    """What a sheet says of one field of a part: its word, its value as a parts book has it, and where it is from."""

    word: str
    value: str
    column: str
    row: str


class NotTaken(Struct, frozen=True):
    """What a sheet says and is not taken: the row, the part ("" where none is named), the column, and why."""

    row: str
    part: str
    column: str
    typed: str
    why: str


class _Said(Struct, frozen=True):
    """A field's value as it would be written, and the cells that it is from."""

    word: str
    value: str
    column: str
    typed: str


def readings_of(kind: str, name: str, where: str, headings: Headings, row: Row) -> tuple[list[Reading], list[NotTaken]]:
    """What a row says of a part, and what of that is not taken."""
    taken: list[Reading] = []
    left: list[NotTaken] = []
    for said in _said(kind, headings, row):
        why = _problem(kind, said)
        if why:
            left.append(NotTaken(where, name, said.column, said.typed, why))
        else:
            taken.append(Reading(said.word, said.value, said.column, where))
    return taken, left


def _said(kind: str, headings: Headings, row: Row) -> Iterator[_Said]:
    """The fields that a row fills, in the order in which they are written."""
    sides = [(each, *_at(headings, row, each.role.name)) for each in SIDES]
    whole = all(column is not None and not _blank(cell) for _, column, cell in sides)
    for wanted in FIELDS:
        column, cell = _at(headings, row, wanted.role.name)
        if wanted.word == SIZE and whole and (column is None or _blank(cell)):
            yield _joined(sides)
        if column is None or _blank(cell):
            yield from _without_it(wanted, headings, row)
        else:
            yield _of_cell(kind, wanted, headings, row, column, cell)
    if not whole:
        for wanted, column, cell in sides:
            if column is not None and not _blank(cell):
                yield _Said(wanted.word, value_of(wanted, cell, column.heading), column.label, cell.words)


def _of_cell(kind: str, wanted: PartRole, headings: Headings, row: Row, column: Column, cell: Cell) -> _Said:
    """What one cell says, with the cell beside it that goes with it: a load's height, a counterbalance's steps."""
    fields = fields_of("part", kind)
    word = _BOWL_OF.get(kind, wanted.word) if wanted.shape is Shape.INTERFACE else wanted.word
    shape = fields[word].shape if word in fields and wanted.shape is not Shape.INTERFACE else wanted.shape
    value, label, typed = value_of(replace(wanted, shape=shape), cell, column.heading), column.label, cell.words
    beside, other = _at(headings, row, wanted.at) if wanted.at else (None, EMPTY)
    if beside is not None and not _blank(other):
        joined = with_height if wanted.at == AT_HEIGHT.name else with_steps
        value, label = joined(value, other, beside.heading), f"{label}, and {beside.label}"
        typed = f"{typed}, {other.words}"
    return _Said(word, value, label, typed)


def _without_it(wanted: PartRole, headings: Headings, row: Row) -> Iterator[_Said]:
    """What stands for a field of which the cell is empty: the two ends of a range, or what should go with it."""
    if wanted.word == LEGS:
        ends = [_at(headings, row, each.name) for each in LEGS_ENDS]
        if any(column is not None and not _blank(cell) for column, cell in ends):
            cells = [(cell, column.heading) if column else (EMPTY, "") for column, cell in ends]
            label = " and ".join(column.label for column, _ in ends if column)
            yield _Said(LEGS, span_of(cells), label, ", ".join(cell.words for cell, _ in cells))
    elif wanted.at:
        column, cell = _at(headings, row, wanted.at)
        if column is not None and not _blank(cell):
            yield _Said(wanted.word, "", column.label, cell.words)


def _joined(sides: list[tuple[PartRole, Column | None, Cell]]) -> _Said:
    columns = [(cell, column.heading, column.label) for _, column, cell in sides if column]
    value = joined_sides([(cell, heading) for cell, heading, _ in columns])
    return _Said(SIZE, value, ", ".join(label for *_, label in columns), " x ".join(cell.words for cell, *_ in columns))


def _at(headings: Headings, row: Row, role: str) -> tuple[Column | None, Cell]:
    column = headings.columns.get(role)
    return (None, EMPTY) if column is None else (column, row.at(column.at))


def _blank(cell: Cell) -> bool:
    """Whether a cell gives no figure and says no more: `tbc` is said to be not known, an empty one is not."""
    text = cell.words.casefold()
    return text in NOT_KNOWN and text not in SAID_NOT_KNOWN


def _problem(kind: str, said: _Said) -> str:
    """Why a reading is not taken; "" where it is."""
    typed = said.typed.casefold()
    if typed in SAID_NOT_KNOWN:
        return "it is not known"
    if typed.startswith("="):
        return "it is a formula, and formulas are never run"
    if not said.value:
        return f"it goes with {_GOES_WITH[said.word]}, and none is said"
    if said.word not in fields_of("part", kind):
        return f"{with_article(kind)} has no {said.word}"
    if _one_angle(kind, said):
        return "it should be a range, such as -75° to 90°"
    line = read_line("part", kind, f"  {said.word} {said.value}")
    if line.slips:
        return _in_words(line.slips[0], said)
    if line.field is None or line.field.value is None or line.field.word != said.word:
        return "it cannot be read"
    return ""


def _one_angle(kind: str, said: _Said) -> bool:
    field = fields_of("part", kind)[said.word]
    one = field.shape is Shape.REACH and field.dimension == ANGLE
    return one and " to " not in said.value and "±" not in said.value


def _in_words(slip: Slip, said: _Said) -> str:
    if slip.kind == "no-unit":
        return f"neither it nor its heading has a unit; it should be {slip.wanted}"
    return f"it should be {slip.wanted}" if slip.wanted else f"it cannot be read as {said.word}"
