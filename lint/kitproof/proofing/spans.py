"""The facts of a rig from the least to the most over all its combinations, without working out each."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from functools import partial
from itertools import product

from kitproof.facts.boxes import Box, boxes
from kitproof.facts.rig import RigSubject
from kitproof.facts.subject import Setting
from kitproof.facts.values import Amount, joined
from kitproof.model.rigs import Rig
from kitproof.proofing.looking import Rigs
from kitproof.proofing.worst import most

LOOKS = 400
"""After so many looks for an end it is taken as far out as it may be, which is never too near."""


def spans(setting: Setting, rig: Rig, names: Iterable[str]) -> dict[str, Amount]:
    """Facts by name, each from its least to its most; those that are there in no combination are left out.

    Of very many combinations an end may be further out than the truth, never nearer.
    """
    rigs, whole = Rigs(setting, rig), boxes(rig)
    found = {}
    for name in names:
        missing = list(_missing(rigs, whole, name))
        if missing:
            low, _ = most(rigs, whole, partial(_below, name), f"least {name}", LOOKS)
            high, _ = most(rigs, whole, partial(_above, name), name, LOOKS)
            found[name] = Amount(-low, high, joined(*missing))
    return found


def _above(name: str, subject: RigSubject) -> float:
    value = subject.value(name)
    return value.high if isinstance(value, Amount) else -math.inf


def _below(name: str, subject: RigSubject) -> float:
    value = subject.value(name)
    return -value.low if isinstance(value, Amount) else -math.inf


def _missing(rigs: Rigs, whole: list[Box], name: str) -> Iterator[tuple[str, ...]]:
    """What is missing of a fact, of all boxes in which it is there."""
    for box, value in rigs.structure(whole, partial(_value, name)):
        if isinstance(value, Amount):
            yield tuple(text for each in value.missing for text in _spelled(rigs, box, each))


def _value(name: str, subject: RigSubject) -> object:
    return subject.value(name)


def _spelled(rigs: Rigs, box: Box, text: str) -> Iterator[str]:
    lines = rigs.watch.lines_in(text)
    for chosen in product(*(box.options[line] for line in lines)):
        picks = list(box.first)
        for line, pick in zip(lines, chosen, strict=True):
            picks[line] = pick
        yield rigs.watch.spelled(text, picks)
