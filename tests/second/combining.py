"""Rigs spelled out and their combinations, after the design: `like`, `also`, `without`, `or`, `only with`."""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from tests.second.described import Kit, Line, Part, Rig, Spot, Without

SUPPORT = ("sticks", "spreader", "riser", "adapter", "head", "plate", "slide", "base", "camera")


@dataclass(frozen=True)
class Stands:
    """One part of a combination and the line that it stands on."""

    line: Line
    part: Part
    number: int
    """Which line of the rig it is, from 0."""

    @property
    def key(self) -> tuple[int, str]:
        return (self.number, self.part.name)


Combination = tuple[Stands, ...]


def lines_of(kit: Kit, rig: Rig) -> list[Line]:
    """The lines of a rig, all that it takes from another rig included."""
    lines: list[Line] = []
    if rig.like:
        lines = lines_of(kit, next(each for each in kit.rigs if each.name == rig.like))
    replaced: set[str] = set()
    for line in rig.lines:
        if isinstance(line, Without):
            lines = _without(lines, line)
        elif line.word == "or":  # the line above it; only rigs that are like no other have such lines here
            lines[-1] = replace(lines[-1], options=(*lines[-1].options, *line.options))
        else:
            if not rig.like:
                lines.append(line)
            elif line.word == "also" or line.slot in replaced or not any(each.slot == line.slot for each in lines):
                replaced |= {line.slot} if line.word != "also" else set()
                lines.insert(_own_place(lines, line.slot), line)
            else:
                replaced.add(line.slot)
                first = next(n for n, each in enumerate(lines) if each.slot == line.slot)
                lines = [*lines[:first], line, *(each for each in lines[first:] if each.slot != line.slot)]
    return lines


def _without(lines: list[Line], out: Without) -> list[Line]:
    kept = []
    for line in lines:
        if line.slot != out.slot:
            kept.append(line)
        elif out.name:
            options = tuple(each for each in line.options if each != out.name)
            if options:
                kept.append(replace(line, options=options))
    return kept


def _own_place(lines: list[Line], slot: str) -> int:
    """After the last of its slot; a new support slot after the last support slot that stands below it."""
    same = [n for n, each in enumerate(lines) if each.slot == slot]
    if same:
        return same[-1] + 1
    if slot not in SUPPORT:
        return len(lines)
    below = SUPPORT[: SUPPORT.index(slot)]
    return max((n + 1 for n, each in enumerate(lines) if each.slot in below), default=0)


def combinations_of(kit: Kit, rig: Rig) -> list[Combination]:
    """All different combinations: every choice tried, and lines left out whose `only with` is not there."""
    return list(dict.fromkeys(_all(kit, lines_of(kit, rig))))


def _all(kit: Kit, lines: list[Line]) -> Iterator[Combination]:
    for choice in itertools.product(*(line.options for line in lines)):
        there = set(range(len(lines)))
        while True:
            names = {choice[n] for n in there}
            out = {n for n in there if lines[n].only_with and not names.intersection(lines[n].only_with)}
            if not out:
                break
            there -= out
        yield tuple(
            Stands(lines[n], part_of(kit, lines[n], name), n) for n in sorted(there) if (name := choice[n]) is not None
        )


def part_of(kit: Kit, line: Line, name: str) -> Part:
    """The part of a name, or what stands in no book and has its mass on the line: its centre is near its seat.

    The design would have the centre of what has neither a `cog` nor an outline not known; taken is what the reference
    of the format says of such a line, 50 mm.
    """
    known = kit.part(name)
    if known is not None:
        return known
    within = kit.list_within.high if kit.list_within else 0
    near = (Fraction(-1, 20), Fraction(1, 20))
    cog = Spot("", near, near, near)
    return Part(line.slot, name, mass=line.mass, cog=cog, within=within)  # type: ignore[arg-type]  # a sharp share is a fraction
