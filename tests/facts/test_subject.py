"""Subjects: each works a fact out once, and lies in others by the names that waivers use."""

from __future__ import annotations

import math
from typing import Any, cast

import pytest

from kitproof.facts.fact import Fact
from kitproof.facts.hulls import Watch
from kitproof.facts.mating import joints
from kitproof.facts.orders import items, order_lines
from kitproof.facts.packing import packed_things
from kitproof.facts.part import PartSubject
from kitproof.facts.subject import Setting, Subject
from kitproof.facts.tally import Tally
from kitproof.facts.values import Amount, Tagged, Words, number
from kitproof.words.dimensions import MASS, NUMBER
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


TAGS = 'part lens "l"\n  mass 1 kg\n  tag colour "red"\n  tag shelf 3..4 kg\n  tag price ?\n'


def tagged() -> PartSubject:
    kitlist = made(TAGS, parts="")
    return PartSubject(setting(kitlist), kitlist.own_parts[0])


def test_a_houses_own_words_and_numbers_are_read_behind_tag() -> None:
    lens = tagged()
    assert lens.value("tag.colour") == Words("red")
    assert lens.value("tag.shelf") == Tagged(3, 4, (), MASS)
    assert lens.value("tag.price") == Tagged(-math.inf, math.inf, ('"l": tag price',), NUMBER)
    assert lens.value("tag.owner") == Words(None, ('"l": tag owner',))


def test_what_has_no_tags_of_its_own_has_none() -> None:
    line = order_lines(*lists('order\n  1 x "long lens"\n'))[0]
    assert line.value("tag.colour") == Words(None, ('order line "long lens": tag colour',))
    assert line.day is None


def lists(text: str) -> tuple[Setting, Tally]:
    kitlist = made(text)
    return setting(kitlist), Tally(kitlist)


def test_the_place_of_a_path_is_that_of_what_it_leads_to_as_far_as_it_leads() -> None:
    """From a line to its part, to the part's mass or the bar that belongs to it; a mass leads no further."""
    parts = 'part head "h"\n  mass 2 kg\n  pan bar "bar"\npart pan bar "bar"\n  mass 1 kg\n'
    kitlist = made('order\n  1 x "h"\n', parts=parts)
    line = order_lines(setting(kitlist), Tally(kitlist))[0]
    head, bar = kitlist.own_parts
    assert line.where() == line.where(("part",)) == kitlist.orders[0].lines[0].where
    assert line.where(("part", "mass")) == head.where_of("mass")
    assert line.where(("part", "mass", "more")) == head.where_of("mass")
    assert line.where(("part", "pan_bar")) == bar.where
    assert line.where(("part", "pan_bar", "mass")) == bar.where_of("mass")
    assert line.where(("part", "no_such_fact")) == head.where
    assert len({head.where_of("mass"), head.where, bar.where, bar.where_of("mass"), line.where()}) == 5


def test_a_subject_of_no_rig_or_part_lies_in_the_list_alone() -> None:
    bare = Subject(setting(made("")))
    assert (bare.home, bare.within, bare.gathers_by, bare.tags) == ("list", (), "list", {})
    for asked in (lambda: bare.label, lambda: bare.place("mass")):
        with pytest.raises(LookupError):
            asked()


def test_a_fact_that_nothing_could_change_does_not_hang_on_what_was_looked_at() -> None:
    """While many combinations are judged at once, what was looked at is kept with a fact, and counts each time."""
    watch = Watch()

    def blurred(thing: Any) -> Amount:
        watch.blurred.add(3)
        return Amount(1, 2)

    def settled(thing: Any) -> Amount:
        blurred(thing)
        return cast(Amount, thing.whatever(Amount(0, math.inf)))

    class Odd(Subject):
        about = "odd"

    facts = {
        name: Fact(name, "odd", number(MASS), "how heavy it is", compute)
        for name, compute in (("blurred", blurred), ("settled", settled))
    }
    odd = Odd(Setting(made(""), DAY, {}, {"odd": facts}, watch=watch))
    assert odd.amount("settled") == Amount(0, math.inf)
    assert watch.blurred == set()
    assert odd.amount("blurred") == Amount(1, 2)
    watch.blurred.clear()
    assert odd.amount("blurred") == Amount(1, 2)
    assert watch.blurred == {3}
    assert Odd(Setting(made(""), DAY, {}, {})).whatever(Amount(1, 2)) == Amount(1, 2)
