"""What is in stock for an edit is asked as `pair` asks it: beside other rigs, on the dates, and beside other lists."""

from __future__ import annotations

import pytest

from kitproof.facts.promises import beside
from kitproof.mending.ground import Ground
from kitproof.mending.stock import IN_STOCK, OUT_OF_STOCK, STOCK_NOT_KNOWN, Stock
from tests.mending.grounds import fixed, ground, rule, rules

GEAR = """\
part head "Small"
  mass      2 kg
  have      1

part head "Middle"
  mass      3 kg
  have      1

part head "Large"
  mass      6 kg
  have      1

"""
MINE = f'{GEAR}list "Mine"\n  dates     2027-03-08 to 2027-03-12\n\nrig A\n  head      "Small"\n'
LIGHT = {"light": rule("rig", "head.mass < 2.5 kg", "choose head where head.mass >= 2.5 kg")}


def with_other(days: str, mine: str = MINE) -> Ground:
    """The list beside one that orders the middle head, of which nobody has ordered any before."""
    of = ground(mine, rules(LIGHT))
    other = ground(f'{GEAR}list "Theirs"\n  dates     {days}\n\norder\n  1 x "Middle"\n')
    return of.beside(beside([of.kitlist, other.kitlist], changing=True)[0])


@pytest.mark.parametrize(
    ("days", "taken", "stock"),
    [
        ("2027-03-12 to 2027-03-20", "Large", OUT_OF_STOCK),
        ("2027-03-13 to 2027-03-20", "Middle", IN_STOCK),
        ("2027-03-01 to 2027-03-07", "Middle", IN_STOCK),
    ],
)
def test_what_another_list_has_on_these_days_is_not_in_stock(days: str, taken: str, stock: int) -> None:
    of = with_other(days)
    assert f'head      "{taken}"' in fixed(of, "light")
    assert Stock(of, of.kitlist.rigs[0]).of(of.kitlist.parts["Middle"]) == stock


def test_what_another_list_has_on_days_not_known_is_in_doubt() -> None:
    of = with_other("?")
    assert Stock(of, of.kitlist.rigs[0]).of(of.kitlist.parts["Middle"]) == STOCK_NOT_KNOWN
    assert 'head      "Large"' in fixed(of, "light")


def test_what_the_rig_has_already_counts_where_it_keeps_it() -> None:
    of = ground(MINE)
    rig, small = of.kitlist.rigs[0], of.kitlist.parts["Small"]
    assert Stock(of, rig).of(small) == IN_STOCK
    assert Stock(of, rig, keeping=True).of(small) == OUT_OF_STOCK


def test_what_is_in_no_order_of_a_list_is_passed_to_it_only_where_it_is_to_be_changed() -> None:
    mine, theirs = ground(MINE).kitlist, ground(f'{GEAR}list "Theirs"\norder\n  1 x "Middle"\n').kitlist
    assert beside([mine, theirs])[0] == ()
    assert [each.name for one in beside([mine, theirs], changing=True)[0] for each in one.promises] == ["Middle"]
