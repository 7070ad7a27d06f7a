"""Whether one more of a part is there for a rig: what its parts book has, less what others have on its dates."""

from __future__ import annotations

from msgspec.structs import replace

from kitproof.facts.promises import Calendar
from kitproof.facts.tally import Tally
from kitproof.mending.ground import Ground
from kitproof.model.parts import Part
from kitproof.model.promises import Promise, Promised
from kitproof.model.rigs import Rig

IN_STOCK, STOCK_NOT_KNOWN, OUT_OF_STOCK = range(3)


class Stock:
    """How many of each part are left for a rig on its dates, beside other rigs of its list and beside other lists.

    With `keeping` the rig keeps those that it has already; else what it has is what is chosen anew.
    """

    def __init__(self, ground: Ground, rig: Rig, *, keeping: bool = False) -> None:
        kitlist = ground.kitlist
        self.ground, self.rig = ground, rig
        tally = Tally(kitlist)
        self.days = tally.days(rig)
        beside = tuple(each for each in kitlist.rigs if each.name != rig.name and tally.together(each, rig))
        self.beside = Tally(replace(kitlist, rigs=beside))
        self.kept = Tally(replace(kitlist, rigs=(rig,) if keeping else ()))
        self.known: dict[str, int] = {}

    def of(self, part: Part) -> int:
        """Whether one more is there for the rig: one of `IN_STOCK` and the others."""
        if part.name not in self.known:
            self.known[part.name] = self._of(part)
        return self.known[part.name]

    def _of(self, part: Part) -> int:
        if part.have is None:
            return STOCK_NOT_KNOWN
        count = float(1 + self.kept.at_once(part.name) + self.beside.at_once(part.name))
        first, last = (self.days.first, self.days.last) if self.days else (None, None)
        mine = Promise(part.name, part.kind, first, last, count, count, self.rig.where, part.have)
        kitlist = self.ground.kitlist
        own = Promised(kitlist.path, kitlist.title, kitlist.issue, kitlist.where, (mine,))
        wanted = Calendar(part, own, self.ground.setting.others).promised
        if wanted.high <= part.have:
            return IN_STOCK
        return OUT_OF_STOCK if wanted.low > part.have else STOCK_NOT_KNOWN
