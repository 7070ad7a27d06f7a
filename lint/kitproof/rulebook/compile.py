"""A checked expression to a function of a thing and an `Env`. Nothing of a rule's text is ever executed.

What is not there: an amount, a word or a truth that is read from a thing that is not there is None, and so is a limit
before its first day. A comparison of None is false, and so is its `not`: a rule does not apply to what is not there.
To that end `not` is carried inwards to the single comparisons. Inside `any`, `no` and `count` an element for which
something is not there is simply not one of those that are meant.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date

from msgspec import Struct, field

from kitproof.facts.values import Amount, Held, Several, Tagged, Thing, Truth, Verdict, Words, joined
from kitproof.rulebook import arithmetic
from kitproof.rulebook.truths import NO, YES, all_of, any_of, certain, compare, opposite
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
    LimitRead,
    Opposite,
    Read,
    SumIn,
    There,
    Typed,
    Word,
)
from kitproof.words.dimensions import NUMBER

inf = float("inf")
PLAIN = (Amount, Words, Verdict, tuple)
NOT_KNOWN = (-inf, inf)
NOTHING = Amount(0.0, 0.0)


class Env(Struct, frozen=True):
    """What a rule is judged with besides the thing: the day by which dated limits are chosen, and what `each` and
    quantifiers stand for."""

    day: date
    variables: Mapping[str, Thing] = field(default_factory=dict)

    def having(self, name: str, thing: Thing) -> Env:
        """The same with one more name standing for a thing, and on the day of that thing where it has one."""
        return Env(thing.day or self.day, {**self.variables, name: thing})

    def on_day_of(self, thing: Thing) -> Env:
        """The same on the day that a thing takes place on, where it has one of its own."""
        return self if thing.day is None else Env(thing.day, self.variables)


Condition = Callable[[Thing, Env], Verdict]
Amounts = Callable[[Thing, Env], Amount | None]
Texts = Callable[[Thing, Env], Words | None]
Values = Callable[[Thing, Env], Held]


def value(node: Typed) -> Values:
    """The value of an expression of any type; a house's own word is a number or a text, as it was written."""
    if node.type.sort in ("thing", "set") or node.type.subject == "tag":
        assert isinstance(node, Read), "nothing else is a thing, a set or a house's own word"
        return _read(node)
    if node.type.sort in ("number", "reach"):
        return amount(node)
    if node.type.sort == "truth":
        return _verdict_or_none(node)
    return words(node)


def _verdict_or_none(node: Typed) -> Values:
    if isinstance(node, Read):
        return _read(node)
    return condition(node)


def _read(node: Read) -> Values:
    variable, steps = node.variable, node.steps

    def read(thing: Thing, env: Env) -> Held:
        held: Held = env.variables[variable] if variable else thing
        for step in steps:
            if held is None or isinstance(held, PLAIN):  # asking for the protocol would try each of its members
                return None
            held = held.value(step)
        return held

    return read


# Amounts


def amount(node: Typed) -> Amounts:
    """The value of a number or a reach."""
    if isinstance(node, Constant):
        fixed = node.value
        return lambda thing, env: fixed
    if isinstance(node, LimitRead):
        return _limit(node)
    if isinstance(node, CountIn):
        return _count(node)
    if isinstance(node, SumIn):
        return _sum(node)
    if isinstance(node, Calculation):
        return _calculation(node)
    assert isinstance(node, Read), "nothing else is a number"
    return _amount_read(node)


def _limit(node: LimitRead) -> Amounts:
    limit = node.limit

    def held(thing: Thing, env: Env) -> Amount | None:
        dated = limit.on(env.day)
        return None if dated is None else Amount(dated.value, dated.value)

    return held


def _amount_read(node: Read) -> Amounts:
    read = _read(node)

    def held(thing: Thing, env: Env) -> Amount | None:
        found = read(thing, env)
        other_kind = isinstance(found, Tagged) and found.dimension != node.type.dimension
        if found is None or (isinstance(found, Amount) and not other_kind):
            return found
        if isinstance(found, Words | Tagged):  # a house's own word, or a number of another kind, where one was meant
            return Amount(*NOT_KNOWN, found.missing or (f"{thing.label}: {'.'.join(node.steps)} as a number",))
        raise TypeError(f"the fact {'.'.join(node.steps)} gave {type(found).__name__} for a number")

    return held


_ACTIONS: dict[str, Callable[[list[Amount]], Amount]] = {
    "+": lambda of: arithmetic.plus(of[0], of[1]),
    "-": lambda of: arithmetic.minus(of[0], of[1]),
    "*": lambda of: arithmetic.times(of[0], of[1]),
    "/": lambda of: arithmetic.over(of[0], of[1]),
    "negative": lambda of: arithmetic.negative(of[0]),
    "abs": lambda of: arithmetic.size(of[0]),
    "min": arithmetic.least,
    "max": arithmetic.greatest,
    "lowest": lambda of: arithmetic.ends_of(of[0])[0],
    "highest": lambda of: arithmetic.ends_of(of[0])[1],
}


def _calculation(node: Calculation) -> Amounts:
    action = _ACTIONS[node.action]
    inputs = [amount(each) for each in node.of]

    def held(thing: Thing, env: Env) -> Amount | None:
        found = [each(thing, env) for each in inputs]
        there = [each for each in found if each is not None]
        return action(there) if len(there) == len(found) else None

    return held


def _count(node: CountIn) -> Amounts:
    read, variable = _read(node.of), node.variable
    holds = condition(node.where) if node.where is not None else None

    def held(thing: Thing, env: Env) -> Amount | None:
        found = read(thing, env)
        if not isinstance(found, tuple):
            return None
        if holds is None:
            return Amount(float(len(found)), inf if lost(found) else float(len(found)), lost(found))
        verdicts = [holds(thing, env.having(variable, each)) for each in found]
        least = sum(verdict.truth is Truth.TRUE for verdict in verdicts)
        most = inf if lost(found) else sum(verdict.truth is not Truth.FALSE for verdict in verdicts)
        return Amount(float(least), float(most), joined(*(verdict.missing for verdict in verdicts), lost(found)))

    return held


def _sum(node: SumIn) -> Amounts:
    """What each element that holds the condition gives, added up: nothing for one that lacks what is asked for."""
    read, variable, what = _read(node.of), node.variable, amount(node.what)
    holds = condition(node.where) if node.where is not None else None

    def part(thing: Thing, env: Env) -> Amount:
        verdict = YES if holds is None else holds(thing, env)
        found = None if verdict.truth is Truth.FALSE else what(thing, env)
        if found is None:
            return NOTHING
        if verdict.truth is Truth.TRUE:
            return found
        return Amount(min(0.0, found.low), max(0.0, found.high), joined(found.missing, verdict.missing))

    def held(thing: Thing, env: Env) -> Amount | None:
        found = read(thing, env)
        if not isinstance(found, tuple):
            return None
        total = Amount(*NOT_KNOWN, lost(found)) if lost(found) else NOTHING
        for each in found:
            total = arithmetic.plus(total, part(thing, env.having(variable, each)))
        return total

    return held


def lost(found: tuple[Thing, ...]) -> tuple[str, ...]:
    """What may have held more of a set."""
    return found.missing if isinstance(found, Several) else ()


# Words


def words(node: Typed) -> Texts:
    """The value of a text."""
    if isinstance(node, Word):
        fixed = Words(node.text)
        return lambda thing, env: fixed
    assert isinstance(node, Read), "nothing else is a text"
    read = _read(node)

    def held(thing: Thing, env: Env) -> Words | None:
        found = read(thing, env)
        if found is None or isinstance(found, Words):
            return found
        if isinstance(found, Tagged) and found.sharp and found.dimension == NUMBER:  # a serial number, say
            return Words(f"{found.low:g}")
        if isinstance(found, Amount):  # a house's own number where a word was meant
            return Words(None, found.missing or (f"{thing.label}: {'.'.join(node.steps)} as a word",))
        raise TypeError(f"the fact {'.'.join(node.steps)} gave {type(found).__name__} for a word")

    return held


# Conditions


def condition(node: Typed, negated: bool = False) -> Condition:
    """A truth; `negated` for its `not`."""
    if isinstance(node, Opposite):
        return condition(node.of, not negated)
    if isinstance(node, Joined):
        return _joined(node, negated)
    holds = _plain(node)

    def held(thing: Thing, env: Env) -> Verdict:
        verdict = holds(thing, env)
        if verdict is None:
            return NO
        return opposite(verdict) if negated else verdict

    return held


def _joined(node: Joined, negated: bool) -> Condition:
    parts = [condition(part, negated) for part in node.of]
    fold = all_of if node.every is not negated else any_of
    return lambda thing, env: fold(part(thing, env) for part in parts)


def _plain(node: Typed) -> Callable[[Thing, Env], Verdict | None]:
    """A truth that holds no `and`, `or` or `not` of its own; None where something is not there."""
    if isinstance(node, CompareNumbers):
        return _compare_numbers(node)
    if isinstance(node, CompareWords):
        return _compare_words(node)
    if isinstance(node, InReach):
        return _in_reach(node)
    if isinstance(node, Known):
        return _known(node)
    if isinstance(node, There):
        return _there(node)
    if isinstance(node, AnyIn):
        return _any(node)
    assert isinstance(node, Read), "nothing else is a truth"
    return _truth(node)


def _truth(node: Read) -> Callable[[Thing, Env], Verdict | None]:
    read = _read(node)

    def held(thing: Thing, env: Env) -> Verdict | None:
        found = read(thing, env)
        if found is None or isinstance(found, Verdict):
            return found
        raise TypeError(f"the fact {'.'.join(node.steps)} gave {type(found).__name__} for a truth")

    return held


def _compare_numbers(node: CompareNumbers) -> Callable[[Thing, Env], Verdict | None]:
    left, right, sign = amount(node.left), amount(node.right), node.sign

    def held(thing: Thing, env: Env) -> Verdict | None:
        one, other = left(thing, env), right(thing, env)
        return None if one is None or other is None else compare(sign, one, other)

    return held


def _compare_words(node: CompareWords) -> Callable[[Thing, Env], Verdict | None]:
    left, right, equal = words(node.left), [words(each) for each in node.right], node.equal

    def held(thing: Thing, env: Env) -> Verdict | None:
        found = [left(thing, env), *(each(thing, env) for each in right)]
        there = [each for each in found if each is not None and (each.text is not None or each.missing)]
        if len(there) < len(found):
            return None
        missing = joined(*(each.missing for each in there if each.text is None))
        if missing:
            return Verdict(Truth.MISSING, missing)
        same = there[0].text in [each.text for each in there[1:]]
        return certain(same is equal)

    return held


def _in_reach(node: InReach) -> Callable[[Thing, Env], Verdict | None]:
    left, right = amount(node.left), amount(node.right)
    is_reach = node.left.type.sort == "reach"

    def held(thing: Thing, env: Env) -> Verdict | None:
        one, other = left(thing, env), right(thing, env)
        if one is None or other is None:
            return None
        least, most = arithmetic.ends_of(one) if is_reach else (one, one)
        lowest, highest = arithmetic.ends_of(other)
        return all_of((compare(">=", least, lowest), compare("<=", most, highest)))

    return held


def _known(node: Known) -> Callable[[Thing, Env], Verdict | None]:
    read = value(node.of)

    def held(thing: Thing, env: Env) -> Verdict | None:
        found = read(thing, env)
        if isinstance(found, Amount):
            return certain(not found.missing)
        if isinstance(found, Verdict):
            return certain(found.truth is not Truth.MISSING)
        if isinstance(found, Words) and (found.text is not None or found.missing):
            return certain(found.text is not None)
        return None

    return held


def _there(node: There) -> Callable[[Thing, Env], Verdict | None]:
    """Whether a thing is there. What stands on a thing that is not there itself is not asked for: None."""
    of = node.of
    assert isinstance(of, Read), "only what is read from a thing can be there or not"
    read, before = _read(of), _read(Read(of.variable, of.steps[:-1], of.type))

    def held(thing: Thing, env: Env) -> Verdict | None:
        if before(thing, env) is None:
            return None
        found = read(thing, env)
        if isinstance(found, Words):
            return certain(found.text is not None or bool(found.missing))
        return certain(found is not None)

    return held


def _any(node: AnyIn) -> Callable[[Thing, Env], Verdict | None]:
    read, variable, holds = _read(node.of), node.variable, condition(node.where)

    def held(thing: Thing, env: Env) -> Verdict | None:
        found = read(thing, env)
        if not isinstance(found, tuple):
            return None
        more = [Verdict(Truth.MISSING, lost(found))] if lost(found) else []
        return any_of([*(holds(thing, env.having(variable, each)) for each in found), *more])

    return held
