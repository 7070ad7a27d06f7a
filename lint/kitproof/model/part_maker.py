"""A part entry made into a Part."""

from __future__ import annotations

from typing import Any

from kitproof.model import convert
from kitproof.model.convert import Line
from kitproof.model.lost import lost_fields
from kitproof.model.parts import Counterbalance, Part, Weighed
from kitproof.reading.document import Document, Entry, Field, Where
from kitproof.words.dimensions import MASS, NUMBER
from kitproof.words.kinds import FieldWord, fields_of
from kitproof.words.shapes import Shape


def make_part(document: Document, entry: Entry, within: float) -> Part:
    """The part that an entry describes. `within` widens its masses.

    A field whose line was not read is listed in `unread` and left unknown; so is the nearest field of a word that was
    not known, since that is likely what was meant.
    """
    known = fields_of("part", entry.part_kind)
    values: dict[str, Any] = {}
    places: dict[str, Where] = {}
    unread: set[str] = set()
    for field in entry.fields:
        word = known[field.word]
        line = Line(document, entry, field)
        places.setdefault(word.name, line.where())
        if field.value is None:
            unread.add(word.name)
        else:
            _take(values, word, field, line, within)
    for word, where in lost_fields(document, entry, known):
        unread.add(word.name)
        places.setdefault(word.name, where)
    for word in known.values():
        if word.name in unread and word.name not in values:
            values.update(_not_known(word))
    return Part(
        kind=entry.part_kind,
        name=entry.name,
        where=document.where(entry, 0, 0, entry.end),
        places=places,
        unread=frozenset(unread),
        **values,
    )


def _not_known(word: FieldWord) -> dict[str, Any]:
    """The values of a field that is written and could not be read; none for a shape that has no unknown value."""
    dimension = word.dimension or NUMBER
    match word.shape:
        case Shape.QUANTITY | Shape.AXIS:
            return {word.name: convert.interval(None, dimension, positive=word.positive)}
        case Shape.REACH | Shape.TRAVEL:
            return {word.name: convert.reach(None, dimension)}
        case Shape.STEPS:
            return {word.name: Counterbalance(reach=convert.reach(None, dimension))}
        case Shape.PLACE:
            return {word.name: convert.spot(None), f"{word.name}_known": False}
    return {}


def _take(values: dict[str, Any], word: FieldWord, field: Field, line: Line, within: float) -> None:
    """Adds one field's value under the name that the model gives it."""
    value: Any = field.value
    match word.name:
        case "mass":
            values["mass"] = convert.interval(convert.widened(value, within), MASS)
        case "weighed":
            values["weighed"] = Weighed(
                front=convert.interval(convert.widened(value.front, within), MASS),
                front_at=convert.spot(value.front_at).forward,
                rear=convert.interval(convert.widened(value.rear, within), MASS),
                rear_at=convert.spot(value.rear_at).forward,
            )
        case "cog":
            values["cog"] = convert.spot(value)
            values["cog_known"] = value.known
        case "sits_on" | "takes":
            if value.known:
                values[word.name] = (*values.get(word.name, ()), convert.seat(value))
        case "goes_with" | "includes" | "note":
            more = (value.text,) if word.name == "note" else convert.named(value, line)
            values[word.name] = (*values.get(word.name, ()), *more)
        case "tag":
            name, said = convert.tag(value)
            values["tag"] = {**values.get("tag", {}), name: said}
        case _:
            values[word.name] = convert.plain(word, value, line)
