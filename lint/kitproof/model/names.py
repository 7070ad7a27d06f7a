"""Whether every name by which one thing speaks of another is known, and nothing lies inside itself.

What is found is said through a function that is passed in; nothing is changed.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence

from msgspec import Struct

from kitproof.model.kitlist import Case, Order
from kitproof.model.parts import Named, Part
from kitproof.model.reports import Report
from kitproof.model.rigs import Rig, SlotLine
from kitproof.reading.document import Where
from kitproof.words.nearest import nearest
from kitproof.words.phrases import with_article

OWN_PARTS = (("pan_bar", "pan bar"), ("own_case", "case"))
"""Fields of a head that name another part, and its kind."""


class Shelves(Struct, frozen=True):
    """All that a name may mean. `others` are parts that a line of the list described by their mass alone.

    `whole` is False while a used file is lost: a part's name that is not known may then stand in it.
    """

    parts: Mapping[str, Part]
    others: Mapping[str, Part]
    rigs: Mapping[str, Rig]
    cases: Mapping[str, Case]
    orders: Sequence[Order]
    whole: bool


def check_names(shelves: Shelves, report: Report) -> None:
    """Says every name that is not known, at the word, and every thing that is inside itself."""
    for part in shelves.parts.values():
        _part(part, shelves, report)
    for rig in shelves.rigs.values():
        _rig(rig, shelves, report)
    for order in shelves.orders:
        for line in order.lines:
            if line.for_rig and line.for_rig not in shelves.rigs:
                _no_rig(line.for_rig, line.where, shelves, report)
    for case in shelves.cases.values():
        _case(case, shelves, report)


def _part(part: Part, shelves: Shelves, report: Report) -> None:
    for field, kind in OWN_PARTS:
        name = getattr(part, field)
        other = shelves.parts.get(name) if name else None
        if name and (other is None or other.kind != kind):
            wanted = with_article(kind)
            if other is not None:
                wanted = f'{wanted}: "{name}" is {with_article(other.kind)}'
            elif not shelves.whole:
                continue
            known = tuple(each.name for each in shelves.parts.values() if each.kind == kind)
            report("unknown-part", part.where_of(field), name, known=known, wanted=wanted)
    for each in (*part.goes_with, *part.includes):
        _known_part(each.name, each.where, shelves, report)
    for inner in part.includes:
        if _leads_back(inner.name, part.name, lambda name: _names(shelves.parts, name)):
            report("figures-contradict", inner.where, f'"{inner.name}"', wanted=f"that part has {part.label} in it")


def _names(parts: Mapping[str, Part], name: str) -> Iterator[str]:
    included: tuple[Named, ...] = parts[name].includes if name in parts else ()
    return (each.name for each in included)


def _known_part(name: str, where: Where, shelves: Shelves, report: Report) -> None:
    if shelves.whole and name not in shelves.parts and name not in shelves.others:
        report("unknown-part", where, name, known=tuple(shelves.parts), wanted="a part of the parts books")


def _no_rig(name: str, where: Where, shelves: Shelves, report: Report) -> None:
    near = nearest(name, shelves.rigs)
    report("unknown-part", where, f"rig {name}", nearest_known=near, wanted="a rig of this list")


def _rig(rig: Rig, shelves: Shelves, report: Report) -> None:
    """What its lines are on and what they ask for; left out while a line that could not be read may have held it."""
    for name, where in zip(rig.instead_of, rig.instead_of_at, strict=True):
        if name == rig.name:
            report("figures-contradict", where, rig.label, wanted="a rig is never built instead of itself")
        elif name not in shelves.rigs:
            _no_rig(name, where, shelves, report)
    parts = [option.part for line in rig.lines for option in line.options if option.part is not None]
    if rig.unread or any(not part.name and not part.described for part in parts):
        return
    slots = tuple(dict.fromkeys(line.slot for line in rig.lines))
    names = tuple(dict.fromkeys(part.name for part in parts if part.name))
    for number, line in enumerate(rig.lines):
        if line.on and _leads_back_to(rig.lines, number):
            where = _spoken(rig, line, line.on_at)
            report("figures-contradict", where, f"on {line.on}", wanted="what it is on stands on it in turn")
        if line.on and line.on not in (names if line.on_is_name else (*slots, "ground")):
            known, wanted = (names, "a part") if line.on_is_name else (slots, "a slot")
            where = _spoken(rig, line, line.on_at)
            report("unknown-part", where, line.on, known=known, wanted=f"{wanted} that {rig.label} has")
        for name, at in zip(line.only_with, line.only_with_at, strict=True):
            if name not in names:
                wanted = f"a part that {rig.label} has"
                report("unknown-part", _spoken(rig, line, at), name, known=names, wanted=wanted)


def _leads_back_to(lines: Sequence[SlotLine], start: int) -> bool:
    """Whether what a line is on stands, in the end, on that line again."""
    met: set[int] = set()
    here = _under(lines, start)
    while here is not None and here not in met:
        if here == start:
            return True
        met.add(here)
        here = _under(lines, here)
    return False


def _under(lines: Sequence[SlotLine], number: int) -> int | None:
    """The line that a line says it is on: another one that fits, else itself if it does."""
    line = lines[number]
    fitting = [other for other, each in enumerate(lines) if line.on and _is(each, line)]
    others = [other for other in fitting if other != number]
    return next(iter([*others, *fitting]), None)


def _is(other: SlotLine, line: SlotLine) -> bool:
    """Whether a line is what another says it is on."""
    if line.on_is_name:
        return any(option.part is not None and option.part.name == line.on for option in other.options)
    return other.slot == line.on


def _spoken(rig: Rig, line: SlotLine, at: Where | None) -> Where:
    """The place of a word on a rig's own line; for a line that it has from another rig, the rig itself."""
    return at if at is not None and line.where.line > rig.where.line else rig.where


def _case(case: Case, shelves: Shelves, report: Report) -> None:
    for packed in case.holds:
        name = packed.case_name
        if name and name not in shelves.cases:
            report("unknown-part", packed.where, name, known=tuple(shelves.cases), wanted="a case of this list")
        elif name and _leads_back(name, case.name, lambda each: _inner(shelves.cases, each)):
            report("figures-contradict", packed.where, f'case "{name}"', wanted=f"that case has {case.label} in it")
        if packed.fitted_in:
            where = packed.places.get("fitted_in", packed.where)
            _known_part(packed.fitted_in, where, shelves, report)


def _inner(cases: Mapping[str, Case], name: str) -> Iterator[str]:
    held = cases[name].holds if name in cases else ()
    return (packed.case_name for packed in held if packed.case_name)


def _leads_back(start: str, goal: str, inner: Callable[[str], Iterator[str]]) -> bool:
    """Whether `goal` is `start`, or lies anywhere inside it."""
    waiting, seen = [start], {start}
    while waiting:
        name = waiting.pop()
        if name == goal:
            return True
        new = [each for each in inner(name) if each not in seen]
        waiting += new
        seen.update(new)
    return False
