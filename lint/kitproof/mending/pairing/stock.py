"""The parts to choose from, of the parts books in use: each with its size and whether it is there on the dates."""

from __future__ import annotations

import math

from msgspec import Struct

from kitproof.mending.gear import others_of, size_of
from kitproof.mending.stock import Stock
from kitproof.model.parts import Part


class Candidate(Struct, frozen=True):
    """A part that may be chosen, with its stock (one of `IN_STOCK` …) and its size among its kind, in SI."""

    part: Part
    stock: int
    size: float


def candidates(stock: Stock, kind: str) -> list[Candidate]:
    """The parts of a kind, the smallest first; those whose size is not known last."""
    found = [Candidate(part, stock.of(part), size_of(part)) for part in others_of(stock.ground, kind, "")]
    return sorted(found, key=lambda each: (each.size, _mass(each.part), each.part.name))


def _mass(part: Part) -> float:
    return part.mass.high if part.mass is not None and part.mass.known else math.inf


def mass_of(parts: tuple[Part, ...]) -> float:
    """The mass of several parts, in kg, each at its most; infinite where one is not known."""
    return math.fsum(map(_mass, parts))
