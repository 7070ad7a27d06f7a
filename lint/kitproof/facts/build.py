"""A rig with its choices made: the parts that stand in one combination of its alternatives, from the ground up."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import product

from msgspec import Struct

from kitproof.model.parts import Part
from kitproof.model.rigs import Option, Rig, SlotLine
from kitproof.reading.document import Where
from kitproof.words.kinds import SUPPORT

OFF_THE_PLATE = ("pan bar", "tie-down", "ballast")
"""What never stands on the head's plate, unless the line says `on` something that does."""


class Standing(Struct, frozen=True):
    """One part as it stands in a rig, with the line that put it there and the place of its name."""

    part: Part
    line: SlotLine
    where: Where


class Build(Struct, frozen=True):
    """One combination. `choice` holds, for each slot that had alternatives, the names chosen ("none" for none)."""

    rig: Rig
    standing: tuple[Standing, ...]
    choice: tuple[tuple[str, str], ...]

    def first(self, slot: str) -> Standing | None:
        return next((each for each in self.standing if each.line.slot == slot), None)

    @property
    def chain(self) -> tuple[Standing, ...]:
        """What carries the camera, from the ground to the camera, each on the one before; spreaders carry nothing."""
        return tuple(each for each in self.standing if each.line.slot in SUPPORT and each.line.slot != "spreader")

    @property
    def above(self) -> tuple[Standing, ...]:
        """The part of the chain that stands on the head's plate; without a head, what would stand there."""
        chain = self.chain
        slots = [each.line.slot for each in chain]
        if "head" in slots:
            return chain[slots.index("head") + 1 :]
        under = SUPPORT[: SUPPORT.index("head")]
        return tuple(each for each in chain if each.line.slot not in under)


def combinations(rig: Rig) -> Iterator[Build]:
    """Every combination of a rig's alternatives, each once, in the order written.

    A line with `only with` stands only where one of the names it gives does; what that leaves alike is one combination.
    """
    return (build for _, build in picked(rig))


def picked(rig: Rig) -> Iterator[tuple[tuple[int, ...], Build]]:
    """The same, each with the option that is chosen of each line; of a line that does not stand, -1."""
    seen: set[tuple[int, ...]] = set()
    for picks in product(*(range(len(line.options)) for line in rig.lines)):
        chosen = [line.options[pick] for line, pick in zip(rig.lines, picks, strict=True)]
        stays = kept_lines(rig.lines, chosen)
        key = tuple(pick if kept else -1 for pick, kept in zip(picks, stays, strict=True))
        if key not in seen:
            seen.add(key)
            yield key, built(rig, chosen, stays)


def kept_lines(lines: tuple[SlotLine, ...], chosen: Sequence[Option]) -> list[bool]:
    """Which lines stand with one option of each chosen.

    A line may be there for one that itself falls away: done until nothing changes.
    """
    stays = [True] * len(lines)
    while True:
        names = {each.part.name for each, kept in zip(chosen, stays, strict=True) if kept and each.part}
        now = [not line.only_with or any(name in names for name in line.only_with) for line in lines]
        if now == stays:
            return stays
        stays = now


def built(rig: Rig, chosen: Sequence[Option], stays: Sequence[bool]) -> Build:
    """The build of one combination: an option of each line, and whether the line stands."""
    standing = []
    choice: dict[str, str] = {}
    for line, option, kept in zip(rig.lines, chosen, stays, strict=True):
        if kept and option.part is not None:
            standing.append(Standing(option.part, line, option.where))
        if len(line.options) > 1 and kept:
            name = option.part.name if option.part else "none"
            choice[line.slot] = f"{choice[line.slot]}, {name}" if line.slot in choice else name
    return Build(rig, tuple(standing), tuple(choice.items()))
