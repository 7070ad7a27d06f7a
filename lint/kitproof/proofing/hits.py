"""What one rule comes to for one subject, over all combinations in which the subject is met."""

from __future__ import annotations

from msgspec import Struct, field

from kitproof.facts.subject import Subject
from kitproof.facts.values import Amount, Truth, joined
from kitproof.proofing.findings import OUTCOMES, Outcome
from kitproof.rulebook.compile import Env
from kitproof.rulebook.rules import Rule

RULE = "judging"
"""What a lap of one rule is called, before its name."""


Rank = tuple[int, ...]
"""One combination: the option that is chosen of each line. In the order written they rank as they are read."""

Choices = tuple[tuple[int, ...], ...]
"""Combinations: for each line the options that any of them has; none where nothing of the line stands."""


class Hit(Struct):
    """What one rule comes to for one subject so far: how often each outcome was met, and the worst case of each.

    `choices` are the combinations in which each outcome was met, where the subject is a rig or of one. The worst case
    is there for the strongest outcome at least.
    """

    rule: Rule
    of: int = 0
    counts: dict[Outcome, int] = field(default_factory=dict)
    worst: dict[Outcome, tuple[tuple[float, float], Subject, Env]] = field(default_factory=dict)
    missing: tuple[str, ...] = ()
    applied: bool = False
    choices: dict[Outcome, list[Choices]] = field(default_factory=dict)

    @property
    def outcome(self) -> Outcome | None:
        """The strongest outcome met; None where there is nothing to say."""
        return next((each for each in OUTCOMES if each in self.counts), None)

    def add(self, thing: Subject, env: Env, choices: Choices | None = None) -> None:
        """Judges one more combination."""
        judgement = self.rule.judge(thing, env)
        self.of += 1
        if judgement.given.truth is not Truth.FALSE:
            self.applied = True
        outcome = next((each for each in OUTCOMES if each == judgement.outcome), None)
        if outcome is None:
            return
        if outcome == "cannot tell":
            self.missing = joined(self.missing, judgement.verdict.missing)
        self.counts[outcome] = self.counts.get(outcome, 0) + 1
        if choices is not None:
            self.choices.setdefault(outcome, []).append(choices)
        bad = how_bad(self.rule, thing, env)
        if outcome not in self.worst or bad > self.worst[outcome][0]:
            self.worst[outcome] = (bad, thing, env)


def how_bad(rule: Rule, thing: Subject, env: Env) -> tuple[float, float]:
    """By how much a rule fails, to tell which case to show: from least to most."""
    worst = rule.how_bad(thing, env)
    return (worst.low, worst.high) if isinstance(worst, Amount) else (0.0, 0.0)
