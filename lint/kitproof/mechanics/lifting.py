"""The revised NIOSH lifting equation: what one person may lift with two hands, and how a load compares with it.

RWL = LC × HM × VM × DM × AM × FM × CM, LI = load / RWL. Symbols, here in SI:

- RWL recommended weight limit, in kg; LI lifting index, a plain number: over 1 is more than the limit.
- H how far the hands are in front of the ankles, V how high they are above the floor, D how far they travel up or down,
  W how deep the load is in front of the body, all in m; A how far the body twists, in radians; F how often, in lifts a
  second; the time spent on such work, in s.

Source: NIOSH 94-110 (rev. 9/2021), pp. 7–18, as quoted, unless something else is said beside a number. The manual works
in cm, degrees and minutes, and so do the tables here. `NOT_COVERED` lists what the equation leaves out.

Everything that is not known closely is an interval, and the ranges are sound: no value inside gives an RWL or LI
outside. They are not always the narrowest, since V stands in several multipliers. Sharp values give a sharp result.
"""

from __future__ import annotations

import math
from bisect import bisect_left
from typing import Literal

from msgspec import Struct

from kitproof.mechanics.ranges import Interval, absolute, divide, greatest, hull, multiply, subtract

LOAD_CONSTANT = 23.0
"""LC, in kg: the most that is recommended where every multiplier is 1."""

NOT_COVERED = (
    "lifting or lowering with one hand",
    "lifting by more than one person",
    "lifting for more than eight hours",
    "lifting while seated or kneeling",
    "lifting where there is no room to move freely",
    "loads that shift while they are lifted",
    "carrying, pushing or pulling",
    "fast or jerky lifting",
    "floors that are slippery or uneven",
    "work in heat or cold",
)
"""What the equation does not judge, in our own words. Source: the limits that NIOSH 94-110 names, as quoted."""

TEAM_SHARES = {1: 1.0, 2: 4 / 3, 3: 3 / 2}
"""What so many people lift together, over one person's limit: two thirds and a half of what they could lift each for
themselves. UK guidance on manual handling, as quoted. It is outside the equation; nothing is said of more people."""

Coupling = Literal["good", "fair", "poor"]
COUPLINGS: tuple[Coupling, ...] = ("good", "fair", "poor")
"""How well the hands hold the load; all three where it is not known. A handle that fits the hand is good."""

CM = {"good": (1.00, 1.00), "fair": (0.95, 1.00), "poor": (0.90, 0.90)}
"""The coupling multiplier with V under 75 cm, and from 75 cm up. Good and poor: from memory."""

CENTIMETRE = 0.01
HOUR = 3600.0
WAIST = 0.75
"""V in m at which VM is 1, and from which the second columns of the tables hold."""

RATES = (0.2, 0.5, *(float(n) for n in range(1, 16)))
"""F in lifts a minute, for the columns of FM. Less often than the first counts as the first."""

FM_LOW: dict[int, tuple[float, ...]] = {
    1: (1.0, 0.97, 0.94, 0.91, 0.88, 0.84, 0.80, 0.75, 0.70, 0.60, 0.52, 0.45, 0.41, 0.37),
    2: (0.95, 0.92, 0.88, 0.84, 0.79, 0.72, 0.60, 0.50, 0.42, 0.35, 0.30, 0.26),
    8: (0.85, 0.81, 0.75, 0.65, 0.55, 0.45, 0.35, 0.27, 0.22, 0.18),
}
"""FM with V under 75 cm, for up to 1, 2 and 8 hours of work; 0 beyond the last. Table 5, as quoted."""

FM_HIGH: dict[int, tuple[float, ...]] = {
    1: (*FM_LOW[1], 0.34, 0.31, 0.28),
    2: (*FM_LOW[2], 0.23, 0.21),
    8: (*FM_LOW[8], 0.15, 0.13),
}
"""The same with V of 75 cm or more. What goes beyond `FM_LOW` is from memory; transcriptions of table 5 agree."""


class Hands(Struct, frozen=True):
    """Where the hands are at one end of a lift: H `out` and V `up`, in m, and A the `twist` of the body, in radians."""

    out: Interval
    up: Interval
    twist: Interval = (0.0, 0.0)


class Lift(Struct, frozen=True):
    """One lift, from `origin` to `destination`: `rate` F in lifts a second, `work` the time spent so, in s.

    `work` of an hour or two counts in full only where lighter work follows for long enough (from memory: 1.2 times as
    long after up to an hour, 0.3 times after up to two); where that is not known, say up to 8 h. `couplings` are those
    that are possible.
    """

    origin: Hands
    destination: Hands
    rate: Interval
    work: Interval = (8 * HOUR, 8 * HOUR)
    couplings: tuple[Coupling, ...] = COUPLINGS


def reach(depth: Interval, up: Interval) -> Interval:
    """H in m where nobody said it: 20 cm + W/2 with V of 25 cm or more, 25 cm + W/2 below. Exact.

    From memory, of NIOSH 94-110. It is for a load held in front of the body: not for two people at the ends of a long
    case, whose reach must be asked for.
    """
    nearest = 0.20 if up[1] >= 0.25 else 0.25
    farthest = 0.25 if up[0] < 0.25 else 0.20
    return nearest + depth[0] / 2, farthest + depth[1] / 2


def horizontal(out: Interval) -> Interval:
    """HM = 25 / H, with H in cm: 1 up to 25 cm, 0 over 63 cm. Exact."""
    return _hm(out[1]), _hm(out[0])


def vertical(up: Interval) -> Interval:
    """VM = 1 − 0.003 |V − 75|, with V in cm: 0 over 175 cm. Exact.

    The equation says nothing of hands below the floor that one stands on; nothing is recommended there either.
    """
    ends = _vm(up[0]), _vm(up[1])
    return min(ends), 1.0 if up[0] <= WAIST <= up[1] else max(ends)


def distance(travel: Interval) -> Interval:
    """DM = 0.82 + 4.5 / D, with D in cm: 1 up to 25 cm, 0 over 175 cm. Exact."""
    return _dm(travel[1]), _dm(travel[0])


def asymmetry(twist: Interval) -> Interval:
    """AM = 1 − 0.0032 A, with A in degrees to either side: 0 over 135°. Exact."""
    sides = absolute(twist)
    return _am(sides[1]), _am(sides[0])


def frequency(rate: Interval, work: Interval, up: Interval) -> Interval:
    """FM for a rate in lifts a second, a time of work in s and V in m. Exact.

    Between two rates of the table straight (our choice: the table says nothing there); 0 above its last. Over 8 hours
    of work, which the equation does not cover, anything from 0 to what 8 hours allow.
    """
    high = _fm(rate[0], work[0], up[1] >= WAIST)
    low = 0.0 if work[1] > 8 * HOUR else _fm(rate[1], work[1], up[0] >= WAIST)
    return low, high


def coupling(kinds: tuple[Coupling, ...], up: Interval) -> Interval:
    """CM for the couplings that are possible, and V in m. Exact; none said is any."""
    ends = [CM[kind][side] for kind in kinds or COUPLINGS for side in {int(end >= WAIST) for end in up}]
    return min(ends), max(ends)


def weight_limit(lift: Lift, hands: Hands) -> Interval:
    """RWL in kg at one end of a lift, which is its origin or its destination. Sound."""
    travel = absolute(subtract(lift.destination.up, lift.origin.up))
    common = multiply(distance(travel), multiply(horizontal(hands.out), asymmetry(hands.twist)))
    # The tables change at 75 cm. On either side of it FM and CM do not depend on V, and VM is taken over that side.
    parts = [
        multiply(multiply(vertical(span), frequency(lift.rate, lift.work, side)), coupling(lift.couplings, side))
        for span, side in _sides(hands.up)
    ]
    return multiply((LOAD_CONSTANT, LOAD_CONSTANT), multiply(common, hull(*parts)))


def lifting_index(mass: Interval, lift: Lift) -> Interval:
    """LI of a load in kg, for one person: the worse of origin and destination. Sound.

    Where nothing is recommended, RWL = 0, it is ∞ for any load and 0 for none.
    """
    ends = (lift.origin,) if lift.origin == lift.destination else (lift.origin, lift.destination)
    return greatest(*(_index(mass, weight_limit(lift, hands)) for hands in ends))


def team_guide(index: Interval, people: int) -> Interval | None:
    """The index of one person over what so many count for (`TEAM_SHARES`); None for a number that nothing is said of.

    A team lift is outside the equation: this is a guide to show beside the index, and never the index itself.
    """
    share = TEAM_SHARES.get(people)
    return None if share is None else (index[0] / share, index[1] / share)


def _index(mass: Interval, limit: Interval) -> Interval:
    if mass[1] <= 0:
        return 0.0, 0.0
    if limit[1] <= 0:
        return (math.inf if mass[0] > 0 else 0.0), math.inf
    low, high = divide(mass, limit)
    return max(low, 0.0), high


def _sides(up: Interval) -> list[tuple[Interval, Interval]]:
    """The parts of a range of V below 75 cm and from there up, each with a V that stands for its side of the tables."""
    below, above = (0.0, 0.0), (WAIST, WAIST)
    if up[1] < WAIST:
        return [(up, below)]
    if up[0] >= WAIST:
        return [(up, above)]
    return [((up[0], WAIST), below), ((WAIST, up[1]), above)]


def _hm(out: float) -> float:
    cm = out / CENTIMETRE
    return 0.0 if _over(cm, 63) else 1.0 if cm <= 25 else 25 / cm


def _vm(up: float) -> float:
    cm = up / CENTIMETRE
    return 0.0 if cm < 0 or _over(cm, 175) else 1 - 0.003 * abs(cm - 75)


def _dm(travel: float) -> float:
    cm = travel / CENTIMETRE
    return 0.0 if _over(cm, 175) else 1.0 if cm <= 25 else min(0.82 + 4.5 / cm, 1.0)


def _am(twist: float) -> float:
    angle = math.degrees(twist)
    return 0.0 if _over(angle, 135) else 1 - 0.0032 * angle


def _fm(rate: float, work: float, high: bool) -> float:
    column = (FM_HIGH if high else FM_LOW)[1 if work <= HOUR else 2 if work <= 2 * HOUR else 8]
    often = max(rate * 60, RATES[0])
    place = bisect_left(RATES, often)
    # A rate written as so many an hour may miss its line of the table by a rounding.
    for near in (place - 1, place):
        if 0 <= near < len(column) and math.isclose(RATES[near], often, rel_tol=1e-9):
            return column[near]
    if place >= len(column):
        return 0.0
    share = (often - RATES[place - 1]) / (RATES[place] - RATES[place - 1])
    return column[place - 1] + share * (column[place] - column[place - 1])


def _over(value: float, most: float) -> bool:
    """More than the most, by more than a rounding of 0.63 m into 63 cm."""
    return value > most and not math.isclose(value, most, rel_tol=1e-9)
