"""Lines of orders, and each part over all orders and rigs of a list: what is ordered, used, promised and there."""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import cached_property
from typing import ClassVar

from kitproof.facts.fact import fact
from kitproof.facts.part import PartSubject, part_named
from kitproof.facts.promises import Calendar, Claim, in_words, promised_by
from kitproof.facts.subject import Setting, Subject
from kitproof.facts.tally import Tally
from kitproof.facts.values import TRUTH, Amount, Thing, Truth, Verdict, Words, number, set_of, text, thing
from kitproof.model.kitlist import OrderLine
from kitproof.model.parts import Part
from kitproof.model.promises import Promised
from kitproof.reading.document import Where
from kitproof.words.dimensions import NUMBER
from kitproof.words.kinds import KINDS
from kitproof.words.phrases import from_whom


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
    """One part over the whole list. Its place is where a rig first names it, else where it is ordered.

    `own` is all that the list promises of the stock, of this part and of others.
    """

    about: ClassVar[str] = "item"

    def __init__(self, setting: Setting, tally: Tally, part: Part, first: Where, own: Promised) -> None:
        super().__init__(setting)
        self.tally, self.part, self.first, self.own = tally, part, first, own

    @property
    def label(self) -> str:
        return self.part.label

    @property
    def within(self) -> tuple[str, ...]:
        return (part_named(self.part),)

    def place(self, field: str) -> Where:
        """Of what is promised, where that is written: of the first that is promised too often, if any is."""
        if field != "promised" or not self.calendar.mine:
            return self.first
        mine = [each for each in self.clashing if each.whose == 0 and each.promise.name] or self.calendar.mine
        return mine[0].promise.where

    @cached_property
    def calendar(self) -> Calendar:
        return Calendar(self.part, self.own, self.setting.others)

    @property
    def have(self) -> tuple[float, float]:
        there = self.amount("have")
        return there.low, there.high

    @cached_property
    def clashing(self) -> list[Claim]:
        """The promises that stand on days on which more are promised than there are, or may be."""
        return self.calendar.in_clash(self.have)


class BookingSubject(Subject):
    """One promise of a part, of this list or of another."""

    about: ClassVar[str] = "booking"

    def __init__(self, item: ItemSubject, claim: Claim) -> None:
        super().__init__(item.setting)
        self.item, self.claim = item, claim

    @property
    def label(self) -> str:
        return f"{self.item.label} in {self.item.calendar.lists[self.claim.whose].label}"

    @property
    def within(self) -> tuple[str, ...]:
        return self.item.within

    def place(self, field: str) -> Where:
        return self.claim.promise.where


def order_lines(setting: Setting, tally: Tally) -> list[LineSubject]:
    return [LineSubject(setting, tally, line) for order in setting.kitlist.orders for line in order.lines]


def items(setting: Setting, tally: Tally) -> list[ItemSubject]:
    """Every part of a book that a rig uses or an order names, in a kit too, once. What is in no book is not hired as
    such."""
    found: dict[str, ItemSubject] = {}
    own = promised_by(setting.kitlist)
    for name, where in _named(setting, tally):
        if name in setting.kitlist.parts and name not in found:
            found[name] = ItemSubject(setting, tally, setting.kitlist.parts[name], where, own)
    return list(found.values())


def _named(setting: Setting, tally: Tally) -> Iterator[tuple[str, Where]]:
    """Names of parts and where they stand: in rigs, on lines of orders, in the kits that these order."""
    used = [(o.part, o.where) for rig in setting.kitlist.rigs for line in rig.lines for o in line.options if o.part]
    ordered = [(line.part, line.where) for order in setting.kitlist.orders for line in order.lines]
    yield from ((part.name, where) for part, where in (*used, *ordered))
    for part, where in ordered:
        yield from ((name, where) for name in tally.taken_apart(part, 1))


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
    """The title of its order, or what stands behind its "from"."""
    return Words(from_whom(line.line.supplier))


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


@fact("promised", "item", number(NUMBER), "the most that all lists promise on one day on which this one has it")
def promised(item: ItemSubject) -> Amount:
    """All lists that are proofed together, this one among them. An order that names no days has those of its list."""
    return item.calendar.promised


@fact("stock_told", "item", TRUTH, "whether its parts book says how many there are, if only as a ?", certain=True)
def stock_told(item: ItemSubject) -> Verdict:
    return _truth("have" in item.part.places)


@fact("clashing", "item", set_of("booking"), "what is promised on the days on which more is promised than there is")
def clashing(item: ItemSubject) -> tuple[Thing, ...]:
    return tuple(BookingSubject(item, each) for each in item.clashing)


@fact("clashes", "item", text(), "the days on which more is promised than there is, and how much by whom, in words")
def clashes(item: ItemSubject) -> Words:
    return Words(item.calendar.in_words(item.have))


@fact("clash_from", "item", text(), "the first day on which more is promised than there is")
def clash_from(item: ItemSubject) -> Words:
    runs = item.calendar.clashes(item.have)
    return Words(str(runs[0].first) if runs else None)


@fact("clash_to", "item", text(), "the last day on which more is promised than there is")
def clash_to(item: ItemSubject) -> Words:
    runs = item.calendar.clashes(item.have)
    return Words(str(runs[-1].last) if runs else None)


@fact("list", "booking", text(), "the list that promises it", certain=True)
def booking_list(booking: BookingSubject) -> Words:
    return Words(booking.item.calendar.lists[booking.claim.whose].label)


@fact("own", "booking", TRUTH, "whether it is of the list that is proofed", certain=True)
def booking_own(booking: BookingSubject) -> Verdict:
    return _truth(booking.claim.whose == 0)


@fact("count", "booking", number(NUMBER), "how many are promised")
def booking_count(booking: BookingSubject) -> Amount:
    promise = booking.claim.promise
    return Amount(promise.low, promise.high, promise.missing)


@fact("days", "booking", text(), "from which day to which, in words")
def booking_days(booking: BookingSubject) -> Words:
    return Words(in_words(booking.claim.promise.first, booking.claim.promise.last))
