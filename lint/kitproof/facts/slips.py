"""What could not be read, masses as written, and waivers: the subjects of the reading rules."""

from __future__ import annotations

import math
import re
from collections.abc import Hashable
from datetime import date
from typing import ClassVar

from kitproof.facts.fact import fact
from kitproof.facts.part import PartSubject, part_named
from kitproof.facts.subject import Setting, Subject
from kitproof.facts.values import TRUTH, Amount, Truth, Verdict, Words, number, text, thing
from kitproof.model.kitlist import PlacedSlip, Waiver
from kitproof.model.parts import Part
from kitproof.model.quantities import Interval
from kitproof.reading.document import Where
from kitproof.words.dimensions import MASS, NUMBER
from kitproof.words.kinds import KINDS
from kitproof.words.units import POUND

SLIPS = (
    "unreadable-line",
    "unknown-word",
    "unknown-part",
    "wrong-unit",
    "no-unit",
    "defined-twice",
    "circular-use",
    "not-utf-8",
    "nothing-listed",
    "used-file-missing",
    "used-file-outside",
    "number-misread",
    "figures-contradict",
    "list-named-twice",
    "older-issue",
)
"""Every kind of slip that the reader, the model and the names of lists make: each is spoken of by the rule of its
name."""


COLUMNS = re.compile(r" {2,}")


class SlipSubject(Subject):
    about: ClassVar[str] = "slip"

    def __init__(self, setting: Setting, placed: PlacedSlip) -> None:
        super().__init__(setting)
        self.placed, self.slip = placed, placed.slip

    @property
    def label(self) -> str:
        return "reading"

    @property
    def gathers_by(self) -> Hashable:
        return self.slip.said

    def place(self, field: str) -> Where:
        return self.placed.where


@fact("kind", "slip", text(*SLIPS), "what sort of slip it is", certain=True)
def slip_kind(slip: SlipSubject) -> Words:
    return Words(slip.slip.kind)


@fact("said", "slip", text(), "the text as it was typed, its columns closed up", certain=True)
def said(slip: SlipSubject) -> Words:
    """People line values up with spaces; in a sentence one is enough."""
    return Words(COLUMNS.sub(" ", slip.slip.said))


@fact("wanted", "slip", text(), "what should stand there, or what it goes against, in words", certain=True)
def wanted(slip: SlipSubject) -> Words:
    return Words(slip.slip.wanted)


@fact("nearest", "slip", text(), "the nearest known names, in words; empty where none is near", certain=True)
def nearest(slip: SlipSubject) -> Words:
    return Words(" or ".join(f'"{name}"' for name in slip.slip.nearest))


@fact("repair", "slip", text(), "the text to put in its place; empty where none is sure", certain=True)
def repair(slip: SlipSubject) -> Words:
    return Words(slip.slip.repair or "")


@fact("field", "slip", text(), "the field that it stands in", certain=True)
def field(slip: SlipSubject) -> Words:
    return Words(slip.slip.field)


class FigureSubject(Subject):
    """A mass as written, of a part or on a line of a rig or a case."""

    about: ClassVar[str] = "figure"

    def __init__(self, setting: Setting, part: Part, mass: Interval) -> None:
        super().__init__(setting)
        self.part, self.mass = part, mass

    @property
    def label(self) -> str:
        return self.part.label

    @property
    def within(self) -> tuple[str, ...]:
        return (part_named(self.part),)

    def place(self, field: str) -> Where:
        return self.part.where_of("mass")


def figures(setting: Setting) -> list[FigureSubject]:
    """Every known mass written in the list or a book it uses, once for each place."""
    kitlist = setting.kitlist
    inline = [o.part for rig in kitlist.rigs for line in rig.lines for o in line.options if o.part]
    held = [packed.part for case in kitlist.cases for packed in case.holds if packed.part]
    found: dict[Where, FigureSubject] = {}
    for part in [*kitlist.parts.values(), *kitlist.own_parts, *inline, *held]:
        mass = part.mass
        if mass is not None and mass.known and "mass" in part.places:
            found.setdefault(part.where_of("mass"), FigureSubject(setting, part, mass))
    return list(found.values())


def _kg(mass: float) -> Amount:
    return Amount(mass, mass)


@fact("part", "figure", thing("part"), "the part whose mass it is")
def figure_part(figure: FigureSubject) -> PartSubject:
    return PartSubject(figure.setting, figure.part)


@fact("kind", "figure", text(*KINDS), "its kind of part", certain=True)
def figure_kind(figure: FigureSubject) -> Words:
    return Words(figure.part.kind)


@fact("mass", "figure", number(MASS), "the mass as written")
def figure_mass(figure: FigureSubject) -> Amount:
    return Amount(figure.mass.low, figure.mass.high)


@fact("in_pounds", "figure", number(MASS), "the mass that the same number would be in pounds", "mass × 0.45359237")
def in_pounds(figure: FigureSubject) -> Amount:
    return Amount(figure.mass.low * POUND, figure.mass.high * POUND)


@fact("least", "figure", number(MASS), "the least mass that is possible for its kind of part", certain=True)
def least(figure: FigureSubject) -> Amount:
    return _kg(KINDS[figure.part.kind].least)


@fact("usual", "figure", number(MASS), "the most that is usual for its kind of part", certain=True)
def usual(figure: FigureSubject) -> Amount:
    return _kg(KINDS[figure.part.kind].usual)


@fact("most", "figure", number(MASS), "the most that is possible for its kind of part", certain=True)
def most(figure: FigureSubject) -> Amount:
    return _kg(KINDS[figure.part.kind].most)


class WaiverSubject(Subject):
    """One waiver. Whether it was used, and what it could have named, is known when all other rules are done."""

    about: ClassVar[str] = "waiver"

    def __init__(
        self,
        setting: Setting,
        waiver: Waiver,
        rule_known: bool,
        subject_known: bool,
        used: bool,
        near: str,
        allowed: bool,
    ) -> None:
        super().__init__(setting)
        self.waiver = waiver
        self.rule_known, self.subject_known, self.used = rule_known, subject_known, used
        self.near, self.allowed = near, allowed

    @property
    def label(self) -> str:
        return f"waiver of {self.waiver.rule}"

    @property
    def within(self) -> tuple[str, ...]:
        return (self.label,)

    def place(self, field: str) -> Where:
        return self.waiver.places.get("until" if field == "days_over" else field, self.waiver.where)


@fact("rule", "waiver", text(), "the rule that it names", certain=True)
def waiver_rule(waiver: WaiverSubject) -> Words:
    return Words(waiver.waiver.rule)


@fact("subject", "waiver", text(), "the subject that it names", certain=True)
def waiver_subject(waiver: WaiverSubject) -> Words:
    return Words(waiver.waiver.subject)


@fact("nearest", "waiver", text(), "the nearest known rules or subjects, in words", certain=True)
def waiver_nearest(waiver: WaiverSubject) -> Words:
    return Words(waiver.near)


def _truth(said: bool) -> Verdict:
    return Verdict(Truth.TRUE if said else Truth.FALSE)


@fact("rule_known", "waiver", TRUTH, "whether there is such a rule", certain=True)
def rule_known(waiver: WaiverSubject) -> Verdict:
    return _truth(waiver.rule_known)


@fact("subject_known", "waiver", TRUTH, "whether the list has such a subject", certain=True)
def subject_known(waiver: WaiverSubject) -> Verdict:
    return _truth(waiver.subject_known)


@fact("used", "waiver", TRUTH, "whether it waives a finding", certain=True)
def used(waiver: WaiverSubject) -> Verdict:
    return _truth(waiver.used)


@fact("allowed", "waiver", TRUTH, "whether the house takes waivers of this rule at all", certain=True)
def allowed(waiver: WaiverSubject) -> Verdict:
    return _truth(waiver.allowed)


@fact("until_said", "waiver", TRUTH, "whether it says its last day", certain=True)
def until_said(waiver: WaiverSubject) -> Verdict:
    return _truth(waiver.waiver.until is not None)


@fact("until", "waiver", text(), "its last day")
def waiver_until(waiver: WaiverSubject) -> Words:
    until: date | None = waiver.waiver.until
    lacks = (f"{waiver.label}: until",) if "until" in waiver.waiver.places else ()
    return Words(until.isoformat()) if until is not None else Words(None, lacks)


@fact("days_over", "waiver", number(NUMBER), "days since its last day; 0 or less while it is good")
def days_over(waiver: WaiverSubject) -> Amount:
    """A waiver that says no last day is good without end; one whose day could not be read is not known."""
    until: date | None = waiver.waiver.until
    if until is None:
        if "until" in waiver.waiver.places:
            return Amount(-math.inf, math.inf, (f"{waiver.label}: until",))
        return Amount(-math.inf, -math.inf)
    days = float((waiver.setting.day - until).days)
    return Amount(days, days)
