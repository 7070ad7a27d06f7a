"""The facts of every rig of a list, combination by combination."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from kitproof.facts.build import combinations
from kitproof.facts.fact import Fact
from kitproof.facts.rig import RigSubject
from kitproof.facts.subject import Setting
from kitproof.facts.values import Amount, Words
from kitproof.model.rigs import Rig
from kitproof.words.dimensions import Dimension

Numbers = Mapping[str, tuple[Amount | Words, Dimension | None]]


@dataclass(frozen=True, slots=True)
class CombinationNumbers:
    """The facts of one combination by name, each with its dimension (None for a word)."""

    choice: Mapping[str, str]
    facts: Numbers


@dataclass(frozen=True, slots=True)
class RigNumbers:
    name: str
    path: str
    combinations: tuple[CombinationNumbers, ...]


def computed(setting: Setting) -> list[Fact]:
    """The facts of a rig that are worked out: those with a source, in the order of the registry."""
    return [each for each in setting.facts["rig"].values() if each.source]


def numbers(setting: Setting, rig: Rig) -> RigNumbers:
    """Every worked-out fact of a rig for each of its combinations."""
    wanted = computed(setting)
    found = []
    for build in combinations(rig):
        subject = RigSubject(setting, build)
        facts: dict[str, tuple[Amount | Words, Dimension | None]] = {}
        for each in wanted:
            value = subject.value(each.name)
            if isinstance(value, Amount | Words):
                facts[each.name] = (value, each.type.dimension)
        found.append(CombinationNumbers(dict(build.choice), facts))
    return RigNumbers(rig.name, setting.kitlist.path, tuple(found))
