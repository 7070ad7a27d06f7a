"""Fixes proved: the list is changed, proofed again, and the two proofs are held against each other.

A fix is proved where the finding is gone and nothing of the same or a higher grade has come.
"""

from __future__ import annotations

from collections import Counter

from msgspec import Struct
from msgspec.structs import replace

from kitproof.facts.boxes import count
from kitproof.facts.build import combinations
from kitproof.facts.mating import JointSubject, joints
from kitproof.facts.rig import RigSubject
from kitproof.facts.stages import StageSubject, stages
from kitproof.facts.subject import Subject
from kitproof.facts.values import Amount, Truth
from kitproof.facts.wordings import ASKED_TO_BE
from kitproof.mending.ground import Ground
from kitproof.mending.offers import offers
from kitproof.mending.supply import ways
from kitproof.proofing.covering import Found
from kitproof.proofing.findings import OUTCOMES, Finding, Fix, Proof
from kitproof.rulebook.compile import Env, amount
from kitproof.rulebook.explain import fixes_in_words
from kitproof.rulebook.messages import amount_text, prints_as_share, shares_in
from kitproof.rulebook.rules import Action
from kitproof.rulebook.settings import GRADES
from kitproof.rulebook.typed import CompareNumbers, Read
from kitproof.words.units import UNITS

MANY = 1_000
"""Rigs with more combinations than this are not looked through before the whole proof."""

NOTE = GRADES.index("note")
NOTHING_CAME = len(GRADES)
"""Graver than this nothing can be: the place in `GRADES` of what came where nothing did."""


class Proved(Struct, frozen=True):
    """A proved fix, and the list as it is with it."""

    fix: Fix
    after: Ground


def with_proved_fixes(ground: Ground) -> Proof:
    """The proof of a list with every fix that can be proved made known as such, and as changes to its text."""
    proof, found = ground.examined.proof, ground.examined.found
    findings = (with_fixes(ground, each, found[each.fingerprint]) for each in proof.findings)
    return replace(proof, findings=tuple(findings))


def with_fixes(ground: Ground, finding: Finding, found: Found) -> Finding:
    """A finding whose fixes are proved where they can be; the others stay advice.

    Where it cannot be told, somebody has to look: nothing is written down as if that were done.
    """
    if finding.outcome == "cannot tell":
        return finding
    tried = [proved_by(ground, finding, found, action) for action in found.rule.fixes]
    proved = {number: each.fix for number, each in enumerate(tried) if each is not None}
    by_words = {fix.says: fix for fix in proved.values()}
    words = {number: fix.says for number, fix in proved.items()}
    said = fixes_in_words(found.rule, found.thing, found.env, ground.units, words)
    return replace(finding, fixes=tuple(by_words[says] if sure else Fix(says) for says, sure in said))


def proved_by(ground: Ground, finding: Finding, found: Found, action: Action) -> Proved | None:
    """The first change by one action that brings nothing but notes; else, of those that are proved, the first of those
    that bring the least grave."""
    best: Proved | None = None
    worth = GRADES.index(finding.grade) + 1
    for offer in offers(ground, found, action):
        after = ground.changed(offer.changes)
        if after is None or not _serves(after, found, action):
            continue
        for more in ways(ground, after, offer):
            changes = (*offer.changes, *more)
            whole = ground.changed(changes)
            came = -1 if whole is None else _what_came(ground, finding, whole, worth)
            if whole is not None and came >= worth:
                best = Proved(Fix(f"{offer.says}{_shown(after, found, action)}.", True, changes), whole)
                worth = came + 1
            if came >= NOTE:
                return best
    return best


def _what_came(ground: Ground, finding: Finding, after: Ground, worth: int) -> int:
    """How grave is what a change brings, as a place in `GRADES`; -1 where the finding is still there."""
    came = graveness_of_what_came(finding, ground.examined.proof, after.looks.first.proof)
    if came is not None and came >= worth:
        came = graveness_of_what_came(finding, ground.examined.proof, after.examined.proof)
    return -1 if came is None else came


def graveness_of_what_came(finding: Finding, before: Proof, after: Proof) -> int | None:
    """The place in `GRADES` of the gravest that has come; None where the finding itself is still there.

    What is found is told by its rule and its subject, and by how many there are of it: a fault that stays while a part
    is exchanged is not a new one. One that was in doubt and is now certain has come as well.
    """
    was, now = _counted(before), _counted(after)
    still = any(each.fingerprint == finding.fingerprint for each in after.findings)
    if still or _many(now, finding) >= _many(was, finding):
        return None
    return min((GRADES.index(grade) for *_, grade in now - was), default=NOTHING_CAME)


_Kind = tuple[str, str, str, str]
"""Rule, subject, outcome or a stronger one, and the rule's grade."""


def _counted(proof: Proof) -> Counter[_Kind]:
    """How many findings there are of each kind, those kept under another too; what is waived or quiet left out."""
    shown = [each for top in proof.findings if top.waived is None for each in (top, *top.also) if not each.quiet]
    return Counter(
        (each.rule, each.subject, outcome, each.grade)
        for each in shown
        for outcome in OUTCOMES[OUTCOMES.index(each.outcome) :]
    )


def _many(counted: Counter[_Kind], finding: Finding) -> int:
    return counted[finding.rule, finding.subject, OUTCOMES[-1], finding.grade]


# Before a whole proof: whether the change does for the finding's own subject what it is made for


def _serves(after: Ground, found: Found, action: Action) -> bool:
    """Whether the rule says nothing more of the subject in the changed list, and the action's `where` holds there."""
    things = again(after, found.thing)
    env = Env(after.given.day)
    for thing in things:
        for each in found.rule.envs(thing, env.on_day_of(thing)):
            judgement = found.rule.judge(thing, each)
            if judgement.outcome:
                return False
            applies = judgement.given.truth is not Truth.FALSE or action.word == "add"
            if action.where and applies and action.where.holds(thing, each).truth is not Truth.TRUE:
                return False
    return True


def _shown(after: Ground, found: Found, action: Action) -> str:
    """What the action asks for, with the number that it comes to in the changed list; "" where no words are known."""
    typed = action.where.typed if action.where is not None else None
    if action.where is None or not isinstance(typed, CompareNumbers) or not isinstance(typed.left, Read):
        return ""
    clause = ASKED_TO_BE.get(".".join(typed.left.steps))
    read, env = amount(typed.left), Env(after.given.day)
    amounts = [each for thing in again(after, found.thing) if (each := read(thing, env)) is not None]
    if clause is None or not amounts or typed.left.variable or typed.left.type.dimension is None:
        return ""
    hull = Amount(min(each.low for each in amounts), max(each.high for each in amounts))
    percent = prints_as_share(typed.left, shares_in([typed]))
    names = ("%",) if percent else after.units.get(typed.left.type.dimension, ())
    return f": {clause.format(amount_text(hull, [UNITS[name] for name in names[:1]]))}" if names else ""


def again(after: Ground, thing: Subject) -> list[Subject]:
    """What a thing of a rig is in the changed list, in each combination; nothing for other things, nor for rigs with
    so many combinations that only the whole proof can tell."""
    rig = thing if isinstance(thing, RigSubject) else getattr(thing, "rig", None)
    if not isinstance(rig, RigSubject):
        return []
    same = [each for each in after.kitlist.rigs if each.name == rig.rig.name]
    if any(count(each) > MANY for each in same):
        return []
    made = [RigSubject(after.setting, build) for each in same for build in combinations(each)]
    if isinstance(thing, JointSubject):
        return [joint for each in made for joint in joints(each)]
    if isinstance(thing, StageSubject):
        return [stage for each in made for stage in stages(each)]
    return [*made]
