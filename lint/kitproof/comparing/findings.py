"""Which findings came, went, or are graver or lighter than they were."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from typing import Literal

from msgspec import Struct

from kitproof.proofing.findings import OUTCOMES, Finding, in_order
from kitproof.rulebook.settings import GRADES

Step = Literal["came", "graver", "waived", "lighter", "went"]


class Stepped(Struct, frozen=True):
    """A finding that is not as it was: `finding` as it is now, or as it was where it went; `was` as it was."""

    step: Step
    finding: Finding
    was: Finding | None = None


class Findings(Struct, frozen=True):
    """The findings that are not as they were, and how many are."""

    stepped: tuple[Stepped, ...]
    stayed: int


class Renamed:
    """Leads from what things were called to what they are called now, in any text that names them."""

    def __init__(self, labels: Mapping[str, str]) -> None:
        self.labels = {was: now for was, now in labels.items() if was != now}
        longest = sorted(self.labels, key=len, reverse=True)
        self.pattern = re.compile("|".join(rf"(?<!\w){re.escape(each)}(?!\w)" for each in longest)) if longest else None

    def __call__(self, text: str) -> str:
        return text if self.pattern is None else self.pattern.sub(lambda match: self.labels[match[0]], text)


def findings(was: Sequence[Finding], now: Sequence[Finding], renamed: Renamed) -> Findings:
    """Compares what was found with what is found. A finding that another keeps under `also` is found all the same."""
    before, after = dict(_named(was, renamed)), dict(_named(now, Renamed({})))
    stepped = [_step(before.get(name), each) for name, each in after.items()]
    gone = [Stepped("went", each, each) for name, each in before.items() if name not in after]
    done = [each for each in (*stepped, *gone) if each is not None]
    place = {id(each): number for number, each in enumerate(in_order([one.finding for one in done]))}
    done.sort(key=lambda each: (each.step == "went", place[id(each.finding)]))
    return Findings(tuple(done), sum(each is None for each in stepped))


def _named(found: Sequence[Finding], renamed: Renamed) -> Iterator[tuple[tuple[str, str, str, int], Finding]]:
    """Each finding with what names it in either list: its rule, what it is about, and which it is of those alike."""
    seen: dict[tuple[str, str, str], int] = {}
    for each in (one for top in found for one in (top, *top.also)):
        if each.quiet:
            continue
        name = (each.rule, renamed(each.subject), renamed(each.thing))
        seen[name] = seen.get(name, 0) + 1
        yield (*name, seen[name]), each


def _step(was: Finding | None, now: Finding) -> Stepped | None:
    if was is None:
        return Stepped("came", now)
    if (was.waived is None) != (now.waived is None):
        return Stepped("waived" if now.waived is not None else "came", now, was)
    before, after = _weight(was), _weight(now)
    if before == after:
        return None
    return Stepped("graver" if after < before else "lighter", now, was)


def _weight(finding: Finding) -> tuple[int, int]:
    """The less, the worse: by outcome, then by its own grade."""
    return OUTCOMES.index(finding.outcome), GRADES.index(finding.grade)
