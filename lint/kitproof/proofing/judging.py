"""Every rule on every subject it is about, and for rigs over every combination: one hit for each rule and subject."""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Iterator, Sequence

from msgspec import Struct, field

from kitproof.facts.build import combinations
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
from kitproof.facts.values import Amount, Truth, joined
from kitproof.model.parts import Part
from kitproof.model.rigs import Rig
from kitproof.proofing.findings import OUTCOMES, Outcome
from kitproof.proofing.laps import Lap, no_lap
from kitproof.rulebook.compile import Env
from kitproof.rulebook.rules import Rule, RuleBook

RULE = "judging"
"""What a lap of one rule is called, before its name."""


class Hit(Struct):
    """What one rule comes to for one subject so far: how often each outcome was met, and the worst case of each."""

    rule: Rule
    of: int = 0
    counts: dict[Outcome, int] = field(default_factory=dict)
    worst: dict[Outcome, tuple[tuple[float, float], Subject, Env]] = field(default_factory=dict)
    missing: tuple[str, ...] = ()
    applied: bool = False

    @property
    def outcome(self) -> Outcome | None:
        """The strongest outcome met; None where there is nothing to say."""
        return next((each for each in OUTCOMES if each in self.counts), None)

    def add(self, thing: Subject, env: Env) -> None:
        """Judges one more combination."""
        judgement = self.rule.judge(thing, env)
        self.of += 1
        if judgement.given.truth is not Truth.FALSE:
            self.applied = True
        outcome = next((each for each in OUTCOMES if each == judgement.outcome), None)
        if outcome is None:
            return
        if outcome == "cannot tell":
            self.missing = joined(self.missing, judgement.verdict.missing)
        self.counts[outcome] = self.counts.get(outcome, 0) + 1
        bad = _how_bad(self.rule, thing, env)
        if outcome not in self.worst or bad > self.worst[outcome][0]:
            self.worst[outcome] = (bad, thing, env)


def _how_bad(rule: Rule, thing: Subject, env: Env) -> tuple[float, float]:
    worst = rule.how_bad(thing, env)
    return (worst.low, worst.high) if isinstance(worst, Amount) else (0.0, 0.0)


class Hits:
    """Hits by rule and subject, in the order first met."""

    def __init__(self, book: RuleBook, setting: Setting, lap: Lap = no_lap) -> None:
        self.book = book
        self.setting = setting
        self.lap = lap
        self.env = Env(setting.day)
        self.found: dict[Hashable, Hit] = {}

    def judge(self, thing: Subject, key: Hashable) -> list[Hit]:
        """Every rule about a subject; the same key is the same subject in another combination."""
        touched = []
        for rule in self.book.about(thing.about):
            for env in rule.envs(thing, self.env):
                points = tuple(each.where() for each in env.variables.values())
                hit = self.found.setdefault((rule.name, key, points), Hit(rule))
                hit.add(thing, env)
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
    """The hits of a rig and its joints in every combination. A joint that only some have is still so many of all."""
    hits = Hits(book, setting, lap)
    of = 0
    mine: list[Hit] = []
    for build in combinations(rig):
        of += 1
        subject = RigSubject(hits.setting, build)
        hits.judge(subject, ("rig", rig.name))
        for joint in joints(subject):
            mine += hits.judge(joint, ("joint", rig.name, joint.upper.where, joint.lower.where))
        if hits.book.about("stage"):
            for stage in stages(subject):
                mine += hits.judge(stage, ("stage", rig.name, stage.after.where))
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
