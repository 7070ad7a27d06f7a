"""Everything in a list that facts can be asked of."""

from __future__ import annotations

from collections.abc import Iterator

from kitproof.facts.build import combinations
from kitproof.facts.cases import cases, moves_of
from kitproof.facts.mating import joints
from kitproof.facts.orders import items, order_lines
from kitproof.facts.packing import packed_things
from kitproof.facts.part import PartSubject
from kitproof.facts.rig import RigSubject
from kitproof.facts.slips import SlipSubject, figures
from kitproof.facts.stages import stages
from kitproof.facts.subject import Subject
from kitproof.facts.tally import Tally
from kitproof.model.kitlist import KitList
from tests.model.texts import setting


def subjects_of(kitlist: KitList) -> Iterator[Subject]:
    """Everything in a list that a rule can be about, waivers left out: what they waive is known to a proof only."""
    shared = setting(kitlist)
    for rig in kitlist.rigs:
        for build in combinations(rig):
            subject = RigSubject(shared, build)
            yield from (subject, *joints(subject), *stages(subject))
    tally = Tally(kitlist)
    yield from (SlipSubject(shared, slip) for slip in kitlist.slips)
    yield from (PartSubject(shared, part) for part in kitlist.parts.values())
    for found in (figures(shared), packed_things(shared), cases(shared), moves_of(shared)):
        yield from found
    yield from (*order_lines(shared, tally), *items(shared, tally))
