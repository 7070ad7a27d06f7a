"""Facts that are a field as written: made from the registry of part kinds, so that a new field is a new fact."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

from kitproof.facts.fact import Fact
from kitproof.facts.values import TRUTH, Amount, Held, Truth, Type, Verdict, Words, number, reach, set_of, text, thing
from kitproof.model.parts import Part
from kitproof.model.quantities import Interval, Reach
from kitproof.words.dimensions import NUMBER
from kitproof.words.kinds import COMMON, KINDS, FieldWord
from kitproof.words.shapes import Shape

SET_FIELDS = {"chart", "tried", "feet"}


def part_fields() -> dict[str, Fact]:
    """A fact for each field of every kind of part. Where kinds give one word two shapes, the reach wins."""
    facts: dict[str, Fact] = {}
    words = [*COMMON, *(field for kind in KINDS.values() for field in kind.fields)]
    for word in sorted(words, key=lambda each: each.shape is Shape.REACH):
        of = type_of(word)
        if of is not None:
            facts[word.name] = Fact(word.name, "part", of, word.says, _reader(word, of))
    return facts


def kind_fields() -> dict[str, dict[str, Fact]]:
    """By `part KIND`: the fields that are of another type for that kind than for parts at large, such as a lens's
    front, which is one diameter, where a clamp's is a reach."""
    common = part_fields()
    found: dict[str, dict[str, Fact]] = {}
    for kind in KINDS.values():
        for word in kind.fields:
            of = type_of(word)
            if of is not None and of != common[word.name].type:
                own = Fact(word.name, "part", of, word.says, _reader(word, of))
                found.setdefault(f"part {kind.word}", {})[word.name] = own
    return found


def knows(kind: str, name: str) -> bool:
    """Whether a part of this kind has a field or fact of this name; any part, where the kind is "" """
    fields = {field.name for each in KINDS.values() for field in each.fields} - {field.name for field in COMMON}
    if kind not in KINDS or name not in fields:
        return True
    return any(field.name == name for field in KINDS[kind].fields)


def type_of(word: FieldWord) -> Type | None:
    """The type that a field has in rules; None for what rules reach by other facts (sizes, companions, notes, tags)."""
    dimension = word.dimension or NUMBER
    if word.name in SET_FIELDS:
        return set_of("point")
    match word.shape:
        case Shape.QUANTITY | Shape.POINTS | Shape.AXIS | Shape.DRAW | Shape.COUNT:
            return number(dimension)
        case Shape.REACH | Shape.TRAVEL:
            return reach(dimension)
        case Shape.PHRASES:
            return text(*word.phrases)
        case Shape.FLAG:
            return TRUTH
        case Shape.INTERFACE | Shape.PORT:
            return text()
        case Shape.NAME:
            return thing("part", word.word.removeprefix("own "))
    return None


def _reader(word: FieldWord, of: Type) -> Callable[[Any], Held]:
    if of.sort == "set":
        return lambda subject: subject.points(word.name)
    if of.sort == "thing":
        return lambda subject: subject.named_part(getattr(subject.part, word.name), of.kind)
    return lambda subject: as_value(word, of, subject)


def as_value(word: FieldWord, of: Type, subject: Any) -> Held:
    """A field of a part as a rule reads it; a field not written is not known, and its name is what is missing."""
    part = subject.part
    value = getattr(part, word.name)
    lacks = (part.lacks(word.name),)
    if of.sort == "truth" and word.name in part.unread:
        return Verdict(Truth.MISSING, lacks)
    if of.sort == "truth":
        return Verdict(Truth.TRUE if value else Truth.FALSE)
    if of.sort == "text":
        return _text(value, lacks)
    if isinstance(value, Interval) and value.known and value.dimension == word.or_dimension:
        return _from_charge(part, value)
    return amount(value, lacks, positive=word.positive)


def _from_charge(part: Part, charge: Interval) -> Amount:
    """A battery's energy from its charge, in coulombs, and its nominal voltage: charge × voltage.

    Source: 49 CFR 171.8 (watt-hours are ampere-hours × nominal voltage).
    """
    voltage = part.voltage
    if voltage is None or not voltage.known:
        return Amount(0.0, math.inf, (part.lacks("voltage"),))
    return Amount(charge.low * voltage.low, charge.high * voltage.high)


def _text(value: Any, lacks: tuple[str, ...]) -> Words:
    if not value:
        return Words(None, lacks)
    return Words(", ".join(each if isinstance(each, str) else each.words for each in value))


def amount(value: Any, lacks: tuple[str, ...], *, positive: bool = True) -> Amount:
    """A number for rules: an interval or reach, a count, the usual draw, or the first of some points."""
    if isinstance(value, tuple) and value:
        value = value[0].value
    if isinstance(value, int):
        return Amount(float(value), float(value))
    inner = getattr(value, "usual", value)
    if isinstance(inner, Interval | Reach) and inner.known:
        return Amount(inner.low, inner.high)
    return Amount(0.0 if positive else -math.inf, math.inf, lacks)
