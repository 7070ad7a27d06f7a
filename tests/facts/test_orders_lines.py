"""What lines of orders and parts over a whole list say of themselves."""

from __future__ import annotations

import pytest

from kitproof.facts.orders import ItemSubject, LineSubject, items, order_lines
from kitproof.facts.subject import Subject
from kitproof.facts.tally import Tally
from kitproof.facts.values import Amount, Truth, Verdict, Words
from kitproof.model.kitlist import KitList
from tests.model.texts import RIG, made, setting

ORDERS = 'order "Lenses, from Harrowby"\n  2 x "long lens", spare 1\n  1 x "nowhere"\n  1 x "kit"\n  1 x "charger"\n'
OWN = 'part kit "kit"\n  includes 4 x "short lens"\npart charger "charger"\n  have 2\n'


def lines(kitlist: KitList) -> list[LineSubject]:
    return order_lines(setting(kitlist), Tally(kitlist))


def item(kitlist: KitList, name: str) -> ItemSubject:
    return next(each for each in items(setting(kitlist), Tally(kitlist)) if each.part.name == name)


def truth(said: bool) -> Verdict:
    return Verdict(Truth.TRUE if said else Truth.FALSE)


def test_a_line_of_an_order_says_what_is_ordered_and_from_whom() -> None:
    kitlist = made(OWN + RIG + ORDERS)
    line = lines(kitlist)[0]
    assert line.label == 'order line "long lens"'
    assert line.value("name") == Words('"long lens"')
    assert line.value("supplier") == Words("Harrowby")
    assert line.where() == kitlist.orders[0].lines[0].where
    part = line.value("part")
    assert isinstance(part, Subject)
    assert part.label == '"long lens"'
    assert part.where() == line.where()
    assert part.amount("mass") == Amount(3, 3)


def test_what_stands_in_rigs_is_told_from_what_only_comes_along_and_what_is_in_no_book() -> None:
    told = [each.value("stands_in_rigs") for each in lines(made(OWN + RIG + ORDERS))]
    assert told == [truth(True), truth(False), truth(False), truth(False)]


@pytest.mark.parametrize(("rigs", "there"), [(RIG, True), ("", False)])
def test_whether_a_list_has_a_rig_is_known_of_its_orders_and_parts(rigs: str, there: bool) -> None:
    kitlist = made(OWN + rigs + ORDERS)
    assert lines(kitlist)[0].value("rigs_there") == truth(there)
    assert item(kitlist, "long lens").value("rigs_there") == truth(there)
    assert item(kitlist, "long lens").value("orders_there") == truth(True)


def test_a_list_without_an_order_says_so() -> None:
    assert item(made(RIG), "long lens").value("orders_there") == truth(False)


def test_a_part_of_the_list_says_its_name_its_kind_and_how_many_there_are() -> None:
    kitlist = made(OWN + RIG + ORDERS)
    charger, lens = item(kitlist, "charger"), item(kitlist, "long lens")
    assert (charger.label, charger.value("name")) == ('charger "charger"', Words('"charger"'))
    assert charger.value("kind") == Words("charger")
    assert charger.amount("have") == Amount(2, 2)
    assert charger.value("stock_told") == truth(True)
    assert lens.value("stock_told") == truth(False)
    part = charger.value("part")
    assert isinstance(part, Subject)
    assert part.label == '"charger"'
    assert part.where() == kitlist.orders[0].lines[3].where


def test_a_part_stands_where_a_rig_names_it_else_where_it_or_a_kit_with_it_is_ordered() -> None:
    kitlist = made(OWN + RIG + ORDERS)
    assert item(kitlist, "long lens").where() == kitlist.rigs[0].lines[-1].where
    assert item(kitlist, "charger").where() == kitlist.orders[0].lines[3].where
    assert item(kitlist, "short lens").where() == kitlist.orders[0].lines[2].where
    twice = made(OWN + RIG + 'rig B\n  lens "long lens"\n' + ORDERS + '  1 x "charger"\n')
    assert item(twice, "long lens").where() == twice.rigs[0].lines[-1].where
    assert item(twice, "charger").where() == twice.orders[0].lines[3].where


def test_a_slot_that_may_stay_empty_names_no_part_then() -> None:
    kitlist = made('rig A\n  lens "long lens" or none\n')
    assert [each.part.name for each in items(setting(kitlist), Tally(kitlist))] == ["long lens"]


@pytest.mark.parametrize(
    ("rigs", "words"),
    [([], ""), (["A"], "rig A"), (["A", "B"], "rigs A and B"), (["A", "B", "C"], "rigs A, B and C")],
)
def test_the_rigs_that_use_a_part_are_named_in_a_sentence(rigs: list[str], words: str) -> None:
    text = "".join(f'rig {each}\n  lens "long lens"\n' for each in rigs) + 'rig Z\norder\n  1 x "long lens"\n'
    kitlist = made(text)
    assert item(kitlist, "long lens").value("rigs") == Words(words)
    assert lines(kitlist)[0].amount("in_rigs") == Amount(len(rigs), len(rigs))
