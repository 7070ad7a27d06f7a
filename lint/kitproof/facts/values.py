"""What a fact's value can be, and what type it has.

A number is an interval and the list of what is missing, both at once: an unknown mass is [0, inf) with its name in
`missing`, not a hole. Reaches have the same two ends; their type tells them from doubt.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from enum import IntEnum
from typing import Literal, Protocol, TypeGuard, runtime_checkable

from msgspec import Struct

from kitproof.reading.document import Where
from kitproof.words.dimensions import NUMBER, Dimension


class Truth(IntEnum):
    """The four truths of the rule language."""

    FALSE = 0
    TRUE = 1
    UNDECIDED = 2
    MISSING = 3


class Amount(Struct, frozen=True):
    """A number in SI anywhere between `low` and `high`; `missing` names what is not known of its inputs."""

    low: float
    high: float
    missing: tuple[str, ...] = ()

    @property
    def sharp(self) -> bool:
        return self.low == self.high


class Tagged(Amount, frozen=True):
    """A house's own number, with the dimension that it was written in."""

    dimension: Dimension = NUMBER


class Words(Struct, frozen=True):
    """A word or a name; None where it is not known (`missing` says why) or there is none (`missing` is empty)."""

    text: str | None
    missing: tuple[str, ...] = ()


class Verdict(Struct, frozen=True):
    """A truth with the names of what is missing where it is MISSING."""

    truth: Truth
    missing: tuple[str, ...] = ()


@runtime_checkable
class Thing(Protocol):
    """Anything that rules can be about: a rig with its choices made, a part, a joint, a packed thing …"""

    @property
    def about(self) -> str:
        """Its subject, in the words of the rule language."""

    @property
    def label(self) -> str:
        """What messages call it: rig A, "Fenner 12 head"."""

    @property
    def day(self) -> date | None:
        """The day that it takes place on, by which dated limits are chosen; None where it has none of its own."""

    def value(self, name: str) -> Held:
        """The value of one of its facts, worked out once; the registry must have the name for its subject."""

    def where(self, path: tuple[str, ...] = ()) -> Where:
        """The place in the text of the thing itself, or of what a path leads to (`head`, `head.chart`)."""


class Several(tuple[Thing, ...]):
    """A set of things; `missing` names what may have held more of them, such as a line that could not be read."""

    missing: tuple[str, ...]

    def __new__(cls, things: Iterable[Thing], missing: tuple[str, ...] = ()) -> Several:
        made = super().__new__(cls, things)
        made.missing = missing
        return made


Held = Amount | Words | Verdict | Thing | None | tuple[Thing, ...]
"""None is a thing that is not there."""


def is_thing(held: Held) -> TypeGuard[Thing]:
    """Whether a value is a thing. To ask for the protocol itself would try each of its members, each time."""
    return held is not None and not isinstance(held, (Amount, Words, Verdict, tuple))


Sort = Literal["number", "reach", "text", "truth", "thing", "set"]


class Type(Struct, frozen=True):
    """A static type: a number or reach with its dimension, words (with the fixed ones, if they are fixed), a truth,
    a thing or a set of things of one subject (for a part: of one kind, "" for any)."""

    sort: Sort
    dimension: Dimension | None = None
    subject: str = ""
    kind: str = ""
    words: tuple[str, ...] = ()


def number(dimension: Dimension) -> Type:
    return Type("number", dimension)


def reach(dimension: Dimension) -> Type:
    return Type("reach", dimension)


def text(*words: str) -> Type:
    return Type("text", words=words)


def thing(subject: str, kind: str = "") -> Type:
    return Type("thing", subject=subject, kind=kind)


def set_of(subject: str, kind: str = "") -> Type:
    return Type("set", subject=subject, kind=kind)


TRUTH = Type("truth")


def joined(*missing: tuple[str, ...]) -> tuple[str, ...]:
    """Names of what is missing, each once, in the order met."""
    return tuple(dict.fromkeys(name for each in missing for name in each))
