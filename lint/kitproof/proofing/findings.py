"""A finding: what a rule found, about what, where, with which numbers. How it looks is for `showing`."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping, Sequence
from datetime import date
from typing import Literal

from msgspec import Struct, field
from msgspec.structs import replace

from kitproof.facts.values import Amount
from kitproof.reading.document import Where
from kitproof.rulebook.settings import GRADES
from kitproof.words.dimensions import Dimension

Outcome = Literal["fails", "may fail", "cannot tell"]
OUTCOMES: tuple[Outcome, ...] = ("fails", "may fail", "cannot tell")
"""Strongest first."""


class Change(Struct, frozen=True):
    """One stretch of text to replace."""

    where: Where
    text: str


class Fix(Struct, frozen=True):
    """What to do, in words; `changes` where it is an edit, `proved` when the changed list has been proofed again."""

    says: str
    proved: bool = False
    changes: tuple[Change, ...] = ()


class LeftOut(Struct, frozen=True):
    """One alternative of a slot that is left out; "none" for leaving the slot empty."""

    slot: str
    name: str


class Cleared(Struct, frozen=True):
    """What to leave out of a rig's alternatives so that a finding holds for no combination. `smallest` where no fewer
    do; else there may be fewer that do."""

    without: tuple[LeftOut, ...]
    smallest: bool


class Combinations(Struct, frozen=True):
    """How many of a rig's combinations a finding holds for, of how many, and which is the worst (slot to name).

    `cleared` is the smallest change of its alternatives that clears it; None where it holds for all, or none does.
    """

    failing: int
    of: int
    worst: Mapping[str, str]
    cleared: Cleared | None = None


class Waived(Struct, frozen=True):
    """The waiver that accepts a finding."""

    because: str
    by: str
    until: date | None
    where: Where


class Finding(Struct, frozen=True):
    """One finding. `grade` is its rule's own; it counts by the highest grade of itself and what stands under `also`.

    `counts` is False for what never sends a list back: what is waived or known, and `cannot tell` of a grade for which
    the house does not count it. `thing` is what it is about more closely than its subject, `key` what names the list.
    """

    rule: str
    grade: str
    outcome: Outcome
    title: str
    path: str
    issue: int | None
    subject: str
    where: Where
    says: str
    because: str
    see: tuple[Where, ...] = ()
    caution: str = ""
    missing: tuple[str, ...] = ()
    combinations: Combinations | None = None
    facts: Mapping[str, tuple[Amount, Dimension]] = field(default_factory=dict)
    fixes: tuple[Fix, ...] = ()
    also: tuple[Finding, ...] = ()
    waived: Waived | None = None
    quiet: bool = False
    counts: bool = True
    within: tuple[str, ...] = ()
    thing: str = ""
    key: str = ""
    known: bool = False
    fingerprint: str = ""

    @property
    def counts_as(self) -> str:
        """The gravest grade of itself and of what it keeps under `also`, quiet ones left out."""
        return min((self.grade, *(each.grade for each in self.also if not each.quiet)), key=GRADES.index)


class Tally(Struct, frozen=True):
    """How many findings there are of each grade; `cannot tell`, waived and known ones are counted apart."""

    stop: int = 0
    wrong: int = 0
    watch: int = 0
    note: int = 0
    cannot_tell: int = 0
    waived: int = 0
    known: int = 0


class Proof(Struct, frozen=True):
    """What proofing one or more lists gave. `judged` and `not_judged` count rule × subject, `not_read` lines.

    `gone` names what a record of known findings has and what is no longer found.
    """

    findings: tuple[Finding, ...]
    judged: int
    not_judged: int
    not_read: int
    gone: tuple[str, ...] = ()

    @property
    def tally(self) -> Tally:
        counts = dict.fromkeys(GRADES, 0)
        apart = {"cannot_tell": 0, "waived": 0, "known": 0}
        for each in self.findings:
            if each.waived is not None:
                apart["waived"] += 1
            elif each.known:
                apart["known"] += 1
            elif each.outcome == "cannot tell":
                apart["cannot_tell"] += 1
            else:
                counts[each.counts_as] += 1
        return Tally(**counts, **apart)

    def sends_back(self, at: str) -> bool:
        """Whether anything counts at this grade or a graver one."""
        return any(each.counts and GRADES.index(each.counts_as) <= GRADES.index(at) for each in self.findings)


def together(proofs: Sequence[Proof]) -> Proof:
    """Several proofs as one. What two lists find at one place of a parts book they share is one finding.

    It counts unless every list that finds it has waived it.
    """
    seen: dict[tuple[str, Where, str, str], Finding] = {}
    for proof in proofs:
        for each in proof.findings:
            key = (each.rule, each.where, each.subject, each.says)
            if key not in seen or (each.counts and not seen[key].counts):
                seen[key] = each
    return Proof(
        tuple(in_order(tuple(seen.values()))),
        sum(each.judged for each in proofs),
        sum(each.not_judged for each in proofs),
        sum(each.not_read for each in proofs),
    )


def marked(findings: Sequence[Finding]) -> tuple[Finding, ...]:
    """Findings with their fingerprints: the same after lines have moved, and never the same for two of one list.

    Made of the rule, the list's key, the thing it is about, and which one it is among those that are alike.
    """
    seen: dict[str, int] = {}
    done = []
    for each in findings:
        key = "\n".join((each.rule, each.key, each.subject, each.thing))
        seen[key] = seen.get(key, 0) + 1
        digest = hashlib.sha256(f"{key}\n{seen[key]}".encode(errors="surrogateescape")).hexdigest()
        done.append(replace(each, fingerprint=digest[:16]))
    return tuple(done)


def in_order(findings: Sequence[Finding]) -> list[Finding]:
    """Gravest first, then the certain before the doubtful, then by place."""
    return sorted(findings, key=place_in_order)


def place_in_order(finding: Finding) -> tuple[bool, int, int, Where, str]:
    """What findings are put in order by."""
    return (
        finding.outcome == "cannot tell",
        GRADES.index(finding.counts_as),
        OUTCOMES.index(finding.outcome),
        finding.where,
        finding.rule,
    )
