"""Bookings: held to counting each day."""

from __future__ import annotations

from datetime import date, timedelta
from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from kitproof.mechanics.bookings import Booking, Clash, clashes, promised_at_most, stretches
from kitproof.mechanics.ranges import Interval

START = date(2027, 3, 1)
DAYS = 20


def day(number: int) -> date:
    return START + timedelta(days=number)


def numbers() -> st.SearchStrategy[Interval]:
    return st.tuples(st.integers(0, 4), st.integers(0, 2)).map(lambda n: (float(n[0]), float(n[0] + n[1])))


def bookings(most: int = 6) -> st.SearchStrategy[list[Booking]]:
    """Reversed dates and days without bound among them."""
    one = st.builds(
        Booking,
        st.one_of(st.none(), st.integers(1, DAYS - 2).map(day), st.integers(1, DAYS - 2).map(day)),
        st.one_of(st.none(), st.integers(1, DAYS - 2).map(day), st.integers(1, DAYS - 2).map(day)),
        numbers(),
    )
    return st.lists(one, max_size=most)


def stands(booking: Booking, on: date) -> bool:
    return (booking.first is None or booking.first <= on) and (booking.last is None or on <= booking.last)


def promised_on(made: list[Booking], on: date) -> Interval:
    low = sum(each.number[0] for each in made if stands(each, on))
    return low, sum(each.number[1] for each in made if stands(each, on))


def covers(clash: Clash, on: date) -> bool:
    return (clash.first is None or clash.first <= on) and (clash.last is None or on <= clash.last)


@given(bookings(), numbers(), st.booleans())
def test_clashes_agree_with_counting_each_day(made: list[Booking], owned: Interval, certain: bool) -> None:
    found = clashes(made, owned, certain)
    end = 0 if certain else 1
    for number in range(DAYS):
        on = day(number)
        too_many = promised_on(made, on)[end] > owned[1 - end]
        assert [covers(clash, on) for clash in found].count(True) == int(too_many)
    for clash in found:
        within = [day(number) for number in range(DAYS) if covers(clash, day(number))]
        assert clash.promised == max(promised_on(made, on)[end] for on in within)
        assert set(clash.bookings) == {n for n, each in enumerate(made) if any(stands(each, on) for on in within)}


@given(bookings())
def test_stretches_and_the_most_promised_agree_with_counting_each_day(made: list[Booking]) -> None:
    found = [promised_on(made, day(number)) for number in range(DAYS)]
    assert promised_at_most(made) == (max(low for low, _ in found), max(high for _, high in found))
    for stretch in stretches(made):
        for number in range(DAYS):
            if (stretch.first is None or stretch.first <= day(number)) and (
                stretch.last is None or day(number) <= stretch.last
            ):
                assert stretch.promised == promised_on(made, day(number))


@given(bookings(), st.sets(st.integers(0, 5)), numbers())
def test_only_days_on_which_one_of_some_stands_count_where_that_is_asked(
    made: list[Booking], among: set[int], owned: Interval
) -> None:
    days = [day(number) for number in range(DAYS)]
    meant = [on for on in days if any(stands(made[place], on) for place in among if place < len(made))]
    found = [promised_on(made, on) for on in meant]
    most = max((low for low, _ in found), default=0), max((high for _, high in found), default=0)
    assert promised_at_most(made, among) == most
    clashing = clashes(made, owned, among=among)
    for on in days:
        too_many = on in meant and promised_on(made, on)[0] > owned[1]
        assert any(covers(clash, on) for clash in clashing) is too_many


@given(bookings(), st.integers(0, 5))
def test_runs_are_apart_and_in_order(made: list[Booking], owned: int) -> None:
    found = clashes(made, (owned, owned))
    for one, other in pairwise(found):
        assert one.last is not None
        assert other.first is not None
        assert one.last + timedelta(days=1) < other.first


@given(bookings(4), bookings(1), numbers())
def test_one_booking_more_never_promises_less(made: list[Booking], more: list[Booking], owned: Interval) -> None:
    before, after = promised_at_most(made), promised_at_most([*made, *more])
    assert before[0] <= after[0]
    assert before[1] <= after[1]
    if clashes(made, owned):
        assert clashes([*made, *more], owned)


def test_the_same_head_promised_on_thursday() -> None:
    """Two of three booked 8 to 19 March, two more from the 18th on: two days on which four are promised."""
    made = [
        Booking(date(2027, 3, 8), date(2027, 3, 19), (2, 2)),
        Booking(date(2027, 3, 18), date(2027, 3, 25), (2, 2)),
        Booking(date(2027, 3, 26), date(2027, 3, 30), (3, 3)),
    ]
    assert clashes(made, (3, 3)) == (Clash(date(2027, 3, 18), date(2027, 3, 19), 4, (0, 1)),)
    assert clashes(made, (4, 4)) == ()
    assert promised_at_most(made) == (4, 4)


def test_last_day_and_first_day_the_same_is_a_clash() -> None:
    made = [Booking(day(1), day(5), (1, 1)), Booking(day(5), day(9), (1, 1))]
    assert clashes(made, (1, 1)) == (Clash(day(5), day(5), 2, (0, 1)),)


def test_what_may_be_and_what_is_certain() -> None:
    made = [Booking(day(1), day(5), (1, 3)), Booking(day(3), day(9), (2, 2))]
    assert clashes(made, (3, 4)) == ()
    assert clashes(made, (3, 4), certain=False) == (Clash(day(3), day(5), 5, (0, 1)),)


def test_days_that_are_not_known_run_on_without_bound() -> None:
    made = [Booking(None, None, (1, 1)), Booking(day(3), None, (1, 1))]
    assert clashes(made, (1, 1)) == (Clash(day(3), None, 2, (0, 1)),)
    assert clashes(made, (0, 0)) == (Clash(None, None, 2, (0, 1)),)


def test_the_ends_of_all_days_and_dates_reversed() -> None:
    assert clashes([Booking(date.min, date.max, (2, 2))], (1, 1)) == (Clash(date.min, date.max, 2, (0,)),)
    assert clashes([Booking(day(5), day(3), (9, 9))], (1, 1)) == ()
    assert promised_at_most([]) == (0, 0)
