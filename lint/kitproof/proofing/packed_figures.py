"""The figures of parts that a verdict on what is packed rests on, and the verdict with one of them known exactly.

Like `figures`, for what is packed: one figure is changed and the verdict worked out again.
"""

from __future__ import annotations

from collections.abc import Iterator

from msgspec.structs import replace

from kitproof.facts.cases import with_inner
from kitproof.facts.packing import CaseSubject, MoveSubject, PackedSubject
from kitproof.facts.subject import Subject
from kitproof.facts.values import Thing, Truth
from kitproof.model.kitlist import Case
from kitproof.model.parts import Part
from kitproof.model.quantities import Interval
from kitproof.rulebook.compile import Env
from kitproof.rulebook.rules import Rule


def loose_figures(thing: Subject) -> Iterator[tuple[Part, str]]:
    """Each part that is packed and each of its fields that is known, and not exactly."""
    for part in _packed(thing):
        for field in part.places:
            value = getattr(part, field, None)
            if isinstance(value, Interval) and value.known and value.low < value.high:
                yield part, field


def _packed(thing: Subject) -> list[Part]:
    """The parts that lie in a case and in those within it, or the one that is packed; each once, by name."""
    if isinstance(thing, PackedSubject):
        return [thing.part]
    if not isinstance(thing, CaseSubject):
        return []
    inside = with_inner(thing.case, {each.name: each for each in thing.setting.kitlist.cases})
    parts = [held.part for case in inside for held in case.holds if held.part is not None]
    return list({part.label: part for part in parts}.values())


def settled_by(rule: Rule, thing: Subject, env: Env, part: Part, field: str) -> bool:
    """Whether a verdict is decided with a figure at either end of what it is known to be."""
    value: Interval = getattr(part, field)
    for end in value.range:
        changed = _again(thing, part, replace(part, **{field: replace(value, low=end, high=end)}))
        moves = {name: _move(each, changed) for name, each in env.variables.items()}
        if rule.judge(changed, Env(env.day, moves)).verdict.truth not in (Truth.TRUE, Truth.FALSE):
            return False
    return True


def _again(thing: Subject, part: Part, new: Part) -> Subject:
    """The same case or packed thing where the part is another."""
    kitlist = thing.setting.kitlist
    cases = tuple(_with(case, part, new) for case in kitlist.cases)
    setting = replace(thing.setting, kitlist=replace(kitlist, cases=cases))
    assert isinstance(thing, CaseSubject | PackedSubject), "no other rests on what is packed"
    case = cases[kitlist.cases.index(thing.case)]
    if isinstance(thing, CaseSubject):
        return CaseSubject(setting, case)
    return PackedSubject(setting, case, case.holds[thing.case.holds.index(thing.packed)], new)


def _with(case: Case, part: Part, new: Part) -> Case:
    return replace(case, holds=tuple(replace(held, part=new) if held.part == part else held for held in case.holds))


def _move(each: Thing, changed: Subject) -> Thing:
    """What a rule goes through, in the changed list: a move; anything else as it was."""
    return MoveSubject(changed.setting, each.move) if isinstance(each, MoveSubject) else each
