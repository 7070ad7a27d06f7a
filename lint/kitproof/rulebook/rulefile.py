"""A rule file's lines: one word a line, then its value; a line that starts with a space continues the one above."""

from __future__ import annotations

import re

from msgspec import Struct

from kitproof.rulebook.errors import RuleError

QUOTES = {'"': '"', "“": "”", "'": "'"}


class Piece(Struct, frozen=True):
    """A stretch of a value that stands on one line: where it starts in the value, and in the file (both from 1)."""

    offset: int
    line: int
    column: int


class Value(Struct, frozen=True):
    """Some text of a rule file, and where each of its characters stands. Continued lines are joined by a space."""

    path: str
    text: str
    pieces: tuple[Piece, ...]

    def cut(self, start: int, end: int) -> Value:
        """The part of it from `start` to just before `end`."""
        piece = self._piece(start)
        first = Piece(0, piece.line, piece.column + start - piece.offset)
        rest = tuple(Piece(p.offset - start, p.line, p.column) for p in self.pieces if start < p.offset < end)
        return Value(self.path, self.text[start:end], (first, *rest))

    def error(self, says: str, start: int = 0, end: int | None = None) -> RuleError:
        """A mistake at the characters from `start` to just before `end`, on the line where they start."""
        piece = self._piece(start)
        column = piece.column + start - piece.offset
        stop = len(self.text) if end is None else end
        for after in self.pieces:
            if start < after.offset < stop:
                stop = after.offset - 1
                break
        return RuleError(self.path, piece.line, column, column + max(stop - start, 1), says)

    def stripped(self) -> Value:
        """Itself without spaces at its ends."""
        start = len(self.text) - len(self.text.lstrip())
        return self.cut(start, max(start, len(self.text.rstrip())))

    def _piece(self, offset: int) -> Piece:
        return [piece for piece in self.pieces if piece.offset <= max(offset, 0)][-1]


class Line(Struct, frozen=True):
    """One word of a rule and its value."""

    word: Value
    value: Value


def lines_of(path: str, text: str) -> tuple[list[Line], list[RuleError]]:
    """A file's words in the order written, and the lines that belong to no word."""
    found: list[tuple[Value, list[tuple[str, int, int]]]] = []
    errors: list[RuleError] = []
    for number, raw in enumerate(text.removeprefix("\ufeff").splitlines(), start=1):
        written = _without_comment(raw).rstrip()
        if not written:
            continue
        indent = len(written) - len(written.lstrip())
        if indent:
            if found:
                found[-1][1].append((written.lstrip(), number, indent + 1))
            else:
                whole = Value(path, written.strip(), (Piece(0, number, indent + 1),))
                errors.append(whole.error("this line continues a word, and no word stands above it"))
            continue
        match = re.match(r"\S+\s*", written)
        taken = match.end() if match else 0
        word = Value(path, written[:taken].rstrip(), (Piece(0, number, 1),))
        found.append((word, [(written[taken:], number, taken + 1)]))
    return [Line(word, _joined(path, pieces)) for word, pieces in found], errors


def _joined(path: str, written: list[tuple[str, int, int]]) -> Value:
    text, pieces = "", []
    for each, line, column in [piece for piece in written if piece[0]] or written[:1]:
        if text:
            text += " "
        pieces.append(Piece(len(text), line, column))
        text += each
    return Value(path, text, tuple(pieces))


def _without_comment(line: str) -> str:
    """A line without what follows a # that stands outside quotes, at the start or after a space."""
    closing = ""
    for at, letter in enumerate(line):
        if closing:
            closing = "" if letter == closing else closing
        elif letter in QUOTES:
            closing = QUOTES[letter]
        elif letter == "#" and (at == 0 or line[at - 1].isspace()):
            return line[:at]
    return line


def quoted(value: Value) -> Value | RuleError:
    """What stands between the quotes of a value that is one text in quotes; quotes inside it are kept."""
    text = value.text
    if not text:
        return value.error("a text in quotes is wanted here")
    if text[0] not in QUOTES:
        return value.error(f'put the text in quotes: "{text}"')
    if len(text) < 2 or text[-1] != QUOTES[text[0]]:
        return value.error("the quote that opens here is not closed at the end", 0, 1)
    if not text[1:-1].strip():
        return value.error("there is nothing between these quotes")
    return value.cut(1, len(text) - 1)
