"""What became of each row of a sheet: written as a line, in doubt, a heading … None is left out."""

from __future__ import annotations

from typing import Literal

from msgspec import Struct

from kitproof.sheets.days import Days

Became = Literal["line", "doubt", "not wanted", "section", "heading", "beside", "empty"]
"""`beside`: what stands above the headings, notes on a row of their own, and sheets that list nothing."""


class Line(Struct, frozen=True):
    """One line of an order that is sure: the part and how many of it, of which `spare` are spares; its rig, if any.

    `score` says how alike the name written in the sheet and the part's are, of 100; `typed` is the former.
    """

    part: str
    kind: str
    count: int
    spare: int
    score: int
    typed: str
    rig: str = ""


class Choice(Struct, frozen=True):
    """A line that may be meant in place of one in doubt, and how alike its name is; 0 where the count is not known."""

    part: str
    count: int
    score: int


class Group(Struct, frozen=True):
    """What lines of one order share: the section they stand in, whom they are from, their days."""

    section: str = ""
    supplier: str = ""
    days: Days | None = None


class Told(Struct, frozen=True):
    """One row, and what became of it. `says` is what there is to say of it besides: a doubt, notes, other columns."""

    tab: str
    row: int
    became: Became
    says: tuple[str, ...] = ()
    line: Line | None = None
    group: Group = Group()
    choices: tuple[Choice, ...] = ()

    @property
    def label(self) -> str:
        """The row as people speak of it; with the sheet's name where there are several."""
        return f'"{self.tab}" row {self.row}' if self.tab else f"row {self.row}"


class Taken(Struct, frozen=True):
    """A whole file: what became of each row, in order; its title and its days, which columns hold what (`said`), and
    what to look at in how it was read (`warnings`)."""

    rows: tuple[Told, ...]
    title: str = ""
    days: Days | None = None
    said: tuple[str, ...] = ()
    warnings: tuple[str, ...] = ()

    def number(self, became: Became) -> int:
        return sum(each.became == became for each in self.rows)
