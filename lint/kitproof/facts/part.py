"""The subject `part`, and the points of its charts."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import ClassVar

from kitproof.facts.fact import fact
from kitproof.facts.subject import Setting, Subject
from kitproof.facts.values import Amount, Several, Words, number, text
from kitproof.model.parts import Part, Point
from kitproof.model.quantities import Interval, is_known
from kitproof.reading.document import Where
from kitproof.words.dimensions import LENGTH, MASS
from kitproof.words.kinds import KINDS


def part_named(part: Part) -> str:
    """A part as waivers name it."""
    return f'part "{part.name}"' if part.name else part.label


class PartSubject(Subject):
    """A part, as a book describes it; `named_at` is where the list names it, if it does."""

    about: ClassVar[str] = "part"

    def __init__(self, setting: Setting, part: Part, named_at: Where | None = None) -> None:
        super().__init__(setting)
        self.part = part
        self.named_at = named_at

    @property
    def label(self) -> str:
        return f'"{self.part.name}"' if self.part.name else f"the {self.part.kind}"

    @property
    def tags(self) -> Mapping[str, str | Interval]:
        return self.part.tag

    @property
    def within(self) -> tuple[str, ...]:
        return (part_named(self.part),)

    def place(self, field: str) -> Where:
        if not field and self.named_at is not None:
            return self.named_at
        return self.part.where_of(field)

    def points(self, field: str) -> Several:
        """The points of a chart by rising height; those of no known height last. Written as `?` there may be any."""
        found: tuple[Point, ...] = getattr(self.part, field)
        rising = sorted(found, key=lambda point: point.at.low if is_known(point.at) else math.inf)
        points = (
            PointSubject(self.setting, self, field, point, below)
            for point, below in zip(rising, [None, *rising], strict=False)
        )
        return Several(points, (self.part.lacks(field),) if self.part.blank(field) else ())

    def named_part(self, name: str | None, kind: str) -> PartSubject | None:
        """Another part by its name; one that no book describes is still there, with nothing known but its kind."""
        if name is None:
            return None
        part = self.setting.kitlist.parts.get(name)
        if part is None:
            part = Part(kind=kind, name=name, where=self.part.where, described=False)
        return PartSubject(self.setting, part)


class PointSubject(Subject):
    """One point of a head's chart or of the like."""

    about: ClassVar[str] = "point"

    def __init__(self, setting: Setting, owner: PartSubject, field: str, point: Point, below: Point | None) -> None:
        super().__init__(setting)
        self.owner, self.field, self.point, self.below = owner, field, point, below

    @property
    def label(self) -> str:
        return f"{self.field} of {self.owner.label}"

    @property
    def within(self) -> tuple[str, ...]:
        return self.owner.within

    def place(self, field: str) -> Where:
        return self.point.where


def _of(interval: Interval | None, least: float, lacks: str) -> Amount:
    """What a point says; where that is not known, anything from `least` up."""
    return Amount(interval.low, interval.high) if is_known(interval) else Amount(least, math.inf, (lacks,))


@fact("kind", "part", text(*KINDS), "its kind, in the word of the registry", certain=True)
def kind(subject: PartSubject) -> Words:
    return Words(subject.part.kind)


@fact("name", "part", text(), "its name in the parts book", certain=True)
def name(subject: PartSubject) -> Words:
    return Words(subject.part.name)


@fact("height", "point", number(LENGTH), "the height at which this point of a chart holds")
def point_height(subject: PointSubject) -> Amount:
    return _of(subject.point.at, -math.inf, f"{subject.label}: a height")


@fact("mass", "point", number(MASS), "the load at this point of a chart")
def point_mass(subject: PointSubject) -> Amount:
    return _of(subject.point.value, 0.0, f"{subject.label}: a load")


@fact("mass_below", "point", number(MASS), "the load at the next smaller height; for the lowest point, without end")
def point_mass_below(subject: PointSubject) -> Amount:
    """Not known where a point of the chart has no known height: that one may be the next smaller, or this one not."""
    points = getattr(subject.owner.part, subject.field)
    if len(points) > 1 and not all(is_known(each.at) for each in points):
        return Amount(0.0, math.inf, (f"{subject.label}: a height",))
    if subject.below is None:
        return Amount(math.inf, math.inf)
    return _of(subject.below.value, 0.0, f"{subject.label}: a load")
