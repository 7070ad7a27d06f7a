"""What the grammar makes of a value before its words and units are looked at: plain tuples with their columns."""

from __future__ import annotations

from typing import NamedTuple


class Word(NamedTuple):
    """A stretch of the line as typed (look-alike characters made alike)."""

    text: str
    start: int
    end: int


class Amount(NamedTuple):
    """A number and its unit, None where none is written."""

    number: Word
    unit: Word | None

    @property
    def start(self) -> int:
        return self.number.start

    @property
    def end(self) -> int:
        return self.unit.end if self.unit else self.number.end


class Doubt(NamedTuple):
    """A quantity: `how` is exact, give, about, between, up_to, around or unknown; `second` the give or the far end."""

    how: str
    first: Amount | None
    second: Amount | None
    start: int
    end: int


class TravelEnd(NamedTuple):
    amount: Amount
    direction: Word | None


class Travel(NamedTuple):
    """From `back` to `front`; with `back` None from the mark."""

    back: TravelEnd | None
    front: TravelEnd


class Part(NamedTuple):
    """One part of a place: how far, and in which direction."""

    far: Doubt
    direction: Word


class PlaceDraft(NamedTuple):
    """A place of several parts; no parts is `?`."""

    parts: tuple[Part, ...]
    start: int
    end: int


class PointDraft(NamedTuple):
    value: Doubt
    at: Doubt | None


class AxisDraft(NamedTuple):
    depth: Doubt
    side: Word | None


class StepsDraft(NamedTuple):
    span: PointDraft
    number: Word | None
    stepless: bool


class DrawDraft(NamedTuple):
    usual: Doubt | None
    most: Doubt | None


class WeighedDraft(NamedTuple):
    front: Doubt
    front_at: PlaceDraft
    rear: Doubt
    rear_at: PlaceDraft


class InterfaceDraft(NamedTuple):
    """Family and size, word by word; no words is `?`."""

    words: tuple[Word, ...]
    at: PlaceDraft | None = None


class Counted(NamedTuple):
    number: Word | None
    name: Word


class TagDraft(NamedTuple):
    word: Word
    value: Word | Doubt


class Clause(NamedTuple):
    """One clause after a comma: what it is, its value, and its stretch."""

    what: str
    value: object
    start: int
    end: int


class SlotDraft(NamedTuple):
    options: tuple[Word, ...]
    mass: Doubt | None
    clauses: tuple[Clause, ...]


class AlsoDraft(NamedTuple):
    slot: tuple[Word, ...]
    choices: SlotDraft


class WithoutDraft(NamedTuple):
    slot: tuple[Word, ...]
    name: Word | None


class OrderedDraft(NamedTuple):
    thing: Counted
    clauses: tuple[Clause, ...]


class StateDraft(NamedTuple):
    words: tuple[Word, ...]
    value: Word | Doubt | None
    start: int
    end: int


class HeldDraft(NamedTuple):
    thing: Counted
    is_case: bool
    states: tuple[StateDraft, ...]


class RigLine(NamedTuple):
    name: tuple[Word, ...]
    like: tuple[Word, ...]


class WaiveLine(NamedTuple):
    rule: Word
    subject: Word
    rest: tuple[Word, ...]
