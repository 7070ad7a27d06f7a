"""Power: what a rig draws, what its batteries hold, how long they last, and whether they suit the camera."""

from __future__ import annotations

import math

from kitproof.facts.build import Standing
from kitproof.facts.fact import fact
from kitproof.facts.part import PartSubject
from kitproof.facts.rig import RigSubject
from kitproof.facts.values import Amount, joined, number
from kitproof.mechanics import powering
from kitproof.mechanics.powering import Draw, Stock
from kitproof.model.parts import Part
from kitproof.model.quantities import Range
from kitproof.words.dimensions import CHARGE, ENERGY, NUMBER, POWER, TIME, VOLTAGE

POWERED = ("camera", "monitor", "recorder", "light")
"""Kinds of part that always draw power: one that says nothing of it is asked. Others draw what they say."""

RATED_ENERGY = "rated charge × nominal voltage: 49 CFR 171.8, read"
COLD = "common practice, no source; cold from memory"


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
    """Not there without a battery."""
    found = batteries(rig)
    if not found:
        return None
    held = [energy_of(each.part) for each in found]
    stock = [Stock(one, (1 + each.line.spare,) * 2) for (one, _), each in zip(held, found, strict=True)]
    return Amount(*powering.energy_on_hand(stock), joined(*(missing for _, missing in held)))


@fact(
    "cold_share",
    "rig",
    number(NUMBER),
    "the share of its energy that a battery gives on the coldest day of the site",
    source=COLD,
)
def cold_share(rig: RigSubject) -> Amount:
    """All of it where the list says nothing of the temperature."""
    site = rig.rig.site.site_temperature
    if site is None:
        return Amount(1.0, 1.0)
    if not site.known:
        return Amount(0.0, 1.0, (rig.lacks("site temperature"),))
    return Amount(*powering.share_left((site.low, site.low)))


@fact(
    "runtime",
    "rig",
    number(TIME),
    "how long the batteries of the rig last together",
    "energy × cold_share over draw",
    COLD,
)
def runtime(rig: RigSubject) -> Amount | None:
    held = energy.compute(rig)
    if not isinstance(held, Amount):
        return None
    share, drawn = rig.amount("cold_share"), rig.amount("draw")
    found = powering.runtime((held.low, held.high), (share.low, share.high), (drawn.low, drawn.high))
    return Amount(*found, joined(held.missing, share.missing, drawn.missing))


@fact(
    "batteries_needed",
    "rig",
    number(NUMBER),
    "how many batteries the day wants where none is charged",
    "the day over the runtime of one, rounded up",
    COLD,
)
def batteries_needed(rig: RigSubject) -> Amount | None:
    """Not there without a battery; the day that no list says is not known. Several kinds count as the weakest."""
    found, day = batteries(rig), rig.rig.site.day
    if not found:
        return None
    share, drawn = rig.amount("cold_share"), rig.amount("draw")
    held = [energy_of(each.part) for each in found]
    one = (min(low for (low, _), _ in held), min(high for (_, high), _ in held))
    each = powering.runtime(one, (share.low, share.high), (drawn.low, drawn.high))
    known = day is not None and day.known
    lacks = () if known else (rig.lacks("day"),)
    hours = day.range if day is not None else (0.0, math.inf)
    missing = joined(share.missing, drawn.missing, lacks, *(each_missing for _, each_missing in held))
    return Amount(*powering.batteries_needed(hours, each), missing)


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
    found = batteries(rig)
    if not found:
        return None
    drawn = rig.amount("draw_most")
    delivers = [each.part.delivers for each in found]
    if not all(each is not None and each.known for each in delivers):
        lacks = tuple(e.part.lacks("delivers") for e in found if e.part.delivers is None or not e.part.delivers.known)
        return Amount(0.0, math.inf, joined(drawn.missing, lacks))
    known = [each.range for each in delivers if each is not None]
    weakest = (min(low for low, _ in known), min(high for _, high in known))
    return Amount(*powering.draw_share((drawn.low, drawn.high), weakest), drawn.missing)


@fact(
    "voltage_spare",
    "rig",
    number(VOLTAGE),
    "how far the battery's nominal voltage lies inside what the camera runs on; negative outside",
    "to the nearer end of the camera's power",
    "as said",
)
def voltage_spare(rig: RigSubject) -> Amount | None:
    """Not there without a battery and a camera."""
    found, camera = batteries(rig), rig.build.first("camera")
    if not found or camera is None:
        return None
    power, voltage = camera.part.power, found[0].part.voltage
    lacks: tuple[str, ...] = () if power is not None and power.known else (camera.part.lacks("power"),)
    lacks += () if voltage is not None and voltage.known else (found[0].part.lacks("voltage"),)
    if power is None or voltage is None or lacks:
        return Amount(-math.inf, math.inf, lacks)
    return Amount(*powering.voltage_spare(voltage.range, (power.low, power.high)))
