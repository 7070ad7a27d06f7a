"""What is ordered, needed, packed and joined, after the design, by trying everything."""

from __future__ import annotations

import itertools
from collections import Counter
from collections.abc import Sequence
from datetime import date

from tests.second.combining import SUPPORT, Combination, Stands, combinations_of
from tests.second.described import ANY_MASS, ZERO, Case, Found, Held, Kit, Move, Part, Port, Range, Rig

JOINERS = ("adapter", "riser")
"""What may stand in a bridge. The design says adapters; taken is: and risers, which join as well."""


def items(kit: Kit) -> dict[str, dict[str, int]]:
    """For each part of the books that an order or a rig names, how many: `ordered`, `in_rigs`, `used_at_once`."""
    ordered: Counter[str] = Counter()
    for order in kit.orders:
        for line in order:
            _add(kit, ordered, line.name, line.count)
    needs = {rig.name: _needs(kit, rig) for rig in kit.rigs}
    named = {
        *(line.name for order in kit.orders for line in order),
        *(name for need in needs.values() for name in need),
    }
    names = [part.name for part in kit.parts if part.name in named]
    return {
        name: {
            "ordered": ordered[name],
            "in_rigs": sum(need[name] for need in needs.values()),
            "used_at_once": _at_once(kit, {rig.name: needs[rig.name][name] for rig in kit.rigs}),
        }
        for name in names
    }


def _add(kit: Kit, counts: Counter[str], name: str, count: int) -> None:
    """A kit counts as itself and as what it includes."""
    counts[name] += count
    part = kit.part(name)
    for number, inner in part.includes if part else ():
        _add(kit, counts, inner, number * count)


def _needs(kit: Kit, rig: Rig) -> Counter[str]:
    """The most of each part in any one combination, spares of a battery among them."""
    most: Counter[str] = Counter()
    for combination in combinations_of(kit, rig):
        here: Counter[str] = Counter()
        for each in combination:
            if each.part.name:
                here[each.part.name] += 1 + each.line.spare
        most |= here
    return most


def _at_once(kit: Kit, need: dict[str, int]) -> int:
    """The greatest sum over all sets of rigs that may stand together, pair by pair."""
    best = 0
    for size in range(1, len(kit.rigs) + 1):
        for rigs in itertools.combinations(kit.rigs, size):
            if all(_together(kit, a, b) for a, b in itertools.combinations(rigs, 2)):
                best = max(best, sum(need[rig.name] for rig in rigs))
    return best


def _together(kit: Kit, a: Rig, b: Rig) -> bool:
    if b.name in a.instead_of or a.name in b.instead_of:
        return False
    first, second = a.dates or kit.dates, b.dates or kit.dates
    return first is None or second is None or bool(_days(first) & _days(second))


def _days(span: tuple[date, date]) -> set[int]:
    return set(range(span[0].toordinal(), span[1].toordinal() + 1))


def packed(kit: Kit, case: Case, held: Held) -> dict[str, Found]:
    """The states of a packed thing; None for one that is not said. Truths as the words "yes" and "no"."""
    words = {word: "yes" if word in held.words else "no" for word in ("camera on", "on sticks", "in own case")}
    moves = [move for move in kit.moves if move.name in case.goes]
    return {
        "tilted": held.tilted.range if held.tilted else None,
        "tension": (ZERO + held.step, ZERO + held.step) if held.step is not None else None,
        "tilt_lock": _said(held, "tilt ", ("locked", "free")),
        "pan_bar_left": _said(held, "pan bar ", ("off", "loose", "down", "along legs")),
        "slide_left": _said(held, "slide ", ("on", "off")),
        "camera_left": words["camera on"],
        "on_sticks": words["on sticks"],
        "in_own_case": words["in own case"],
        "longest_journey": _longest([move for move in moves if not move.stored]),
        "longest_storage": _longest([move for move in moves if move.stored]),
    }


def _said(held: Held, before: str, words: tuple[str, ...]) -> str | None:
    return next((word for word in words if before + word in held.words), None)


def _longest(moves: Sequence[Move]) -> Range:
    """The longest of some moves; one that does not say how long it lasts may last any time."""
    times = [move.lasts.range if move.lasts and move.lasts.known else ANY_MASS for move in moves]
    return (max((low for low, _ in times), default=ZERO), max((high for _, high in times), default=ZERO))


def joints(combination: Combination) -> list[tuple[Part, Part]]:
    """From ground to lens: each support part on the one before, and lenses on the camera."""
    chain = [each for each in combination if each.line.slot in SUPPORT and each.line.slot != "spreader"]
    found = [(upper.part, lower.part) for lower, upper in itertools.pairwise(chain)]
    cameras = [each for each in chain if each.line.slot == "camera"]
    return found + [(each.part, cameras[0].part) for each in combination if cameras and _is_lens(each)]


def _is_lens(each: Stands) -> bool:
    return each.line.slot == "lens" and not each.line.on


def mates(upper: Part, lower: Part) -> bool | None:
    """Whether a seat finds a port of its family and size; None where what one has is not written."""
    if _meet(lower.takes, upper.sits_on):
        return True
    return False if upper.sits_on and lower.takes else None


def _meet(ports: Sequence[Port], seats: Sequence[Port]) -> bool:
    return any((port.family, port.size) == (seat.family, seat.size) for port in ports for seat in seats)


def bridge_length(kit: Kit, upper: Part, lower: Part) -> int:
    """How many adapters the shortest run has that joins two parts, every run tried; 0 where there is none."""
    joiners = [each for each in kit.parts if each.kind in JOINERS]
    for length in range(1, len(joiners) + 1):
        if any(joins(run, upper, lower) for run in itertools.permutations(joiners, length)):
            return length
    return 0


def joins(run: Sequence[Part], upper: Part, lower: Part) -> bool:
    parts = [lower, *run, upper]
    return all(_meet(under.takes, over.sits_on) for under, over in itertools.pairwise(parts))
