"""What is ordered from whom: the lines of a list's orders by supplier, next to what all lists promise of each part."""

from __future__ import annotations

from msgspec import Struct

from kitproof.facts.orders import ItemSubject, items
from kitproof.facts.subject import Setting
from kitproof.facts.tally import Tally
from kitproof.facts.values import Amount
from kitproof.model.kitlist import OrderLine
from kitproof.model.rigs import Days
from kitproof.words.phrases import from_whom


class OrderedPart(Struct, frozen=True):
    """One line of an order. `promised` is the most that all lists promise on one day on which this one has the part;
    it and `have` are None where no book describes the part or says how many there are."""

    name: str
    kind: str
    count: int
    spare: int
    days: Days | None
    have: int | None
    promised: Amount | None


class FromSupplier(Struct, frozen=True):
    """All that a list orders from one supplier, in the order written; "" where no order says whom."""

    path: str
    supplier: str
    lines: tuple[OrderedPart, ...]


def ordered(setting: Setting) -> list[FromSupplier]:
    """What a list orders, supplier by supplier."""
    found = {each.part.name: each for each in items(setting, Tally(setting.kitlist))}
    suppliers: dict[str, list[OrderedPart]] = {}
    for order in setting.kitlist.orders:
        days = order.dates if "dates" in order.places else setting.kitlist.dates
        mine = suppliers.setdefault(from_whom(order.supplier), [])
        mine += [_line(each, days, found.get(each.part.name)) for each in order.lines]
    return [FromSupplier(setting.kitlist.path, name, tuple(lines)) for name, lines in suppliers.items()]


def _line(line: OrderLine, days: Days | None, item: ItemSubject | None) -> OrderedPart:
    told = item is not None and item.part.have is not None
    promised = item.amount("promised") if item is not None and told else None
    return OrderedPart(line.part.name, line.part.kind, line.count, line.spare, days, line.part.have, promised)
