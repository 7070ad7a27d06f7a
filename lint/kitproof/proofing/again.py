"""What was said of a rig is said again where nothing has changed that it was worked out from.

That is the rig itself with its parts, and each thing in the list that its facts looked at. The looks are not declared
but taken down while it is judged, with what they saw: if each sees the same again, so would every rule.
"""

from __future__ import annotations

from collections.abc import Hashable, Iterator, Mapping
from hashlib import blake2b
from typing import Any, cast

import msgspec
from msgspec import Struct
from msgspec.structs import replace

from kitproof.facts.subject import Setting
from kitproof.model.kitlist import KitList
from kitproof.model.parts import Part
from kitproof.model.rigs import Rig
from kitproof.proofing.covering import Told
from kitproof.proofing.findings import Finding
from kitproof.proofing.judging import judged_rig
from kitproof.proofing.saying import Said, said
from kitproof.rulebook.messages import Units
from kitproof.rulebook.rules import RuleBook

PARTS = "parts"
_ENCODER = msgspec.msgpack.Encoder(order="deterministic")

Look = tuple[str, str]
"""What was looked at: a field of the list; of its parts one by its name, or all of them ("")."""

Plain = tuple[Finding, str, Hashable, Hashable]
"""A finding that was told, with the name of its rule in the place of the rule."""


def seen(value: object) -> bytes | None:
    """What tells what was seen from anything else; None where it has half of a character, and is never the same."""
    try:
        return blake2b(_ENCODER.encode(value), digest_size=16).digest()
    except UnicodeEncodeError:
        return None


class Kept(Struct, frozen=True):
    """What was said of one rig, and the looks at the list that were taken for it, with what they saw."""

    looks: Mapping[Look, bytes | None]
    found: tuple[Plain, ...]
    judged: int
    not_judged: int


class Memory:
    """What was said of the rigs of a list before, by what tells a rig from any other, and what is said now.

    `ground` is what tells the whole of what all rigs share besides the list, so that another day is another memory.
    """

    def __init__(self, ground: bytes | None = None, known: Mapping[bytes, Kept] | None = None) -> None:
        self.ground, self.known = ground, known or {}
        self.now: dict[bytes, Kept] = {}

    @property
    def changed(self) -> bool:
        """Whether there is anything that was not known."""
        return any(self.known.get(name) is not each for name, each in self.now.items())

    def of_rigs(self, setting: Setting, book: RuleBook, units: Units) -> Iterator[Said[Told]]:
        """What the rules say of each rig, in turn."""
        ground = _ground(setting, book, units)
        known = self.known if ground is not None and ground == self.ground else {}
        self.ground = ground
        sight = _Sight(setting.kitlist)
        for rig in setting.kitlist.rigs:
            name = seen(rig)
            kept = known.get(name) if name is not None else None
            if kept is None or not all(what and sight.of(look) == what for look, what in kept.looks.items()):
                kept = _judged_anew(setting, book, units, rig, sight)
            if name is not None:
                self.now[name] = kept
            yield _told(kept, book)


def _ground(setting: Setting, book: RuleBook, units: Units) -> bytes | None:
    """What tells all that rigs share besides the list; None where the book has no name to tell it by."""
    if not book.name:
        return None
    kitlist = setting.kitlist
    house = sorted(setting.house.items())
    asked = sorted((tuple(dimension), tuple(names)) for dimension, names in units.items())
    return seen((book.name, setting.day, house, setting.others, asked, kitlist.path, kitlist.key, kitlist.issue))


class _Sight:
    """What looks at one list see; each thing is looked at once."""

    def __init__(self, kitlist: KitList) -> None:
        self.kitlist = kitlist
        self.known: dict[Look, bytes | None] = {}

    def of(self, look: Look) -> bytes | None:
        if look not in self.known:
            field, name = look
            value: object = self.kitlist.parts.get(name) if name else getattr(self.kitlist, field)
            self.known[look] = seen(tuple(value.items()) if isinstance(value, Mapping) else value)
        return self.known[look]


def _judged_anew(setting: Setting, book: RuleBook, units: Units, rig: Rig, sight: _Sight) -> Kept:
    watched = _WatchedList(setting.kitlist)
    hits = judged_rig(replace(setting, kitlist=cast(KitList, watched)), book, rig)
    made = said(hits, setting.kitlist, units)
    plain = tuple((each.finding, each.rule.name, each.subject, each.gathers_by) for each in made.found)
    all_parts = (PARTS, "") in watched.looks
    looks = [look for look in watched.looks if look == (PARTS, "") or look[0] != PARTS or not all_parts]
    return Kept({look: sight.of(look) for look in looks}, plain, made.judged, made.not_judged)


def _told(kept: Kept, book: RuleBook) -> Said[Told]:
    found = tuple(Told(finding, book.rules[rule], subject, by) for finding, rule, subject, by in kept.found)
    return Said(found, kept.judged, kept.not_judged)


class _WatchedList:
    """A list in the place of the list itself, that takes down what of it is looked at."""

    def __init__(self, kitlist: KitList) -> None:
        self._kitlist = kitlist
        self.looks: set[Look] = set()

    def __getattr__(self, field: str) -> Any:
        if field == PARTS:
            return _WatchedParts(self._kitlist.parts, self.looks)
        self.looks.add((field, ""))
        return getattr(self._kitlist, field)


class _WatchedParts(Mapping[str, Part]):
    """Parts by name, each look at one of them taken down, or at all."""

    def __init__(self, parts: Mapping[str, Part], looks: set[Look]) -> None:
        self._parts, self._looks = parts, looks

    def __getitem__(self, name: str) -> Part:
        self._looks.add((PARTS, name))
        return self._parts[name]

    def __iter__(self) -> Iterator[str]:
        self._looks.add((PARTS, ""))
        return iter(self._parts)

    def __len__(self) -> int:
        self._looks.add((PARTS, ""))
        return len(self._parts)
