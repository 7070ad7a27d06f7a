"""Cases packed: what they weigh, and who may lift them. `stowing` tells whether things fit."""

from __future__ import annotations

import math

from kitproof.facts.cases import with_inner
from kitproof.facts.fact import fact
from kitproof.facts.outlines import mass_of
from kitproof.facts.packing import CaseSubject
from kitproof.facts.values import TRUTH, Amount, Truth, Verdict, Words, joined, number, text
from kitproof.mechanics import baggage, lifting
from kitproof.mechanics.lifting import Hands, Lift
from kitproof.model.kitlist import Case, Packed
from kitproof.model.quantities import Interval, Range
from kitproof.words.dimensions import LENGTH, MASS, NUMBER

NIOSH = "NIOSH 94-110 (rev. 9/2021), as quoted; geometry not said from memory"
HANDLE_OUT: Range = (0.25, 0.63)
"""How far out the hands are where neither the case nor its depth says: as near and as far as the equation goes."""

HANDLE_UP: Range = (0.0, 1.75)
"""How high they are where it is not said: all of the equation's heights."""

SELDOM: Range = (0.0, 0.0)
"""How often where it is not said: no oftener than the least of the equation's rates, which counts for all below it."""

PEOPLE = {2: "two people", 3: "three people"}
"""Those of whom the guidance speaks, one apart."""


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
        own = _said(each.mass, f"{each.label}: mass")
        low, high = low + own.low, math.inf if each.unread else high + own.high
        missing = joined(missing, own.missing, each.unread)
    for packed in _held(case):
        assert packed.part is not None
        mass, lacks = mass_of(packed.part)
        low, high = low + packed.count * mass[0], high + packed.count * mass[1]
        missing = joined(missing, lacks)
    return Amount(low, high, missing)


@fact(
    "limit_told", "case", TRUTH, "whether anything says what the case may weigh at most, if only as a ?", certain=True
)
def limit_told(case: CaseSubject) -> Verdict:
    house = case.case.house_case
    told = "limit" in case.case.places or (house is not None and "limit" in house.places)
    return Verdict(Truth.TRUE if told else Truth.FALSE)


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


def _lift(case: CaseSubject) -> tuple[Lift | None, tuple[str, ...]]:
    """The lift as the case says it; None where it says none. The width of a case is its depth before the body."""
    said = case.case.lifted
    if said is None:
        return None, ()
    label = case.case.label
    heights = (("from", said.from_height), ("to", said.to_height))
    missing = [f"{label}: {word}" for word, height in heights if height is None]
    start, end = (HANDLE_UP if height is None else height.range for _, height in heights)
    depth = case.case.outside[1].range if case.case.outside and case.case.outside[1].known else None
    outs = []
    for up in (start, end):
        if said.out is not None and said.out.known:
            outs.append(said.out.range)
        elif depth is not None and said.people == 1:
            outs.append(lifting.reach(depth, up))
        else:
            outs.append(HANDLE_OUT)
            missing.append(f"{label}: how far out the hands are")
    rate = SELDOM if said.rate is None else said.rate.range
    if said.rate is not None and not said.rate.known:
        missing.append(f"{label}: how often it is lifted")
    return Lift(Hands(outs[0], start), Hands(outs[1], end), rate), tuple(missing)


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
    "lift_index over 4/3 for two people, 3/2 for three; for more, between that for three and an even share",
    "UK guidance on manual handling, as quoted; more than three: derived",
)
def team_index(case: CaseSubject) -> Amount | None:
    """More people than three count for no less than three, and never for more than as many as they are."""
    index = lift_index.compute(case)
    if not isinstance(index, Amount):
        return None
    people = int(case.amount("lift_people").low)
    guide = lifting.team_guide((index.low, index.high), people)
    if guide is None:
        guide = (index.low / people, index.high / lifting.TEAM_SHARES[3])
    return Amount(*guide, index.missing)


@fact(
    "lift_guide",
    "case",
    text(),
    "how many people it is for by the guide, in words; nothing where one is enough or three are not",
    "the least number of people for whom the index shared out is 1 at most",
    "UK guidance on manual handling, as quoted",
)
def lift_guide(case: CaseSubject) -> Words:
    index = lift_index.compute(case)
    if not isinstance(index, Amount) or index.high <= 1:
        return Words(None)
    enough = (words for people, words in PEOPLE.items() if index.high <= lifting.TEAM_SHARES[people])
    return Words(next(enough, None))


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
