"""Another part for a rig, or one more: from the parts books in use, those in stock first, then the smallest."""

from __future__ import annotations

import math
from collections.abc import Iterator

from kitproof.facts.mating import JOINERS, JointSubject, shortest_bridge
from kitproof.facts.part import PartSubject
from kitproof.facts.rig import RigSubject
from kitproof.mending.edits import Spot, put_below, quoted, spot_at
from kitproof.mending.ground import Ground
from kitproof.mending.offer import Offer, rig_of
from kitproof.mending.stock import Stock
from kitproof.model.parts import Part
from kitproof.model.rigs import Rig, SlotLine
from kitproof.proofing.covering import Found
from kitproof.proofing.findings import Change
from kitproof.reading.document import Entry, Where
from kitproof.rulebook.rules import Action
from kitproof.words.kinds import KINDS, SUPPORT
from kitproof.words.phrases import with_article
from kitproof.words.shapes import Shape

WORDS = {kind.name: kind.word for kind in KINDS.values()}
"""Slots as rules spell them, to their words."""


SHOT_WITH = ("camera", "lens")
"""What a job is shot with: where it does not mate, what it stands on is changed."""


# Another part


def choices(ground: Ground, found: Found, action: Action) -> Iterator[Offer]:
    """`choose SLOT`: every other part of its kind in its place, in the rig itself before the one that it is like."""
    thing = action.what(found.thing, found.env) if action.what else None
    rig = rig_of(found.thing)
    if not isinstance(thing, PartSubject) or rig is None:
        return
    if isinstance(found.thing, JointSubject) and thing.part.kind in SHOT_WITH:
        return
    line = next((each for each in rig.rig.lines if any(o.where == thing.where() for o in each.options)), None)
    if line is None:
        return
    for part in ranked(ground, rig.rig, thing.part.kind, thing.part.name):
        says = f"Choose {quoted(part.name)} in the place of {thing.label}"
        for changes in _in_its_place(ground, rig, line, thing.where(), part):
            yield Offer(says, changes, thing.part, (part,))


def _in_its_place(
    ground: Ground, rig: RigSubject, line: SlotLine, place: Where, part: Part
) -> Iterator[tuple[Change, ...]]:
    """A name exchanged on a rig's own line; on one that another rig lends it, a line of its own goes before that."""
    spot = spot_at(ground.document, place)
    if spot is None:
        return
    own = _entry_of(ground, rig)
    if own is not None and spot.entry is not own:
        new = _line_of_its_own(ground, rig, line, spot, place, part)
        if new is not None:
            yield (_slot_line(ground, own, line.slot, new),)
    yield (Change(place, quoted(part.name)),)


def _line_of_its_own(
    ground: Ground, rig: RigSubject, line: SlotLine, spot: Spot, place: Where, part: Part
) -> str | None:
    """The value of a lent line with the name exchanged; None where its own line would replace more than that one."""
    field = spot.field
    alone = sum(each.slot == line.slot for each in rig.rig.lines) == 1
    one_row = all(option.where.line == place.line for option in line.options)
    if field is None or field.shape is not Shape.SLOT or not alone or not one_row:
        return None
    text = ground.document.lines[place.line - 1]
    before, after = text[field.value_start : place.column - 1], text[place.to_column - 1 : field.value_end]
    return f"{before}{quoted(part.name)}{after}"


# One more part


def additions(ground: Ground, found: Found, action: Action) -> Iterator[Offer]:
    """`add SLOT`: a part of that kind on a line of its own; between two that do not mate, what joins them first."""
    rig = rig_of(found.thing)
    slot = WORDS.get(action.path[-1], "") if action.path else ""
    own = _entry_of(ground, rig) if rig is not None else None
    if rig is None or own is None or not slot:
        return
    runs: list[tuple[Part, ...]] = [(part,) for part in ranked(ground, rig.rig, slot, "")]
    if isinstance(found.thing, JointSubject) and slot in JOINERS:
        joint = found.thing
        books = tuple(ground.kitlist.parts.values())
        runs = [run for run in [shortest_bridge(joint.lower.part.takes, joint.upper.part.sits_on, books)] if run]
    for run in runs:
        names = " and ".join(f"{with_article(each.kind)}, {quoted(each.name)}" for each in run)
        changes = tuple(_added(ground, own, found, each) for each in run)
        yield Offer(f"Add {names}", changes, None, run)


def _added(ground: Ground, own: Entry, found: Found, part: Part) -> Change:
    """A part on a line of its own. What joins two goes above the lower one, where that is on a line of this rig."""
    if isinstance(found.thing, JointSubject):
        spot = spot_at(ground.document, found.thing.lower.line.where)
        if spot is not None and spot.entry is own and spot.field is not None:
            return put_below(ground.document, own.line + spot.field.row, part.kind, quoted(part.name))
    return _slot_line(ground, own, part.kind, quoted(part.name))


def _slot_line(ground: Ground, own: Entry, slot: str, value: str) -> Change:
    """A new slot line: what bears the camera from the ground up, a lens support after the lens, the rest last."""
    return put_below(ground.document, _below(own, slot), slot, value)


def _below(own: Entry, slot: str) -> int:
    """The line below which a slot's line goes, with the `or` lines that go on from that one."""
    after: tuple[str, ...] = tuple(WORDS.values())
    if slot in SUPPORT:
        after = SUPPORT[: SUPPORT.index(slot) + 1]
    elif slot == "lens support":
        after = ("lens",)
    line, goes_on = own.line, False
    for field in own.fields:
        goes_on = goes_on if field.shape is Shape.OR_SLOT else field.shape is Shape.SLOT and field.word in after
        line = own.line + field.row if goes_on else line
    return line


def _entry_of(ground: Ground, rig: RigSubject) -> Entry | None:
    """The entry of a rig in the list's own file."""
    named = (each for each in ground.document.entries if each.kind == "rig" and each.name == rig.rig.name)
    return next(named, None)


# Which part first


def others_of(ground: Ground, kind: str, but: str) -> list[Part]:
    """The parts of a kind in the books in use, but one."""
    return [each for each in ground.kitlist.parts.values() if each.kind == kind and each.name != but]


def ranked(ground: Ground, rig: Rig, kind: str, but: str) -> list[Part]:
    """The parts of a kind that a rig may take in the place of one, or besides: in stock on its dates beside all that is
    promised, then stock not known, then out of stock; smallest first."""
    stock = Stock(ground, rig, keeping=True)

    def rank(part: Part) -> tuple[int, float, float, str]:
        return stock.of(part), size_of(part), part.mass.high if part.mass else math.inf, part.name

    return sorted(others_of(ground, kind, but), key=rank)


def size_of(part: Part) -> float:
    """How large a part is among its kind, in SI: by what it bears, how far it travels, what it holds, else its mass.

    One of which that is not known comes last.
    """
    bears = [point.value.high for points in (part.rated, part.chart, part.tried) for point in points]
    if part.travel is not None:
        return part.travel.high - part.travel.low
    if bears:
        return max(bears)
    for each in (part.energy, part.diameter, part.mass):
        if each is not None and each.known:
            return each.high
    return math.inf
