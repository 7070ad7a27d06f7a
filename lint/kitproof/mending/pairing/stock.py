"""The parts to choose from, of the parts books in use: each with its size and whether it is there on the dates."""

from __future__ import annotations

import math

from msgspec import Struct
from msgspec.structs import replace

from kitproof.facts.promises import Calendar
from kitproof.facts.tally import Tally
from kitproof.mending.gear import ranked, size_of
from kitproof.mending.ground import Ground
from kitproof.mending.pairing.results import IN_STOCK, OUT_OF_STOCK, STOCK_NOT_KNOWN
from kitproof.model.parts import Part
from kitproof.model.promises import Promise, Promised
from kitproof.model.rigs import Rig


class Candidate(Struct, frozen=True):
    """A part that may be chosen, with its stock (one of `IN_STOCK` …) and its size among its kind, in SI."""

    part: Part
    stock: int
    size: float


class Stock:
    """How many of each part are left for a rig on its dates, beside other rigs of its list and beside other lists."""

    def __init__(self, ground: Ground, rig: Rig) -> None:
        kitlist = ground.kitlist
        self.ground, self.rig = ground, rig
        tally = Tally(kitlist)
        self.days = tally.days(rig)
        beside = tuple(each for each in kitlist.rigs if each.name != rig.name and tally.together(each, rig))
        self.beside = Tally(replace(kitlist, rigs=beside))
        self.known: dict[str, int] = {}

    def of(self, part: Part) -> int:
        """Whether one more is there for the rig."""
        if part.name not in self.known:
            self.known[part.name] = self._of(part)
        return self.known[part.name]

    def _of(self, part: Part) -> int:
        if part.have is None:
            return STOCK_NOT_KNOWN
        count = float(1 + self.beside.at_once(part.name))
        first, last = (self.days.first, self.days.last) if self.days else (None, None)
        mine = Promise(part.name, part.kind, first, last, count, count, self.rig.where, part.have)
        kitlist = self.ground.kitlist
        own = Promised(kitlist.path, kitlist.title, kitlist.issue, kitlist.where, (mine,))
        wanted = Calendar(part, own, self.ground.setting.others).promised
        if wanted.high <= part.have:
            return IN_STOCK
        return OUT_OF_STOCK if wanted.low > part.have else STOCK_NOT_KNOWN

    def candidates(self, kind: str) -> list[Candidate]:
        """The parts of a kind, the smallest first; those whose size is not known last."""
        found = [Candidate(part, self.of(part), size_of(part)) for part in ranked(self.ground, kind, "")]
        return sorted(found, key=lambda each: (each.size, _mass(each.part), each.part.name))


def _mass(part: Part) -> float:
    return part.mass.high if part.mass is not None and part.mass.known else math.inf


def mass_of(parts: tuple[Part, ...]) -> float:
    """The mass of several parts, in kg, each at its most; infinite where one is not known."""
    return math.fsum(map(_mass, parts))
