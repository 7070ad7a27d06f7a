"""Which of two lists' rigs and cases are the same ones: by what is in them, since names change.

What is alike to the last part is one, under whatever name; of the rest those that share most, where they share half of
what they hold or have kept their name.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Hashable, Sequence
from typing import Generic, TypeVar

from msgspec import Struct

T = TypeVar("T")
ENOUGH = 0.5
SAME_NAME = 0.25
"""How much a kept name weighs, beside the share of what two hold in common."""


class Thing(Struct, Generic[T], frozen=True):
    """A rig or a case: its name, all that it says, and the things that it holds, each as often as it holds it."""

    name: str
    says: Hashable
    holds: tuple[Hashable, ...]
    of: T


class Pairs(Struct, Generic[T], frozen=True):
    """Those that were there before and are there now, and those that were only before, or are only now."""

    both: tuple[tuple[T, T], ...]
    gone: tuple[T, ...]
    new: tuple[T, ...]


def paired(before: Sequence[Thing[T]], now: Sequence[Thing[T]]) -> Pairs[T]:
    """Matches two lots of things, each used once; pairs stand in the order of those there now."""
    found: dict[int, int] = {}  # from a place in `now` to one in `before`
    free = dict(enumerate(before))
    for same_name in (True, False):
        _alike(now, free, found, same_name)
    rest = [number for number in range(len(now)) if number not in found]
    close = sorted(
        (-_closeness(free[old], now[new]), new, old) for new in rest for old in free if _may_be(free[old], now[new])
    )
    for _, new, old in close:
        if new not in found and old in free:
            found[new] = old
            del free[old]
    both = tuple((before[found[number]].of, now[number].of) for number in sorted(found))
    new_ones = tuple(each.of for number, each in enumerate(now) if number not in found)
    return Pairs(both, tuple(each.of for each in free.values()), new_ones)


def _alike(now: Sequence[Thing[T]], free: dict[int, Thing[T]], found: dict[int, int], same_name: bool) -> None:
    """Pairs those that say the very same, first those that have kept their name as well."""
    waiting: dict[Hashable, list[int]] = {}
    for old, each in free.items():
        waiting.setdefault((each.says, each.name if same_name else ""), []).append(old)
    for number, each in enumerate(now):
        olds = waiting.get((each.says, each.name if same_name else ""), [])
        if number not in found and olds:
            found[number] = olds.pop(0)
            del free[found[number]]


def _share(one: Thing[T], other: Thing[T]) -> float:
    """How much of what two hold is the same, from 0 to 1."""
    a, b = Counter(one.holds), Counter(other.holds)
    whole = (a | b).total()
    return (a & b).total() / whole if whole else 0.0


def _closeness(one: Thing[T], other: Thing[T]) -> float:
    return _share(one, other) + (SAME_NAME if one.name == other.name else 0.0)


def _may_be(one: Thing[T], other: Thing[T]) -> bool:
    return one.name == other.name or _share(one, other) >= ENOUGH
