"""An expression whose names and dimensions are checked: what `compile` makes into a function.

Every node has a type.
"""

from __future__ import annotations

import math

from msgspec import Struct

from kitproof.facts.values import TRUTH, Amount, Type
from kitproof.rulebook.limits import Limit
from kitproof.words.dimensions import NUMBER

TEXT = Type("text")
COUNTED = Type("number", NUMBER)


class Constant(Struct, frozen=True):
    """A number as written, in SI. `percent` where it was written as one."""

    value: Amount
    type: Type
    percent: bool = False


class Word(Struct, frozen=True):
    text: str
    type: Type = TEXT


class LimitRead(Struct, frozen=True):
    limit: Limit
    type: Type


class Read(Struct, frozen=True):
    """A fact of the subject (`variable` is "") or of what a variable stands for, by steps from thing to thing.

    `steps` is empty for the variable itself. `certain` for a fact that is always known and never in doubt. `rests_on`
    is all that the fact is worked out from, itself included; None where that is not told. `least` is what it never
    falls below.
    """

    variable: str
    steps: tuple[str, ...]
    type: Type
    certain: bool = False
    rests_on: frozenset[str] | None = None
    least: float = -math.inf


class Calculation(Struct, frozen=True):
    """`action` is one of + - * / negative min max abs lowest highest, the last two of a reach."""

    action: str
    of: tuple[Typed, ...]
    type: Type


class CountIn(Struct, frozen=True):
    of: Read
    variable: str
    where: Typed | None
    type: Type = COUNTED


class SumIn(Struct, frozen=True):
    """`what` of each element, added up; `where` says of which."""

    of: Read
    variable: str
    what: Typed
    where: Typed | None
    type: Type


class CompareNumbers(Struct, frozen=True):
    sign: str
    left: Typed
    right: Typed
    type: Type = TRUTH


class CompareWords(Struct, frozen=True):
    """Whether a text is one of several; `right` is one for `=` and `!=`."""

    left: Typed
    right: tuple[Typed, ...]
    equal: bool
    type: Type = TRUTH


class InReach(Struct, frozen=True):
    left: Typed
    right: Typed
    type: Type = TRUTH


class Known(Struct, frozen=True):
    of: Typed
    type: Type = TRUTH


class There(Struct, frozen=True):
    of: Typed
    type: Type = TRUTH


class Opposite(Struct, frozen=True):
    of: Typed
    type: Type = TRUTH


class Joined(Struct, frozen=True):
    """`and` where `every`, `or` where not."""

    every: bool
    of: tuple[Typed, ...]
    type: Type = TRUTH


class AnyIn(Struct, frozen=True):
    of: Read
    variable: str
    where: Typed
    type: Type = TRUTH


Typed = (
    Constant
    | Word
    | LimitRead
    | Read
    | Calculation
    | CountIn
    | SumIn
    | CompareNumbers
    | CompareWords
    | InReach
    | Known
    | There
    | Opposite
    | Joined
    | AnyIn
)


def parts_of(node: Typed) -> tuple[Typed, ...]:
    """The expressions that an expression is made of."""
    if isinstance(node, Calculation | Joined):
        return node.of
    if isinstance(node, CompareNumbers | InReach):
        return (node.left, node.right)
    if isinstance(node, CompareWords):
        return (node.left, *node.right)
    if isinstance(node, Known | There | Opposite):
        return (node.of,)
    if isinstance(node, CountIn):
        return (node.of,) if node.where is None else (node.of, node.where)
    if isinstance(node, SumIn):
        return (node.of, node.what) if node.where is None else (node.of, node.what, node.where)
    if isinstance(node, AnyIn):
        return (node.of, node.where)
    return ()


def all_in(node: Typed) -> list[Typed]:
    """An expression and everything inside it."""
    return [node, *(inner for part in parts_of(node) for inner in all_in(part))]


def can_doubt(node: Typed) -> bool:
    """Whether a value may be missing, or a truth undecided, for some list."""
    if isinstance(node, Known | There | Constant | Word | LimitRead):
        return False
    if isinstance(node, Read):
        return not node.certain and node.type.sort not in ("thing", "set")
    return any(can_doubt(part) for part in parts_of(node))


MOST_NODES, DEEPEST = 2000, 80


def too_long(node: Typed) -> bool:
    """Whether an expression, with its calls written out, is longer or deeper than any rule needs."""
    open_nodes, met = [(node, 1)], 0
    while open_nodes:
        each, depth = open_nodes.pop()
        met += 1
        if met > MOST_NODES or depth > DEEPEST:
            return True
        open_nodes.extend((part, depth + 1) for part in parts_of(each))
    return False
