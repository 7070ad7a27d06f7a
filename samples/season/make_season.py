"""Writes a season of orders on one stock: forty lists of our own invention, and the parts book that they share.

`python samples/season/make_season.py` writes all files of this folder anew; what it draws is the same each time. No
part is promised more often than there is on any day, by counting each day, with one exception: CLASH, which two of the
lists have.

A house, productions and parts that nobody makes or owns.
"""

from __future__ import annotations

import sys
from collections import Counter
from collections.abc import Mapping
from datetime import date, timedelta
from pathlib import Path
from random import Random
from typing import NamedTuple

DRAWN_FROM = 2028
"""What the drawing starts from: another number gives another season."""

FIRST, LAST, LISTS = date(2028, 4, 3), date(2028, 9, 24), 40
STOCK = "stock/osier-yard.kitlist"


class Shelf(NamedTuple):
    """A part of the stock: its kind and name, its mass in kg, how many there are, and what goes out with each."""

    kind: str
    name: str
    mass: float
    have: int
    with_it: tuple[str, ...] = ()
    includes: tuple[str, ...] = ()


SHELVES = (
    Shelf("sticks", "Osier tall 150", 7.9, 6),
    Shelf("sticks", "Osier low 150", 5.2, 4),
    Shelf("sticks", "Osier tall 100", 4.3, 7),
    Shelf("tie-down", "Tarn 150 tie-down", 0.6, 12),
    Shelf("tie-down", "Tarn 100 tie-down", 0.4, 12),
    Shelf("pan bar", "Tarn bar", 0.7, 24),
    Shelf("head", "Tarn 24", 6.8, 4, ("Tarn 150 tie-down", "Tarn bar")),
    Shelf("head", "Tarn 14", 4.1, 5, ("Tarn 100 tie-down", "Tarn bar")),
    Shelf("head", "Tarn 48", 11.7, 1, ("Tarn 150 tie-down", "Tarn bar")),
    Shelf("kit", "Tarn 48 set", 20.9, 1, includes=("Tarn 48", "Tarn 150 tie-down", "Tarn bar", "Osier tall 150")),
    Shelf("spreader", "Osier spreader", 1.3, 14),
    Shelf("battery", "Lumb 98", 0.8, 30, ("Lumb four-way",)),
    Shelf("charger", "Lumb four-way", 3.2, 30),
    Shelf("monitor", "Vane 7", 0.9, 8),
)
BY_NAME: Mapping[str, Shelf] = {each.name: each for each in SHELVES}
DRAWN = (
    "Tarn 24",
    "Tarn 14",
    "Osier tall 150",
    "Osier low 150",
    "Osier tall 100",
    "Osier spreader",
    "Lumb 98",
    "Vane 7",
)
"""What the productions ask for, besides what goes with it. The one large head is for the two that clash."""

FIRST_WORDS = ("Glass", "Paper", "Winter", "Harbour", "Copper", "Second", "Quiet", "Salt", "Long", "Amber")
SECOND_WORDS = ("Orchard", "Ferry", "Lantern", "Meadow", "Clock", "Staircase", "Tide", "Letter", "Causeway", "Choir")
UNITS = ("main unit", "second unit", "pilot", "pick-ups")


class Clash(NamedTuple):
    """A part that two lists promise, the numbers of these, and the first and last day on which both have it."""

    part: str
    lists: tuple[int, int]
    first: date
    last: date


class Production(NamedTuple):
    """One list: its number, title, days, and how many it orders of what."""

    number: int
    title: str
    first: date
    last: date
    order: Mapping[str, int]

    @property
    def file(self) -> str:
        words = "".join(letter if letter.isalpha() else " " for letter in self.title.lower()).split()
        return f"{self.number:02}-{'-'.join(words)}.kitlist"


def days(first: date, last: date) -> list[date]:
    return [first + timedelta(days=number) for number in range((last - first).days + 1)]


def season() -> tuple[list[Production], Clash]:
    """The forty productions in the order of their first days, and the one clash among them."""
    chance = Random(DRAWN_FROM)
    titles = [f"The {one} {two}" for one in FIRST_WORDS for two in SECOND_WORDS]
    names = [f"{title}, {chance.choice(UNITS)}" for title in chance.sample(titles, LISTS)]
    starts = sorted(chance.randrange((LAST - FIRST).days - 20) for _ in range(LISTS))
    spans = [(FIRST + timedelta(days=at), FIRST + timedelta(days=at + chance.randint(2, 18))) for at in starts]
    clash = _clash(spans, chance)
    out: dict[date, Counter[str]] = {day: Counter() for day in days(FIRST, LAST)}
    kept = Counter(BY_NAME["Tarn 48 set"].includes)
    for number in clash.lists:
        for day in days(*spans[number - 1]):
            out[day].update(kept)
    found = []
    for number, (title, span) in enumerate(zip(names, spans, strict=True), 1):
        order = _draw(chance, days(*span), out)
        if number == clash.lists[0]:
            order = {"Tarn 48": 1, "Tarn 150 tie-down": 1, "Tarn bar": 1, **_without(order)}
        if number == clash.lists[1]:
            order = {"Tarn 48 set": 1, **_without(order)}
        found.append(Production(number, title, *span, order))
    return found, clash


def _clash(spans: list[tuple[date, date]], chance: Random) -> Clash:
    """Two lists whose days meet in part, drawn from all such pairs."""
    pairs = [
        (one, other)
        for one, (_, end) in enumerate(spans)
        for other, (start, finish) in enumerate(spans)
        if one < other and 1 <= (min(end, finish) - start).days <= 4 and end < finish
    ]
    one, other = chance.choice(pairs)
    return Clash("Tarn 48", (one + 1, other + 1), spans[other][0], spans[one][1])


def _draw(chance: Random, span: list[date], out: dict[date, Counter[str]]) -> dict[str, int]:
    """What one production gets of what it asks for: no more of anything than is in on each of its days."""
    order: dict[str, int] = {}
    for name in chance.sample(DRAWN, chance.randint(2, 5)):
        asked = chance.randint(1, 6 if name == "Lumb 98" else 3)
        wanted = (name, *BY_NAME[name].with_it)
        count = min(asked, *(BY_NAME[each].have - out[day][each] for each in wanted for day in span))
        for each in wanted if count > 0 else ():
            order[each] = order.get(each, 0) + count
            for day in span:
                out[day][each] += count
    return order


def _without(order: Mapping[str, int]) -> dict[str, int]:
    """An order without what goes with heads: the two lists that clash have their one large head."""
    return {name: count for name, count in order.items() if BY_NAME[name].kind not in ("head", "tie-down", "pan bar")}


def stock_text() -> str:
    lines = ["# The parts book of Osier Yard, a rental house of our own invention. Written by make_season.py.", ""]
    for each in SHELVES:
        lines += [f'part {each.kind} "{each.name}"', f"  mass      {each.mass:g} kg"]
        if each.with_it:
            lines.append(f"  goes with {', '.join(_quoted(each.with_it))}")
        if each.includes:
            lines.append(f"  includes  {', '.join(_quoted(each.includes))}")
        lines += [f"  have      {each.have}", ""]
    return "\n".join(lines)


def _quoted(names: tuple[str, ...]) -> list[str]:
    return [f'"{name}"' for name in names]


def list_text(production: Production) -> str:
    lines = [
        f'list "{production.title}"',
        "  issue     1",
        '  for       "Osier Yard, hire desk"',
        f"  dates     {production.first} to {production.last}",
        "",
        f'use "{STOCK}"',
        "",
        'order "From Osier Yard"',
        *(f'  {count} x "{name}"' for name, count in production.order.items()),
    ]
    return "\n".join(lines) + "\n"


def files() -> dict[str, str]:
    """Every file of the season by its path in this folder."""
    productions, _ = season()
    return {STOCK: stock_text(), **{each.file: list_text(each) for each in productions}}


def main(folder: str = str(Path(__file__).parent)) -> int:
    for name, text in files().items():
        path = Path(folder, name)
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(text.encode())
    return 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:2]))
