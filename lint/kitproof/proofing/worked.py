"""How a number came about: the figures it rests on, and which of them widens it most."""

from __future__ import annotations

import math
from collections.abc import Callable

from msgspec import Struct

from kitproof.facts.build import Build
from kitproof.facts.fact import Fact
from kitproof.facts.rig import RigSubject
from kitproof.facts.subject import Setting
from kitproof.facts.values import Amount, Held, Words
from kitproof.proofing.figures import Figure, figures, middle, nudged

LARGEST = 1e299
"""A saving above this is without end: the figure is not known at all."""


class Worked(Struct, frozen=True):
    """One fact worked out: its value, the figures that it rests on, and the one whose doubt widens it most.

    `saved` is by how much it would narrow if that figure were known exactly; infinite where it is not known at all.
    """

    fact: Fact
    value: Amount | Words
    rests_on: tuple[Figure, ...]
    widest: Figure | None
    saved: float


def worked(setting: Setting, build: Build, facts: list[Fact]) -> list[Worked]:
    """Facts of one combination, each with what it rests on. Every figure is changed once for all facts together."""
    subject = RigSubject(setting, build)
    values = {each.name: subject.value(each.name) for each in facts}
    rests: dict[str, list[Figure]] = {each.name: [] for each in facts}
    saved: dict[str, list[tuple[float, Figure]]] = {each.name: [] for each in facts}
    for figure in figures(build):
        value_of = _values(setting, figure.changed(nudged(figure.ends)))
        for name, value in values.items():
            if value_of(name) != value:
                rests[name].append(figure)
        if figure.doubtful:
            value_of = _values(setting, figure.changed(middle(figure.ends)))
            for name, value in values.items():
                gain = _width(value) - _width(value_of(name)) if figure in rests[name] else 0.0
                if gain > 0:
                    saved[name].append((gain, figure))
    found = []
    for each in facts:
        value = values[each.name]
        if isinstance(value, Amount | Words):
            best = max(saved[each.name], key=lambda pair: pair[0], default=(0.0, None))
            found.append(Worked(each, value, tuple(rests[each.name]), best[1], best[0]))
    return found


def _values(setting: Setting, build: Build) -> Callable[[str], Held]:
    return RigSubject(setting, build).value


def _width(value: Held) -> float:
    """How wide an amount is; one that stays without end either way has no width that could shrink."""
    if not isinstance(value, Amount):
        return 0.0
    width = value.high - value.low
    return 10 * LARGEST if math.isinf(width) else width
