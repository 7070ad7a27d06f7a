"""One thing that differs between two lists, in the words of the trade."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any, Literal

from msgspec import Struct

from kitproof.comparing.said import bare, both
from kitproof.model.parts import Part
from kitproof.rulebook.messages import Units

Kind = Literal["new", "gone", "swapped", "changed"]


class Difference(Struct, frozen=True):
    """One thing that differs. `thing` says what: a slot, a condition, a field of a part; `was` and `now` are words.

    `new` has no `was`, `gone` no `now`; `swapped` is one thing in another's place, `changed` the same in a new state.
    """

    kind: Kind
    thing: str
    was: str | None
    now: str | None


SITE = ("day", "site_temperature", "ground_slope", "wind", "floor")
NOT_COMPARED = frozenset({"where", "places", "unread", "described", "lost", "name"})


def fields_of(was: Any, now: Any, names: Iterable[str], units: Units, of: str = "") -> list[Difference]:
    """The fields of these names that do not say the same."""
    found = []
    for name in names:
        before, after = getattr(was, name), getattr(now, name)
        if bare(before) != bare(after):
            found.append(Difference("changed", f"{of}{name.replace('_', ' ')}", *both(before, after, units)))
    return found


def part(was: Part, now: Part, units: Units) -> list[Difference]:
    """What differs between what two parts books say of one part."""
    names = [name for name in Part.__struct_fields__ if name not in NOT_COMPARED]
    return fields_of(was, now, names, units)
