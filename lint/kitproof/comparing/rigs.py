"""What differs between two rigs: their lines, whose order tells nothing, and the conditions that they work in."""

from __future__ import annotations

from collections import Counter
from collections.abc import Hashable, Mapping, Sequence

from kitproof.comparing.differences import SITE, Difference, Kind, fields_of
from kitproof.comparing.said import MOST, apart, bare, words
from kitproof.model.parts import Part
from kitproof.model.rigs import Rig, SlotLine
from kitproof.rulebook.messages import DEFAULT_UNITS, Units

CONDITIONS = ("tilts", "left_standing", "underslung", "mounted_on", "push", "drag", "dates", "tag")


def rig(was: Rig, now: Rig, names: Mapping[str, str], units: Units) -> list[Difference]:
    """What differs between two rigs that are the same one. `names` leads from the old names of rigs to the new ones."""
    found = lines(was.lines, now.lines, units)
    found += fields_of(was, now, CONDITIONS, units)
    before, after = {names.get(each, each) for each in was.instead_of}, set(now.instead_of)
    if before != after:
        said = [", ".join(sorted(each)) or "none" for each in (before, after)]
        found.append(Difference("changed", "instead of", said[0], said[1]))
    return found + fields_of(was.site, now.site, SITE, units)


def line_says(line: SlotLine) -> Hashable:
    """All that a slot line says, whatever the order of its alternatives."""
    options = frozenset(_option_name(each.part) for each in line.options)
    return (line.slot, options, _clauses(line))


def _clauses(line: SlotLine) -> Hashable:
    """What a line says for all its alternatives."""
    only = frozenset(line.only_with)
    return (bare(line.at), line.at_known, line.on, line.on_is_name, bare(line.legs), bare(line.hung), line.spare, only)


def _option_name(part: Part | None) -> str:
    """A part by its name; one that a line describes by its mass alone, by that."""
    if part is None:
        return "none"
    return f'"{part.name}"' if part.name else f"{part.kind} of {words(part.mass, DEFAULT_UNITS, MOST)}"


def names_on(line: SlotLine) -> frozenset[str]:
    """The names of a line's alternatives."""
    return frozenset(_option_name(each.part) for each in line.options)


def lines(was: Sequence[SlotLine], now: Sequence[SlotLine], units: Units) -> list[Difference]:
    """What differs between the lines of two rigs; their order tells nothing."""
    old, new = _without(was, now), _without(now, was)
    slots = dict.fromkeys(line.slot for line in (*new, *old))
    found: list[Difference] = []
    for slot in slots:
        before, after = [each for each in old if each.slot == slot], [each for each in new if each.slot == slot]
        pairs = _line_pairs(before, after)
        for one, other in pairs:
            found += _line(one, other, units)
        paired = {id(each) for pair in pairs for each in pair}
        found += [Difference("gone", slot, _named(each), None) for each in before if id(each) not in paired]
        found += [Difference("new", slot, None, _named(each)) for each in after if id(each) not in paired]
    return found


def _without(lines: Sequence[SlotLine], others: Sequence[SlotLine]) -> list[SlotLine]:
    """The lines that the others do not have, each as often as they lack it."""
    there = Counter(line_says(each) for each in others)
    left = []
    for each in lines:
        says = line_says(each)
        if there[says]:
            there[says] -= 1
        else:
            left.append(each)
    return left


def _line_pairs(before: Sequence[SlotLine], after: Sequence[SlotLine]) -> list[tuple[SlotLine, SlotLine]]:
    """Lines of one slot that speak of the same place in the rig: those that share most names first, then as written."""
    ranked = sorted(
        (-len(names_on(one) & names_on(other)), new, old)
        for old, one in enumerate(before)
        for new, other in enumerate(after)
    )
    olds: dict[int, int] = {}
    for _, new, old in ranked:
        if old not in olds and new not in olds.values():
            olds[old] = new
    return [(before[old], after[new]) for old, new in sorted(olds.items(), key=lambda pair: pair[1])]


def _line(was: SlotLine, now: SlotLine, units: Units) -> list[Difference]:
    """What differs between two lines of one slot: other parts, and what is said of where they stand."""
    before, after = names_on(was), names_on(now)
    found = []
    if before != after:
        gone, new = sorted(before - after), sorted(after - before)
        if gone and new:
            found.append(Difference("swapped", now.slot, " or ".join(gone), " or ".join(new)))
        else:
            kind: Kind = "gone" if gone else "new"
            choice = f"choice of {now.slot}"
            found.append(Difference(kind, choice, " or ".join(gone) or None, " or ".join(new) or None))
    if _clauses(was) != _clauses(now):
        thing = f"{now.slot} {' or '.join(sorted(after))}"
        said = apart(lambda digits: (_clause_words(was, units, digits), _clause_words(now, units, digits)))
        found.append(Difference("changed", thing, *said))
    return found


def _clause_words(line: SlotLine, units: Units, digits: int) -> str:
    said = []
    if line.at is not None:
        said.append(f"at {words(line.at, units, digits)}")
    elif not line.at_known:
        said.append("at ?")
    if line.on:
        said.append(f'on "{line.on}"' if line.on_is_name else f"on {line.on}")
    said += [f"legs at {words(line.legs, units, digits)}"] if line.legs else []
    said += [f"hung at {words(line.hung, units, digits)}"] if line.hung else []
    said += [f"spare {line.spare}"] if line.spare else []
    said += [f"only with {' or '.join(sorted(line.only_with))}"] if line.only_with else []
    return ", ".join(said) or "nothing said of where it is"


def _named(line: SlotLine) -> str:
    return " or ".join(_option_name(each.part) for each in line.options)
