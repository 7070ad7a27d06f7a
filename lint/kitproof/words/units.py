"""The units people usually write, each with its dimension and its factor to SI.

The factors are exact by definition (UCUM; the avoirdupois pound is 0.45359237 kg, the inch 25.4 mm, standard gravity
9.80665 m/s²); a test holds the table to pint. What is not in the table is read by pint, see `model.unusual`.
"""

from __future__ import annotations

import math

from msgspec import Struct

from kitproof.words.dimensions import (
    ANGLE,
    AREA,
    CHARGE,
    CURRENT,
    ENERGY,
    FORCE,
    FREQUENCY,
    LENGTH,
    MASS,
    NUMBER,
    POWER,
    SPEED,
    TEMPERATURE,
    TIME,
    TORQUE,
    VOLTAGE,
    Dimension,
)

G = 9.80665
POUND = 0.45359237
INCH = 0.0254


class Unit(Struct, frozen=True):
    """A unit: SI value = written value × factor + offset."""

    name: str
    dimension: Dimension
    factor: float
    offset: float = 0.0

    def to_si(self, number: float) -> float:
        return number * self.factor + self.offset

    def from_si(self, number: float) -> float:
        return (number - self.offset) / self.factor


def _units() -> dict[str, Unit]:
    table: dict[str, Unit] = {}

    def add(names: str, dimension: Dimension, factor: float, offset: float = 0.0) -> None:
        first = names.split("|")[0]
        unit = Unit(first, dimension, factor, offset)
        for name in names.split("|"):
            table[name] = unit

    add("kg|kgs|kilo|kilos|kilogram|kilograms", MASS, 1.0)
    add("g|gram|grams", MASS, 0.001)
    add("lb|lbs|pound|pounds", MASS, POUND)
    add("oz|ounce|ounces", MASS, POUND / 16)
    add("t", MASS, 1000.0)
    add("m|metre|metres|meter|meters", LENGTH, 1.0)
    add("cm|centimetre|centimetres|centimeter|centimeters", LENGTH, 0.01)
    add("mm|millimetre|millimetres|millimeter|millimeters", LENGTH, 0.001)
    add("in|inch|inches", LENGTH, INCH)
    add("ft|foot|feet", LENGTH, 12 * INCH)
    add("N", FORCE, 1.0)
    add("kN", FORCE, 1000.0)
    add("kgf", FORCE, G)
    add("lbf", FORCE, POUND * G)
    add("N·m|Nm|N m|N*m|N.m", TORQUE, 1.0)
    add("kgf·m|kgf m|kgf*m", TORQUE, G)
    add("kgf·cm|kgf cm|kgf*cm", TORQUE, G * 0.01)
    add("lbf·ft|ft·lbf|lbf ft|ft lbf|ft·lb|ft lb|lb·ft", TORQUE, POUND * G * 12 * INCH)
    add("lbf·in|in·lbf|lbf in|in lbf|in·lb|in lb|lb·in", TORQUE, POUND * G * INCH)
    add("°|deg|degree|degrees", ANGLE, math.pi / 180)
    add("rad", ANGLE, 1.0)
    add("s|sec|second|seconds", TIME, 1.0)
    add("min|minute|minutes", TIME, 60.0)
    add("h|hr|hrs|hour|hours", TIME, 3600.0)
    add("day|days|d", TIME, 86400.0)
    add("week|weeks", TIME, 604800.0)
    add("W", POWER, 1.0)
    add("kW", POWER, 1000.0)
    add("Wh", ENERGY, 3600.0)
    add("kWh", ENERGY, 3.6e6)
    add("J", ENERGY, 1.0)
    add("V", VOLTAGE, 1.0)
    add("mV", VOLTAGE, 0.001)
    add("A", CURRENT, 1.0)
    add("mA", CURRENT, 0.001)
    add("Ah", CHARGE, 3600.0)
    add("mAh", CHARGE, 3.6)
    add("m/s", SPEED, 1.0)
    add("km/h|kph", SPEED, 1 / 3.6)
    add("mph", SPEED, 0.44704)
    add("kn|knot|knots", SPEED, 1852 / 3600)
    add("°C|degC", TEMPERATURE, 1.0, 273.15)
    add("°F|degF", TEMPERATURE, 5 / 9, 273.15 - 32 * 5 / 9)
    add("K", TEMPERATURE, 1.0)
    add("m²|m2|m^2", AREA, 1.0)
    add("cm²|cm2|cm^2", AREA, 1e-4)
    add("mm²|mm2|mm^2", AREA, 1e-6)
    add("in²|in2|in^2", AREA, INCH**2)
    add("ft²|ft2|ft^2", AREA, (12 * INCH) ** 2)
    add("%", NUMBER, 0.01)
    add("times an hour", FREQUENCY, 1 / 3600)
    return table


UNITS: dict[str, Unit] = _units()

SI_NAMES: dict[Dimension, str] = {
    MASS: "kg",
    LENGTH: "m",
    TIME: "s",
    CURRENT: "A",
    TEMPERATURE: "K",
    ANGLE: "rad",
    AREA: "m²",
    SPEED: "m/s",
    FORCE: "N",
    ENERGY: "Wh",
    TORQUE: "N·m",
    POWER: "W",
    VOLTAGE: "V",
    CHARGE: "Ah",
    FREQUENCY: "times an hour",
    NUMBER: "1",
}
"""What machine output is written in: SI, but Wh for an energy and Ah for a charge (results.md of the trade's habit)."""

SHOWN: dict[Dimension, str] = {
    MASS: "kg",
    LENGTH: "mm",
    TIME: "h",
    CURRENT: "A",
    TEMPERATURE: "°C",
    ANGLE: "°",
    AREA: "m²",
    SPEED: "m/s",
    FORCE: "N",
    ENERGY: "Wh",
    TORQUE: "N·m",
    POWER: "W",
    VOLTAGE: "V",
    CHARGE: "Ah",
    FREQUENCY: "times an hour",
}
"""What people read when a list asks for no units of its own."""
