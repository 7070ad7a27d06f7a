"""Hits put into findings: the worst case of each in words, with its numbers, its places and what to do."""

from __future__ import annotations

from collections.abc import Hashable, Mapping, Sequence
from typing import Generic

from msgspec import Struct
from msgspec.structs import replace

from kitproof.facts.mating import JointSubject
from kitproof.facts.registry import FACTS
from kitproof.facts.rig import RigSubject
from kitproof.facts.slips import SlipSubject
from kitproof.facts.stages import StageSubject
from kitproof.facts.subject import Subject
from kitproof.facts.values import Amount, Held
from kitproof.model.kitlist import KitList
from kitproof.proofing.clearing import cleared
from kitproof.proofing.covering import Each, Found
from kitproof.proofing.findings import Combinations, Finding, Fix
from kitproof.proofing.hits import Hit
from kitproof.rulebook.compile import Env
from kitproof.rulebook.explain import fixes_in_words
from kitproof.rulebook.messages import Units, message
from kitproof.rulebook.rules import Rule
from kitproof.words.dimensions import Dimension


class Said(Struct, Generic[Each], frozen=True):
    """What hits come to: findings, and how many judgements were made and how many could not be."""

    found: tuple[Each, ...]
    judged: int
    not_judged: int


def said(hits: Sequence[Hit], kitlist: KitList, units: Units) -> Said[Found]:
    """Hits as findings. Where all on a subject are quiet none will ever be shown, and none is put into words."""
    bare = [_bare(hit, kitlist) for hit in hits if hit.outcome is not None]
    shown = {found.subject for _, found in bare if not found.finding.quiet}
    found = tuple(_in_words(hit, found, units) if found.subject in shown else found for hit, found in bare)
    counted = [hit for hit in hits if hit.applied and hit.rule.about != "slip"]
    not_judged = sum(hit.outcome == "cannot tell" for hit in counted)
    return Said(found, len(counted) - not_judged, not_judged)


def _bare(hit: Hit, kitlist: KitList) -> tuple[Hit, Found]:
    """A hit as a finding that has no words yet, by its worst case."""
    outcome = hit.outcome
    assert outcome is not None
    _, thing, env = hit.worst[outcome]
    rule = hit.rule
    finding = Finding(
        rule=rule.name,
        grade=rule.grade,
        outcome=outcome,
        title="",
        path=kitlist.path,
        issue=kitlist.issue,
        subject=thing.home,
        where=rule.place(thing, env),
        says="",
        because="",
        missing=hit.missing if outcome == "cannot tell" else (),
        quiet=rule.is_quiet(outcome, thing, env),
        within=thing.within,
        thing=str(thing.gathers_by) if isinstance(thing, SlipSubject) else thing.label,
        key=kitlist.key,
    )
    return hit, Found(finding, rule, _key(thing), thing.gathers_by, thing, env)


def _in_words(hit: Hit, found: Found, units: Units) -> Found:
    """The same with all that a person reads of it."""
    rule, thing, env = found.rule, found.thing, found.env
    words = rule.says if hit.outcome == "fails" or rule.doubt is None else rule.doubt
    finding = replace(
        found.finding,
        title=message(rule.title, thing, env, units),
        says=message(words, thing, env, units),
        because=message(rule.because, thing, env, units),
        see=rule.related(thing, env),
        caution=" ".join(message(each, thing, env, units) for each in rule.caution),
        combinations=_combinations(hit, thing),
        facts=_facts(rule, thing),
        fixes=_fixes(rule, thing, env, units),
    )
    return replace(found, finding=finding)


def _key(thing: Subject) -> Hashable:
    return (thing.about, thing.label, thing.where())


def _combinations(hit: Hit, thing: Subject) -> Combinations | None:
    """For a rig or a joint of one: in how many combinations it is so, of how many there are."""
    rig = thing if isinstance(thing, RigSubject) else None
    if isinstance(thing, JointSubject | StageSubject):
        rig = thing.rig
    if rig is None or hit.outcome is None:
        return None
    failing = hit.counts[hit.outcome]
    clear = cleared(rig.rig, hit.choices[hit.outcome]) if failing < hit.of else None
    return Combinations(failing, hit.of, dict(rig.build.choice), clear)


def _facts(rule: Rule, thing: Subject) -> Mapping[str, tuple[Amount, Dimension]]:
    """The numbers that the rule rests on."""
    found: dict[str, tuple[Amount, Dimension]] = {}
    for name, _ in rule.terms:
        registered = FACTS[thing.about].get(name)
        if registered is None or registered.type.dimension is None:
            continue
        value: Held = thing.value(name)
        if isinstance(value, Amount):
            found[name] = (value, registered.type.dimension)
    return found


def _fixes(rule: Rule, thing: Subject, env: Env, units: Units) -> tuple[Fix, ...]:
    """The fixes in words; none is proved yet."""
    return tuple(Fix(says) for says, _ in fixes_in_words(rule, thing, env, units))
