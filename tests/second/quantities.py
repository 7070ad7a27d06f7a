"""Random quantities and places, as people type them, with their exact meaning from the page of the format."""

from __future__ import annotations

import math
import random
from decimal import Decimal
from fractions import Fraction

from tests.second.described import ANYTHING, NOTHING, UNSAID, UNSAID_SPOT, Quantity, Range, Spot

POUND = Fraction(45359237, 100000000)
INCH = Fraction(254, 10000)
KILOGRAMS = {"kg": Fraction(1), "g": Fraction(1, 1000), "lb": POUND, "oz": POUND / 16}
METRES = {"mm": Fraction(1, 1000), "cm": Fraction(1, 100), "in": INCH, "m": Fraction(1), "ft": 12 * INCH}
HOURS = {"h": Fraction(3600), "min": Fraction(60), "days": Fraction(86400), "weeks": Fraction(604800)}
DEGREES = {"°": Fraction(math.pi / 180)}  # a float's π, as a fraction: no exact one exists

MASS_UNITS = ("kg", "kg", "kg", "g", "lb", "oz")
LENGTH_UNITS = ("mm", "mm", "mm", "cm", "in")


def quantity(
    chance: random.Random,
    low: float,
    high: float,
    units: dict[str, Fraction],
    names: tuple[str, ...],
    *,
    sharp: float = 0.6,
    unsaid: float = 0.0,
) -> Quantity:
    """Something between `low` and `high` in SI: sharp that often, `?` that often, else with doubt of some form."""
    if chance.random() < unsaid:
        return UNSAID
    unit = chance.choice(names)
    factor = units[unit]
    number = _number(chance.uniform(low, high), factor)
    if chance.random() < sharp:
        return Quantity(
            f"{number}{chance.choice((' ', ''))}{unit}", Fraction(number) * factor, Fraction(number) * factor
        )
    return _doubt(chance, number, unit, units)


def _number(value: float, factor: Fraction) -> Decimal:
    """A number as one would write it: three or four figures."""
    plain = value / float(factor)
    places = max(0, 3 - max(0, math.floor(math.log10(plain)) + 1)) if plain > 0 else 0
    rounded = Decimal(str(round(plain, min(places, 3))))
    return Decimal(1) / Decimal(1000) if rounded <= 0 else Decimal(format(rounded.normalize(), "f"))


def _doubt(chance: random.Random, number: Decimal, unit: str, units: dict[str, Fraction]) -> Quantity:
    middle, factor = Fraction(number), units[unit]
    form = chance.choice(("share", "give", "give in its unit", "about", "dots", "to", "both units", "dash"))
    if form == "about":
        return _ends(f"about {number} {unit}", middle * 9 / 10, middle * 11 / 10, factor)
    if form == "share":
        share = chance.choice((1, 2, 5, 20))
        sign = chance.choice(("±", "+/-"))
        return _ends(
            f"{number} {unit} {sign} {share} %", middle * (100 - share) / 100, middle * (100 + share) / 100, factor
        )
    step = _number(float(middle) * chance.choice((0.02, 0.1, 0.25)), Fraction(1))
    if form == "give":
        return _ends(f"{number} ± {step} {unit}", middle - Fraction(step), middle + Fraction(step), factor)
    if form == "give in its unit":
        return _ends(f"{number} {unit} ± {step} {unit}", middle - Fraction(step), middle + Fraction(step), factor)
    top = number + step
    text = {
        "dots": f"{number}..{top} {unit}",
        "to": f"{number} to {top} {unit}",
        "both units": f"{number} {unit} to {top} {unit}",
        "dash": f"{number}-{top} {unit}",
    }[form]
    return _ends(text, middle, Fraction(top), factor)


def _ends(text: str, low: Fraction, high: Fraction, factor: Fraction) -> Quantity:
    return Quantity(text, low * factor, high * factor)


def mass(chance: random.Random, low: float, high: float, *, sharp: float = 0.6, unsaid: float = 0.0) -> Quantity:
    return quantity(chance, low, high, KILOGRAMS, MASS_UNITS, sharp=sharp, unsaid=unsaid)


def length(chance: random.Random, low: float, high: float, *, sharp: float = 0.7, unsaid: float = 0.0) -> Quantity:
    return quantity(chance, low, high, METRES, LENGTH_UNITS, sharp=sharp, unsaid=unsaid)


def minus(ends: Range) -> Range:
    return (-ends[1], -ends[0])


_WORDS = {"forward": ("forward", "back"), "up": ("up", "down"), "left": ("left", "right")}


def spot(
    chance: random.Random,
    forward: tuple[float, float] | None,
    up: tuple[float, float] | None,
    left: tuple[float, float] | None = None,
    *,
    sharp: float = 0.7,
    unsaid: float = 0.0,
) -> Spot:
    """A place with each direction between two ends in metres (None: never said); a direction may be left unsaid."""
    if chance.random() < unsaid:
        return UNSAID_SPOT
    ends: dict[str, Range] = {"forward": NOTHING, "up": NOTHING, "left": NOTHING}
    words = []
    for axis, reach in (("forward", forward), ("up", up), ("left", left)):
        if reach is None or chance.random() < (0.6 if axis == "left" else 0.1):
            continue
        if chance.random() < unsaid:
            ends[axis] = ANYTHING
            words.append(f"? {axis}")
            continue
        where = chance.uniform(*reach)
        size = abs(where) + 0.001
        one = length(chance, size, size, sharp=sharp)
        words.append(f"{one.text} {_WORDS[axis][where < 0]}")
        ends[axis] = minus(one.range) if where < 0 else one.range
    if not words:
        return Spot("0 mm up")
    return Spot(", ".join(words), ends["forward"], ends["up"], ends["left"])
