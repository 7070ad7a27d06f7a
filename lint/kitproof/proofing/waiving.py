"""Waivers: which findings they accept, and what is to be said of the waivers themselves."""

from __future__ import annotations

import re
from collections.abc import Sequence
from datetime import date

from msgspec.structs import replace

from kitproof.facts.slips import WaiverSubject
from kitproof.facts.subject import Setting
from kitproof.model.kitlist import KitList, Waiver
from kitproof.proofing.covering import Each, Told
from kitproof.proofing.findings import Waived
from kitproof.rulebook.rules import RuleBook
from kitproof.words.nearest import nearest

QUOTES = str.maketrans({"“": '"', "”": '"', "'": '"'})


def subject_words(typed: str) -> str:
    """A waiver's subject in the form that findings use: straight quotes, a rig's name bare."""
    words = re.sub(r"\s+", " ", typed.translate(QUOTES)).strip()
    return re.sub(r'^rig "(.*)"$', r"rig \1", words)


def subjects_of(kitlist: KitList) -> tuple[str, ...]:
    """Everything in a list that a waiver can name."""
    return (
        "list",
        *(rig.label for rig in kitlist.rigs),
        *(case.label for case in kitlist.cases),
        *(move.label for move in kitlist.moves.values()),
        *(f'part "{name}"' for name in kitlist.parts),
    )


def holds(waiver: Waiver, day: date) -> bool:
    """Whether it is still good: its last day is included. One whose day could not be read waives nothing."""
    if waiver.until is None:
        return "until" not in waiver.places
    return day <= waiver.until


def accepts(waiver: Waiver, found: Told, book: RuleBook) -> bool:
    """Whether a waiver speaks of a finding: its rule, by any name it ever had, in a subject that it lies in."""
    rule = book.named(waiver.rule)
    subject = subject_words(waiver.subject)
    return rule is not None and rule.name == found.rule.name and subject in ("list", *found.finding.within)


def allowed(waiver: Waiver, book: RuleBook) -> bool:
    """Whether the house takes waivers of this rule at all."""
    rule = book.named(waiver.rule)
    return rule is None or rule.name not in book.never_waived


def waived(found: Sequence[Each], setting: Setting, book: RuleBook) -> list[Each]:
    """The findings with the waivers that accept them. A waived finding stays, and counts for nothing."""
    waivers = [each for each in setting.kitlist.waivers if holds(each, setting.day) and allowed(each, book)]
    done = []
    for each in found:
        waiver = next(
            (w for w in waivers if accepts(w, each, book)),
            None,
        )
        if waiver is not None:
            mark = Waived(waiver.because, waiver.by, waiver.until, waiver.where)
            each = replace(each, finding=replace(each.finding, waived=mark))
        done.append(each)
    return done


def waiver_subjects(found: Sequence[Told], setting: Setting, book: RuleBook) -> list[WaiverSubject]:
    """The waivers of a list as subjects of their own rules. One that is out of date counts as used if it would be."""
    known = subjects_of(setting.kitlist)
    subjects = []
    for waiver in setting.kitlist.waivers:
        rule_known = book.named(waiver.rule) is not None
        subject_known = subject_words(waiver.subject) in known
        used = any(accepts(waiver, each, book) for each in found)
        near = nearest(waiver.rule, tuple(book.rules)) if not rule_known else ()
        if rule_known and not subject_known:
            near = nearest(subject_words(waiver.subject), known)
        words = " or ".join(near)
        subjects.append(WaiverSubject(setting, waiver, rule_known, subject_known, used, words, allowed(waiver, book)))
    return subjects
