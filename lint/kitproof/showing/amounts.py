"""A fact's value in words, in the units of a list."""

from __future__ import annotations

from kitproof.facts.values import Amount, Words
from kitproof.facts.wordings import BEYOND, ENDLESS
from kitproof.rulebook.messages import Units, amount_text
from kitproof.words.dimensions import NUMBER, Dimension
from kitproof.words.units import UNITS, Unit


def value_text(name: str, value: Amount | Words, dimension: Dimension | None, units: Units) -> str:
    """A fact's value in the list's units; shares in percent."""
    if isinstance(value, Words):
        return value.text if value.text is not None else "not known"
    return amount_text(value, units_for(name, dimension, units), endless=ENDLESS.get(name, BEYOND))


def units_for(name: str, dimension: Dimension | None, units: Units) -> tuple[Unit, ...]:
    if dimension in (None, NUMBER):
        return (UNITS["%"] if name.endswith("_share") or name == "drag_hold" else Unit("", NUMBER, 1.0),)
    return tuple(UNITS[each] for each in units[dimension])
