"""Cases and moves as a whole: what a case holds, which moves it goes on, and what is said of a move."""

from __future__ import annotations

import math
from collections.abc import Iterable
from datetime import date

from kitproof.facts.fact import fact
from kitproof.facts.packing import CaseSubject, MoveSubject, PackedSubject
from kitproof.facts.part import PartSubject
from kitproof.facts.subject import Setting
from kitproof.facts.values import (
    TRUTH,
    Amount,
    Several,
    Thing,
    Truth,
    Verdict,
    Words,
    joined,
    number,
    set_of,
    text,
    thing,
)
from kitproof.model.kitlist import Case, KitList, Packed
from kitproof.words.dimensions import NUMBER
from kitproof.words.kinds import fields_of

WAYS = fields_of("move")["by"].phrases


def cases(setting: Setting) -> list[CaseSubject]:
    """Every case of a list."""
    return [CaseSubject(setting, case) for case in setting.kitlist.cases]


def moves_of(setting: Setting) -> list[MoveSubject]:
    """Every move of a list."""
    return [MoveSubject(setting, move) for move in setting.kitlist.moves.values()]


def things_in(setting: Setting, case: Case, held: Iterable[Packed]) -> list[PackedSubject]:
    """The parts among what a case holds."""
    return [PackedSubject(setting, case, each, each.part) for each in held if each.part is not None]


@fact("holds", "case", set_of("packed"), "what lies in it itself, one for each `holds` line, in the order listed")
def holds(case: CaseSubject) -> Several:
    """A line that could not be read may have held one thing more."""
    return Several(things_in(case.setting, case.case, case.case.holds), case.case.unread)


@fact("holds_in_all", "case", set_of("packed"), "what lies in it and in the cases that lie in it")
def holds_in_all(case: CaseSubject) -> Several:
    inside = with_inner(case.case, {each.name: each for each in case.setting.kitlist.cases})
    things: list[Thing] = [thing for each in inside for thing in things_in(case.setting, each, each.holds)]
    return Several(things, joined(*(each.unread for each in inside)))


def with_inner(case: Case, named: dict[str, Case]) -> list[Case]:
    """A case and all that lie in it, each once: a list may say that two lie in each other."""
    met: dict[str, Case] = {}
    waiting = [case]
    while waiting:
        each = waiting.pop(0)
        if each.name not in met:
            met[each.name] = each
            waiting.extend(named[held.case_name] for held in each.holds if held.case_name in named)
    return list(met.values())


@fact("moves", "case", set_of("move"), "the moves that it goes on, in order")
def moves(case: CaseSubject) -> tuple[Thing, ...]:
    known = case.setting.kitlist.moves
    return tuple(MoveSubject(case.setting, known[name]) for name in case.case.goes)


@fact("house_case", "case", thing("part", "case"), "the house's case that it is, as a book describes it")
def house_case(case: CaseSubject) -> PartSubject | None:
    return None if case.case.house_case is None else PartSubject(case.setting, case.case.house_case)


@fact("count", "packed", number(NUMBER), "how many of it this line holds", certain=True)
def count(packed: PackedSubject) -> Amount:
    return Amount(float(packed.packed.count), float(packed.packed.count))


@fact("listed_after", "packed", set_of("packed"), "what its case lists after it; some houses list from the bottom up")
def listed_after(packed: PackedSubject) -> Several:
    case = packed.case
    after = [each for each in case.holds if each.where.line > packed.packed.where.line]
    return Several(things_in(packed.setting, case, after), case.unread)


@fact("by", "move", text(*WAYS), "how it travels; there is none for storage")
def by(move: MoveSubject) -> Words:
    if move.move.by:
        return Words(move.move.by)
    return Words(None, () if move.move.stored else (f"{move.move.label}: by",))


@fact("people", "move", number(NUMBER), "how many people travel with it")
def people(move: MoveSubject) -> Amount:
    said = move.move.people
    if said is None:
        return Amount(0.0, math.inf, (f"{move.move.label}: people",))
    return Amount(float(said), float(said))


@fact("carrier_agrees", "move", TRUTH, "whether the carrier has agreed to larger batteries; not said is no")
def carrier_agrees(move: MoveSubject) -> Verdict:
    return Verdict(Truth.TRUE if move.move.carrier_agrees else Truth.FALSE)


@fact("cases", "move", set_of("case"), "the cases that go on it")
def on_move(move: MoveSubject) -> tuple[Thing, ...]:
    return tuple(each for each in cases(move.setting) if move.move.name in each.case.goes)


@fact(
    "days_in",
    "move",
    number(NUMBER),
    "days from the first day of hire to the day it starts; the first day of hire is the earliest that an order says, "
    "else the list's",
)
def days_in(move: MoveSubject) -> Amount:
    first, starts = first_day(move.setting.kitlist), move.move.on
    if first is None or starts is None:
        asked = {f"{move.move.label}: on": starts, "the first day of hire": first}
        return Amount(-math.inf, math.inf, tuple(name for name, said in asked.items() if said is None))
    days = float((starts - first).days)
    return Amount(days, days)


def first_day(kitlist: KitList) -> date | None:
    """The first day of hire: an order's own dates, or the list's where it says none; None where one is not known."""
    if any(order.dates is None and "dates" in order.places for order in kitlist.orders):
        return None
    said = [days.first for order in kitlist.orders if (days := order.dates or kitlist.dates) is not None]
    if said:
        return min(said)
    return kitlist.dates.first if kitlist.dates else None
