"""What the grammar makes of a value before its words and units are looked at: plain data with its columns."""

from __future__ import annotations

from msgspec import Struct


class UnreadableError(Exception):
    """The value cannot be read from column `at` on; None where it stops too early."""

    def __init__(self, at: int | None) -> None:
        super().__init__(at)
        self.at = at


class Word(Struct, frozen=True):
    """A stretch of the line as typed (look-alike characters made alike)."""

    text: str
    start: int
    end: int


class Amount(Struct, frozen=True):
    """A number and its unit, None where none is written."""

    number: Word
    unit: Word | None

    @property
    def start(self) -> int:
        return self.number.start

    @property
    def end(self) -> int:
        return self.unit.end if self.unit else self.number.end


class Doubt(Struct, frozen=True):
    """A quantity: `how` is exact, give, about, between, up_to, around or unknown; `second` the give or the far end."""

    how: str
    first: Amount | None
    second: Amount | None
    start: int
    end: int


class TravelEnd(Struct, frozen=True):
    amount: Amount
    direction: Word | None


class Travel(Struct, frozen=True):
    """From `back` to `front`; with `back` None from the mark."""

    back: TravelEnd | None
    front: TravelEnd


class Part(Struct, frozen=True):
    """One part of a place: how far, and in which direction."""

    far: Doubt
    direction: Word


class PlaceDraft(Struct, frozen=True):
    """A place of several parts; no parts is `?`."""

    parts: tuple[Part, ...]
    start: int
    end: int


class PointDraft(Struct, frozen=True):
    value: Doubt
    at: Doubt | None


class AxisDraft(Struct, frozen=True):
    depth: Doubt
    side: Word | None


class StepsDraft(Struct, frozen=True):
    span: PointDraft
    number: Word | None
    stepless: bool


class DrawDraft(Struct, frozen=True):
    usual: Doubt | None
    most: Doubt | None


class WeighedDraft(Struct, frozen=True):
    front: Doubt
    front_at: PlaceDraft
    rear: Doubt
    rear_at: PlaceDraft


class InterfaceDraft(Struct, frozen=True):
    """Family and size, word by word; no words is `?`."""

    words: tuple[Word, ...]
    at: PlaceDraft | None = None


class Counted(Struct, frozen=True):
    number: Word | None
    name: Word


class TagDraft(Struct, frozen=True):
    word: Word
    value: Word | Doubt


class Clause(Struct, frozen=True):
    """One clause after a comma: what it is, its value, and its stretch."""

    what: str
    value: object
    start: int
    end: int


class SlotDraft(Struct, frozen=True):
    options: tuple[Word, ...]
    mass: Doubt | None
    clauses: tuple[Clause, ...]


class AlsoDraft(Struct, frozen=True):
    slot: tuple[Word, ...]
    choices: SlotDraft


class WithoutDraft(Struct, frozen=True):
    slot: tuple[Word, ...]
    name: Word | None


class OrderedDraft(Struct, frozen=True):
    thing: Counted
    clauses: tuple[Clause, ...]


class StateDraft(Struct, frozen=True):
    words: tuple[Word, ...]
    value: Word | Doubt | None
    start: int
    end: int


class HeldDraft(Struct, frozen=True):
    thing: Counted
    is_case: bool
    states: tuple[StateDraft, ...]


class RigLine(Struct, frozen=True):
    name: tuple[Word, ...]
    like: tuple[Word, ...]


class WaiveLine(Struct, frozen=True):
    rule: Word
    subject: Word
    rest: tuple[Word, ...]
