"""Random lists as plain Python: what the second implementation reads, and what is typed out for the first one.

Every quantity keeps the text that a person would type beside its ends in SI as exact fractions. A float stands only for
an end without bound.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from datetime import date
from fractions import Fraction

Number = Fraction | float
"""A fraction, or ∞ or −∞ as a float."""

Range = tuple[Number, Number]


@dataclass(frozen=True)
class Between:
    """Both ends of a fact that is not claimed exact: it holds at least `inner`, and reaches no farther than `outer`."""

    inner: Range
    outer: Range


def between(inner: Range, outer: Range) -> Range | Between:
    return inner if inner == outer else Between(inner, outer)


Found = Range | Between | str | None
"""A fact: a range, what a range must lie between, a word, or None where there is nothing to say."""

ZERO = Fraction(0)
NOTHING: Range = (ZERO, ZERO)
ANYTHING: Range = (-math.inf, math.inf)
ANY_MASS: Range = (ZERO, math.inf)


@dataclass(frozen=True)
class Quantity:
    """One quantity as typed, and its ends in SI; `?` has no ends of its own."""

    text: str
    low: Number = ZERO
    high: Number = ZERO
    known: bool = True

    @property
    def range(self) -> Range:
        return (self.low, self.high)


UNSAID = Quantity("?", known=False)


@dataclass(frozen=True)
class Spot:
    """A place as typed, and its ends along the three axes, in metres."""

    text: str
    forward: Range = NOTHING
    up: Range = NOTHING
    left: Range = NOTHING
    known: bool = True

    def along(self, axis: str) -> Range:
        return {"forward": self.forward, "up": self.up, "left": self.left}[axis]


UNSAID_SPOT = Spot("?", ANYTHING, ANYTHING, ANYTHING, known=False)


@dataclass(frozen=True)
class Port:
    family: str
    size: str = ""
    at: Spot | None = None

    @property
    def text(self) -> str:
        return f"{self.family} {self.size}".strip()


@dataclass(frozen=True)
class Figure:
    mass: Quantity
    at: Quantity | None = None

    @property
    def text(self) -> str:
        return self.mass.text + (f" at {self.at.text}" if self.at else "")


@dataclass(frozen=True)
class Weighed:
    front: Quantity
    front_at: Spot
    rear: Quantity
    rear_at: Spot


@dataclass(frozen=True)
class Spring:
    """A counterbalance: a torque from least to most, or with `at` a mass at that height above the plate."""

    reach: Quantity
    steps: int | None = None
    stepless: bool = False
    at: Quantity | None = None

    @property
    def text(self) -> str:
        at = f" at {self.at.text}" if self.at else ""
        return self.reach.text + at + (", stepless" if self.stepless else f", {self.steps} steps" if self.steps else "")


@dataclass(frozen=True)
class Part:
    """A part; what is None or empty is not written. `within` widens its masses, by what its file says above it."""

    kind: str
    name: str
    mass: Quantity | None = None
    weighed: Weighed | None = None
    cog: Spot | None = None
    height: Quantity | None = None
    length: Quantity | None = None
    size: tuple[Quantity, ...] = ()
    sits_on: tuple[Port, ...] = ()
    takes: tuple[Port, ...] = ()
    rated: Figure | None = None
    chart: tuple[Figure, ...] = ()
    tried: tuple[Figure, ...] = ()
    legs: Quantity | None = None
    feet: tuple[tuple[Quantity, Quantity], ...] = ()  # (radius, leg height)
    axis: Quantity | None = None  # the depth below the plate, negative above; its text says which
    spring: Spring | None = None
    tilt: Quantity | None = None
    drag: Quantity | None = None
    lens_moment: Quantity | None = None
    diameter: Quantity | None = None
    wall: Quantity | None = None
    made_of: str = ""
    sail_area: Quantity | None = None
    travel: Quantity | None = None
    slides_itself: bool = False
    have: int | None = None
    includes: tuple[tuple[int, str], ...] = ()
    within: Fraction = ZERO

    def __hash__(self) -> int:
        return hash((self.kind, self.name))  # the numbers in it take long


@dataclass(frozen=True)
class Line:
    """A slot line of a rig. An option of None is `none`; `word` is how it begins: "", "also" or "or"."""

    slot: str
    options: tuple[str | None, ...]
    word: str = ""
    mass: Quantity | None = None
    at: Spot | None = None
    on: str = ""
    on_is_name: bool = False
    legs: Quantity | None = None
    hung: Quantity | None = None
    spare: int = 0
    only_with: tuple[str, ...] = ()

    def __hash__(self) -> int:
        return hash((self.slot, self.options))


@dataclass(frozen=True)
class Without:
    slot: str
    name: str = ""


@dataclass(frozen=True)
class Rig:
    """A rig as typed: with `like`, its lines are changes to another rig."""

    name: str
    lines: tuple[Line | Without, ...]
    like: str = ""
    underslung: bool = False
    dates: tuple[date, date] | None = None
    instead_of: tuple[str, ...] = ()
    tilts: Quantity | None = None
    left_standing: bool = False
    push: Quantity | None = None
    slope: Quantity | None = None
    wind: Quantity | None = None


@dataclass(frozen=True)
class Ordered:
    count: int
    name: str
    spare: int = 0


@dataclass(frozen=True)
class Move:
    name: str
    stored: bool = False
    lasts: Quantity | None = None


@dataclass(frozen=True)
class Held:
    """One `holds` line: a part's name, how many of it, and the states as typed, each with what it says in numbers."""

    name: str
    count: int = 1
    tilted: Quantity | None = None  # in radians, positive looking up; its text is the whole state
    step: int | None = None
    words: tuple[str, ...] = ()


@dataclass(frozen=True)
class Case:
    name: str
    goes: tuple[str, ...]
    holds: tuple[Held, ...]


@dataclass(frozen=True)
class Kit:
    """A whole list, and the parts that stand in the book that it uses (`in_book`) or in itself."""

    parts: tuple[Part, ...]
    in_book: frozenset[str]
    rigs: tuple[Rig, ...]
    book_within: Quantity | None = None
    list_within: Quantity | None = None
    dates: tuple[date, date] | None = None
    slope: Quantity | None = None
    wind: Quantity | None = None
    orders: tuple[tuple[Ordered, ...], ...] = ()
    moves: tuple[Move, ...] = ()
    cases: tuple[Case, ...] = ()

    def part(self, name: str) -> Part | None:
        return next((each for each in self.parts if each.name == name), None)
