"""What a list orders, what its rigs use, and how many they need at one time: counts over one list.

A kit counts as itself and as all that it includes. `have` of a part counts those that lie in kits too.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterator, Mapping, Sequence
from functools import cached_property
from itertools import combinations as pairs

from kitproof.facts.boxes import boxes
from kitproof.mechanics.bookings import Booking, stretches
from kitproof.model.kitlist import KitList
from kitproof.model.parts import Part
from kitproof.model.rigs import Days, Rig
from kitproof.reading.document import Where


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

    def taken_apart(self, part: Part, count: int) -> Mapping[str, int]:
        """A part so many times, and all that it includes where it is a kit."""
        counts: dict[str, int] = {}
        self._add(counts, part, count, ())
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
            for name, most in _most_standing(rig).items():
                counts.setdefault(name, {})[rig.name] = most
        return counts

    def may_need(self, part: Part) -> tuple[str, ...]:
        """Lines of rigs that could not be read and may have named the part."""
        found = [name for slot, missing in self._lost for name in missing if slot in (part.kind, "")]
        return tuple(dict.fromkeys(found))

    @cached_property
    def _lost(self) -> tuple[tuple[str, tuple[str, ...]], ...]:
        """What may have named a part: the kind that was meant ("" for any), and what is missing."""
        lines = [("", rig.unread) for rig in self.kitlist.rigs]
        names = [(slot, missing) for rig in self.kitlist.rigs for slot, missing, _ in self.lost_names(rig)]
        return (*lines, *names)

    @staticmethod
    def lost_names(rig: Rig) -> Iterator[tuple[str, tuple[str, ...], Where]]:
        """Alternatives that name nothing: the kind of part that was meant ("" for any), what is missing, the place."""
        for line in rig.lines:
            for option in line.options:
                part = option.part
                if part is not None and not part.name and not part.described:
                    yield "" if line.slot == "accessory" else line.slot, (part.lacks("mass"),), option.where

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

    @cached_property
    def wanting(self) -> dict[str, list[Rig]]:
        """The rigs that need a part, by its name, in the order listed."""
        named: dict[str, list[Rig]] = {}
        for rig in self.kitlist.rigs:
            named.setdefault(rig.name, []).append(rig)
        return {name: [rig for each in needs for rig in named[each]] for name, needs in self.needs.items()}

    def at_once(self, name: str) -> int:
        """The most of a part that rigs standing together need.

        Rigs stand together where their days overlap and neither says `instead of` the other. Overlap of days is looked
        at in pairs: spans that meet two by two have a day in common, so that the greatest sum over sets of rigs that
        may all stand together is the greatest over the days.
        """
        return self._most_together(name, self.wanting.get(name, []))

    def at_once_by_day(self, name: str) -> list[tuple[Days | None, int]]:
        """How many rigs that stand together need, by runs of days; None where the days of one are not known."""
        mine = self.wanting.get(name, [])
        spans = [self.days(rig) for rig in mine]
        known = [each for each in spans if each is not None]
        if len(known) < len(spans):
            return [(None, self._most_together(name, mine))]
        bookings = [Booking(each.first, each.last, (1.0, 1.0)) for each in known]
        found: list[tuple[Days | None, int]] = []
        for each in stretches(bookings):
            if each.first is not None and each.last is not None:
                count = self._most_together(name, [mine[place] for place in each.bookings])
                found.append((Days(first=each.first, last=each.last), count))
        return found

    def _most_together(self, name: str, rigs: Sequence[Rig]) -> int:
        apart = {frozenset((a.name, b.name)) for a, b in pairs(rigs, 2) if not self.together(a, b)}
        return _heaviest([(rig.name, self.needs[name][rig.name]) for rig in rigs], apart)

    def together(self, a: Rig, b: Rig) -> bool:
        """Whether two rigs may stand on one day."""
        if b.name in a.instead_of or a.name in b.instead_of:
            return False
        first, second = self.days(a), self.days(b)
        return first is None or second is None or first.meets(second)

    def days(self, rig: Rig) -> Days | None:
        """Its own days, else the list's; none where its own could not be read, which may then be any."""
        return rig.dates if "dates" in rig.places else self.kitlist.dates


def _most_standing(rig: Rig) -> dict[str, int]:
    """How many of each part a rig needs at most, from all its combinations: where the same lines stand, each line
    chooses for itself."""
    most: Counter[str] = Counter()
    for box in boxes(rig):
        here: Counter[str] = Counter()
        for line, choices in zip(rig.lines, box.choices, strict=True):
            chosen = (line.options[choice].part for choice in choices)
            for name in {part.name for part in chosen if part is not None and part.name}:
                here[name] += 1 + line.spare
        most |= here  # the greater of the two for each name
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
        whole += _heaviest_group(mine, apart)
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
