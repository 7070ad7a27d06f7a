"""Whether the two implementations agree on one list, and every place where they do not, in words."""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field

from kitproof.facts.mating import joints
from kitproof.facts.orders import items
from kitproof.facts.packing import packed_things
from kitproof.facts.rig import RigSubject
from kitproof.facts.stages import OF_THE_RIG, stages
from kitproof.facts.subject import Setting
from kitproof.facts.tally import Tally as Counts
from kitproof.facts.values import Amount, Held, Truth, Verdict, Words
from tests.second import building, counting, ours
from tests.second.combining import Combination, combinations_of
from tests.second.described import Between, Found, Kit, Number, Part, Range, Rig
from tests.second.rigfacts import facts_of, facts_of_a_stage, mechanics_of, placed

MECHANICS = 2
"""In how many combinations of a rig, spread over all, tilting and standing are compared; stages in the first."""

TOLERANCE = 1e-9
"""Relative to the larger of 1 (kg, m, a share) and the value."""


@dataclass
class Tally:
    """What was compared, by the name of the fact, and what was found to differ."""

    rigs: int = 0
    combinations: int = 0
    compared: dict[str, int] = field(default_factory=dict)
    differ: list[str] = field(default_factory=list)

    def count(self, name: str) -> None:
        self.compared[name] = self.compared.get(name, 0) + 1

    def add(self, other: Tally) -> None:
        self.rigs += other.rigs
        self.combinations += other.combinations
        self.differ += other.differ
        for name, number in other.compared.items():
            self.compared[name] = self.compared.get(name, 0) + number


def compare(kit: Kit, name: str) -> Tally:
    """Both implementations on all of a list; `name` says in the report which list it was."""
    tally = Tally()
    kitlist = ours.read(kit)
    misread = [each.slip for each in kitlist.slips if each.slip.kind != "unknown-part"]  # a part taken out twice
    tally.differ += [f"{name}: {each.kind}: {each.said}" for each in misread]
    setting = ours.setting_of(kitlist)
    theirs = ours.rigs(setting)
    for rig in kit.rigs:
        tally.rigs += 1
        tally.differ += [f"{name}, rig {rig.name}: {each}" for each in _rig(kit, rig, theirs[rig.name], tally)]
    tally.differ += [f"{name}, {each}" for each in (*_counts(kit, setting, tally), *_packed(kit, setting, tally))]
    return tally


def _counts(kit: Kit, setting: Setting, tally: Tally) -> Iterator[str]:
    """What is ordered and needed, of all parts of the books that an order or a rig names."""
    wanted = counting.items(kit)
    listed = {subject.part.name: subject for subject in items(setting, Counts(setting.kitlist))}
    for part, counts in wanted.items():
        for name, count in counts.items():
            tally.count(name)
            value = listed[part].value(name) if part in listed else None
            if not isinstance(value, Amount) or (value.low, value.high) != (count, count):
                yield f"{part}: {name}: {_said(value)} here, {count} by the second"


def _packed(kit: Kit, setting: Setting, tally: Tally) -> Iterator[str]:
    things = iter(packed_things(setting))
    for case in kit.cases:
        for held in case.holds:
            subject = next(things)
            for name, wanted in counting.packed(kit, case, held).items():
                tally.count(name)
                value = subject.value(name)
                if not _stated(value, wanted):
                    yield f"{case.name}, {held.name}: {name}: {_said(value)} here, {wanted} by the second"


def _stated(value: Held, wanted: Found) -> bool:
    """Whether a state is the same; one that is not said is not known here either, and its name is given as missing."""
    if isinstance(value, Verdict):
        return {Truth.TRUE: "yes", Truth.FALSE: "no"}.get(value.truth) == wanted
    if wanted is None:
        return isinstance(value, Amount | Words) and bool(value.missing)
    return same(value, wanted, 1.0)


def _joints(kit: Kit, mine: Combination, subject: RigSubject, tally: Tally) -> Iterator[str]:
    """Whether all joints from ground to lens are there, and for every one whether it mates and what would bridge it."""
    found = list(joints(subject))
    pairs = {(each.upper.part.name, each.lower.part.name) for each in found}
    for upper, lower in counting.joints(mine):
        if (upper.name, lower.name) not in pairs:
            yield f"joint: {upper.name} on {lower.name} is not there"
    for joint in found:
        parts = {each.part.name: each.part for each in mine}
        upper, lower = parts[joint.upper.part.name], parts[joint.lower.part.name]
        tally.count("mates")
        said, wanted = joint.value("mates"), counting.mates(upper, lower)
        truth = {True: Truth.TRUE, False: Truth.FALSE, None: Truth.MISSING}[wanted]
        if not isinstance(said, Verdict) or said.truth is not truth:
            yield f"mates: {said!r} here, {wanted} by the second; {upper.name} on {lower.name}"
        if wanted is False:
            tally.count("bridge")
            yield from _bridge(kit, upper, lower, joint.value("bridge"))


def _bridge(kit: Kit, upper: Part, lower: Part, said: Held) -> Iterator[str]:
    """A run that joins the two, and as short as the shortest of all runs; none only where there is none."""
    text = said.text or "" if isinstance(said, Words) else ""
    run = [part for name in re.findall('"([^"]+)"', text) if (part := kit.part(name)) is not None]
    shortest = counting.bridge_length(kit, upper, lower)
    if len(run) != shortest or (run and not counting.joins(run, upper, lower)):
        yield f"bridge: {text!r} here, {shortest} parts by the second; {upper.name} on {lower.name}"


def _rig(kit: Kit, rig: Rig, subjects: list[RigSubject], tally: Tally) -> Iterator[str]:
    mine = {tuple(each.key for each in one): one for one in combinations_of(kit, rig)}
    tally.count("combinations")
    found = {ours.key(each): each for each in subjects}
    if found.keys() != mine.keys() or len(found) != len(subjects):
        yield f"combinations: {sorted(found)} here, {sorted(mine)} by the second"
    for key, subject in found.items():
        if key in mine:
            tally.combinations += 1
            yield from _combination(rig, mine[key], subject, tally)
            yield from _joints(kit, mine[key], subject, tally)
    shared = [key for key in found if key in mine]
    for place, key in enumerate(shared[:: max(1, len(shared) // MECHANICS)][:MECHANICS]):
        yield from _mechanics(kit, rig, mine[key], found[key], tally, staged=place == 0)


def _combination(rig: Rig, mine: Combination, subject: RigSubject, tally: Tally) -> Iterator[str]:
    chosen = ", ".join(part for _, part in ours.key(subject))
    for each in _differ(facts_of(rig, mine), subject.value, tally):
        yield f"{each}; with {chosen}"


def _mechanics(
    kit: Kit, rig: Rig, mine: Combination, subject: RigSubject, tally: Tally, *, staged: bool
) -> Iterator[str]:
    """Tilting, standing, lens and rods; and where it is asked for every stage of building up."""
    chosen = ", ".join(part for _, part in ours.key(subject))
    for each in _differ(mechanics_of(kit, rig, mine), subject.value, tally):
        yield f"{each}; with {chosen}"
    for each in _stages(rig, mine, subject, tally) if staged else ():
        yield f"{each}; with {chosen}"


def _stages(rig: Rig, mine: Combination, subject: RigSubject, tally: Tally) -> Iterator[str]:
    wanted = building.stages(mine, lambda each: placed(rig, each))
    found = stages(subject)
    tally.count("stages")
    if len(wanted) != len(found):
        yield f"stages: {len(found)} here, {len(wanted)} by the second"
        return
    before = None
    for part, stage in zip(wanted, found, strict=True):
        now = placed(rig, part)
        facts = facts_of_a_stage(now)
        shared = {name: facts[name] for name in OF_THE_RIG if name in facts}
        for each in _differ({**shared, "left_over": building.left_over(before, now)}, stage.value, tally, "stage "):
            yield f"{each}; stage {stage.label}"
        before = now


def _differ(wanted: dict[str, Found], value: Callable[[str], Held], tally: Tally, of: str = "") -> Iterator[str]:
    for name, each in wanted.items():
        here = value(name)
        tally.count(of + name + (", within" if isinstance(each, Between) else ""))
        if name == "standing_cog_up":
            agrees = holds(here, each)
        elif isinstance(each, Between):
            agrees = holds(here, each.inner) and kept_within(here, each.outer)
        else:
            agrees = same(here, each, 1.0)
        if not agrees:
            yield f"{of}{name}: {_said(here)} here, {_shown(each)} by the second"


def same(value: Held, wanted: Found, scale: float) -> bool:
    """Words alike, or both ends of a range within the tolerance."""
    if isinstance(value, Words):
        return (value.text or None) == wanted
    if not isinstance(value, Amount) or not isinstance(wanted, tuple):
        return value is None and wanted is None
    return near(value.low, wanted[0], scale) and near(value.high, wanted[1], scale)


def holds(value: Held, wanted: Found) -> bool:
    """Whether our range holds the second one's: said to be sound, and may be wider."""
    if not isinstance(value, Amount) or not isinstance(wanted, tuple):
        return False
    return (value.low <= wanted[0] or near(value.low, wanted[0], 1.0)) and (
        value.high >= wanted[1] or near(value.high, wanted[1], 1.0)
    )


def kept_within(value: Held, wanted: Range) -> bool:
    """Whether our range reaches no farther than the second one's."""
    if not isinstance(value, Amount):
        return False
    return (value.low >= wanted[0] or near(value.low, wanted[0], 1.0)) and (
        value.high <= wanted[1] or near(value.high, wanted[1], 1.0)
    )


def near(a: float, b: Number, scale: float) -> bool:
    if math.isinf(a) or math.isinf(b):
        return a == b
    return abs(a - float(b)) <= TOLERANCE * max(scale, abs(float(b)))


def _said(value: Held) -> str:
    if isinstance(value, Amount):
        return f"{value.low!r} to {value.high!r}"
    return repr(value)


def _shown(found: Found) -> str:
    if isinstance(found, Between):
        return f"at least {_shown(found.inner)}, at most {_shown(found.outer)}"
    return f"{float(found[0])!r} to {float(found[1])!r}" if isinstance(found, tuple) else repr(found)
