"""What the rules say of a rig with a pairing in it: those rules that speak of what is chosen, in all combinations.

First those that need nothing below the head, then those that do. One that fails for certain is reason enough.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from msgspec import Struct

from kitproof.facts.build import combinations
from kitproof.facts.mating import JOINERS, JointSubject, joints
from kitproof.facts.rig import RigSubject
from kitproof.facts.stages import stages
from kitproof.facts.subject import Setting, Subject
from kitproof.facts.values import joined
from kitproof.mending.pairing.results import SLOTS
from kitproof.model.rigs import Rig
from kitproof.rulebook.compile import Env
from kitproof.rulebook.messages import message
from kitproof.rulebook.rules import Rule, RuleBook
from kitproof.rulebook.settings import GRADES
from kitproof.words.kinds import SUPPORT

CHOSEN = (*SLOTS, "adapter", "riser", "stack_weakest", "upper", "lower")
"""Places of a rule that speaks of what is chosen: where it is found, or what its fixes choose or add."""

WRONG = GRADES.index("wrong")

ABOVE = frozenset(
    (
        *("head", "slide", "camera", "lens", "base", "carried", "cog_up", "cog_forward", "cog_left"),
        *("chart_kind", "chart_top", "capacity", "load_share", "safe_share", "height_limit"),
        *("slide_needed", "slide_spare", "counterbalance_needed", "counterbalance_share", "counterbalance_short"),
        *("counterbalance_over", "counterbalance_step", "torque_left", "drag_hold"),
        *("tilts", "tilts_said", "drag", "drag_said", "left_standing"),
    )
)
"""Facts about a rig that are the same whatever stands below its head."""

QUICK = frozenset(("sticks", "legs_at", "legs_share", "sticks_bear", "stack_share", "stack_weakest", "stack_bears"))
"""Facts of what stands below the head that are quickly worked out."""


class Verdict(Struct, frozen=True):
    """What is said of a rig: an outcome, "" where nothing is, with the rule and its headline, and what is not known."""

    outcome: str = ""
    rule: str = ""
    says: str = ""
    missing: tuple[str, ...] = ()


CARRIES = Verdict()


class Rules(Struct, frozen=True):
    """The rules of a book that speak of what is chosen, in the order in which a reason is looked for."""

    joints: tuple[Rule, ...]
    above: tuple[Rule, ...]
    below: tuple[Rule, ...]
    watch: tuple[Rule, ...]
    stages: tuple[Rule, ...]

    @property
    def all_rules(self) -> tuple[Rule, ...]:
        """Those that turn a pairing down."""
        return (*self.joints, *self.above, *self.below, *self.stages)


def rules_of(book: RuleBook) -> Rules:
    """The rules that a pairing is judged by; those of grade `watch` and `note` turn nothing down."""
    mine = [rule for rule in book.rules.values() if _speaks_of_what_is_chosen(rule)]
    grave = sorted(
        (each for each in mine if GRADES.index(each.grade) <= WRONG), key=lambda each: GRADES.index(each.grade)
    )
    of_rigs = [each for each in grave if each.about == "rig"]
    below = [each for each in of_rigs if not _rests_on(each, ABOVE)]
    return Rules(
        joints=tuple(each for each in grave if each.about == "joint"),
        above=tuple(each for each in of_rigs if _rests_on(each, ABOVE)),
        below=tuple(sorted(below, key=lambda each: not _rests_on(each, QUICK))),
        watch=tuple(each for each in mine if each.about in ("rig", "stage") and each.grade == "watch"),
        stages=tuple(each for each in grave if each.about == "stage"),
    )


def _speaks_of_what_is_chosen(rule: Rule) -> bool:
    chosen = (action.path[-1] for action in rule.fixes if action.word in ("choose", "add") and action.path)
    return (rule.at[-1:] != () and rule.at[-1] in CHOSEN) or any(each in CHOSEN for each in chosen)


def _rests_on(rule: Rule, names: frozenset[str]) -> bool:
    """Whether a rule rests on nothing but these facts, and fields of the parts that they are."""
    return bool(rule.terms) and all(name.split(".")[0] in names for name, _ in rule.terms)


class Judged:
    """One rig with a pairing in it, its combinations made once."""

    def __init__(self, setting: Setting, rules: Rules, rig: Rig) -> None:
        self.rules, self.env = rules, Env(setting.day)
        self.rigs = [RigSubject(setting, build) for build in combinations(rig)]

    def above(self) -> Verdict:
        """By what needs nothing below the head."""
        return self._worst(self.rules.above, lambda rig: [rig])

    def below(self) -> Verdict:
        """By the joints of what is chosen, and by what needs the whole rig."""
        found = [
            self._worst(self.rules.joints, _chosen_joints),
            self._worst(self.rules.below, lambda rig: [rig]),
            self._worst(self.rules.stages, stages),
        ]
        return graver(found)

    def watch(self) -> tuple[str, ...]:
        """The headlines of what is worth an eye."""
        found: dict[str, None] = {}
        for rule in self.rules.watch:
            verdict = self._worst((rule,), stages if rule.about == "stage" else lambda rig: [rig])
            if verdict.outcome and verdict.outcome != "cannot tell":
                found[f"{verdict.says}{'' if verdict.outcome == 'fails' else ' (it may be)'}"] = None
        return tuple(found)

    def _worst(self, rules: Sequence[Rule], things: Callable[[RigSubject], Sequence[Subject]]) -> Verdict:
        """The first that fails for certain; else the first that is not decided, with all that is not known."""
        doubts: list[Verdict] = []
        for rule in rules:
            for rig in self.rigs:
                for verdict in _said(rule, things(rig), self.env):
                    if verdict.outcome == "fails":
                        return verdict
                    doubts.append(verdict)
        return graver(doubts)


def graver(verdicts: Sequence[Verdict]) -> Verdict:
    """The first that fails; else the first that says anything, with what is missing of all."""
    failing = next((each for each in verdicts if each.outcome == "fails"), None)
    if failing is not None:
        return failing
    doubts = [each for each in verdicts if each.outcome]
    if not doubts:
        return CARRIES
    first = doubts[0]
    return Verdict(first.outcome, first.rule, first.says, joined(*(each.missing for each in doubts)))


def _said(rule: Rule, things: Sequence[Subject], env: Env) -> Iterator[Verdict]:
    """What one rule says of things that is not quiet."""
    for thing in things:
        for each in rule.envs(thing, env):
            judgement = rule.judge(thing, each)
            outcome = judgement.outcome
            if outcome and not rule.is_quiet(outcome, thing, each):
                missing = judgement.verdict.missing if outcome == "cannot tell" else ()
                yield Verdict(outcome, rule.name, message(rule.title, thing, each), missing)


def _chosen_joints(rig: RigSubject) -> list[JointSubject]:
    """The joints of the support that what is chosen, or what joins it, has a part in."""
    support = (each for each in joints(rig) if {each.upper.line.slot, each.lower.line.slot} <= set(SUPPORT))
    return [each for each in support if {each.upper.line.slot, each.lower.line.slot} & {*SLOTS, *JOINERS}]
