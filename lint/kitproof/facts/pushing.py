"""Wind and push: what overturns a rig besides its own weight.

The push is at the plate, where a pan bar is; the wind meets what is carried.
"""

from __future__ import annotations

import math

from kitproof.facts.outlines import middle_up, sides
from kitproof.facts.rig import RigSubject
from kitproof.facts.values import joined
from kitproof.mechanics import winds
from kitproof.mechanics.ranges import add, negate
from kitproof.model.quantities import Range

NOTHING: Range = (0.0, 0.0)


def pushes(rig: RigSubject, plate: Range) -> tuple[Range, tuple[str, ...]]:
    """Moments of wind and push about the ground in N·m, with the plate at a height in m, and what is missing.

    Nothing said of the wind is no wind.
    """
    wind, no_wind = _wind(rig, plate)
    push = rig.rig.push
    force = (push.low, push.high) if push is not None else NOTHING
    no_push = (f"{rig.label}: push",) if push is not None and not push.known else ()
    if rig.rig.left_standing:
        house = rig.setting.house["left_standing_push"]
        force = (max(force[0], house), max(force[1], house))
    return winds.pushing(wind, winds.push_moment(force, plate)), joined(no_wind, no_push)


def _wind(rig: RigSubject, plate: Range) -> tuple[Range, tuple[str, ...]]:
    wind = rig.rig.site.wind
    if wind is None:
        return NOTHING, ()
    if not wind.known:
        return (0.0, math.inf), (rig.lacks("wind"),)
    if wind.high == 0:
        return NOTHING, ()
    sails, said, missing = _sails(rig, plate)
    return winds.wind_moment(wind.range, sails, all_met=said), missing


def _sails(rig: RigSubject, plate: Range) -> tuple[list[winds.Sail], bool, tuple[str, ...]]:
    """What the wind meets, each at the middle of its outline: the sail areas that are said; where none is, the sides of
    all that is carried; which of the two it is; and what is missing of them."""
    said = [each for each in rig.carried if each.standing.part.sail_area and each.standing.part.sail_area.known]
    found = []
    missing: tuple[str, ...] = ()
    for each in said or rig.carried:
        part = each.standing.part
        up = add(each.seat.up, middle_up(part))
        low, high = add(plate, negate(up) if rig.rig.underslung else up)
        sail = part.sail_area
        area = sail.range if sail and sail.known else winds.side(*sides(part))
        found.append(winds.Sail(area, (max(low, 0.0), max(high, 0.0))))
        known = math.isfinite(area[1]) and math.isfinite(sum(middle_up(part)))
        missing = joined(missing, each.no_axis("up"), () if known else (part.lacks("size"),))
    return found, bool(said), missing
