"""What should go out with what is ordered: companions by name, and those that a kind of part wants.

A parts book names companions: `goes with`, and a head's `pan bar`. Where it names none of the kind, a head that sits in
a bowl wants some tie-down, a head some pan bar, and batteries a charger (common practice, no source).
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator
from typing import ClassVar

from msgspec import Struct

from kitproof.facts.fact import fact
from kitproof.facts.orders import LineSubject
from kitproof.facts.subject import Subject
from kitproof.facts.tally import Tally
from kitproof.facts.values import Amount, Thing, Words, number, set_of, text
from kitproof.model.kitlist import OrderLine
from kitproof.model.parts import Part
from kitproof.reading.document import Where
from kitproof.words.dimensions import NUMBER


class Wish(Struct, frozen=True):
    """A companion by its name, or any of a kind where `name` is ""; how many each part wants, and where it is said."""

    name: str
    kind: str
    each: int
    where: Where


class CompanionSubject(Subject):
    """One companion of what is ordered. It belongs to the first line that wants it; `count` is what all lines want."""

    about: ClassVar[str] = "companion"

    def __init__(self, line: LineSubject, wish: Wish, count: int, there: int) -> None:
        super().__init__(line.setting)
        self.line, self.wish, self.count, self.there = line, wish, count, there

    @property
    def label(self) -> str:
        return f'"{self.wish.name}"' if self.wish.name else self.wish.kind

    @property
    def within(self) -> tuple[str, ...]:
        return self.line.within

    def place(self, field: str) -> Where:
        return self.wish.where


def wishes(part: Part, tally: Tally) -> list[Wish]:
    """The companions of one part: those that its book names, then those of kinds of which it names none."""
    books = tally.kitlist.parts
    named = [(each.name, each.count, each.where) for each in part.goes_with]
    if part.pan_bar and part.pan_bar not in {name for name, _, _ in named}:
        named.append((part.pan_bar, 1, part.where_of("pan_bar")))
    found = [Wish(name, books[name].kind, count, where) for name, count, where in named if name in books]
    lost = len(found) < len(named) or not part.unread.isdisjoint(("goes_with", "pan_bar", "sits_on"))
    have = {each.kind for each in found}
    return found if lost else [*found, *(each for each in _by_kind(part) if each.kind not in have)]


def _by_kind(part: Part) -> Iterator[Wish]:
    if part.kind == "head":
        if any(seat.family == "bowl" for seat in part.sits_on):
            yield Wish("", "tie-down", 1, part.where_of("sits_on"))
        yield Wish("", "pan bar", 1, part.where_of("pan_bar"))
    if part.kind == "battery":
        yield Wish("", "charger", 0, part.where)


def companions_of(line: LineSubject) -> list[CompanionSubject]:
    """The companions for which this line is the first to want them, with what all lines together want."""
    tally = line.tally
    wanted: Counter[tuple[str, str]] = Counter()
    first: dict[tuple[str, str], tuple[OrderLine, Wish]] = {}
    for order_line in (each for order in tally.kitlist.orders for each in order.lines):
        for name, count in tally.taken_apart(order_line.part, order_line.count).items():
            part = tally.kitlist.parts.get(name)
            for wish in wishes(part, tally) if part is not None else ():
                key = (wish.name, wish.kind)
                first.setdefault(key, (order_line, wish))
                wanted[key] = wanted[key] + wish.each * count if wish.each else 1
    return [
        CompanionSubject(line, wish, wanted[key], _there(tally, key, wanted))
        for key, (order_line, wish) in first.items()
        if order_line is line.line
    ]


def _there(tally: Tally, key: tuple[str, str], wanted: Counter[tuple[str, str]]) -> int:
    """How many are ordered of a companion; of any of a kind, those that no part wants by their names."""
    name, kind = key
    if name:
        return tally.ordered.get(name, 0)
    parts = tally.kitlist.parts
    ordered = {each: count for each, count in tally.ordered.items() if each in parts and parts[each].kind == kind}
    return sum(max(count - wanted[each, kind], 0) for each, count in ordered.items())


@fact("companions", "line", set_of("companion"), "what should go out with it, where no line above wants the same")
def companions(line: LineSubject) -> tuple[Thing, ...]:
    return tuple(companions_of(line))


@fact("name", "companion", text(), "its name in quotes, or its kind where any will do", certain=True)
def companion_name(companion: CompanionSubject) -> Words:
    return Words(companion.label)


@fact("wanted", "companion", number(NUMBER), "how many should go out with all that is ordered", certain=True)
def wanted_in_all(companion: CompanionSubject) -> Amount:
    return Amount(float(companion.count), float(companion.count))


@fact("ordered", "companion", number(NUMBER), "how many are ordered, in kits too")
def companions_ordered(companion: CompanionSubject) -> Amount:
    """A line of an order that could not be read may order more."""
    lost = companion.line.tally.unread
    return Amount(float(companion.there), math.inf if lost else float(companion.there), lost)
