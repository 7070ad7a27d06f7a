"""What should have stood there, in a person's words with an example. The examples are those of `format.md`."""

from __future__ import annotations

from kitproof.words.dimensions import (
    ANGLE,
    AREA,
    CHARGE,
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
    in_words,
)
from kitproof.words.kinds import FieldWord
from kitproof.words.shapes import Shape

_EXAMPLES: dict[Dimension, str] = {
    MASS: "6.4 kg",
    LENGTH: "150 mm",
    TIME: "11 h",
    ANGLE: "20°",
    AREA: "0.12 m²",
    SPEED: "6 m/s",
    FORCE: "80 N",
    ENERGY: "98 Wh",
    CHARGE: "7 Ah",
    TORQUE: "4 N·m",
    POWER: "38 W",
    VOLTAGE: "14.4 V",
    TEMPERATURE: "-5 °C",
    FREQUENCY: "20 times an hour",
    NUMBER: "2 %",
}

_REACHES: dict[Dimension, str] = {
    LENGTH: "600..1600 mm",
    ANGLE: "-30° to 20°",
    TORQUE: "0.4 to 3 N·m",
    VOLTAGE: "11..17 V",
    TEMPERATURE: "-5 to 30 °C",
}

_SHAPES: dict[Shape, str] = {
    Shape.TRAVEL: "how far back and how far forward, such as 60 mm back to 80 mm forward",
    Shape.PLACE: "a place, such as 60 mm forward, 190 mm up",
    Shape.SIZE: "three lengths, such as 320 x 180 x 150 mm",
    Shape.INTERFACE: "an interface, such as bowl 100 mm",
    Shape.PORT: "an interface and where it is, such as bowl 100 mm at 20 mm up",
    Shape.AXIS: "how far below or above the plate, such as 42 mm below plate",
    Shape.STEPS: "least to most and the steps, such as 4 to 38 N·m, 10 steps",
    Shape.DRAW: "a power, and the most if it is known, such as 38 W, 60 W at most",
    Shape.WEIGHED: "what two scales showed, such as front 2.1 kg at 60 mm forward, rear 1.9 kg at 90 mm back",
    Shape.FLAG: "nothing more after these words",
    Shape.NAME: 'a name in quotes, such as "Fenner 12 head"',
    Shape.COUNTED: 'names in quotes, with how many of each, such as 2 x "Osmer 98", "Brack 7"',
    Shape.TEXT: "some words",
    Shape.COUNT: "a whole number, such as 4",
    Shape.DATE: "a day, such as 2027-03-08",
    Shape.DATES: "a first and a last day, such as 2027-03-08 to 2027-03-19",
    Shape.UNIT_NAMES: "units to print in, such as kg, mm",
    Shape.TAG: 'a word of the house\'s own and its value, such as colour "red"',
    Shape.SLOT: 'names in quotes, such as "Pell 50" or "Pell 85"',
    Shape.OR_SLOT: 'a further name in quotes, such as or "Pell 85"',
    Shape.ALSO: 'a slot and a name in quotes, such as monitor "Brack 7"',
    Shape.WITHOUT: "a slot, such as monitor",
    Shape.RIG_NAME: "the name of a rig, such as A",
    Shape.ORDERED: 'how many of what, such as 2 x "Osmer 98", spare 1',
    Shape.HELD: 'a name in quotes and its state, such as "Fenner 12 head", tilted down 70°, tilt locked',
    Shape.LIFT: "how it is lifted, such as by 2, from 0 mm to 1200 mm, 350 mm out, 20 times an hour",
}

QUOTED_NAME = _SHAPES[Shape.NAME]
CLOSING_QUOTE = "a closing quote"
DIRECTION = "a direction after the length: forward, back, up, down, left or right"
WHOLE_NUMBER = _SHAPES[Shape.COUNT]
DAY = _SHAPES[Shape.DATE]
STATE = "a state, such as level, tilt locked or pan bar off"


def quantity_of(*dimensions: Dimension) -> str:
    """A mass, such as 6.4 kg; for two dimensions both."""
    return ", or ".join(f"{_kind(each)}, such as {_EXAMPLES.get(each, '1 m')}" for each in dimensions)


def _kind(dimension: Dimension) -> str:
    return "a share" if dimension == NUMBER else in_words(dimension)


def of_field(field: FieldWord) -> str:
    """What a field's value should look like, from its shape and dimension."""
    dimension = field.dimension or NUMBER
    if field.shape is Shape.QUANTITY:
        return quantity_of(dimension, *([field.or_dimension] if field.or_dimension else []))
    if field.shape is Shape.REACH and dimension == ANGLE and field.positive:
        return f"{in_words(dimension)} or a reach, such as up to 8°"
    if field.shape is Shape.REACH:
        return f"{in_words(dimension)} or a reach, such as {_REACHES.get(dimension, '1 to 2')}"
    if field.shape is Shape.POINTS:
        return f"{in_words(dimension)} and where it holds, such as " + (
            "420 mm at 800 mm, 610 mm at 1500 mm" if dimension == LENGTH else "18 kg at 150 mm, 12 kg at 220 mm"
        )
    if field.shape is Shape.PHRASES:
        return f"one of: {', '.join(field.phrases)}"
    if field.shape is Shape.SIZE and field.word == "sensor":
        return "two lengths, such as 36.0 x 19.0 mm"
    return _SHAPES[field.shape]
