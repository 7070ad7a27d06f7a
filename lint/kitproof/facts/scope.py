"""What lies outside this proof: a rig that is hung, driven, flown or craned, or that is over people.

A rig says so by `mounted on`. Words for it in a title, a note or a name are a sign and no more, so that they are doubt;
`mounted on ground` settles it.
"""

from __future__ import annotations

import re
from itertools import chain

from kitproof.facts.fact import fact
from kitproof.facts.hulls import of_each
from kitproof.facts.rig import RigSubject
from kitproof.facts.values import TRUTH, Truth, Verdict, Words, text
from kitproof.model.parts import Part

OUTSIDE = re.compile(
    r"(?<![\w-])(?:cranes?|jibs?|gimbals?|drones?|helicopters?|vehicles?|car mounts?|tracking cars?|cable ?cams?|"
    r"stabili[sz]ed heads?|hanging|overhead|inverted|over (?:people|the audience|the crowd)|moving dolly|dolly move)"
    r"(?![\w-])",
    re.IGNORECASE,
)


def _said(rig: RigSubject) -> str:
    """The first word of that sort in the list's title and notes, or the rig's name, notes and part names."""
    kitlist = rig.setting.kitlist
    names = (each.part.name for each in rig.build.standing if _speaks_of_it(each.part))
    for words in chain((kitlist.title, *kitlist.notes, rig.rig.name, *rig.rig.notes), names):
        found = OUTSIDE.search(words)
        if found:
            return found[0]
    return ""


@of_each
def _speaks_of_it(part: Part) -> bool:
    return OUTSIDE.search(part.name) is not None


@fact("outside", "rig", TRUTH, "whether it is mounted in a way that this proof does not cover")
def outside(rig: RigSubject) -> Verdict:
    if rig.rig.mounted_on and rig.rig.mounted_on != ("ground",):
        return Verdict(Truth.TRUE)
    if rig.rig.mounted_on:
        return Verdict(Truth.FALSE)
    if "mounted_on" in rig.rig.places:
        return Verdict(Truth.MISSING, (f"{rig.label}: what it is mounted on",))
    return Verdict(Truth.UNDECIDED if _said(rig) else Truth.FALSE)


@fact("mounting", "rig", text(), "what it is mounted on, or the word in the list that speaks of it", certain=True)
def mounting(rig: RigSubject) -> Words:
    said = [each for each in rig.rig.mounted_on if each != "ground"]
    return Words(said[0] if said else _said(rig))
