"""Batteries as they are packed for the air: spare or fitted, how far charged, terminals covered."""

from __future__ import annotations

import math

from kitproof.facts import cases
from kitproof.facts.fact import fact
from kitproof.facts.packing import MoveSubject, PackedSubject
from kitproof.facts.values import TRUTH, Amount, Several, Truth, Verdict, Words, joined, number, set_of, text
from kitproof.words.dimensions import NUMBER

RUN_BY_BATTERIES = ("camera", "monitor", "recorder", "light")
"""Kinds of part that a battery runs, whether or not a book says what they draw."""


@fact("spare", "packed", TRUTH, "whether a battery travels as a spare, and not fitted in what it runs")
def spare(packed: PackedSubject) -> Verdict:
    """Said either way; where neither is said it is not known."""
    if "spare" in packed.packed.states:
        return Verdict(Truth.TRUE)
    if packed.packed.fitted_in:
        return Verdict(Truth.FALSE)
    return Verdict(Truth.MISSING, packed.lacks("spare, or fitted in what"))


@fact("charge", "packed", number(NUMBER), "how far a battery is charged, as a share of what it holds")
def charge(packed: PackedSubject) -> Amount:
    said = packed.packed.charge
    if said is None or not said.known:
        return Amount(0.0, math.inf, packed.lacks("charge"))
    return Amount(said.low, said.high)


@fact("terminals_covered", "packed", TRUTH, "whether a battery's terminals are said to be covered; not said is no")
def terminals_covered(packed: PackedSubject) -> Verdict:
    return Verdict(Truth.TRUE if "terminals covered" in packed.packed.states else Truth.FALSE)


@fact("with_equipment", "packed", TRUTH, "whether its case holds equipment too that batteries run")
def with_equipment(packed: PackedSubject) -> Verdict:
    """A line of the case that could not be read may be some, and so may what says unreadably what it draws."""
    parts = [each.part for each in packed.case.holds if each.part is not None]
    if any(part.kind in RUN_BY_BATTERIES or part.draws is not None for part in parts):
        return Verdict(Truth.TRUE)
    draws = tuple(part.lacks("draws") for part in parts if "draws" in part.unread)
    missing = joined(draws, packed.case.unread)
    return Verdict(Truth.MISSING, missing) if missing else Verdict(Truth.FALSE)


@fact("limits_day", "move", text(), "the day whose limits are looked at: its own, else that of the proof", certain=True)
def limits_day(move: MoveSubject) -> Words:
    if move.day is not None:
        return Words(move.day.isoformat())
    return Words(f"{move.setting.day}, the day of this proof, since the move says none")


@fact("packed", "move", set_of("packed"), "everything that lies in the cases that go on it, cases within cases too")
def packed_on(move: MoveSubject) -> Several:
    """Each once, whether its own case goes on it or one that its case lies in. A line of a case that could not be read
    may have held one thing more, and a case of which a move is not known may go on it too."""
    named = {each.name: each for each in move.setting.kitlist.cases}
    going = {
        inner.name: inner
        for case in named.values()
        if move.move.name in case.goes
        for inner in cases.with_inner(case, named)
    }
    things = [thing for case in going.values() for thing in cases.things_in(move.setting, case, case.holds)]
    lost = (case.lost_moves for case in named.values() if case.name not in going)
    return Several(things, joined(*(case.unread for case in going.values()), *lost))
