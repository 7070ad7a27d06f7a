"""The registry of facts. Rules are written in these words; numbers, JSON and the reference are made from it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from msgspec.structs import replace

from kitproof.facts import (
    air,
    balance,
    case_loads,
    cases,
    chargers,
    companions,
    hanging,
    mass,
    mating,
    orders,
    packing,
    part,
    power,
    scope,
    slips,
    stages,
    standing,
    stowing,
    support,
    tilting,
)
from kitproof.facts.fact import Fact, HouseNumber, facts_in
from kitproof.facts.fields import kind_fields, part_fields
from kitproof.facts.rig import rig_fields
from kitproof.facts.uses import NEVER_BELOW_NOTHING, USES
from kitproof.words.dimensions import AREA, ENERGY, MASS, POWER

HOUSE_NUMBERS: Mapping[str, HouseNumber] = {
    each.name: each for each in (*support.HOUSE_NUMBERS, *standing.HOUSE_NUMBERS, *power.HOUSE_NUMBERS)
}
"""Limits declared beside the facts that use them; a house may set their values."""


def register(facts: Iterable[Fact]) -> dict[str, dict[str, Fact]]:
    """Facts by subject and name; what a stage has in common with a rig is worked out alike.

    Two of one name about one subject are a mistake of ours, said at start-up.
    """
    table: dict[str, dict[str, Fact]] = {}
    for each in facts:
        names = table.setdefault(each.about, {})
        if each.name in names:
            raise ValueError(f"two facts are called {each.name} about {each.about}")
        names[each.name] = _with_uses(each)
    for name, each in table["stage"].items():
        if not each.formula and name in table["rig"]:
            table["stage"][name] = replace(each, formula=table["rig"][name].formula, source=table["rig"][name].source)
    return table


def _with_uses(of: Fact) -> Fact:
    """A fact with what it rests on, and what it never falls below."""
    uses = USES.get(of.about, {}).get(of.name)
    never = of.about == "rig" and of.name in NEVER_BELOW_NOTHING
    never = never or (of.about in ("part", "point", "figure") and of.type.dimension in (MASS, ENERGY, POWER, AREA))
    return replace(of, uses=uses, least=max(of.least, 0.0) if never else of.least)


def _all() -> Iterable[Fact]:
    yield from rig_fields()
    yield from part_fields().values()
    yield from stages.stage_fields()
    modules = (
        part,
        mass,
        support,
        balance,
        tilting,
        stages,
        standing,
        hanging,
        scope,
        mating,
        packing,
        cases,
        case_loads,
        air,
        power,
        chargers,
        stowing,
        orders,
        companions,
        slips,
    )
    for module in modules:
        yield from facts_in(module)


FACTS: Mapping[str, Mapping[str, Fact]] = {**register(_all()), **kind_fields()}
"""Subject to name to fact; `part lens` holds what a field of a lens is where it differs from other kinds."""
