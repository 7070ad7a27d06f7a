"""Batteries: their energy, what draws on it, how long it lasts, and how many a day wants.

SI inside: energies E in J (1 Wh is 3600 J), charges Q in C (1 Ah is 3600 C), voltages U in V, powers P in W, currents I
in A, times t in s, temperatures in K; shares are plain numbers, 1 the whole. Ranges are exact where their inputs do not
depend on each other. What is not known of a battery or a draw is [0, ∞).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

from msgspec import Struct

from kitproof.mechanics.ranges import Interval, divide, multiply, times
from kitproof.mechanics.rounding import NEAR, round_up, rounded_up


class Draw(NamedTuple):
    """What something draws, in W: `usual`, and `most`, its peak. A draw given once is both."""

    usual: Interval
    most: Interval


class Stock(NamedTuple):
    """So many batteries of one energy each, in J."""

    energy: Interval
    number: Interval


class Cold(Struct, frozen=True):
    """House numbers, from memory: the share of its energy that a lithium-ion battery gives at a temperature, in K.

    All of it from `full_from` up, `at_freezing` at 0 °C, `at_coldest` at `coldest`, straight in between. Of what is
    left below `coldest` nothing is said: from nothing to `at_coldest`. Makers' own figures differ widely.
    """

    full_from: float = 293.15
    at_freezing: float = 0.80
    coldest: float = 253.15
    at_coldest: float = 0.50


FREEZING = 273.15
COLD = Cold()


class Cells(NamedTuple):
    """House numbers, from memory: the voltage of lithium-ion cells over their nominal 3.6 V, empty and full."""

    empty: float = 3.0 / 3.6
    full: float = 4.2 / 3.6


CELLS = Cells()


class Charging(Struct, frozen=True):
    """How batteries are charged while others run: `time` in s to charge one, and `places`, how many charge at once."""

    time: Interval
    places: Interval


def energy_of(charge: Interval, voltage: Interval) -> Interval:
    """E = Q × U, in J: rated charge times nominal voltage. Source: 49 CFR 171.8, read, which says it for Wh and Ah."""
    return multiply(charge, voltage)


def draw_of(draws: Sequence[Draw]) -> Draw:
    """`draw`: Σ P of all that runs off a battery, in W, usual and at most."""
    usual, most = [each.usual for each in draws], [each.most for each in draws]
    return Draw(_sum(usual), _sum(most))


def energy_on_hand(batteries: Sequence[Stock]) -> Interval:
    """`energy`: Σ n E, in J, of all batteries at hand."""
    return _sum([multiply(each.energy, each.number) for each in batteries])


def share_left(temperature: Interval, cold: Cold = COLD) -> Interval:
    """The share of its energy that a lithium-ion battery gives at a temperature, in K. *House*, from memory: `Cold`.

    Where a temperature is a reach, give its cold end: all of the reach will be met. Warmth gives nothing more.
    """
    # Degrees Celsius turned into kelvins may miss the number of the house by a rounding.
    low = 0.0 if temperature[0] < cold.coldest - NEAR * cold.coldest else _share(temperature[0], cold)
    return low, _share(temperature[1], cold)


def runtime(energy: Interval, share: Interval, draw: Interval) -> Interval:
    """`runtime` = E × share left / P, in s. Nothing drawn: ∞, it never runs out."""
    low = _over(times(energy[0], share[0]), draw[1])
    return low, _over(times(energy[1], share[1]), draw[0])


def batteries_needed(day: Interval, each: Interval) -> Interval:
    """`batteries_needed` for a day where none is charged: ⌈t / r⌉, both ends rounded up. Exact.

    `day` is t in s and `each` r, the runtime of one battery in s. A battery that may hold nothing has no upper bound.
    """
    return rounded_up((_over(day[0], each[1], 0.0), _over(day[1], each[0], 0.0)))


def batteries_charging(day: Interval, each: Interval, charging: Charging) -> Interval:
    """`batteries_needed` where those that have run down are charged again, the first down first. Exact.

    All start full; one runs at a time, is run down, and takes `charging.time` from a free place on, however it is.
    Never more than without charging. The number rises with the day and the time to charge, and falls with the runtime
    and the places, so that each end takes the ends of all of them.
    """
    low = _charging(day[0], each[1], charging.time[0], charging.places[1])
    return low, _charging(day[1], each[0], charging.time[1], charging.places[0])


def draw_share(draw: Interval, delivers: Interval) -> Interval:
    """`draw_share`: what is drawn at most over what the battery delivers, both in W; more than 1 is too much."""
    low, high = divide(draw, delivers)
    return max(low, 0.0), high


def current(draw: Interval, voltage: Interval) -> Interval:
    """I = P / U, in A. What is fed through a converter draws a power, so the current is greatest at the lowest voltage:
    give that for the greatest current."""
    low, high = divide(draw, voltage)
    return max(low, 0.0), high


def voltage_span(nominal: Interval, cells: Cells = CELLS) -> tuple[Interval, Interval]:
    """The voltages in V of a lithium-ion battery, empty and full, from its nominal one. *House*, from memory."""
    return multiply(nominal, (cells.empty, cells.empty)), multiply(nominal, (cells.full, cells.full))


def voltage_spare(voltage: Interval, reach: Interval) -> Interval:
    """How far a voltage lies inside the reach that something runs on, in V: to the nearer end, negative outside.

    Exact. `reach` is no doubt: its two ends are both known.
    """
    spares = [_inside(each, reach) for each in voltage]
    middle = (reach[0] + reach[1]) / 2
    if voltage[0] <= middle <= voltage[1]:
        spares.append(_inside(middle, reach))
    return min(spares), max(spares)


def _inside(voltage: float, reach: Interval) -> float:
    """Distance to the nearer end; an end without bound is never near."""
    below = voltage - reach[0] if reach[0] > -math.inf else math.inf
    return min(below, reach[1] - voltage if reach[1] < math.inf else math.inf)


def _sum(several: Sequence[Interval]) -> Interval:
    return math.fsum(low for low, _ in several), math.fsum(high for _, high in several)


def _over(a: float, b: float, nothing: float = math.inf) -> float:
    """a / b for amounts that are not negative; a over nothing is ∞, and nothing over nothing what is asked for.

    A thing without bound over another is taken as without bound: the safe side for a high end, and low ends have none.
    """
    if b <= 0:
        return math.inf if a > 0 else nothing
    return a if math.isinf(a) else a / b


def _share(temperature: float, cold: Cold) -> float:
    """Straight between the numbers of the house; level at either side."""
    points = ((cold.coldest, cold.at_coldest), (FREEZING, cold.at_freezing), (cold.full_from, 1.0))
    if temperature <= points[0][0]:
        return points[0][1]
    for (low, share), (high, more) in pairwise(points):
        if temperature <= high:
            return share + (more - share) * (temperature - low) / (high - low)
    return 1.0


def _charging(day: float, each: float, time: float, places: float) -> float:
    """The least number for sharp values. Battery i is down after (i + 1) r; with n of them it runs next from (i + n) r
    on, unless the day is over by then. Where the chargers keep up it is full after (i + 1) r + c: n ≥ 1 + c / r."""
    runs = round_up(_over(day, each, 0.0))
    if runs <= 1 or places < 1 or math.isinf(time) or math.isinf(runs):
        return runs
    if places >= runs or time <= math.floor(places) * each:
        return min(runs, round_up(1 + time / each))
    low, high = 1, int(runs)
    while low < high:
        middle = (low + high) // 2
        if _lasts(middle, int(runs), each, time, math.floor(places)):
            high = middle
        else:
            low = middle + 1
    return float(low)


def _lasts(count: int, runs: int, each: float, time: float, places: int) -> bool:
    """Whether so many batteries last. Charging is slower than running here, so that they queue ever longer: the last
    one at each place of the chargers is the one to look at."""
    again = runs - count
    last = range(max(again - places, 0), again)
    return all(_full(i, each, time, places) <= (i + count) * each * (1 + NEAR) for i in last)


def _full(i: int, each: float, time: float, places: int) -> float:
    """When battery i is full again where they queue: f_i = f_(i − k) + c, with k places and c the time to charge; the
    first at each place are charged as soon as they are down, f_i = (i + 1) r + c."""
    return (i % places + 1) * each + (i // places + 1) * time
