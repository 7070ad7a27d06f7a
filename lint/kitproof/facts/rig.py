"""The subject `rig`: one combination of its alternatives, what stands in it, and the conditions it works in."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cached_property
from typing import ClassVar

from kitproof.facts.build import Build, Standing
from kitproof.facts.fact import Fact
from kitproof.facts.fields import amount
from kitproof.facts.geometry import Placed, placed
from kitproof.facts.part import PartSubject
from kitproof.facts.subject import Setting, Subject
from kitproof.facts.values import (
    TRUTH,
    Held,
    Several,
    Truth,
    Verdict,
    Words,
    number,
    reach,
    set_of,
    text,
    thing,
)
from kitproof.model.quantities import Interval
from kitproof.reading.document import Where
from kitproof.words.dimensions import NUMBER
from kitproof.words.kinds import ENTRIES, KINDS, FieldWord
from kitproof.words.shapes import Shape


class RigSubject(Subject):
    """A rig with its choices made."""

    about: ClassVar[str] = "rig"

    def __init__(self, setting: Setting, build: Build) -> None:
        super().__init__(setting)
        self.build = build
        self.rig = build.rig

    @property
    def label(self) -> str:
        return self.rig.label

    @property
    def tags(self) -> Mapping[str, str | Interval]:
        return self.rig.tag

    @property
    def within(self) -> tuple[str, ...]:
        return (self.rig.label,)

    def place(self, field: str) -> Where:
        if field in self.said_at:
            return self.said_at[field]
        line = next((each for each in self.rig.lines if each.slot.replace(" ", "_") == field), None)
        return line.where if line else self.rig.where

    @cached_property
    def said_at(self) -> Mapping[str, Where]:
        """Where each condition is said, in the rig or, for all rigs, in the list."""
        return {**self.rig.site.places, **self.rig.places}

    def lacks(self, word: str) -> str:
        """How lists of what is missing call a condition: the list's where the list says it for all its rigs."""
        name = word.replace(" ", "_")
        whose = "the list" if name in self.rig.site.places and name not in self.rig.places else self.label
        return f"{whose}: {word}"

    @property
    def placed(self) -> tuple[Placed, ...]:
        """Everything but the sticks and the spreader, in its place."""
        watch = self.setting.watch
        return self._placed if watch is None else watch.noted(self._noted, "its places", lambda: placed(self.build))

    @cached_property
    def _placed(self) -> tuple[Placed, ...]:
        return placed(self.build)

    def group(self, *groups: str) -> tuple[Placed, ...]:
        return tuple(each for each in self.placed if each.group in groups)

    @property
    def carried(self) -> tuple[Placed, ...]:
        """All that stands on the head's plate."""
        return self.group("carried")

    def part(self, standing: Standing | None) -> PartSubject | None:
        return None if standing is None else PartSubject(self.setting, standing.part, standing.where)

    @property
    def unread(self) -> tuple[str, ...]:
        """Lines of the rig that could not be read: each may have been one more part, of any mass, anywhere."""
        return self.rig.unread


def rig_fields() -> list[Fact]:
    """A fact for each slot (the first part in it, or nothing) and for each condition."""
    slots = [
        Fact(kind.name, "rig", thing("part", kind.word), f"the {kind.word} of the rig", _slot(kind.word))
        for kind in KINDS.values()
        if kind.in_rigs
    ]
    conditions = [made for word in ENTRIES["rig"] if (made := _condition(word)) is not None]
    parts = Fact("parts", "rig", set_of("part"), "every part that stands in the rig", _parts)
    alternatives = Fact(
        "alternatives", "rig", set_of("part"), "every part that stands in any of its combinations", _alternatives
    )
    taken = {each.name for each in slots}
    conditions = [each for each in conditions if each.name not in taken]
    return [*slots, parts, alternatives, *conditions, *(_whether_said(each) for each in conditions)]


def _whether_said(condition: Fact) -> Fact:
    """Whether a condition is spoken of at all. A rule that asks for it only where the list does can tell `wind ?`,
    which is not known, from a list that does not say a word of the wind."""
    name, words = condition.name, condition.name.replace("_", " ")
    says = f"whether the list says anything of {words}, be it `?`"
    return Fact(f"{name}_said", "rig", TRUTH, says, lambda subject: _written(subject, name), certain=True)


def _written(subject: RigSubject, name: str) -> Verdict:
    rig = subject.rig
    value = getattr(rig, name) if hasattr(rig, name) else getattr(rig.site, name)
    said = name in subject.said_at or not (value is None or value is False or value == ())
    return Verdict(Truth.TRUE if said else Truth.FALSE)


def _slot(word: str):  # type: ignore[no-untyped-def]  # a closure for the table above
    return lambda subject: subject.part(subject.build.first(word))


def _parts(subject: RigSubject) -> Held:
    found = (PartSubject(subject.setting, each.part, each.where) for each in subject.build.standing)
    return Several(found, subject.unread)


def _alternatives(subject: RigSubject) -> Held:
    """A line that could not be read may have named one more."""
    options = [option for line in subject.rig.lines for option in line.options]
    found = (PartSubject(subject.setting, each.part, each.where) for each in options if each.part is not None)
    return Several(found, subject.unread)


def _condition(word: FieldWord) -> Fact | None:
    dimension = word.dimension or NUMBER
    of = {
        Shape.QUANTITY: number(dimension),
        Shape.REACH: reach(dimension),
        Shape.FLAG: TRUTH,
        Shape.PHRASES: text(*word.phrases),
    }.get(word.shape)
    if of is None:
        return None
    return Fact(word.name, "rig", of, word.says, lambda subject: _said(subject, word))


def _said(subject: RigSubject, word: FieldWord) -> Held:
    rig = subject.rig
    value = getattr(rig, word.name) if hasattr(rig, word.name) else getattr(rig.site, word.name)
    lacks = (subject.lacks(word.word),)
    if word.shape is Shape.FLAG and not value and word.name in subject.said_at:
        return Verdict(Truth.MISSING, lacks)
    if word.shape is Shape.FLAG:
        return Verdict(Truth.TRUE if value else Truth.FALSE)
    if word.shape is Shape.PHRASES:
        return Words(", ".join(value)) if value else Words(None, lacks)
    return amount(value, lacks, positive=word.positive)
