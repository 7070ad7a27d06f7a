"""Faults of orders that lie in the stock and in other lists: promised twice, named twice, an older issue."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from random import Random

from kitproof.model.kitlist import KitList, OrderLine
from kitproof.model.rigs import Days
from tests.corpus.draft import Draft, Line


def _promised(paper: Draft) -> Iterator[tuple[OrderLine, Days, int]]:
    """Lines of orders of whose part there is a known number, first of their part, with their days and that number."""
    met: set[str] = set()
    for order in paper.before.orders:
        days = order.dates or paper.before.dates
        for line in order.lines:
            if line.part.name not in met and line.part.have is not None and days is not None and not line.part.includes:
                yield line, days, line.part.have
            met.add(line.part.name)


def _around(chance: Random, day: date) -> str:
    """A few days, this one among them."""
    first = day - timedelta(days=chance.randint(0, 9))
    return f"  dates {first} to {day + timedelta(days=chance.randint(0, 9))}"


def _too_many(paper: Draft, chance: Random) -> tuple[OrderLine, str, str] | None:
    """A line, days on one of which its part is ordered, and what is left of it on that day and more, as a line."""
    found = list(_promised(paper))
    if not found:
        return None
    line, days, have = chance.choice(found)
    day = days.first + timedelta(days=chance.randint(0, (days.last - days.first).days))
    count = have - _out(paper.before, line.part.name, day) + chance.randint(1, 3)
    return line, _around(chance, day), f'  {count} x "{line.part.name}"'


def _out(kitlist: KitList, name: str, day: date) -> int:
    orders = [(order.dates or kitlist.dates, order.lines) for order in kitlist.orders]
    on_day = [lines for days, lines in orders if days is not None and days.first <= day <= days.last]
    return sum(line.count for lines in on_day for line in lines if line.part.name == name)


def promised_here_too(paper: Draft, chance: Random) -> Line | None:
    """One more order of the same list has what is left of a part, and more."""
    made = _too_many(paper, chance)
    if made is None:
        return None
    line, days, more = made
    paper.end(f'order "{paper.before.orders[0].supplier}, later"', days, more)
    return paper.at(line.where)


def promised_to_another(paper: Draft, chance: Random) -> Line | None:
    """Another list has what is left of a part and more, on a day on which this one has it."""
    made = _too_many(paper, chance)
    if made is None:
        return None
    line, days, more = made
    paper.another('list "The other unit"', days, 'order "From Thrapley"', more)
    return paper.at(line.where)


def named_twice(paper: Draft, chance: Random) -> Line | None:
    """Another list has the same name and the same issue, or none."""
    issue = chance.choice([f"  issue {paper.before.issue}", "  # no issue"])
    paper.another(f'list "{paper.before.title}"', issue, 'order "From Thrapley"', '  1 x "Osmer two-way"')
    return paper.at(paper.before.where)


def older_issue(paper: Draft, chance: Random) -> Line | None:
    """Another list is a newer issue of it."""
    newer = (paper.before.issue or 0) + chance.randint(1, 9)
    paper.another(f'list "{paper.before.title}"', f"  issue {newer}", 'order "From Thrapley"', '  1 x "Osmer 98"')
    return paper.at(paper.before.where)


def companion_left_out(paper: Draft, chance: Random) -> Line | None:
    """What goes out with a part by its name is not ordered."""
    lines = [line for order in paper.before.orders for line in order.lines]
    wanted = {
        name: line
        for line in reversed(lines)
        for name in (*(each.name for each in line.part.goes_with), line.part.pan_bar)
        if name
    }
    ordered = [line for line in lines if line.part.name in wanted]
    if not ordered:
        return None
    left_out = chance.choice(ordered)
    paper.drop(paper.at(left_out.where))
    return paper.at(wanted[left_out.part.name].where)


def chargers_left_out(paper: Draft, chance: Random) -> Line | None:
    """Batteries are ordered and no charger is."""
    lines = [line for order in paper.before.orders for line in order.lines]
    batteries = [line for line in lines if line.part.kind == "battery"]
    for line in lines:
        if line.part.kind == "charger":
            paper.drop(paper.at(line.where))
    return paper.at(batteries[0].where) if batteries else None
