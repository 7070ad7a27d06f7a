"""What one list promises of a house's stock, as data that can be passed to the proof of another list."""

from __future__ import annotations

from datetime import date

from msgspec import Struct

from kitproof.reading.document import Where


class Promise(Struct, frozen=True):
    """So many of one part, from a first day to a last, both included; both None where the days are not known.

    `have` is how many the list's parts book says there are. A `name` of "" is a line that could not be read: it may
    promise anything of its `kind`, or of any kind where that is "" too; `missing` names it.
    """

    name: str
    kind: str
    first: date | None
    last: date | None
    low: float
    high: float
    where: Where
    have: int | None = None
    missing: tuple[str, ...] = ()


class Promised(Struct, frozen=True):
    """All that one list promises. `where` is the place of its name."""

    path: str
    title: str
    issue: int | None
    where: Where
    promises: tuple[Promise, ...] = ()

    @property
    def label(self) -> str:
        """What other lists call it: its name, else its file."""
        return f'list "{self.title}"' if self.title else self.path
