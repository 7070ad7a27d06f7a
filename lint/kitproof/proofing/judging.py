"""Every rule on every subject it is about, and for rigs over every combination: one hit for each rule and subject."""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Iterator, Sequence

from kitproof.facts.boxes import count
from kitproof.facts.build import picked
from kitproof.facts.cases import cases, moves_of
from kitproof.facts.mating import joints
from kitproof.facts.namesakes import namesakes
from kitproof.facts.orders import items, order_lines
from kitproof.facts.packing import packed_things
from kitproof.facts.part import PartSubject
from kitproof.facts.rig import RigSubject
from kitproof.facts.slips import SlipSubject, figures
from kitproof.facts.stages import stages
from kitproof.facts.subject import Setting, Subject
from kitproof.facts.tally import Tally
from kitproof.model.parts import Part
from kitproof.model.rigs import Rig
from kitproof.proofing.hits import RULE, Choices, Hit
from kitproof.proofing.laps import Lap, no_lap
from kitproof.rulebook.compile import Env
from kitproof.rulebook.rules import RuleBook

FEW = 64
"""Up to so many combinations of a rig are judged one by one: that takes less time than to look at them in boxes."""


class Hits:
    """Hits by rule and subject, in the order first met."""

    def __init__(self, book: RuleBook, setting: Setting, lap: Lap = no_lap) -> None:
        self.book = book
        self.setting = setting
        self.lap = lap
        self.env = Env(setting.day)
        self.found: dict[Hashable, Hit] = {}

    def judge(self, thing: Subject, key: Hashable, choices: Choices | None = None) -> list[Hit]:
        """Every rule about a subject; the same key is the same subject in another combination, of those `choices`."""
        touched = []
        for rule in self.book.about(thing.about):
            for env in rule.envs(thing, self.env):
                points = tuple(each.where() for each in env.variables.values())
                hit = self.found.setdefault((rule.name, key, points), Hit(rule))
                hit.add(thing, env, choices)
                touched.append(hit)
            self.lap(f"{RULE} {rule.name}")
        return touched


def judged(setting: Setting, book: RuleBook, lap: Lap = no_lap) -> list[Hit]:
    """All hits of a list but those of its waivers."""
    of_rigs = [hit for rig in setting.kitlist.rigs for hit in judged_rig(setting, book, rig, lap)]
    return [*of_rigs, *judged_plain(setting, book, lap)]


def judged_plain(setting: Setting, book: RuleBook, lap: Lap = no_lap) -> list[Hit]:
    """The hits of all that is the same in every combination."""
    hits = Hits(book, setting, lap)
    for number, thing in enumerate(_plain_subjects(setting)):
        hits.judge(thing, (thing.about, number))
    return list(hits.found.values())


def judged_rig(setting: Setting, book: RuleBook, rig: Rig, lap: Lap = no_lap) -> list[Hit]:
    """The hits of a rig and its joints in every combination. A joint that only some have is still so many of all.

    Many combinations are not judged one by one: there, what has nothing to say and applies nowhere is left out.
    """
    if count(rig) <= FEW:
        return judged_singly(setting, book, rig, lap)
    from kitproof.proofing.combining import judged_in_boxes  # most rigs have few combinations

    return judged_in_boxes(setting, book, rig, lap)


def judged_singly(setting: Setting, book: RuleBook, rig: Rig, lap: Lap = no_lap) -> list[Hit]:
    """The same, by judging every combination."""
    hits = Hits(book, setting, lap)
    of = 0
    mine: list[Hit] = []
    for picks, build in picked(rig):
        of += 1
        choices = tuple((pick,) if pick >= 0 else () for pick in picks)
        subject = RigSubject(hits.setting, build)
        hits.judge(subject, ("rig", rig.name), choices)
        for joint in joints(subject):
            mine += hits.judge(joint, ("joint", rig.name, joint.upper.where, joint.lower.where), choices)
        if hits.book.about("stage"):
            for stage in stages(subject):
                mine += hits.judge(stage, ("stage", rig.name, stage.after.where), choices)
    for hit in mine:
        hit.of = of
    return list(hits.found.values())


def _plain_subjects(setting: Setting) -> Iterator[Subject]:
    """Every subject that is the same in all combinations."""
    tally = Tally(setting.kitlist)
    yield from (SlipSubject(setting, slip) for slip in (*setting.kitlist.slips, *namesakes(setting)))
    yield from figures(setting)
    yield from (PartSubject(setting, part) for part in parts_in_use(setting))
    yield from packed_things(setting)
    yield from cases(setting)
    yield from moves_of(setting)
    yield from order_lines(setting, tally)
    yield from items(setting, tally)


def parts_in_use(setting: Setting) -> Sequence[Part]:
    """The parts that this list defines, and those of its books that it names, each once."""
    kitlist = setting.kitlist
    named: Iterable[Part] = (
        *kitlist.own_parts,
        *(o.part for rig in kitlist.rigs for line in rig.lines for o in line.options if o.part),
        *(line.part for order in kitlist.orders for line in order.lines),
        *(packed.part for case in kitlist.cases for packed in case.holds if packed.part),
    )
    return list({part.where: part for part in named if part.described}.values())
