"""Where each part of a combination stands, and the mass that it has, after the page of the format.

What is carried is measured from the top face of the head's plate; all else from the ground. Only heights are worked
out there.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cached_property, lru_cache

from tests.second.combining import SUPPORT, Combination, Stands
from tests.second.described import ANY_MASS, ANYTHING, NOTHING, ZERO, Number, Part, Port, Quantity, Range, Spot
from tests.second.quantities import minus

AXES = ("forward", "up", "left")
Place = dict[str, Range]


@dataclass
class Stood:
    """A part, what it stands on (None: the ground), whether the head carries it, and its seat."""

    at: Stands
    on: Stood | None
    carried: bool
    seat: Place
    taken: list[Port] = field(default_factory=list)  # ports of this part in which others sit
    lost: bool = False  # what it is on is not there, or is itself on something that is not there
    hangs: bool = False  # underslung: what is carried hangs, and its `up` counts negative
    sitting: Place = field(default_factory=dict)  # the place of the port that a support part sits in, seen from above
    offset: Place = field(default_factory=dict)  # its seat from that of what it is on; empty where nothing is known

    @property
    def part(self) -> Part:
        return self.at.part

    @property
    def free(self) -> list[Port]:
        return [port for port in self.part.takes if not any(port is each for each in self.taken)]

    @property
    def slot(self) -> str:
        return self.at.line.slot

    @property
    def on_ground(self) -> bool:
        """Whether it, or what it is on, lies on the ground: then it is no part of what stands, ballast excepted."""
        return self.at.line.on == "ground" or (self.on is not None and self.on.on_ground)

    @property
    def top(self) -> Range:
        """How high its top face is: for a head that of its plate, above ground."""
        return plus(self.seat["up"], _top(self))

    @cached_property
    def own_centre(self) -> Place:
        """Its centre of gravity from its own seat."""
        return _centre(self)

    def own(self, axis: str) -> Range:
        return self.own_centre[axis]

    def centre(self, axis: str) -> Range:
        place = plus(self.seat[axis], self.own_centre[axis])
        return minus(place) if self.hangs and axis == "up" else place


def plus(a: Range, b: Range) -> Range:
    return (a[0] + b[0], a[1] + b[1])


@lru_cache(maxsize=256)
def mass_of(part: Part) -> Range:
    """The mass of a part; nothing known of it is anything from nothing up."""
    one = part.weighed
    if one is not None:
        if not (one.front.known and one.rear.known):
            return ANY_MASS
        return _wider(plus(one.front.range, one.rear.range), part.within)
    if part.mass is None or not part.mass.known:
        return ANY_MASS
    return _wider(part.mass.range, part.within)


def _wider(ends: Range, within: Fraction) -> Range:
    return (ends[0] * (1 - within), ends[1] * (1 + within))


def place_all(combination: Combination) -> list[Stood]:
    """Every part of a combination in its place, in the order of the lines: what carries the camera first."""
    found: dict[int, Stood] = {}
    for number, stands in enumerate(combination):
        if stands.line.slot in SUPPORT:
            found[number] = _support(list(found.values()), stands)
    waiting = [number for number in range(len(combination)) if number not in found]
    for _ in combination:
        for number in list(waiting):
            owner = _owner(combination, number)
            if owner is None or owner in found:
                found[number] = _hung(combination[number], None if owner is None else found[owner], found)
                waiting.remove(number)
    return [found[number] for number in sorted(found)]


def _owner(combination: Combination, number: int) -> int | None:
    """What a part is on: what its line says, a pan bar the head, anything else the camera."""
    line = combination[number].line
    wanted = line.on or ("head" if line.slot in ("pan bar", "tie-down") else "camera")
    for other, each in enumerate(combination):
        if other != number and (each.part.name if line.on_is_name else each.line.slot) == wanted:
            return other
    return None


def _support(stood: list[Stood], stands: Stands) -> Stood:
    """A support slot stands on the top face of the one before, and as far forward and left as the port it sits in.

    The design could also be read so that the port says the height too; taken is that `height` does. A spreader bears
    nothing and stands on the ground.
    """
    before = [each for each in stood if each.slot in SUPPORT and each.slot != "spreader"]
    if stands.line.slot == "spreader" or not before:
        return Stood(stands, None, False, dict.fromkeys(AXES, NOTHING))
    below = before[-1]
    port = _port(below, stands.part)
    seat = below.seat if below.slot != "head" else dict.fromkeys(AXES, NOTHING)
    up = NOTHING if below.slot == "head" else _top(below)
    sitting = {axis: port.at.along(axis) if port and port.at else NOTHING for axis in ("forward", "left")}
    aside = sitting
    if not (below.carried or below.slot == "head"):
        aside = {"forward": NOTHING, "left": NOTHING}  # below the plate only heights count; forward is from the axis
    offset = aside | {"up": up}
    found = Stood(stands, below, below.carried or below.slot == "head", _from(seat, offset))
    found.offset, found.sitting = offset, sitting
    return found


def _top(below: Stood) -> Range:
    """The height of a top face over the seat; for sticks their leg height."""
    part = below.part
    if below.slot == "sticks":
        return _legs(below)
    return height_of(part)


def height_of(part: Part) -> Range:
    """From seat to top face. A height that is not known is anything: a top face may lie below the seat."""
    written = part.height or (part.size[2] if part.size else None)
    return written.range if written is not None and written.known else ANYTHING


def _legs(sticks: Stood) -> Range:
    legs = sticks.at.line.legs or sticks.part.legs
    return legs.range if legs is not None and legs.known else (ZERO, math.inf)


def _hung(stands: Stands, on: Stood | None, found: dict[int, Stood]) -> Stood:
    """What is no support slot, on what it is on."""
    line = stands.line
    if line.on == "ground" or line.slot == "ballast":
        return _ballast(stands)
    if on is None:  # what it is on is not in this combination: it is carried, since nothing says otherwise, somewhere
        return Stood(stands, None, line.on not in ("head", "sticks"), dict.fromkeys(AXES, ANYTHING), lost=True)
    carried = on.carried and line.slot != "pan bar"
    others = [found[n] for n in sorted(found) if found[n] is not on and found[n].carried] if not line.on else []
    owner, offset = _offset(on, stands, others)
    return Stood(stands, owner, carried, _from(owner.seat, offset), lost=owner.lost, offset=offset)


def _offset(on: Stood, stands: Stands, others: list[Stood]) -> tuple[Stood, Place]:
    """At the place that its line says, else in a port with a place, else anywhere in the outline of what it is on.

    Gives what it is on as well: where it sits in a port of another part, it is on that one.

    The design: "a part with no `at` uses the first free port of its family". Taken is: of what it is on; where the line
    says nothing of that, and the camera has none, of anything else that is carried.
    """
    if stands.line.at is not None:
        return on, _spot(stands.line.at)
    families = {each.family for each in stands.part.sits_on}
    for owner in [on, *others]:
        port = next((each for each in owner.free if each.family in families and owner.carried), None)
        if port is None:
            continue
        owner.taken.append(port)
        if port.at is not None:
            return owner, _spot(port.at)
        on = owner
        break
    return on, outline(on.part, _legs(on) if on.slot == "sticks" else None)


def _ballast(stands: Stands) -> Stood:
    """On the ground, or hung: then the hook is what counts."""
    line = stands.line
    up: Range = line.hung.range if line.hung else line.at.up if line.at else NOTHING
    return Stood(stands, None, False, {"forward": ANYTHING, "up": up, "left": ANYTHING})


def _spot(spot: Spot) -> Place:
    return {axis: spot.along(axis) for axis in AXES}


def _from(seat: Place, offset: Place) -> Place:
    return {axis: plus(seat[axis], offset[axis]) for axis in AXES}


def _port(on: Stood, part: Part) -> Port | None:
    """The port in which a support part sits: the first that it mates with, else the first of its family."""
    seats = {(each.family, each.size) for each in part.sits_on}
    mating = [port for port in on.part.takes if (port.family, port.size) in seats]
    related = [port for port in on.part.takes if port.family in {family for family, _ in seats}]
    for port in [*mating, *related]:
        on.taken.append(port)
        return port
    return None


def outline(part: Part, legs: Range | None = None) -> Place:
    """The space that a part takes up from its seat; an axis along which no size is given is not known.

    Of a lens it is known all the same that it runs forward of its seat, of a battery that it runs back.
    """
    along, across, high = part.size if part.size else (None, None, None)
    upward = legs if legs else _to(high or part.height)
    forward = _around(along)
    if part.kind == "lens":
        forward = (ZERO, _to(along or part.length)[1])
        upward = _around(high)
    elif part.kind == "battery":
        forward = (-_to(along)[1], ZERO)
        upward = _around(high)
    return {"forward": forward, "up": upward if legs is None else (ZERO, legs[1]), "left": _around(across)}


def sides(part: Part) -> tuple[Range, Range, Range]:
    """How long it is along the lens, across and high; without bound where that is not known."""
    along, across, high = part.size if part.size else (None, None, None)
    if part.kind == "lens":
        along = along or part.length
    else:
        high = high or part.height
    lengths = [each.range if each is not None and each.known else ANY_MASS for each in (along, across, high)]
    return (lengths[0], lengths[1], lengths[2])


def _to(side: Quantity | None) -> Range:
    return (ZERO, side.high) if side is not None and side.known else ANYTHING


def _around(side: Quantity | None) -> Range:
    return (-side.high / 2, side.high / 2) if side is not None and side.known else ANYTHING


def _quarters(side: Quantity | None) -> Range:
    """The middle half of what starts at the seat."""
    return (side.low / 4, side.high * 3 / 4) if side is not None and side.known else ANYTHING


def _middle(side: Quantity | None) -> Range:
    """The middle half of what is centred on the seat."""
    return (-side.high / 4, side.high / 4) if side is not None and side.known else ANYTHING


def _centre(stood: Stood) -> Place:
    """The centre of gravity from the seat: as written, or as two scales showed, else the middle half of the outline."""
    part = stood.part
    place = _stand_in(stood)
    if part.cog is not None:
        place = {axis: part.cog.along(axis) for axis in AXES}
    if stood.at.line.hung:
        place["up"] = NOTHING
    if part.weighed is not None:
        one = part.weighed
        front, rear = _wider(one.front.range, part.within), _wider(one.rear.range, part.within)
        place["forward"] = _balance_point(front, one.front_at.forward, rear, one.rear_at.forward)
    return place


def _balance_point(front: Range, front_at: Range, rear: Range, rear_at: Range) -> Range:
    """(F x_F + R x_R) / m at all corners."""
    points: list[Number] = [
        (f * fx + r * rx) / (f + r) for f in front for r in rear for fx in front_at for rx in rear_at
    ]
    return (min(points), max(points))


def _stand_in(stood: Stood) -> Place:
    part = stood.part
    if stood.slot == "sticks":
        legs = _legs(stood)
        return {"forward": ANYTHING, "up": (legs[0] * Fraction(2, 5), legs[1] * Fraction(3, 5)), "left": ANYTHING}
    along, across, high = part.size if part.size else (None, None, None)
    forward, up = _middle(along), _quarters(high or part.height)
    if part.kind == "lens":
        forward, up = _quarters(along or part.length), _middle(high)
    elif part.kind == "battery":
        forward, up = minus(_quarters(along)), _middle(high)
    return {"forward": forward, "up": up, "left": _middle(across)}
