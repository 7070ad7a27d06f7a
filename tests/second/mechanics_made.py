"""Random figures of what tilts, stands, bears and bends, and the conditions that a rig works in."""

from __future__ import annotations

import math
import random
from fractions import Fraction

from tests.second.described import UNSAID, ZERO, Number, Quantity, Spring
from tests.second.quantities import length, quantity

TORQUES = {"N·m": Fraction(1), "N m": Fraction(1), "kgf·cm": Fraction(980665, 10_000_000)}
SPEEDS = {"m/s": Fraction(1), "km/h": Fraction(1000, 3600)}
AREAS = {"m²": Fraction(1), "cm²": Fraction(1, 10_000)}
FORCES = {"N": Fraction(1), "kgf": Fraction(980665, 100_000)}
MATERIALS = ("aluminium", "steel", "carbon", "")
TUBES = (15, 19)  # mm


def mechanics(
    chance: random.Random, kind: str, made: dict[str, object], sharp: float, unsaid: float, *, whole: bool
) -> dict[str, object]:
    """What a part of a kind says of its mechanics besides what `made` has of it."""
    found: dict[str, object] = {}
    if chance.random() < 0.15 and kind in ("camera", "lens", "matte box", "monitor", "accessory"):
        found["sail_area"] = quantity(chance, 0.01, 0.2, AREAS, tuple(AREAS), sharp=sharp, unsaid=unsaid)
    if kind == "sticks" and (whole or chance.random() > unsaid):
        legs = made["legs"]
        assert isinstance(legs, Quantity)
        found["feet"] = _feet(chance, legs, sharp)
    elif kind == "head":
        found |= _head(chance, sharp, unsaid)
    elif kind == "camera" and chance.random() < 0.7:
        found["lens_moment"] = torque(chance, 1, 12, sharp=sharp, unsaid=unsaid)
    elif kind == "rods":
        found |= _rods(chance, sharp, unsaid)
    return found


def torque(chance: random.Random, low: float, high: float, *, sharp: float, unsaid: float) -> Quantity:
    return quantity(chance, low, high, TORQUES, tuple(TORQUES), sharp=sharp, unsaid=unsaid)


def _feet(chance: random.Random, legs: Quantity, sharp: float) -> tuple[tuple[Quantity, Quantity], ...]:
    """Two or three points, nearly always over all of the legs' reach; feet mostly wider where the legs are long."""
    low, high = int(legs.low * 1000), int(legs.high * 1000)
    low = low if chance.random() < 0.9 else low + 20
    heights = [low, *([chance.randrange(low + 30, high - 20)] if chance.random() < 0.4 else []), high]
    wide = chance.uniform(0.15, 0.45)
    found = []
    for height in heights:
        at = Quantity(f"{height} mm", Fraction(height, 1000), Fraction(height, 1000))
        out = min(wide, height * 0.0009)  # no foot stands further out than its leg is long
        found.append((length(chance, out, out, sharp=sharp), at))
        wide *= chance.uniform(0.9, 1.3)
    return tuple(found)


def _head(chance: random.Random, sharp: float, unsaid: float) -> dict[str, object]:
    found: dict[str, object] = {}
    if chance.random() < 0.85:
        found["spring"] = _spring(chance, sharp, unsaid)
    if chance.random() < 0.6:
        found["tilt"] = degrees(chance.randrange(-90, -20), chance.randrange(20, 91))
    if chance.random() < 0.7:
        most = Fraction(chance.randrange(2, 400), 10)
        found["drag"] = Quantity(f"0.2 to {float(most)} N·m", Fraction(1, 5), most)
        if chance.random() < unsaid:
            found["drag"] = UNSAID
    return found


def _spring(chance: random.Random, sharp: float, unsaid: float) -> Spring:
    """A reach of torque, or now and then of mass at a height; with steps, stepless, or with nothing said of that."""
    if chance.random() < unsaid:
        return Spring(UNSAID)
    form = chance.choice(("steps", "steps", "steps", "stepless", "stepless", "neither"))
    steps = chance.choice((2, 3, 5, 8, 10, 12)) if form == "steps" else None
    least = ZERO if chance.random() < 0.2 else Fraction(chance.randrange(5, 80), 10)
    most = least + Fraction(chance.randrange(10, 600), 10)
    if chance.random() < 0.8:
        reach = Quantity(f"{float(least)} to {float(most)} N·m", least, most)
        return Spring(reach, steps, form == "stepless")
    most = least + Fraction(chance.randrange(10, 200), 10)
    reach = Quantity(f"{float(least)} to {float(most)} kg", least, most)
    return Spring(reach, steps, form == "stepless", length(chance, 0.08, 0.25, sharp=sharp))


def _rods(chance: random.Random, sharp: float, unsaid: float) -> dict[str, object]:
    outer = chance.choice(TUBES)
    found: dict[str, object] = {"made_of": chance.choice(MATERIALS)}
    if chance.random() < 0.9:
        found["length"] = length(chance, 0.15, 0.5, sharp=sharp, unsaid=unsaid)
    if chance.random() < 0.9:
        found["diameter"] = Quantity(f"{outer} mm", Fraction(outer, 1000), Fraction(outer, 1000))
        if chance.random() > sharp:
            found["diameter"] = Quantity(f"{outer} ± 1 mm", Fraction(outer - 1, 1000), Fraction(outer + 1, 1000))
    if chance.random() < 0.8:
        found["wall"] = length(chance, 0.001, 0.004, sharp=sharp, unsaid=unsaid)
    return found


def degrees(low: int, high: int) -> Quantity:
    """A reach of angle, in radians."""
    return Quantity(f"{low}° to {high}°", Fraction(math.radians(low)), Fraction(math.radians(high)))


def tilts(chance: random.Random, doubt: float) -> Quantity:
    if chance.random() < doubt / 4:
        return UNSAID
    if chance.random() < 0.1:
        steep = chance.randrange(10, 60)
        ends: tuple[Number, Number] = (Fraction(-math.radians(steep)), Fraction(math.radians(steep)))
        return Quantity(f"± {steep}°", *ends)
    return degrees(-chance.randrange(0, 91), chance.randrange(0, 91))


def slope(chance: random.Random, doubt: float) -> Quantity:
    if chance.random() < doubt / 4:
        return UNSAID
    steep = chance.randrange(1, 25)
    return Quantity(f"up to {steep}°", ZERO, Fraction(math.radians(steep)))


def wind(chance: random.Random, doubt: float) -> Quantity:
    return quantity(chance, 1, 15, SPEEDS, tuple(SPEEDS), sharp=1 - doubt, unsaid=doubt / 6)


def pushed(chance: random.Random, doubt: float) -> Quantity:
    return quantity(chance, 10, 150, FORCES, tuple(FORCES), sharp=1 - doubt, unsaid=doubt / 6)
