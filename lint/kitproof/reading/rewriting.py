"""The same text with some stretches replaced, and nothing else."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import accumulate, pairwise

from kitproof.reading.characters import split_lines
from kitproof.reading.document import Document, Where


def rewritten(document: Document, changes: Iterable[tuple[Where, str]]) -> str:
    """The document's text with each stretch replaced; line ends, comments and spaces stay as they are.

    Raises ValueError where a stretch lies outside the text or two of them overlap. Two insertions at one place are
    made in the order given.
    """
    lines, ends = split_lines(document.text)
    offsets = [0, *accumulate(len(line) + len(end) for line, end in zip(lines, ends, strict=True))]
    spans = sorted(((*_stretch(where, lines, offsets), text) for where, text in changes), key=lambda span: span[:2])
    for one, other in pairwise(spans):
        if other[0] < one[1]:
            raise ValueError("Two changes want to replace the same words: make them one after the other.")
    pieces: list[str] = []
    done = 0
    for start, end, text in spans:
        pieces += (document.text[done:start], text)
        done = end
    return "".join((*pieces, document.text[done:]))


def _stretch(where: Where, lines: tuple[str, ...], offsets: list[int]) -> tuple[int, int]:
    """Where the stretch begins and ends, in characters from the start of the text."""
    start = _offset(where.line, where.column, lines, offsets)
    end = _offset(where.to_line, where.to_column, lines, offsets)
    if end < start:
        raise ValueError("A change ends before it begins.")
    return start, end


def _offset(line: int, column: int, lines: tuple[str, ...], offsets: list[int]) -> int:
    if not 1 <= line <= len(lines) or not 1 <= column <= len(lines[line - 1]) + 1:
        raise ValueError(f"Line {line}, column {column} is outside the text.")
    return offsets[line - 1] + column - 1
