"""The four truths, and what comparisons of intervals give.

Comparisons work on the ends of intervals: a comparison is certain where it holds, or fails, for every value inside.
Two numbers that differ by less than a billionth of themselves are taken as equal: 15 mm and 0.015 m are, whatever a
conversion did to the last digit. Each comparison of two points is monotone in both, so its corners decide it.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable

from kitproof.facts.values import Amount, Truth, Verdict, joined

NEAR = 1e-9
TINY = 1e-12  # in SI units; nothing that is weighed or measured here is as small

YES = Verdict(Truth.TRUE)
NO = Verdict(Truth.FALSE)


def certain(holds: bool) -> Verdict:
    """A verdict that is never in doubt."""
    return YES if holds else NO


def opposite(verdict: Verdict) -> Verdict:
    """`not`: turns true and false about and keeps both kinds of doubt."""
    if verdict.truth is Truth.TRUE:
        return NO
    return YES if verdict.truth is Truth.FALSE else verdict


def all_of(verdicts: Iterable[Verdict]) -> Verdict:
    """`and`: false if any is; else missing, with all that is missing; else undecided if any is; else true."""
    return _folded(verdicts, NO, YES)


def any_of(verdicts: Iterable[Verdict]) -> Verdict:
    """`or`: true if any is; else missing, with all that is missing; else undecided if any is; else false."""
    return _folded(verdicts, YES, NO)


def _folded(verdicts: Iterable[Verdict], settles: Verdict, else_: Verdict) -> Verdict:
    """Sets of truths would ask each for its hash, which costs more than the rest of it."""
    missing: list[tuple[str, ...]] = []
    lacking = undecided = False
    settling = settles.truth
    for verdict in verdicts:
        truth = verdict.truth
        if truth is settling:
            return settles
        lacking = lacking or truth is Truth.MISSING
        undecided = undecided or truth is Truth.UNDECIDED
        if verdict.missing:
            missing.append(verdict.missing)
    if lacking:
        return Verdict(Truth.MISSING, joined(*missing))
    return Verdict(Truth.UNDECIDED) if undecided else else_


def above(one: float, other: float) -> bool:
    """Whether a point is larger than another by more than rounding."""
    if math.isinf(one) or math.isinf(other):
        return one > other
    return one - other > max(TINY, NEAR * abs(other))


def _greater(one: Amount, other: Amount) -> tuple[bool, bool]:
    return above(one.low, other.high), not above(one.high, other.low)


def _at_least(one: Amount, other: Amount) -> tuple[bool, bool]:
    return not above(other.high, one.low), above(other.low, one.high)


def _equal(one: Amount, other: Amount) -> tuple[bool, bool]:
    always = not above(one.high, other.low) and not above(other.high, one.low)
    return always, above(one.low, other.high) or above(other.low, one.high)


def _unequal(one: Amount, other: Amount) -> tuple[bool, bool]:
    always, never = _equal(one, other)
    return never, always


COMPARED: dict[str, Callable[[Amount, Amount], tuple[bool, bool]]] = {
    ">": _greater,
    "<": lambda one, other: _greater(other, one),
    ">=": _at_least,
    "<=": lambda one, other: _at_least(other, one),
    "=": _equal,
    "!=": _unequal,
}
"""For each sign: whether it holds for every pair of values, and whether it holds for none."""


def compare(sign: str, one: Amount, other: Amount) -> Verdict:
    """Compares two numbers: true or false if so for all values; else missing if an input is, else undecided."""
    always, never = COMPARED[sign](one, other)
    if always or never:
        return certain(always)
    missing = joined(one.missing, other.missing)
    return Verdict(Truth.MISSING, missing) if missing else Verdict(Truth.UNDECIDED)
