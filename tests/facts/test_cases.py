"""What is said of cases and moves as a whole, and of a rig's alternatives."""

from __future__ import annotations

from datetime import date

import pytest

from kitproof.facts.build import combinations
from kitproof.facts.cases import WAYS, cases, first_day, moves_of
from kitproof.facts.packing import packed_things
from kitproof.facts.registry import FACTS
from kitproof.facts.rig import RigSubject
from kitproof.facts.subject import Setting, Subject
from kitproof.facts.values import Amount, Several, Thing, Truth, Verdict, Words
from kitproof.model.kitlist import KitList
from tests.proofing.lists import read_bytes

DAY = date(2027, 3, 1)
HEAD = """
list "Any"
  dates     2027-03-04 to 2027-03-19

part camera "Quillon S6"
  mass      4.1 kg
  tag insured 12000

part lens "Pell 50"
  mass      1.2 kg

part battery "Osmer 98"
  mass      0.8 kg

part case "Thrapley bits case"
  mass      6 kg
"""


def setting(text: str, head: str = HEAD) -> Setting:
    return Setting(read_bytes((head + text).encode()), DAY, {}, FACTS)


def things(subject: Subject, name: str) -> list[str]:
    found = subject.value(name)
    assert isinstance(found, tuple)
    return [each.label for each in found]


CASES = """
move "Van"
  by        road
  people    2
  on        2027-03-08
  tag window "night"

move "Store"
  stored

case "Bits"
  is        "Thrapley bits case"
  goes      "Van", "Store"
  tag colour "red"
  holds     2 x "Osmer 98"
  holds     "Quillon S6"
  holds     case "Small"
  holds     "Pell 50"

case "Small"
  goes      "Van"
  holds     "Osmer 98"
"""


def test_a_case_holds_what_is_listed_in_it() -> None:
    bits, small = cases(setting(CASES))
    assert things(bits, "holds") == [
        'case "Bits", battery "Osmer 98"',
        'case "Bits", camera "Quillon S6"',
        'case "Bits", lens "Pell 50"',
    ]
    assert things(small, "holds") == ['case "Small", battery "Osmer 98"']


def test_a_case_holds_in_all_what_lies_in_the_cases_in_it() -> None:
    bits, _ = cases(setting(CASES))
    assert things(bits, "holds_in_all") == [*things(bits, "holds"), 'case "Small", battery "Osmer 98"']


def test_two_cases_that_lie_in_each_other_are_each_counted_once() -> None:
    text = 'case "A"\n  holds "Pell 50"\n  holds case "B"\n\ncase "B"\n  holds "Osmer 98"\n  holds case "A"\n'
    first, second = cases(setting(text))
    assert sorted(things(first, "holds_in_all")) == sorted(things(second, "holds_in_all"))
    assert len(things(first, "holds_in_all")) == 2


def test_a_line_that_could_not_be_read_may_have_held_one_more() -> None:
    (case,) = cases(setting('case "A"\n  holds "Pell 50"\n  holds of course\n'))
    for name in ("holds", "holds_in_all"):
        found = case.value(name)
        assert isinstance(found, Several)
        assert len(found) == 1
        assert found.missing == ('case "A": line 19, which could not be read',)


def test_a_case_tells_what_it_is_and_where_it_goes() -> None:
    bits, small = cases(setting(CASES))
    assert things(bits, "moves") == ['"Van"', '"Store"']
    assert things(small, "moves") == ['"Van"']
    made = bits.value("house_case")
    assert isinstance(made, Thing)
    assert made.label == '"Thrapley bits case"'
    assert small.value("house_case") is None
    assert bits.value("tag.colour") == Words("red")
    assert small.value("tag.colour") == Words(None, ('case "Small": tag colour',))


def test_a_packed_thing_tells_how_many_and_what_is_listed_after_it() -> None:
    first, camera, lens, inner = packed_things(setting(CASES))
    assert [each.value("count") for each in (first, camera, inner)] == [Amount(2, 2), Amount(1, 1), Amount(1, 1)]
    assert things(first, "listed_after") == ['case "Bits", camera "Quillon S6"', 'case "Bits", lens "Pell 50"']
    assert things(camera, "listed_after") == ['case "Bits", lens "Pell 50"']
    assert things(lens, "listed_after") == things(inner, "listed_after") == []


def test_a_move_tells_what_is_said_of_it() -> None:
    van, store = moves_of(setting(CASES))
    assert van.value("by") == Words("road")
    assert van.value("people") == Amount(2, 2)
    assert van.value("tag.window") == Words("night")
    assert things(van, "cases") == ['case "Bits"', 'case "Small"']
    assert store.value("by") == Words(None)
    assert store.value("people") == Amount(0, float("inf"), ('move "Store": people',))
    assert things(store, "cases") == ['case "Bits"']


def test_how_a_journey_goes_may_not_be_said() -> None:
    (move,) = moves_of(setting('move "Van"\n  lasts 3 days\n'))
    assert move.value("by") == Words(None, ('move "Van": by',))


def test_a_journey_goes_one_of_the_ways_that_the_format_has() -> None:
    assert WAYS == ("road", "hand", "air cabin", "air hold", "air cargo")
    for way in WAYS:
        (move,) = moves_of(setting(f'move "Out"\n  by {way}\n'))
        assert move.value("by") == Words(way)


@pytest.mark.parametrize(("said", "truth"), [("  carrier agrees\n", Truth.TRUE), ("", Truth.FALSE)])
def test_the_carrier_agrees_where_the_list_says_so(said: str, truth: Truth) -> None:
    (move,) = moves_of(setting(f'move "Flight"\n  by air hold\n{said}'))
    assert move.value("carrier_agrees") == Verdict(truth)


ORDERS = 'order "From one"\n  dates 2027-03-06 to 2027-03-19\n  1 x "Pell 50"\n\norder "From two"\n  1 x "Osmer 98"\n'


def kitlist(text: str, head: str = HEAD) -> KitList:
    return setting(text, head).kitlist


def test_the_first_day_of_hire_is_the_earliest_that_is_said() -> None:
    undated = HEAD.replace("  dates     2027-03-04 to 2027-03-19\n", "")
    assert first_day(kitlist("")) == date(2027, 3, 4)
    assert first_day(kitlist(ORDERS)) == date(2027, 3, 4)
    assert first_day(kitlist(ORDERS, undated)) == date(2027, 3, 6)
    assert first_day(kitlist('order "From two"\n  1 x "Osmer 98"\n', undated)) is None
    misspelt = 'order "From two"\n  dats 2027-03-01\n  1 x "Osmer 98"\n'
    assert first_day(kitlist(misspelt)) is None


@pytest.mark.parametrize(
    ("starts", "dates", "days"),
    [
        ("2027-03-08", True, Amount(4, 4)),
        ("2027-03-02", True, Amount(-2, -2)),
        ("", True, Amount(float("-inf"), float("inf"), ('move "Van": on',))),
        ("2027-03-08", False, Amount(float("-inf"), float("inf"), ("the first day of hire",))),
        ("", False, Amount(float("-inf"), float("inf"), ('move "Van": on', "the first day of hire"))),
    ],
)
def test_days_from_the_first_day_of_hire(starts: str, dates: bool, days: Amount) -> None:
    head = HEAD if dates else HEAD.replace("  dates     2027-03-04 to 2027-03-19\n", "")
    on = f"  on {starts}\n" if starts else ""
    (move,) = moves_of(setting(f'move "Van"\n  by road\n{on}', head))
    assert move.value("days_in") == days


def test_a_rig_has_every_alternative_in_each_of_its_combinations() -> None:
    text = 'rig A\n  camera "Quillon S6"\n  lens "Pell 50" or none\n  battery "Osmer 98"\n'
    shared = setting(text)
    rigs = [RigSubject(shared, build) for build in combinations(shared.kitlist.rigs[0])]
    assert [things(each, "alternatives") for each in rigs] == [['"Quillon S6"', '"Pell 50"', '"Osmer 98"']] * 2
    assert [len(things(each, "parts")) for each in rigs] == [3, 2]
