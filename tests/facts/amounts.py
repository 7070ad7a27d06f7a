"""The ends of facts that are numbers, as tests compare them."""

from __future__ import annotations

from kitproof.facts.values import Amount
from kitproof.model.kitlist import KitList
from tests.model.texts import amount


def ends(found: Amount) -> tuple[float, float]:
    return found.low, found.high


def known_ends(found: Amount) -> tuple[float, float]:
    """The ends of a number of which nothing is missing."""
    assert found.missing == ()
    return ends(found)


def ends_of(kitlist: KitList, name: str) -> tuple[float, float]:
    """The ends of a fact of rig A, whatever is missing of it."""
    return ends(amount(kitlist, name))
