"""What a change of the build does to its numbers: the facts of a rig over all its combinations, and those of a case."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from msgspec import Struct

from kitproof.facts.boxes import count
from kitproof.facts.build import combinations
from kitproof.facts.packing import CaseSubject
from kitproof.facts.rig import RigSubject
from kitproof.facts.subject import Setting, Subject
from kitproof.facts.values import Amount, joined
from kitproof.model.kitlist import Case
from kitproof.model.rigs import Rig
from kitproof.words.dimensions import Dimension

OF_A_RIG = (
    "carried",
    "sticks_bear",
    "cog_up",
    "cog_forward",
    "cog_left",
    "load_share",
    "legs_share",
    "slide_needed",
    "slide_spare",
    "counterbalance_needed",
    "counterbalance_share",
    "torque_left",
    "tip_angle_level",
    "tip_angle_tilted",
    "overturn_share",
    "ballast_needed",
    "lens_torque",
    "draw",
    "energy",
    "runtime",
    "batteries_needed",
)
OF_A_CASE = ("case_mass", "case_spare")
NEAR = 1e-9
MANY = 256
"""Of rigs with more combinations the ends are looked for, and not found by working out each."""


class Moved(Struct, frozen=True):
    """A fact that is another number now. None is a number that is not there: a rig that is new, a head that is gone."""

    name: str
    dimension: Dimension
    was: Amount | None
    now: Amount | None


def of_rig(setting: Setting, rig: Rig | None) -> dict[str, Amount]:
    """The facts of a rig, each from the least to the most over all its combinations; nothing for no rig."""
    if rig is not None and count(rig) > MANY:
        from kitproof.proofing.spans import spans  # most rigs have few combinations

        return spans(setting, rig, OF_A_RIG)
    builds = [] if rig is None else [RigSubject(setting, build) for build in combinations(rig)]
    return _over(builds, OF_A_RIG)


def of_case(setting: Setting, case: Case | None) -> dict[str, Amount]:
    """The facts of a case; nothing for no case."""
    return _over([] if case is None else [CaseSubject(setting, case)], OF_A_CASE)


def _over(subjects: Sequence[Subject], names: Iterable[str]) -> dict[str, Amount]:
    found = {}
    for name in names:
        values = [value for value in (each.value(name) for each in subjects) if isinstance(value, Amount)]
        if values:
            low, high = min(each.low for each in values), max(each.high for each in values)
            found[name] = Amount(low, high, joined(*(each.missing for each in values)))
    return found


def moved(setting: Setting, about: str, was: dict[str, Amount], now: dict[str, Amount]) -> tuple[Moved, ...]:
    """The numbers that are not what they were, in the order of their names above."""
    found = []
    for name in (*OF_A_RIG, *OF_A_CASE):
        before, after = was.get(name), now.get(name)
        dimension = setting.facts[about][name].type.dimension if name in setting.facts[about] else None
        if dimension is not None and not _same(before, after):
            found.append(Moved(name, dimension, before, after))
    return tuple(found)


def _same(one: Amount | None, other: Amount | None) -> bool:
    if one is None or other is None:
        return one is other
    return _near(one.low, other.low) and _near(one.high, other.high) and bool(one.missing) == bool(other.missing)


def _near(one: float, other: float) -> bool:
    return one == other or abs(one - other) <= NEAR * max(1.0, abs(one), abs(other))
