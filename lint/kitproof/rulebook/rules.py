"""A rule as it is used: its pieces checked, and the book of all rules.

A rule is plain data, so that a book can be kept; the function of an expression is made when it is first asked for.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cached_property

from msgspec import Struct, field

from kitproof.facts.values import Amount, Thing, Truth, Type, Verdict
from kitproof.reading.document import Where
from kitproof.rulebook import compile
from kitproof.rulebook.compile import Amounts, Condition, Env, Values
from kitproof.rulebook.errors import RuleError
from kitproof.rulebook.limits import Limit
from kitproof.rulebook.messages import Template
from kitproof.rulebook.settings import NO_SETTINGS, Settings
from kitproof.rulebook.truths import YES, all_of
from kitproof.rulebook.typed import Typed

OUTCOMES: dict[Truth, str] = {
    Truth.TRUE: "fails",
    Truth.UNDECIDED: "may fail",
    Truth.MISSING: "cannot tell",
}
"""What a truth of `given and fails` comes to. False is no finding."""


class Test(Struct, frozen=True, dict=True):
    """A condition: its text as written, its checked form, and the function that decides it."""

    __test__ = False  # so that pytest does not take it for a class of tests

    text: str
    typed: Typed

    @cached_property
    def holds(self) -> Condition:
        return compile.condition(self.typed)


class Number(Struct, frozen=True, dict=True):
    """A number of a rule: its text as written, its checked form, and the function that works it out."""

    text: str
    typed: Typed

    @cached_property
    def read(self) -> Amounts:
        return compile.amount(self.typed)


class Each(Struct, frozen=True, dict=True):
    """`each POINT in SET`: the name, and the set that it goes through."""

    name: str
    text: str
    typed: Typed
    type: Type

    @cached_property
    def read(self) -> Values:
        return compile.value(self.typed)


class Quiet(Struct, frozen=True):
    """An outcome that is kept out of a proof; `where` is None for always."""

    outcome: str
    where: Test | None


class Action(Struct, frozen=True, dict=True):
    """One fix. `word` is choose, add, pack, order, set, remove or advise; `path` what it is done to, as a place.

    `typed` is what stands there, where facts lead to it, and `what` reads it; `where` is a condition on the mended
    list, `count` how many to order, `value` what a field is set to, `advice` words. `text` is the action as written.
    """

    word: str
    text: str
    path: tuple[str, ...] = ()
    typed: Typed | None = None
    where: Test | None = None
    count: Number | None = None
    value: Template | None = None
    advice: Template | None = None

    @cached_property
    def what(self) -> Values | None:
        return None if self.typed is None else compile.value(self.typed)


class Judgement(Struct, frozen=True):
    """What a rule comes to for one thing: `given` alone, and given and fails as one `and`."""

    given: Verdict
    verdict: Verdict

    @property
    def outcome(self) -> str:
        """fails, may fail, cannot tell, or "" for nothing."""
        truth = self.verdict.truth
        return "" if truth is Truth.FALSE else OUTCOMES[truth]


class Rule(Struct, frozen=True):
    """One rule. `path` is its file within the rules folder; its name and group are from there.

    `at` and `see` are places as `Thing.where` takes them, the `each` name first where they lead from it.
    """

    name: str
    group: str
    path: str
    about: str
    grade: str
    title: Template
    says: Template
    because: Template
    doubt: Template | None
    given: tuple[Test, ...]
    fails: Test
    each: Each | None = None
    worst: Number | None = None
    at: tuple[str, ...] = ()
    see: tuple[tuple[str, ...], ...] = ()
    fixes: tuple[Action, ...] = ()
    covers: tuple[str, ...] = ()
    gather: str = ""
    quiet: tuple[Quiet, ...] = ()
    caution: tuple[Template, ...] = ()
    source: tuple[str, ...] = ()
    once: tuple[str, ...] = ()
    limits: tuple[Limit, ...] = ()
    terms: tuple[tuple[str, str], ...] = ()  # the facts that it rests on, each with its meaning

    def envs(self, thing: Thing, env: Env) -> tuple[Env, ...]:
        """One env for each finding that the rule may make of a thing: one, or one for each element of its set."""
        env = env.on_day_of(thing)
        if self.each is None:
            return (env,)
        found = self.each.read(thing, env)
        if not isinstance(found, tuple):
            return ()
        return tuple(env.having(self.each.name, element) for element in found)

    def judge(self, thing: Thing, env: Env) -> Judgement:
        """Given and fails, given first: what stands after a false one is not looked at."""
        given = all_of(test.holds(thing, env) for test in self.given)
        if given.truth is Truth.FALSE:
            return Judgement(given, given)
        return Judgement(given, all_of((given, self.fails.holds(thing, env))))

    def applies_and_fails(self, thing: Thing, env: Env) -> Verdict:
        """The verdict of `judge` alone."""
        return self.judge(thing, env).verdict

    def how_bad(self, thing: Thing, env: Env) -> Amount | None:
        """`worst`: by how much it fails, to tell which of several to show; None where nothing tells."""
        return self.worst.read(thing, env) if self.worst is not None else None

    def is_quiet(self, outcome: str, thing: Thing, env: Env) -> bool:
        """Whether an outcome is kept out of a proof: a `where` that may not hold keeps nothing out."""
        return any(
            each.outcome == outcome
            and (YES if each.where is None else each.where.holds(thing, env)).truth is Truth.TRUE
            for each in self.quiet
        )

    def place(self, thing: Thing, env: Env) -> Where:
        """The one main place."""
        return self._where(self.at, thing, env)

    def related(self, thing: Thing, env: Env) -> tuple[Where, ...]:
        """The related places, those of a set one by one; never the main one again."""
        found = (spot for path in self.see for spot in self._wheres(path, thing, env))
        return tuple(dict.fromkeys(spot for spot in found if spot != self.place(thing, env)))

    def _wheres(self, path: tuple[str, ...], thing: Thing, env: Env) -> tuple[Where, ...]:
        """The places that a path leads to: several where it is the name of a set."""
        try:
            held = thing.value(path[0]) if len(path) == 1 and path[0] not in env.variables else None
        except LookupError:  # a field that no fact is about has its place all the same
            held = None
        return tuple(each.where() for each in held) if isinstance(held, tuple) else (self._where(path, thing, env),)

    def _where(self, path: tuple[str, ...], thing: Thing, env: Env) -> Where:
        if self.each is not None and path[:1] == (self.each.name,):
            return env.variables[self.each.name].where(path[1:])
        return thing.where(path)


class RuleBook(Struct, frozen=True, dict=True):
    """All rules by name, in the order of their groups and names; those that the house retired stand apart.

    `once` leads from a rule's old names to the one it has now. `numbers` are the facts' own house numbers, in SI, with
    what the house has set. `warnings` are what to look at in the rule files, though they can be used. `never_waived`
    are rules of which the house takes no waiver, `cannot_tell_counts` the grades at which `cannot tell` counts,
    `units` those to print in where a list asks for none. `places` says where a house's own rule files are, by
    path, `house` is what was set, and `by_list` what the house sets for some lists only, by the pattern of their paths.
    `name` tells it from every book made of other files or settings; "" where it has none.
    """

    rules: Mapping[str, Rule]
    once: Mapping[str, str]
    retired: Mapping[str, Rule]
    limits: tuple[Limit, ...]
    numbers: Mapping[str, float]
    warnings: tuple[RuleError, ...] = ()
    never_waived: frozenset[str] = frozenset()
    cannot_tell_counts: tuple[str, ...] = ("stop",)
    units: tuple[str, ...] = ()
    places: Mapping[str, str] = field(default_factory=dict)
    house: Settings = NO_SETTINGS
    by_list: tuple[tuple[str, Settings], ...] = ()
    name: str = ""

    def named(self, name: str) -> Rule | None:
        """The rule of a name or an old name, retired ones included."""
        name = self.once.get(name, name)
        return self.rules.get(name) or self.retired.get(name)

    def about(self, subject: str) -> tuple[Rule, ...]:
        """The rules about a subject."""
        return self._by_subject.get(subject, ())

    @cached_property
    def _by_subject(self) -> Mapping[str, tuple[Rule, ...]]:
        found: dict[str, tuple[Rule, ...]] = {}
        for rule in self.rules.values():
            found[rule.about] = (*found.get(rule.about, ()), rule)
        return found
