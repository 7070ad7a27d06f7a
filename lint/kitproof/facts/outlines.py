"""A part by itself: its mass, its height, its outline, and where its centre of gravity is from its own seat."""

from __future__ import annotations

import math

from kitproof.facts.scales import weighed
from kitproof.model.parts import Part
from kitproof.model.quantities import ANYWHERE, UNKNOWN_SPOT, Range, Spot
from kitproof.words.kinds import KINDS


def mass_of(part: Part) -> tuple[Range, tuple[str, ...]]:
    """A part's mass in kg, and what is missing: [0, inf) where it is not known. Two scales add up."""
    if part.mass is not None and part.mass.known:
        return part.mass.range, ()
    if part.mass is None and part.weighed is not None:
        known = part.weighed.front.known and part.weighed.rear.known
        return weighed(part.weighed).mass, () if known else (part.lacks("weighed"),)
    return (0.0, math.inf), (part.lacks("mass"),)


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


def height_of(part: Part) -> tuple[Range, tuple[str, ...]]:
    """From a part's seat to its top face: as said, else its size's high side."""
    if part.height is not None:
        return (part.height.range, ()) if part.height.known else (ANYWHERE, (part.lacks("height"),))
    if len(part.size) == 3 and part.size[2].known:
        return part.size[2].range, ()
    return ANYWHERE, (part.lacks("height"),)


def outline(part: Part) -> Spot:
    """The box that a part fills, from its seat. Outlines rise centred on the seat; lenses run forward of it, batteries
    back. A side that is not known reaches anywhere."""
    along, across, high = _sides(part)
    runs = KINDS[part.kind].runs
    if runs == "forward":
        return Spot((0.0, along), _centred(across), _centred(across))
    if runs == "back":
        return Spot((-along, 0.0), _centred(high), _centred(across))
    return Spot(_centred(along), (0.0, high) if math.isfinite(high) else ANYWHERE, _centred(across))


def _middle_half(part: Part) -> Spot:
    box = outline(part)
    return Spot(_half(box.forward), _half(box.up), _half(box.left))


def _half(side: Range) -> Range:
    low, high = side
    if not (math.isfinite(low) and math.isfinite(high)):
        return ANYWHERE
    quarter = (high - low) / 4
    return (low + quarter, high - quarter)


def _centred(side: float) -> Range:
    return (-side / 2, side / 2)


def _sides(part: Part) -> tuple[float, float, float]:
    """Greatest length along, across and high, in metres; infinite where not known. A lens is as wide as its front."""
    along = across = high = math.inf
    if len(part.size) == 3:
        along, across, high = (side.high if side.known else math.inf for side in part.size)
    if part.kind == "lens":
        if math.isinf(along) and part.length is not None and part.length.known:
            along = part.length.high
        if math.isinf(across) and part.front is not None and part.front.known:
            across = part.front.high
    if math.isinf(high) and part.height is not None and part.height.known:
        high = part.height.high
    return along, across, high
