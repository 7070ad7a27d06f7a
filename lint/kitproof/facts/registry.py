"""The registry of facts. Rules are written in these words; numbers, JSON and the reference are made from it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from kitproof.facts import (
    balance,
    cases,
    hanging,
    mass,
    mating,
    orders,
    packing,
    part,
    scope,
    slips,
    stages,
    standing,
    support,
    tilting,
)
from kitproof.facts.fact import Fact, HouseNumber, facts_in
from kitproof.facts.fields import part_fields
from kitproof.facts.rig import rig_fields

HOUSE_NUMBERS: Mapping[str, HouseNumber] = {
    each.name: each for each in (*support.HOUSE_NUMBERS, *standing.HOUSE_NUMBERS)
}
"""Limits declared beside the facts that use them; a house may set their values."""


def _register(facts: Iterable[Fact]) -> dict[str, dict[str, Fact]]:
    """Facts by subject and name. Two of one name about one subject are a mistake of ours, said at start-up."""
    table: dict[str, dict[str, Fact]] = {}
    for each in facts:
        names = table.setdefault(each.about, {})
        if each.name in names:
            raise ValueError(f"two facts are called {each.name} about {each.about}")
        names[each.name] = each
    return table


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
        orders,
        slips,
    )
    for module in modules:
        yield from facts_in(module)


FACTS: Mapping[str, Mapping[str, Fact]] = _register(_all())
"""Subject to name to fact."""
