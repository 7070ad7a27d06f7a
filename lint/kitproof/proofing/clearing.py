"""The smallest change that clears what is found in some combinations of a rig: which alternatives to leave out.

It is worked out from the combinations in which it was found; nothing is judged again. One or two alternatives that are
enough are found exactly. Where more are needed they are taken one after another, each time that with which it was found
the most often, so that there may be fewer that do.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence

from kitproof.model.rigs import Rig
from kitproof.proofing.findings import Cleared, LeftOut
from kitproof.proofing.hits import Choices

Picked = tuple[int, int]
"""A line and one of its options."""


def cleared(rig: Rig, met: Sequence[Choices]) -> Cleared | None:
    """The alternatives of a rig that, left out, leave none of the combinations in which something was found. One of
    each line has to stay; None where that is in the way."""
    free = [len(line.options) for line in rig.lines]
    few = next((each for each in _few(met, free) if _leaves_one(each, free)), None)
    if few is not None:
        return Cleared(_named(rig, few), smallest=True)
    many = _one_after_another(met, free)
    return None if many is None else Cleared(_named(rig, many), smallest=False)


def _few(met: Sequence[Choices], free: Sequence[int]) -> Iterator[tuple[Picked, ...]]:
    """One alternative that clears all, or else two: those of the lines that leave most to choose from first.

    Each must clear the first combinations that were met, which keeps down what there is to try.
    """
    yield from ((one,) for one in _clearing(met[0], free) if _clears((one,), met))
    for one in _clearing(met[0], free):
        left = [rest for each in met if (rest := _without(each, one)) is not None]
        yield from ((one, other) for other in _clearing(left[0], free) if _clears((other,), left))
    for line, options in enumerate(met[0]):
        if free[line] > 2 and len(options) == 2:
            both = tuple((line, option) for option in options)
            yield from [both] * _clears(both, met)


def _clearing(choices: Choices, free: Sequence[int]) -> list[Picked]:
    """The single alternatives that clear some combinations."""
    found = [(line, options[0]) for line, options in enumerate(choices) if len(options) == 1 and free[line] > 1]
    return sorted(found, key=lambda each: (-free[each[0]], each))


def _clears(left_out: Iterable[Picked], met: Iterable[Choices]) -> bool:
    """Whether none of some combinations are left."""
    gone = set(left_out)
    return all(any(options and _all_gone(line, options, gone) for line, options in enumerate(each)) for each in met)


def _all_gone(line: int, options: tuple[int, ...], gone: set[Picked]) -> bool:
    return all((line, option) in gone for option in options)


def _leaves_one(left_out: Sequence[Picked], free: Sequence[int]) -> bool:
    return all(sum(each[0] == line for each in left_out) < free[line] for line, _ in left_out)


def _one_after_another(met: Sequence[Choices], free: Sequence[int]) -> tuple[Picked, ...] | None:
    """Alternatives that clear all, none of which could stay."""
    chosen: list[Picked] = []
    left = list(met)
    while left:
        counts: dict[Picked, float] = {}
        for each in left:
            share = math.prod(len(options) or 1 for options in each)
            for line, options in enumerate(each):
                for option in options:
                    counts[line, option] = counts.get((line, option), 0.0) + share / len(options)
        allowed = [each for each in counts if _leaves_one([*chosen, each], free)]
        if not allowed:
            return None
        chosen.append(max(sorted(allowed), key=lambda each: (counts[each], free[each[0]])))
        left = [rest for each in left if (rest := _without(each, chosen[-1])) is not None]
    for one in list(chosen):
        others = [other for other in chosen if other != one]
        chosen = others if _clears(others, met) else chosen
    return tuple(chosen)


def _without(choices: Choices, gone: Picked) -> Choices | None:
    """What is left of some combinations; None for nothing."""
    line, option = gone
    if option not in choices[line]:
        return choices
    rest = tuple(each for each in choices[line] if each != option)
    return (*choices[:line], rest, *choices[line + 1 :]) if rest else None


def _named(rig: Rig, left_out: Iterable[Picked]) -> tuple[LeftOut, ...]:
    found = []
    for line, option in sorted(left_out):
        part = rig.lines[line].options[option].part
        found.append(LeftOut(rig.lines[line].slot, part.name if part is not None else "none"))
    return tuple(found)
