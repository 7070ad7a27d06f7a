"""Limits that a house may set, some of them dated: transport law holds from its day on."""

from __future__ import annotations

from datetime import date

from msgspec import Struct

from kitproof.words.dimensions import Dimension


class Dated(Struct, frozen=True):
    """One value of a limit, in SI. `since` is the day from which it holds, None for always; `seen` the day on which
    somebody last read it in `source`."""

    value: float
    since: date | None = None
    seen: date | None = None
    source: str = ""
    written: str = ""


class Limit(Struct, frozen=True):
    """A limit of one rule, or of a group (`owner`), with its values by the day from which they hold.

    `percent` where it was written as a share. `set_by_house` where a house's own number stands in its place.
    """

    name: str
    owner: str
    dimension: Dimension
    values: tuple[Dated, ...]
    percent: bool = False
    set_by_house: bool = False

    @property
    def full_name(self) -> str:
        """Its name as a house writes it: `head-packed-under-tension.longest_under_tension`."""
        return f"{self.owner}.{self.name}"

    def on(self, day: date) -> Dated | None:
        """What holds on a day; None before the first day from which one holds."""
        held = [each for each in self.values if each.since is None or each.since <= day]
        return max(held, key=lambda each: each.since or date.min) if held else None
