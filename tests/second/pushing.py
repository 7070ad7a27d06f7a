"""Wind and push, after the design: what overturns a rig besides its weight.

Taken is, where the design could be read in more than one way: the push is at the plate's height, where a pan bar is;
the wind meets what is carried; where any of it says its sail area, those that are said stand for the whole.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from tests.second.described import ANYTHING, NOTHING, Kit, Quantity, Range, Rig
from tests.second.leaning import Box, Picks
from tests.second.placing import Stood, plus, sides
from tests.second.quantities import minus
from tests.second.termwise import multiplied

AIR = 1.225  # kg/m³
FLAT_PLATE = 1.28
HOUSE_PUSH = 40.0  # N


@dataclass(frozen=True)
class Sail:
    """An area, and the height of its centre over the plate."""

    area: Range
    up: Range
    number: int


@dataclass(frozen=True)
class Pushed:
    """Wind, what it meets, and push. Of `whole` sails all are met, else from the largest to all of them."""

    wind: Quantity | None
    sails: tuple[Sail, ...]
    whole: bool
    push: Quantity | None
    left_standing: bool

    @property
    def force(self) -> Range:
        low, high = self.push.range if self.push and self.push.known else NOTHING
        least = HOUSE_PUSH if self.left_standing else 0.0
        return (max(float(low), least), max(float(high), least))

    @property
    def sharp(self) -> bool:
        still = self.wind is None or (self.wind.known and self.wind.high == 0)
        one = self.wind is not None and self.wind.low == self.wind.high and (self.whole or len(self.sails) == 1)
        one = one and all(each.area[0] == each.area[1] and each.up[0] == each.up[1] for each in self.sails)
        return self.force[0] == self.force[1] and (still or one)

    @property
    def unsaid(self) -> bool:
        return any(each is not None and not each.known for each in (self.wind, self.push))

    def picked(self, box: Box, picks: Picks) -> float:
        """The moment of both about the ground at one point of the doubt."""
        plate = picks.pick(box.plate, "plate")
        moment = picks.pick(self.force, "push") * plate
        if self.wind is None or not self.wind.known:
            return moment
        each = [
            picks.pick(sail.area, (sail.number, "area")) * max(plate + picks.pick(sail.up, (sail.number, "up")), 0.0)
            for sail in self.sails
        ]
        most, share = sum(each), 1.0 if self.whole else picks.pick((0.0, 1.0), "shade")
        met = share * most + (1 - share) * max(each, default=0.0)
        return moment + FLAT_PLATE * AIR / 2 * picks.pick(self.wind.range, "wind") ** 2 * met

    def within(self, plate: Range) -> Range:
        """The moment of both, term by term."""
        low, high = multiplied(self.force, plate)
        if self.wind is None:
            return (low, high)
        if not self.wind.known:
            return (low, math.inf)
        each = [
            multiplied(sail.area, (max(h[0], 0.0), max(h[1], 0.0)))
            for sail in self.sails
            for h in [_on(plate, sail.up)]
        ]
        sums = [sum(ends) for ends in zip(*each, strict=True)] or [0.0, 0.0]
        least = sums[0] if self.whole else max((one for one, _ in each), default=0.0)
        wind = [FLAT_PLATE * AIR / 2 * float(end) ** 2 for end in self.wind.range]
        blown = multiplied((wind[0], wind[1]), (least, sums[1]))
        return (low + blown[0], high + blown[1])


def _on(plate: Range, up: Range) -> tuple[float, float]:
    return (float(plate[0]) + float(up[0]), float(plate[1]) + float(up[1]))


def pushed(kit: Kit, rig: Rig, carried: list[Stood]) -> Pushed:
    said = [each for each in carried if each.part.sail_area and each.part.sail_area.known]
    return Pushed(
        wind=site(kit, rig, "wind"),
        sails=tuple(_sail(each) for each in (said or carried)),
        whole=bool(said),
        push=rig.push,
        left_standing=rig.left_standing,
    )


def site(kit: Kit, rig: Rig, word: str) -> Quantity | None:
    """What a rig says of its site, else the rig that it is like, else the list."""
    said = {"slope": (rig.slope, kit.slope), "wind": (rig.wind, kit.wind)}[word]
    return next((each for each in said if each is not None), None)


def _sail(each: Stood) -> Sail:
    """A part's sail area as said, else its greater side; at the centre of its outline."""
    along, across, high = sides(each.part)
    area: Range = (0.0, math.inf)
    if each.part.sail_area and each.part.sail_area.known:
        area = each.part.sail_area.range
    elif all(math.isfinite(side[1]) for side in (along, across, high)):
        area = (max(along[0], across[0]) * high[0], max(along[1], across[1]) * high[1])
    centre: Range = NOTHING  # a lens and a battery are centred on their seat
    if each.part.kind not in ("lens", "battery"):
        centre = ANYTHING if math.isinf(high[1]) else (high[0] / 2, high[1] / 2)
    up = plus(each.seat["up"], centre)
    return Sail(area, minus(up) if each.hangs else up, each.at.number)
