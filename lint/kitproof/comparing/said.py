"""What a list says, in a form that can be compared, and in words."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from datetime import date
from functools import singledispatch
from typing import Any

from msgspec import Struct
from msgspec.structs import fields

from kitproof.facts.values import Amount
from kitproof.model.kitlist import Lifted
from kitproof.model.parts import Counterbalance, Draw, Named, Point, Seat, Weighed
from kitproof.model.quantities import ANYWHERE, UNKNOWN_SPOT, Interval, Reach, Spot
from kitproof.model.rigs import Days
from kitproof.rulebook.messages import DEFAULT_UNITS, FEWEST, Units, amount_text
from kitproof.words.dimensions import LENGTH, NUMBER, Dimension
from kitproof.words.units import UNITS, Unit

PLACES = frozenset({"where", "places", "on_at", "only_with_at", "instead_of_at"})
"""Where things stand in the text: moving a line changes nothing."""
MOST = 10
ZEROS = re.compile(r"(?<=\d)\.0+(?!\d)|(?<=\.\d)0+(?!\d)")
"""Zeros at the end of a number, which tell nothing."""
NOT_SAID = "not said"
AXES = (("forward", "back"), ("up", "down"), ("left", "right"))


def bare(value: Any) -> Any:
    """A value without its places, so that two that say the same are equal."""
    if isinstance(value, Struct):
        kept = (each.name for each in fields(value) if each.name not in PLACES)
        return (type(value).__name__, *(bare(getattr(value, name)) for name in kept))
    if isinstance(value, tuple):
        return tuple(bare(each) for each in value)
    if isinstance(value, Mapping):
        return tuple(sorted((name, bare(each)) for name, each in value.items()))
    return value


def both(was: Any, now: Any, units: Units) -> tuple[str, str]:
    """Two values that differ in words, with the digits that it takes to tell them apart."""
    return apart(lambda digits: (words(was, units, digits), words(now, units, digits)))


def apart(say: Callable[[int], tuple[str, str]]) -> tuple[str, str]:
    """Two texts with the fewest digits at which they say two things: 60 and 60.0 are one."""
    texts = ("", "")
    for digits in range(FEWEST, MOST + 1):
        texts = say(digits)
        if len({ZEROS.sub("", each) for each in texts}) > 1:
            break
    return texts


def words(value: Any, units: Units = DEFAULT_UNITS, digits: int = FEWEST) -> str:
    """A value as a person would say it."""
    if value is None or value in ((), {}):
        return NOT_SAID
    return _words(value, units, digits)


@singledispatch
def _words(value: Any, units: Units, digits: int) -> str:
    return str(value)


@_words.register
def _(value: bool, units: Units, digits: int) -> str:
    return "yes" if value else "no"


@_words.register
def _(value: date, units: Units, digits: int) -> str:
    return value.isoformat()


@_words.register
def _(value: Days, units: Units, digits: int) -> str:
    return f"{value.first.isoformat()} to {value.last.isoformat()}"


@_words.register(Interval | Reach)
def _(value: Interval | Reach, units: Units, digits: int) -> str:
    return _amount((value.low, value.high), value.dimension, units, digits) if value.known else "?"


def _amount(ends: tuple[float, float], dimension: Dimension, units: Units, digits: int) -> str:
    return amount_text(Amount(*ends), _units(dimension, units), digits)


def _units(dimension: Dimension, units: Units) -> tuple[Unit, ...]:
    if dimension == NUMBER:
        return (Unit("", NUMBER, 1.0),)
    return tuple(UNITS[name] for name in units[dimension])


@_words.register
def _(value: Spot, units: Units, digits: int) -> str:
    if value == UNKNOWN_SPOT:
        return "?"
    said = [
        _along((value.forward, value.up, value.left)[number], names, units, digits) for number, names in enumerate(AXES)
    ]
    return ", ".join(each for each in said if each) or "at the seat"


def _along(ends: tuple[float, float], names: tuple[str, str], units: Units, digits: int) -> str:
    """How far along one axis; "" for not at all."""
    if ends == (0.0, 0.0):
        return ""
    if ends == ANYWHERE:
        return f"{names[0]} not known"
    if ends[1] <= 0:
        return f"{_amount((-ends[1], -ends[0]), LENGTH, units, digits)} {names[1]}"
    return f"{_amount(ends, LENGTH, units, digits)} {names[0]}"


@_words.register
def _(value: Seat, units: Units, digits: int) -> str:
    return value.words + (f" at {words(value.at, units, digits)}" if value.at is not None else "")


@_words.register
def _(value: Point, units: Units, digits: int) -> str:
    return words(value.value, units, digits) + (f" at {words(value.at, units, digits)}" if value.at else "")


@_words.register
def _(value: Counterbalance, units: Units, digits: int) -> str:
    at = f" at {words(value.at, units, digits)}" if value.at else ""
    steps = ", stepless" if value.stepless else f", {value.steps} steps" if value.steps else ""
    return f"{words(value.reach, units, digits)}{at}{steps}"


@_words.register
def _(value: Draw, units: Units, digits: int) -> str:
    return words(value.usual, units, digits) + (f", {words(value.most, units, digits)} at most" if value.most else "")


@_words.register
def _(value: Weighed, units: Units, digits: int) -> str:
    pairs = (("front", value.front, value.front_at), ("rear", value.rear, value.rear_at))
    return ", ".join(
        f"{name} {words(mass, units, digits)} at {words(Spot(forward=at), units, digits)}" for name, mass, at in pairs
    )


@_words.register
def _(value: Named, units: Units, digits: int) -> str:
    return f'{value.count} x "{value.name}"'


@_words.register
def _(value: Lifted, units: Units, digits: int) -> str:
    heights = (value.from_height, value.to_height, value.out, value.rate)
    return f"by {value.people}, {', '.join(words(each, units, digits) for each in heights)}"


@_words.register(tuple)
def _(value: tuple[Any, ...], units: Units, digits: int) -> str:
    lengths = bool(value) and all(isinstance(each, Interval) for each in value)
    return (" x " if lengths else ", ").join(words(each, units, digits) for each in value)


@_words.register(dict)
def _(value: dict[str, Any], units: Units, digits: int) -> str:
    return ", ".join(f"{name} {words(each, units, digits)}" for name, each in value.items())


@_words.register(frozenset)
def _(value: frozenset[str], units: Units, digits: int) -> str:
    return ", ".join(sorted(value)) or NOT_SAID
