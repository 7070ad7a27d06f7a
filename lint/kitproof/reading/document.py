"""What a gear list reads as: entries with fields, each value typed by its shape, and slips for what could not be read.

Every node keeps `start` and `end`, columns of its line counted from 0, `end` just after the last character. A field
knows its `row` within its entry and an entry its line in the file, so that an entry read once can be used again
wherever the same text stands. Numbers are SI floats.
"""

from __future__ import annotations

from datetime import date
from typing import NamedTuple

from msgspec import Struct, field

from kitproof.words.dimensions import Dimension
from kitproof.words.shapes import Shape


class Where(NamedTuple):
    """A stretch of text. Lines and columns count from 1, columns in characters, `to_column` just after the last."""

    path: str
    line: int
    column: int
    to_line: int
    to_column: int


class Quantity(Struct, frozen=True):
    """One quantity as written: anywhere between `low` and `high`, in SI.

    `known` is False for `?`, which has no dimension. `how` is "exact", "give" (±), "about", "between" or "unknown";
    `unit` is the unit as typed, "" for a plain number (dimension NUMBER).
    """

    low: float
    high: float
    dimension: Dimension | None
    start: int
    end: int
    how: str = "exact"
    unit: str = ""

    @property
    def known(self) -> bool:
        return self.how != "unknown"


class Reach(Struct, frozen=True):
    """A reach: all from `low` to `high` will be used or is allowed. One value is a reach of one point."""

    low: float
    high: float
    dimension: Dimension | None
    start: int
    end: int
    known: bool = True
    unit: str = ""


class Place(Struct, frozen=True):
    """A place as offsets (low, high) in metres; a direction not said is 0. `known` is False for `?`."""

    forward: tuple[float, float]
    up: tuple[float, float]
    left: tuple[float, float]
    start: int
    end: int
    known: bool = True
    said: tuple[str, ...] = ()  # the axes that were written: "forward", "up", "left"


class Size(Struct, frozen=True):
    """Two or three lengths, in the order written."""

    sides: tuple[Quantity, ...]
    start: int
    end: int
    known: bool = True


class Point(Struct, frozen=True):
    """A value, and the height (or what else stands after `at`) where it holds; None where none is said."""

    value: Quantity
    at: Quantity | None
    start: int
    end: int


class Points(Struct, frozen=True):
    points: tuple[Point, ...]
    start: int
    end: int
    known: bool = True


class Interface(Struct, frozen=True):
    """A family and a size, in words: lengths in a size are written out in mm, so that 10 cm and 100 mm agree.

    `at` is where the port is, from the part's own seat; None where it is not said.
    """

    family: str
    size: str
    at: Place | None
    start: int
    end: int
    known: bool = True


class Axis(Struct, frozen=True):
    """Depth of the tilt axis below the plate's top face; negative above it."""

    depth: Quantity
    start: int
    end: int


class Steps(Struct, frozen=True):
    """Counterbalance: least to most, as torque, or as masses at height `at`. `steps` is None where not said."""

    reach: Reach
    at: Quantity | None
    steps: int | None
    stepless: bool
    start: int
    end: int


class Draw(Struct, frozen=True):
    usual: Quantity
    most: Quantity | None
    start: int
    end: int


class Weighed(Struct, frozen=True):
    """Two scales: what each showed, and where it stood."""

    front: Quantity
    front_at: Place
    rear: Quantity
    rear_at: Place
    start: int
    end: int


class Phrase(Struct, frozen=True):
    text: str
    start: int
    end: int


class Phrases(Struct, frozen=True):
    phrases: tuple[Phrase, ...]
    start: int
    end: int


class Flag(Struct, frozen=True):
    start: int
    end: int


class Name(Struct, frozen=True):
    """A name in quotes; start and end take the quotes in."""

    text: str
    start: int
    end: int


class CountedName(Struct, frozen=True):
    count: int
    name: Name


class Counted(Struct, frozen=True):
    names: tuple[CountedName, ...]
    start: int
    end: int


class Count(Struct, frozen=True):
    number: int
    start: int
    end: int


class Day(Struct, frozen=True):
    day: date
    start: int
    end: int


class Dates(Struct, frozen=True):
    first: Day
    last: Day
    start: int
    end: int


class Tag(Struct, frozen=True):
    word: str
    value: Name | Quantity
    start: int
    end: int


class Choices(Struct, frozen=True):
    """A slot line. `options` holds a Name for each alternative, None for `none`; empty where only a mass is said.

    `on` is "head", "sticks", "ground", another slot's word, or a part's name; "" where not said. `on_place` is the
    clause that says it.
    """

    options: tuple[Name | None, ...]
    start: int
    end: int
    mass: Quantity | None = None
    at: Place | None = None
    on: str = ""
    on_is_name: bool = False
    legs: Reach | None = None
    hung: Quantity | None = None
    spare: int = 0
    only_with: tuple[Name, ...] = ()
    on_place: Phrase | None = None


class Also(Struct, frozen=True):
    """`also SLOT …` in a rig."""

    slot: str
    choices: Choices
    start: int
    end: int


class Without(Struct, frozen=True):
    """`without SLOT ["name"]` in a rig."""

    slot: str
    name: Name | None
    start: int
    end: int


class Ordered(Struct, frozen=True):
    """`2 x "name", for rig A, spare 1`; `spare` of the count are spares."""

    count: int
    name: Name
    for_rig: str
    spare: int
    start: int
    end: int


class State(Struct, frozen=True):
    """One state of a packed thing, in the words of `STATES`, with its quantity, step, "off" or name if it has one.

    `tilted down 70°` has text "tilted down" and a quantity of 70°; `counterbalance 8` a step of 8, `counterbalance off`
    a step of 0; `fitted in "…"` a name.
    """

    text: str
    start: int
    end: int
    quantity: Quantity | None = None
    step: int | None = None
    name: Name | None = None


class Held(Struct, frozen=True):
    """`holds`: a part (or a case, `is_case`), its count, its mass if it is in no book, and its states."""

    name: Name
    is_case: bool
    count: int
    mass: Quantity | None
    states: tuple[State, ...]
    start: int
    end: int


class Lift(Struct, frozen=True):
    people: int
    from_height: Quantity | None
    to_height: Quantity | None
    out: Quantity | None
    rate: Quantity | None
    start: int
    end: int


Value = (
    Quantity
    | Reach
    | Place
    | Size
    | Points
    | Interface
    | Axis
    | Steps
    | Draw
    | Weighed
    | Phrases
    | Flag
    | Name
    | Counted
    | Count
    | Day
    | Dates
    | Tag
    | Choices
    | Also
    | Without
    | Ordered
    | Held
    | Lift
)


class Slip(Struct, frozen=True):
    """Something that could not be read, or not taken as it stands.

    `kind` is the name of the reading rule that speaks of it; `said` is the text as typed, `wanted` what should stand
    there in a person's words, `nearest` the nearest known words, `repair` the text to put in its place (None where
    none is sure). `row` counts from the entry's first line; start and end are columns of that line.
    """

    kind: str
    row: int
    start: int
    end: int
    said: str
    wanted: str = ""
    nearest: tuple[str, ...] = ()
    repair: str | None = None
    field: str = ""


class Field(Struct, frozen=True):
    """One field line. `value` is None where the word was read and the value was not: it is then not known."""

    word: str
    shape: Shape
    value: Value | None
    row: int
    start: int
    end: int
    value_start: int
    value_end: int


class Entry(Struct, frozen=True):
    """An entry: its kind, its name and what else its first line says.

    `name` is a list's title, a used file's path, a part's, rig's, move's or case's name, whom an order is from, the
    rule of a waiver ("" where there is none). `part_kind` is a part's kind; `like` the rig that a rig starts from;
    `subject` a waiver's, as typed (`rig B`, `case "Tall tube 2"`, `list`); `within` the quantity of `weights within`.
    `unread` are the rows that could not be read at all. `name_start` and `name_end` are columns of the first line.
    """

    kind: str
    name: str
    line: int
    rows: int
    end: int  # column just after the first line's last word
    fields: tuple[Field, ...] = ()
    slips: tuple[Slip, ...] = ()
    unread: tuple[int, ...] = ()
    name_start: int = 0
    name_end: int = 0
    part_kind: str = ""
    like: str = ""
    subject: str = ""
    within: Quantity | None = None


class Document(Struct, frozen=True):
    """A whole file: its text as it was, its entries in order, and the slips that stand in no entry."""

    path: str
    text: str
    lines: tuple[str, ...]
    entries: tuple[Entry, ...]
    slips: tuple[tuple[int, Slip], ...] = field(default=())  # (line, slip)

    def where(self, entry: Entry, row: int, start: int, end: int) -> Where:
        """The place in the file of columns `start` to `end` on a row of an entry."""
        line = entry.line + row
        return Where(self.path, line, start + 1, line, end + 1)
