"""Many combinations of a rig at once: a box of options, a set of them for each line, and the build that it makes."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from itertools import product
from typing import Any, NamedTuple, cast

from kitproof.facts.build import Build, Standing, built, kept_lines
from kitproof.facts.hulls import Blend, DiffersError, Pin, Watch, open_place
from kitproof.model.parts import Part
from kitproof.model.rigs import Rig


class Box(NamedTuple):
    """For each line the options that it takes in, in the order written, and whether the line stands at all.

    A line that falls away by its `only with` has one option, the first with which it does.
    """

    options: tuple[tuple[int, ...], ...]
    stands: tuple[bool, ...]

    @property
    def size(self) -> int:
        """How many combinations there are in it."""
        return math.prod(len(each) for each in self.options)

    @property
    def first(self) -> tuple[int, ...]:
        """The first of them in the order written, as the option of each line."""
        return tuple(each[0] for each in self.options)

    @property
    def choices(self) -> tuple[tuple[int, ...], ...]:
        """For each line the options of what may stand there; none for a line that falls away."""
        return tuple(each if stands else () for each, stands in zip(self.options, self.stands, strict=True))

    def having(self, line: int, options: Sequence[int]) -> Box:
        """The part of it with these options of a line, which it must hold."""
        changed = (*self.options[:line], tuple(options), *self.options[line + 1 :])
        return Box(changed, self.stands)

    def only(self, picks: Sequence[int]) -> Box:
        """One combination of it."""
        return Box(tuple((pick,) for pick in picks), self.stands)

    def holds(self, picks: Sequence[int]) -> bool:
        """Whether it has a combination."""
        return all(pick in options for pick, options in zip(picks, self.options, strict=True))

    def at(self, lines: Iterable[int], chosen: Sequence[int]) -> Box:
        """The part of it with one option of each of some lines."""
        options = list(self.options)
        for line, option in zip(sorted(lines), chosen, strict=True):
            options[line] = (option,)
        return Box(tuple(options), self.stands)

    def picks(self) -> Iterator[tuple[int, ...]]:
        """Its combinations one by one, in the order written."""
        return product(*self.options)


def boxes(rig: Rig) -> list[Box]:
    """All combinations of a rig in boxes that have none in common; in each, the same lines stand.

    Which lines stand depends on no more than which of the names that an `only with` gives are chosen: the options of a
    line are kept apart by that alone. Where a line falls away, its options are one and the same combination.
    """
    asked = {name for line in rig.lines for name in line.only_with}
    classes = [_classes([option.part for option in line.options], asked) for line in rig.lines]
    found: dict[tuple[int | None, ...], Box] = {}
    for chosen in product(*(range(len(each)) for each in classes)):
        groups = [each[number] for each, number in zip(classes, chosen, strict=True)]
        stands = kept_lines(rig.lines, [line.options[group[0]] for line, group in zip(rig.lines, groups, strict=True)])
        key = tuple(number if kept else None for number, kept in zip(chosen, stands, strict=True))
        options = tuple(group if kept else group[:1] for group, kept in zip(groups, stands, strict=True))
        found.setdefault(key, Box(options, tuple(stands)))
    return list(found.values())


def holding(rig: Rig, box: Box, name: str) -> list[Box]:
    """The combinations of a box in which a part of some name stands, in boxes that have none in common."""
    found = []
    for number, options in enumerate(box.options):
        if not box.stands[number]:
            continue
        parts = [rig.lines[number].options[each].part for each in options]
        has = [each for each, part in zip(options, parts, strict=True) if part is not None and part.name == name]
        if has:
            found.append(box.having(number, has))
        rest = [each for each in options if each not in has]
        if not rest:
            break
        box = box.having(number, rest)
    return found


def _classes(parts: Sequence[Part | None], asked: Iterable[str]) -> list[tuple[int, ...]]:
    """The options of a line, kept apart by which of the names that are asked for they have, if any."""
    groups: dict[str, list[int]] = {}
    for number, part in enumerate(parts):
        groups.setdefault(part.name if part is not None and part.name in asked else "", []).append(number)
    return [tuple(group) for group in groups.values()]


def count(rig: Rig) -> int:
    """How many combinations a rig has."""
    return sum(box.size for box in boxes(rig))


def build_at(rig: Rig, picks: Sequence[int], stands: Sequence[bool]) -> Build:
    """The build of one combination."""
    chosen = [line.options[pick] for line, pick in zip(rig.lines, picks, strict=True)]
    return built(rig, chosen, stands)


class Blends:
    """Makes the builds of a rig's boxes. A blend of the same options of a line is made once.

    With a `pin`, every number in doubt of every part is taken as one that it may be.
    """

    def __init__(self, rig: Rig, watch: Watch, pin: Pin | None = None) -> None:
        self.rig, self.watch, self.pin = rig, watch, pin
        self._made: dict[tuple[int, tuple[int, ...]], Standing | None] = {}

    def build(self, box: Box) -> Build:
        """A build with a blend on each line that has several options in the box."""
        open_lines = tuple(self._open(number, options) for number, options in enumerate(box.options))
        if any(open_lines):
            return cast(Build, _Unsettled(self, box, open_lines))
        standing = (self.standing(box, number) for number in range(len(box.options)))
        return Build(self.rig, tuple(each for each in standing if each is not None), ())

    def _open(self, line: int, options: tuple[int, ...]) -> bool:
        """Whether it is open if anything stands on a line."""
        there = [self.rig.lines[line].options[each].part is not None for each in options]
        return any(there) and not all(there)

    def standing(self, box: Box, number: int) -> Standing | None:
        """What stands on a line; None for nothing."""
        options = box.options[number]
        if not box.stands[number]:
            return None
        if (number, options) not in self._made:
            self._made[number, options] = self._make(number, options)
        return self._made[number, options]

    def _make(self, number: int, options: tuple[int, ...]) -> Standing | None:
        line = self.rig.lines[number]
        parts = [option.part for option in (line.options[each] for each in options) if option.part is not None]
        if not parts:
            return None
        where = line.options[options[0]].where if len(parts) == 1 else open_place(number)
        if len(parts) == 1 and self.pin is None:
            return Standing(parts[0], line, where)
        return Standing(cast(Part, Blend(number, options, parts, self.watch, self.pin)), line, where)


class _Unsettled:
    """A build of which it is open whether something stands on some lines. It can be asked for what is first in a slot,
    where no such line comes before; anything else takes the first such line apart."""

    def __init__(self, blends: Blends, box: Box, open_lines: Sequence[bool]) -> None:
        self.rig = blends.rig
        self._blends, self._box, self._open_lines = blends, box, open_lines

    def first(self, slot: str) -> Standing | None:
        for number, line in enumerate(self.rig.lines):
            if line.slot != slot:
                continue
            if self._open_lines[number]:
                raise self._split(number)
            found = self._blends.standing(self._box, number)
            if found is not None:
                return found
        return None

    def __getattr__(self, name: str) -> Any:
        if name not in ("standing", "chain", "above", "choice"):
            raise AttributeError(name)
        raise self._split(self._open_lines.index(True))

    def _split(self, number: int) -> DiffersError:
        options = self.rig.lines[number].options
        groups: dict[bool, list[int]] = {}
        for each in self._box.options[number]:
            groups.setdefault(options[each].part is None, []).append(each)
        return DiffersError(number, list(groups.values()))
