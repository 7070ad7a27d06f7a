"""Figures of one part that cannot all be so, though each could be read."""

from __future__ import annotations

import math

from kitproof.model.parts import Part
from kitproof.model.reports import Report


def check_part(part: Part, report: Report) -> None:
    """Says feet that stand wider than the legs are long, and a tilt that never comes level, each at the figure."""
    _feet(part, report)
    tilt = part.tilt
    if tilt is not None and tilt.known and not tilt.low <= 0 <= tilt.high:
        report("figures-contradict", part.where_of("tilt"), "tilt", wanted="a tilt takes in level, 0°")


def _feet(part: Part, report: Report) -> None:
    """No foot stands further out than its leg is long. The leg is as long as it is at the highest bowl of the chart,
    where it stands steepest: less than 45° from upright (common practice, no source)."""
    known = [point for point in part.feet if point.value.known and point.at is not None and point.at.known]
    if not known:
        return
    top = max(known, key=lambda point: point.at.high if point.at else 0.0)
    height = top.at.high if top.at else 0.0
    longest = height if top.value.low > height else math.hypot(height, top.value.high)
    for point in known:
        if point.value.low > longest:
            wanted = "a foot stands no further out than its leg is long"
            report("figures-contradict", point.where, "feet", wanted=wanted)
