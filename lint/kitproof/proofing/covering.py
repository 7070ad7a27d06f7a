"""One fault is one finding: what covers what, and what is gathered."""

from __future__ import annotations

from collections.abc import Hashable, Mapping, Sequence
from typing import TypeVar

from msgspec import Struct
from msgspec.structs import replace

from kitproof.facts.subject import Subject
from kitproof.proofing.findings import OUTCOMES, Finding, Waived
from kitproof.rulebook.compile import Env
from kitproof.rulebook.rules import Rule


class Told(Struct, frozen=True):
    """A finding with the subject it is about, so that those on one subject can be told, and what it is gathered by."""

    finding: Finding
    rule: Rule
    subject: Hashable
    gathers_by: Hashable


class Found(Told, frozen=True):
    """A finding with what the rule was judged on where it is shown: its worst case."""

    thing: Subject
    env: Env


Each = TypeVar("Each", bound=Told)


def covered(found: Sequence[Each]) -> list[Each]:
    """On one subject, of a rule and one that it covers the stronger outcome stays, the covering one on a tie.

    The other is kept under `also`, with all that it had kept itself. What is waived neither covers nor is covered.
    """
    by_subject: dict[tuple[Hashable, Waived | None], list[Each]] = {}
    for each in found:
        by_subject.setdefault((each.subject, each.finding.waived), []).append(each)
    done: list[Each] = []
    for (_, waiver), group in by_subject.items():
        done += group if waiver is not None or len(group) == 1 else _cover(group)
    return done


def _cover(group: list[Each]) -> list[Each]:
    alive = list(group)
    below = _below(group)
    for upper in sorted(group, key=lambda each: -len(below[each.rule.name])):
        for low in [each for name in below[upper.rule.name] for each in alive if each.rule.name == name]:
            top = next((each for each in alive if each.rule is upper.rule), None)
            if top is None:
                continue
            stays, goes = (top, low) if _strength(top) <= _strength(low) else (low, top)
            alive.remove(goes)
            alive[alive.index(stays)] = _keeping(stays, goes)
    return alive


def _below(group: Sequence[Told]) -> Mapping[str, tuple[str, ...]]:
    """For each rule of a group those that it covers, and those that they cover. Loops are refused on loading."""
    now = {name: each.rule.name for each in group for name in (*each.rule.once, each.rule.name)}
    covers = {each.rule.name: tuple(now[name] for name in each.rule.covers if name in now) for each in group}

    def all_of(name: str) -> tuple[str, ...]:
        found = (each for low in covers[name] for each in (low, *all_of(low)))
        return tuple(dict.fromkeys(found))

    return {name: all_of(name) for name in covers}


def _strength(found: Told) -> int:
    """Smaller is stronger. A quiet outcome is weaker than any that is shown."""
    return OUTCOMES.index(found.finding.outcome) + len(OUTCOMES) * found.finding.quiet


def _keeping(stays: Each, goes: Each) -> Each:
    also = (*stays.finding.also, replace(goes.finding, also=()), *goes.finding.also)
    return replace(stays, finding=replace(stays.finding, also=also))


def gathered(found: Sequence[Each]) -> list[Each]:
    """One finding for each subject that a rule gathers by: the strongest; the places of the others go under `see`."""
    groups: dict[Hashable, list[Each]] = {}
    for number, each in enumerate(found):
        key: Hashable = (each.rule.name, each.gathers_by, each.finding.waived) if each.rule.gather else number
        groups.setdefault(key, []).append(each)
    return [_gather(group) for group in groups.values()]


def _gather(group: Sequence[Each]) -> Each:
    first = min(group, key=_strength)
    others = tuple(each.finding.where for each in group if each is not first)
    if not others:
        return first
    return replace(first, finding=replace(first.finding, see=(*first.finding.see, *others)))
