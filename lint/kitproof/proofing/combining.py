"""A rule over all combinations of a rig without judging each: in how many it fails, exactly, and the worst of them.

What comes out is what judging them one by one gives, to the last count: tests hold the two to one another.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import product
from typing import NamedTuple

from msgspec import Struct, field

from kitproof.facts.boxes import Box, boxes
from kitproof.facts.hulls import OPEN, BlurredError, DiffersError
from kitproof.facts.rig import RigSubject
from kitproof.facts.subject import Setting
from kitproof.facts.values import Truth
from kitproof.model.rigs import Rig
from kitproof.proofing.findings import OUTCOMES, Outcome
from kitproof.proofing.hits import RULE, Hit, Rank
from kitproof.proofing.laps import Lap
from kitproof.proofing.looking import DOUBTS, KINDS, Case, Kind, Leaf, Rigs, key_of, open_lines
from kitproof.proofing.worst import worst
from kitproof.reading.document import Where
from kitproof.rulebook.rules import Rule, RuleBook

Key = tuple[Where, ...]
Met = list[tuple[Box, Case, Key]]
"""Where things are met: in each box, all the cases there with their keys."""


class _Sum(Struct):
    """What a rule comes to for one subject."""

    met: dict[Outcome, list[Leaf]] = field(default_factory=dict)
    missing: dict[str, tuple[Rank, int]] = field(default_factory=dict)
    applied: bool = False
    unsure: list[Leaf] = field(default_factory=list)


def judged_in_boxes(setting: Setting, book: RuleBook, rig: Rig, lap: Lap) -> list[Hit]:
    """The hits of a rig and its joints and stages over every combination, but those that have nothing to say and no
    combination that they apply to."""
    return Combining(setting, book, rig, lap).hits()


class Combining:
    """The rules of a book over the combinations of one rig."""

    def __init__(self, setting: Setting, book: RuleBook, rig: Rig, lap: Lap) -> None:
        self.rigs = Rigs(setting, rig)
        self.book, self.lap = book, lap
        self.boxes = boxes(rig)
        self.of = sum(box.size for box in self.boxes)

    def hits(self) -> list[Hit]:
        """All hits, in the order in which judging one by one would first meet them."""
        found: list[tuple[tuple[Rank, int, int, int, int], Hit]] = []
        for place, kind in enumerate(KINDS):
            rules = self.book.about(kind)
            plain = self._met(kind, None) if any(rule.each is None for rule in rules) else []
            for number, rule in enumerate(rules):
                met = plain if rule.each is None else self._met(kind, rule)
                for (rank, thing, element), hit in self._hits_of(rule, kind, met):
                    found.append(((rank, place, thing, number, element), hit))
                self.lap(f"{RULE} {rule.name}")
        return [hit for _, hit in sorted(found, key=lambda each: each[0])]

    def _met(self, kind: Kind, rule: Rule | None) -> Met:
        """Everything of a kind, box by box: of a rule with a set, for each element of it."""

        def read(rig: RigSubject) -> list[tuple[Case, Key]]:
            found = []
            for number, thing in enumerate(self.rigs.things(kind, rig)):
                envs = (self.rigs.env,) if rule is None else rule.envs(thing, self.rigs.env)
                found += [(Case(kind, number, element), key_of(thing, env)) for element, env in enumerate(envs)]
            return found

        return [(box, case, key) for box, cases in self.rigs.structure(self.boxes, read) for case, key in cases]

    def _hits_of(self, rule: Rule, kind: Kind, met: Met) -> Iterator[tuple[tuple[Rank, int, int], Hit]]:
        sums: dict[Key, _Sum] = {}
        for box, case, _ in met:
            for key, leaf in self._leaves(rule, case, box):
                self._add(sums.setdefault(key, _Sum()), leaf)
        firsts = _first_met(self.rigs, met)
        for key, each in sums.items():
            each.applied = each.applied or any(self._applies(rule, leaf) for leaf in each.unsure)
            if each.applied:
                of = firsts[key].ways if kind == "rig" and rule.each is not None else self.of
                first = firsts[key]
                yield (first.rank, first.case.thing, first.case.element), self._hit(rule, each, of)

    def _add(self, to: _Sum, leaf: Leaf) -> None:
        to.applied = to.applied or leaf.applies is True
        if leaf.applies is None:
            to.unsure.append(leaf)
        if leaf.outcome is None:
            return
        to.met.setdefault(leaf.outcome, []).append(leaf)
        for place, text in enumerate(leaf.missing):
            for name, rank in self._names(text, leaf.box):
                if name not in to.missing or (rank, place) < to.missing[name]:
                    to.missing[name] = (rank, place)

    def _names(self, text: str, box: Box) -> Iterator[tuple[str, Rank]]:
        """What a text comes to over a box, each with the first combination that it comes to in."""
        lines = self.rigs.watch.lines_in(text)
        for chosen in product(*(box.options[line] for line in lines)):
            picks = list(box.first)
            for line, pick in zip(lines, chosen, strict=True):
                picks[line] = pick
            yield self.rigs.watch.spelled(text, picks), tuple(picks)

    def _hit(self, rule: Rule, each: _Sum, of: int) -> Hit:
        hit = Hit(rule, of=of, applied=True)
        hit.counts = {name: sum(leaf.box.size for leaf in met) for name, met in each.met.items()}
        hit.missing = tuple(sorted(each.missing, key=lambda name: each.missing[name]))
        hit.choices = {name: [leaf.box.choices for leaf in met] for name, met in each.met.items()}
        if hit.outcome is not None:
            hit.worst[hit.outcome] = worst(self.rigs, rule, each.met[hit.outcome])
        return hit

    # What a rule comes to, box by box

    def _leaves(self, rule: Rule, case: Case, box: Box) -> Iterator[tuple[Key, Leaf]]:
        """All combinations of a box in which a rule applies or may apply, those that are judged alike together."""
        waiting, by = [box], self.rigs.weighing(rule, case)
        while waiting:
            box = waiting.pop()
            try:
                look = self.rigs.look(rule, case, box)
            except (DiffersError, BlurredError) as why:
                waiting += self.rigs.apart(box, why, by)
                continue
            given, verdict = look.judgement.given.truth, look.judgement.verdict
            if given is Truth.FALSE:
                continue
            alike = not look.blurred or verdict.truth not in DOUBTS or self._in_doubt(rule, case, box, look.blurred)
            if not alike:
                waiting += self.rigs.apart(box, look.blurred, by)
                continue
            outcome = next((name for name in OUTCOMES if name == look.judgement.outcome), None)
            missing = verdict.missing if outcome == "cannot tell" else ()
            applies = True if given is Truth.TRUE or verdict.truth in DOUBTS or not look.blurred else None
            for key, part in _keyed(self.rigs, look.key, box):
                yield key, Leaf(part, case, outcome, missing, applies)

    def _in_doubt(self, rule: Rule, case: Case, box: Box, blurred: frozenset[int]) -> bool:
        if self.rigs.few(box, blurred):
            return False
        try:
            return self.rigs.in_doubt(rule, case, box)
        except (DiffersError, BlurredError):
            return False

    def _applies(self, rule: Rule, leaf: Leaf) -> bool:
        """Whether a rule applies in any combination of a box."""
        waiting, by = [leaf.box], self.rigs.weighing(rule, leaf.case)
        while waiting:
            box = waiting.pop()
            try:
                look = self.rigs.look(rule, leaf.case, box)
            except (DiffersError, BlurredError) as why:
                waiting += self.rigs.apart(box, why, by)
                continue
            given = look.judgement.given.truth
            if given is Truth.TRUE or (given is not Truth.FALSE and not look.blurred):
                return True
            if given is not Truth.FALSE:
                waiting += self.rigs.apart(box, look.blurred, by)
        return False


def _keyed(rigs: Rigs, key: Key, box: Box) -> Iterator[tuple[Key, Box]]:
    """A box by the keys that its combinations have."""
    lines = open_lines(key)
    for chosen in product(*(box.options[line] for line in lines)):
        part = box
        for line, pick in zip(lines, chosen, strict=True):
            part = part.having(line, (pick,))
        where = {line: rigs.rig.lines[line].options[pick].where for line, pick in zip(lines, chosen, strict=True)}
        yield tuple(where[each.line] if each.path == OPEN else each for each in key), part


class _First(NamedTuple):
    """The first combination in which a key is met, as which case, and in how many it is."""

    rank: Rank
    case: Case
    ways: int


def _first_met(rigs: Rigs, met: Met) -> dict[Key, _First]:
    found: dict[Key, _First] = {}
    for box, case, key in met:
        for spelled, part in _keyed(rigs, key, box):
            before = found.get(spelled)
            here = _First(part.first, case, part.size)
            if before is not None:
                first = min(before, here, key=lambda each: (each.rank, each.case))
                here = first._replace(ways=before.ways + here.ways)
            found[spelled] = here
    return found
