"""`set FIELD to VALUE`: what was misread put right, a state of a packed thing, a field of any entry."""

from __future__ import annotations

from collections.abc import Iterator

from kitproof.facts.packing import PackedSubject
from kitproof.facts.slips import SlipSubject
from kitproof.facts.states import STATES, state_words
from kitproof.facts.values import Amount, Words
from kitproof.facts.values import Held as Value
from kitproof.mending.edits import (
    Spot,
    exchanged,
    last_line,
    put_below,
    quoted,
    spot_at,
    state_taken_out,
)
from kitproof.mending.ground import Ground
from kitproof.mending.offer import Offer
from kitproof.proofing.covering import Found
from kitproof.proofing.findings import Change
from kitproof.reading.document import Held, Where
from kitproof.rulebook.explain import fix_words
from kitproof.rulebook.messages import MOST, amount_text
from kitproof.rulebook.rules import Action
from kitproof.words.kinds import FieldWord, fields_of
from kitproof.words.shapes import Shape
from kitproof.words.units import UNITS

QUOTES = "\"“„'‘"
QUOTED = (Shape.NAME, Shape.TEXT)


def settings(ground: Ground, found: Found, action: Action) -> Iterator[Offer]:
    """The one change that sets a field to a value; none where the value is not one and known."""
    if action.value is None or not action.path:
        return
    value = action.value.holes[0].read(found.thing, found.env)
    if isinstance(found.thing, SlipSubject):
        yield from _put_right(ground, found.thing.where(), value)
        return
    says = fix_words(action, found.thing, found.env, ground.units)
    if isinstance(found.thing, PackedSubject) and action.path[-1] in STATES:
        word = state_words(action.path[-1], value)
        changes = _state(ground, found.thing.where(), action.path[-1], word) if word else ()
    else:
        changes = _field(ground, found.thing.where(action.path), action.path[-1], value)
    if changes and says:
        yield Offer(says.rstrip("."), changes)


def _put_right(ground: Ground, where: Where, value: Value) -> Iterator[Offer]:
    """What was typed, with what should stand there in its place; several names that may be meant are for a person."""
    wanted = value.text if isinstance(value, Words) else None
    if not wanted or where.path != ground.document.path or wanted.count('" or "'):
        return
    typed = ground.document.lines[where.line - 1][where.column - 1 : where.to_column - 1]
    bare = wanted.strip('"')
    if wanted != bare and typed[:1] not in QUOTES:
        wanted = bare  # a word that is misspelt, and no name
    yield Offer(f"Write {wanted} in the place of {typed}", (Change(where, wanted),))


def _state(ground: Ground, where: Where, fact: str, word: str) -> tuple[Change, ...]:
    """A state on a `holds` line in the place of those that say otherwise, else after all that is said."""
    spot = spot_at(ground.document, where)
    held = spot.field.value if spot and spot.field else None
    if spot is None or not isinstance(held, Held):
        return ()
    said = [each for each in held.states if each.text in STATES[fact]]
    if not said:
        return (exchanged(ground.document, spot, held.end, held.end, f", {word}"),)
    more = tuple(state_taken_out(ground.document, spot, each) for each in said[1:])
    return (exchanged(ground.document, spot, said[0].start, said[0].end, word), *more)


def _field(ground: Ground, where: Where, name: str, value: Value) -> tuple[Change, ...]:
    """A field of an entry with another value, or on a new line where it is not said."""
    spot = spot_at(ground.document, where)
    if spot is None:
        return ()
    words = fields_of(spot.entry.kind, spot.entry.part_kind)
    word = next((each for each in words.values() if each.name == name), None)
    text = _value_text(ground, word, value) if word else None
    if word is None or text is None:
        return ()
    field = next((each for each in spot.entry.fields if each.word == word.word), None)
    if field is None:
        return (put_below(ground.document, last_line(spot.entry), word.word, text),)
    return (exchanged(ground.document, Spot(spot.entry, field), field.value_start, field.value_end, text),)


def _value_text(ground: Ground, word: FieldWord, value: Value) -> str | None:
    """A value as it is typed: a quantity in the list's first unit, a word, a name in quotes; None for any other."""
    if isinstance(value, Words) and value.text:
        return quoted(value.text.strip('"')) if word.shape in QUOTED else value.text
    if isinstance(value, Amount) and word.dimension is not None and not value.missing:
        names = ground.units.get(word.dimension, ())
        is_reach = word.shape is Shape.REACH
        return amount_text(value, [UNITS[names[0]]], MOST, is_reach=is_reach) if names else None
    return None
