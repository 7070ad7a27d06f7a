"""Warnings about rule files that can be used as they are, but hardly say what their author meant."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence

from kitproof.facts.uses import INPUTS
from kitproof.rulebook.errors import RuleError
from kitproof.rulebook.limit_lines import read_value
from kitproof.rulebook.limits import Dated
from kitproof.rulebook.messages import HOLE
from kitproof.rulebook.never import always, clashes
from kitproof.rulebook.reader import Reader
from kitproof.rulebook.rulefile import Value
from kitproof.rulebook.rules import Rule, Test
from kitproof.rulebook.truths import above
from kitproof.rulebook.typed import (
    AnyIn,
    CompareNumbers,
    CompareWords,
    Constant,
    CountIn,
    LimitRead,
    Read,
    SumIn,
    Typed,
    all_in,
)
from kitproof.words.units import UNITS

UNIT_NAMES = "|".join(re.escape(name) for name in sorted(UNITS, key=len, reverse=True))
NUMBER = re.compile(rf"(?<![\w./-])-?\d+(?:\.\d+)?\s*(?:{UNIT_NAMES})(?![\w²^-])")


def warnings_for(
    readers: Sequence[Reader], rules: Mapping[str, Rule], limit_places: Mapping[str, Value]
) -> list[RuleError]:
    """Everything to be looked at, in all rules."""
    found: list[RuleError] = []
    for reader in readers:
        rule = rules[reader.name]
        found.extend(_comparisons(reader, rule))
        found.extend(_numbers_by_hand(reader, rule))
        found.extend(_not_used(reader, rule))
        found.extend(_unused_calls(reader))
    used = {limit.full_name for rule in rules.values() for limit in rule.limits}
    for name, place in limit_places.items():
        if name not in used:
            found.append(place.error(f"no rule uses {name.rpartition('.')[2]}"))
    return sorted(set(found))


def _comparisons(reader: Reader, rule: Rule) -> Iterable[RuleError]:
    values = [*reader.of("given"), *reader.of("fails")]
    tests = (*rule.given, rule.fails)
    for number, says in clashes([test.typed for test in tests], reader.knows):
        yield values[number].error(says)
    for value, test in zip(values, tests, strict=True):
        for node in all_in(test.typed):
            numbers = isinstance(node, CompareNumbers) and node.left == node.right
            if numbers or (isinstance(node, CompareWords) and (node.left,) == node.right):
                yield value.error("both sides are the same, so this never tells anything")
            elif isinstance(node, CompareNumbers):
                yield from _twice(value, node)
                yield from _shared(value, node)
                same = always(node) if _reads(node) else None
                if same is not None:
                    yield value.error(f"a comparison in this {'holds for every list' if same else 'never holds'}")
        if not _asks(test):
            yield value.error("this asks nothing of the list, so it is always the same")


def _twice(value: Value, node: CompareNumbers) -> Iterable[RuleError]:
    """A number that stands more than once in a comparison counts as if each were another: the result is too wide."""
    reads = [each for each in all_in(node) if isinstance(each, Read) and each.type.sort == "number"]
    for read in dict.fromkeys(reads):
        if reads.count(read) > 1 and not read.certain:
            name = ".".join(filter(None, (read.variable, *read.steps)))
            yield value.error(
                f"{name} stands here more than once, so doubt about it counts twice: let a fact work it out"
            )


def _reads(node: Typed) -> bool:
    return any(isinstance(each, Read | CountIn) for each in all_in(node))


def _shared(value: Value, node: CompareNumbers) -> Iterable[RuleError]:
    """Facts on the two sides that rest on the same things: doubt about those counts twice."""
    left, right = ([each for each in all_in(side) if _doubtful(each)] for side in (node.left, node.right))
    for one in left:
        for other in right:
            if not isinstance(one, Read) or not isinstance(other, Read) or one.rests_on is None:
                continue
            if one == other or (one.variable, one.steps[:-1]) != (other.variable, other.steps[:-1]):
                continue
            shared = one.rests_on & (other.rests_on or frozenset())
            if shared:
                both = " and ".join(INPUTS.get(name, name) for name in sorted(_deepest(shared)))
                says = f"{one.steps[-1]} and {other.steps[-1]} both rest on {both}, so doubt about that counts twice"
                yield value.error(f"{says}: let one fact work it out")


def _deepest(shared: frozenset[str]) -> frozenset[str]:
    """Of what is shared, what stands in lists and books, if anything does."""
    return frozenset(shared & INPUTS.keys()) or shared


def _doubtful(node: Typed) -> bool:
    return isinstance(node, Read) and node.type.sort == "number" and not node.certain and bool(node.steps)


def _asks(test: Test) -> bool:
    return any(isinstance(node, Read | LimitRead | CountIn | SumIn | AnyIn) for node in all_in(test.typed))


def _numbers_by_hand(reader: Reader, rule: Rule) -> Iterable[RuleError]:
    """Numbers typed into a message that the rule does not have, or has as a limit that a house may change."""
    tests = [test.typed for test in (*rule.given, rule.fails)]
    constants = [node for test in tests for node in all_in(test) if isinstance(node, Constant)]
    for value in (*reader.of("says"), *reader.of("doubt")):
        text = re.sub(HOLE, lambda hole: " " * len(hole.group()), value.text)
        for found in NUMBER.finditer(text):
            read = read_value(found.group())
            if isinstance(read, str):
                continue
            names = [limit.name for limit in rule.limits if limit.dimension == read[1] and _has(limit.values, read[0])]
            if names:
                says = f"a house may change this limit: write {{{names[0]}}} in place of {found.group()}"
                yield value.error(says, found.start(), found.end())
            elif not any(_is(constant, read[0]) for constant in constants):
                says = f"the rule does not use {found.group()}, and yet says it"
                yield value.error(says, found.start(), found.end())


def _has(values: Iterable[Dated], number: float) -> bool:
    return any(_same(each.value, number) for each in values)


def _is(constant: Constant, number: float) -> bool:
    return _same(constant.value.low, number)


def _same(one: float, other: float) -> bool:
    return not above(one, other) and not above(other, one)


def _not_used(reader: Reader, rule: Rule) -> Iterable[RuleError]:
    """Facts of the subject that a message prints and on which the rule does not rest. Where a fact does not tell what
    it rests on, nothing is said of any."""
    asked = [test.typed for test in (*rule.given, rule.fails)]
    asked += [each.typed for each in (rule.worst,) if each is not None]
    asked += [each.where.typed for each in rule.quiet if each.where is not None]
    used = [each for typed in asked for each in all_in(typed) if isinstance(each, Read) and _doubtful(each)]
    rests_on = {name for each in used for name in each.rests_on or ()}
    if not used or any(each.rests_on is None for each in used):
        return
    for word, template in (("says", rule.says), ("doubt", rule.doubt)):
        for hole in template.holes if template is not None else ():
            name = _own_fact(hole.typed)
            if name and name not in rests_on:
                value = reader.of(word)[0]
                start = value.text.find(f"{{{hole.text}")
                says = f"the rule does not rest on {hole.text}, and yet says it"
                yield value.error(says, start, start + len(hole.text) + 1)


def _own_fact(node: Typed) -> str:
    """The name of a number of the subject itself; "" for anything else."""
    if isinstance(node, Read) and _doubtful(node) and not node.variable and len(node.steps) == 1:
        return node.steps[0]
    return ""


def _unused_calls(reader: Reader) -> Iterable[RuleError]:
    inside: set[int] = set()
    for typed in reader.expressions:
        inside.update(id(node) for node in all_in(typed) if node is not typed)
    for value in reader.of("call"):
        name = value.text.split(" ")[0]
        called: Typed | None = reader.calls.get(name)
        alone = [typed for typed in reader.expressions if typed is called]
        if called is not None and id(called) not in inside and len(alone) < 2:
            yield value.error(f"nothing uses {name}", 0, len(name))
