"""Lists of one stock that are proofed together, made from text in tests."""

from __future__ import annotations

from datetime import date, timedelta

from kitproof.facts.orders import ItemSubject, items
from kitproof.facts.promises import beside
from kitproof.facts.registry import FACTS
from kitproof.facts.subject import Setting
from kitproof.facts.tally import Tally
from kitproof.facts.values import Words
from kitproof.model.kitlist import KitList
from tests.model.texts import DAY
from tests.proofing.lists import read_bytes

FIRST = date(2027, 5, 1)
HAVE = 3
STOCK = (
    f'part head "H"\n  have {HAVE}\n'
    f'part lens "L"\n  have {HAVE}\n'
    'part kit "K"\n  have 9\n  includes 2 x "H", "L"\n'
    'part kit "KK"\n  have 9\n  includes "K", "L"\n'
)


def a_list(text: str, path: str = "list.kitlist", stock: str = STOCK) -> KitList:
    return read_bytes((stock + text).encode(), path)


def dates(span: tuple[int, int]) -> str:
    """A line of dates, by days after `FIRST`."""
    return f"  dates {FIRST + timedelta(days=span[0])} to {FIRST + timedelta(days=span[1])}\n"


def item(lists: list[KitList], number: int, name: str) -> ItemSubject | None:
    """A part as it concerns one of several lists that are proofed together; None where it does not."""
    setting = Setting(lists[number], DAY, {}, FACTS, beside(lists)[number])
    found = items(setting, Tally(lists[number]))
    return next((each for each in found if each.part.name == name), None)


def known_item(lists: list[KitList], number: int, name: str) -> ItemSubject:
    found = item(lists, number, name)
    assert found is not None
    return found


def said(found: ItemSubject, name: str) -> str | None:
    value = found.value(name)
    assert isinstance(value, Words)
    return value.text
