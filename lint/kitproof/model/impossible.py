"""Figures that can be read and cannot be so: nothing where there must be something, a day of thirty hours.

Each is said at its place and then not relied on: it is as little known as one written `?`.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from msgspec.structs import replace

from kitproof.model.parts import Part
from kitproof.model.quantities import Interval, unknown
from kitproof.model.reports import Report
from kitproof.reading.document import Where
from kitproof.words.dimensions import TIME

SOMETHING = ("energy", "voltage", "delivers", "charges_in", "inside", "outside")
"""Fields of parts and cases that are never nothing."""

LONGEST_DAY = 24 * 3600.0
"""In s."""

HOUR = 3600.0


def possible_part(part: Part, report: Report) -> Part:
    """The part without the figures of it that cannot be so."""
    return replace(part, **_more_than_nothing({word: getattr(part, word) for word in SOMETHING}, part.places, report))


def possible_case(values: Mapping[str, Any], places: Mapping[str, Where], report: Report) -> dict[str, Any]:
    """What a case says of itself, its impossible sizes taken as not known."""
    said = {word: values[word] for word in SOMETHING if word in values}
    return {**values, **_more_than_nothing(said, places, report)}


def _more_than_nothing(values: Mapping[str, Any], places: Mapping[str, Where], report: Report) -> dict[str, Any]:
    changed: dict[str, Any] = {}
    for word, value in values.items():
        if isinstance(value, tuple) and any(_nothing(side) for side in value):
            changed[word] = tuple(unknown(side.dimension, positive=True) if _nothing(side) else side for side in value)
        elif isinstance(value, Interval) and _nothing(value):
            changed[word] = unknown(value.dimension, positive=True)
        if word in changed:
            report(
                "figures-contradict",
                places[word],
                f"{word.replace('_', ' ')} 0",
                wanted="there is more of it than nothing",
            )
    return changed


def _nothing(value: Interval) -> bool:
    return value.known and value.high <= 0


def possible_day(day: Interval, where: Where, report: Report) -> Interval:
    """The length of a working day; not known where it is more than a day has, or nothing."""
    if not day.known or (day.low <= LONGEST_DAY and day.high > 0):
        return day
    wanted = "a day is not over at once" if day.high <= 0 else f"a day has {LONGEST_DAY / HOUR:g} hours"
    report("figures-contradict", where, f"day {day.low / HOUR:g} h", wanted=wanted)
    return unknown(TIME, positive=True)


def possible_charge(charge: Interval, where: Where, report: Report) -> Interval:
    """How far a battery is charged; not known where that is more than full."""
    if not charge.known or charge.low <= 1:
        return charge
    report("figures-contradict", where, f"charge {100 * charge.low:g} %", wanted="100 % is full")
    return unknown(charge.dimension, positive=True)
