"""The registry of part kinds and entries: which fields each has, of which shape and dimension, and what each means.

Reading, the model, the rule language, the reference pages and completion are all made from these tables.
Masses here are the house's own bounds for what is possible or usual for a kind of part: common practice, no source.
"""

from __future__ import annotations

from functools import cached_property

from msgspec import Struct

from kitproof.words.dimensions import (
    ANGLE,
    AREA,
    CHARGE,
    ENERGY,
    FORCE,
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
from kitproof.words.shapes import Shape


class FieldWord(Struct, frozen=True, dict=True):
    """One field: the word as typed, its value's shape and dimension, and its meaning in a sentence.

    `at` is the dimension of what stands after `at` in a list of points, `or_dimension` a second dimension that the
    value may have, `phrases` the fixed words it may say, `default` what a yes-or-no field is when it is not written.
    """

    word: str
    shape: Shape
    dimension: Dimension | None
    says: str
    at: Dimension | None = None
    or_dimension: Dimension | None = None
    phrases: tuple[str, ...] = ()
    repeats: bool = False
    default: bool | None = None
    positive: bool = True

    @cached_property
    def name(self) -> str:
        """The word as rules and the model spell it."""
        return self.word.replace(" ", "_").replace("-", "_")


class Kind(Struct, frozen=True):
    """One kind of part. Masses in kg: less than `least` or more than `most` is impossible, over `usual` is unusual.

    `support` is its place from the ground up among the support slots, None for what hangs on the camera or lies in
    a case. `runs` says where its outline lies from its seat. `in_rigs` is False for what never stands in a rig.
    """

    word: str
    says: str
    fields: tuple[FieldWord, ...]
    least: float
    usual: float
    most: float
    support: int | None = None
    runs: str = "up"
    in_rigs: bool = True

    @property
    def name(self) -> str:
        return self.word.replace(" ", "_").replace("-", "_")


def _quantity(word: str, dimension: Dimension, says: str, *, positive: bool = True) -> FieldWord:
    return FieldWord(word, Shape.QUANTITY, dimension, says, positive=positive)


def _reach(word: str, dimension: Dimension, says: str, *, positive: bool = True) -> FieldWord:
    return FieldWord(word, Shape.REACH, dimension, says, positive=positive)


def _flag(word: str, says: str) -> FieldWord:
    return FieldWord(word, Shape.FLAG, None, says, default=False)


NOTE = FieldWord("note", Shape.TEXT, None, "anything worth writing down; nothing is computed from it", repeats=True)
TAG = FieldWord("tag", Shape.TAG, None, "a house's own word or number, which its own rules may use", repeats=True)

COMMON: tuple[FieldWord, ...] = (
    _quantity("mass", MASS, "mass of the part as it is used"),
    FieldWord("weighed", Shape.WEIGHED, MASS, "two scales: mass and forward place of the centre of gravity follow"),
    FieldWord("cog", Shape.PLACE, LENGTH, "centre of gravity, measured from the part's own seat"),
    _quantity("height", LENGTH, "from the seat to the top face", positive=False),
    FieldWord("size", Shape.SIZE, LENGTH, "outline: along the lens x across x high; of what folds, its size folded"),
    FieldWord("sits on", Shape.INTERFACE, None, "the interface by which it is mounted", repeats=True),
    FieldWord("takes", Shape.PORT, None, "an interface that it offers, and where", repeats=True),
    FieldWord("have", Shape.COUNT, NUMBER, "how many the house owns"),
    FieldWord("draws", Shape.DRAW, POWER, "power it draws: usual, and at most"),
    _quantity("folds to", LENGTH, "its greatest length when folded"),
    _quantity("sail area", AREA, "area that the wind meets"),
    FieldWord("goes with", Shape.COUNTED, None, "companions that should go out with it", repeats=True),
    FieldWord("includes", Shape.COUNTED, None, "what it is made up of, for a kit", repeats=True),
    NOTE,
    TAG,
)

RATED = FieldWord("rated", Shape.POINTS, MASS, "the load that its maker gives for it", at=LENGTH)
MATERIALS = ("aluminium", "steel", "carbon")
PAN_BAR_STATES = ("off", "loose", "down", "along legs")

KINDS: dict[str, Kind] = {
    kind.word: kind
    for kind in (
        Kind(
            "sticks",
            "a tripod",
            (
                RATED,
                _reach("legs", LENGTH, "height from the ground to its bowl, lowest to highest"),
                FieldWord("feet", Shape.POINTS, LENGTH, "radius of the foot circle at a leg height", at=LENGTH),
            ),
            0.4,
            15,
            40,
            support=0,
        ),
        Kind("spreader", "holds the feet of the sticks", (RATED,), 0.1, 4, 12, support=1),
        Kind("riser", "raises the head", (RATED,), 0.1, 8, 30, support=2),
        Kind("adapter", "joins one interface to another", (RATED,), 0.005, 3, 10, support=3),
        Kind(
            "head",
            "a pan and tilt head",
            (
                RATED,
                FieldWord("chart", Shape.POINTS, MASS, "the load it holds at each height above its plate", at=LENGTH),
                FieldWord("tried", Shape.POINTS, MASS, "what it held in the house's own bench trial", at=LENGTH),
                FieldWord("tilt axis", Shape.AXIS, LENGTH, "depth of the tilt axis below its plate", positive=False),
                FieldWord("counterbalance", Shape.STEPS, TORQUE, "least to most counterbalance, and its steps"),
                _reach("tilt", ANGLE, "how far it tilts, positive looking up", positive=False),
                _reach("drag", TORQUE, "tilt drag, least to most"),
                _reach("pan drag", TORQUE, "pan drag, least to most"),
                FieldWord(
                    "quick release",
                    Shape.PHRASES,
                    None,
                    "how its plate locks",
                    phrases=("self-locking", "manual lock", "safety catch"),
                ),
                FieldWord("pan bar", Shape.NAME, None, "the pan bar that belongs to it"),
                FieldWord("own case", Shape.NAME, None, "the case made for it"),
            ),
            0.3,
            25,
            60,
            support=4,
        ),
        Kind("plate", "a further quick-release plate", (RATED,), 0.02, 2, 5, support=5),
        Kind(
            "slide",
            "a sliding (dovetail) plate",
            (
                RATED,
                FieldWord("travel", Shape.TRAVEL, LENGTH, "how far it slides from its mark", positive=False),
                _flag("slides itself", "its own mass moves with the camera"),
            ),
            0.05,
            3,
            8,
            support=6,
        ),
        Kind("base", "rides on the slide and holds rods", (RATED,), 0.05, 4, 10, support=7),
        Kind(
            "camera",
            "a camera body",
            (
                _quantity("lens moment", TORQUE, "the most torque that its lens mount should bear"),
                FieldWord("sensor", Shape.SIZE, LENGTH, "width x height of its sensor"),
                _reach("power", VOLTAGE, "the voltages that it runs on"),
            ),
            0.1,
            18,
            45,
            support=8,
        ),
        Kind(
            "lens",
            "a lens",
            (
                _quantity("length", LENGTH, "from its flange to its front"),
                _quantity("front", LENGTH, "outer diameter of its front"),
                _quantity("image circle", LENGTH, "diameter of the image that it throws"),
                _flag("needs support", "its maker asks for a lens support"),
            ),
            0.05,
            12,
            35,
            runs="forward",
        ),
        Kind("pan bar", "the bar by which a head is turned", (), 0.05, 1.5, 4),
        Kind("arm", "reaches from one place to another", (RATED,), 0.05, 4, 15),
        Kind("tie-down", "holds a bowl head in its bowl", (RATED,), 0.05, 1.5, 4),
        Kind(
            "rods",
            "a pair of rods",
            (
                _quantity("length", LENGTH, "length of a rod"),
                _quantity("diameter", LENGTH, "outer diameter of a rod"),
                _quantity("wall", LENGTH, "thickness of its wall"),
                FieldWord("made of", Shape.PHRASES, None, "what it is made of", phrases=MATERIALS),
            ),
            0.02,
            2,
            6,
        ),
        Kind(
            "lens support",
            "bears a long lens",
            (_reach("front", LENGTH, "the diameters that it clamps"),),
            0.05,
            3,
            8,
        ),
        Kind(
            "matte box",
            "shades the lens and holds filters",
            (_reach("front", LENGTH, "the diameters that it clamps"),),
            0.1,
            4,
            10,
        ),
        Kind(
            "follow focus",
            "drives the focus ring",
            (_reach("front", LENGTH, "the diameters that it clamps"),),
            0.05,
            3,
            6,
        ),
        Kind(
            "battery",
            "a battery",
            (
                FieldWord(
                    "energy", Shape.QUANTITY, ENERGY, "what it holds: Wh, or Ah with a voltage", or_dimension=CHARGE
                ),
                _quantity("voltage", VOLTAGE, "its nominal voltage"),
                _quantity("delivers", POWER, "the most power it gives"),
                FieldWord(
                    "chemistry",
                    Shape.PHRASES,
                    None,
                    "what is inside",
                    phrases=("lithium-ion", "lithium metal", "nickel", "lead"),
                ),
            ),
            0.02,
            5,
            20,
            runs="back",
        ),
        Kind(
            "charger",
            "charges batteries",
            (
                FieldWord("charges at once", Shape.COUNT, NUMBER, "how many batteries it charges at one time"),
                _quantity("charges in", TIME, "how long a battery that has run down takes to be full again"),
            ),
            0.05,
            8,
            20,
            in_rigs=False,
        ),
        Kind("monitor", "a monitor", (), 0.05, 5, 20),
        Kind("recorder", "a recorder", (), 0.02, 4, 12),
        Kind("light", "a light on the camera", (), 0.02, 4, 15),
        Kind("handle", "a handle", (), 0.02, 2, 5),
        Kind("ballast", "weight for the sticks", (), 0.1, 40, 200),
        Kind("accessory", "anything else on the camera", (), 0.001, 6, 20),
        Kind("kit", "several parts under one name", (), 0.01, 60, 500, in_rigs=False),
        Kind(
            "case",
            "a case that the house owns",
            (
                FieldWord("inside", Shape.SIZE, LENGTH, "room inside: long x wide x high"),
                FieldWord("outside", Shape.SIZE, LENGTH, "outer size: long x wide x high"),
                _quantity("limit", MASS, "the most that it may weigh packed"),
            ),
            0.1,
            40,
            150,
            in_rigs=False,
        ),
    )
}
"""Every kind of part by its word."""

SITE: tuple[FieldWord, ...] = (
    _quantity("day", TIME, "length of the working day"),
    _reach("site temperature", TEMPERATURE, "coldest to hottest on site", positive=False),
    _reach("ground slope", ANGLE, "how far the ground slopes"),
    _quantity("wind", SPEED, "wind on site"),
    FieldWord("floor", Shape.PHRASES, None, "what the feet stand on", phrases=("hard", "soft")),
)
DATES = FieldWord("dates", Shape.DATES, None, "first and last day, both included")

MOUNTINGS = ("ground", "vehicle", "crane", "jib", "moving dolly", "gimbal", "hung", "over people")
"""What a rig may be mounted on. All but the ground lie outside what is proofed."""

ENTRIES: dict[str, tuple[FieldWord, ...]] = {
    "list": (
        FieldWord("issue", Shape.COUNT, NUMBER, "which issue of the list this is"),
        FieldWord("units", Shape.UNIT_NAMES, None, "the units to print in"),
        DATES,
        FieldWord("for", Shape.TEXT, None, "who or what it is for"),
        FieldWord("weights within", Shape.QUANTITY, NUMBER, "how far masses written later in this file may be off"),
        *SITE,
        NOTE,
    ),
    "use": (),
    "weights": (),
    "order": (DATES, NOTE),
    "rig": (
        _reach("tilts", ANGLE, "how far it is tilted in use, positive looking up", positive=False),
        _flag("left standing", "it stands with nobody at it"),
        _flag("underslung", "what is carried hangs below the head"),
        FieldWord("mounted on", Shape.PHRASES, None, "what the rig stands on or hangs from", phrases=MOUNTINGS),
        _quantity("push", FORCE, "a push at the pan bar"),
        _quantity("drag", TORQUE, "the drag that the operator asks for"),
        FieldWord("instead of", Shape.RIG_NAME, None, "a rig with which it never stands at one time", repeats=True),
        FieldWord("also", Shape.ALSO, None, "one more part in a slot", repeats=True),
        FieldWord("without", Shape.WITHOUT, None, "takes a slot, or one part of it, out", repeats=True),
        FieldWord("or", Shape.OR_SLOT, None, "more alternatives for the line above", repeats=True),
        DATES,
        *SITE,
        NOTE,
        TAG,
    ),
    "move": (
        FieldWord(
            "by",
            Shape.PHRASES,
            None,
            "how it travels",
            phrases=("road", "hand", "air cabin", "air hold", "air cargo"),
        ),
        _flag("stored", "it does not move but lies in a store"),
        _quantity("lasts", TIME, "how long it takes"),
        FieldWord("on", Shape.DATE, None, "the day it starts"),
        FieldWord("people", Shape.COUNT, NUMBER, "how many travel with it"),
        _flag("carrier agrees", "the carrier has agreed to larger batteries"),
        NOTE,
        TAG,
    ),
    "case": (
        FieldWord("is", Shape.NAME, None, "the house's case that it is"),
        FieldWord("goes", Shape.COUNTED, None, "the moves it goes on, in order", repeats=True),
        FieldWord("inside", Shape.SIZE, LENGTH, "room inside: long x wide x high"),
        FieldWord("outside", Shape.SIZE, LENGTH, "outer size: long x wide x high"),
        _quantity("mass", MASS, "mass of the empty case"),
        _quantity("limit", MASS, "the most that it may weigh packed"),
        FieldWord("holds", Shape.HELD, None, "a part, or another case, in a state", repeats=True),
        FieldWord("lifted", Shape.LIFT, None, "how it is lifted"),
        NOTE,
        TAG,
    ),
    "waive": (
        FieldWord("until", Shape.DATE, None, "the last day on which it holds"),
        FieldWord("because", Shape.TEXT, None, "why it is accepted"),
        FieldWord("by", Shape.TEXT, None, "the role that accepts it"),
    ),
}
"""Every entry but `part`, whose fields depend on its kind."""

FAMILIES: dict[str, str] = {
    "bowl": "a half ball and its bowl, by diameter",
    "flat": "a flat base with a centre bolt",
    "screw": "a camera screw, by thread",
    "wedge": "a quick-release wedge, by width",
    "slide": "a sliding (dovetail) plate, wide or narrow",
    "lens": "a lens mount, or the foot of a lens",
    "battery": "a battery plate",
    "rods": "a pair of rods, by diameter and spacing",
    "shoe": "an accessory shoe",
}
"""Families of interface. A house may write others: they mate like these."""

STATES: tuple[str, ...] = (
    "level",
    "tilted down",
    "tilted up",
    "tilt locked",
    "tilt free",
    "counterbalance",
    "pan bar off",
    "pan bar loose",
    "pan bar down",
    "pan bar along legs",
    "on sticks",
    "in own case",
    "slide on",
    "slide off",
    "camera on",
    "charge",
    "terminals covered",
    "spare",
    "fitted in",
)
"""What `holds` may say of the state in which a thing is packed."""

SUPPORT: tuple[str, ...] = tuple(
    kind.word for kind in sorted(KINDS.values(), key=lambda kind: kind.support or 0) if kind.support is not None
)
"""The support slots, from the ground up."""


def fields_of(entry: str, kind: str = "") -> dict[str, FieldWord]:
    """The fields that an entry may have, by their word; for a part, its kind's own and the common ones.

    In a rig every kind that can stand in one is a slot too.
    """
    if entry == "part":
        own = KINDS[kind].fields if kind in KINDS else ()
        return {field.word: field for field in (*COMMON, *own)}
    fields = {field.word: field for field in ENTRIES[entry]}
    if entry == "rig":
        for word, each in KINDS.items():
            if each.in_rigs:
                fields[word] = FieldWord(word, Shape.SLOT, None, f"slot: {each.says}", repeats=True)
    return fields
