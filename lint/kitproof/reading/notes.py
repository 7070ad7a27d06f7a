"""The slips of one line, gathered while it is read."""

from __future__ import annotations

from kitproof.reading.characters import PlainLine
from kitproof.reading.document import Name, Slip
from kitproof.reading.drafts import Word


class Notes:
    """Lives as long as one line is read: the line, the field word it begins with, and what could not be read of it."""

    def __init__(self, line: PlainLine, field: str = "", value_start: int = 0) -> None:
        self.line = line
        self.field = field
        self.value_start = value_start
        self.slips: list[Slip] = []

    def add(
        self,
        kind: str,
        start: int,
        end: int,
        wanted: str = "",
        nearest: tuple[str, ...] = (),
        repair: str | None = None,
    ) -> None:
        """Notes a slip at columns `start` to `end`."""
        said = self.line.typed[start:end]
        self.slips.append(Slip(kind, 0, start, end, said, wanted, nearest, repair, self.field))

    def name(self, word: Word) -> Name:
        """The name that a quoted stretch holds, with its characters as typed."""
        return Name(self.line.typed[word.start + 1 : word.end - 1], word.start, word.end)
