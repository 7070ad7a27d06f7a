"""One field's value as read, made into what the model holds. No meaning beyond the field."""

from __future__ import annotations

import math
from typing import Any

from msgspec.structs import replace

from kitproof.model.parts import Counterbalance, Draw, Named, Point, Seat
from kitproof.model.quantities import UNKNOWN_SPOT, Interval, Reach, Spot
from kitproof.model.rigs import Days
from kitproof.reading import document as read
from kitproof.reading.document import Document, Entry, Field, Where
from kitproof.words.dimensions import LENGTH, NUMBER, POWER, Dimension
from kitproof.words.kinds import FieldWord
from kitproof.words.shapes import Shape


class Line:
    """Where one field stands, so that what is made of it can say its place."""

    def __init__(self, document: Document, entry: Entry, field: Field) -> None:
        self.document, self.entry, self.field = document, entry, field

    def where(self, node: Any = None) -> Where:
        """The place of a node of this line; where none is given, of the field's value, of its word if it has none."""
        field = self.field
        start, end = (
            (field.value_start, field.value_end) if field.value_start < field.value_end else (field.start, field.end)
        )
        if node is not None:
            start, end = node.start, node.end
        return self.document.where(self.entry, self.field.row, start, end)


def interval(value: read.Quantity | None, dimension: Dimension, *, positive: bool = True) -> Interval:
    """An interval; where it could not be read or is `?`, one of which nothing is known."""
    if value is None or not value.known:
        return Interval(0.0 if positive else -float("inf"), float("inf"), dimension, known=False)
    return Interval(value.low, value.high, value.dimension or dimension)


def maybe(value: read.Quantity | None, dimension: Dimension) -> Interval | None:
    return None if value is None else interval(value, dimension)


def reach(value: read.Reach | None, dimension: Dimension) -> Reach:
    if value is None or not value.known:
        return Reach(-float("inf"), float("inf"), dimension, known=False)
    return Reach(value.low, value.high, dimension)


def spot(value: read.Place | None) -> Spot:
    if value is None or not value.known:
        return UNKNOWN_SPOT
    return Spot(value.forward, value.up, value.left)


def seat(value: read.Interface) -> Seat:
    return Seat(family=value.family, size=value.size, at=None if value.at is None else spot(value.at))


def points(value: read.Points, line: Line, field: FieldWord) -> tuple[Point, ...]:
    dimension, at = field.dimension or NUMBER, field.at or LENGTH
    return tuple(
        Point(value=interval(each.value, dimension), at=maybe(each.at, at), where=line.where(each))
        for each in value.points
    )


def sides(value: read.Size) -> tuple[Interval, ...]:
    return tuple(interval(each, LENGTH) for each in value.sides)


def counterbalance(value: read.Steps, dimension: Dimension) -> Counterbalance:
    return Counterbalance(
        reach=Reach(value.reach.low, value.reach.high, value.reach.dimension or dimension, value.reach.known),
        at=maybe(value.at, LENGTH),
        steps=value.steps,
        stepless=value.stepless,
    )


def named(value: read.Counted, line: Line) -> tuple[Named, ...]:
    return tuple(Named(name=each.name.text, count=each.count, where=line.where(each.name)) for each in value.names)


def days(value: read.Dates) -> Days | None:
    """None where the dates stand reversed: the reader has said so, and the dates are then not known."""
    if value.first.day > value.last.day:
        return None
    return Days(first=value.first.day, last=value.last.day)


def tag(value: read.Tag) -> tuple[str, str | Interval]:
    if isinstance(value.value, read.Name):
        return value.word, value.value.text
    return value.word, interval(value.value, value.value.dimension or NUMBER, positive=False)


def widened(value: read.Quantity, within: float) -> read.Quantity:
    """A mass widened by `weights within`: each end by that share of itself, never below nothing.

    Where how far it may be off is not known (`within` is infinite), neither is the mass.
    """
    if not value.known or not within:
        return value
    if math.isinf(within):
        return replace(value, how="unknown")
    return replace(value, low=value.low * max(1 - within, 0.0), high=value.high * (1 + within))


def plain(field: FieldWord, value: Any, line: Line) -> Any:
    """The model's value for a field that stands for itself: quantity, reach, place, size, points and the like."""
    dimension = field.dimension or NUMBER
    match field.shape:
        case Shape.QUANTITY:
            return interval(value, dimension, positive=field.positive)
        case Shape.REACH | Shape.TRAVEL:
            return reach(value, dimension)
        case Shape.SIZE:
            return sides(value)
        case Shape.POINTS:
            return points(value, line, field)
        case Shape.AXIS:
            return interval(value.depth, dimension, positive=False)
        case Shape.STEPS:
            return counterbalance(value, dimension)
        case Shape.DRAW:
            return Draw(usual=interval(value.usual, POWER), most=maybe(value.most, POWER))
        case Shape.PHRASES | Shape.UNIT_NAMES:
            return tuple(each.text for each in value.phrases)
        case Shape.FLAG:
            return True
        case Shape.NAME | Shape.TEXT | Shape.RIG_NAME:
            return value.text
        case Shape.COUNT:
            return value.number
        case Shape.DATE:
            return value.day
        case Shape.DATES:
            return days(value)
        case Shape.COUNTED:
            return named(value, line)
        case _:
            raise ValueError(f"{field.word} does not stand for itself")
