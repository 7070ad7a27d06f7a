"""What is ordered, what the rigs use, and how many are needed at one time."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Collection, Mapping
from functools import cached_property
from itertools import combinations as pairs
from typing import ClassVar

from kitproof.facts.build import combinations
from kitproof.facts.fact import fact
from kitproof.facts.part import PartSubject, part_named
from kitproof.facts.subject import Setting, Subject
from kitproof.facts.values import TRUTH, Amount, Truth, Verdict, Words, number, text, thing
from kitproof.model.kitlist import KitList, OrderLine
from kitproof.model.parts import Part
from kitproof.model.rigs import Days, Rig
from kitproof.reading.document import Where
from kitproof.words.dimensions import NUMBER
from kitproof.words.kinds import KINDS


class Tally:
    """Counts of parts over one list, worked out once for all its lines and items."""

    def __init__(self, kitlist: KitList) -> None:
        self.kitlist = kitlist

    @cached_property
    def ordered(self) -> Mapping[str, int]:
        """How many of each part are ordered; a kit orders what it includes as well."""
        counts: dict[str, int] = {}
        for order in self.kitlist.orders:
            for line in order.lines:
                self._add(counts, line.part, line.count, ())
        return counts

    def _add(self, counts: dict[str, int], part: Part, count: int, within: tuple[str, ...]) -> None:
        counts[part.name] = counts.get(part.name, 0) + count
        for each in part.includes:
            inner = self.kitlist.parts.get(each.name)
            if inner is not None and inner.name not in within:
                self._add(counts, inner, each.count * count, (*within, part.name))

    @cached_property
    def needs(self) -> Mapping[str, Mapping[str, int]]:
        """For each part, how many each rig needs at most in one combination: one for each slot line that names it.

        Lines choose each for itself; where one is there only with a part of another, every combination is counted.
        """
        counts: dict[str, dict[str, int]] = {}
        for rig in self.kitlist.rigs:
            chained = any(line.only_with for line in rig.lines)
            for name, most in (_most_standing(rig) if chained else _most_listed(rig)).items():
                counts.setdefault(name, {})[rig.name] = most
        return counts

    def may_need(self, part: Part) -> tuple[str, ...]:
        """Lines of rigs that could not be read and may have named the part."""
        found = [name for rig in self.kitlist.rigs for name in rig.unread]
        for rig in self.kitlist.rigs:
            for line in rig.lines:
                lost = [o.part for o in line.options if o.part and not o.part.name and not o.part.described]
                found += [each.lacks("mass") for each in lost if line.slot in (part.kind, "accessory")]
        return tuple(dict.fromkeys(found))

    @cached_property
    def held(self) -> Mapping[str, int]:
        """How many of each part are packed in cases; a kit packs what it includes as well."""
        counts: dict[str, int] = {}
        for case in self.kitlist.cases:
            for packed in case.holds:
                if packed.part is not None:
                    self._add(counts, packed.part, packed.count, ())
        return counts

    @cached_property
    def unread_cases(self) -> tuple[str, ...]:
        """Lines of cases that could not be read and may have held anything."""
        return tuple(lost for case in self.kitlist.cases for lost in case.unread)

    @cached_property
    def unread(self) -> tuple[str, ...]:
        """Lines that could not be read and may have ordered anything."""
        return tuple(lost for order in self.kitlist.orders for lost in order.unread)

    def at_once(self, name: str) -> int:
        """The most of a part that rigs standing together need.

        Rigs stand together where their days overlap and neither says `instead of` the other. Overlap of days is looked
        at in pairs: spans that meet two by two have a day in common, so that the greatest sum over sets of rigs that
        may all stand together is the greatest over the days.
        """
        mine = [rig for rig in self.kitlist.rigs if rig.name in self.needs.get(name, {})]
        apart = {frozenset((a.name, b.name)) for a, b in pairs(mine, 2) if not self._together(a, b)}
        return _heaviest([(rig.name, self.needs[name][rig.name]) for rig in mine], apart)

    def _together(self, a: Rig, b: Rig) -> bool:
        if b.name in a.instead_of or a.name in b.instead_of:
            return False
        first, second = self._days(a), self._days(b)
        return first is None or second is None or first.meets(second)

    def _days(self, rig: Rig) -> Days | None:
        """Its own days, else the list's; none where its own could not be read, which may then be any."""
        return rig.dates if "dates" in rig.places else self.kitlist.dates


def _most_listed(rig: Rig) -> dict[str, int]:
    """How many of each part a rig needs at most, where its lines choose each for itself."""
    most: Counter[str] = Counter()
    for line in rig.lines:
        for name in {option.part.name for option in line.options if option.part and option.part.name}:
            most[name] += 1 + line.spare
    return most


def _most_standing(rig: Rig) -> dict[str, int]:
    """How many of each part a rig needs at most, from all its combinations."""
    most: Counter[str] = Counter()
    for build in combinations(rig):
        here: Counter[str] = Counter()
        for each in build.standing:
            here[each.part.name] += 1 + each.line.spare
        most |= here  # the greater of the two for each name
    del most[""]
    return most


def _heaviest(counts: list[tuple[str, int]], apart: Collection[frozenset[str]]) -> int:
    """The greatest sum over sets in which no two are apart.

    The first of them that is apart from others: it and what it leaves, or all but it. Where that falls into groups
    that are not apart from each other, the groups add up, so that only a group is searched.
    """
    whole = 0
    waiting = dict(counts)
    while waiting:
        group = _group(next(iter(waiting)), waiting, apart)
        names = [name for name in waiting if name in group]
        mine = [(name, waiting.pop(name)) for name in names]
        whole += mine[0][1] if len(mine) == 1 else _heaviest_group(mine, apart)
    return whole


def _heaviest_group(counts: list[tuple[str, int]], apart: Collection[frozenset[str]]) -> int:
    """The same where all hang together: with the first, or without it."""
    (name, count), rest = counts[0], counts[1:]
    left = [each for each in rest if frozenset((name, each[0])) not in apart]
    return max(count + _heaviest(left, apart), _heaviest(rest, apart))


def _group(first: str, names: Collection[str], apart: Collection[frozenset[str]]) -> set[str]:
    """All that hang together with the first, by way of one being apart from the next."""
    group, waiting = {first}, [first]
    while waiting:
        name = waiting.pop()
        new = {other for other in names if other not in group and frozenset((name, other)) in apart}
        group |= new
        waiting += new
    return group


class LineSubject(Subject):
    """One line of an order."""

    about: ClassVar[str] = "line"

    def __init__(self, setting: Setting, tally: Tally, line: OrderLine) -> None:
        super().__init__(setting)
        self.tally, self.line = tally, line

    @property
    def label(self) -> str:
        return f'order line "{self.line.part.name}"'

    @property
    def within(self) -> tuple[str, ...]:
        return (part_named(self.line.part),)

    def place(self, field: str) -> Where:
        return self.line.where


class ItemSubject(Subject):
    """One part over the whole list. Its place is where a rig first names it, else where it is ordered."""

    about: ClassVar[str] = "item"

    def __init__(self, setting: Setting, tally: Tally, part: Part, first: Where) -> None:
        super().__init__(setting)
        self.tally, self.part, self.first = tally, part, first

    @property
    def label(self) -> str:
        return self.part.label

    @property
    def within(self) -> tuple[str, ...]:
        return (part_named(self.part),)

    def place(self, field: str) -> Where:
        return self.first


def order_lines(setting: Setting, tally: Tally) -> list[LineSubject]:
    return [LineSubject(setting, tally, line) for order in setting.kitlist.orders for line in order.lines]


def items(setting: Setting, tally: Tally) -> list[ItemSubject]:
    """Every part of a book that a rig uses or an order names, once. What is in no book is not hired as such."""
    found: dict[str, ItemSubject] = {}
    used = [(o.part, o.where) for rig in setting.kitlist.rigs for line in rig.lines for o in line.options if o.part]
    ordered = [(line.part, line.where) for order in setting.kitlist.orders for line in order.lines]
    for part, where in [*used, *ordered]:
        if part.name in setting.kitlist.parts and part.name not in found:
            found[part.name] = ItemSubject(setting, tally, part, where)
    return list(found.values())


def _count(number_of: int) -> Amount:
    return Amount(float(number_of), float(number_of))


def _at_least(number_of: int, lost: tuple[str, ...]) -> Amount:
    """A count to which lines that could not be read may add."""
    return Amount(float(number_of), math.inf if lost else float(number_of), lost)


@fact("part", "line", thing("part"), "the part that is ordered")
def line_part(line: LineSubject) -> PartSubject:
    return PartSubject(line.setting, line.line.part, line.line.where)


@fact("name", "line", text(), "the name of the part that is ordered", certain=True)
def line_name(line: LineSubject) -> Words:
    return Words(f'"{line.line.part.name}"')


@fact("supplier", "line", text(), "whom it is ordered from", certain=True)
def supplier(line: LineSubject) -> Words:
    return Words(line.line.supplier)


@fact("ordered", "line", number(NUMBER), "how many this line orders, spares among them", certain=True)
def line_ordered(line: LineSubject) -> Amount:
    return _count(line.line.count)


@fact("spare", "line", number(NUMBER), "how many of them are spares", certain=True)
def line_spare(line: LineSubject) -> Amount:
    return _count(line.line.spare)


@fact("in_rigs", "line", number(NUMBER), "how many rigs use the part")
def line_in_rigs(line: LineSubject) -> Amount:
    """A line of a rig that could not be read may have used it."""
    rigs = line.setting.kitlist.rigs
    lost = line.tally.may_need(line.line.part)
    used = len(line.tally.needs.get(line.line.part.name, {}))
    return Amount(float(used), float(len(rigs)) if lost else float(used), lost)


@fact("held", "line", number(NUMBER), "how many of the part are packed in cases")
def line_held(line: LineSubject) -> Amount:
    return _at_least(line.tally.held.get(line.line.part.name, 0), line.tally.unread_cases)


@fact("stands_in_rigs", "line", TRUTH, "whether its kind of part can stand in a rig", certain=True)
def stands_in_rigs(line: LineSubject) -> Verdict:
    part = line.line.part
    return _truth(part.described and KINDS[part.kind].in_rigs)


@fact("rigs_there", "line", TRUTH, "whether the list has a rig at all", certain=True)
def line_rigs_there(line: LineSubject) -> Verdict:
    return _truth(bool(line.setting.kitlist.rigs))


@fact("part", "item", thing("part"), "the part")
def item_part(item: ItemSubject) -> PartSubject:
    return PartSubject(item.setting, item.part, item.first)


@fact("name", "item", text(), "the name of the part", certain=True)
def item_name(item: ItemSubject) -> Words:
    return Words(f'"{item.part.name}"')


@fact("kind", "item", text(*KINDS), "its kind", certain=True)
def item_kind(item: ItemSubject) -> Words:
    return Words(item.part.kind)


@fact("rigs", "item", text(), "the rigs that use it, in words", certain=True)
def item_rigs(item: ItemSubject) -> Words:
    names = list(item.tally.needs.get(item.part.name, {}))
    if len(names) < 2:
        return Words(f"rig {names[0]}" if names else "")
    return Words(f"rigs {', '.join(names[:-1])} and {names[-1]}")


@fact("ordered", "item", number(NUMBER), "how many are ordered, in kits too")
def item_ordered(item: ItemSubject) -> Amount:
    return _at_least(item.tally.ordered.get(item.part.name, 0), item.tally.unread)


@fact("in_rigs", "item", number(NUMBER), "how many all rigs together need")
def item_in_rigs(item: ItemSubject) -> Amount:
    return _at_least(sum(item.tally.needs.get(item.part.name, {}).values()), item.tally.may_need(item.part))


@fact("used_at_once", "item", number(NUMBER), "the most that rigs which stand at one time need")
def used_at_once(item: ItemSubject) -> Amount:
    return _at_least(item.tally.at_once(item.part.name), item.tally.may_need(item.part))


@fact("have", "item", number(NUMBER), "how many the house owns")
def item_have(item: ItemSubject) -> Amount:
    if item.part.have is None:
        return Amount(0.0, math.inf, (item.part.lacks("have"),))
    return _count(item.part.have)


@fact("orders_there", "item", TRUTH, "whether the list has an order at all", certain=True)
def orders_there(item: ItemSubject) -> Verdict:
    return _truth(bool(item.setting.kitlist.orders))


@fact("rigs_there", "item", TRUTH, "whether the list has a rig at all", certain=True)
def rigs_there(item: ItemSubject) -> Verdict:
    return _truth(bool(item.setting.kitlist.rigs))


def _truth(said: bool) -> Verdict:
    return Verdict(Truth.TRUE if said else Truth.FALSE)
