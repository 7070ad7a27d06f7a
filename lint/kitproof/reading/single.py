"""One quantity by itself, for rule files and settings."""

from __future__ import annotations

from functools import lru_cache

from kitproof.reading.alike import draft
from kitproof.reading.characters import plain
from kitproof.reading.document import Quantity, Slip
from kitproof.reading.drafts import UnreadableError
from kitproof.reading.fields import unreadable
from kitproof.reading.notes import Notes
from kitproof.reading.numerals import misread
from kitproof.reading.quantities import quantity
from kitproof.words.shapes import Shape

_WANTED = "a number and a unit, such as 6.4 kg"


@lru_cache(maxsize=1024)
def read_quantity(text: str) -> Quantity:
    """The quantity that a text says, as in a list; a number with no unit is a plain number.

    Raises ValueError, in a person's words, where it says none.
    """
    line = plain(text[:200])
    notes = Notes(line, "", line.start)
    if not line.empty and line.forbidden is None and not misread(Shape.QUANTITY, notes):
        try:
            made = draft(Shape.QUANTITY.value, line.text, line.start, line.end)
            value = quantity(made, (), notes, positive=False, bare=True)
        except UnreadableError as trouble:
            unreadable(trouble.at, _WANTED, notes)
            value = None
        if value is not None:
            return value
    raise ValueError(_in_words(text, notes.slips[0] if notes.slips else None))


def _in_words(text: str, slip: Slip | None) -> str:
    said = f'"{text.strip()[:60]}" cannot be read as a quantity'
    if slip is None:
        return f"{said}: write {_WANTED}."
    if slip.repair is not None:
        return f'{said}: write "{slip.repair}" for "{slip.said}".'
    if slip.nearest:
        return f'{said}: "{slip.said}" is no unit that is known here; the nearest are {", ".join(slip.nearest)}.'
    if slip.kind == "figures-contradict":
        return f'{said}: at "{slip.said}" {slip.wanted}.'
    return f'{said}: at "{slip.said}" there should be {slip.wanted or _WANTED}.'
