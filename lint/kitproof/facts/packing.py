"""One thing held in a case: the state it is packed in, and the journeys it is packed for."""

from __future__ import annotations

import math
from collections.abc import Mapping
from datetime import date
from typing import ClassVar

from kitproof.facts.fact import fact
from kitproof.facts.part import PartSubject, part_named
from kitproof.facts.subject import Setting, Subject
from kitproof.facts.values import TRUTH, Amount, Thing, Truth, Verdict, Words, joined, number, set_of, text, thing
from kitproof.model.kitlist import Case, Move, Packed
from kitproof.model.parts import Part
from kitproof.model.quantities import Interval
from kitproof.reading.document import Where
from kitproof.words.dimensions import ANGLE, NUMBER, TIME
from kitproof.words.kinds import PAN_BAR_STATES


class MoveSubject(Subject):
    about: ClassVar[str] = "move"

    def __init__(self, setting: Setting, move: Move) -> None:
        super().__init__(setting)
        self.move = move

    @property
    def label(self) -> str:
        return f'"{self.move.name}"'

    @property
    def within(self) -> tuple[str, ...]:
        return (self.move.label,)

    @property
    def day(self) -> date | None:
        return self.move.on

    @property
    def tags(self) -> Mapping[str, str | Interval]:
        return self.move.tag

    def place(self, field: str) -> Where:
        return self.move.places.get(field, self.move.where)


class CaseSubject(Subject):
    about: ClassVar[str] = "case"

    def __init__(self, setting: Setting, case: Case) -> None:
        super().__init__(setting)
        self.case = case

    @property
    def label(self) -> str:
        return self.case.label

    @property
    def within(self) -> tuple[str, ...]:
        return (self.case.label,)

    @property
    def tags(self) -> Mapping[str, str | Interval]:
        return self.case.tag

    def place(self, field: str) -> Where:
        return self.case.places.get(field, self.case.where)


class PackedSubject(Subject):
    """One `holds` line of a case that holds a part."""

    about: ClassVar[str] = "packed"

    def __init__(self, setting: Setting, case: Case, packed: Packed, part: Part) -> None:
        super().__init__(setting)
        self.case, self.packed, self.part = case, packed, part

    @property
    def label(self) -> str:
        return f"{self.case.label}, {self.part.label}"

    @property
    def within(self) -> tuple[str, ...]:
        return (self.case.label, part_named(self.part), *(move.label for move in self.moves))

    def place(self, field: str) -> Where:
        return self.packed.places.get(field, self.packed.where)

    def lacks(self, state: str) -> tuple[str, ...]:
        return (f"{self.label}: {state}",)

    @property
    def moves(self) -> list[Move]:
        return [self.setting.kitlist.moves[name] for name in self.case.goes]


def packed_things(setting: Setting) -> list[PackedSubject]:
    return [
        PackedSubject(setting, case, packed, packed.part)
        for case in setting.kitlist.cases
        for packed in case.holds
        if packed.part is not None
    ]


@fact("name", "case", text(), "its name in the list", certain=True)
def case_name(case: CaseSubject) -> Words:
    return Words(case.case.name)


@fact("name", "move", text(), "its name in the list", certain=True)
def move_name(move: MoveSubject) -> Words:
    return Words(move.move.name)


@fact("stored", "move", TRUTH, "whether it is storage")
def move_stored(move: MoveSubject) -> Verdict:
    if _blank(move.move):
        return Verdict(Truth.MISSING, (f"{move.move.label}: stored",))
    return _truth(move.move.stored)


@fact("lasts", "move", number(TIME), "how long it takes")
def move_lasts(move: MoveSubject) -> Amount:
    return _lasts(move.move)


@fact("part", "packed", thing("part"), "what is packed")
def part(packed: PackedSubject) -> PartSubject:
    return PartSubject(packed.setting, packed.part, packed.packed.where)


@fact("case", "packed", thing("case"), "the case that holds it")
def case_of(packed: PackedSubject) -> CaseSubject:
    return CaseSubject(packed.setting, packed.case)


@fact("moves", "packed", set_of("move"), "the moves that its case goes on")
def moves(packed: PackedSubject) -> tuple[Thing, ...]:
    return tuple(MoveSubject(packed.setting, move) for move in packed.moves)


@fact("kind", "packed", text(), "the kind of part that is packed", certain=True)
def kind(packed: PackedSubject) -> Words:
    return Words(packed.part.kind)


@fact("tilted", "packed", number(ANGLE), "how far a head is tilted where it is packed, positive looking up")
def tilted(packed: PackedSubject) -> Amount:
    angle = packed.packed.tilted
    if angle is None or not angle.known:
        return Amount(-math.pi, math.pi, packed.lacks("level, or tilted by how much"))
    return Amount(angle.low, angle.high)


@fact("tension", "packed", number(NUMBER), "the counterbalance step at which a head is left; 0 when it is off")
def tension(packed: PackedSubject) -> Amount:
    """A head that has no counterbalance is under no tension."""
    step = packed.packed.step
    if step is not None:
        return Amount(step, step)
    return Amount(0.0, math.inf, packed.lacks("the counterbalance step at which it is left"))


def _one_of(packed: PackedSubject, before: str, words: tuple[str, ...], asks: str) -> Words:
    for word in words:
        if f"{before} {word}" in packed.packed.states:
            return Words(word)
    return Words(None, packed.lacks(asks))


@fact("tilt_lock", "packed", text("locked", "free"), "how the tilt lock is left")
def tilt_lock(packed: PackedSubject) -> Words:
    return _one_of(packed, "tilt", ("locked", "free"), "tilt locked or free")


@fact("pan_bar_left", "packed", text(*PAN_BAR_STATES), "how the pan bar is left")
def pan_bar_left(packed: PackedSubject) -> Words:
    return _one_of(packed, "pan bar", PAN_BAR_STATES, "how its pan bar is left")


@fact("slide_left", "packed", text("on", "off"), "whether the sliding plate is left on")
def slide_left(packed: PackedSubject) -> Words:
    return _one_of(packed, "slide", ("on", "off"), "slide on or off")


def _truth(said: bool) -> Verdict:
    return Verdict(Truth.TRUE if said else Truth.FALSE)


@fact("camera_left", "packed", TRUTH, "whether a camera is left on; not said is no", certain=True)
def camera_left(packed: PackedSubject) -> Verdict:
    return _truth("camera on" in packed.packed.states)


@fact("on_sticks", "packed", TRUTH, "whether it is packed on the sticks; not said is no", certain=True)
def on_sticks(packed: PackedSubject) -> Verdict:
    return _truth("on sticks" in packed.packed.states)


@fact("in_own_case", "packed", TRUTH, "whether it is packed in its own case; not said is no", certain=True)
def in_own_case(packed: PackedSubject) -> Verdict:
    return _truth("in own case" in packed.packed.states)


def _lasts(move: Move) -> Amount:
    if move.lasts is None or not move.lasts.known:
        return Amount(0.0, math.inf, (f"{move.label}: lasts",))
    return Amount(move.lasts.low, move.lasts.high)


def _longest(packed: PackedSubject, stored: bool) -> Amount:
    """The longest of the moves of one sort; 0 where its case goes on none. One that may be of the other sort may be
    none of this."""
    times = [_lasts(move) for move in packed.moves if move.stored is stored and not _blank(move)]
    for move in filter(_blank, packed.moves):
        lasts = _lasts(move)
        times.append(Amount(0.0, lasts.high, (*lasts.missing, f"{move.label}: stored")))
    lost = packed.case.lost_moves
    return Amount(
        max((each.low for each in times), default=0.0),
        math.inf if lost else max((each.high for each in times), default=0.0),
        joined(*(each.missing for each in times), lost),
    )


def _blank(move: Move) -> bool:
    """Whether it says `stored` in a line that could not be read: it may be storage or a journey."""
    return "stored" in move.places and not move.stored


@fact("longest_journey", "packed", number(TIME), "the longest journey that its case goes on; 0 for none")
def longest_journey(packed: PackedSubject) -> Amount:
    return _longest(packed, False)


@fact("longest_storage", "packed", number(TIME), "the longest storage that its case goes into; 0 for none")
def longest_storage(packed: PackedSubject) -> Amount:
    return _longest(packed, True)
