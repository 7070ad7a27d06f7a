"""A whole list: parts in reach, orders, rigs, moves, cases, waivers, and what could not be read."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from msgspec import Struct

from kitproof.model.parts import Part
from kitproof.model.quantities import Interval
from kitproof.model.rigs import Days, Rig, Site
from kitproof.reading.document import Document, Slip, Where


class PlacedSlip(Struct, frozen=True, kw_only=True):
    """A slip and its place."""

    slip: Slip
    where: Where


class OrderLine(Struct, frozen=True, kw_only=True):
    part: Part
    count: int
    spare: int
    for_rig: str
    supplier: str
    where: Where


class Order(Struct, frozen=True, kw_only=True):
    """What is ordered from one supplier. Where `dates` is None and they have their place among `places`, they could not
    be read."""

    supplier: str
    dates: Days | None
    lines: tuple[OrderLine, ...]
    where: Where
    unread: tuple[str, ...] = ()
    places: Mapping[str, Where] = {}


class Move(Struct, frozen=True, kw_only=True):
    """A journey, or storage (`stored`); `by` is "" where not said."""

    name: str
    where: Where
    by: str = ""
    stored: bool = False
    lasts: Interval | None = None
    on: date | None = None
    people: int | None = None
    carrier_agrees: bool = False
    tag: Mapping[str, str | Interval] = {}
    places: Mapping[str, Where] = {}

    @property
    def label(self) -> str:
        return f'move "{self.name}"'


class Packed(Struct, frozen=True, kw_only=True):
    """One `holds` line: a part in its states (None where a state is not said), or another case (`case_name`)."""

    part: Part | None
    case_name: str
    count: int
    where: Where
    states: frozenset[str] = frozenset()
    tilted: Interval | None = None
    step: int | None = None
    charge: Interval | None = None
    fitted_in: str = ""
    places: Mapping[str, Where] = {}


class Lifted(Struct, frozen=True, kw_only=True):
    people: int
    from_height: Interval | None
    to_height: Interval | None
    out: Interval | None
    rate: Interval | None
    where: Where


class Case(Struct, frozen=True, kw_only=True):
    """A packed case; what it `is` lends it sizes, mass and limit where it says none of its own.

    `unread` names lines that could not be read and may have held anything, `lost_moves` what is missing of its moves.
    """

    name: str
    where: Where
    house_case: Part | None = None
    goes: tuple[str, ...] = ()
    lost_moves: tuple[str, ...] = ()
    inside: tuple[Interval, ...] = ()
    outside: tuple[Interval, ...] = ()
    mass: Interval | None = None
    limit: Interval | None = None
    holds: tuple[Packed, ...] = ()
    lifted: Lifted | None = None
    tag: Mapping[str, str | Interval] = {}
    places: Mapping[str, Where] = {}
    unread: tuple[str, ...] = ()

    @property
    def label(self) -> str:
        return f'case "{self.name}"'


class Waiver(Struct, frozen=True, kw_only=True):
    """One finding accepted: the rule, the subject as typed, the last day (included), why, and by which role."""

    rule: str
    subject: str
    until: date | None
    because: str
    by: str
    where: Where
    places: Mapping[str, Where] = {}


class KitList(Struct, frozen=True, kw_only=True):
    """One list with all it uses. `parts` are those in reach by name, `own_parts` those that this file defines.

    `path` is how it is shown, `key` what names it from wherever it is proofed: its path from its root.
    """

    path: str
    key: str
    documents: tuple[Document, ...]
    parts: Mapping[str, Part]
    own_parts: tuple[Part, ...]
    title: str = ""
    issue: int | None = None
    notes: tuple[str, ...] = ()
    units: tuple[str, ...] = ()
    dates: Days | None = None
    site: Site = Site()
    orders: tuple[Order, ...] = ()
    rigs: tuple[Rig, ...] = ()
    moves: Mapping[str, Move] = {}
    cases: tuple[Case, ...] = ()
    waivers: tuple[Waiver, ...] = ()
    slips: tuple[PlacedSlip, ...] = ()
    where: Where

    @property
    def label(self) -> str:
        return f'list "{self.title}"' if self.title else "list"

    @property
    def heading(self) -> str:
        """Path, issue and title: what every output prints of it."""
        issue = f", issue {self.issue}" if self.issue is not None else ""
        return f"{self.path}{issue}{f': {self.title}' if self.title else ''}"
