"""What lists promise of one stock: who has how many of a part on which days, and where that is more than there are.

A list promises what its orders name, for their days, kits taken apart. A list that orders nothing at all promises what
its rigs use: as many as stand at one time. Lists share a stock where their books describe a part alike: its kind, its
name, and how many there are, if both say so.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Iterator, Mapping, Sequence
from datetime import date
from functools import cached_property

from msgspec import Struct
from msgspec.structs import replace

from kitproof.facts.tally import Tally
from kitproof.facts.values import Amount
from kitproof.mechanics.bookings import Booking, Clash, clashes, promised_at_most, stretches
from kitproof.mechanics.ranges import Interval
from kitproof.model.kitlist import KitList
from kitproof.model.parts import Part
from kitproof.model.promises import Promise, Promised
from kitproof.model.rigs import Days
from kitproof.reading.document import Where

SEVERAL = 5
"""So many lists are named in one message at most."""


def promised_by(kitlist: KitList) -> Promised:
    """All that a list promises."""
    tally = Tally(kitlist)
    found = _by_orders(tally) if kitlist.orders else _by_rigs(tally)
    return Promised(kitlist.path, kitlist.title, kitlist.issue, kitlist.where, tuple(found))


def _by_orders(tally: Tally) -> Iterator[Promise]:
    kitlist = tally.kitlist
    for order in kitlist.orders:
        days = order.dates if "dates" in order.places else kitlist.dates
        for line in order.lines:
            for name, count in tally.taken_apart(line.part, line.count).items():
                if name in kitlist.parts:
                    yield _promise(kitlist.parts[name], days, count, line.where)
        if order.unread:
            yield _anything("", days, order.where, order.unread)


def _by_rigs(tally: Tally) -> Iterator[Promise]:
    """What rigs use that stand at one time; where the days of one that uses the part are not known, on those days."""
    places = _first_named(tally.kitlist)
    for name in tally.needs:
        if name in tally.kitlist.parts:
            for days, count in tally.at_once_by_day(name):
                yield _promise(tally.kitlist.parts[name], days, count, places[name])
    for rig in tally.kitlist.rigs:
        if rig.unread:
            yield _anything("", tally.days(rig), rig.where, rig.unread)
        for slot, missing, where in tally.lost_names(rig):
            yield _anything(slot, tally.days(rig), where, missing)


def _first_named(kitlist: KitList) -> Mapping[str, Where]:
    named = [(o.part.name, o.where) for rig in kitlist.rigs for line in rig.lines for o in line.options if o.part]
    return dict(reversed(named))


def _promise(part: Part, days: Days | None, count: int, where: Where) -> Promise:
    first, last = (days.first, days.last) if days else (None, None)
    return Promise(part.name, part.kind, first, last, float(count), float(count), where, part.have)


def _anything(kind: str, days: Days | None, where: Where, missing: tuple[str, ...]) -> Promise:
    first, last = (days.first, days.last) if days else (None, None)
    return Promise("", kind, first, last, 0.0, math.inf, where, missing=missing)


# ---- which lists are looked at together ----------------------------------------------------------------------------


def beside(lists: Sequence[KitList], *, changing: bool = False) -> list[tuple[Promised, ...]]:
    """For each list, what the others that are proofed with it promise of the parts that it promises itself; where it is
    to be changed (`changing`), of all parts of its books, since it may come to take any of them.

    Lists of one name and with different issues are one list: only the newest of them promises anything.
    """
    whole = [promised_by(each) for each in lists]
    shelf = _Shelf(whole)
    wanted = [{each.name for each in own.promises if each.name} for own in whole]
    if changing:
        wanted = [names.union(each.parts) for names, each in zip(wanted, lists, strict=True)]
    return [tuple(shelf.relevant(number, own, wanted[number])) for number, own in enumerate(whole)]


class _Shelf:
    """What many lists promise, laid out by part and by the lists' names, so that each finds what concerns it."""

    def __init__(self, whole: Sequence[Promised]) -> None:
        self.whole = whole
        self.by_title: dict[str, list[int]] = {}
        for number, each in enumerate(whole):
            if each.title:
                self.by_title.setdefault(each.title, []).append(number)
        self.newest = [not self._has_newer(each) for each in whole]
        self.by_part: dict[str, list[tuple[int, int]]] = {}
        for number, each in enumerate(whole):
            for place, promise in enumerate(each.promises if self.newest[number] else ()):
                self.by_part.setdefault(promise.name, []).append((number, place))

    def _has_newer(self, one: Promised) -> bool:
        return any(older(one, self.whole[number]) for number in self.by_title.get(one.title, ()))

    def relevant(self, number: int, own: Promised, mine: Collection[str]) -> Iterator[Promised]:
        """Of the other lists those that promise something of the parts that one promises (`mine`), or may, with that
        alone; and its namesakes, of which other issues promise nothing."""
        found: dict[int, list[int]] = {other: [] for other in self.by_title.get(own.title, ())}
        for name in (*mine, "") if mine else ():
            for other, place in self.by_part.get(name, ()):
                found.setdefault(other, []).append(place)
        for other in sorted(found.keys() - {number}):
            promised = self.whole[other]
            places = () if older(own, promised) else sorted(found[other])
            yield replace(promised, promises=tuple(promised.promises[place] for place in places))


def older(one: Promised, other: Promised) -> bool:
    """Whether one is an older issue of the other."""
    same = bool(one.title) and one.title == other.title
    return same and one.issue is not None and other.issue is not None and one.issue < other.issue


# ---- one part ------------------------------------------------------------------------------------------------------


class Claim(Struct, frozen=True):
    """One promise and whose it is: 0 for the list that is proofed, then the others in their order."""

    whose: int
    promise: Promise


class Calendar:
    """Who has one part when, as it concerns one list: on the days on which that list has it."""

    def __init__(self, part: Part, own: Promised, others: Sequence[Promised]) -> None:
        self.part, self.lists = part, (own, *others)
        found = [
            Claim(whose, each)
            for whose, promised in enumerate(self.lists)
            for each in promised.promises
            if _of_stock(each, part)
        ]
        self.dated = [each for each in found if each.promise.first is not None]
        self.undated = [each for each in found if each.promise.first is None]
        self.mine = [each for each in found if each.whose == 0 and each.promise.name]

    @cached_property
    def _bookings(self) -> list[Booking]:
        found = (each.promise for each in self.dated)
        return [Booking(each.first, each.last, (each.low, each.high)) for each in found]

    @cached_property
    def _days(self) -> frozenset[int] | None:
        """The places of the bookings on whose days this list has it; None where it may have it on any."""
        if any(each.whose == 0 for each in self.undated):
            return None
        return frozenset(place for place, each in enumerate(self.dated) if each.whose == 0)

    @cached_property
    def _undated(self) -> Interval:
        """What is promised on days that are not known: least, all of it this list's, since its orders go together."""
        least = math.fsum(each.promise.low for each in self.undated if each.whose == 0)
        return least, math.fsum(each.promise.high for each in self.undated)

    @cached_property
    def promised(self) -> Amount:
        """The most that is promised on one day on which this list has it."""
        own = frozenset(place for place, each in enumerate(self.dated) if each.whose == 0)
        low = max(promised_at_most(self._bookings, own)[0], self._undated[0])
        high = promised_at_most(self._bookings, self._days)[1] + self._undated[1]
        return Amount(low, high, () if low == high else self._missing())

    def _missing(self) -> tuple[str, ...]:
        """Lines that could not be read and days that are not known, with the list that they are of."""
        met = {place for each in stretches(self._bookings, self._days) for place in each.bookings}
        claims = [each for place, each in enumerate(self.dated) if place in met] + self.undated
        lines = [f"{self._before(each)}{name}" for each in claims for name in each.promise.missing]
        # What one list has on days that are not known goes together; next to anything else its days count.
        alone = len(claims) == len(self.undated) and len({each.whose for each in claims}) < 2
        dates = [] if alone else [f"{self.lists[each.whose].label}: dates" for each in self.undated]
        return tuple(dict.fromkeys((*lines, *dates)))

    def _before(self, claim: Claim) -> str:
        return f"{self.lists[claim.whose].label}: " if claim.whose else ""

    def clashes(self, have: Interval) -> tuple[Clash, ...]:
        """The runs of days on which more are promised than there are: for certain, else those on which it may be."""
        own = frozenset(place for place, each in enumerate(self.dated) if each.whose == 0)
        certain = clashes(self._bookings, have, among=own)
        if certain or self._undated[0] > have[1]:
            return certain
        return clashes(self._bookings, have, certain=False, among=self._days)

    def in_clash(self, have: Interval) -> list[Claim]:
        """The promises that stand on those days; else those on days that are not known, where they are too many."""
        found = {place for each in self.clashes(have) for place in each.bookings}
        if not found and self.promised.high > have[0]:
            return self.undated
        return [each for place, each in enumerate(self.dated) if place in found]

    def in_words(self, have: Interval) -> str:
        """Each run of days, and how many of the part each list has on them."""
        runs = self.clashes(have)
        if not runs:
            undated = self.in_clash(have)
            return f"on days that are not known, {self._shares(undated)}" if undated else ""
        return "; ".join(
            f"{in_words(each.first, each.last)}, {self._shares([self.dated[place] for place in each.bookings])}"
            for each in runs
        )

    def _shares(self, claims: Sequence[Claim]) -> str:
        """How many each list has, this one first: the most on one day of those on which these stand."""
        shares = []
        for whose, promised in enumerate(self.lists):
            one = [each.promise for each in claims if each.whose == whose and each.promise.name]
            if one:
                dated = [Booking(each.first, each.last, (each.low, each.high)) for each in one]
                shares.append(f"{promised_at_most(dated)[0]:g} in {promised.label if whose else 'this list'}")
        more = len(shares) - SEVERAL
        shares = [*shares[:SEVERAL], f"more in {more} further lists"] if more > 1 else shares
        return " and ".join(filter(None, [", ".join(shares[:-1]), *shares[-1:]]))


def _of_stock(promise: Promise, part: Part) -> bool:
    """Whether a promise is of this part of this stock, or may be."""
    if not promise.name:
        return promise.kind in ("", part.kind)
    alike = promise.have is None or part.have is None or promise.have == part.have
    return promise.name == part.name and promise.kind == part.kind and alike


def in_words(first: date | None, last: date | None) -> str:
    """Days as they are written in a list; a last day is kept as it is where a booking ends on it."""
    if first is None or last is None:
        return "on days that are not known"
    return f"on {first}" if first == last else f"from {first} to {last}"
