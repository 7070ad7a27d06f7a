"""Laws of standing and tilting over whole lists: mirrored they are the same, and ballast low down never tips sooner.

The lists are the random ones of the second implementation, the same each time.
"""

from __future__ import annotations

import math
import random
import re
from dataclasses import replace
from fractions import Fraction

import pytest

from kitproof.facts.registry import FACTS
from kitproof.facts.rig import RigSubject
from kitproof.facts.values import Amount
from kitproof.model.making import make_list
from kitproof.model.sources import Fetched, gather
from tests.second import ours
from tests.second.described import Kit, Line, Quantity
from tests.second.lists_made import kit
from tests.second.typed import typed

TURNED = {"left": "right", "right": "left"}
SIDEWAYS = re.compile(r"\b(left|right)\b(?! standing)")


def first_rigs(texts: dict[str, str]) -> list[RigSubject]:
    """The first combination of every rig."""

    def fetch(using: str, wanted: str) -> Fetched:
        return Fetched(wanted, wanted, texts[wanted].encode())

    kitlist = make_list(gather("list.kitlist", "list.kitlist", texts["list.kitlist"].encode(), fetch))
    return [each[0] for each in ours.rigs(ours.setting_of(kitlist)).values()]


def numbers(rig: RigSubject) -> dict[str, tuple[float, float]]:
    found = {name: rig.value(name) for name in FACTS["rig"]}
    return {name: (each.low, each.high) for name, each in found.items() if isinstance(each, Amount)}


@pytest.mark.parametrize("number", range(7000, 7008))
def test_mirrored_left_and_right_every_number_is_the_same(number: int) -> None:
    texts = typed(kit(random.Random(number)))
    turned = {name: SIDEWAYS.sub(lambda found: TURNED[found[0]], text) for name, text in texts.items()}
    assert turned != texts
    for plain, mirrored in zip(first_rigs(texts), first_rigs(turned), strict=True):
        here, there = numbers(plain), numbers(mirrored)
        low, high = here.pop("cog_left")
        assert there.pop("cog_left") == pytest.approx((-high, -low), abs=1e-12)
        assert there.keys() == here.keys()
        for name, ends in here.items():
            assert there[name] == pytest.approx(ends, rel=1e-9, abs=1e-9), name


def with_ballast(plain: Kit) -> Kit:
    """Ten kilograms hung 10 mm above the ground from every rig that is like no other and has none yet."""
    bag = Line("ballast", ("",), mass=Quantity("10 kg"), hung=Quantity("10 mm", Fraction(1, 100), Fraction(1, 100)))
    alone = [each for each in plain.rigs if not each.like]
    bare = [each for each in alone if not any(line.slot == "ballast" for line in each.lines)]
    return replace(plain, rigs=tuple(replace(each, lines=(*each.lines, bag)) for each in bare))


def test_ballast_low_down_never_tips_it_sooner() -> None:
    """By the worst end of each number, where the rig is known well enough to have one."""
    compared = 0
    for number in range(7000, 7030):
        weighted = with_ballast(kit(random.Random(number)))
        plain = replace(weighted, rigs=tuple(replace(each, lines=each.lines[:-1]) for each in weighted.rigs))
        for light, heavy in zip(first_rigs(typed(plain)), first_rigs(typed(weighted)), strict=True):
            before, after = numbers(light), numbers(heavy)
            compared += math.isfinite(before["lean"][1])
            assert after["lean"][1] <= before["lean"][1]
            assert after["overturn_share"][1] <= before["overturn_share"][1]
            for name in ("tip_angle_level", "tip_angle_tilted"):
                assert after[name][0] >= before[name][0] or before[name][0] <= 0.0
    assert compared >= 3
