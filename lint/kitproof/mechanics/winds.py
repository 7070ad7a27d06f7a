"""Wind: its pressure and force on what stands in it, and its name.

Forces in N, areas in m², speeds in m/s (gusts, at the height of the camera), heights in m. Ranges are exact where what
they are made of does not depend on each other.
"""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Sequence
from typing import NamedTuple

from kitproof.mechanics.ranges import Interval, add, multiply, square

AIR = 1.225
"""ρ, kg/m³: dry air at 15 °C at sea level (international standard atmosphere, from memory)."""

FLAT_PLATE = 1.28
"""C_d, the drag coefficient of a flat plate square to the wind: NASA Glenn, Shape Effects on Drag."""

BEAUFORT_TOPS = (0.2, 1.5, 3.3, 5.4, 7.9, 10.7, 13.8, 17.1, 20.7, 24.4, 28.4, 32.6)
"""The upper bounds of forces 0 to 11, in m/s: WMO scale, as quoted. Above the last it is force 12."""

BEAUFORT_NAMES = (
    "calm",
    "light air",
    "light breeze",
    "gentle breeze",
    "moderate breeze",
    "fresh breeze",
    "strong breeze",
    "near gale",
    "gale",
    "strong gale",
    "storm",
    "violent storm",
    "hurricane",
)
"""The names of forces 0 to 12: WMO scale, from memory."""


class Sail(NamedTuple):
    """A part that the wind meets: the area of its side, in m², and the height of its centre above the ground, in m."""

    area: Interval
    height: Interval


def pressure(speed: Interval) -> Interval:
    """q = ½ ρ v², in Pa. Source: dynamic pressure; ASCE 7 §26.10 has the same with ρ / 2 = 0.613, as quoted."""
    return multiply(square(speed), (AIR / 2, AIR / 2))


def force(speed: Interval, area: Interval) -> Interval:
    """F_w = ½ ρ v² C_d A, in N."""
    return multiply(multiply(pressure(speed), area), (FLAT_PLATE, FLAT_PLATE))


def side(along: Interval, across: Interval, high: Interval) -> Interval:
    """The area of the greater side of an outline, in m²: the longer of along and across the lens, times its height."""
    longer = max(along[0], across[0]), max(along[1], across[1])
    return multiply(longer, high)


def sail_area(sails: Sequence[Sail]) -> Interval:
    """A, in m², where no sail area is said: at least the largest part's side, at most all sides together.

    Parts hide each other from the wind by an amount that nobody writes down, so nothing narrower is certain. No parts:
    no area.
    """
    least = max((sail.area[0] for sail in sails), default=0.0)
    return least, math.fsum(sail.area[1] for sail in sails)


def wind_moment(speed: Interval, sails: Sequence[Sail], *, all_met: bool = False) -> Interval:
    """F_w h_w about the ground, in N·m: at least that of the part with the greatest, at most that of all together.

    Each side's force is at the height of its own centre. What is seen of all parts holds the outline of each one, so no
    single one's moment is too much for the low end. `all_met`, where the areas are what was said to meet the wind: just
    their moments together.
    """
    moments = [multiply(force((1.0, 1.0), sail.area), sail.height) for sail in sails]
    least = math.fsum if all_met else max
    lever = least([low for low, _ in moments] or [0.0]), math.fsum(high for _, high in moments)
    return multiply(square(speed), lever)


def push_moment(push: Interval, height: Interval) -> Interval:
    """F_p h_p about the ground, in N·m, of a push at the pan bar."""
    return multiply(push, height)


def pushing(*moments: Interval) -> Interval:
    """Moments of wind and push together, in N·m: the worst is that both push the same way."""
    total = (0.0, 0.0)
    for moment in moments:
        total = add(total, moment)
    return total


def beaufort(speed: float) -> int:
    """The Beaufort force, 0 to 12, of a wind: the first whose upper bound it does not exceed."""
    return bisect_left(BEAUFORT_TOPS, speed)


def wind_name(speed: float) -> str:
    """What a wind is called: "fresh breeze"."""
    return BEAUFORT_NAMES[beaufort(speed)]
