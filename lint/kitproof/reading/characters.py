"""Lines and characters: splitting a text, finding its quoted names and comments, and what mail programs changed.

Nothing here moves a column: a line made plain has as many characters as the line that was typed.
"""

from __future__ import annotations

import re

from msgspec import Struct

LONGEST_LINE = 10_000

_LINE = re.compile(r"([^\r\n]*)(\r\n|\n|\r|\Z)")
_FORBIDDEN = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x9f\u2028\u2029\u202a-\u202e\u2066-\u2069\ud800-\udfff]")
_ALIKE = str.maketrans(
    {
        "×": "x",
        "✕": "x",
        "–": "-",
        "—": "-",
        "−": "-",
        "‐": "-",
        "‑": "-",
        "⋅": "·",
        "∙": "·",
        "º": "°",
        "˚": "°",
        "μ": "µ",
        "″": '"',
        "“": '"',
        "”": '"',
        "„": '"',
        "′": "'",
        "‘": "'",
        "’": "'",
        **dict.fromkeys((*"\t\u00a0\u1680\u202f\u205f\u3000", *map(chr, range(0x2000, 0x200B))), " "),
    }
)
_MARK = re.compile("[#\"“”„'‘]")


def split_lines(text: str) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The lines without their ends, and the ends (newline, carriage return, both, and "" for the last line).

    Only these end a line, so that no other character is taken for one; joined again they are the text.
    """
    if "\r" not in text:
        plain_lines = tuple(text.split("\n"))
        return plain_lines, (*("\n",) * (len(plain_lines) - 1), "")
    lines: list[str] = []
    ends: list[str] = []
    for match in _LINE.finditer(text):
        lines.append(match[1])
        ends.append(match[2])
        if not match[2]:
            break
    return tuple(lines), tuple(ends)


class PlainLine(Struct, frozen=True):
    """A line made plain: names blotted out as `"___"`, the comment cut off, look-alike characters made alike.

    `typed` is the whole line as it was; `text` ends after the last word. `start` is the column of the first word,
    `forbidden` that of a character that must not stand in a line (None where there is none).
    """

    typed: str
    text: str
    start: int
    forbidden: int | None = None

    @property
    def end(self) -> int:
        return len(self.text)

    @property
    def empty(self) -> bool:
        return self.start >= len(self.text)


def plain(line: str) -> PlainLine:
    """The line made plain, column for column."""
    pieces: list[str] = []
    at = 0
    closers = _Closers(line)
    while (found := _MARK.search(line, at)) is not None:
        start = found.start()
        pieces.append(line[at:start])
        at = start
        if line[at] == "#":
            break
        close = closers.after(at)
        pieces.append(line[at] if close is None else '"' + "_" * (close - at - 1) + '"')
        at = (at if close is None else close) + 1
    else:
        pieces.append(line[at:])
        at = len(line)
    text = "".join(pieces).translate(_ALIKE).rstrip()
    forbidden = _FORBIDDEN.search(line, 0, at)
    return PlainLine(line, text, len(text) - len(text.lstrip()), forbidden.start() if forbidden else None)


class _Closers:
    """Finds the closing quote for an opening one, looking at no stretch of the line twice in vain."""

    def __init__(self, line: str) -> None:
        self.line = line
        self.none_left: set[str] = set()

    def after(self, at: int) -> int | None:
        """The column of the quote that closes the one at `at`; None for an inch mark, an apostrophe, an open quote."""
        line, mark = self.line, self.line[at]
        if at and mark in '"”' and line[at - 1].isdigit():
            return None
        if at and mark == "'" and line[at - 1].isalnum():
            return None
        if mark in "'‘":
            return self._single(at)
        return self._curly(at) if mark in "“„" else self._first('"', at) or self._first("”", at)

    def _curly(self, at: int) -> int | None:
        close = self._first("”", at)
        if close is not None and (again := self._first("“", at)) is not None and again < close:
            close = self._first('"', at) or close
        return close or self._first('"', at) or (self._first("“", at) if self.line[at] == "„" else None)

    def _single(self, at: int) -> int | None:
        """The next single quote with no letter after it, so that an apostrophe does not close a name."""
        if "'" in self.none_left:
            return None
        for place in range(at + 1, len(self.line)):
            if self.line[place] in "'’" and not self.line[place + 1 : place + 2].isalnum():
                return place
        self.none_left.add("'")
        return None

    def _first(self, mark: str, at: int) -> int | None:
        if mark in self.none_left:
            return None
        place = self.line.find(mark, at + 1)
        if place < 0:
            self.none_left.add(mark)
            return None
        return place


def fold(text: str) -> str:
    """Words as they are compared: one space between them, small letters."""
    return " ".join(text.split()).casefold()
