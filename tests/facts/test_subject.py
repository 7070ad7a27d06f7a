"""Subjects: each works a fact out once, and lies in others by the names that waivers use."""

from __future__ import annotations

from typing import Any

import pytest

from kitproof.facts.fact import Fact
from kitproof.facts.mating import joints
from kitproof.facts.orders import items, order_lines
from kitproof.facts.packing import packed_things
from kitproof.facts.subject import Setting, Subject
from kitproof.facts.tally import Tally
from kitproof.facts.values import Amount, number
from kitproof.words.dimensions import MASS
from tests.model.texts import DAY, RIG, made, setting, subject


def test_a_fact_is_worked_out_once() -> None:
    asked = []

    def compute(thing: Any) -> Amount:
        asked.append(thing)
        return Amount(1, 2)

    class Odd(Subject):
        about = "odd"

    fact = Fact("weight", "odd", number(MASS), "how heavy it is", compute)
    thing = Odd(Setting(made(""), DAY, {}, {"odd": {"weight": fact}}))
    assert [thing.amount("weight"), thing.amount("weight")] == [Amount(1, 2)] * 2
    assert asked == [thing]
    with pytest.raises(LookupError):
        thing.value("height")


def test_a_finding_in_a_rig_or_a_case_is_at_home_there_and_within_its_part() -> None:
    text = RIG + 'order\n  1 x "long lens"\nmove "van"\ncase "k"\n  goes "van"\n  holds "small head"\n'
    kitlist = made(text)
    rig = subject(kitlist)
    assert (rig.label, rig.home, rig.within) == ("rig A", "rig A", ("rig A",))
    joint = joints(rig)[0]
    assert (joint.home, joint.within) == ("rig A", ("rig A", 'part "small head"'))
    packed = packed_things(setting(kitlist))[0]
    assert packed.within == ('case "k"', 'part "small head"', 'move "van"')
    line = order_lines(setting(kitlist), Tally(kitlist))[0]
    assert line.within == ('part "long lens"',)
    item = items(setting(kitlist), Tally(kitlist))[-1]
    assert item.within == ('part "long lens"',)
