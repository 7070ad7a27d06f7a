"""From the lines of a list made from a sheet back to the sheet's rows, by the marks that `writing` puts beside them."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence

from msgspec import Struct

from kitproof.model.kitlist import KitList
from kitproof.proofing.findings import Finding
from kitproof.reading.characters import plain
from kitproof.reading.document import Where

_LABEL = r'(?:"(?P<tab>.+?)" )?row (?P<row>\d+)'
_BESIDE = re.compile(rf"#\s*{_LABEL}, \d+\b")
_DOUBT = re.compile(rf"\s*#\s*{_LABEL}, in doubt: (?P<says>.*)")
_GOES_ON = re.compile(r"\s*# {2,}(?P<says>\S.*)")
_QUOTED = re.compile(r"\"([^\"]+)\"|'([^']+)'")


class RowOf(Struct, frozen=True):
    """A row of a sheet, by its number; `tab` names the sheet where the file has several."""

    tab: str
    row: int


class Marked(Struct, frozen=True):
    """A list's marks: the row of each marked line, the first row that has each part, and the rows still in doubt, each
    with what is in doubt."""

    path: str
    lines: Mapping[int, RowOf]
    parts: Mapping[str, RowOf]
    doubts: tuple[tuple[RowOf, str], ...]
    texts: tuple[str, ...]

    def row_of(self, finding: Finding) -> RowOf | None:
        """The row that a finding is about: that of its place, of a place to look at too, or of the part it names."""
        places = (finding.where, *finding.see)
        by_line = (self.lines[each.line] for each in places if each.path == self.path and each.line in self.lines)
        by_part = (row for each in places for name in self._named_at(each) if (row := self.parts.get(name)))
        return next(by_line, None) or next(by_part, None)

    def _named_at(self, where: Where) -> Iterator[str]:
        """The parts that a place in the list names."""
        if where.path == self.path and where.line == where.to_line and where.line <= len(self.texts):
            text = self.texts[where.line - 1][where.column - 1 : where.to_column - 1]
            yield from (double or single for double, single in _QUOTED.findall(text))


def marked(kitlist: KitList) -> Marked:
    """The marks of a list, as it is now: a line that was taken out of a doubt is in doubt no more."""
    document = kitlist.documents[0]
    lines: dict[int, RowOf] = {}
    for number, text in enumerate(document.lines, start=1):
        end = plain(text).end
        found = _BESIDE.search(text, end) if text[:end].strip() else None
        if found:
            lines[number] = _row(found)
    parts: dict[str, RowOf] = {}
    for order in kitlist.orders:
        for each in order.lines:
            if each.where.path == document.path and each.where.line in lines:
                parts.setdefault(each.part.name, lines[each.where.line])
    settled = set(lines.values())
    doubts = tuple((row, says) for row, says in _doubts(document.lines) if row not in settled)
    return Marked(document.path, lines, parts, doubts, document.lines)


def _row(found: re.Match[str]) -> RowOf:
    return RowOf(found["tab"] or "", int(found["row"]))


def _doubts(lines: Sequence[str]) -> Iterator[tuple[RowOf, str]]:
    """The rows in doubt: each with its comment, which may go on over several lines, and the lines to choose from."""
    for at, text in enumerate(lines):
        found = _DOUBT.fullmatch(text)
        if found:
            says = [found["says"]]
            for further in lines[at + 1 :]:
                more = _GOES_ON.fullmatch(further)
                if more is None:
                    break
                choice = _BESIDE.search(more["says"])
                says.append(more["says"] if choice is None else f"{more['says'][: choice.start()].strip()};")
            yield _row(found), " ".join(says).rstrip(";")
