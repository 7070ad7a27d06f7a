"""Fixes of whole lines: more of a part ordered, a line or a state taken out, a part packed in another case."""

from __future__ import annotations

import math
from collections.abc import Iterator

from kitproof.facts.companions import CompanionSubject
from kitproof.facts.orders import LineSubject
from kitproof.facts.packing import PackedSubject
from kitproof.facts.part import PartSubject
from kitproof.facts.states import STATES
from kitproof.mending.edits import (
    Spot,
    entry_taken_out,
    last_line,
    line_taken_out,
    put_below,
    quoted,
    spot_at,
    state_taken_out,
)
from kitproof.mending.ground import Ground
from kitproof.mending.offer import Offer
from kitproof.mending.supply import likeness, more_ordered
from kitproof.proofing.covering import Found
from kitproof.proofing.findings import Change
from kitproof.reading.document import Choices, Entry, Held
from kitproof.rulebook.explain import fix_words
from kitproof.rulebook.rules import Action


def orderings(ground: Ground, found: Found, action: Action) -> Iterator[Offer]:
    """`order N of PART`: so many in all."""
    thing = action.what(found.thing, found.env) if action.what else None
    count = action.count.read(found.thing, found.env) if action.count else None
    part = thing.part if isinstance(thing, PartSubject) else None
    if isinstance(thing, CompanionSubject):
        part = ground.kitlist.parts.get(thing.wish.name)  # where any of a kind will do, which one is for a person
    if part is None or count is None or not count.sharp or math.isinf(count.low):
        return
    total = math.ceil(count.low)
    changes = more_ordered(ground, part, total)
    if changes:
        yield Offer(f"Order {total} x {quoted(part.name)}", changes)


def removals(ground: Ground, found: Found, action: Action) -> Iterator[Offer]:
    """`remove PLACE`: a whole entry, a line, or a state of a packed thing. Comments stay."""
    spot = spot_at(ground.document, found.thing.where(action.path))
    says = fix_words(action, found.thing, found.env, ground.units)
    if spot is None or not says:
        return
    changes = _taken_out(ground, spot, action.path[-1] if action.path else "")
    if changes:
        yield Offer(says.rstrip("."), changes)


def _taken_out(ground: Ground, spot: Spot, name: str) -> tuple[Change, ...]:
    document, field = ground.document, spot.field
    if field is None:
        return entry_taken_out(document, spot.entry)
    if isinstance(field.value, Held) and name:
        said = [each for each in field.value.states if each.text in STATES.get(name, ())]
        return tuple(state_taken_out(document, spot, each) for each in said)
    if isinstance(field.value, Choices) and len(field.value.options) > 1:
        return ()  # the other alternatives stay, and which of them is meant is for a person
    return (line_taken_out(document, spot.entry.line + field.row),)


def packings(ground: Ground, found: Found, action: Action) -> Iterator[Offer]:
    """`pack PART`: the part in every other case of the list in turn, with all that is said of its state.

    First in the cases that hold most of its kind.
    """
    cases = [each for each in ground.document.entries if each.kind == "case"]
    thing = found.thing
    if isinstance(thing, PackedSubject):
        spot = spot_at(ground.document, thing.where())
        if spot is None or spot.field is None:
            return
        line = spot.entry.line + spot.field.row
        value = ground.document.lines[line - 1][spot.field.value_start : spot.field.value_end]
        gone: tuple[Change, ...] = (line_taken_out(ground.document, line),)
        cases = [each for each in cases if each is not spot.entry]
        part = thing.part
    elif isinstance(thing, LineSubject):
        part, gone = thing.line.part, ()
        missing = thing.line.count - thing.tally.held.get(part.name, 0)
        value = quoted(part.name) if missing == 1 else f"{missing} x {quoted(part.name)}"
    else:
        return
    cases.sort(key=lambda case: likeness(ground, case, part), reverse=True)
    for case in cases:
        says = f'Pack {quoted(part.name)} in case "{case.name}"'
        yield Offer(says, (*gone, put_below(ground.document, _below(case), "holds", value)))


def _below(case: Entry) -> int:
    """The line below which one more thing goes into a case: its last `holds`, else its last line."""
    held = [case.line + each.row for each in case.fields if each.word == "holds"]
    return held[-1] if held else last_line(case)
