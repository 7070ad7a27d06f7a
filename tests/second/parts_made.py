"""Random parts of every kind that stands in a rig: with everything written, or with this or that left out or `?`."""

from __future__ import annotations

import random
from fractions import Fraction

from tests.second.described import UNSAID, Figure, Number, Part, Port, Quantity, Weighed
from tests.second.mechanics_made import mechanics
from tests.second.quantities import length, mass, minus, quantity, spot

MASSES: dict[str, tuple[float, float]] = {
    "sticks": (2, 12),
    "spreader": (0.5, 3),
    "riser": (0.5, 4),
    "adapter": (0.05, 1),
    "head": (2, 20),
    "plate": (0.1, 1),
    "slide": (0.2, 2),
    "base": (0.3, 2),
    "camera": (1, 12),
    "lens": (0.3, 8),
    "pan bar": (0.1, 1),
    "arm": (0.2, 2),
    "tie-down": (0.1, 1),
    "rods": (0.1, 1),
    "lens support": (0.1, 1),
    "matte box": (0.3, 3),
    "follow focus": (0.2, 1.5),
    "battery": (0.3, 2),
    "monitor": (0.3, 2),
    "recorder": (0.2, 2),
    "light": (0.2, 2),
    "handle": (0.1, 1),
    "ballast": (2, 20),
    "accessory": (0.05, 3),
}
FAMILIES = {
    "bowl": ("100 mm", "75 mm", "150 mm"),
    "flat": ("",),
    "screw": ("3/8-16", "1/4-20"),
    "slide": ("wide", "narrow"),
    "lens": ("PL", "tall"),
    "battery": ("V", "Z"),
    "rods": ("15/60", "15/100"),
    "shoe": ("",),
}
# For each kind the family that it sits on and those that it takes.
SEATS: dict[str, tuple[str, tuple[str, ...]]] = {
    "sticks": ("", ("bowl",)),
    "riser": ("bowl", ("bowl",)),
    "adapter": ("bowl", ("bowl", "flat")),
    "head": ("bowl", ("slide", "screw")),
    "plate": ("slide", ("slide",)),
    "slide": ("slide", ("slide", "screw")),
    "base": ("slide", ("screw", "rods")),
    "camera": ("screw", ("lens", "battery", "shoe", "shoe", "rods")),
    "lens": ("lens", ()),
    "battery": ("battery", ("battery",)),
    "rods": ("rods", ()),
    "matte box": ("rods", ()),
    "arm": ("shoe", ("shoe",)),
}
HUNG_FAMILY = "shoe"


def part(chance: random.Random, kind: str, name: str, within: Fraction, doubt: float, *, whole: bool = False) -> Part:
    """A part of a kind. `doubt` is how often a quantity is a range, and a third of it how often one is not known.

    A `whole` one has its centre, size, height and feet written.
    """
    made = _body(chance, kind, doubt, whole=whole)
    made["within"] = within
    made |= _seats(chance, kind, 1 - doubt, doubt / 6, whole=whole)
    made |= _figures(chance, kind, 1 - doubt, doubt / 6)
    made |= mechanics(chance, kind, made, 1 - doubt, doubt / 6, whole=whole)
    return Part(kind, name, **made)  # type: ignore[arg-type]  # each is made for the field of its name


def _body(chance: random.Random, kind: str, doubt: float, *, whole: bool) -> dict[str, object]:
    """Mass, centre and sides."""
    sharp, unsaid = 1 - doubt, doubt / 6
    low, high = MASSES[kind]
    made: dict[str, object] = {}
    weighed = chance.random() < 0.07 and kind in ("camera", "lens", "accessory", "base")
    if weighed:
        made["weighed"] = _weighed(chance, low, high, sharp)
    elif chance.random() > unsaid:
        made["mass"] = mass(chance, low, high, sharp=sharp, unsaid=unsaid)
    if not weighed and (whole or chance.random() < 0.6) and kind != "sticks":
        made["cog"] = spot(chance, _forward(kind), _up(kind), (-0.05, 0.05), sharp=sharp, unsaid=unsaid)
    if weighed and (whole or chance.random() < 0.5):
        made["cog"] = spot(chance, None, _up(kind), (-0.05, 0.05), sharp=sharp)
    if kind == "sticks":
        if whole or chance.random() < 0.2:
            made["cog"] = spot(chance, None, (0.3, 0.9), None, sharp=sharp)
        made["legs"] = _reach(chance)
    if whole or chance.random() < 0.75:
        made["size"] = tuple(length(chance, *ends, sharp=sharp) for ends in ((0.05, 0.4), (0.05, 0.25), _high(kind)))
    if kind in ("riser", "adapter", "head", "plate", "slide", "base", "camera") and (whole or chance.random() > unsaid):
        made["height"] = length(chance, *_high(kind), sharp=sharp, unsaid=unsaid)
    if kind in ("head", "riser") and "size" in made and "height" in made:
        made["height"] = made["size"][2]  # type: ignore[index]  # an outline that goes with the height
    if kind == "lens" and chance.random() < 0.6:
        made["length"] = length(chance, 0.05, 0.45, sharp=sharp, unsaid=unsaid)
    return made


def _forward(kind: str) -> tuple[float, float]:
    if kind == "lens":
        return (0.02, 0.3)
    return (-0.15, -0.01) if kind == "battery" else (-0.1, 0.1)


def _up(kind: str) -> tuple[float, float]:
    return (-0.03, 0.03) if kind in ("lens", "battery") else (-0.05, 0.2) if kind == "accessory" else (0.01, 0.2)


def _high(kind: str) -> tuple[float, float]:
    if kind in ("plate", "slide", "base", "adapter"):
        return (0.005, 0.06)
    return (0.08, 0.3)


def _weighed(chance: random.Random, low: float, high: float, sharp: float) -> Weighed:
    front = spot(chance, (0.02, 0.2), None, sharp=sharp)
    rear = spot(chance, (-0.2, -0.02), None, sharp=sharp)
    return Weighed(
        mass(chance, low / 2, high / 2, sharp=sharp), front, mass(chance, low / 2, high / 2, sharp=sharp), rear
    )


def _reach(chance: random.Random) -> Quantity:
    low = chance.randrange(400, 900)
    high = low + chance.randrange(100, 900)
    return Quantity(f"{low}..{high} mm", Fraction(low, 1000), Fraction(high, 1000))


def _seats(chance: random.Random, kind: str, sharp: float, unsaid: float, *, whole: bool) -> dict[str, object]:
    seat, takes = SEATS.get(kind, (HUNG_FAMILY, ()))
    made: dict[str, object] = {}
    if seat and chance.random() < 0.85:
        made["sits_on"] = tuple(
            Port(seat, chance.choice(FAMILIES[seat][:2])) for _ in range(1 if chance.random() < 0.85 else 2)
        )
    ports = []
    for family in takes:
        if chance.random() < 0.75:
            place = None
            if kind not in ("sticks", "head") and (whole or chance.random() < 0.75):
                forward = (-0.12, -0.02) if family == "battery" else (-0.05, 0.08)
                place = spot(chance, forward, (0.02, 0.15), (-0.03, 0.03), sharp=sharp, unsaid=unsaid)
            ports.append(Port(family, chance.choice(FAMILIES[family]), place))
    return made | {"takes": tuple(ports)}


def _figures(chance: random.Random, kind: str, sharp: float, unsaid: float) -> dict[str, object]:
    if kind == "head":
        return _head(chance, sharp)
    made: dict[str, object] = {}
    if kind in ("sticks", "spreader", "riser", "adapter", "plate", "slide", "base", "arm") and chance.random() < 0.6:
        made["rated"] = Figure(mass(chance, 5, 60, sharp=sharp))
        if chance.random() < 0.2 and kind != "sticks":
            made["rated"] = Figure(mass(chance, 5, 60, sharp=sharp), length(chance, 0.05, 0.3))
    if kind == "slide":
        if chance.random() > unsaid:
            back, front = chance.randrange(0, 120), chance.randrange(10, 150)
            made["travel"] = Quantity(
                f"{back} mm back to {front} mm forward", Fraction(-back, 1000), Fraction(front, 1000)
            )
        made["slides_itself"] = chance.random() < 0.4
    return made


def _head(chance: random.Random, sharp: float) -> dict[str, object]:
    made: dict[str, object] = {}
    form = chance.choice(("chart", "chart", "chart", "single", "rated with height", "rated", "both", "nothing"))
    if form in ("chart", "both", "single"):
        count = 1 if form == "single" else chance.randrange(2, 5)
        made["chart"] = _points(chance, count, sharp)
    if form in ("rated", "both") or (form == "single" and chance.random() < 0.3):
        made["rated"] = Figure(mass(chance, 4, 40, sharp=sharp))
    if form == "rated with height" or (form == "chart" and chance.random() < 0.2):
        made["rated"] = Figure(mass(chance, 4, 40, sharp=sharp), length(chance, 0.05, 0.06, sharp=sharp))
    if chance.random() < 0.3:
        first = length(chance, 0.05, 0.5, sharp=sharp)
        second = length(chance, float(first.high) + 0.01, float(first.high) + 0.2, sharp=sharp)
        heights = (first, second)[: chance.randrange(1, 3)]  # apart: the reader takes each height once
        made["tried"] = tuple(Figure(mass(chance, 2, 25, sharp=sharp), each) for each in heights)
    if chance.random() < 0.6:
        made["axis"] = _axis(chance, sharp)
    return made


def _points(chance: random.Random, count: int, sharp: float) -> tuple[Figure, ...]:
    """A chart whose heights are apart even where they are in doubt; mostly falling."""
    figures = []
    most, height = chance.uniform(8, 40), chance.uniform(0.08, 0.25)
    for _ in range(count):
        at = length(chance, height, height, sharp=sharp)
        figures.append(Figure(mass(chance, most * 0.97, most, sharp=sharp), at))
        height = float(at.high) * chance.uniform(1.4, 2)
        most *= chance.uniform(0.4, 0.9) if chance.random() < 0.9 else 1.2
    return tuple(figures)


def _axis(chance: random.Random, sharp: float) -> Quantity:
    if chance.random() < 0.15:
        return UNSAID
    depth = quantity(chance, 0.005, 0.12, {"mm": Fraction(1, 1000)}, ("mm",), sharp=sharp)
    if chance.random() < 0.15:
        ends: tuple[Number, Number] = minus(depth.range)
        return Quantity(f"{depth.text} above plate", *ends)
    return Quantity(f"{depth.text} below plate", *depth.range)
