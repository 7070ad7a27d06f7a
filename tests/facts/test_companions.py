"""Companions of what is ordered: counted over all orders, kits taken apart."""

from __future__ import annotations

import pytest

from kitproof.facts.companions import CompanionSubject
from kitproof.facts.orders import order_lines
from kitproof.facts.registry import FACTS
from kitproof.facts.subject import Setting
from kitproof.facts.tally import Tally
from kitproof.facts.values import Amount, Words
from tests.model.texts import DAY
from tests.proofing.lists import read_bytes

BOOK = """
part head "Bowl head"
  sits on   bowl 100 mm
  goes with "Its tie-down", 2 x "Bar"

part head "Other bowl head"
  sits on   bowl 100 mm

part head "Flat head"
  sits on   flat
  pan bar   "Bar"

part tie-down "Its tie-down"
  mass      1 kg

part tie-down "Some tie-down"
  mass      1 kg

part pan bar "Bar"
  mass      1 kg

part pan bar "Some bar"
  mass      1 kg

part battery "B"
  mass      1 kg

part charger "C"
  mass      1 kg

part kit "Head kit"
  includes  "Bowl head", "Its tie-down"

"""


def found(orders: str) -> dict[tuple[str, str], tuple[float, float]]:
    """By the line and the companion: how many are wanted, and how many are ordered."""
    setting = Setting(read_bytes((BOOK + orders).encode()), DAY, {}, FACTS)
    made = {}
    for line in order_lines(setting, Tally(setting.kitlist)):
        companions = line.value("companions")
        assert isinstance(companions, tuple)
        for each in companions:
            assert isinstance(each, CompanionSubject)
            made[line.line.part.name, each.label] = (each.amount("wanted").low, each.amount("ordered").low)
    return made


@pytest.mark.parametrize(
    ("lines", "wanted"),
    [
        (
            ['2 x "Bowl head"', '1 x "Its tie-down"'],
            {("Bowl head", '"Its tie-down"'): (2, 1), ("Bowl head", '"Bar"'): (4, 0)},
        ),
        (
            ['1 x "Head kit"', '1 x "Bar"'],
            {("Head kit", '"Its tie-down"'): (1, 1), ("Head kit", '"Bar"'): (2, 1)},
        ),
        (['1 x "Flat head"', '1 x "Some bar"'], {("Flat head", '"Bar"'): (1, 0)}),
        (
            ['1 x "Other bowl head"', '3 x "Some tie-down"', '1 x "Some bar"'],
            {("Other bowl head", "tie-down"): (1, 3), ("Other bowl head", "pan bar"): (1, 1)},
        ),
        (['9 x "B"'], {("B", "charger"): (1, 0)}),
        (['9 x "B"', '1 x "C"'], {("B", "charger"): (1, 1)}),
        (['1 x "C"', '1 x "Some bar"'], {}),
    ],
)
def test_what_should_go_out_with_what_is_ordered(
    lines: list[str], wanted: dict[tuple[str, str], tuple[float, float]]
) -> None:
    assert found("order\n" + "".join(f"  {line}\n" for line in lines)) == wanted


def test_two_lines_that_want_the_same_want_it_together_and_the_first_speaks_of_it() -> None:
    made = found('order\n  1 x "Flat head"\norder\n  1 x "Bowl head"\n  1 x "Its tie-down"\n  2 x "Bar"\n')
    assert made == {("Flat head", '"Bar"'): (3, 2), ("Bowl head", '"Its tie-down"'): (1, 1)}


def test_what_one_head_wants_by_name_does_for_no_other_by_its_kind() -> None:
    made = found('order\n  1 x "Bowl head"\n  1 x "Other bowl head"\n  1 x "Its tie-down"\n  3 x "Bar"\n')
    by_kind = {companion: counts for (line, companion), counts in made.items() if line == "Other bowl head"}
    assert by_kind == {"tie-down": (1, 0), "pan bar": (1, 1)}


def test_a_line_that_cannot_be_read_may_order_a_companion() -> None:
    setting = Setting(read_bytes(f'{BOOK}order\n  1 x "B"\n  1 x C\n'.encode()), DAY, {}, FACTS)
    (line, *_) = order_lines(setting, Tally(setting.kitlist))
    companions = line.value("companions")
    assert isinstance(companions, tuple)
    (companion,) = companions
    assert isinstance(companion, CompanionSubject)
    ordered = companion.amount("ordered")
    assert ordered == Amount(0, float("inf"), ordered.missing)
    assert len(ordered.missing) == 1


def companions_in(text: str) -> list[CompanionSubject]:
    """Of all lines, in the order of the list."""
    setting = Setting(read_bytes(text.encode()), DAY, {}, FACTS)
    values = [line.value("companions") for line in order_lines(setting, Tally(setting.kitlist))]
    return [
        each for value in values if isinstance(value, tuple) for each in value if isinstance(each, CompanionSubject)
    ]


@pytest.mark.parametrize(
    ("ordered", "companion", "said"),
    [
        ("Bowl head", '"Its tie-down"', 'goes with "Its tie-down"'),
        ("Flat head", '"Bar"', 'pan bar   "Bar"'),
        ("Other bowl head", "tie-down", "sits on   bowl 100 mm"),
        ("Other bowl head", "pan bar", 'part head "Other bowl head"'),
        ("B", "charger", 'part battery "B"'),
    ],
)
def test_a_companion_is_spoken_of_where_the_book_wants_it_and_in_the_name_of_what_is_ordered(
    ordered: str, companion: str, said: str
) -> None:
    text = f'{BOOK}order\n  1 x "{ordered}"\n'
    (found,) = (each for each in companions_in(text) if each.label == companion)
    assert found.value("name") == Words(companion)
    assert found.within == (f'part "{ordered}"',)
    above = text.splitlines()[: found.place("name").line]
    assert next(line for line in reversed(above) if said in line)
    assert said in above[-1]


def test_a_book_that_could_not_be_read_in_full_may_name_any_companion() -> None:
    """What it names and is there is wanted all the same; nothing is wanted by its kind."""
    for lost in ("  goes with 7\n", "  pan bar   7\n", "  sits on   7\n"):
        assert companions_in(f'{BOOK}part head "X"\n{lost}  sits on bowl 100 mm\norder\n  1 x "X"\n') == []
    named = f'{BOOK}part head "X"\n  goes with "Bar", "Nobody\'s"\n  sits on bowl 100 mm\norder\n  1 x "X"\n'
    assert [each.label for each in companions_in(named)] == ['"Bar"']


def test_a_pan_bar_that_goes_with_a_head_is_wanted_as_often_as_that_says() -> None:
    text = f'{BOOK}part head "X"\n  pan bar "Bar"\n  goes with 2 x "Bar"\n  sits on flat\norder\n  3 x "X"\n'
    assert [(each.label, each.amount("wanted")) for each in companions_in(text)] == [('"Bar"', Amount(6, 6))]
    assert [each.amount("ordered") for each in companions_in(text)] == [Amount(0, 0)]
