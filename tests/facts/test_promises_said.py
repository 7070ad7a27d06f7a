"""What is said of a stock that is promised too often: when, by whom, how many, where it is written, what is missing."""

from __future__ import annotations

import math

import pytest

from kitproof.facts.orders import items
from kitproof.facts.promises import beside, older, promised_by
from kitproof.facts.registry import FACTS
from kitproof.facts.subject import Setting
from kitproof.facts.tally import Tally
from kitproof.facts.values import Amount, Held, Truth, Verdict, Words
from kitproof.model.kitlist import KitList
from kitproof.model.promises import Promise, Promised
from tests.facts.stocked import FIRST, HAVE, STOCK, a_list, dates, item, known_item, said
from tests.model.texts import DAY

Span = tuple[int, int]
BROKEN = "  2 x H\n"
"""A line of an order that cannot be read."""


def ordering(title: str, *orders: tuple[int, Span | None], stock: str = STOCK) -> KitList:
    """A list of a title, with an order for each count of "H", which has days of its own or none."""
    text = f'list "{title}"\n' if title else ""
    for count, span in orders:
        text += f'order\n{dates(span) if span else ""}  {count} x "H"\n'
    return a_list(text, f"{title or 'untitled'}.kitlist", stock)


@pytest.mark.parametrize(
    ("lists", "words"),
    [
        ([ordering("A", (2, (0, 3))), ordering("B", (1, (0, 1)))], ""),
        ([ordering("A", (4, (0, 3)))], "from 2027-05-01 to 2027-05-04, 4 in this list"),
        (
            [ordering("A", (2, (0, 3))), ordering("B", (2, (1, 2)))],
            'from 2027-05-02 to 2027-05-03, 2 in this list and 2 in list "B"',
        ),
        (
            [ordering("A", (2, (0, 3))), ordering("", (2, (2, 2)))],
            "on 2027-05-03, 2 in this list and 2 in untitled.kitlist",
        ),
        (
            [ordering("A", (2, (0, 0))), ordering("B", (1, (0, 0))), ordering("C", (1, (0, 0)))],
            'on 2027-05-01, 2 in this list, 1 in list "B" and 1 in list "C"',
        ),
        (
            [ordering("A", (2, (0, 3))), ordering("B", (2, (1, 1))), ordering("C", (2, (3, 3)))],
            'on 2027-05-02, 2 in this list and 2 in list "B"; on 2027-05-04, 2 in this list and 2 in list "C"',
        ),
        (
            [ordering("A", (2, (0, 1))), ordering("B", (2, (0, 0)), (3, (1, 1)))],
            'from 2027-05-01 to 2027-05-02, 2 in this list and 3 in list "B"',
        ),
        (
            [ordering("A", (2, (0, 1))), ordering("B", (2, (0, 0)), (3, (0, 1)))],
            'from 2027-05-01 to 2027-05-02, 2 in this list and 5 in list "B"',
        ),
    ],
)
def test_a_clash_says_its_days_and_the_most_that_each_list_has_on_one_of_them(lists: list[KitList], words: str) -> None:
    found = known_item(lists, 0, "H")
    assert said(found, "clashes") == words
    assert (said(found, "clash_from") or "none") in (words or "none")
    assert (said(found, "clash_to") or "none") in (words or "none")


@pytest.mark.parametrize(
    ("others", "words"),
    [
        (4, '1 in this list, 1 in list "B", 1 in list "C", 1 in list "D" and 1 in list "E"'),
        (5, '1 in this list, 1 in list "B", 1 in list "C", 1 in list "D", 1 in list "E" and 1 in list "F"'),
        (6, '1 in this list, 1 in list "B", 1 in list "C", 1 in list "D", 1 in list "E" and more in 2 further lists'),
    ],
)
def test_many_lists_are_counted_instead_of_named_but_never_only_one(others: int, words: str) -> None:
    lists = [ordering(title, (1, (0, 0))) for title in "ABCDEFG"[: others + 1]]
    assert said(known_item(lists, 0, "H"), "clashes") == f"on 2027-05-01, {words}"


@pytest.mark.parametrize(
    ("lists", "words", "who"),
    [
        # Two on some day or other, with two from the 1st to the 4th: too many if that day is one of those.
        ([ordering("A", (2, None)), ordering("B", (2, (0, 3)))], "on days that are not known, 2 in this list", [0]),
        ([ordering("A", (2, (0, 3))), ordering("B", (2, None))], 'on days that are not known, 2 in list "B"', [1]),
        # What a list has on days that are not known is too much by itself.
        ([ordering("A", (4, None)), ordering("B", (4, (0, 3)))], "on days that are not known, 4 in this list", [0]),
        # There are just so many, but the other list has too many on days that may be this one's.
        ([ordering("A", (3, None)), ordering("B", (4, (0, 3)))], 'from 2027-05-01 to 2027-05-04, 4 in list "B"', [1]),
        # The same, though two lists together have too many on days that are not known.
        (
            [ordering("A", (2, None)), ordering("B", (2, None)), ordering("C", (4, (0, 3)))],
            'from 2027-05-01 to 2027-05-04, 4 in list "C"',
            [2],
        ),
        # Just so many are there: one of A, and two of B on any day.
        ([ordering("A", (1, (0, 3))), ordering("B", (2, None))], "", []),
        # Days on which only the other list has it are nothing to this one.
        ([ordering("A", (1, (0, 0))), ordering("B", (4, (2, 3)))], "", []),
    ],
)
def test_days_that_are_not_known_may_be_any(lists: list[KitList], words: str, who: list[int]) -> None:
    found = known_item(lists, 0, "H")
    assert said(found, "clashes") == words
    assert [each.whose for each in found.clashing] == who


def test_more_than_a_number_that_no_book_tells_may_be_promised_on_each_day() -> None:
    lists = [ordering("A", (1, (0, 3)), stock='part head "H"\n'), ordering("B", (2, (1, 1)))]
    found = known_item(lists, 0, "H")
    assert found.amount("have") == Amount(0, math.inf, ('head "H": have',))
    assert found.value("stock_told") == Verdict(Truth.FALSE)
    assert (said(found, "clash_from"), said(found, "clash_to")) == ("2027-05-01", "2027-05-04")
    assert found.amount("promised") == Amount(3, 3)


def test_no_number_is_too_many_for_certain_where_no_book_tells_how_many_there_are() -> None:
    """So that days of another list, which may be this one's, are said before those that are not known."""
    lists = [ordering("A", (1, None), stock='part head "H"\n'), ordering("B", (4, (0, 3)))]
    assert said(known_item(lists, 0, "H"), "clashes") == 'from 2027-05-01 to 2027-05-04, 4 in list "B"'
    assert said(known_item(lists[:1], 0, "H"), "clashes") == "on days that are not known, 1 in this list"


def test_days_with_too_many_for_certain_are_said_without_those_that_may_have_too_many() -> None:
    unread = a_list(f'list "B"\norder\n{dates((2, 2))}{BROKEN}', "b.kitlist")
    certain = known_item([ordering("A", (4, (0, 0)), (2, (2, 2))), unread], 0, "H")
    assert said(certain, "clashes") == "on 2027-05-01, 4 in this list"


def test_a_list_of_which_no_number_is_known_is_not_counted_in_words() -> None:
    unread = a_list(f'list "B"\norder\n{dates((2, 2))}{BROKEN}', "b.kitlist")
    assert said(known_item([ordering("A", (2, (2, 2))), unread], 0, "H"), "clashes") == "on 2027-05-03, 2 in this list"


def test_parts_of_one_kind_are_counted_each_by_its_name() -> None:
    stock = STOCK + f'part head "other"\n  have {HAVE}\n'
    mine = a_list('list "A"\norder\n  2 x "H"\n  1 x "other"\n', stock=stock)
    assert [known_item([mine], 0, name).amount("promised") for name in ("H", "other")] == [Amount(2, 2), Amount(1, 1)]


def test_what_another_list_has_on_days_that_are_not_known_is_no_least_of_this_one() -> None:
    lists = [ordering("A", (1, (0, 3))), ordering("B", (2, None))]
    promised = [known_item(lists, number, "H").amount("promised") for number in (0, 1)]
    assert [(each.low, each.high) for each in promised] == [(1, 3), (2, 3)]


def test_an_order_of_none_leaves_no_doubt_whenever_it_is() -> None:
    assert known_item([ordering("A", (2, (0, 3))), ordering("B", (0, None))], 0, "H").amount("promised") == Amount(2, 2)


@pytest.mark.parametrize(
    ("stock", "most"),
    [
        (STOCK, 4),
        ('part head "H"\n', 4),
        ('part lens "H"\n  have 3\n', 2),
        ('part head "H"\n  have 4\n', 2),
    ],
)
def test_a_stock_is_shared_where_books_describe_it_alike(stock: str, most: int) -> None:
    lists = [ordering("A", (2, (0, 3))), ordering("B", (2, (0, 3)), stock=stock)]
    assert known_item(lists, 0, "H").amount("promised") == Amount(most, most)
    assert known_item(lists, 1, "H").amount("promised") == Amount(most, most)


# ---- what is missing -----------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("lists", "missing"),
    [
        # All of one list goes together, whenever that is; nobody need be asked.
        (['list "A"\norder\n  2 x "H"\norder\n  2 x "H"\n'], ()),
        (
            ['list "A"\norder\n  2 x "H"\n' + BROKEN],
            ("order line 14, which could not be read",),
        ),
        # Next to another list its days count, and so do those of the other.
        (['list "A"\norder\n  2 x "H"\n', 'list "B"\norder\n  2 x "H"\n'], ('list "A": dates', 'list "B": dates')),
        (
            ['list "A"\norder\n  2 x "H"\n', f'list "B"\n{dates((0, 3))}order\n  2 x "H"\n{BROKEN}'],
            ('list "B": order line 15, which could not be read', 'list "A": dates'),
        ),
        # A line on other days than this list's may hold what it will.
        (
            [
                f'list "A"\n{dates((0, 1))}order\n  2 x "H"\n',
                f'list "B"\norder\n{dates((2, 3))}{BROKEN}order\n  1 x "H"\n',
            ],
            ('list "B": dates',),
        ),
    ],
)
def test_what_makes_a_promise_uncertain_is_named_with_the_list_it_is_of(
    lists: list[str], missing: tuple[str, ...]
) -> None:
    found = known_item([a_list(text, f"{number}.kitlist") for number, text in enumerate(lists)], 0, "H")
    assert found.amount("promised").missing == missing


def test_a_name_of_a_rig_that_cannot_be_read_may_be_any_part_of_its_slot() -> None:
    rigs = a_list(f'list "B"\n{dates((0, 3))}rig A\n  head "H\n', "b.kitlist")
    lists = [a_list(f'list "A"\n{dates((0, 3))}order\n  1 x "H"\n  1 x "L"\n', "a.kitlist"), rigs]
    assert known_item(lists, 0, "H").amount("promised").high == math.inf
    assert known_item(lists, 0, "L").amount("promised") == Amount(1, 1)


# ---- where it is written -------------------------------------------------------------------------------------------


def test_the_place_of_a_promise_is_the_first_that_stands_on_days_with_too_many() -> None:
    """Of three orders of A the second and the third stand on the day on which B has two."""
    mine = ordering("A", (1, (0, 0)), (1, (3, 3)), (1, (3, 3)))
    found = known_item([mine, ordering("B", (2, (3, 3)))], 0, "H")
    assert found.where(("promised",)) == mine.orders[1].lines[0].where
    assert found.where(("ordered",)) == mine.orders[0].lines[0].where
    alone = known_item([mine], 0, "H")
    assert alone.where(("promised",)) == mine.orders[0].lines[0].where


def test_the_place_of_a_promise_is_in_the_list_that_is_proofed() -> None:
    """Only days of another list have too many for certain, as this one's are not known."""
    mine = ordering("A", (2, None))
    assert known_item([mine, ordering("B", (4, (0, 3)))], 0, "H").where(("promised",)) == mine.orders[0].lines[0].where


def test_a_line_that_cannot_be_read_is_not_the_place_of_what_is_promised() -> None:
    mine = a_list(f'list "A"\norder\n{BROKEN}order\n  2 x "H"\n')
    found = known_item([mine, ordering("B", (4, (0, 3)))], 0, "H")
    assert found.where(("promised",)) == mine.orders[1].lines[0].where
    unread = a_list(f'rig A\n  head "H"\norder\n{BROKEN}')
    assert known_item([unread], 0, "H").where(("promised",)) == unread.rigs[0].lines[0].where


def test_what_an_order_does_not_have_is_placed_where_a_rig_names_it_first() -> None:
    """The list orders lenses, so that what its rigs use is not promised."""
    mine = a_list('rig A\n  head "H"\n  head "H"\norder\n  1 x "L"\n')
    found = known_item([mine], 0, "H")
    assert found.where(("promised",)) == found.where() == mine.rigs[0].lines[0].where


def test_what_rigs_use_is_promised_where_the_first_of_them_names_it() -> None:
    mine = a_list(f'list "A"\n{dates((0, 3))}rig A\n  lens "L"\nrig B\n  head "H"\n  head "H"\nrig C\n  head "H"\n')
    (lens, head) = promised_by(mine).promises
    first, last = FIRST, FIRST.replace(day=4)
    assert lens == Promise("L", "lens", first, last, 1, 1, mine.rigs[0].lines[0].where, HAVE)
    assert head == Promise("H", "head", first, last, 3, 3, mine.rigs[1].lines[0].where, HAVE)


def test_a_slot_that_may_stay_empty_promises_the_part_that_may_stand_in_it() -> None:
    mine = a_list(f'list "A"\n{dates((0, 0))}rig A\n  lens none or "L"\n')
    (lens,) = promised_by(mine).promises
    assert (lens.name, lens.low, lens.high) == ("L", 1, 1)


def test_lines_of_a_rig_that_cannot_be_read_promise_anything_on_its_days() -> None:
    mine = a_list(f'list "A"\n{dates((0, 3))}rig A\n{dates((1, 2))}  head "H\n  had "H"\n')
    anything, a_head = promised_by(mine).promises
    rig = mine.rigs[0]
    days = FIRST.replace(day=2), FIRST.replace(day=3)
    assert anything == Promise("", "", *days, 0, math.inf, rig.where, missing=rig.unread)
    assert (a_head.kind, a_head.first, a_head.last, a_head.low, a_head.high) == ("head", *days, 0, math.inf)
    assert a_head.where == rig.lines[0].options[0].where
    assert a_head.missing


def test_a_list_promises_under_its_name_and_issue_what_it_orders() -> None:
    mine = a_list(f'list "A"\n  issue 2\n{dates((0, 3))}order\n  1 x "K"\n  1 x "nowhere"\n')
    where = mine.orders[0].lines[0].where
    first, last = FIRST, FIRST.replace(day=4)
    assert promised_by(mine) == Promised(
        "list.kitlist",
        "A",
        2,
        mine.where,
        (
            Promise("K", "kit", first, last, 1, 1, where, 9),
            Promise("H", "head", first, last, 2, 2, where, HAVE),
            Promise("L", "lens", first, last, 1, 1, where, HAVE),
        ),
    )


def test_what_only_others_promise_is_placed_where_a_rig_names_it() -> None:
    """A list that is to be changed is told of others' promises of parts that it promises none of."""
    lists = [a_list('rig A\n  head "H"\norder\n  1 x "L"\n', "a.kitlist"), ordering("B", (4, (0, 3)))]
    setting = Setting(lists[0], DAY, {}, FACTS, beside(lists, changing=True)[0])
    head = next(each for each in items(setting, Tally(lists[0])) if each.part.name == "H")
    assert head.where(("promised",)) == lists[0].rigs[0].lines[0].where


# ---- each promise --------------------------------------------------------------------------------------------------


def test_each_promise_of_a_clash_says_whose_it_is_how_many_and_when() -> None:
    lists = [ordering("A", (2, (0, 3))), ordering("B", (2, (2, 2)), (1, None))]
    found = known_item(lists, 0, "H")
    bookings = found.value("clashing")
    assert isinstance(bookings, tuple)
    names = ("list", "own", "count", "days")
    told: list[list[Held]] = [[each.value(name) for name in names] for each in bookings]
    assert told == [
        [Words('list "A"'), Verdict(Truth.TRUE), Amount(2, 2), Words("from 2027-05-01 to 2027-05-04")],
        [Words('list "B"'), Verdict(Truth.FALSE), Amount(2, 2), Words("on 2027-05-03")],
    ]
    mine, other = (each for each in bookings)
    assert [getattr(each, "label", "") for each in (mine, other)] == ['head "H" in list "A"', 'head "H" in list "B"']
    assert getattr(other, "within", ()) == ('part "H"',)
    assert getattr(other, "where", lambda: None)() == lists[1].orders[0].lines[0].where


def test_a_line_that_cannot_be_read_promises_any_number() -> None:
    """It stands before the order that names the part; the place of what is promised is that of a part all the same."""
    mine = a_list(f'list "A"\n{dates((0, 3))}order\n{BROKEN}order\n  2 x "H"\n')
    found = known_item([mine], 0, "H")
    bookings = found.value("clashing")
    assert isinstance(bookings, tuple)
    missing = ("order line 14, which could not be read",)
    assert [each.value("count") for each in bookings] == [Amount(0, math.inf, missing), Amount(2, 2)]
    assert found.where(("promised",)) == mine.orders[1].lines[0].where
    assert said(found, "clashes") == "from 2027-05-01 to 2027-05-04, 2 in this list"


def test_a_promise_on_days_that_are_not_known_says_so() -> None:
    found = known_item([ordering("A", (2, (0, 3))), ordering("B", (2, None))], 0, "H")
    bookings = found.value("clashing")
    assert isinstance(bookings, tuple)
    assert [each.value("days") for each in bookings] == [Words("on days that are not known")]


# ---- which lists are looked at together ----------------------------------------------------------------------------


def test_a_list_that_is_to_be_changed_is_told_of_every_part_of_its_books() -> None:
    lists = [
        a_list(f'list "A"\n{dates((0, 3))}order\n  1 x "H"\n', "a.kitlist"),
        a_list(f'list "B"\n{dates((0, 3))}order\n  1 x "L"\n', "b.kitlist"),
    ]
    assert beside(lists) == [(), ()]
    told = beside(lists, changing=True)
    assert [[(each.path, [p.name for p in each.promises]) for each in one] for one in told] == [
        [("b.kitlist", ["L"])],
        [("a.kitlist", ["H"])],
    ]


def test_a_list_that_promises_nothing_is_told_of_no_other() -> None:
    lists = [a_list('list "A"\nrig A\n', "a.kitlist"), a_list(f'list "B"\n{dates((0, 3))}order\n{BROKEN}', "b.kitlist")]
    assert beside(lists) == [(), ()]
    assert beside([lists[1], a_list(f"order\n{BROKEN}")]) == [(), ()]


def test_what_other_lists_promise_is_told_as_they_write_it() -> None:
    lists = [
        a_list('list "A"\norder\n  1 x "L"\n  1 x "H"\n', "a.kitlist"),
        a_list(f'list "B"\norder\n{BROKEN}order\n  1 x "H"\n  1 x "L"\n', "b.kitlist"),
    ]
    (told,) = beside(lists)[0]
    assert [each.name for each in told.promises] == ["", "H", "L"]


def test_a_list_is_told_of_the_others_in_their_order() -> None:
    lists = [a_list(f'order\n  1 x "{name}"\n', f"{number}.kitlist") for number, name in enumerate("LHHLLLLLH")]
    assert [each.path for each in beside(lists)[2]] == ["1.kitlist", "8.kitlist"]


def test_issues_of_one_list_know_of_each_other_and_promise_each_other_nothing() -> None:
    text = 'list "A"\n  issue {}\norder\n  1 x "H"\n'
    lists = [a_list(text.format(issue), f"{issue}.kitlist") for issue in (1, 2)]
    told = beside(lists)
    assert [[(each.path, each.issue, each.promises) for each in one] for one in told] == [
        [("2.kitlist", 2, ())],
        [("1.kitlist", 1, ())],
    ]


def test_lists_without_a_name_are_not_of_one_name() -> None:
    lists = [a_list('order\n  1 x "H"\n', "a.kitlist"), a_list('order\n  1 x "L"\n', "b.kitlist")]
    assert beside(lists) == [(), ()]


@pytest.mark.parametrize(
    ("one", "other", "holds"),
    [
        (("A", 1), ("A", 2), True),
        (("A", 2), ("A", 2), False),
        (("A", 3), ("A", 2), False),
        (("A", 1), ("B", 2), False),
        (("", 1), ("", 2), False),
        (("A", None), ("A", 2), False),
        (("A", 1), ("A", None), False),
    ],
)
def test_an_older_issue_has_the_same_name_and_a_lower_number(
    one: tuple[str, int | None], other: tuple[str, int | None], holds: bool
) -> None:
    where = ordering("A", (1, None)).where
    assert older(Promised("1", *one, where), Promised("2", *other, where)) is holds


def test_the_same_issue_twice_promises_twice() -> None:
    text = f'list "A"\n  issue 2\n{dates((0, 3))}order\n  2 x "H"\n'
    found = item([a_list(text, "a.kitlist"), a_list(text, "copy.kitlist")], 0, "H")
    assert found is not None
    assert found.amount("promised") == Amount(4, 4)
