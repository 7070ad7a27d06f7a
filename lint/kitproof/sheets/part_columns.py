"""What people write above the columns of an inventory: words for each thing that a column can hold, and its field.

Tables, as everywhere in words of the trade: common practice, no source.
"""

from __future__ import annotations

from msgspec import Struct

from kitproof.sheets.column_words import MAKE, NOTE, Role
from kitproof.words.dimensions import (
    ANGLE,
    ENERGY,
    LENGTH,
    MASS,
    POWER,
    TORQUE,
    VOLTAGE,
    Dimension,
)
from kitproof.words.shapes import Shape


class PartRole(Struct, frozen=True):
    """A column of an inventory, and the field of a part that it fills: its word, its value's shape and dimension.

    `at` is the role of a column that goes with it: a height for a load, the steps of a counterbalance.
    """

    role: Role
    word: str
    shape: Shape
    dimension: Dimension | None = None
    at: str = ""


NAME = Role(
    "name",
    "what it is",
    (
        "item", "items", "description", "desc", "equipment", "gear", "product", "article", "item name",
        "item description", "name", "part", "part name", "asset", "asset name", "make and model", "make/model",
    ),
    ("model", "what", "thing", "stock item", "details", "kit"),
    figures=False,
)  # fmt: skip
KIND = Role(
    "kind",
    "what kind of part it is",
    ("kind", "kind of part", "category", "type of part", "part type", "item type", "class"),
    ("type", "group", "section", "department"),
    figures=False,
)
COUNT = Role(
    "count",
    "how many there are",
    (
        "qty", "qnty", "quantity", "count", "how many", "pcs", "pieces", "units", "stock", "in stock", "stock qty",
        "owned", "we have", "have", "on hand", "no of", "number of", "number owned", "total owned", "qty owned",
    ),
    ("no", "nr", "number", "amount", "total", "#"),
    figures=True,
)  # fmt: skip
LENGTH_SIDE = Role("length", "its length", ("length", "l", "depth", "d", "long"))
WIDTH_SIDE = Role("width", "its width", ("width", "w", "wide"))
HEIGHT_SIDE = Role("height", "its height", ("height", "h", "high", "build height", "height to plate"))
AT_HEIGHT = Role(
    "at-height",
    "the height at which the load is given",
    (
        "at height", "load height", "rated at", "rated height", "height of load", "at c of g", "c of g height",
        "cog height", "at cog", "payload height", "height for payload", "at cog height", "cg height", "at cg",
    ),
    ("cog", "c of g", "cg", "at"),
)  # fmt: skip
STEPS = Role(
    "steps",
    "the steps of the counterbalance",
    ("steps", "counterbalance steps", "cb steps", "number of steps", "no of steps", "c b steps"),
)
LEGS_ENDS = (
    Role(
        "least-legs",
        "the lowest that its legs stand",
        ("min height", "lowest", "lowest height", "minimum height", "height min"),
    ),
    Role(
        "most-legs",
        "the highest that its legs stand",
        ("max height", "highest", "highest height", "maximum height", "height max"),
    ),
)
SIZE, LEGS = "size", "legs"
"""Fields that may be said in several columns."""

FIELDS: tuple[PartRole, ...] = (
    PartRole(COUNT, "have", Shape.COUNT),
    PartRole(
        Role("mass", "its mass", ("weight", "mass", "wt", "unit weight", "weighs", "net weight"), ("kg",)),
        "mass", Shape.QUANTITY, MASS,
    ),
    PartRole(
        Role(
            "size",
            "its size",
            (
                "size", "dimensions", "dims", "dim", "l x w x h", "lxwxh", "l w h", "l x w x d", "outline", "lwh",
                "length x width x height", "size l x w x h", "dimensions l x w x h",
            ),
        ),
        "size", Shape.SIZE, LENGTH,
    ),
    PartRole(
        Role("folds", "how long it is folded", ("folded", "folded length", "folds to", "transport length")),
        "folds to", Shape.QUANTITY, LENGTH,
    ),
    PartRole(
        Role("chart", "its load chart", ("chart", "load chart", "payload chart", "capacity chart", "load curve")),
        "chart", Shape.POINTS, MASS,
    ),
    PartRole(
        Role(
            "rated",
            "the load that it is rated for",
            (
                "rated", "rating", "rated load", "payload", "max payload", "maximum payload", "max load", "load",
                "maximum load", "load capacity", "capacity", "swl", "load rating", "payload rating",
            ),
        ),
        "rated", Shape.POINTS, MASS, at=AT_HEIGHT.name,
    ),
    PartRole(
        Role(
            "counterbalance",
            "its counterbalance",
            ("counterbalance", "counter balance", "c b", "cb", "c/b", "counterbalance range", "cb range", "c/b range"),
        ),
        "counterbalance", Shape.STEPS, TORQUE, at=STEPS.name,
    ),
    PartRole(
        Role("tilt", "how far it tilts", ("tilt", "tilt range", "tilt angle", "tilt travel", "tilts")),
        "tilt", Shape.REACH, ANGLE,
    ),
    PartRole(
        Role("axis", "how deep its tilt axis lies", ("tilt axis", "axis", "axis depth", "tilt axis depth")),
        "tilt axis", Shape.AXIS, LENGTH,
    ),
    PartRole(Role("drag", "its tilt drag", ("drag", "tilt drag", "drag range")), "drag", Shape.REACH, TORQUE),
    PartRole(
        Role("legs", "how high its legs stand", ("legs", "leg height", "height range", "leg range", "working height")),
        "legs", Shape.REACH, LENGTH,
    ),
    PartRole(Role("bowl", "its bowl", ("bowl", "bowl size", "fitting")), "bowl", Shape.INTERFACE, LENGTH),
    PartRole(
        Role("energy", "what it holds", ("energy", "watt hours", "wh", "watthours", "battery capacity")),
        "energy", Shape.QUANTITY, ENERGY,
    ),
    PartRole(
        Role("voltage", "its voltage", ("voltage", "volts", "nominal voltage")),
        "voltage", Shape.QUANTITY, VOLTAGE,
    ),
    PartRole(
        Role("delivers", "the most that it gives", ("delivers", "max output", "output")),
        "delivers", Shape.QUANTITY, POWER,
    ),
    PartRole(
        Role("draws", "what it draws", ("draws", "draw", "power draw", "consumption")),
        "draws", Shape.DRAW, POWER,
    ),
    PartRole(
        Role("front", "its front", ("front", "front diameter", "front dia", "outer diameter", "clamps")),
        "front", Shape.QUANTITY, LENGTH,
    ),
    PartRole(NOTE, "note", Shape.TEXT),
)  # fmt: skip
"""In the order in which they are written."""

SIDES: tuple[PartRole, ...] = (
    PartRole(LENGTH_SIDE, "length", Shape.QUANTITY, LENGTH),
    PartRole(WIDTH_SIDE, "width", Shape.QUANTITY, LENGTH),
    PartRole(HEIGHT_SIDE, "height", Shape.QUANTITY, LENGTH),
)
"""Columns that make a size where there are all three; a length and a height by themselves are fields of their own."""

PARTS: tuple[Role, ...] = (
    NAME,
    KIND,
    MAKE,
    *(each.role for each in FIELDS),
    AT_HEIGHT,
    STEPS,
    *LEGS_ENDS,
    *(each.role for each in SIDES),
)
"""What the columns of an inventory can hold."""
