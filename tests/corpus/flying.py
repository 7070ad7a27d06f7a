"""Faults of the group air that lie in a case as a whole: charge with equipment or without, bags too heavy or large."""

from __future__ import annotations

from random import Random

from kitproof.model.kitlist import Case, Packed
from tests.corpus.draft import Draft, Line


def _in_cargo(paper: Draft, beside: bool) -> list[Packed]:
    """Batteries in cases that go as cargo, with equipment in the same case or without."""
    return [
        held
        for case in _going(paper, "air cargo")
        if beside is any(each.part is not None and each.part.draws is not None for each in case.holds)
        for held in case.holds
        if held.part is not None and held.part.kind == "battery"
    ]


def _going(paper: Draft, by: str) -> list[Case]:
    moves = paper.before.moves
    return [case for case in paper.before.cases if any(moves[name].by == by for name in case.goes)]


def _charged(paper: Draft, chance: Random, beside: bool) -> Line | None:
    found = _in_cargo(paper, beside)
    if not found:
        return None
    line = paper.at(chance.choice(found).where)
    words = [each.strip() for each in line.text.split(",") if not each.strip().startswith("charge")]
    line.text = f"  {', '.join([*words, f'charge {chance.uniform(30.2, 100):.1f} %'])}"
    return line


def loose_charge_too_high(paper: Draft, chance: Random) -> Line | None:
    return _charged(paper, chance, False)


def packed_charge_too_high(paper: Draft, chance: Random) -> Line | None:
    return _charged(paper, chance, True)


def _heavier(paper: Draft, chance: Random, least: float, most: float) -> Line | None:
    """Something more in a bag that is checked in, so that it weighs so many kg; the case itself would bear it."""
    bags = _going(paper, "air hold")
    if not bags:
        return None
    case = chance.choice(bags)
    held = sum(each.part.mass.low * each.count for each in case.holds if each.part and each.part.mass)
    own = case.mass.low if case.mass else 0.0
    entry = paper.entry(case.where)
    entry.set("limit", "90 kg")
    more = (chance.uniform(least, most) - own - held) / 9
    entry.add('holds 9 x "crank for the drums"')
    paper.end('part accessory "crank for the drums"', f"  mass {more:.3f} kg", "  size 60 x 20 x 20 mm")
    return entry.first


def bag_too_heavy(paper: Draft, chance: Random) -> Line | None:
    return _heavier(paper, chance, 32.6, 60)


def bag_over_advised(paper: Draft, chance: Random) -> Line | None:
    return _heavier(paper, chance, 23.5, 31.5)


def bag_too_large(paper: Draft, chance: Random) -> Line | None:
    """A larger case outside, in one of its sides or in all."""
    bags = _going(paper, "air hold")
    if not bags:
        return None
    entry = paper.entry(chance.choice(bags).where)
    sides = [620, 480, 430]
    longer = chance.randrange(3)
    sides[longer] += chance.randint(60, 700)
    entry.set("outside", f"{sides[0]} x {sides[1]} x {sides[2]} mm")
    return entry.first
