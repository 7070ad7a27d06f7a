"""Dimensions and words of an expression, checked: syntax to what can be compiled. Every mistake is found.

A reach and a number are two types: `within` wants a reach on its right, and a reach is compared by its ends.
"""

from __future__ import annotations

from msgspec import Struct, field
from msgspec.structs import replace

from kitproof.facts.values import Amount, Type, number
from kitproof.rulebook import syntax
from kitproof.rulebook.errors import did_you_mean
from kitproof.rulebook.expressions import UnreadableError, parse
from kitproof.rulebook.scope import HOUSE, MistakenError, Problem, Scope, described, noted, resolve
from kitproof.rulebook.typed import (
    AnyIn,
    Calculation,
    CompareNumbers,
    CompareWords,
    Constant,
    CountIn,
    InReach,
    Joined,
    Known,
    Opposite,
    Read,
    SumIn,
    There,
    Typed,
    Word,
    too_long,
)
from kitproof.words.dimensions import NUMBER, TEMPERATURE, Dimension, in_words
from kitproof.words.units import UNITS

OverSet = syntax.Quantifier | syntax.CountOf | syntax.SumOf

WANTED = {
    "truth": "a condition",
    "number": "a number",
    "set": "a set",
    "text": "a word",
}


def checked(text: str, scope: Scope, wanted: str = "") -> tuple[Typed | None, list[Problem]]:
    """Reads and checks an expression of the wanted sort ("" for any). With problems there is no result."""
    try:
        expression = parse(text)
    except UnreadableError as slip:
        return None, [Problem(slip.says, slip.start, slip.end)]
    checker = Checker(text)
    try:
        typed = checker.of_sort(expression, scope, wanted) if wanted else checker.typed(expression, scope)
    except MistakenError:
        return None, checker.problems
    if too_long(typed):
        return None, [Problem("this is longer than a rule needs: let a fact work it out", 0, len(text))]
    return (None, checker.problems) if checker.problems else (typed, [])


class Checker(Struct):
    """Checks the expressions of one text, and notes what is wrong by places in it."""

    text: str
    problems: list[Problem] = field(default_factory=list)

    def typed(self, of: syntax.Expression, scope: Scope) -> Typed:
        """The checked form. Raises MistakenError where there is none; the problem is noted then."""
        if isinstance(of, syntax.Number):
            return self._number(of)
        if isinstance(of, syntax.Quoted):
            return Word(of.text)
        if isinstance(of, syntax.Name):
            return resolve(of, scope, self.problems)
        if isinstance(of, syntax.Negative):
            inner = self._amount(of.of, scope)
            return Calculation("negative", (inner,), inner.type)
        if isinstance(of, syntax.Arithmetic):
            return self._arithmetic(of, scope)
        if isinstance(of, syntax.Function):
            return self._function(of, scope)
        if isinstance(of, syntax.CountOf):
            return self._count(of, scope)
        if isinstance(of, syntax.SumOf):
            return self._sum(of, scope)
        return self._condition(of, scope)

    def of_sort(self, of: syntax.Expression, scope: Scope, wanted: str) -> Typed:
        """The checked form of an expression that must be of one sort."""
        typed = self.typed(of, scope)
        if typed.type is HOUSE and wanted in ("number", "text"):
            return replace(typed, type=number(NUMBER) if wanted == "number" else Type("text"))
        if typed.type.sort != wanted:
            says = f"{WANTED[wanted]} is wanted here, and {self.said(of, typed)}"
            raise self.wrong(of, says + _repair(of, typed, self))
        return typed

    def said(self, of: syntax.Expression, typed: Typed) -> str:
        """`carried is a mass`."""
        return f"{self.cut(of)} is {described(typed.type)}"

    def cut(self, of: syntax.Expression) -> str:
        return " ".join(self.text[of.start : of.end].split())

    def wrong(self, of: syntax.Expression, says: str) -> MistakenError:
        return noted(self.problems, says, of.start, of.end)

    def each(self, parts: tuple[syntax.Expression, ...], scope: Scope, wanted: str = "") -> tuple[Typed, ...]:
        """Checks several parts, noting the mistakes of all before giving up."""
        done: list[Typed] = []
        for part in parts:
            try:
                done.append(self.of_sort(part, scope, wanted) if wanted else self.typed(part, scope))
            except MistakenError:
                continue
        if len(done) < len(parts):
            raise MistakenError
        return tuple(done)

    # Numbers

    def _number(self, of: syntax.Number) -> Constant:
        if not of.unit:
            return Constant(Amount(of.written, of.written), number(NUMBER))
        unit = UNITS[of.unit]
        si = unit.to_si(of.written)
        return Constant(Amount(si, si), number(unit.dimension), percent=of.unit == "%")

    def _amount(self, of: syntax.Expression, scope: Scope) -> Typed:
        return self.of_sort(of, scope, "number")

    def _arithmetic(self, of: syntax.Arithmetic, scope: Scope) -> Typed:
        left, right = self.each((of.left, of.right), scope, "number")
        one, other = _dimension(left), _dimension(right)
        if TEMPERATURE in (one, other):
            raise self.wrong(of, "temperatures can be compared, not reckoned with")
        if of.sign in ("+", "-"):
            if one != other:
                action = "added to" if of.sign == "+" else "taken from"
                first, second = (one, other) if of.sign == "+" else (other, one)
                says = f"{in_words(first)} cannot be {action} {in_words(second)}"
                raise self.wrong(of, f"{says}: {self.said(of.left, left)}, {self.said(of.right, right)}")
            return Calculation(of.sign, (left, right), left.type)
        dimension = one.times(other) if of.sign == "*" else one.over(other)
        return Calculation(of.sign, (left, right), number(dimension))

    def _function(self, of: syntax.Function, scope: Scope) -> Typed:
        if len(of.of) == 1 and of.function != "abs":
            return self._end_of_reach(of, scope)
        if of.function == "abs" and len(of.of) > 1:
            raise self.wrong(of, "abs is of one number")
        inputs = self.each(of.of, scope, "number")
        for expression, typed in zip(of.of[1:], inputs[1:], strict=True):
            if _dimension(typed) != _dimension(inputs[0]):
                says = f"{of.function} is of things of one kind: {self.said(of.of[0], inputs[0])}"
                raise self.wrong(expression, f"{says}, {self.said(expression, typed)}")
        return Calculation(of.function, inputs, inputs[0].type)

    def _end_of_reach(self, of: syntax.Function, scope: Scope) -> Typed:
        typed = self.typed(of.of[0], scope)
        if typed.type.sort != "reach":
            says = f"{of.function} of one thing is an end of a reach, and {self.said(of.of[0], typed)}"
            raise self.wrong(of.of[0], says)
        action = "lowest" if of.function == "min" else "highest"
        return Calculation(action, (typed,), number(_dimension(typed)))

    def _count(self, of: syntax.CountOf, scope: Scope) -> Typed:
        within = self._set(of.of, scope)
        if of.where is None:
            return CountIn(within, "", None)
        inner = self._variable(of, of.variable, within, scope)
        return CountIn(within, of.variable, self.of_sort(of.where, inner, "truth"))

    def _sum(self, of: syntax.SumOf, scope: Scope) -> SumIn:
        within = self._set(of.of, scope)
        inner = self._variable(of, of.variable, within, scope)
        what = self.of_sort(of.what, inner, "number")
        if _dimension(what) == TEMPERATURE:
            raise self.wrong(of.what, "temperatures can be compared, not reckoned with")
        where = None if of.where is None else self.of_sort(of.where, inner, "truth")
        return SumIn(within, of.variable, what, where, what.type)

    def _set(self, of: syntax.Name, scope: Scope) -> Read:
        typed = self.of_sort(of, scope, "set")
        assert isinstance(typed, Read), "nothing but a name is a set"
        return typed

    def _variable(self, of: OverSet, name: str, within: Read, scope: Scope) -> Scope:
        if name in scope.names():
            raise self.wrong(of, f"{name} is a name already: call each one in {self.cut(of.of)} something else")
        return scope.having(name, Type("thing", subject=within.type.subject, kind=within.type.kind))

    # Conditions

    def _condition(self, of: syntax.Expression, scope: Scope) -> Typed:
        if isinstance(of, syntax.Comparison):
            return self._comparison(of, scope)
        if isinstance(of, syntax.Within):
            return self._within(of, scope)
        if isinstance(of, syntax.OneOf):
            return self._one_of(of, scope)
        if isinstance(of, syntax.IsKnown | syntax.IsThere):
            return self._is(of, scope)
        if isinstance(of, syntax.Not):
            return Opposite(self.of_sort(of.of, scope, "truth"))
        if isinstance(of, syntax.Both | syntax.Either):
            parts = self.each(of.parts, scope, "truth")
            return Joined(isinstance(of, syntax.Both), parts)
        assert isinstance(of, syntax.Quantifier), "every other form is handled above"
        within = self._set(of.of, scope)
        inner = self._variable(of, of.variable, within, scope)
        found = AnyIn(within, of.variable, self.of_sort(of.where, inner, "truth"))
        return Opposite(found) if of.no else found

    def _comparison(self, of: syntax.Comparison, scope: Scope) -> Typed:
        left, right = self.each((of.left, of.right), scope)
        left, right = _as_other(left, right), _as_other(right, left)
        if left.type is HOUSE:  # and so is the right one, or this one were of its type
            alike = Type("text") if of.sign in ("=", "!=") else number(NUMBER)
            left, right = replace(left, type=alike), replace(right, type=alike)
        for side, typed in ((of.left, left), (of.right, right)):
            if typed.type.sort not in ("number", "text"):
                raise self.wrong(side, f"{self.said(side, typed)}, and cannot be compared{_repair(side, typed, self)}")
        if left.type.sort == "text" == right.type.sort:
            return self._words_compared(of, left, right)
        if left.type.sort != right.type.sort or _dimension(left) != _dimension(right):
            raise self.wrong(of, self._apart(of, left, right))
        return CompareNumbers(of.sign, left, right)

    def _apart(self, of: syntax.Comparison, left: Typed, right: Typed) -> str:
        """Both sides of a comparison of things of different kinds, and what to do."""
        says = f"{described(left.type)} cannot be compared with {described(right.type)}: "
        says += f"{self.said(of.left, left)}, {self.said(of.right, right)}"
        for side, other in ((of.left, right), (of.right, left)):
            if isinstance(side, syntax.Number) and not side.unit and other.type.sort == "number":
                says += f". Write a unit after {self.cut(side)}"
        return says

    def _words_compared(self, of: syntax.Comparison, left: Typed, right: Typed) -> Typed:
        if of.sign not in ("=", "!="):
            raise self.wrong(of, f"words are compared with = or !=, not with {of.sign}")
        if isinstance(left, Word) and isinstance(right, Word):
            raise self.wrong(of, "both sides are words in quotes, so this is always the same")
        for side, typed, other in ((of.left, left, right), (of.right, right, left)):
            if isinstance(typed, Word):
                self._fixed(side, typed.text, other)
        if isinstance(left, Word):  # a word in quotes stands on the right, whichever way it was written
            left, right = right, left
        return CompareWords(left, (right,), of.sign == "=")

    def _fixed(self, of: syntax.Expression, text: str, other: Typed) -> None:
        """Notes a word that what it is compared with never says."""
        if other.type.words and text not in other.type.words:
            near = did_you_mean(text, other.type.words)
            noted(self.problems, f'"{text}" is not a word that can stand here.{near}', of.start, of.end)

    def _within(self, of: syntax.Within, scope: Scope) -> Typed:
        left, right = self.each((of.left, of.right), scope)
        if right.type.sort != "reach":
            raise self.wrong(of.right, f"within wants a reach on its right, and {self.said(of.right, right)}")
        if left.type is HOUSE:
            left = _as_number(left, _dimension(right))
        if left.type.sort not in ("number", "reach"):
            raise self.wrong(of.left, f"within wants a number or a reach on its left, and {self.said(of.left, left)}")
        if _dimension(left) != _dimension(right):
            says = f"{described(left.type)} cannot be within {described(right.type)}: "
            raise self.wrong(of, f"{says}{self.said(of.left, left)}, {self.said(of.right, right)}")
        return InReach(left, right)

    def _one_of(self, of: syntax.OneOf, scope: Scope) -> Typed:
        left = self.of_sort(of.left, scope, "text")
        for word in of.words:
            self._fixed(word, word.text, left)
        return CompareWords(left, tuple(Word(word.text) for word in of.words), True)

    def _is(self, of: syntax.IsKnown | syntax.IsThere, scope: Scope) -> Typed:
        inner = self.typed(of.of, scope)
        if isinstance(inner, Constant | Word):
            raise self.wrong(of.of, f"{self.cut(of.of)} is written here, and always known")
        if isinstance(of, syntax.IsThere):
            if inner.type.sort not in ("thing", "text"):
                raise self.wrong(of.of, f"{self.said(of.of, inner)}: write `is known` of it")
            return There(inner)
        if inner.type.sort in ("thing", "set"):
            repair = "`is there`" if inner.type.sort == "thing" else f"count({self.cut(of.of)}) > 0"
            raise self.wrong(of.of, f"{self.said(of.of, inner)}: write {repair}")
        return Known(inner)


def _dimension(typed: Typed) -> Dimension:
    assert typed.type.dimension is not None, "every number and every reach has one"
    return typed.type.dimension


def _as_number(typed: Typed, dimension: Dimension) -> Typed:
    return replace(typed, type=number(dimension))


def _as_other(typed: Typed, other: Typed) -> Typed:
    """A house's own word is of the type of what it is compared with."""
    if typed.type is not HOUSE or other.type is HOUSE:
        return typed
    return _as_number(typed, _dimension(other)) if other.type.sort == "number" else replace(typed, type=Type("text"))


def _repair(of: syntax.Expression, typed: Typed, checker: Checker) -> str:
    """What to write in place of something of the wrong sort."""
    said = checker.cut(of)
    if typed.type is HOUSE:
        return ": compare it with a number or a word"
    if typed.type.sort == "reach":
        return f": write max({said}), min({said}) or `within {said}`"
    if typed.type.sort == "thing":
        return f": write `{said} is there`, or name what it should be compared by"
    if typed.type.sort == "set":
        return f": write count({said}), or `any … in {said} where …`"
    if typed.type.sort == "truth":
        return ": write it alone, or after `not`"
    return ": compare it with something"
