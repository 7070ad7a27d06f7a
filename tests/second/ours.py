"""The first implementation, reached as the command reaches it: files → gather → make_list → facts."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from kitproof.facts.build import combinations
from kitproof.facts.registry import FACTS, HOUSE_NUMBERS
from kitproof.facts.rig import RigSubject
from kitproof.facts.subject import Setting
from kitproof.model.kitlist import KitList
from kitproof.model.making import make_list
from kitproof.model.sources import Fetched, gather
from tests.second.described import Kit
from tests.second.typed import typed

DAY = date(2027, 3, 1)


def read(kit: Kit) -> KitList:
    texts = typed(kit)

    def fetch(using: str, wanted: str) -> Fetched:
        return Fetched(wanted, wanted, texts[wanted].encode())

    return make_list(gather("list.kitlist", "list.kitlist", texts["list.kitlist"].encode(), fetch))


def setting_of(kitlist: KitList) -> Setting:
    return Setting(kitlist, DAY, {name: each.value for name, each in HOUSE_NUMBERS.items()}, FACTS)


def rigs(setting: Setting) -> Mapping[str, list[RigSubject]]:
    """Every combination of every rig, by the rig's name."""
    return {rig.name: [RigSubject(setting, build) for build in combinations(rig)] for rig in setting.kitlist.rigs}


def key(subject: RigSubject) -> tuple[tuple[int, str], ...]:
    """A combination by the lines of the rig that have a part in it, with the part's name, in order."""
    lines = [id(line) for line in subject.rig.lines]
    return tuple((lines.index(id(each.line)), each.part.name) for each in subject.build.standing)
