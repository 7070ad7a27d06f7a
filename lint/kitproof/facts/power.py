"""Power: what a rig draws, what its batteries hold, how long they last, and whether they suit the camera."""

from __future__ import annotations

import math
from collections.abc import Mapping

from kitproof.facts.build import Standing
from kitproof.facts.fact import HouseNumber, fact
from kitproof.facts.hulls import of_each
from kitproof.facts.part import PartSubject
from kitproof.facts.rig import RigSubject
from kitproof.facts.values import Amount, joined, number
from kitproof.mechanics import powering
from kitproof.mechanics.powering import CELLS, COLD, Cells, Cold, Draw, Stock
from kitproof.mechanics.ranges import least
from kitproof.model.parts import Part
from kitproof.model.quantities import Range, is_known
from kitproof.words.dimensions import CHARGE, CURRENT, ENERGY, NUMBER, POWER, TEMPERATURE, TIME, VOLTAGE

POWERED = ("camera", "monitor", "recorder", "light")
"""Kinds of part that always draw power: one that says nothing of it is asked. Others draw what they say."""

ANY_VOLTAGE: Range = (0.0, math.inf)

RATED_ENERGY = "rated charge × nominal voltage: 49 CFR 171.8, read"
FROM_MEMORY = "common practice, no source; cold from memory"

HOUSE_NUMBERS = (
    HouseNumber("cold_full_from", COLD.full_from, TEMPERATURE, "temperature from which a battery gives all its energy"),
    HouseNumber("cold_at_freezing", COLD.at_freezing, NUMBER, "share of its energy that a battery gives at freezing"),
    HouseNumber("cold_lowest", COLD.coldest, TEMPERATURE, "temperature below which nothing is said of batteries"),
    HouseNumber("cold_at_lowest", COLD.at_coldest, NUMBER, "share of its energy that a battery gives there"),
    HouseNumber("battery_empty_share", CELLS.empty, NUMBER, "voltage of an empty battery over its nominal one"),
)
"""Of lithium-ion batteries, from memory: makers' own figures differ widely."""


def _cold(house: Mapping[str, float]) -> Cold:
    words = ("cold_full_from", "cold_at_freezing", "cold_lowest", "cold_at_lowest")
    return Cold(*(house[word] for word in words))


def _draws(rig: RigSubject) -> tuple[Draw, tuple[str, ...]]:
    """What everything draws, and what is missing."""
    found, missing = [], []
    for each in rig.build.standing:
        draws = each.part.draws
        if draws is None and (each.line.slot in POWERED or "draws" in each.part.unread):
            found.append(Draw((0.0, math.inf), (0.0, math.inf)))
            missing.append(each.part.lacks("draws"))
        elif draws is not None:
            most = draws.most if draws.most is not None else draws.usual
            found.append(Draw(draws.usual.range, most.range))
            missing += [each.part.lacks("draws")] * (not (draws.usual.known and most.known))
    open_end = [Draw((0.0, math.inf), (0.0, math.inf))] * bool(rig.unread)
    return powering.draw_of([*found, *open_end]), joined(tuple(missing), rig.unread)


def batteries(rig: RigSubject) -> list[Standing]:
    return [each for each in rig.build.standing if each.line.slot == "battery"]


def _said(rig: RigSubject, field: str) -> tuple[list[Range], tuple[str, ...]]:
    """What is known of a field of the rig's batteries, and what is missing."""
    said = [(each.part, getattr(each.part, field)) for each in batteries(rig)]
    known = [value.range for _, value in said if is_known(value)]
    return known, tuple(part.lacks(field) for part, value in said if not is_known(value))


@of_each
def energy_of(part: Part) -> tuple[Range, tuple[str, ...]]:
    """What one battery holds, in J: as written, or its charge times its nominal voltage."""
    energy, voltage = part.energy, part.voltage
    if energy is None or not energy.known:
        return (0.0, math.inf), (part.lacks("energy"),)
    if energy.dimension != CHARGE:
        return energy.range, ()
    if voltage is None or not voltage.known:
        return (0.0, math.inf), (part.lacks("voltage"),)
    return powering.energy_of(energy.range, voltage.range), ()


@fact("energy_each", "part", number(ENERGY), "what one battery holds", "as written, or charge × voltage", RATED_ENERGY)
def energy_each(part: PartSubject) -> Amount:
    energy, missing = energy_of(part.part)
    return Amount(*energy, missing)


@fact("draw", "rig", number(POWER), "what the rig draws in use", "sum of what its parts draw", "as said")
def draw(rig: RigSubject) -> Amount:
    found, missing = _draws(rig)
    return Amount(*found.usual, missing)


@fact(
    "draw_most", "rig", number(POWER), "the most that the rig draws", "sum of the most that its parts draw", "as said"
)
def draw_most(rig: RigSubject) -> Amount:
    found, missing = _draws(rig)
    return Amount(*found.most, missing)


@fact("batteries", "rig", number(NUMBER), "how many batteries the rig has, spares among them", source="as said")
def batteries_there(rig: RigSubject) -> Amount:
    count = float(sum(1 + each.line.spare for each in batteries(rig)))
    return Amount(count, math.inf if rig.unread else count, rig.unread)


@fact(
    "energy",
    "rig",
    number(ENERGY),
    "what all batteries of the rig hold, spares too",
    "sum of their energies",
    RATED_ENERGY,
)
def energy(rig: RigSubject) -> Amount | None:
    """Not there without a battery. A line that could not be read may be one more."""
    found = batteries(rig)
    if not found:
        return None
    held = [energy_of(each.part) for each in found]
    stock = [Stock(one, (1 + each.line.spare,) * 2) for (one, _), each in zip(held, found, strict=True)]
    low, high = powering.energy_on_hand(stock)
    return Amount(low, math.inf if rig.unread else high, joined(*(missing for _, missing in held), rig.unread))


@fact(
    "cold_share",
    "rig",
    number(NUMBER),
    "the share of its energy that a battery gives on the coldest day of the site",
    source=FROM_MEMORY,
)
def cold_share(rig: RigSubject) -> Amount:
    """All of it where the list says nothing of the temperature.

    The numbers of the house are those of lithium-ion cells: how much less others give in the cold is not known.
    """
    site = rig.rig.site.site_temperature
    if site is None:
        return Amount(1.0, 1.0)
    if not site.known:
        return Amount(0.0, 1.0, (rig.lacks("site temperature"),))
    low, high = powering.share_left((site.low, site.low), _cold(rig.setting.house))
    parts = [each.part for each in batteries(rig)]
    if high == 1 or (not rig.unread and all(part.chemistry == ("lithium-ion",) for part in parts)):
        return Amount(low, high)
    lacks = tuple(part.lacks("chemistry") for part in parts if not part.chemistry)
    return Amount(0.0, 1.0, joined(lacks, rig.unread))


@fact(
    "runtime",
    "rig",
    number(TIME),
    "how long the batteries of the rig last together",
    "energy × cold_share over draw",
    FROM_MEMORY,
)
def runtime(rig: RigSubject) -> Amount | None:
    held = energy.compute(rig)
    if not isinstance(held, Amount):
        return None
    share, drawn = rig.amount("cold_share"), rig.amount("draw")
    found = powering.runtime((held.low, held.high), (share.low, share.high), (drawn.low, drawn.high))
    return Amount(*found, joined(held.missing, share.missing, drawn.missing))


def runtime_of_one(rig: RigSubject) -> Amount | None:
    """How long one battery of the rig lasts, in s; of several kinds the weakest. Not there without a battery."""
    found = batteries(rig)
    if not found:
        return None
    share, drawn = rig.amount("cold_share"), rig.amount("draw")
    held = [energy_of(each.part) for each in found]
    weakest = least(*(one for one, _ in held))
    each = powering.runtime(weakest, (share.low, share.high), (drawn.low, drawn.high))
    return Amount(*each, joined(share.missing, drawn.missing, *(missing for _, missing in held)))


def day_of(rig: RigSubject) -> Amount:
    """The length of the day, in s; not known where no list says it."""
    day = rig.rig.site.day
    if day is None or not day.known:
        return Amount(0.0, math.inf, (rig.lacks("day"),))
    return Amount(day.low, day.high)


@fact(
    "batteries_needed",
    "rig",
    number(NUMBER),
    "how many batteries the day wants where none is charged",
    "the day over the runtime of one, rounded up",
    FROM_MEMORY,
)
def batteries_needed(rig: RigSubject) -> Amount | None:
    """Not there without a battery; the day that no list says is not known. Several kinds count as the weakest."""
    each = runtime_of_one(rig)
    if each is None:
        return None
    day = day_of(rig)
    found = powering.batteries_needed((day.low, day.high), (each.low, each.high))
    return Amount(*found, joined(each.missing, day.missing))


@fact(
    "draw_share",
    "rig",
    number(NUMBER),
    "the most that the rig draws over what its battery delivers",
    "draw_most over what the battery delivers",
    "as said",
)
def draw_share(rig: RigSubject) -> Amount | None:
    """Not there without a battery. One battery mounts, so the weakest has to do."""
    if not batteries(rig):
        return None
    drawn = rig.amount("draw_most")
    delivers, lacks = _said(rig, "delivers")
    if lacks:
        return rig.whatever(Amount(0.0, math.inf, joined(drawn.missing, lacks)))
    return Amount(*powering.draw_share((drawn.low, drawn.high), least(*delivers)), drawn.missing)


@fact(
    "current",
    "rig",
    number(CURRENT),
    "the greatest current that the rig draws, its battery being nearly empty",
    "draw_most over the voltage of an empty battery, 3.0 V for each nominal 3.6 V",
    "P = U × I; the voltage of empty lithium-ion cells from memory",
)
def current(rig: RigSubject) -> Amount | None:
    """Not there without a battery."""
    if not batteries(rig):
        return None
    voltages, lacks = _said(rig, "voltage")
    lowest = least(*voltages, *[ANY_VOLTAGE] * bool(lacks))
    drawn = rig.amount("draw_most")
    empty, _ = powering.voltage_span(lowest, Cells(rig.setting.house["battery_empty_share"], CELLS.full))
    return Amount(*powering.current((drawn.low, drawn.high), empty), joined(drawn.missing, lacks))


@fact(
    "voltage_spare",
    "rig",
    number(VOLTAGE),
    "how far the battery's nominal voltage lies inside what the camera runs on; negative outside",
    "to the nearer end of the camera's power; the least of several batteries",
    "as said",
)
def voltage_spare(rig: RigSubject) -> Amount | None:
    """Not there without a battery and a camera. A line that could not be read may be a battery of any voltage."""
    camera = rig.build.first("camera")
    if not batteries(rig) or camera is None:
        return None
    power = camera.part.power
    if power is None or not power.known:
        return Amount(-math.inf, math.inf, (camera.part.lacks("power"),))
    voltages, lacks = _said(rig, "voltage")
    missing = joined(lacks, rig.unread)
    possible = [*voltages, *[ANY_VOLTAGE] * bool(missing)]
    spares = [powering.voltage_spare(each, (power.low, power.high)) for each in possible]
    return Amount(*least(*spares), missing)
