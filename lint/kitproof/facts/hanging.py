"""What hangs on the lens and on the rods, and the small things that must fit one another."""

from __future__ import annotations

import math
from itertools import takewhile

from kitproof.facts.build import Standing
from kitproof.facts.fact import fact
from kitproof.facts.geometry import Placed
from kitproof.facts.outlines import centre_of
from kitproof.facts.part import PartSubject
from kitproof.facts.rig import RigSubject
from kitproof.facts.values import TRUTH, Amount, Truth, Verdict, joined, number
from kitproof.mechanics import beams
from kitproof.mechanics.beams import Load, Rods
from kitproof.mechanics.means import Term
from kitproof.mechanics.ranges import add, subtract
from kitproof.model.parts import Seat
from kitproof.model.quantities import ANYWHERE, Range, is_known
from kitproof.words.dimensions import FORCE, LENGTH, NUMBER, TORQUE
from kitproof.words.units import G

MOUNT = "statics: moments about the lens mount"


def _placed(rig: RigSubject, standing: Standing | None) -> Placed | None:
    return next((each for each in rig.placed if each.standing is standing), None) if standing else None


def _path(rig: RigSubject, each: Placed) -> list[Placed]:
    """A thing, what it is on, what that is on, and so forth as far as is known."""
    found: list[Placed] = []
    on: Placed | None = each
    while on is not None and on not in found:
        found.append(on)
        on = _placed(rig, on.on)
    return found


def _hung(rig: RigSubject, lens: Placed) -> list[Placed]:
    """The lens, and all that is on it or on what is on it."""
    return [each for each in rig.placed if any(on is lens for on in _path(rig, each))]


def _ahead(rig: RigSubject, each: Placed, mark: Placed) -> Range:
    """How far ahead of one thing's seat another's is, in m; not known where the way between them is not.

    What both stand on counts once: in doubt itself, it moves both alike.
    """
    to_each, to_mark = _path(rig, each), _path(rig, mark)
    shared = next((on for on in to_each if any(on is other for other in to_mark)), None)
    if shared is None:
        away = subtract(each.seat.forward, mark.seat.forward)
    else:
        away = subtract(_run(to_each, shared), _run(to_mark, shared))
    return away if all(math.isfinite(end) for end in away) else ANYWHERE


def _run(path: list[Placed], end: Placed) -> Range:
    """How far ahead of what a path ends at it begins."""
    total = (0.0, 0.0)
    for each in takewhile(lambda on: on is not end, path):
        total = add(total, each.ahead)
    return total


def _arm(rig: RigSubject, lens: Placed) -> tuple[list[Term], tuple[str, ...]]:
    """What hangs on the mount, each with its distance forward of it, and what is missing."""
    terms, missing = [], []
    for each in _hung(rig, lens):
        away = add(_ahead(rig, each, lens), centre_of(each.standing.part)[0].forward)
        terms.append(Term(*each.mass, *away))
        missing += [*each.no_mass, *(each.no_place if away == ANYWHERE else ())]
    return terms, tuple(dict.fromkeys(missing))


@fact(
    "lens_torque",
    "rig",
    number(TORQUE),
    "the torque of all that hangs on the lens, about its mount",
    "g × the sum of mass × distance",
    MOUNT,
)
def lens_torque(rig: RigSubject) -> Amount | None:
    """Not there without a lens."""
    lens = _placed(rig, rig.build.first("lens"))
    if lens is None:
        return None
    terms, missing = _arm(rig, lens)
    return Amount(*beams.lens_torque_range(terms), missing)


@fact(
    "lens_share",
    "rig",
    number(NUMBER),
    "that torque over the most that the camera's mount should bear",
    "lens_torque over the camera's lens moment",
    MOUNT,
)
def lens_share(rig: RigSubject) -> Amount | None:
    """Not there without a lens or a camera."""
    lens, camera = _placed(rig, rig.build.first("lens")), rig.build.first("camera")
    if lens is None or camera is None:
        return None
    terms, missing = _arm(rig, lens)
    moment = camera.part.lens_moment
    if moment is None or not moment.known:
        return rig.whatever(Amount(-math.inf, math.inf, joined(missing, (camera.part.lacks("lens_moment"),))))
    return Amount(*beams.lens_share_range(terms, moment.range), missing)


@fact(
    "support_bears",
    "rig",
    number(FORCE),
    "what a lens support bears where it stands, the mount taking nothing",
    "lens_torque over the support's distance from the mount",
    MOUNT,
)
def support_bears(rig: RigSubject) -> Amount | None:
    """Not there without a lens and a support for it."""
    lens, support = _placed(rig, rig.build.first("lens")), _placed(rig, rig.build.first("lens support"))
    if lens is None or support is None:
        return None
    terms, missing = _arm(rig, lens)
    away = _ahead(rig, support, lens)
    if away == ANYWHERE:
        missing = joined(missing, (f"{support.standing.part.label}: its place on the rig",))
    return Amount(*beams.support_range(terms, away), missing)


def _on_rods(rig: RigSubject, rods: Placed) -> list[Placed]:
    """What sits on the rods: what the list puts on them, and what is mounted by rods."""
    found = []
    for each in rig.carried:
        line, part = each.standing.line, each.standing.part
        said = line.on == (rods.standing.part.name if line.on_is_name else "rods")
        if each is not rods and (said or (not line.on and line.slot != "base" and _rod_mounted(part.sits_on))):
            found.append(each)
    return found


def _rod_mounted(seats: tuple[Seat, ...]) -> bool:
    return any(seat.family == "rods" for seat in seats)


@fact(
    "rod_sag",
    "rig",
    number(LENGTH),
    "how far the ends of the rods go down under what sits on them",
    "(F/2) a² (3L − a) over 6 E I, each load on two rods alike",
    "strength of materials: a cantilever, small deflections; E of aluminium and steel OpenStax table 12.1",
)
def rod_sag(rig: RigSubject) -> Amount | None:
    """Not there without rods."""
    rods = _placed(rig, rig.build.first("rods"))
    if rods is None:
        return None
    part = rods.standing.part
    loads, missing = _loads(rig, rods)
    length, diameter = part.length, part.diameter
    if not is_known(length) or not is_known(diameter):
        lacks = tuple(part.lacks(name) for name in ("length", "diameter") if not is_known(getattr(part, name)))
        return rig.whatever(Amount(0.0, math.inf, joined(missing, lacks)))
    wall = part.wall.range if is_known(part.wall) else beams.UNKNOWN_WALL
    made = part.made_of[0] if part.made_of else ""
    elasticity = beams.ELASTICITY.get(made, beams.UNKNOWN_ELASTICITY)
    return Amount(*beams.rod_sag_range(loads, Rods(length.range, diameter.range, wall, elasticity)), missing)


def _loads(rig: RigSubject, rods: Placed) -> tuple[list[Load], tuple[str, ...]]:
    """What bears on the rods, from their clamp; a lens support bears its share of the lens as well."""
    loads, missing = [], []
    for each in _on_rods(rig, rods):
        at = _ahead(rig, each, rods)
        if at == ANYWHERE:
            at = (0.0, math.inf)
            missing += [*each.no_place]
        mass = each.mass
        if each.standing.line.slot == "lens support":
            bears = support_bears.compute(rig)
            if isinstance(bears, Amount):
                mass = (mass[0] + max(bears.low, 0.0) / G, mass[1] + max(bears.high, 0.0) / G)
                missing += [*bears.missing]
        loads.append(Load(mass, at))
        missing += [*each.no_mass]
    return loads, tuple(dict.fromkeys(missing))


@fact("sensor_diagonal", "part", number(LENGTH), "the diagonal of a camera's sensor", "√(width² + height²)", "geometry")
def sensor_diagonal(part: PartSubject) -> Amount:
    sides = part.part.sensor
    if len(sides) < 2 or not all(side.known for side in sides):
        return Amount(0.0, math.inf, (part.part.lacks("sensor"),))
    return Amount(math.hypot(sides[0].low, sides[1].low), math.hypot(sides[0].high, sides[1].high))


@fact("safety_by_hand", "part", TRUTH, "whether its quick release needs a lock or a safety set by hand")
def safety_by_hand(part: PartSubject) -> Verdict:
    said = part.part.quick_release
    if not said:
        return Verdict(Truth.MISSING, (part.part.lacks("quick_release"),))
    by_hand = any(each in ("manual lock", "safety catch") for each in said)
    return Verdict(Truth.TRUE if by_hand else Truth.FALSE)
