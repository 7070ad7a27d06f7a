"""What is promised on each day, and the days on which more of a part is promised than is owned.

A booking has a first and a last day, both included. Days are whole. Counting goes by the days on which something
begins or has ended, so that a season costs no more than a week.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from datetime import date
from itertools import pairwise
from typing import NamedTuple

from kitproof.mechanics.ranges import Interval


class Booking(NamedTuple):
    """So many of one part from a first day to a last. A day of None is not known: without bound on that side.

    Where the last day is before the first it holds no day at all; that dates are reversed is for somebody else to say.
    """

    first: date | None
    last: date | None
    number: Interval


class Stretch(NamedTuple):
    """Days in a row on which the same bookings stand: the places of these in the list given, and their count in all.

    A day of None is without bound on that side.
    """

    first: date | None
    last: date | None
    promised: Interval
    bookings: tuple[int, ...]


class Clash(NamedTuple):
    """Days in a row on each of which more is promised than owned: `clash_from`, `clash_to`, the most promised on one
    day of them, and the places of all bookings that stand on any of them."""

    first: date | None
    last: date | None
    promised: float
    bookings: tuple[int, ...]


def stretches(bookings: Sequence[Booking], among: Collection[int] | None = None) -> tuple[Stretch, ...]:
    """All days on which anything is booked, in order, cut wherever the bookings that stand change.

    `among`: only days on which a booking at one of these places stands.
    """
    spans = [_span(each) for each in bookings]
    cuts = sorted({cut for first, after in spans if first < after for cut in (first, after)})
    found: list[Stretch] = []
    for first, after in pairwise(cuts):
        standing = tuple(place for place, span in enumerate(spans) if span[0] <= first and after <= span[1])
        if standing if among is None else not set(among).isdisjoint(standing):
            counts = [bookings[place].number for place in standing]
            promised = sum(low for low, _ in counts), sum(high for _, high in counts)
            found.append(Stretch(_day(first), _day(after - 1), promised, standing))
    return tuple(found)


def promised_at_most(bookings: Sequence[Booking], among: Collection[int] | None = None) -> Interval:
    """`promised`: the most that stands on any one day. Exact: each end is the most of that end over the days.

    `among` as for `stretches`.
    """
    found = [each.promised for each in stretches(bookings, among)]
    return max((low for low, _ in found), default=0.0), max((high for _, high in found), default=0.0)


def clashes(
    bookings: Sequence[Booking], owned: Interval, certain: bool = True, among: Collection[int] | None = None
) -> tuple[Clash, ...]:
    """The runs of days on which more is promised than owned, in order.

    `certain`: the least promised against the most owned; otherwise those that may be, the most promised against the
    least owned. `among` as for `stretches`.
    """
    end = 0 if certain else 1
    found: list[Clash] = []
    for each in stretches(bookings, among):
        promised = float(each.promised[end])
        if promised <= owned[1 - end]:
            continue
        before = found[-1] if found else None
        if before is not None and before.last is not None and each.first is not None and _next(before.last, each.first):
            places = tuple(sorted({*before.bookings, *each.bookings}))
            found[-1] = Clash(before.first, each.last, max(before.promised, promised), places)
        else:
            found.append(Clash(each.first, each.last, promised, each.bookings))
    return tuple(found)


def _next(day: date, other: date) -> bool:
    return day.toordinal() + 1 == other.toordinal()


FIRST, LAST = date.min.toordinal(), date.max.toordinal()


def _span(booking: Booking) -> tuple[int, int]:
    """Its first day, and the day after its last, counted; one beyond all days where it has no bound."""
    first = FIRST - 1 if booking.first is None else booking.first.toordinal()
    return first, (LAST + 1 if booking.last is None else booking.last.toordinal()) + 1


def _day(counted: int) -> date | None:
    return date.fromordinal(counted) if FIRST <= counted <= LAST else None
