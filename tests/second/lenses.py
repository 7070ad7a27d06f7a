"""What hangs on the lens and on the rods, after the design.

Taken is, where the design could be read in more than one way: a load bends the rods where its seat is; on the rods is
what its line puts there, and what says nothing of that and sits on them by its interface.

All of it is compared to both ends. What two things are both on, and what may be in doubt, moves both alike.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from fractions import Fraction

from tests.second.corners import times
from tests.second.described import ANY_MASS, ANYTHING, NOTHING, ZERO, Found, Number, Part, Range
from tests.second.placing import Stood, mass_of, plus
from tests.second.quantities import minus
from tests.second.weights import G, moment

ELASTICITY = {"aluminium": (70e9, 70e9), "steel": (200e9, 200e9), "carbon": (60e9, 140e9), "": (60e9, 200e9)}
"""Carbon, and what is not said: the house's."""


def lens_facts(stood: Sequence[Stood]) -> dict[str, Found]:
    lens = next((each for each in stood if each.slot == "lens"), None)
    found: dict[str, Found] = {}
    rods = next((each for each in stood if each.slot == "rods"), None)
    if lens is not None:
        found |= _at_the_mount(stood, lens)
    if rods is not None:
        found["rod_sag"] = _sag(stood, rods, lens)
    return found


def hung(stood: Sequence[Stood], lens: Stood) -> list[Stood]:
    """The lens, and what is on it or on what is on it."""
    return [each for each in stood if each is lens or _on(each, lens)]


def _on(each: Stood, lens: Stood) -> bool:
    return each.on is lens or (each.on is not None and _on(each.on, lens))


def _at_the_mount(stood: Sequence[Stood], lens: Stood) -> dict[str, Range]:
    camera = next((each for each in stood if each.slot == "camera"), None)
    things = hung(stood, lens)
    torque = moment([(mass_of(each.part), plus(ahead(each, lens), each.own("forward"))) for each in things])
    torque = (G * torque[0], G * torque[1])
    found: dict[str, Range] = {"lens_torque": torque}
    if camera is not None:
        most = camera.part.lens_moment
        found["lens_share"] = _divided(torque, most.range) if most is not None and most.known else ANYTHING
    support = next((each for each in stood if each.slot == "lens support"), None)
    if support is not None:
        found["support_bears"] = _divided(torque, ahead(support, lens))
    return found


def _divided(a: Range, b: Range) -> Range:
    """All quotients; with 0 among what it is divided by, anything on the sides that can be."""
    if b[0] < 0 < b[1] or b[0] == b[1] == 0 or ((b[0] == 0 or b[1] == 0) and a[0] < 0 < a[1]):
        return ANYTHING if a != NOTHING or b[0] == b[1] else NOTHING
    side = 1 if b[1] > 0 else -1
    found = [_quotient(x, y, side) for x, y in itertools.product(a, b)]
    return (min(found), max(found))


def _quotient(x: Number, y: Number, side: int) -> Number:
    if x == 0 or math.isinf(y):
        return ZERO
    if y == 0:
        return math.inf if x * side > 0 else -math.inf
    return x / y


def path(each: Stood) -> list[tuple[Stood, Range]]:
    """What a thing is on, one after another, each with how far ahead of its seat that of the one before is."""
    found = []
    below: Stood | None = each
    while below is not None:
        found.append((below, below.offset.get("forward", ANYTHING)))
        below = below.on
    return found


def ahead(each: Stood, mark: Stood) -> Range:
    """How far ahead of another's seat a thing's is. What both are on counts once: it moves both."""
    ways = path(each), path(mark)
    shared = next((a for a, _ in ways[0] if any(a is b for b, _ in ways[1])), None)
    if shared is None:
        found = plus(each.seat["forward"], minus(mark.seat["forward"]))
        return ANYTHING if math.inf in (-found[0], found[1]) else found
    sums = []
    for way in ways:
        own = [offset for on, offset in itertools.takewhile(lambda step: step[0] is not shared, way)]
        total: Range = NOTHING
        for offset in own:
            total = plus(total, offset)
        sums.append(total)
    found = plus(sums[0], minus(sums[1]))
    return ANYTHING if math.inf in (-found[0], found[1]) else found


def _sag(stood: Sequence[Stood], rods: Stood, lens: Stood | None) -> Range:
    part = rods.part
    if not (part.length and part.length.known and part.diameter and part.diameter.known):
        return ANY_MASS
    return _bent(part, _loads(stood, rods, lens))


def _loads(stood: Sequence[Stood], rods: Stood, lens: Stood | None) -> list[tuple[Range, Range]]:
    """Mass and place from the clamp of each; a lens support bears its share of the lens as well."""
    found = []
    for each in stood:
        if not each.carried or each is rods or not _on_rods(each, rods):
            continue
        at = ahead(each, rods)
        if math.inf in (-at[0], at[1]):
            at = ANY_MASS
        mass = mass_of(each.part)
        if each.slot == "lens support" and lens is not None:
            bears = _at_the_mount(stood, lens)["support_bears"]
            mass = (mass[0] + max(bears[0], ZERO) / G, mass[1] + max(bears[1], ZERO) / G)
        found.append((mass, at))
    return found


def _on_rods(each: Stood, rods: Stood) -> bool:
    line = each.at.line
    if line.on:
        return line.on == (rods.part.name if line.on_is_name else "rods")
    return each.slot != "base" and any(seat.family == "rods" for seat in each.part.sits_on)


def _bent(rods: Part, loads: Sequence[tuple[Range, Range]]) -> Range:
    """Stiff and near at the low end, weak and far at the high end; nothing sits beyond the end of its rods."""
    assert rods.length
    assert rods.diameter
    length, diameter = rods.length.range, rods.diameter.range
    wall = rods.wall.range if rods.wall and rods.wall.known else (ZERO, math.inf)
    farthest = max((at[0] for _, at in loads), default=ZERO)
    found = []
    for end, other in ((0, 1), (1, 0)):
        reach = max(float(length[end]), float(farthest))
        stiffness = ELASTICITY[rods.made_of][other] * second_moment(float(diameter[other]), float(wall[other]))
        found.append(sum(_one(float(mass[end]), float(at[end]), reach, stiffness) for mass, at in loads))
    return (found[0], found[1])


def _one(mass: float, at: float, length: float, stiffness: float) -> float:
    """(F/2) a² (3L − a) / 6EI."""
    a = min(max(at, 0.0), length)
    bend = times(mass, float(G) / 2 * a * a * (3 * length - a))
    return 0.0 if bend == 0 else math.inf if stiffness == 0 else float(bend) / (6 * stiffness)


def second_moment(outer: float, wall: float) -> float:
    """π/64 (D⁴ − d⁴), in fractions: little is left of the two."""
    d = max(Fraction(outer) - 2 * Fraction(wall), ZERO) if wall < math.inf else ZERO
    return math.pi / 64 * float(Fraction(outer) ** 4 - d**4)
