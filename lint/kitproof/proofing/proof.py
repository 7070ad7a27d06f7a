"""A list proofed: what is said of it covered, gathered, waived and put in order."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date

from msgspec import Struct
from msgspec.structs import replace

from kitproof.facts.registry import FACTS
from kitproof.facts.subject import Setting
from kitproof.model.kitlist import KitList
from kitproof.model.promises import Promised
from kitproof.proofing.again import Memory
from kitproof.proofing.asked import asked_on_purpose
from kitproof.proofing.covering import Found, Told, covered, gathered
from kitproof.proofing.findings import Finding, Proof, marked, place_in_order
from kitproof.proofing.hits import Hit
from kitproof.proofing.judging import Hits, judged, judged_plain
from kitproof.proofing.laps import Lap, no_lap
from kitproof.proofing.saying import Said, said
from kitproof.proofing.waiving import waived, waiver_subjects
from kitproof.rulebook.messages import DEFAULT_UNITS, Units
from kitproof.rulebook.rules import RuleBook
from kitproof.words.dimensions import Dimension
from kitproof.words.units import UNITS


def setting_of(kitlist: KitList, book: RuleBook, day: date, others: tuple[Promised, ...] = ()) -> Setting:
    """What every subject of a proof shares."""
    return Setting(kitlist, day, book.numbers, FACTS, others)


def proof(
    kitlist: KitList,
    book: RuleBook,
    day: date,
    others: tuple[Promised, ...] = (),
    lap: Lap = no_lap,
    memory: Memory | None = None,
) -> Proof:
    """Every rule of a book on a list. `day` decides waivers and dated limits. Never raises for what a list says.

    `others` is what the lists that are proofed with it promise of the same stock: see `facts.promises.beside`.
    `lap` is told what has been done, each time a rule or the findings are. With a `memory` rigs that have not changed
    are not judged again.
    """
    setting = setting_of(kitlist, book, day, others)
    units = units_of(kitlist, book)
    of_rigs = [] if memory is None else memory.of_rigs(setting, book, units)
    hits = judged(setting, book, lap) if memory is None else judged_plain(setting, book, lap)
    found, _ = _whole(setting, book, [*of_rigs, said(hits, kitlist, units)])
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
    made, shown = _whole(setting, book, [said(hits, kitlist, units_of(kitlist, book))])
    pairs = zip(made.findings, shown, strict=True)
    return Examined(made, {finding.fingerprint: each for finding, each in pairs if isinstance(each, Found)})


def _whole(setting: Setting, book: RuleBook, parts: Sequence[Said[Found] | Said[Told]]) -> tuple[Proof, list[Told]]:
    """The proof that what was said comes to, and each of its findings as it was told."""
    kitlist = setting.kitlist
    everything: list[Told] = [each for part in parts for each in part.found]
    # Waivers first: one that accepts a small fault must not take with it what that fault would have kept under `also`.
    alone = waived(everything, setting, book)
    found = gathered(covered(alone))
    own = Hits(book, setting)
    for number, subject in enumerate(waiver_subjects(alone, setting, book)):
        own.judge(subject, number)
    last = said(list(own.found.values()), kitlist, units_of(kitlist, book))
    found += covered(last.found)
    asked = asked_on_purpose(kitlist)
    weighed = [replace(each, finding=_weighed(each.finding, book, asked)) for each in found if not each.finding.quiet]
    shown = sorted(weighed, key=lambda each: place_in_order(each.finding))
    judgements = (*parts, last)
    made = Proof(
        marked([each.finding for each in shown]),
        sum(each.judged for each in judgements),
        sum(each.not_judged for each in judgements),
        not_read(kitlist),
    )
    return made, shown


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
