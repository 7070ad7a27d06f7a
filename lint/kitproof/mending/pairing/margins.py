"""How much room a pairing leaves: its facts at the worst of all combinations."""

from __future__ import annotations

import math
from collections.abc import Sequence

from kitproof.facts.registry import FACTS
from kitproof.facts.rig import RigSubject
from kitproof.facts.values import Amount
from kitproof.mending.pairing.results import Margin

HIGHEST_IS_WORST = ("load_share", "legs_share", "stack_share", "counterbalance_share", "overturn_share")
LOWEST_IS_WORST = ("slide_spare", "tip_angle_tilted")
TIGHT = ("load_share", "legs_share", "stack_share", "overturn_share")
"""Shares of what may be borne: the greatest of them is the margin that pairings are ranked by."""


def margins(rigs: Sequence[RigSubject]) -> tuple[Margin, ...]:
    """The margins over all combinations; what is not known in any of them is left out."""
    found = [_worst(rigs, name) for name in (*HIGHEST_IS_WORST, *LOWEST_IS_WORST)]
    return tuple(each for each in found if each is not None)


def _worst(rigs: Sequence[RigSubject], name: str) -> Margin | None:
    dimension = FACTS["rig"][name].type.dimension
    told = [(rig.amount(name), rig) for rig in rigs]
    if dimension is None or any(amount.missing for amount, _ in told):
        return None

    def how_bad(each: tuple[Amount, RigSubject]) -> float:
        return each[0].high if name in HIGHEST_IS_WORST else -each[0].low

    amount, rig = max(told, key=how_bad)
    if not math.isfinite(how_bad((amount, rig))):
        return None
    return Margin(name, amount, dimension, dict(rig.build.choice))


def tightest(margins: Sequence[Margin]) -> float:
    """The greatest share of what may be borne; infinite where none is known."""
    return max((each.amount.high for each in margins if each.name in TIGHT), default=math.inf)
