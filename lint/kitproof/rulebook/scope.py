"""What names stand for in the expressions of a rule.

Names resolve in this order: calls and limits of the rule, the variables of `each` and of quantifiers, then the facts of
the rule's subject. A name that is a thing leads on by dots.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping

from msgspec import Struct, field
from msgspec.structs import replace

from kitproof.facts.fact import Fact
from kitproof.facts.values import Type, thing
from kitproof.rulebook import syntax
from kitproof.rulebook.errors import did_you_mean
from kitproof.rulebook.limits import Limit
from kitproof.rulebook.typed import LimitRead, Read, Typed
from kitproof.words.dimensions import in_words
from kitproof.words.phrases import with_article

Vocabulary = Mapping[str, Mapping[str, Fact]]
Knows = Callable[[str, str], bool]

HOUSE = Type("text", subject="tag")
"""The type of a house's own word before its use tells whether it is a number or a text."""

TAGGED = ("part", "rig", "move", "case")
"""Subjects whose entries may carry a house's own words."""


def knows_all(kind: str, name: str) -> bool:
    """Takes every field of a part as one that every kind has."""
    return True


class Scope(Struct, frozen=True):
    """The names that an expression may use. A call or limit that is itself mistaken is None: it was spoken of there."""

    subject: str
    vocabulary: Vocabulary
    knows: Knows = knows_all
    calls: Mapping[str, Typed | None] = field(default_factory=dict)
    limits: Mapping[str, Limit | None] = field(default_factory=dict)
    variables: Mapping[str, Type] = field(default_factory=dict)

    def having(self, name: str, type_: Type) -> Scope:
        return replace(self, variables={**self.variables, name: type_})

    def facts_of(self, of: Type) -> dict[str, Fact]:
        """What can be said of a thing: of a part whose kind is fixed, only what that kind has."""
        facts = dict(self.vocabulary.get(of.subject, {}))
        if of.subject == "part" and of.kind:
            facts = {name: each for name, each in facts.items() if self.knows(of.kind, name)}
            facts.update(self.vocabulary.get(f"part {of.kind}", {}))
        return facts

    def names(self) -> set[str]:
        """Every name that can stand first."""
        return {*self.calls, *self.limits, *self.variables, *self.vocabulary.get(self.subject, {})}


class Problem(Struct, frozen=True):
    """A mistake in an expression, by places in its text."""

    says: str
    start: int
    end: int


class MistakenError(Exception):
    """Something in an expression that was already spoken of, so that nothing more can be said of what holds it."""


def a(subject: str) -> str:
    """A subject or kind with its article: a rig, an item, sticks."""
    return with_article(subject.replace("_", " "))


def described(of: Type) -> str:
    """What a person calls a type."""
    if of is HOUSE or of.subject == "tag":
        return "a house's own word"
    if of.dimension is not None:
        said = in_words(of.dimension)
        return said if of.sort == "number" else f"a reach of {said.removeprefix('a ').removeprefix('an ')}"
    if of.sort == "thing":
        return a(of.kind or of.subject)
    if of.sort == "set":
        return "a set"
    return {"text": "a word", "truth": "a yes or no"}.get(of.sort, of.sort)


def resolve(name: syntax.Name, scope: Scope, problems: list[Problem]) -> Typed:
    """What a name stands for. Raises MistakenError after noting why it stands for nothing."""
    first = name.words[0]
    if first in scope.calls:
        called = scope.calls[first]
        if called is None:
            raise MistakenError
        return _led_on(called, name, scope, problems)
    if first in scope.limits:
        limit = scope.limits[first]
        if limit is None:
            raise MistakenError
        read = LimitRead(limit, Type("number", limit.dimension))
        return _led_on(read, name, scope, problems)
    if first in scope.variables:
        return _led_on(Read(first, (), scope.variables[first]), name, scope, problems)
    return _steps(Read("", (), thing(scope.subject)), name, 0, scope, problems)


def _led_on(read: Typed, name: syntax.Name, scope: Scope, problems: list[Problem]) -> Typed:
    if len(name.words) == 1:
        return read
    if not isinstance(read, Read):
        said = f"{name.words[0]} is {described(read.type)}: nothing leads on from it"
        raise noted(problems, said, name.start, name.end)
    return _steps(read, name, 1, scope, problems)


def _steps(read: Read, name: syntax.Name, at: int, scope: Scope, problems: list[Problem]) -> Read:
    """Follows a name from its word number `at` on, from a thing to what it leads to."""
    start = name.start + sum(len(word) + 1 for word in name.words[:at])
    while at < len(name.words):
        word = name.words[at]
        if read.type.sort != "thing":
            said = f"{'.'.join(name.words[:at])} is {described(read.type)}: nothing leads on from it"
            raise noted(problems, said, name.start, start + len(word))
        if word == "tag" and at + 2 == len(name.words) and read.type.subject in TAGGED:
            return Read(read.variable, (*read.steps, f"tag.{name.words[at + 1]}"), HOUSE)
        fact = scope.facts_of(read.type).get(word)
        if fact is None:
            raise noted(problems, _unknown(word, read, scope), start, start + len(word))
        rests_on = _rests_on(fact, scope.facts_of(read.type))
        read = Read(read.variable, (*read.steps, word), fact.type, fact.certain, rests_on, fact.least)
        start, at = start + len(word) + 1, at + 1
    return read


def _rests_on(fact: Fact, facts: Mapping[str, Fact]) -> frozenset[str] | None:
    """A fact and all that it is worked out from, by way of others too; None where it does not say."""
    if fact.uses is None:
        return None
    met: set[str] = set()
    waiting = [fact.name]
    while waiting:
        name = waiting.pop()
        if name not in met:
            met.add(name)
            waiting.extend(facts[name].uses or () if name in facts else ())
    return frozenset(met)


def _unknown(word: str, read: Read, scope: Scope) -> str:
    if read.steps or read.variable:
        facts = scope.facts_of(read.type)
        return f"{a(read.type.kind or read.type.subject)} has no {word}.{did_you_mean(word, facts)}"
    return f"{word} is not known about {a(scope.subject)}.{did_you_mean(word, scope.names())}"


def noted(problems: list[Problem], says: str, start: int, end: int) -> MistakenError:
    """Notes a mistake; what is returned is to be raised."""
    problems.append(Problem(says, start, end))
    return MistakenError()
