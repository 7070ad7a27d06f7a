"""What an inventory says, for people: every reading with its column, and what became of it in the book."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from kitproof.sheets.booking import Booked, Entered
from kitproof.sheets.inventory import Inventory, Stocked
from kitproof.sheets.readings import NotTaken
from kitproof.showing.text import Line, Piece, wrapped

VALUES, COLUMNS = 18, 42
"""Where values stand and where columns are named, in characters; what is longer has two spaces after it."""


def inventory_lines(found: Inventory, booked: Booked, sheet: str, book: str) -> list[Line]:
    """All that a sheet says and what becomes of it in a book; `book` is "" where none is named."""
    lines: list[Line] = [(Piece(each, "title"),) for each in wrapped(_heading(booked, sheet, book))]
    for part, entered in booked.parts:
        lines += [(), (Piece(_part(part, part.name in booked.new), "title"),)]
        lines += [(Piece(each),) for one in entered for each in _reading(one)]
    lines += _not_taken(found.not_taken)
    lines += [(), *((Piece(each),) for one in found.said for each in wrapped(one, "  "))] if found.said else []
    return lines


def _heading(booked: Booked, sheet: str, book: str) -> str:
    counts = (
        (booked.number("added"), "to be added"),
        (booked.number("changed"), "to take the place of what the book says"),
        (booked.number("agrees"), "that the book has already"),
        (booked.number("kept"), "that the book contradicts, which stays"),
    )
    readings = ", ".join(f"{number} {words}" for number, words in counts if number) or "no readings"
    of = f' for "{book}"' if book else ""
    return f"{sheet}{of}: {_many(len(booked.parts), 'part')}, {len(booked.new)} of them new; {readings}."


def _many(number: int, word: str) -> str:
    return f"{number} {word}" if number == 1 else f"{number} {word}s"


def _part(part: Stocked, new: bool) -> str:
    rows = f"{', '.join(part.rows)}; {part.kind} by {part.kind_by}"
    return f"{part.label} ({rows}){', new' if new else ''}"


def _reading(entered: Entered) -> Iterator[str]:
    """One reading: its field, its value, its column, and what the book says where that is something else."""
    reading = entered.reading
    yield _set_out(f"  {reading.word}", reading.value, reading.column)
    says = {
        "changed": f"instead of {entered.was}",
        "kept": f"not taken: the book says {entered.was}, and --overwrite would change it",
        "agrees": "as in the book" if entered.was == reading.value else f"as in the book: {entered.was}",
    }.get(entered.state)
    if says:
        yield f"{'':{VALUES}}{says}"


def _set_out(word: str, value: str, column: str) -> str:
    text = f"{word:<{VALUES}}" if len(word) < VALUES else f"{word}  "
    text += value
    return (f"{text:<{COLUMNS}}" if len(text) < COLUMNS else f"{text}  ") + column


def _not_taken(not_taken: Sequence[NotTaken]) -> Iterator[Line]:
    if not not_taken:
        return
    yield ()
    yield (Piece("Not taken:", "title"),)
    for each in not_taken:
        part = f' of "{each.part}"' if each.part and each.column else f' "{each.part}"' if each.part else ""
        column = f", {each.column}" if each.column else ""
        typed = f": {_typed(each)}" if each.column else ""
        for line in wrapped(f"  {each.row}{part}{column}{typed}: {each.why}.", "    "):
            yield (Piece(line),)


def _typed(each: NotTaken) -> str:
    return f'"{each.typed}"'
