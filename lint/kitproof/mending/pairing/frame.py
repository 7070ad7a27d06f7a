"""A rig that takes a pairing: its own sticks, head and slide out, others in their places, the rest as it is."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from msgspec import Struct
from msgspec.structs import replace

from kitproof.facts.build import combinations
from kitproof.mending.pairing.results import SLOTS, Pairing
from kitproof.model.parts import Part
from kitproof.model.rigs import Option, Rig, SlotLine
from kitproof.words.kinds import SUPPORT


class Frame(Struct, frozen=True):
    """A rig without what is chosen for it. `lines` are the lines that stay, `own` the lines whose place is taken, by
    slot; what a line says after its names (`legs at 1400 mm`) holds for whatever is chosen.

    Adapters next to what is chosen go out as well: which are needed is a part of the pairing. Risers stay, since they
    are there for the height. `above` is what stands on each slot, in any combination: parts, or "" for what is chosen.
    """

    rig: Rig
    slots: tuple[str, ...]
    lines: tuple[SlotLine | str, ...]
    own: dict[str, SlotLine]
    above: dict[str, tuple[Part | str, ...]]

    def taking(self, pairing: Pairing) -> Rig:
        """The rig with a pairing in it."""
        return replace(self.rig, lines=tuple(_lines(self, pairing)))


def framed(rig: Rig) -> Frame:
    """What is chosen for a rig: sticks, head and slide, whether it has them yet or not; no sticks for one that is
    mounted on something else."""
    slots = tuple(each for each in SLOTS if each != "sticks" or not rig.mounted_on)
    own: dict[str, SlotLine] = {}
    for line in rig.lines:
        if line.slot in slots:
            own.setdefault(line.slot, line)
    frame = Frame(rig, slots, tuple(_staying(rig, slots, own)), own, {})
    empty = Pairing(tuple(Part(kind=slot, name="", where=rig.where) for slot in slots), ((),) * len(slots))
    return replace(frame, above=_above(frame.taking(empty), slots))


def _staying(rig: Rig, slots: Sequence[str], own: dict[str, SlotLine]) -> list[SlotLine | str]:
    """The lines that stay, and each slot's word where what is chosen goes."""
    gone = _adapters_beside(rig, slots)
    names = {option.part.name: line.slot for line in rig.lines for option in line.options if option.part}
    lines: list[SlotLine | str] = []
    for line in rig.lines:
        if line.slot in slots:
            lines += [line.slot] if line is own[line.slot] else []
        elif line not in gone:
            on_what = names.get(line.on, "") if line.on_is_name else ""
            lines.append(replace(line, on=on_what, on_is_name=False) if on_what in slots else line)
    for slot in slots:
        if slot not in own:
            rank = SUPPORT.index(slot)
            words = [each if isinstance(each, str) else each.slot for each in lines]
            over = [n for n, word in enumerate(words) if word in SUPPORT and SUPPORT.index(word) > rank]
            lines.insert(over[0] if over else len(lines), slot)
    return lines


def _adapters_beside(rig: Rig, slots: Sequence[str]) -> list[SlotLine]:
    """The adapters that stand next to something that is chosen, others between them or not."""
    chain = [line for line in rig.lines if line.slot in SUPPORT and line.slot != "spreader"]
    gone = []
    for number, line in enumerate(chain):
        below = next((each.slot for each in reversed(chain[:number]) if each.slot != "adapter"), "")
        over = next((each.slot for each in chain[number + 1 :] if each.slot != "adapter"), "")
        if line.slot == "adapter" and (below in slots or over in slots):
            gone.append(line)
    return gone


def _lines(frame: Frame, pairing: Pairing) -> Iterator[SlotLine]:
    chosen = dict(zip(frame.slots, zip(pairing.parts, pairing.joiners, strict=True), strict=True))
    for line in frame.lines:
        if isinstance(line, SlotLine):
            yield line
            continue
        part, run = chosen[line]
        own = frame.own.get(line)
        where = own.where if own else frame.rig.where
        option = (Option(part=part, where=where),)
        yield (
            replace(own, options=option, only_with=(), only_with_at=(), spare=0)
            if own
            else SlotLine(slot=line, options=option, where=where)
        )
        for each in run:
            yield SlotLine(slot=each.kind, options=(Option(part=each, where=where),), where=where)


def _above(rig: Rig, slots: Sequence[str]) -> dict[str, tuple[Part | str, ...]]:
    """What stands on each slot in any combination: a part that stays, or a slot's word."""
    found: dict[str, dict[str, Part | str]] = {slot: {} for slot in slots}
    for build in combinations(rig):
        chain = build.chain
        for lower, upper in pairwise(chain):
            if lower.line.slot in slots:
                chosen = upper.line.slot in slots
                name = upper.line.slot if chosen else f"part {upper.part.name}"
                found[lower.line.slot][name] = upper.line.slot if chosen else upper.part
    return {slot: tuple(each.values()) for slot, each in found.items()}
