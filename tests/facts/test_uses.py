"""What facts say that they are worked out from, held to what they are seen to read: an input is changed in the data of
a rig of which every such fact is known, part by part, and the facts that change with it are those that name it."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import cache

import pytest
from msgspec.structs import replace

from kitproof.facts.build import Build, combinations
from kitproof.facts.registry import FACTS
from kitproof.facts.rig import RigSubject
from kitproof.facts.uses import INPUTS, USES
from kitproof.model.kitlist import KitList
from kitproof.model.parts import Part, Point
from kitproof.model.quantities import Interval, Reach, Spot
from kitproof.model.rigs import Rig
from kitproof.words.dimensions import TEMPERATURE
from tests.house.repository import ROOT
from tests.model.texts import setting
from tests.proofing.lists import read

SAMPLE = ROOT / "samples"
RIG = USES["rig"]


NOTHING_HERE = {"ballast_needed", "counterbalance_over", "counterbalance_short", "levelled_share", "cog_left"}
"""What is nothing for the rig below, and may stay so when an input changes."""


@cache
def whole() -> tuple[KitList, Build]:
    """A rig that has all: a list, and the first combination of its first rig."""
    (path,) = SAMPLE.rglob("nine-bells-mended.kitlist")
    kitlist = read(path)
    return kitlist, next(combinations(kitlist.rigs[0]))


def values(build: Build) -> dict[str, object]:
    rig = RigSubject(setting(whole()[0]), build)
    return {name: rig.value(name) for name in RIG}


def more(of: Interval | None, by: float = 1.2) -> Interval | None:
    return None if of is None else replace(of, low=of.low * by, high=of.high * by)


def wider(of: Reach | None) -> Reach | None:
    return None if of is None else replace(of, low=of.low * 0.9, high=of.high * 1.1)


def points(of: tuple[Point, ...]) -> tuple[Point, ...]:
    return tuple(replace(each, value=more(each.value, 0.8), at=more(each.at)) for each in of)


def heavier(part: Part) -> Part:
    return replace(part, mass=more(part.mass))


def moved(part: Part) -> Part:
    aside = Spot(forward=(0.011, 0.011), up=(0.013, 0.013), left=(0.007, 0.007))
    return replace(part, cog=(part.cog or Spot()).plus(aside))


CHANGES: dict[str, Callable[[Part], Part]] = {
    "masses": heavier,
    "places": moved,
    "figures": lambda part: replace(part, chart=points(part.chart)),
    "ratings": lambda part: replace(part, rated=points(part.rated)),
    "springs": lambda part: (
        replace(part, counterbalance=replace(part.counterbalance, reach=wider(part.counterbalance.reach)))
        if part.counterbalance
        else part
    ),
    "feet": lambda part: replace(part, feet=points(part.feet)),
    "mount": lambda part: replace(part, lens_moment=more(part.lens_moment)),
    "powers": lambda part: (
        replace(part, draws=replace(part.draws, usual=more(part.draws.usual), most=more(part.draws.most)))
        if part.draws
        else part
    ),
    "cells": lambda part: replace(
        part, energy=more(part.energy), voltage=more(part.voltage), delivers=more(part.delivers)
    ),
    "window": lambda part: replace(part, power=wider(part.power)),
}
"""How each input is changed in a part that has it."""


def changed(name: str) -> Iterator[Build]:
    """Builds with an input changed in one part each."""
    build = whole()[1]
    for number, standing in enumerate(build.standing):
        other = CHANGES[name](standing.part)
        if other != standing.part:
            rest = list(build.standing)
            rest[number] = replace(standing, part=other)
            yield replace(build, standing=tuple(rest))


def with_rig(rig: Rig) -> Build:
    return replace(whole()[1], rig=rig)


def in_the_rig(name: str) -> Iterator[Build]:
    """Builds with a condition of the rig changed."""
    rig = whole()[1].rig
    if name == "wind":
        yield with_rig(replace(rig, site=replace(rig.site, wind=more(rig.site.wind))))
    if name == "cold":
        yield with_rig(replace(rig, site=replace(rig.site, site_temperature=Reach(253.0, 258.0, TEMPERATURE))))


def rests_on(name: str) -> set[str]:
    """All inputs of a fact, by way of other facts too."""
    found = set()
    for each in RIG.get(name, ()):
        found |= rests_on(each) if each in RIG else {each}
    return found


@pytest.mark.parametrize("name", [*CHANGES, "wind", "cold"])
def test_the_facts_that_change_with_an_input_are_those_that_name_it(name: str) -> None:
    assert name in INPUTS
    before = values(whole()[1])
    builds = list(changed(name) if name in CHANGES else in_the_rig(name))
    assert builds, "something is changed"
    found = {fact for build in builds for fact, value in values(build).items() if value != before[fact]}
    named = {fact for fact in RIG if name in rests_on(fact)}
    assert found <= named, "no fact reads what it does not name"
    assert named - found <= NOTHING_HERE


def test_every_fact_of_the_table_is_known_of_the_rig() -> None:
    for name, value in values(whole()[1]).items():
        assert value is not None, name
        assert not getattr(value, "missing", ()), name
        assert FACTS["rig"][name].uses == RIG[name]
