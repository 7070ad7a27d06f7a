"""A part by itself: its mass, its height, its outline, and where its centre of gravity is from its own seat."""

from __future__ import annotations

import math

from kitproof.facts.hulls import of_each
from kitproof.facts.scales import weighed
from kitproof.model.parts import Part
from kitproof.model.quantities import ANYWHERE, UNKNOWN_SPOT, Interval, Range, Spot
from kitproof.words.kinds import KINDS

UNBOUNDED: Range = (0.0, math.inf)


@of_each
def mass_of(part: Part) -> tuple[Range, tuple[str, ...]]:
    """A part's mass in kg, and what is missing: [0, inf) where it is not known. Two scales add up."""
    if part.mass is not None and part.mass.known:
        return part.mass.range, ()
    if part.mass is None and part.weighed is not None:
        known = part.weighed.front.known and part.weighed.rear.known
        return weighed(part.weighed).mass, () if known else (part.lacks("weighed"),)
    return (0.0, math.inf), (part.lacks("mass"),)


@of_each
def centre_of(part: Part) -> tuple[Spot, tuple[str, ...]]:
    """A part's centre of gravity from its own seat: as said, by two scales, else the middle half of its outline."""
    if not part.cog_known:
        return UNKNOWN_SPOT, (part.lacks("cog"),)
    spot = part.cog if part.cog is not None else _middle_half(part)
    if part.blank("weighed"):
        spot = Spot(ANYWHERE, spot.up, spot.left)
    elif part.weighed is not None:
        spot = Spot(weighed(part.weighed).forward, spot.up, spot.left)
    missing = (part.lacks("cog"),) if ANYWHERE in (spot.forward, spot.up, spot.left) else ()
    return spot, missing


@of_each
def height_of(part: Part) -> tuple[Range, tuple[str, ...]]:
    """From a part's seat to its top face: as said, else its size's high side."""
    if part.height is not None:
        return (part.height.range, ()) if part.height.known else (ANYWHERE, (part.lacks("height"),))
    if len(part.size) == 3 and part.size[2].known:
        return part.size[2].range, ()
    return ANYWHERE, (part.lacks("height"),)


@of_each
def outline(part: Part) -> Spot:
    """The box that a part fills at most, from its seat. Outlines rise centred on the seat; lenses run forward of it,
    batteries back. A side that is not known reaches anywhere."""
    along, across, high = (side[1] for side in sides(part))
    runs = KINDS[part.kind].runs
    if runs == "forward":
        return Spot((0.0, along), _centred(high), _centred(across))
    if runs == "back":
        return Spot((-along, 0.0), _centred(high), _centred(across))
    return Spot(_centred(along), (0.0, high) if math.isfinite(high) else ANYWHERE, _centred(across))


def _middle_half(part: Part) -> Spot:
    """The middle half of the outline. Of a side in doubt that starts at the seat it may begin at a quarter of the
    least that the side may be; centred on the seat, the greatest takes in the others."""
    along, across, high = sides(part)
    runs = KINDS[part.kind].runs
    if runs == "forward":
        return Spot(_quarters(along), _half(high), _half(across))
    if runs == "back":
        forward = _quarters(along)
        return Spot((-forward[1], -forward[0]), _half(high), _half(across))
    return Spot(_half(along), _quarters(high), _half(across))


@of_each
def middle_up(part: Part) -> Range:
    """How high above its seat the middle of a part's outline is, in m."""
    if KINDS[part.kind].runs != "up":
        return (0.0, 0.0)
    high = sides(part)[2]
    return (high[0] / 2, high[1] / 2) if math.isfinite(high[1]) else ANYWHERE


def _quarters(side: Range) -> Range:
    return (side[0] / 4, side[1] * 3 / 4) if math.isfinite(side[1]) else ANYWHERE


def _half(side: Range) -> Range:
    return (-side[1] / 4, side[1] / 4)


def _centred(side: float) -> Range:
    return (-side / 2, side / 2)


@of_each
def sides(part: Part) -> tuple[Range, Range, Range]:
    """Lengths along, across and high, in metres; without bound where not known. A lens is as wide as its front."""
    along = across = high = UNBOUNDED
    if len(part.size) == 3:
        along, across, high = (side.range for side in part.size)
    if part.kind == "lens":
        along = _first_known(along, part.length)
        front = part.front if isinstance(part.front, Interval) else None
        across, high = _first_known(across, front), _first_known(high, front)
    else:
        high = _first_known(high, part.height)
    return along, across, high


def _first_known(side: Range, other: Interval | None) -> Range:
    return other.range if side == UNBOUNDED and other is not None and other.known else side
