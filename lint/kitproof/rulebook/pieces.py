"""The pieces of a rule's words: conditions, numbers, texts with holes, and places, each checked where it stands."""

from __future__ import annotations

import re

from msgspec import Struct, field

from kitproof.facts.values import thing
from kitproof.rulebook.check import checked
from kitproof.rulebook.errors import RuleError, did_you_mean
from kitproof.rulebook.messages import HOLE, Hole, Rival, Template, prints_as_share, shares_in, split_unit
from kitproof.rulebook.rulefile import Value, quoted
from kitproof.rulebook.rules import Number, Test
from kitproof.rulebook.scope import HOUSE, Scope, a, described
from kitproof.rulebook.typed import CompareNumbers, InReach, Read, Typed, parts_of
from kitproof.words.dimensions import NUMBER, in_words
from kitproof.words.kinds import ENTRIES, KINDS, fields_of
from kitproof.words.units import UNITS


def field_words() -> frozenset[str]:
    """Every field of every entry and kind of part, as rules spell them: places in the text that a rule may point at."""
    tables = [fields_of("part", kind) for kind in KINDS] + [fields_of(entry) for entry in ENTRIES]
    return frozenset(each.name for table in tables for each in table.values())


FIELDS = field_words()


class Pieces(Struct):
    """Reads values of one rule in its scope, and keeps its mistakes and everything that it asks of its facts.

    `tests` are the rule's conditions, once they are read: messages must still show their numbers.
    """

    scope: Scope
    errors: list[RuleError]
    expressions: list[Typed] = field(default_factory=list)
    tests: tuple[Typed, ...] = ()

    # Expressions

    def expression(self, value: Value, wanted: str) -> Typed | None:
        """A checked expression; its mistakes are noted at their places."""
        typed, problems = checked(value.text, self.scope, wanted)
        self.errors.extend(value.error(each.says, each.start, each.end) for each in problems)
        if typed is not None:
            self.expressions.append(typed)
        return typed

    def test(self, value: Value | None) -> Test | None:
        if value is None or not value.text:
            return None
        typed = self.expression(value, "truth")
        return None if typed is None else Test(value.text, typed)

    def number(self, value: Value | None) -> Number | None:
        if value is None or not value.text:
            return None
        typed = self.expression(value, "number")
        return None if typed is None else Number(value.text, typed)

    # Texts

    def template(self, value: Value | None) -> Template | None:
        """A text in quotes with its holes."""
        if value is None or not value.text:
            return None
        inner = quoted(value)
        if isinstance(inner, RuleError):
            self.errors.append(inner)
            return None
        return self.holes(inner)

    def holes(self, inner: Value) -> Template | None:
        """The pieces of a text."""
        before, at = len(self.errors), 0
        pieces: list[str | Hole] = []
        for found in re.finditer(HOLE, inner.text):
            pieces.append(self._plain(inner, at, found.start()))
            hole = self._hole(inner.cut(found.start(1), found.end(1)))
            if hole is not None:
                pieces.append(hole)
            at = found.end()
        pieces.append(self._plain(inner, at, len(inner.text)))
        if len(self.errors) > before:
            return None
        return Template(inner.text, tuple(piece for piece in pieces if piece), rivals_of(self.tests))

    def _plain(self, inner: Value, start: int, end: int) -> str:
        text = inner.text[start:end]
        for brace in "{}":
            if brace in text:
                at = start + text.index(brace)
                says = "this brace opens a hole and none closes it" if brace == "{" else "this brace closes no hole"
                self.errors.append(inner.error(says, at, at + 1))
        return text

    def _hole(self, value: Value) -> Hole | None:
        if not value.text.strip():
            self.errors.append(value.error("a hole names what to print: {carried}"))
            return None
        text, asked = split_unit(value.text)
        typed = self.expression(value.cut(0, len(text)), "")
        if typed is None:
            return None
        unit = None
        if asked:
            start = value.text.rindex(asked)
            unit = UNITS.get(asked)
            says = "" if unit else f"{asked} is not a unit known here.{did_you_mean(asked, UNITS)}"
            if unit and typed.type is not HOUSE and typed.type.dimension != unit.dimension:
                says = f"{text.strip()} is {described(typed.type)}, and {asked} is a unit of {in_words(unit.dimension)}"
            if says:
                self.errors.append(value.error(says, start, start + len(asked)))
                return None
        return Hole(text.strip(), typed, unit, prints_as_share(typed, shares_in(self.tests)))

    def texts(self, values: list[Value]) -> tuple[str, ...]:
        """Texts in quotes that have no holes."""
        found = []
        for value in values:
            if value.text:
                inner = quoted(value)
                if isinstance(inner, RuleError):
                    self.errors.append(inner)
                else:
                    found.append(inner.text)
        return tuple(found)

    # Places

    def place(self, value: Value | None) -> tuple[str, ...]:
        """A place: the subject itself, a field of its entry, or what facts lead to."""
        if value is None or not value.text:
            return ()
        words = tuple(value.text.split("."))
        if words[0] == self.scope.subject and words[0] not in self.scope.names():
            words = words[1:]
        of, at = thing(self.scope.subject), 0
        for number, word in enumerate(words):
            known = self.scope.facts_of(of)
            variable = self.scope.variables.get(word) if number == 0 else None
            if variable is None and word not in known and (number < len(words) - 1 or word not in FIELDS):
                near = did_you_mean(word, {*known, *(self.scope.variables if number == 0 else ())})
                says = f"{word} is no place in {a(of.kind or of.subject)}.{near}"
                self.errors.append(value.error(says, at, at + len(word)))
                return ()
            of = variable or (known[word].type if word in known else of)
            if number < len(words) - 1 and of.sort != "thing":
                self.errors.append(value.error(f"{word} is {described(of)}: nothing leads on from it", at))
                return ()
            at += len(word) + 1
        return words

    def read_of(self, path: tuple[str, ...]) -> Read | None:
        """What reads the thing or fact at a place; None for a field that no fact is about."""
        read = Read("", (), thing(self.scope.subject))
        for number, word in enumerate(path):
            if number == 0 and word in self.scope.variables:
                read = Read(word, (), self.scope.variables[word])
                continue
            fact = self.scope.facts_of(read.type).get(word) if read.type.sort == "thing" else None
            if fact is None:
                return None
            read = Read(read.variable, (*read.steps, word), fact.type, fact.certain)
        return read


def rivals_of(tests: tuple[Typed, ...]) -> tuple[Rival, ...]:
    """The numbers that conditions compare, outside `any`, `no` and `count`, whose elements no message stands for."""
    found: list[Rival] = []
    for test in tests:
        for node in _outside_sets(test):
            if isinstance(node, CompareNumbers | InReach):
                for side in (node.left, node.right):
                    found.append(Rival(side.type.dimension or NUMBER, side))
    return tuple(found)


def _outside_sets(node: Typed) -> list[Typed]:
    inside = [] if hasattr(node, "where") else [each for part in parts_of(node) for each in _outside_sets(part)]
    return [node, *inside]
