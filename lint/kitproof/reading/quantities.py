"""Drafts of quantities to quantities: units found, dimensions held to the field's, ends worked out in SI."""

from __future__ import annotations

import math
import re
from functools import lru_cache

from kitproof.reading import wanted
from kitproof.reading.document import Quantity, Reach
from kitproof.reading.drafts import Amount, Doubt, Word
from kitproof.reading.notes import Notes
from kitproof.words.dimensions import ANGLE, CHARGE, ENERGY, LENGTH, MASS, NUMBER, Dimension
from kitproof.words.nearest import nearest
from kitproof.words.units import UNITS, Unit

ABOUT = 0.10
"""What `about` gives: ± 10 % (format.md)."""

_LONGEST_NUMBER = 24
_SHORT = 3  # in a unit of so few letters capitals tell mega from milli
_JOINTS = re.compile("[ .*-]")
_ANY_CAPITALS = {
    name.casefold(): unit
    for name, unit in UNITS.items()
    if unit.dimension in (MASS, LENGTH, ENERGY, CHARGE) and len(name) > 1
}
"""Units that cannot be mistaken for others in other letters: KG, Lb, MM, WH."""


@lru_cache(maxsize=1024)
def unit_of(word: str) -> Unit | None:
    """The unit of this name: a usual one, else one that pint knows; None where neither has it."""
    name = " ".join(word.split()).rstrip(".")
    usual = UNITS.get(name) or UNITS.get(_JOINTS.sub("·", name)) or _ANY_CAPITALS.get(name.casefold())
    if usual is not None:
        return usual
    from kitproof.reading.unusual import unusual_unit  # pint is slow to load, and rarely needed

    return unusual_unit(name) or (unusual_unit(name.lower()) if len(name) > _SHORT else None)


def in_si(unit: Unit, number: float) -> float:
    """The number in SI to 15 figures, so that 1400 mm and 1.4 m, or 12 in and 1 ft, are one number and not two."""
    si = unit.to_si(number)
    return si if unit.dimension == ANGLE else float(f"{si:.15g}")  # a radian is no decimal of a degree


def number_of(word: Word, notes: Notes) -> float | None:
    """The number that is written, None with a slip where it has more figures than anything here could have."""
    if len(word.text) > _LONGEST_NUMBER:
        notes.add("unreadable-line", word.start, word.end, f"a number of at most {_LONGEST_NUMBER} figures")
        return None
    return float(word.text.replace(" ", ""))


def count_of(word: Word, notes: Notes) -> int | None:
    """The whole number that is written, None with a slip where it is none."""
    if not word.text.isdigit() or len(word.text) > 9:
        notes.add("unreadable-line", word.start, word.end, wanted.WHOLE_NUMBER)
        return None
    return int(word.text)


def quantity(
    draft: Doubt,
    dimensions: tuple[Dimension, ...],
    notes: Notes,
    *,
    positive: bool = True,
    bare: bool = False,
) -> Quantity | None:
    """The quantity, None with a slip where it cannot be taken.

    `dimensions` are those that it may have (empty for any), `positive` refuses what is below zero, `bare` takes a
    number without a unit as a plain number.
    """
    if draft.how == "unknown":
        return Quantity(0.0 if positive else -math.inf, math.inf, None, draft.start, draft.end, "unknown")
    units = _units(draft, dimensions, notes, bare)
    if units is None or draft.first is None:
        return None
    unit, second_unit = units
    ends = _ends(draft, draft.first, unit, second_unit, notes)
    if ends is None:
        return None
    low, high = ends
    if low > high:
        notes.add("figures-contradict", draft.start, draft.end, "the smaller figure comes first")
        return None
    if positive and low < 0:
        notes.add("figures-contradict", draft.start, draft.end, "nothing here goes below zero")
        return None
    how = {"up_to": "between", "around": "give"}.get(draft.how, draft.how)
    typed = _unit_word(draft)
    return Quantity(low, high, unit.dimension, draft.start, draft.end, how, typed.text if typed else "")


def reach(draft: Doubt, dimension: Dimension, notes: Notes, *, positive: bool = True) -> Reach | None:
    """A reach: the same figures, all of which will be used or are allowed."""
    value = quantity(draft, (dimension,), notes, positive=positive)
    if value is None:
        return None
    return Reach(value.low, value.high, value.dimension, value.start, value.end, value.known, value.unit)


def amount(draft: Amount, dimension: Dimension, notes: Notes, borrowed: Word | None = None) -> float | None:
    """One number with its unit (or a unit borrowed from the number it is joined to) in SI, None with a slip."""
    unit = _unit(draft, draft.unit or borrowed, (dimension,), notes, bare=False)
    number = number_of(draft.number, notes)
    return None if unit is None or number is None else in_si(unit, number)


def _ends(
    draft: Doubt, first: Amount, unit: Unit, second_unit: Unit | None, notes: Notes
) -> tuple[float, float] | None:
    """Both ends in SI, as the kind of doubt says."""
    number = number_of(first.number, notes)
    second = number_of(draft.second.number, notes) if draft.second is not None else 0.0
    if number is None or second is None:
        return None
    if draft.how == "between" and second_unit is not None:
        return in_si(unit, number), in_si(second_unit, second)
    if draft.how == "up_to":
        return in_si(unit, 0.0), in_si(unit, number)
    if draft.how == "around":
        return in_si(unit, -abs(number)), in_si(unit, abs(number))
    if draft.how == "about":
        return _around(number, abs(number) * ABOUT, unit)
    if draft.how == "give" and second_unit is not None:
        if second_unit.dimension == NUMBER and unit.dimension != NUMBER:
            return _around(number, abs(number * in_si(second_unit, second)), unit)
        # In the first one's unit: a difference has no offset, so that ± 2 °C is two degrees.
        return _around(number, abs(second) * second_unit.factor / unit.factor, unit)
    return in_si(unit, number), in_si(unit, number)


def _around(number: float, give: float, unit: Unit) -> tuple[float, float]:
    return in_si(unit, number - give), in_si(unit, number + give)


def _unit_word(draft: Doubt) -> Word | None:
    """The unit that the first number has: its own, or the one it shares with the second."""
    if draft.first is not None and draft.first.unit is not None:
        return draft.first.unit
    if draft.second is None or draft.second.unit is None:
        return None
    shares = draft.how == "between" or draft.second.unit.text != "%"
    return draft.second.unit if shares else None


def _units(
    draft: Doubt, dimensions: tuple[Dimension, ...], notes: Notes, bare: bool
) -> tuple[Unit, Unit | None] | None:
    """The units of both numbers, None with a slip where one is missing, not known or of the wrong kind."""
    if draft.first is None:
        return None
    shared = _unit_word(draft)
    if shared is None and draft.how == "between" and draft.second is not None and not bare:
        _unit(draft.second, None, dimensions, notes, bare)  # the last number is where the unit is missing
        return None
    first = _unit(draft.first, shared, dimensions, notes, bare)
    if first is None:
        return None
    if draft.second is None:
        return first, None
    allowed = (first.dimension, NUMBER) if draft.how == "give" else (first.dimension,)
    second = _unit(draft.second, draft.second.unit, allowed, notes, bare and shared is None)
    return None if second is None else (first, second)


def _unit(
    amount: Amount, word: Word | None, dimensions: tuple[Dimension, ...], notes: Notes, bare: bool
) -> Unit | None:
    """The unit of one number, None with a slip."""
    if word is None:
        if bare:
            return Unit("", NUMBER, 1.0)
        notes.add("no-unit", amount.number.start, amount.number.end, _a_unit_of(dimensions))
        return None
    unit = unit_of(word.text)
    if unit is None:
        names = [name for name, each in UNITS.items() if each.dimension in dimensions]
        notes.add("unknown-word", word.start, word.end, _a_unit_of(dimensions), nearest(word.text, [*names, *UNITS]))
        return None
    if dimensions and unit.dimension not in dimensions:
        notes.add("wrong-unit", amount.start, amount.end if amount.unit else word.end, _a_unit_of(dimensions))
        return None
    return unit


def _a_unit_of(dimensions: tuple[Dimension, ...]) -> str:
    return wanted.quantity_of(*dimensions) if dimensions else "a unit that is known, such as kg"
