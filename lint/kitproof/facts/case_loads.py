"""Cases packed: what they weigh, whether things fit, and who may lift them."""

from __future__ import annotations

import math

from kitproof.facts.cases import with_inner
from kitproof.facts.fact import fact
from kitproof.facts.outlines import mass_of
from kitproof.facts.packing import CaseSubject
from kitproof.facts.values import Amount, Words, joined, number, text
from kitproof.mechanics import baggage, fitting, lifting
from kitproof.mechanics.fitting import Fit
from kitproof.mechanics.lifting import Hands, Lift
from kitproof.model.kitlist import Case, Packed
from kitproof.model.parts import Part
from kitproof.model.quantities import Interval, Range
from kitproof.words.dimensions import LENGTH, MASS, NUMBER

NIOSH = "NIOSH 94-110 (rev. 9/2021), as quoted; geometry not said from memory"
HANDLE_OUT: Range = (0.25, 0.63)
"""How far out the hands are where neither the case nor its depth says: as near and as far as the equation goes."""


def _cases(case: CaseSubject) -> list[Case]:
    return with_inner(case.case, {each.name: each for each in case.setting.kitlist.cases})


def _held(case: CaseSubject) -> list[Packed]:
    return [packed for each in _cases(case) for packed in each.holds if packed.part is not None]


@fact(
    "case_mass", "case", number(MASS), "what the case weighs with all that lies in it", "sum of the masses", "statics"
)
def case_mass(case: CaseSubject) -> Amount:
    """Cases that lie in it count with what lies in them; a line that could not be read may hold anything."""
    low = high = 0.0
    missing: tuple[str, ...] = ()
    for each in _cases(case):
        known = each.mass is not None and each.mass.known
        low += each.mass.low if each.mass is not None else 0.0
        high += each.mass.high if each.mass is not None else math.inf
        missing = joined(missing, () if known else (f"{each.label}: mass",), each.unread)
        high += math.inf if each.unread else 0.0
    for packed in _held(case):
        assert packed.part is not None
        mass, lacks = mass_of(packed.part)
        low, high = low + packed.count * mass[0], high + packed.count * mass[1]
        missing = joined(missing, lacks)
    return Amount(low, high, missing)


@fact("case_limit", "case", number(MASS), "the most that the case may weigh packed", source="as said")
def case_limit(case: CaseSubject) -> Amount:
    return _said(case.case.limit, f"{case.case.label}: limit")


@fact(
    "case_spare",
    "case",
    number(MASS),
    "how much more may go into the case; negative where it is too heavy",
    "limit less what it weighs",
    "statics",
)
def case_spare(case: CaseSubject) -> Amount:
    limit, mass = case.amount("case_limit"), case.amount("case_mass")
    return Amount(limit.low - mass.high, limit.high - mass.low, joined(limit.missing, mass.missing))


def _said(interval: Interval | None, lacks: str) -> Amount:
    if interval is None or not interval.known:
        return Amount(0.0, math.inf, (lacks,))
    return Amount(interval.low, interval.high)


def _size(part: Part) -> tuple[fitting.Size | None, tuple[str, ...]]:
    """The size in which a part is packed: folded, its outline, or a lens's length and front."""
    if part.folds_to is not None and part.folds_to.known:
        return fitting.folded(part.folds_to.range), ()
    if len(part.size) == 3 and all(side.known for side in part.size):
        return (part.size[0].range, part.size[1].range, part.size[2].range), ()
    if part.kind == "lens" and part.length is not None and isinstance(part.front, Interval) and part.front.known:
        return (part.length.range, part.front.range, part.front.range), ()
    return None, (part.lacks("size"),)


@fact(
    "fits", "case", text("yes", "no", "not decided"), "whether what the case holds fits in it, set square to its sides"
)
def fits(case: CaseSubject) -> Words:
    """ "not decided" where too many things lie in it to try all, or only aslant may do; missing where sizes are not
    known. Cases that lie in it count by their outer sizes."""
    inside = case.case.inside
    if len(inside) != 3 or not all(side.known for side in inside):
        return Words(None, (f"{case.case.label}: inside",))
    things: list[fitting.Size] = []
    missing: tuple[str, ...] = case.case.unread
    named = {each.name: each for each in case.setting.kitlist.cases}
    for packed in case.case.holds:
        size, lacks = _size(packed.part) if packed.part else _outside(named.get(packed.case_name), packed.case_name)
        missing = joined(missing, lacks)
        things += [size] * packed.count if size is not None else []
    found = fitting.fits(things, (inside[0].range, inside[1].range, inside[2].range)).fit
    if found is Fit.NO:
        return Words("no")
    if missing or found is Fit.SIZES:
        return Words(None, missing or (f"{case.case.label}: the sizes of what it holds, more closely",))
    return Words("yes" if found is Fit.YES else "not decided")


def _outside(case: Case | None, name: str) -> tuple[fitting.Size | None, tuple[str, ...]]:
    if case is None or len(case.outside) != 3 or not all(side.known for side in case.outside):
        return None, (f'case "{name}": outside',)
    return (case.outside[0].range, case.outside[1].range, case.outside[2].range), ()


def _lift(case: CaseSubject) -> tuple[Lift | None, tuple[str, ...]]:
    """The lift as the case says it; None where it says none. The width of a case is its depth before the body."""
    said = case.case.lifted
    if said is None:
        return None, ()
    missing = [
        f"{case.case.label}: {word}"
        for word, each in (("from", said.from_height), ("to", said.to_height))
        if each is None or not each.known
    ]
    start = said.from_height.range if said.from_height else (0.0, 1.75)
    end = said.to_height.range if said.to_height else (0.0, 1.75)
    depth = case.case.outside[1].range if len(case.case.outside) > 1 and case.case.outside[1].known else None
    outs = []
    for up in (start, end):
        if said.out is not None and said.out.known:
            outs.append(said.out.range)
        elif depth is not None and said.people == 1:
            outs.append(lifting.reach(depth, up))
        else:
            outs.append(HANDLE_OUT)
            missing.append(f"{case.case.label}: how far out the hands are")
    rate = said.rate.range if said.rate is not None and said.rate.known else (0.0, 0.2 / 60)
    return Lift(Hands(outs[0], start), Hands(outs[1], end), rate), tuple(dict.fromkeys(missing))


@fact(
    "lift_index",
    "case",
    number(NUMBER),
    "the lifting index of the packed case for one person; over 1 is more than is recommended",
    "what it weighs over the recommended weight limit, the worse of where it is taken up and set down",
    NIOSH,
)
def lift_index(case: CaseSubject) -> Amount | None:
    """Not there where the case says nothing of how it is lifted."""
    lift, missing = _lift(case)
    if lift is None:
        return None
    mass = case.amount("case_mass")
    return Amount(*lifting.lifting_index((mass.low, mass.high), lift), joined(mass.missing, missing))


@fact(
    "lift_people",
    "case",
    number(NUMBER),
    "how many people lift it; 1 where it is not said",
    source="as said",
    certain=True,
)
def lift_people(case: CaseSubject) -> Amount:
    count = float(case.case.lifted.people if case.case.lifted else 1)
    return Amount(count, count)


@fact(
    "team_index",
    "case",
    number(NUMBER),
    "that index shared out among the people who lift it: a guide, outside the equation",
    "lift_index over 4/3 for two people, 3/2 for three",
    "UK guidance on manual handling, as quoted",
)
def team_index(case: CaseSubject) -> Amount | None:
    """Not there for a number of people of which no guidance speaks."""
    index = lift_index.compute(case)
    people = int(case.amount("lift_people").low)
    if not isinstance(index, Amount):
        return None
    guide = lifting.team_guide((index.low, index.high), people)
    return None if guide is None else Amount(*guide, index.missing)


@fact(
    "side_sum",
    "case",
    number(LENGTH),
    "the three outer sides of the case added up, as carriers measure",
    "length + width + height",
    "geometry",
)
def side_sum(case: CaseSubject) -> Amount:
    sides = [side.range for side in case.case.outside if side.known]
    if len(sides) != 3:
        return Amount(0.0, math.inf, (f"{case.case.label}: outside",))
    return Amount(*baggage.side_sum(sides))
