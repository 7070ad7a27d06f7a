"""Physical dimensions, as exponents of the SI base units, and what people call them.

Angle has an exponent of its own, so that a torque (energy per angle) is not taken for an energy.
"""

from __future__ import annotations

from typing import NamedTuple


class Dimension(NamedTuple):
    """Exponents of kilogram, metre, second, ampere, kelvin and radian."""

    mass: int = 0
    length: int = 0
    time: int = 0
    current: int = 0
    temperature: int = 0
    angle: int = 0

    def times(self, other: Dimension) -> Dimension:
        return Dimension(*(a + b for a, b in zip(self, other, strict=True)))

    def over(self, other: Dimension) -> Dimension:
        return Dimension(*(a - b for a, b in zip(self, other, strict=True)))


NUMBER = Dimension()
MASS = Dimension(mass=1)
LENGTH = Dimension(length=1)
TIME = Dimension(time=1)
CURRENT = Dimension(current=1)
TEMPERATURE = Dimension(temperature=1)
ANGLE = Dimension(angle=1)
AREA = Dimension(length=2)
VOLUME = Dimension(length=3)
SPEED = Dimension(length=1, time=-1)
FORCE = Dimension(mass=1, length=1, time=-2)
ENERGY = Dimension(mass=1, length=2, time=-2)
TORQUE = Dimension(mass=1, length=2, time=-2, angle=-1)
POWER = Dimension(mass=1, length=2, time=-3)
VOLTAGE = Dimension(mass=1, length=2, time=-3, current=-1)
CHARGE = Dimension(time=1, current=1)
FREQUENCY = Dimension(time=-1)

NAMES: dict[Dimension, str] = {
    NUMBER: "a plain number",
    MASS: "a mass",
    LENGTH: "a length",
    TIME: "a time",
    CURRENT: "a current",
    TEMPERATURE: "a temperature",
    ANGLE: "an angle",
    AREA: "an area",
    VOLUME: "a volume",
    SPEED: "a speed",
    FORCE: "a force",
    ENERGY: "an energy",
    TORQUE: "a torque",
    POWER: "a power",
    VOLTAGE: "a voltage",
    CHARGE: "a battery's charge",
    FREQUENCY: "a number each second",
}


def in_words(dimension: Dimension) -> str:
    """What a person calls it: "a mass", "a torque"; for what has no name, its base units."""
    if dimension in NAMES:
        return NAMES[dimension]
    symbols = ("kg", "m", "s", "A", "K", "rad")
    parts = [
        symbol if power == 1 else f"{symbol}^{power}" for symbol, power in zip(symbols, dimension, strict=True) if power
    ]
    return "a quantity in " + "·".join(parts)
