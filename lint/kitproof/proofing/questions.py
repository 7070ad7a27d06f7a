"""What to weigh, measure or ask for: the answer that would settle the most verdicts first.

A verdict is settled by an answer if it is decided with that one figure at either end of what is possible, and the rest
as it is: it is proofed again with each, nothing is looked up in a table of what depends on what. For what is no figure
(what a part sits on, how a head is packed) an answer settles the verdicts that wait for it alone.
"""

from __future__ import annotations

import math
from collections.abc import Hashable, Iterable, Iterator, Sequence

from msgspec import Struct, field
from msgspec.structs import replace

from kitproof.facts.build import Build
from kitproof.facts.rig import RigSubject
from kitproof.facts.stages import StageSubject, stages
from kitproof.facts.subject import Setting, Subject
from kitproof.facts.values import Truth
from kitproof.model.kitlist import KitList
from kitproof.model.parts import Part
from kitproof.model.quantities import Range
from kitproof.proofing.figures import Figure, figures
from kitproof.proofing.hits import Hit
from kitproof.proofing.judging import judged
from kitproof.proofing.packed_figures import loose_figures, settled_by
from kitproof.rulebook.compile import Env
from kitproof.rulebook.rules import Rule, RuleBook
from kitproof.words.kinds import KINDS
from kitproof.words.phrases import from_whom

WEIGHTS = {"stop": 8, "wrong": 4, "watch": 2, "note": 1}
"""How much a verdict of each grade counts when answers are ranked."""

POSSIBLE: dict[str, Range] = {
    "height": (0.0, 0.6),
    "cog": (-0.4, 0.4),
    "size": (0.01, 1.0),
    "tilt_axis": (-0.05, 0.15),
    "length": (0.02, 0.9),
    "front": (0.03, 0.25),
    "lens_moment": (0.1, 50.0),
    "image_circle": (0.005, 0.1),
}
"""Either end of what is possible, in SI, for a figure of which nothing is known: common practice, no source. A mass has
the bounds of its kind of part."""


class Verdict(Struct, frozen=True):
    """A verdict that waits: the rule, its grade, the subject, and the path of the list."""

    rule: str
    grade: str
    subject: str
    path: str


class Question(Struct, frozen=True):
    """One answer to ask for: what it is called, the field and the part it is of ("" and None for what is no field),
    whom to ask, the verdicts that it would settle, how many wait for it in all, and the list that asks it."""

    asks: str
    field: str
    part: Part | None
    to: str
    settles: tuple[Verdict, ...]
    waits: int
    loose: bool = False
    path: str = ""

    @property
    def weight(self) -> int:
        return sum(WEIGHTS[each.grade] for each in self.settles)


class _Asked(Struct):
    of: str = ""
    part: Part | None = None
    settles: dict[Verdict, None] = field(default_factory=dict)
    waits: dict[Verdict, None] = field(default_factory=dict)
    loose: bool = False


def questions(setting: Setting, book: RuleBook) -> list[Question]:
    """Every question of a list, the one that would settle the most and gravest verdicts first."""
    asked: dict[str, _Asked] = {}
    parts = {part.label: part for part in _parts(setting.kitlist)}
    for hit in judged(setting, book):
        if hit.outcome == "cannot tell":
            _missing(setting, hit, asked)
        elif hit.outcome == "may fail":
            _loose(setting, hit, asked)
    found = []
    for label, each in asked.items():
        part = each.part or parts.get(label.rsplit(": ", 1)[0])
        name = each.of or label.rsplit(": ", 1)[-1].split(" (")[0].replace(" ", "_")
        to = _whom(setting.kitlist, part)
        found.append(
            Question(label, name, part, to, tuple(each.settles), len(each.waits), each.loose, setting.kitlist.path)
        )
    return ranked(found)


def ranked(found: Iterable[Question]) -> list[Question]:
    """What would settle the most and gravest verdicts first."""
    return sorted(found, key=lambda each: (-each.weight, -len(each.settles), -each.waits, each.asks))


def over(lists: Iterable[Sequence[Question]]) -> list[Question]:
    """The questions of several lists as one list to send: what they ask of one entry of a book they share is asked
    once, and settles what it settles in all of them."""
    found: dict[Hashable, Question] = {}
    for number, each in ((number, each) for number, those in enumerate(lists) for each in those):
        known = each.part is not None and each.part.described
        key = (each.asks, each.to, each.part.where if known and each.part else number)
        met = found.get(key)
        found[key] = (
            each
            if met is None
            else replace(
                met, settles=(*met.settles, *each.settles), waits=met.waits + each.waits, loose=met.loose and each.loose
            )
        )
    return ranked(found.values())


def _parts(kitlist: KitList) -> Iterator[Part]:
    yield from kitlist.parts.values()
    yield from (o.part for rig in kitlist.rigs for line in rig.lines for o in line.options if o.part)
    yield from (held.part for case in kitlist.cases for held in case.holds if held.part)


def _whom(kitlist: KitList, part: Part | None) -> str:
    """The supplier of whom the part is ordered; "" where it is in no order."""
    if part is None:
        return ""
    found = (o.supplier for o in kitlist.orders for line in o.lines if line.part.name == part.name)
    return from_whom(next(found, ""))


def _missing(setting: Setting, hit: Hit, asked: dict[str, _Asked]) -> None:
    """A verdict that cannot be told: which of the answers that it lacks would settle it."""
    _, thing, env = hit.worst["cannot tell"]
    verdict = Verdict(hit.rule.name, hit.rule.grade, thing.home, setting.kitlist.path)
    build = build_of(thing)
    known = figures(build) if build is not None else []
    for label in hit.missing:
        each = asked.setdefault(label, _Asked())
        each.waits[verdict] = None
        group = [figure for figure in known if figure.lacks == label]
        if hit.missing == (label,) or (group and build and _settled(setting, hit.rule, thing, env, build, group)):
            each.settles[verdict] = None


def _loose(setting: Setting, hit: Hit, asked: dict[str, _Asked]) -> None:
    """A verdict in doubt: which single figure, known exactly, would settle it whatever it is."""
    _, thing, env = hit.worst["may fail"]
    build = build_of(thing)
    verdict = Verdict(hit.rule.name, hit.rule.grade, thing.home, setting.kitlist.path)
    if build is None:
        _loose_packed(hit.rule, thing, env, verdict, asked)
        return
    groups: dict[str, list[Figure]] = {}
    for figure in figures(build):
        if figure.doubtful and figure.lacks:
            groups.setdefault(figure.lacks, []).append(figure)
    for label, group in groups.items():
        if _settled(setting, hit.rule, thing, env, build, group):
            _note(asked, label, verdict)


def _loose_packed(rule: Rule, thing: Subject, env: Env, verdict: Verdict, asked: dict[str, _Asked]) -> None:
    for part, field_name in loose_figures(thing):
        if settled_by(rule, thing, env, part, field_name):
            _note(asked, part.lacks(field_name), verdict)


def _note(asked: dict[str, _Asked], label: str, verdict: Verdict) -> None:
    """A figure that is known too loosely, and what it would settle."""
    each = asked.setdefault(label, _Asked(loose=True))
    each.settles[verdict] = None
    each.waits[verdict] = None


def build_of(thing: Subject) -> Build | None:
    """The build that a verdict is about, for a rig or a stage of one."""
    if isinstance(thing, RigSubject):
        return thing.build
    return thing.rig.build if isinstance(thing, StageSubject) else None


def _settled(setting: Setting, rule: Rule, thing: Subject, env: Env, build: Build, group: Sequence[Figure]) -> bool:
    """Whether the verdict is decided with these figures, one answer together, at either end of what is possible."""
    for end in (0, 1):
        changed = build
        for figure in group:
            changed = _set(changed, figure.label, end)
        if rule.judge(_same(setting, thing, changed), env).verdict.truth not in (Truth.TRUE, Truth.FALSE):
            return False
    return True


def _set(build: Build, label: str, end: int) -> Build:
    """A build with one figure at an end of what is possible for it."""
    for figure in figures(build):
        if figure.label == label:
            value = possible(build, figure)[end]
            return figure.changed((value, value))
    return build


def possible(build: Build, figure: Figure) -> Range:
    """Either end of what a figure may be: its own ends where it has them, else what is possible for its field."""
    low, high = figure.ends
    if math.isfinite(low) and math.isfinite(high):
        return figure.ends
    if figure.field == "mass":
        part = next(each.part for each in build.standing if figure.label.startswith(each.part.label))
        return (KINDS[part.kind].least, KINDS[part.kind].most)
    return POSSIBLE.get(figure.field, (max(low, 0.0), min(high, 1e6)))


def _same(setting: Setting, thing: Subject, build: Build) -> Subject:
    """The same subject in a changed build."""
    rig = RigSubject(setting, build)
    if isinstance(thing, StageSubject):
        count = len([each for each in stages(thing.rig) if each.after.where <= thing.after.where]) - 1
        return stages(rig)[count]
    return rig
