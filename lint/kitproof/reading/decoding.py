"""Bytes to text: UTF-8, else the code page that office programs write, with a slip that says so."""

from __future__ import annotations

import codecs

from kitproof.reading.characters import split_lines
from kitproof.reading.document import Slip

_WIDE = {codecs.BOM_UTF16_LE: "utf-16-le", codecs.BOM_UTF16_BE: "utf-16-be"}
_WANTED = "text saved as UTF-8"


def decode(data: bytes) -> tuple[str, Slip | None, int]:
    """The text, and where it was not UTF-8 a slip and the line (from 1) of the first byte that was not; else 0.

    A byte-order mark is left out. A line that is not UTF-8 is read as cp1252, and hides nothing of the others; all is
    read as UTF-16 where a mark says so. A byte that neither has stands as the replacement character.
    """
    for mark, name in _WIDE.items():
        if data.startswith(mark):
            return data[len(mark) :].decode(name, errors="replace"), Slip("not-utf-8", 0, 0, 1, "UTF-16", _WANTED), 1
    data = data.removeprefix(codecs.BOM_UTF8)
    try:
        return data.decode("utf-8"), None, 0
    except UnicodeDecodeError:
        texts = [_line(each) for each in data.splitlines(keepends=True)]
        first, start = next((number, start) for number, (_, start) in enumerate(texts) if start is not None)
        text = "".join(each for each, _ in texts)
        before = len("".join(each for each, _ in texts[:first])) + start
        lines, _ = split_lines(text[:before])
        column = len(lines[-1])
        return text, Slip("not-utf-8", 0, column, column + 1, text[before], _WANTED), len(lines)


def _line(data: bytes) -> tuple[str, int | None]:
    """A line as text, and where its first byte stands that is no UTF-8."""
    try:
        return data.decode("utf-8"), None
    except UnicodeDecodeError as trouble:
        return data.decode("cp1252", errors="replace"), trouble.start
