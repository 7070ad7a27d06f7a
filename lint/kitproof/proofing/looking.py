"""Looking at many combinations of a rig at once: a rule judged on a box, and the box taken apart.

The verdict on a box is that of each combination in it where it is true or false, or where nothing that was looked at
differs between them. Otherwise the box is taken apart, along a line that was looked at.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Hashable, Iterator, Mapping, Sequence
from functools import partial
from itertools import product
from typing import Literal, NamedTuple, TypeVar

from msgspec.structs import replace

from kitproof.facts.boxes import Blends, Box, build_at
from kitproof.facts.hulls import OPEN, PINNED, PINS, BlurredError, DiffersError, Pin, Watch
from kitproof.facts.mating import JointSubject, joints
from kitproof.facts.outlines import mass_of
from kitproof.facts.rig import RigSubject
from kitproof.facts.stages import StageSubject, stages
from kitproof.facts.subject import Setting, Subject
from kitproof.facts.values import Truth
from kitproof.model.parts import Part
from kitproof.model.rigs import Rig
from kitproof.proofing.findings import Outcome
from kitproof.proofing.hits import how_bad
from kitproof.reading.document import Where
from kitproof.rulebook import compile
from kitproof.rulebook.compile import Condition, Env
from kitproof.rulebook.rules import Judgement, Rule
from kitproof.rulebook.typed import AnyIn, CountIn, Joined, Opposite, SumIn, Typed, all_in

T = TypeVar("T")
DOUBTS = (Truth.UNDECIDED, Truth.MISSING)
Kind = Literal["rig", "joint", "stage"]
KINDS: tuple[Kind, ...] = ("rig", "joint", "stage")
FEW_WAYS = 8
"""In so many ways lines are combined that are taken apart one by one."""

KEPT = 256
"""How many boxes' rigs are kept for the next rule."""


class Case(NamedTuple):
    """One thing that a rule is judged for: of which kind, which of the rig's things of that kind, and for which element
    of the rule's set."""

    kind: Kind
    thing: int
    element: int


class Look(NamedTuple):
    """What a rule comes to on a box: the judgement, the lines that were blurred in it, and the places that tell the
    thing from others of its kind."""

    judgement: Judgement
    blurred: frozenset[int]
    key: tuple[Where, ...]


class Leaf(NamedTuple):
    """Combinations that a rule judges alike: for which case, what for ("" for nothing), what is missing, and whether
    the rule applies in them; None where it may in some."""

    box: Box
    case: Case
    outcome: Outcome | None
    missing: tuple[str, ...]
    applies: bool | None


class Weighing(NamedTuple):
    """What options are put in order by: a number that is worked out for a box, None for what they weigh; and what it
    is told from others by."""

    name: Hashable
    of: Callable[[Box], float] | None


class Rigs:
    """The combinations of one rig, to be looked at in boxes."""

    def __init__(self, setting: Setting, rig: Rig) -> None:
        self.rig, self.plain = rig, setting
        self.watch = Watch()
        self.setting = replace(setting, watch=self.watch)
        self.env = Env(setting.day)
        self.blends = {pin: Blends(rig, self.watch, pin) for pin in (None, *PINS)}
        self._leaves: dict[str, list[tuple[Condition, bool]]] = {}
        self.weights = [[_weight_of(option.part) for option in line.options] for line in rig.lines]
        self._scores: dict[Hashable, dict[int, dict[int, float]]] = {}
        self._rigs: dict[tuple[Box, Pin | None], RigSubject] = {}

    def at(self, box: Box, pin: Pin | None = None) -> RigSubject:
        """The rig of a box."""
        if (box, pin) not in self._rigs:
            if len(self._rigs) >= KEPT:
                del self._rigs[next(iter(self._rigs))]
            self._rigs[box, pin] = RigSubject(self.setting, self.blends[pin].build(box))
        return self._rigs[box, pin]

    def single(self, picks: Sequence[int], box: Box) -> RigSubject:
        """The rig of one combination of a box, as it is judged by itself."""
        return RigSubject(self.plain, build_at(self.rig, picks, box.stands))

    def things(self, kind: Kind, rig: RigSubject) -> Sequence[Subject]:
        """What there is to judge of a kind."""
        if kind == "rig":
            return [rig]
        return joints(rig) if kind == "joint" else stages(rig)

    def find(self, rule: Rule, case: Case, rig: RigSubject) -> tuple[Subject, Env]:
        """The thing of a case, and what the rule is judged with."""
        thing = self.things(case.kind, rig)[case.thing]
        return thing, rule.envs(thing, self.env)[case.element]

    def look(self, rule: Rule, case: Case, box: Box) -> Look:
        """Judges a rule on a box. Raises DiffersError or BlurredError where it cannot."""
        thing, env = self.find(rule, case, self.at(box))
        judgement, blurred = self.noting(lambda: rule.judge(thing, env))
        return Look(judgement, blurred, key_of(thing, env))

    def in_doubt(self, rule: Rule, case: Case, box: Box) -> bool:
        """Whether each comparison of a rule that is in doubt on a box is in doubt in every combination of it.

        It is, where what is compared may be a number in every combination with which it is true, and one with which it
        is false: found by pinning all numbers that are in doubt.
        """
        if rule.name not in self._leaves:
            tests = [test.typed for test in (*rule.given, rule.fails)]
            self._leaves[rule.name] = [
                (compile.condition(each), not any(isinstance(part, AnyIn | CountIn | SumIn) for part in all_in(each)))
                for test in tests
                for each in single_conditions(test)
            ]
        thing, env = self.find(rule, case, self.at(box))
        open_leaves = []
        for holds, plain in self._leaves[rule.name]:
            verdict, blurred = self.noting(partial(holds, thing, env))
            if verdict.truth in DOUBTS and blurred:
                open_leaves.append(holds)
                if not plain:
                    return False
        return bool(open_leaves) and self._both_ways(rule, case, box, open_leaves)

    def _both_ways(self, rule: Rule, case: Case, box: Box, leaves: Sequence[Condition]) -> bool:
        met: list[set[Truth]] = [set() for _ in leaves]
        for pin in PINS:
            thing, env = self.find(rule, case, self.at(box, pin))
            pinned = False
            for holds, truths in zip(leaves, met, strict=True):
                verdict, lines = self.noting(partial(holds, thing, env))
                truths.add(verdict.truth)
                pinned = pinned or PINNED in lines
            if all(truths >= {Truth.TRUE, Truth.FALSE} for truths in met):
                return True
            if not pinned:
                return False
        return False

    def noting(self, make: Callable[[], T]) -> tuple[T, frozenset[int]]:
        """What something gives, and the lines that are blurred in it."""
        self.watch.blurred = set()
        made = make()
        return made, frozenset(self.watch.blurred)

    def apart(self, box: Box, why: DiffersError | BlurredError | frozenset[int], by: Weighing) -> list[Box]:
        """A box taken apart, so that all of its combinations are in one of the parts: into the groups that are asked
        for, else along some lines: each way by itself where there are few, else two halves, of lower and of higher."""
        if isinstance(why, DiffersError):
            return [box.having(why.line, group) for group in why.groups]
        lines = why.lines if isinstance(why, BlurredError) else why
        if self.few(box, lines):
            return [box.at(lines, chosen) for chosen in product(*(box.options[line] for line in sorted(lines)))]
        weights = self._weights_by(by, box, lines)
        spread = {line: _spread([weights[line][each] for each in box.options[line]]) for line in lines}
        line = max(sorted(lines), key=lambda each: spread[each])
        options = sorted(box.options[line], key=lambda each: weights[line][each])
        middle = len(options) // 2
        return [box.having(line, sorted(half)) for half in (options[:middle], options[middle:])]

    def few(self, box: Box, lines: frozenset[int]) -> bool:
        """Whether some lines of a box are combined in few ways: then each by itself is sooner done than halves."""
        return math.prod(len(box.options[line]) for line in lines) <= FEW_WAYS

    def _weights_by(self, by: Weighing, box: Box, lines: frozenset[int]) -> Mapping[int, Mapping[int, float]]:
        """By how much each option of some lines weighs: what is weighed by, with that option and any of the others;
        where that cannot be told, what the option weighs in kg."""
        mine = self._scores.setdefault(by.name, {})
        for line in lines:
            known = mine.setdefault(line, {})
            for option in box.options[line]:
                if option not in known:
                    known[option] = self._score(by, box.having(line, (option,)), self.weights[line][option])
        return mine

    def _score(self, by: Weighing, box: Box, otherwise: float) -> float:
        try:
            score = math.nan if by.of is None else by.of(box)
        except (DiffersError, BlurredError):
            return otherwise
        return score if math.isfinite(score) else otherwise

    def weighing(self, rule: Rule, case: Case) -> Weighing:
        """By how bad a rule says that it is at most."""

        def score(box: Box) -> float:
            return how_bad(rule, *self.find(rule, case, self.at(box)))[1]

        return Weighing((rule.name, case), None if rule.worst is None else score)

    def structure(self, boxes: Sequence[Box], read: Callable[[RigSubject], T]) -> Iterator[tuple[Box, T]]:
        """Boxes in which something that holds no numbers is alike, with what it is."""
        waiting = list(reversed(boxes))
        while waiting:
            box = waiting.pop()
            try:
                yield box, read(self.at(box))
            except DiffersError as why:
                waiting += [box.having(why.line, group) for group in why.groups]
            except BlurredError as why:
                line = min(why.lines)
                waiting += [box.having(line, (option,)) for option in box.options[line]]


def _spread(numbers: Sequence[float]) -> float:
    return max(numbers) - min(numbers)


def single_conditions(node: Typed) -> list[Typed]:
    """The conditions that a truth is folded from: those that hold no `and`, `or` or `not` of their own."""
    if isinstance(node, Opposite):
        return single_conditions(node.of)
    if isinstance(node, Joined):
        return [each for part in node.of for each in single_conditions(part)]
    return [node]


def key_of(thing: Subject, env: Env) -> tuple[Where, ...]:
    """The places by which a thing is the same one in several combinations, and those of what `each` stands for."""
    places: tuple[Where, ...] = ()
    if isinstance(thing, JointSubject):
        places = (thing.upper.where, thing.lower.where)
    elif isinstance(thing, StageSubject):
        places = (thing.after.where,)
    return (*places, *(each.where() for each in env.variables.values()))


def _weight_of(part: Part | None) -> float:
    """About what an option weighs, in kg: to put options in order by, no more."""
    if part is None:
        return 0.0
    low, high = mass_of(part)[0]
    return (low + high) / 2 if math.isfinite(high) else low


def open_lines(key: tuple[Where, ...]) -> tuple[int, ...]:
    """The lines on whose options a key depends."""
    return tuple(dict.fromkeys(each.line for each in key if each.path == OPEN))
