"""Mass and balance point from two scales."""

from __future__ import annotations

from msgspec import Struct

from kitproof.mechanics.means import Term, two_scales
from kitproof.model.parts import Weighed
from kitproof.model.quantities import Range


class OnScales(Struct, frozen=True):
    mass: Range
    forward: Range


def weighed(scales: Weighed) -> OnScales:
    """Mass F + R in kg and balance point (F x_F + R x_R) / (F + R) in m forward of the seat, each its exact range.

    F and R are what the front and the rear scale show, x where each stands. Source: balance of moments.
    """
    front = Term(scales.front.low, scales.front.high, *scales.front_at)
    rear = Term(scales.rear.low, scales.rear.high, *scales.rear_at)
    return OnScales(*two_scales(front, rear))
