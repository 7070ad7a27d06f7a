"""A rig as listed: its slot lines from the ground up, each with its alternatives, and the conditions it works in."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from msgspec import Struct

from kitproof.model.parts import Part
from kitproof.model.quantities import Interval, Reach, Spot
from kitproof.reading.document import Where


class Days(Struct, frozen=True, kw_only=True):
    """First and last day, both included."""

    first: date
    last: date

    def meets(self, other: Days) -> bool:
        return self.first <= other.last and other.first <= self.last


class Option(Struct, frozen=True, kw_only=True):
    """One alternative of a slot line; `part` is None for `none`."""

    part: Part | None
    where: Where


class SlotLine(Struct, frozen=True, kw_only=True):
    """A slot with its alternatives and what the line says for all of them.

    `on` is a slot's word, "ground", or a part's name (`on_is_name`); "" where not said. `at_known` is False for `at ?`
    and for a line that could not be read. `on_at` and `only_with_at` are the places of those words.
    """

    slot: str
    options: tuple[Option, ...]
    where: Where
    at: Spot | None = None
    at_known: bool = True
    on: str = ""
    on_is_name: bool = False
    legs: Reach | None = None
    hung: Interval | None = None
    spare: int = 0
    only_with: tuple[str, ...] = ()
    on_at: Where | None = None
    only_with_at: tuple[Where, ...] = ()


class Site(Struct, frozen=True, kw_only=True):
    """Conditions that a list sets for all its rigs and a rig may set for itself; None where not said.

    `places` are where the list says them; a rig keeps the places of its own.
    """

    day: Interval | None = None
    site_temperature: Reach | None = None
    ground_slope: Reach | None = None
    wind: Interval | None = None
    floor: tuple[str, ...] = ()
    places: Mapping[str, Where] = {}


class Rig(Struct, frozen=True, kw_only=True):
    """One camera on one support. `unread` names lines that could not be read and may have held a part."""

    name: str
    where: Where
    lines: tuple[SlotLine, ...]
    site: Site
    tilts: Reach | None = None
    left_standing: bool = False
    underslung: bool = False
    mounted_on: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    push: Interval | None = None
    drag: Interval | None = None
    dates: Days | None = None
    instead_of: tuple[str, ...] = ()
    instead_of_at: tuple[Where, ...] = ()
    tag: Mapping[str, str | Interval] = {}
    places: Mapping[str, Where] = {}
    unread: tuple[str, ...] = ()

    @property
    def label(self) -> str:
        return f"rig {self.name}"
