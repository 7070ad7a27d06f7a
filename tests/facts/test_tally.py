"""Counts over one list by hand: what is ordered and packed, what rigs need, and which of them stand together."""

from __future__ import annotations

from datetime import date

import pytest

from kitproof.facts.tally import Tally
from kitproof.model.rigs import Days
from tests.model.texts import made

KITS = """
part kit "lens kit"
  includes 2 x "long lens", "battery kit"
part kit "battery kit"
  includes 3 x "big battery"
"""


def tally(text: str) -> Tally:
    return Tally(made(text))


# Orders and cases


def test_orders_of_one_part_add_up_and_a_kit_orders_what_it_includes() -> None:
    found = tally(f'{KITS}order\n  2 x "lens kit"\n  1 x "long lens"\norder\n  5 x "big battery"\n').ordered
    assert found == {"lens kit": 2, "long lens": 5, "battery kit": 2, "big battery": 11}


def test_cases_hold_what_their_kits_include_and_a_case_in_a_case_is_no_part() -> None:
    inner = 'case "k"\n  holds 2 x "battery kit"\n  holds "long lens"\n'
    text = f'{KITS}{inner}case "m"\n  holds case "k"\n  holds "long lens"\n'
    assert tally(text).held == {"battery kit": 2, "big battery": 6, "long lens": 2}


def test_a_kit_that_includes_itself_or_what_is_in_no_book_is_taken_apart_as_far_as_it_goes() -> None:
    text = 'part kit "K"\n  includes 2 x "L", "nowhere"\npart kit "L"\n  includes "K", 3 x "long lens"\n'
    found = tally(text)
    assert found.taken_apart(found.kitlist.parts["K"], 5) == {"K": 5, "L": 10, "long lens": 30}
    assert found.taken_apart(found.kitlist.parts["long lens"], 2) == {"long lens": 2}


def test_lines_of_orders_and_cases_that_cannot_be_read_may_be_about_anything() -> None:
    found = tally('order\n  2 x long lens\n  1 x "big camera"\ncase "k"\n  holds "short lens\n')
    assert len(found.unread) == 1
    assert len(found.unread_cases) == 1
    assert isinstance(found.unread, tuple)
    assert isinstance(found.unread_cases, tuple)


# What rigs need


def test_each_line_that_names_a_part_needs_one_and_its_spares() -> None:
    text = (
        'rig A\n  lens "long lens" or "short lens" or none\n  battery "big battery", spare 4\n'
        '  battery "big battery"\nrig B\n  lens "long lens"\n  lens "long lens"\n'
    )
    assert tally(text).needs == {
        "long lens": {"A": 1, "B": 2},
        "short lens": {"A": 1},
        "big battery": {"A": 6},
    }


def test_what_has_no_name_is_not_needed_by_name() -> None:
    assert tally('rig A\n  accessory 1 kg\n  accessory "odd\n').needs == {}


def test_lines_that_never_stand_at_once_need_what_the_greater_of_them_needs() -> None:
    text = (
        'rig A\n  lens "long lens" or "short lens"\n  monitor "seven inch", spare 1, only with "long lens"\n'
        '  monitor "seven inch", spare 2, only with "short lens"\n'
    )
    assert tally(text).needs["seven inch"] == {"A": 3}


@pytest.mark.parametrize(
    ("line", "may_be", "is_not"),
    [
        ('lens "long lens', ["long lens"], ["seven inch", "big battery"]),
        ('accessory "odd', ["long lens", "seven inch"], []),
        ('lnes "long lens"', ["long lens", "seven inch"], []),
        ('lens "long lens"', [], ["short lens", "seven inch"]),
        ('lens "lnog lens"', [], ["long lens"]),
        ("accessory 1 kg", [], ["long lens"]),
        ("lens none", [], ["short lens", "seven inch"]),
        ('accessory "described here", 1 kg', [], ["short lens", "seven inch"]),
    ],
)
def test_a_line_that_cannot_be_read_may_have_named_a_part_of_its_slot(
    line: str, may_be: list[str], is_not: list[str]
) -> None:
    found = tally(f"rig A\n  {line}\n")
    for name in may_be:
        missing = found.may_need(found.kitlist.parts[name])
        assert isinstance(missing, tuple)
        assert missing
        assert len(set(missing)) == len(missing)
    assert [found.may_need(found.kitlist.parts[name]) for name in is_not] == [()] * len(is_not)


def test_a_line_that_cannot_be_read_is_said_once_though_two_rigs_have_it() -> None:
    found = tally('rig A\n  lens "long lens\nrig B like A\n')
    assert len(found.may_need(found.kitlist.parts["long lens"])) == 1


def test_rigs_that_need_a_part_are_in_the_order_listed() -> None:
    text = 'rig B\n  lens "long lens"\nrig A\n  lens "long lens"\nrig C\n  lens "short lens"\n'
    found = {name: [rig.name for rig in rigs] for name, rigs in tally(text).wanting.items()}
    assert found == {"long lens": ["B", "A"], "short lens": ["C"]}


# Which stand together


MAY = "dates 2027-05-01 to 2027-05-03"
OVERLAPS = "dates 2027-05-03 to 2027-05-05"
LATER = "dates 2027-05-06 to 2027-05-08"
UNREAD = "dates next week"


def rigs(*says: str) -> str:
    """Rigs A, B, C… that say this, and need one lens, two lenses, three…"""
    return "".join(
        f"rig {name}\n" + f"  {said}\n" * bool(said) + '  lens "long lens"\n' * number
        for number, (name, said) in enumerate(zip("ABCDEF", says, strict=False), start=1)
    )


@pytest.mark.parametrize(
    ("says", "together"),
    [
        (("", ""), True),
        ((MAY, OVERLAPS), True),
        ((MAY, LATER), False),
        ((MAY, ""), True),
        (("", MAY), True),
        ((UNREAD, LATER), True),
        ((LATER, UNREAD), True),
        (("", "instead of A"), False),
        (("instead of B", ""), False),
        ((UNREAD, "instead of A"), False),
    ],
)
def test_two_rigs_stand_together_where_their_days_meet_and_neither_is_instead_of_the_other(
    says: tuple[str, str], together: bool
) -> None:
    found = tally(rigs(*says))
    one, other = found.kitlist.rigs
    assert found.together(one, other) is together
    assert found.together(other, one) is together
    assert found.at_once("long lens") == (3 if together else 2)


def test_a_rig_without_days_stands_on_those_of_the_list_and_one_with_days_on_its_own() -> None:
    found = tally(f'list "x"\n  {MAY}\n' + rigs("", LATER, UNREAD))
    days = [found.days(rig) for rig in found.kitlist.rigs]
    may, later = (
        Days(first=date(2027, 5, 1), last=date(2027, 5, 3)),
        Days(first=date(2027, 5, 6), last=date(2027, 5, 8)),
    )
    assert days == [may, later, None]


@pytest.mark.parametrize(
    ("says", "most"),
    [
        ((), 0),
        (("", "", ""), 6),
        (("", "instead of A", "instead of B"), 4),
        (("", "instead of A", "instead of A"), 5),
        (("", "", "instead of A", "instead of B"), 7),
        ((MAY, OVERLAPS, LATER), 3),
        ((MAY, OVERLAPS, LATER, "instead of C"), 7),
        (("", "", "", "instead of A", "instead of D"), 11),
    ],
)
def test_the_most_at_once_is_that_of_the_set_that_needs_most(says: tuple[str, ...], most: int) -> None:
    """Of rigs that need 1, 2, 3… in their order; the last but one of the table on the 3rd of May: 1 + 2 + 4."""
    assert tally(rigs(*says)).at_once("long lens") == most


def test_needs_by_runs_of_days() -> None:
    found = tally(rigs(MAY, OVERLAPS, LATER)).at_once_by_day("long lens")
    day = {number: date(2027, 5, number) for number in range(1, 9)}
    assert found == [
        (Days(first=day[1], last=day[2]), 1),
        (Days(first=day[3], last=day[3]), 3),
        (Days(first=day[4], last=day[5]), 2),
        (Days(first=day[6], last=day[8]), 3),
    ]


def test_needs_on_any_day_where_days_of_a_rig_are_not_known() -> None:
    assert tally(rigs(MAY, UNREAD, LATER)).at_once_by_day("long lens") == [(None, 5)]
    assert tally(rigs(MAY)).at_once_by_day("short lens") == []
