"""A fact as it stands in the registry, and a limit that a house may set."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

from msgspec import Struct

from kitproof.facts.values import Held, Type
from kitproof.words.dimensions import Dimension


class Fact(Struct, frozen=True):
    """One named fact: what it is about, its type, its meaning and formula in words, and where the formula is from.

    `certain` for one that is always known and never in doubt, such as the kind of a part: a rule that rests on such
    facts alone needs no words for doubt. `uses` names what it is worked out from, other facts or `uses.INPUTS`; None
    where that is not told. `least` is what it never falls below.
    """

    name: str
    about: str
    type: Type
    says: str
    compute: Callable[[Any], Held]
    formula: str = ""
    source: str = ""
    certain: bool = False
    uses: tuple[str, ...] | None = None
    least: float = -math.inf


class HouseNumber(Struct, frozen=True):
    """A limit or stand-in that is common practice with no source; a house may set it. The value is in SI."""

    name: str
    value: float
    dimension: Dimension
    says: str


def fact(
    name: str, about: str, of: Type, says: str, formula: str = "", source: str = "", certain: bool = False
) -> Callable[[Callable[[Any], Held]], Fact]:
    """Makes a Fact of a function from a subject to its value."""

    def make(compute: Callable[[Any], Held]) -> Fact:
        return Fact(name, about, of, says, compute, formula, source, certain)

    return make


def facts_in(module: object) -> list[Fact]:
    """All facts that a module defines, in the order written."""
    return [each for each in vars(module).values() if isinstance(each, Fact)]
