"""What hangs on a lens mount, and how far two rods sag.

Symbols: m mass in kg; d its distance forward of the mount in m; s where a support bears, forward of the mount, in m;
g = 9.80665 m/s². A rod: L its length from the clamp in m, a where a load sits on it, D outer diameter, w wall in m,
E modulus of elasticity in Pa, I second moment of area in m⁴.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from msgspec import Struct

from kitproof.mechanics.means import Term, moment_range
from kitproof.mechanics.ranges import Interval, divide, multiply, times
from kitproof.words.units import G

UNKNOWN_WALL: Interval = (0.0, math.inf)
"""A wall that is not known: from none to solid."""

ELASTICITY: dict[str, Interval] = {
    "aluminium": (70e9, 70e9),
    "steel": (200e9, 200e9),
    "carbon": (60e9, 140e9),
}
"""E in Pa. Aluminium and steel: OpenStax University Physics 1, table 12.1. Carbon tube: house, from memory; it depends
on how the fibres lie."""

UNKNOWN_ELASTICITY: Interval = (
    min(low for low, _ in ELASTICITY.values()),
    max(high for _, high in ELASTICITY.values()),
)
"""E where nothing is said of what the rods are made of: any of the above."""


class Load(NamedTuple):
    """A mass in kg on the rods, and where it sits, in m from the clamp."""

    mass: Interval
    at: Interval


class Rods(Struct, frozen=True):
    """A pair of rods alike, held at one end: free length, outer diameter, wall in m, elasticity in Pa.

    A wall of half the diameter or more is a solid rod.
    """

    length: Interval
    diameter: Interval
    wall: Interval = UNKNOWN_WALL
    elasticity: Interval = UNKNOWN_ELASTICITY
    count: int = 2


def lens_torque_range(hung: Sequence[Term]) -> Interval:
    """`lens_torque` = g Σ m d in N·m about the mount, of all that hangs on the lens, exactly. Statics.

    It is negative for what hangs behind the mount.
    """
    return multiply((G, G), moment_range(hung))


def lens_share_range(hung: Sequence[Term], moment: Interval) -> Interval:
    """`lens_torque` over the most that the mount should bear, in N·m, exactly; they share nothing."""
    return divide(lens_torque_range(hung), moment)


def support_range(hung: Sequence[Term], place: Interval) -> Interval:
    """What a support at s from the mount bears, R = g Σ m d / s in N, the mount taking no moment, exactly. Statics.

    Moments about the mount: R s = g Σ m d. A support that may stand at the mount itself bears no known force.
    """
    return divide(lens_torque_range(hung), place)


def second_moment(diameter: float, wall: float) -> float:
    """I = π/64 (D⁴ − (D − 2w)⁴) in m⁴ of a round tube about a diameter; solid where w ≥ D/2. Strength of materials.

    It rises with D at a given wall, as the outside grows faster than the bore, and with w up to D/2.
    """
    metal = min(2 * max(wall, 0.0), diameter)
    bore = diameter - metal if metal < diameter else 0.0
    # The difference of the fourth powers in factors: nothing cancels, and an unknown diameter makes no NaN.
    return times(math.pi / 64 * (diameter * diameter + bore * bore) * (diameter + bore), metal)


def tip_sag(force: float, place: float, length: float, stiffness: float) -> float:
    """How far the tip of one rod goes down in m, δ = F a² (3L − a) / (6 E I), under a force F in N at a of L.

    `stiffness` is E I in N·m². Strength of materials: a cantilever, small deflections.
    """
    if length == math.inf:
        bend = math.inf if force > 0 and place > 0 else 0.0
    else:
        bend = times(force, place * place * (3 * length - place))
    if stiffness > 0:
        return bend / (6 * stiffness)
    return math.inf if bend > 0 else 0.0


def rod_sag_range(loads: Sequence[Load], rods: Rods) -> Interval:
    """`rod_sag`: how far the tips of the rods go down in m; several loads add up, each shared by the rods alike.

    Exact. δ rises with each mass, with L, and with a as far as the end (dδ/da goes with 6 a L − 3 a², which is more
    than 0 for 0 < a < 2L); it falls with E, D and w. So each end takes the ends of all of them, but that no load sits
    beyond the end of its rods: places are held to L, and L is at least what the places ask for. A load behind the clamp
    bends nothing in front of it. The rods' own mass is left out, as is what the base and clamp give way.
    """
    farthest = max((load.at[0] for load in loads), default=0.0)
    low = _sag([(load.mass[0], load.at[0]) for load in loads], max(rods.length[0], farthest), rods, 1)
    high = _sag([(load.mass[1], load.at[1]) for load in loads], max(rods.length[1], farthest), rods, 0)
    return low, high


def _sag(loads: Sequence[tuple[float, float]], length: float, rods: Rods, end: int) -> float:
    """The sag with the rods at the stiff (1) or the weak (0) end of what is known of them."""
    stiffness = times(rods.elasticity[end], second_moment(rods.diameter[end], rods.wall[end]))
    if stiffness == math.inf:
        return 0.0
    force = G / rods.count
    return math.fsum(tip_sag(m * force, min(max(a, 0.0), length), length, stiffness) for m, a in loads if m > 0)
