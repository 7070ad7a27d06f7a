"""What became of a sheet as the text of a list, in the canonical layout: sure lines, and the rest as comments.

Text that comes from cells stands in comments only, or in quotes with no quote left in it: it never becomes a word of
the format.
"""

from __future__ import annotations

import hashlib
import re
import textwrap
from collections.abc import Iterable, Iterator, Mapping, Sequence

from msgspec import Struct
from msgspec.structs import replace

from kitproof.mending.edits import quoted
from kitproof.mending.layout import INDENT, beside
from kitproof.sheets.days import Days
from kitproof.sheets.plain_text import for_quotes, on_one_line
from kitproof.sheets.rigs import Proposed, proposed
from kitproof.sheets.told import Group, Line, Taken, Told

WIDTH = 80
"""Comments are broken so that no line of them is longer; a line of an order keeps its row beside it."""
LONGEST_TITLE = 200
MOST_NAMED = 12
"""So many rows in doubt are named where a list has been made."""

_BARE = re.compile(r"[A-Z]|\d{1,2}")
_MARK = re.compile(r'# Made from the sheet ".*" by kitproof from-sheet\. Mark ([0-9a-f]{12})\.\n')


def in_quotes(text: str) -> str:
    """Text of a cell as a name in quotes."""
    return f'"{for_quotes(text)[:LONGEST_TITLE].strip()}"'


class Named(Struct, frozen=True):
    """What a list is made of besides its rows: the name of the sheet's file, what the list is called where the sheet
    says nothing, and the paths by which it uses the parts books."""

    sheet: str
    title: str
    books: tuple[str, ...]


def written(taken: Taken, named: Named) -> str:
    """The text of the list. It is the same for the same sheet and the same parts books."""
    rigs = proposed(taken.rows)
    shared = taken.days or _shared_days(taken)
    days = f"{INDENT}{beside('dates', _span(shared))}" if shared else ""
    blocks = [
        [line for says in _opening(taken) for line in _comment(says, "")],
        [f"list {in_quotes(taken.title or named.title)}", *([days] if days else [])],
        *([f"use {quoted(book)}"] for book in named.books),
        *_orders(taken.rows, rigs, shared),
        *(_rig(rig, shared) for rig in rigs.values()),
    ]
    body = "\n\n".join("\n".join(block) for block in blocks if block) + "\n"
    return f'# Made from the sheet "{on_one_line(named.sheet)}" by kitproof from-sheet. Mark {mark_of(body)}.\n{body}'


def mark_of(body: str) -> str:
    """What tells whether a list is still as it was made: the same for the same text, whatever its line ends."""
    return hashlib.sha256(body.replace("\r\n", "\n").encode()).hexdigest()[:12]


class Made(Struct, frozen=True):
    """The mark of a list made from a sheet, and whether it is still as it was made."""

    mark: str
    untouched: bool


def made_from_a_sheet(text: str) -> Made | None:
    """What the first line of a list says of how it was made; None for any text that was not made from a sheet."""
    lines = text.replace("\r\n", "\n")
    found = _MARK.match(lines)
    return None if found is None else Made(found[1], mark_of(lines[found.end() :]) == found[1])


def _opening(taken: Taken) -> Iterator[str]:
    yield tally(taken)
    yield (
        "Beside each line stand its row and how alike the names are, of 100. A row in doubt is a comment: "
        "below it stand lines to choose from; take the # away before the one that is meant."
    )
    yield from taken.said
    yield from taken.warnings


def tally(taken: Taken) -> str:
    """How many rows there are, and what became of them."""
    parts = (
        (taken.number("line"), "written"),
        (taken.number("doubt"), "in doubt"),
        (taken.number("not wanted"), "not wanted"),
        (headings := taken.number("heading") + taken.number("section"), "heading" if headings == 1 else "headings"),
        (taken.number("beside"), "beside the list"),
        (taken.number("empty"), "empty"),
    )
    rows = len(taken.rows)
    said = ", ".join(f"{number} {words}" for number, words in parts if number)
    return f"{rows} {'row' if rows == 1 else 'rows'}: {said}."


def in_doubt(taken: Taken) -> list[str]:
    """Which rows are in doubt, as a sentence; nothing where none is."""
    rows = [told.label for told in taken.rows if told.became == "doubt"]
    if not rows:
        return []
    more = f" and {len(rows) - MOST_NAMED} more" if len(rows) > MOST_NAMED else ""
    return [f"In doubt, each with its reason in the list: {', '.join(rows[:MOST_NAMED])}{more}."]


def _shared_days(taken: Taken) -> Days | None:
    """The days that all lines have; None where they differ or one has none."""
    spans = {told.group.days for told in taken.rows if told.line is not None}
    return spans.pop() if len(spans) == 1 else None


def _span(days: Days) -> str:
    first, last = days
    return f"{first}" if first == last else f"{first} to {last}"


def _orders(rows: Iterable[Told], rigs: Mapping[str, Proposed], shared: Days | None) -> Iterator[list[str]]:
    """The orders, each with the comments above and in it; what stands in none, as comments alone."""
    block: list[str] = []
    group: Group | None = None
    tab = section = ""
    for told in rows:
        if told.became == "empty":
            continue
        if told.tab != tab or (told.became in ("section", "heading") and group is not None):
            yield block
            block, group = [], None
            section, tab = (section, tab) if told.tab == tab else ("", told.tab)
        if told.line is None:
            section = told.says[0] if told.became == "section" else section
            block += _row(told, "" if group is None else INDENT)
            continue
        mine = replace(told.group, days=None) if told.group.days == shared else told.group
        if group != mine:
            if group is not None:
                yield block
                block = []
            group = mine
            if section != mine.section:
                section = mine.section
                block += _comment(f'section "{section}"' if section else "no section", "")
            block += _order(mine)
        block += _line(told, told.line, rigs)
    yield block


def _order(group: Group) -> Iterator[str]:
    """The first lines of an order. Without a word of whom it is from it has no name: its section is no supplier."""
    supplier = on_one_line(group.supplier)
    section = on_one_line(group.section).rstrip(": ")
    name = f"{section}, from {supplier}" if section else f"From {supplier}"
    yield f"order {in_quotes(name)}" if supplier else "order"
    if group.days:
        yield f"{INDENT}{beside('dates', _span(group.days))}"


def _line(told: Told, line: Line, rigs: Mapping[str, Proposed]) -> list[str]:
    """A line of an order with its row beside it, and below it what is too long to stand there."""
    rig = rigs.get(line.rig.casefold())
    text = f"{INDENT}{line.count} x {quoted(line.part)}"
    text += _for_rig(rig) if rig else ""
    text += f", spare {line.spare}" if line.spare else ""
    says = [
        *([f'"{line.typed}"'] if line.typed != line.part else []),
        *([f'rig "{line.rig}"'] if line.rig and not rig else []),
        *told.says,
    ]
    row = f"# {told.label}, {line.score}"
    whole = on_one_line(f"{row}: {'; '.join(says)}" if says else row)
    if len(text) + len(INDENT) + len(whole) <= WIDTH or not says:
        return [f"{text}{INDENT}{whole}"]
    return [f"{text}{INDENT}{row}", *_comment(f"{told.label}: {'; '.join(says)}", INDENT)]


_WORDS = {
    "doubt": ", in doubt: ",
    "not wanted": ", none wanted: ",
    "section": ", section ",
    "heading": ", headings",
    "beside": ": ",
}


def _row(told: Told, indent: str) -> Iterator[str]:
    """A row that is no line, as a comment; below a doubt, the lines that may be meant."""
    said = "; ".join(told.says)
    what = f'"{said}"' if told.became == "section" else said
    stop = ". Nearest:" if told.choices else "." if told.became == "doubt" else ""
    yield from _comment(f"{told.label}{_WORDS[told.became]}{what}{stop}", indent)
    for choice in told.choices:
        count = choice.count or "?"
        yield f"{indent}#   {count} x {quoted(choice.part)}  # {told.label}, {choice.score}"


def _rig(rig: Proposed, shared: Days | None) -> list[str]:
    """A proposed rig, and what of its rows was left out of it."""
    about = f"Proposed from {_rows(rig.rows)}, as the sheet groups them. It does not say the order of building up, "
    lines = [*_comment(f"{about}nor where things sit: look it over.", ""), f"rig {_rig_name(rig)}"]
    lines += [f"{INDENT}{beside(slot.word, slot.value)}" for slot in rig.slots]
    if rig.days and rig.days != shared:
        lines.append(f"{INDENT}{beside('dates', _span(rig.days))}")
    return [*lines, *(line for each in rig.left_out for line in _comment(f"left out: {each}", INDENT))]


def _rig_name(rig: Proposed) -> str:
    return rig.name if _BARE.fullmatch(rig.name) else in_quotes(rig.name)


def _for_rig(rig: Proposed) -> str:
    """The clause of an order's line; before a name in quotes it has no `rig`."""
    return f", for rig {rig.name}" if _BARE.fullmatch(rig.name) else f", for {in_quotes(rig.name)}"


def _rows(labels: Sequence[str]) -> str:
    """Some rows as people speak of them: row 7; rows 7 to 15."""
    if len(labels) == 1:
        return labels[0]
    tab, _, first = labels[0].rpartition("row ")
    other_tab, _, last = labels[-1].rpartition("row ")
    return f"{tab}rows {first} to {last}" if tab == other_tab else f"{labels[0]} to {labels[-1]}"


def _comment(text: str, indent: str) -> list[str]:
    """Text as comment lines, broken where it is long."""
    whole = f"{indent}# {on_one_line(text)}"
    if len(whole) <= WIDTH:
        return [whole]
    start = f"{indent}# "
    return textwrap.wrap(
        on_one_line(text), WIDTH, initial_indent=start, subsequent_indent=f"{start}  ", break_on_hyphens=False
    )
