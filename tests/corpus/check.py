"""One list with one fault planted: is it found by its rule at its place, and is all else that is found declared?"""

from __future__ import annotations

import tomllib
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from random import Random

from kitproof.proofing.findings import Finding
from tests.corpus.draft import MENDED, Draft, Line, before, draft
from tests.corpus.planters import PLANTERS, Planter
from tests.corpus.touched import bare_rigs, touched
from tests.proofing.lists import book, book_with, everything, proofed, proofed_among

CONSEQUENCES = Path(__file__).with_name("consequences.toml")


@dataclass
class Result:
    """What lists with planted faults came to: by rule how many were planted and found by it.

    `met` counts declared consequences by rule and by what was found.
    """

    lists: int = 0
    planted: Counter[str] = field(default_factory=Counter)
    found: Counter[str] = field(default_factory=Counter)
    met: Counter[tuple[str, str]] = field(default_factory=Counter)
    problems: list[str] = field(default_factory=list)

    def add(self, other: Result) -> None:
        self.lists += other.lists
        self.planted += other.planted
        self.found += other.found
        self.met += other.met
        self.problems += other.problems


@cache
def consequences() -> Mapping[str, Mapping[str, str]]:
    """For each rule what may be found beside it, and why.

    A rule's name stands for a finding of it, certain or in doubt, `itself` for one of the planted rule elsewhere,
    `cannot tell` for any rule that does not know.
    """
    found: Mapping[str, Mapping[str, str]] = tomllib.loads(CONSEQUENCES.read_text(encoding="utf-8"))
    return found


@cache
def _found_before(name: str) -> frozenset[tuple[str, str]]:
    return frozenset((each.rule, each.subject) for each in everything(proofed(before(name)).findings))


@cache
def _rigs_before(name: str) -> Mapping[str, object]:
    return bare_rigs(before(name))


def planted(rule: str, chance: Random) -> tuple[Draft, Line, Planter] | None:
    """A fault of a rule, by any of its planters in any of the samples that has a place for it."""
    ways = [(planter, name) for planter in PLANTERS[rule] for name in MENDED]
    # A planter may find that the place it drew will not do; another draw may.
    for planter, name in chance.sample(ways, len(ways)) * 4:
        paper = draft(name)
        line = planter(paper, chance)
        if line is not None:
            return paper, line, planter
    return None


def check(rule: str, chance: Random, called: str) -> Result:
    """Plants one fault of a rule and judges what is found of it."""
    made = planted(rule, chance)
    if made is None:
        return Result(1, problems=[f"{called}, {rule}: no place for it in any sample"])
    paper, line, planter = made
    place = paper.place(line)
    by = book() if paper.settings is None else book_with(paper.settings)
    lists = paper.read_all()
    found = [each for each in everything(proofed_among(lists, by).findings) if not each.quiet]
    hits = [each for each in found if _is_hit(each, rule, place)]
    typed = line.text.strip().encode("utf-8", "replace").decode()
    here = f"{called}, {rule}, {planter.__name__} in {paper.name}, line {place[1]} of {place[0]} “{typed}”"
    result = Result(1, Counter([rule]))
    if hits:
        result.found[rule] += 1
        spans = [(each.where.column, each.where.to_column) for each in hits]
        if not all(0 < start <= end <= len(line.text) + 1 for start, end in spans):
            result.problems.append(f"{here}: columns {spans} are no stretch of the line")
    else:
        elsewhere = [(each.outcome, each.where.path, each.where.line) for each in found if each.rule == rule]
        result.problems.append(f"{here}: not found; of that rule: {elsewhere or 'nothing'}")
    others = [each for each in found if each not in hits and (each.rule, each.subject) not in _found_before(paper.name)]
    changed = touched(_rigs_before(paper.name), lists[0]) if others else frozenset()
    _judge_others(result, rule, others, here, changed)
    return result


def _is_hit(finding: Finding, rule: str, place: tuple[str, int]) -> bool:
    at = (finding.where.path, finding.where.line)
    return (finding.rule, finding.outcome, at) == (rule, "fails", place)


def _judge_others(result: Result, rule: str, others: Sequence[Finding], here: str, changed: frozenset[str]) -> None:
    """Each finding beside the planted one is declared, and of no rig that the fault leaves as it was."""
    declared = consequences().get(rule, {})
    for each in others:
        kind = "cannot tell" if each.outcome == "cannot tell" else "itself" if each.rule == rule else each.rule
        if kind in declared and (each.subject in changed or not each.subject.startswith("rig ")):
            result.met[rule, kind] += 1
        else:
            said = f"{each.outcome}, {each.subject}, line {each.where.line} of {each.where.path}"
            result.problems.append(f"{here}: undeclared {kind} ({each.rule}, {said})")


def unused(met: Mapping[tuple[str, str], int]) -> list[str]:
    """Declared consequences that were not met."""
    return [f"{rule}: {kind}" for rule, those in consequences().items() for kind in those if not met.get((rule, kind))]
