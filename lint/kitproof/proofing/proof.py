"""A list proofed: hits made into findings, covered, gathered, waived and put in order."""

from __future__ import annotations

from collections.abc import Hashable, Mapping, Sequence
from datetime import date

from msgspec import Struct
from msgspec.structs import replace

from kitproof.facts.mating import JointSubject
from kitproof.facts.registry import FACTS
from kitproof.facts.rig import RigSubject
from kitproof.facts.slips import SlipSubject
from kitproof.facts.stages import StageSubject
from kitproof.facts.subject import Setting, Subject
from kitproof.facts.values import Amount, Held
from kitproof.model.kitlist import KitList
from kitproof.model.promises import Promised
from kitproof.proofing.asked import asked_on_purpose
from kitproof.proofing.covering import Found, covered, gathered
from kitproof.proofing.findings import Combinations, Finding, Fix, Proof, marked, place_in_order
from kitproof.proofing.judging import Hit, Hits, judged
from kitproof.proofing.laps import Lap, no_lap
from kitproof.proofing.waiving import waived, waiver_subjects
from kitproof.rulebook.compile import Env
from kitproof.rulebook.explain import fixes_in_words
from kitproof.rulebook.messages import DEFAULT_UNITS, Units, message
from kitproof.rulebook.rules import Rule, RuleBook
from kitproof.words.dimensions import Dimension
from kitproof.words.units import UNITS


def setting_of(kitlist: KitList, book: RuleBook, day: date, others: tuple[Promised, ...] = ()) -> Setting:
    """What every subject of a proof shares."""
    return Setting(kitlist, day, book.numbers, FACTS, others)


def proof(kitlist: KitList, book: RuleBook, day: date, others: tuple[Promised, ...] = (), lap: Lap = no_lap) -> Proof:
    """Every rule of a book on a list. `day` decides waivers and dated limits. Never raises for what a list says.

    `others` is what the lists that are proofed with it promise of the same stock: see `facts.promises.beside`.
    `lap` is told what has been done, each time a rule or the findings are.
    """
    setting = setting_of(kitlist, book, day, others)
    found = examined_by(setting, book, judged(setting, book, lap)).proof
    lap("findings")
    return found


class Examined(Struct, frozen=True):
    """A proof with what each of its findings was found on, by fingerprint."""

    proof: Proof
    found: Mapping[str, Found]


def examined(kitlist: KitList, book: RuleBook, day: date, others: tuple[Promised, ...] = ()) -> Examined:
    """A proof, for whoever goes on from its findings to what they are about."""
    setting = setting_of(kitlist, book, day, others)
    return examined_by(setting, book, judged(setting, book))


def examined_by(setting: Setting, book: RuleBook, hits: Sequence[Hit]) -> Examined:
    """The proof that hits come to: all of a list but those of its waivers."""
    kitlist = setting.kitlist
    units = units_of(kitlist, book)
    # Waivers first: one that accepts a small fault must not take with it what that fault would have kept under `also`.
    alone = waived(_all_found(hits, kitlist, units), setting, book)
    found = gathered(covered(alone))
    own = Hits(book, setting)
    for number, subject in enumerate(waiver_subjects(alone, setting, book)):
        own.judge(subject, number)
    last = list(own.found.values())
    found += covered(_all_found(last, kitlist, units))
    counted = [hit for hit in (*hits, *last) if hit.applied and hit.rule.about != "slip"]
    not_judged = sum(hit.outcome == "cannot tell" for hit in counted)
    asked = asked_on_purpose(kitlist)
    weighed = [replace(each, finding=_weighed(each.finding, book, asked)) for each in found if not each.finding.quiet]
    shown = sorted(weighed, key=lambda each: place_in_order(each.finding))
    findings = marked([each.finding for each in shown])
    made = Proof(findings, len(counted) - not_judged, not_judged, not_read(kitlist))
    return Examined(made, {finding.fingerprint: each for finding, each in zip(findings, shown, strict=True)})


def _weighed(finding: Finding, book: RuleBook, asked: frozenset[str]) -> Finding:
    """A finding that knows whether it counts: not when waived; `cannot tell` only at the grades the house names, and
    where what is missing was written as `?`."""
    told = finding.outcome != "cannot tell" or finding.counts_as in book.cannot_tell_counts
    told = told or not asked.isdisjoint(finding.missing)
    return replace(finding, counts=told and finding.waived is None)


def units_of(kitlist: KitList, book: RuleBook) -> Units:
    """The units that a list asks for, else its house, those of one dimension in order; else the usual ones."""
    asked: dict[Dimension, list[str]] = {}
    for name in kitlist.units or book.units:
        if name in UNITS:
            asked.setdefault(UNITS[name].dimension, []).append(name)
    return {**DEFAULT_UNITS, **{dimension: tuple(names) for dimension, names in asked.items()}}


def not_read(kitlist: KitList) -> int:
    """Lines that could not be read, or whose value could not."""
    lines: set[tuple[str, int]] = set()
    for document in kitlist.documents:
        lines.update((document.path, line) for line, _ in document.slips)
        for entry in document.entries:
            lines.update((document.path, entry.line + row) for row in entry.unread)
            lines.update((document.path, entry.line + each.row) for each in entry.fields if each.value is None)
    return len(lines)


def _all_found(hits: Sequence[Hit], kitlist: KitList, units: Units) -> list[Found]:
    """Hits as findings. Where all on a subject are quiet none will ever be shown, and none is put into words."""
    bare = [_bare(hit, kitlist) for hit in hits if hit.outcome is not None]
    shown = {found.subject for _, found in bare if not found.finding.quiet}
    return [_in_words(hit, found, units) if found.subject in shown else found for hit, found in bare]


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
    return hit, Found(finding, rule, _key(thing), thing, env, thing.gathers_by)


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
    return Combinations(hit.counts[hit.outcome], hit.of, dict(rig.build.choice))


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
