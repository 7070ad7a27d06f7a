"""What lists promise of one stock: held to counting every part of every list on every day."""

from __future__ import annotations

import itertools
from datetime import timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec import Struct

from kitproof.facts.promises import beside, promised_by
from kitproof.facts.values import Amount
from tests.facts.stocked import FIRST, HAVE, STOCK, a_list, dates, item, said

DAYS = range(-1, 16)
IN_KITS = {"H": {"H": 1, "K": 2, "KK": 2}, "L": {"L": 1, "K": 1, "KK": 2}}

Span = tuple[int, int]


spans = st.tuples(st.integers(0, 9), st.integers(0, 4)).map(lambda two: (two[0], sum(two)))


class Bought(Struct, frozen=True):
    """One order of a random list: its own days (None: the list's) and what it names, how often."""

    days: Span | None
    lines: list[tuple[int, str]]


class Made(Struct, frozen=True):
    """A random list with days of its own."""

    days: Span
    orders: list[Bought]

    def text(self, number: int) -> str:
        text = f'list "List {number}"\n{dates(self.days)}'
        for order in self.orders:
            text += "order\n" + (dates(order.days) if order.days else "")
            text += "".join(f'  {count} x "{name}"\n' for count, name in order.lines)
        return text

    def on(self, day: int, name: str) -> int:
        """How many of a part it has on a day, counted."""
        return sum(
            count * IN_KITS[name].get(part, 0)
            for order in self.orders
            for count, part in order.lines
            if (order.days or self.days)[0] <= day <= (order.days or self.days)[1]
        )


lines = st.lists(st.tuples(st.integers(1, 2), st.sampled_from(["H", "L", "K", "KK"])), min_size=1, max_size=2)
orders = st.lists(st.builds(Bought, st.one_of(st.none(), spans), lines), min_size=1, max_size=2)
several = st.lists(st.builds(Made, spans, orders), min_size=1, max_size=4)


@given(several, st.sampled_from(["H", "L"]))
def test_the_calendar_of_the_stock_agrees_with_counting_each_day(made: list[Made], name: str) -> None:
    lists = [a_list(each.text(number), f"{number}.kitlist") for number, each in enumerate(made)]
    total = {day: sum(each.on(day, name) for each in made) for day in DAYS}
    for number, each in enumerate(made):
        mine = [day for day in DAYS if each.on(day, name)]
        found = item(lists, number, name)
        if found is None:
            assert not mine
            continue
        most = max((total[day] for day in mine), default=0)
        assert found.amount("promised") == Amount(most, most)
        over = [FIRST + timedelta(days=day) for day in mine if total[day] > HAVE]
        assert said(found, "clash_from") == (str(over[0]) if over else None)
        assert said(found, "clash_to") == (str(over[-1]) if over else None)
        if over:
            others = {
                other for other, them in enumerate(made) if any(them.on(d, name) for d in mine if total[d] > HAVE)
            }
            assert {found.calendar.lists[claim.whose].path for claim in found.clashing} == {
                f"{other}.kitlist" for other in others
            }


class Stand(Struct, frozen=True):
    """One rig of a list that orders nothing: its days, and the rig that it stands instead of."""

    days: Span
    instead: int | None


@given(st.lists(st.builds(Stand, spans, st.one_of(st.none(), st.integers(0, 4))), min_size=1, max_size=5), spans)
def test_rigs_that_do_not_stand_at_one_time_share_a_part(rigs: list[Stand], other: Span) -> None:
    text = 'list "Rigs"\n' + "".join(
        f'rig {number}\n{dates(rig.days)}  head "H"\n'
        + (f"  instead of {rig.instead}\n" if rig.instead not in (None, number) and rig.instead < len(rigs) else "")
        for number, rig in enumerate(rigs)
    )
    lists = [a_list(text, "rigs.kitlist"), a_list(f'list "Other"\n{dates(other)}order\n  2 x "H"\n', "other.kitlist")]
    found = item(lists, 0, "H")
    assert found is not None
    per_day = {day: standing(rigs, day) for day in DAYS}
    most = max(count + (2 if other[0] <= day <= other[1] else 0) for day, count in per_day.items() if count)
    assert found.amount("promised") == Amount(most, most)


def standing(rigs: list[Stand], day: int) -> int:
    """The most that any set of rigs that may stand together on a day has, every set tried."""
    here = [number for number, rig in enumerate(rigs) if rig.days[0] <= day <= rig.days[1]]
    sets = (each for size in range(len(here) + 1) for each in itertools.combinations(here, size))
    return max(len(each) for each in sets if not any(rigs[a].instead == b for a in each for b in each if a != b))


ORDER = 'order "From Harrowby"\n  {} x "H"\n'


def test_lists_without_days_may_meet_and_may_not() -> None:
    dated = a_list(f'list "A"\n{dates((0, 3))}{ORDER.format(2)}', "a.kitlist")
    undated = a_list(f'list "B"\n{ORDER.format(2)}', "b.kitlist")
    found = [item([dated, undated], number, "H") for number in (0, 1)]
    assert [each and each.amount("promised") for each in found] == [Amount(2, 4, ('list "B": dates',))] * 2


def test_one_list_without_days_has_all_it_orders_at_one_time() -> None:
    alone = item([a_list(f'list "B"\n{ORDER.format(2)}{ORDER.format(2)}')], 0, "H")
    assert alone is not None
    assert alone.amount("promised") == Amount(4, 4)
    assert said(alone, "clashes") == "on days that are not known, 4 in this list"


def test_days_of_an_order_that_cannot_be_read_are_not_those_of_its_list() -> None:
    text = f'list "A"\n{dates((0, 3))}{ORDER.format(2)}'
    turned = text + 'order\n  dates 2027-06-09 to 2027-06-01\n  2 x "H"\n'
    found = item([a_list(turned)], 0, "H")
    assert found is not None
    assert found.amount("promised") == Amount(2, 4, ('list "A": dates',))


@pytest.mark.parametrize("word", ["dats", "date", "wanted"])
@pytest.mark.parametrize("entry", ["order", "rig A"])
def test_days_behind_a_word_that_is_misspelt_are_not_those_of_the_list(word: str, entry: str) -> None:
    """What is certain on the days of the list is only what the other list has on them."""
    line = '2 x "H"' if entry == "order" else 'head "H"'
    misspelt = f"{entry}\n  {word} 2027-07-01 to 2027-07-03\n  {line}\n"
    first = a_list(f'list "A"\n{dates((0, 3))}{ORDER.format(2)}', "a.kitlist")
    found = item([first, a_list(f'list "B"\n{dates((0, 3))}{misspelt}', "b.kitlist")], 0, "H")
    assert found is not None
    assert found.amount("promised").low == 2
    assert found.amount("promised").high == float("inf")
    assert 'list "B": dates' in found.amount("promised").missing


def test_a_line_that_has_nothing_of_days_leaves_an_order_those_of_its_list() -> None:
    first = a_list(f'list "A"\n{dates((0, 3))}{ORDER.format(2)}', "a.kitlist")
    broken = a_list(f'list "B"\n{dates((0, 3))}{ORDER.format(2)}  2 x H\n', "b.kitlist")
    found = item([first, broken], 0, "H")
    assert found is not None
    assert found.amount("promised").low == 4


@pytest.mark.parametrize(
    ("broken", "missing"),
    [
        ('order\n  2 x "H"\n  2 x H\n', 'list "B": order line 15, which could not be read'),
        ('rig A\n  head "H"\n  had "H"\n', None),
    ],
)
def test_a_line_of_another_list_that_cannot_be_read_may_promise_anything(broken: str, missing: str | None) -> None:
    lists = [
        a_list(f'list "A"\n{dates((0, 3))}{ORDER.format(2)}', "a.kitlist"),
        a_list(f'list "B"\n{dates((2, 5))}{broken}', "b.kitlist"),
    ]
    found = item(lists, 0, "H")
    assert found is not None
    amount = found.amount("promised")
    assert amount.high == float("inf")
    assert amount.missing
    assert missing is None or amount.missing == (missing,)


def test_a_line_that_cannot_be_read_is_nothing_to_a_list_with_other_days() -> None:
    lists = [
        a_list(f'list "A"\n{dates((0, 3))}{ORDER.format(2)}', "a.kitlist"),
        a_list(f'list "B"\n{dates((4, 5))}order\n  2 x H\n', "b.kitlist"),
    ]
    found = item(lists, 0, "H")
    assert found is not None
    assert found.amount("promised") == Amount(2, 2)


def test_only_the_newest_issue_of_a_list_promises() -> None:
    head = 'list "A"\n  issue {}\n' + dates((0, 3))
    lists = [a_list(head.format(issue) + ORDER.format(3), f"{issue}.kitlist") for issue in (1, 2, 3)]
    lists.append(a_list(f'list "B"\n{dates((2, 5))}{ORDER.format(1)}', "b.kitlist"))
    promised = [item(lists, number, "H") for number in range(4)]
    assert [each and each.amount("promised").low for each in promised] == [4, 4, 4, 4]
    other = promised[3]
    assert other is not None
    assert {other.calendar.lists[each.whose].path for each in other.clashing} == {"3.kitlist", "b.kitlist"}


def test_books_that_count_a_part_otherwise_are_of_other_houses() -> None:
    mine = a_list(f'list "A"\n{dates((0, 3))}{ORDER.format(2)}', "a.kitlist")
    theirs = a_list(f'list "B"\n{dates((0, 3))}{ORDER.format(2)}', "b.kitlist", STOCK.replace("have 3", "have 5"))
    found = item([mine, theirs], 0, "H")
    assert found is not None
    assert found.amount("promised") == Amount(2, 2)


def test_what_is_passed_to_a_list_is_only_what_bears_on_it() -> None:
    head = 'list "{}"\n' + dates((0, 3))
    lists = [
        a_list(head.format("A") + 'order\n  1 x "H"\n', "a.kitlist"),
        a_list(head.format("B") + 'order\n  1 x "L"\n', "b.kitlist"),
        a_list(head.format("C") + 'order\n  1 x "L"\n  1 x "H"\n', "c.kitlist"),
    ]
    passed = beside(lists)
    assert [[each.path for each in one] for one in passed] == [["c.kitlist"], ["c.kitlist"], ["a.kitlist", "b.kitlist"]]
    assert [promise.name for promise in passed[0][0].promises] == ["H"]
    assert hash(passed[0]) == hash(beside(lists)[0])
    assert promised_by(lists[0]) == promised_by(lists[0])
