"""The search: pairings in the order in which they are ranked, each judged in full unless something rules it out first.

Mating comes first, then bounds on what a part bears, then what needs nothing below the head, then the whole rig. What
is ruled out by one part, or by two, is ruled out for all pairings with them. Nothing is sampled.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cached_property
from itertools import groupby, product

from msgspec.structs import replace

from kitproof.facts.boxes import count
from kitproof.facts.build import combinations
from kitproof.facts.rig import RigSubject
from kitproof.mending.ground import Ground
from kitproof.mending.pairing.bounds import overloads
from kitproof.mending.pairing.frame import framed
from kitproof.mending.pairing.joining import Joining, Runs
from kitproof.mending.pairing.judging import Judged, Verdict, rules_of
from kitproof.mending.pairing.margins import margins, tightest
from kitproof.mending.pairing.results import (
    Carries,
    Paired,
    Pairing,
    TurnedDown,
    Undecided,
)
from kitproof.mending.pairing.stock import Candidate, candidates, mass_of
from kitproof.mending.stock import IN_STOCK, OUT_OF_STOCK, Stock
from kitproof.model.parts import Part
from kitproof.model.rigs import Rig
from kitproof.proofing.questions import Question, questions

DOES_NOT_MATE = "does not mate"
UNDECIDED_FOR_EACH = 4
"""So many undecided pairings are looked at for each that is asked for, while none carries: what is not known then is
most likely the rig's, and is to be asked for first."""

Names = tuple[str, ...]


class Search:
    """One search for one rig. `most` is how many pairings are asked for; None for all."""

    def __init__(self, ground: Ground, rig: Rig, most: int | None) -> None:
        self.ground, self.rig, self.most = ground, rig, most
        self.frame, self.stock = framed(rig), Stock(ground, rig)
        self.joining = Joining(tuple(ground.kitlist.parts.values()))
        self.rules = rules_of(ground.given.book)
        self.candidates = {slot: candidates(self.stock, slot) for slot in self.frame.slots}
        self.turned: dict[Names, TurnedDown] = {}
        self.undecided: dict[Names, Undecided] = {}
        self.tops: dict[str, list[Pairing]] = {}
        self.stands: dict[Names, list[Pairing]] = {}
        self.carries: list[Carries] = []
        self.done: set[Names] = set()

    def paired(self) -> Paired:
        """What is found."""
        self._mating()
        whole = self._look()
        gone = {name for names in self.turned for name in names if len(names) == 1}
        turned = [each for names, each in self.turned.items() if len(names) == 1 or not gone.intersection(names)]
        return Paired(
            rig=self.rig.name,
            combinations=count(self.rig),
            stock={slot: len(each) for slot, each in self.candidates.items()},
            carries=tuple(self.carries),
            undecided=tuple(self.undecided.values()),
            turned_down=tuple(turned),
            questions=self._questions(),
            whole=whole,
        )

    # What does not mate with anything

    def _mating(self) -> None:
        """Turns down what finds nothing to stand on or to carry, until nothing more falls away."""
        falls = True
        while falls:
            falls = False
            for below, slot in zip((None, *self.frame.slots), self.frame.slots, strict=False):
                for each in self._left(slot):
                    carried = any(self._runs(slot, each.part, upper) for upper in self._uppers(slot))
                    stands = below is None or self._is_over(below, each.part)
                    if not (carried and stands):
                        self._turn_down((each.part,), Verdict("fails", "", DOES_NOT_MATE))
                        falls = True

    def _left(self, slot: str) -> list[Candidate]:
        return [each for each in self.candidates[slot] if (each.part.name,) not in self.turned]

    def _chosen_above(self, slot: str) -> str:
        """The slot that is chosen and stands right on this one; "" where something else may."""
        above = self.frame.above[slot]
        return above[0] if len(above) == 1 and isinstance(above[0], str) else ""

    def _uppers(self, slot: str) -> Sequence[Part | None]:
        """What may stand on a slot; None where that is not for a choice."""
        over = self._chosen_above(slot)
        return [each.part for each in self._left(over)] if over else [None]

    def _is_over(self, below: str, part: Part) -> bool:
        if self._chosen_above(below) != part.kind:
            return True
        return any(self._runs(below, each.part, part) for each in self._left(below))

    def _runs(self, slot: str, part: Part, upper: Part | None) -> Runs:
        """The adapters between a part that is chosen and what stands on it. Where now a riser and now the head does, or
        nothing, none is put in."""
        above = self.frame.above[slot]
        uppers = [upper] if upper is not None else [each for each in above if isinstance(each, Part)]
        mixed = upper is None and len(uppers) < len(above)
        return ((),) if mixed else self.joining.runs(part, uppers)

    # The order in which they are ranked

    def _look(self) -> bool:
        """Judges group after group of pairings that rank alike; False where it stops before the last."""
        for group in self._groups():
            if self._enough():
                return False
            found = [each for pairings in group if (each := self._best(pairings)) is not None]
            self.carries += sorted(found, key=_rank)
            if self.most is not None:
                del self.carries[self.most :]
        return True

    def _enough(self) -> bool:
        if self.most is None:
            return False
        doubts = sum(each.parts == each.tried.all_parts for each in self.undecided.values())
        return len(self.carries) >= self.most or (not self.carries and doubts >= self.most * UNDECIDED_FOR_EACH)

    def _groups(self) -> Iterator[list[list[Pairing]]]:
        """Pairings that are alike in stock and in the sizes of head, sticks and slide, in the order of these; for each
        choice of parts one list, with the adapters that may join them."""
        heads, slides = (_by_size(self._left(slot)) for slot in ("head", "slide"))
        sticks = _by_size(self._left("sticks")) if "sticks" in self.frame.slots else [(None,)]
        for stock in range(self._first_stock(), OUT_OF_STOCK + 1):
            for some_heads in heads:
                tops = [top for head in some_heads if head.stock <= stock for top in self._tops(head.part)]
                for some_sticks in sticks if tops else ():
                    under = [each for each in some_sticks if each is None or each.stock <= stock]
                    stands = [stand for each in under for head in some_heads for stand in self._stands(each, head.part)]
                    for some_slides in slides if stands else ():
                        names = {each.part.name for each in some_slides}
                        group = self._pairings(stands, [top for top in tops if top.parts[1].name in names], stock)
                        if group:
                            yield group

    def _first_stock(self) -> int:
        """The best that a whole pairing can be in stock, since there must be a part for each slot."""
        return max(min((each.stock for each in self._left(slot)), default=IN_STOCK) for slot in self.frame.slots)

    def _pairings(self, stands: Sequence[Pairing], tops: Sequence[Pairing], stock: int) -> list[list[Pairing]]:
        """What stands below with what stands above, by the parts that are chosen. What carries it already is not looked
        at again for adapters that there are fewer of."""
        found: dict[Names, list[Pairing]] = {}
        for stand, top in product(stands, tops):
            if stand.parts[-1].name == top.parts[0].name:
                whole = Pairing((*stand.parts[:-1], *top.parts), (*stand.joiners, *top.joiners))
                names = _names(whole.parts)
                if names not in self.done and max(map(self.stock.of, whole.all_parts)) == stock:
                    found.setdefault(names, []).append(whole)
        return list(found.values())

    # What is above the head, and what is below

    def _tops(self, head: Part) -> list[Pairing]:
        """A head with each slide, and the adapters that join them, that will do whatever stands below; kept."""
        if head.name not in self.tops:
            bound = overloads(self.ground.given.book, head, self.least)
            if bound is not None:
                self._turn_down((head,), bound)
            slides = [] if bound is not None else [each.part for each in self._left("slide")]
            self.tops[head.name] = [top for slide in slides for top in self._tops_of(head, slide)]
            self._for_one_reason(head)
        return self.tops[head.name]

    def _for_one_reason(self, head: Part) -> None:
        """Turns a head down by itself where it is, for one reason, with every slide."""
        with_slides = {names: each for names, each in self.turned.items() if names[0] == head.name and len(names) > 1}
        reasons = {(each.rule, each.says) for each in with_slides.values()}
        if len(reasons) == 1 and not self.tops[head.name] and all(names[0] != head.name for names in self.undecided):
            rule, says = reasons.pop()
            self._turn_down((head,), Verdict("fails", rule, says))

    def _tops_of(self, head: Part, slide: Part) -> list[Pairing]:
        between = self._runs("head", head, slide if self._chosen_above("head") else None)
        over = self._runs("slide", slide, None)
        if not (between and over):
            self._turn_down((head, slide), Verdict("fails", "", DOES_NOT_MATE))
        tops = [Pairing((head, slide), joiners) for joiners in product(between, over)]
        return [each for each in tops if self._holds(each)]

    def _holds(self, top: Pairing) -> bool:
        """Whether nothing is said of what stands above the head, whatever stands below; noted where there is."""
        count = len(self.frame.slots) - len(top.parts)
        whole = Pairing((*self._blank[:count], *top.parts), (*((),) * count, *top.joiners))
        verdict = Judged(self.ground.setting, self.rules, self.frame.taking(whole)).above()
        if verdict.outcome:
            self._note(verdict, top.all_parts, whole)
        return not verdict.outcome

    def _stands(self, sticks: Candidate | None, head: Part) -> list[Pairing]:
        """Sticks with a head on them, and the adapters that join the two; kept. Without sticks, the head alone."""
        if sticks is None:
            return [Pairing((head,), ())]
        names = (sticks.part.name, head.name)
        if names not in self.stands:
            self.stands[names] = self._stands_of(sticks.part, head)
        return self.stands[names]

    def _stands_of(self, sticks: Part, head: Part) -> list[Pairing]:
        runs = self._runs("sticks", sticks, head if self._chosen_above("sticks") else None)
        own = head.mass.low if head.mass is not None and head.mass.known else 0.0
        bound = overloads(self.ground.given.book, sticks, self.least + own)
        if not runs:
            self._turn_down((sticks, head), Verdict("fails", "", DOES_NOT_MATE))
        elif bound is not None:
            self._turn_down((sticks, head), bound)
        return [Pairing((sticks, head), (run,)) for run in runs] if bound is None else []

    # One choice of parts

    def _best(self, pairings: Sequence[Pairing]) -> Carries | None:
        """What one choice of parts comes to with the best of the adapters that join them."""
        found = [each for pairing in pairings if (each := self._tried(pairing))]
        if not found:
            return None
        self.done.add(_names(pairings[0].parts))
        return min(found, key=_rank)

    def _tried(self, pairing: Pairing) -> Carries | None:
        """A pairing whose upper part will do, judged as a whole."""
        judged = Judged(self.ground.setting, self.rules, self.frame.taking(pairing))
        verdict = judged.below()
        if verdict.outcome:
            self._note(verdict, pairing.all_parts, pairing)
            return None
        stock = max(map(self.stock.of, pairing.all_parts))
        return Carries(pairing, stock, margins(judged.rigs), judged.watch())

    @cached_property
    def _blank(self) -> tuple[Part, ...]:
        """A part for each slot of which nothing is known."""
        return tuple(Part(kind=slot, name="", where=self.rig.where) for slot in self.frame.slots)

    @cached_property
    def least(self) -> float:
        """The least that stands on the head in the heaviest combination whatever is chosen, in kg."""
        empty = Pairing(self._blank, ((),) * len(self._blank))
        builds = combinations(self.frame.taking(empty))
        return max(RigSubject(self.ground.setting, build).amount("carried").low for build in builds)

    # What is turned down, or undecided

    def _note(self, verdict: Verdict, parts: tuple[Part, ...], pairing: Pairing) -> None:
        if verdict.outcome == "fails":
            self._turn_down(parts, verdict)
            return
        found = Undecided(parts, verdict.rule, verdict.says, verdict.missing, pairing)
        self.undecided.setdefault(_names(parts), found)

    def _turn_down(self, parts: tuple[Part, ...], verdict: Verdict) -> None:
        self.turned.setdefault(_names(parts), TurnedDown(parts, verdict.rule, verdict.says))

    def _questions(self) -> tuple[Question, ...]:
        """What to ask, where nothing carries it for certain: what would settle most for the first that is undecided."""
        first = next(iter(self.undecided.values()), None)
        if first is None or self.carries:
            return ()
        setting, book = self.ground.setting, self.ground.given.book
        rig = self.frame.taking(first.tried)
        alone = replace(setting.kitlist, rigs=(rig,), cases=(), moves={}, own_parts=())
        whole = all(part.name for part in first.tried.parts)
        rules = {rule.name: rule for rule in (self.rules.all_rules if whole else self.rules.above)}
        return tuple(questions(replace(setting, kitlist=alone), replace(book, rules=rules)))


def _by_size(candidates: Sequence[Candidate]) -> list[tuple[Candidate, ...]]:
    return [tuple(group) for _, group in groupby(candidates, key=lambda each: each.size)]


def _names(parts: Sequence[Part]) -> Names:
    return tuple(each.name for each in parts)


def _rank(carries: Carries) -> tuple[float, float, int, Names]:
    """Among those alike in stock and size: the widest margin first, then the least mass, then the fewest adapters."""
    parts = carries.pairing.all_parts
    return tightest(carries.margins), mass_of(parts), carries.pairing.adapters, tuple(each.name for each in parts)


MANY = 1_000
"""Of a rig with more combinations no pairing is looked for: it is judged in every combination, one by one."""


def too_many(rig: Rig) -> str:
    """Why no pairing is looked for, in words; "" where one is."""
    of = count(rig)
    if of <= MANY:
        return ""
    return (
        f"{rig.label} has {of} combinations. A pairing is tried in each of them, {MANY} at most: leave some of its "
        "alternatives out, or ask for another rig."
    )


def paired(ground: Ground, rig: Rig, most: int | None) -> Paired:
    """Which sticks, head and slide carry a rig in every combination, the best `most` of them; None for all.

    A rig with no camera has nothing to be carried, and nothing is chosen for it.
    """
    if all(line.slot != "camera" for line in rig.lines):
        return Paired(rig.name, count(rig), {}, (), (), (), (), True, False)
    return Search(ground, rig, most).paired()
