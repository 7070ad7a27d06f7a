"""Stowing: whether things fit in their cases, and whether what is ordered lies in any."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping

from kitproof.facts.fact import fact
from kitproof.facts.orders import LineSubject
from kitproof.facts.packing import CaseSubject, PackedSubject
from kitproof.facts.values import TRUTH, Amount, Several, Truth, Verdict, Words, joined, number, set_of, text
from kitproof.mechanics import fitting
from kitproof.mechanics.fitting import Fit, Size
from kitproof.model.kitlist import Case, Packed
from kitproof.model.parts import Part
from kitproof.model.quantities import Interval
from kitproof.words.dimensions import NUMBER

SQUARE = "turned by right angles and set square to the sides of the case: geometry"


def packed_size(part: Part) -> tuple[Size | None, tuple[str, ...]]:
    """The size in which a part is packed: its outline, or a lens's length and front. Of what folds only the greatest
    length when folded is known, unless its size is that of the folded thing: no side of it longer. What is missing."""
    size = None
    if len(part.size) == 3 and all(side.known for side in part.size):
        size = (part.size[0].range, part.size[1].range, part.size[2].range)
    elif part.length is not None and isinstance(part.front, Interval):  # a lens: rods have no front
        known = part.length.known and part.front.known
        size = (part.length.range, part.front.range, part.front.range) if known else None
    folds = part.folds_to
    if folds is not None and folds.known and (size is None or max(low for low, _ in size) > folds.high):
        return fitting.folded(folds.range), (part.lacks("size"),)
    return size, () if size is not None else (part.lacks("size"),)


def _outside(case: Case | None, name: str) -> tuple[Size | None, tuple[str, ...]]:
    if case is None or len(case.outside) != 3 or not all(side.known for side in case.outside):
        return None, (f'case "{name}": outside',)
    return (case.outside[0].range, case.outside[1].range, case.outside[2].range), ()


def _sizes(case: CaseSubject, packed: Packed) -> tuple[list[Size], tuple[str, ...]]:
    """The sizes of what one line holds, once; of a case in the case, the outer one. A kit that says no size lies in as
    the parts that it includes."""
    if packed.part is None:
        named = {each.name: each for each in case.setting.kitlist.cases}
        size, lacks = _outside(named.get(packed.case_name), packed.case_name)
        return ([] if size is None else [size]), lacks
    books = case.setting.kitlist.parts
    sizes: list[Size] = []
    missing: tuple[str, ...] = ()
    for part, count in _apart(packed.part, books, ()):
        size, lacks = packed_size(part)
        sizes += [size] * count if size is not None else []
        missing += lacks
    return sizes, missing


def _apart(part: Part, books: Mapping[str, Part], within: tuple[str, ...]) -> Iterator[tuple[Part, int]]:
    """A part and how often, or what a kit that says no size includes; a kit in itself is taken whole.

    A kit of which a line could not be read may include more than is known: it is there as well, for its size to be
    asked for. So is what no book describes.
    """
    taken = part.kind == "kit" and "size" not in part.places and part.includes and part.name not in within
    if not taken or part.blank("includes"):
        yield part, 1
    if taken:
        for each in part.includes:
            inner = books.get(each.name) or Part(kind="accessory", name=each.name, where=each.where, described=False)
            for piece, times in _apart(inner, books, (*within, part.name)):
                yield piece, each.count * times


def _inside(case: CaseSubject) -> tuple[Size | None, tuple[str, ...]]:
    inside = case.case.inside
    if len(inside) != 3 or not all(side.known for side in inside):
        return None, (f"{case.case.label}: inside",)
    return (inside[0].range, inside[1].range, inside[2].range), ()


@fact("inside_told", "case", TRUTH, "whether anything says how large the case is inside, if only as a ?", certain=True)
def inside_told(case: CaseSubject) -> Verdict:
    house = case.case.house_case
    return _truth("inside" in case.case.places or (house is not None and "inside" in house.places))


def _fit(case: CaseSubject) -> tuple[Fit, tuple[str, ...]]:
    """Whether all together fits, and what is missing to tell."""
    inside, missing = _inside(case)
    if inside is None:
        return Fit.SIZES, missing
    things: list[Size] = []
    missing = case.case.unread
    for packed in case.case.holds:
        sizes, lacks = _sizes(case, packed)
        missing = joined(missing, lacks)
        things += sizes * packed.count
    found = fitting.fits(things, inside).fit
    if found is Fit.SIZES and not missing:
        missing = (f"{case.case.label}: the sizes of what it holds, more closely",)
    if found is Fit.SEARCH:
        # There is a limit to how many ways to lay things are tried: whether more of them would do is not known.
        missing = joined(missing, (f"{case.case.label}: whether its {len(things)} things go in, by trying it",))
    return found, missing


@fact("fits", "case", TRUTH, "whether all that lies in the case fits in it", source=SQUARE)
def fits(case: CaseSubject) -> Verdict:
    """In doubt where there is no way to lay it square to the sides, and something set aslant may do. Missing where
    sizes are not known, or too many things lie in it to try all ways. Cases that lie in it count by their outer sizes.
    """
    found, missing = _fit(case)
    if found is Fit.NO:
        return Verdict(Truth.FALSE)
    if missing:
        return Verdict(Truth.MISSING, missing)
    return Verdict(Truth.TRUE if found is Fit.YES else Truth.UNDECIDED)


@fact("misfits", "case", set_of("packed"), "what lies in it and does not go in even alone")
def misfits(case: CaseSubject) -> Several:
    return Several(
        PackedSubject(case.setting, case.case, each, each.part) for each in _misfits(case) if each.part is not None
    )


def _misfits(case: CaseSubject) -> list[Packed]:
    inside, _ = _inside(case)
    if inside is None:
        return []
    sized = ((each, _sizes(case, each)[0]) for each in case.case.holds)
    return [each for each, sizes in sized if any(fitting.fits_alone(size, inside) is Fit.NO for size in sizes)]


@fact("why_not_in", "case", text(), "why what lies in it cannot go in, in words; nothing where it may")
def why_not_in(case: CaseSubject) -> Words:
    if case.value("fits") != Verdict(Truth.FALSE):
        return Words(None)
    alone = [f'"{each.part.name}"' if each.part else f'case "{each.case_name}"' for each in _misfits(case)]
    if not alone:
        return Words("all together it has more volume than there is inside")
    names = " and ".join(filter(None, (", ".join(alone[:-1]), alone[-1])))
    return Words(f"{names} {'do' if len(alone) > 1 else 'does'} not go in even alone, however turned")


@fact("cases_there", "line", TRUTH, "whether the list has a case at all", certain=True)
def cases_there(line: LineSubject) -> Verdict:
    return _truth(bool(line.setting.kitlist.cases))


@fact("travels_in_case", "line", TRUTH, "whether it is a part that travels in a case, not a case itself", certain=True)
def travels_in_case(line: LineSubject) -> Verdict:
    """Not said of a name that no book describes: what it means is asked first."""
    return _truth(line.line.part.described and line.line.part.kind != "case")


@fact("packed", "line", number(NUMBER), "how many of the part lie in cases; a kit also where all that it includes does")
def line_packed(line: LineSubject) -> Amount:
    """A line of a case that could not be read may have held any number; one of a kit may include what does not lie in
    any. What another part than a kit includes is not all there is of it."""
    held, part = line.tally.held, line.line.part
    inner = [held.get(each.name, 0) // each.count for each in part.includes if each.count and part.kind == "kit"]
    whole = held.get(part.name, 0)
    most = max(whole, min(inner, default=0))
    least = whole if part.blank("includes") else most
    lost = line.tally.unread_cases
    missing = (*lost, *((part.lacks("includes"),) if least < most else ()))
    return Amount(float(least), math.inf if lost else float(most), missing)


def _truth(said: bool) -> Verdict:
    return Verdict(Truth.TRUE if said else Truth.FALSE)
