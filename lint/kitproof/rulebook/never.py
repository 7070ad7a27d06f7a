"""Conditions that come out the same for every list, and rules that can never apply."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from msgspec import Struct, field

from kitproof.facts.values import Amount
from kitproof.rulebook import arithmetic
from kitproof.rulebook.scope import Knows, a
from kitproof.rulebook.truths import COMPARED, above
from kitproof.rulebook.typed import (
    Calculation,
    CompareNumbers,
    CompareWords,
    Constant,
    CountIn,
    Joined,
    Opposite,
    Read,
    Typed,
    Word,
    all_in,
)

ANY = Amount(-math.inf, math.inf)
MIRRORED = {"<": ">", "<=": ">=", ">": "<", ">=": "<=", "=": "=", "!=": "!="}
OPPOSITES = {"<": ">=", "<=": ">", ">": "<=", ">=": "<", "=": "!=", "!=": "="}


def possible(node: Typed) -> Amount:
    """All that a number can be, whatever a list says. A limit can be anything: a house may set it."""
    if isinstance(node, Constant):
        return node.value
    if isinstance(node, CountIn):
        return Amount(0.0, math.inf)
    if isinstance(node, Read):
        return Amount(node.least, math.inf)
    if isinstance(node, Calculation) and node.action in ("+", "min", "max", "abs", "*"):
        inner = [possible(each) for each in node.of]
        if node.action == "abs":
            return arithmetic.size(inner[0])
        if node.action in ("min", "max"):
            return arithmetic.least(inner) if node.action == "min" else arithmetic.greatest(inner)
        return arithmetic.plus(*inner) if node.action == "+" else arithmetic.times(*inner)
    return ANY


def always(node: CompareNumbers) -> bool | None:
    """Whether a comparison holds for every list (True) or for none (False); None where it depends on the list."""
    holds, never = COMPARED[node.sign](possible(node.left), possible(node.right))
    return True if holds else False if never else None


def clashes(tests: Sequence[Typed], knows: Knows) -> Iterator[tuple[int, str]]:
    """Why conditions that must all hold never do, each with the number of the test that clashes with one before it,
    and what is asked of a kind of part that has no such thing."""
    said: dict[Read, _Said] = {}
    met: set[tuple[Typed, bool]] = set()
    for number, test in enumerate(tests):
        for node, negated in _must_hold(test, False):
            if (node, not negated) in met:
                yield number, "this is the opposite of what is asked above it, so the rule can never apply"
            met.add((node, negated))
            read = _asked(node)
            if read is not None and said.setdefault(read, _Said(read)).add(node, negated):
                name = ".".join(filter(None, (read.variable, *read.steps)))
                yield number, f"{name} can never be all that is asked of it, so the rule can never apply"
    for number, test in enumerate(tests):
        yield from ((number, says) for says in _not_of_that_kind(test, said, knows))


def _must_hold(node: Typed, negated: bool) -> Iterator[tuple[Typed, bool]]:
    """What must be true, or false where `negated`, for a condition to hold."""
    if isinstance(node, Opposite):
        yield from _must_hold(node.of, not negated)
    elif isinstance(node, Joined) and node.every is not negated:
        for part in node.of:
            yield from _must_hold(part, negated)
    else:
        yield node, negated


def _asked(node: Typed) -> Read | None:
    """The one word or number that a condition compares with what is written in the rule."""
    if isinstance(node, CompareWords):
        assert isinstance(node.left, Read), "a word in quotes stands on the right"
        return node.left if isinstance(node.right[0], Word) else None  # of several all are words
    if isinstance(node, CompareNumbers):
        for one, other in ((node.left, node.right), (node.right, node.left)):
            if isinstance(one, Read) and isinstance(other, Constant):
                return one
    return None


class _Said(Struct):
    """All that the conditions of a rule ask of one word or number."""

    read: Read
    words: set[str] | None = None  # those that it may be; None for any
    refused: set[str] = field(default_factory=set)
    low: float = -math.inf
    high: float = math.inf
    above: bool = False  # whether `low` itself is left out
    below: bool = False  # whether `high` itself is left out

    def add(self, node: Typed, negated: bool) -> bool:
        """Takes in one more condition; whether nothing is left that it could be."""
        if isinstance(node, CompareWords):
            return self._add_words({each.text for each in node.right if isinstance(each, Word)}, node.equal is negated)
        assert isinstance(node, CompareNumbers), "nothing else is asked of a word or a number"
        return self._add_number(node, negated)

    def _add_words(self, words: set[str], refuses: bool) -> bool:
        if refuses:
            self.refused |= words
        else:
            self.words = words if self.words is None else self.words & words
        left = self.words if self.words is not None else set(self.read.type.words) or None
        return left is not None and not left - self.refused

    def _add_number(self, node: CompareNumbers, negated: bool) -> bool:
        straight = isinstance(node.left, Read)
        other = node.right if straight else node.left
        assert isinstance(other, Constant), "looked at in _asked"
        sign = node.sign if straight else MIRRORED[node.sign]
        sign = OPPOSITES[sign] if negated else sign
        written = other.value.low
        if sign in (">", ">=", "=") and not above(self.low, written):
            self.above = sign == ">" or (self.above and not above(written, self.low))
            self.low = written
        if sign in ("<", "<=", "=") and not above(written, self.high):
            self.below = sign == "<" or (self.below and not above(self.high, written))
            self.high = written
        return above(self.low, self.high) or ((self.above or self.below) and not above(self.high, self.low))


def _not_of_that_kind(test: Typed, said: dict[Read, _Said], knows: Knows) -> Iterator[str]:
    """What a condition asks of a part whose kind is fixed by another, and which that kind does not have."""
    for kind, held in said.items():
        if kind.steps[-1] != "kind" or not held.words:
            continue
        before = kind.steps[:-1]
        for node in all_in(test):
            if not isinstance(node, Read) or node.variable != kind.variable or not node.steps:
                continue
            if node.steps[:-1] not in (before, (*before, "part")) or node.steps[-1].startswith("tag."):
                continue
            if not any(knows(each, node.steps[-1]) for each in held.words):
                kinds = " or ".join(a(each) for each in sorted(held.words))
                yield f"{kinds} has no {node.steps[-1]}, so this is never known"
