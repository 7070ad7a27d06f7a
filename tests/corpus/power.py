"""Faults of the group power: batteries too few, too weak, of another voltage or for another plate, and a cold day."""

from __future__ import annotations

import re
from random import Random

from tests.corpus.draft import Draft, Entry, Line, a_rig, the


def _battery(paper: Draft, chance: Random) -> tuple[Line, Entry] | None:
    """The line of a rig's battery, and its entry, to be changed for this rig alone."""
    rig = a_rig(paper, chance, "battery", "camera")
    if rig is None:
        return None
    battery = the(paper, rig, "battery")
    return paper.at(battery.where), paper.alone(rig, battery)


def batteries_too_few(paper: Draft, chance: Random) -> Line | None:
    """Fewer spares than the day wants, whatever is charged meanwhile."""
    rig = a_rig(paper, chance, "battery")
    if rig is None:
        return None
    wanted = int(paper.reach(rig, "batteries_charging")[0])
    line = paper.at(the(paper, rig, "battery").where)
    if wanted < 2:
        return None
    line.text = re.sub(r"spare \d+", f"spare {chance.randint(0, wanted - 2)}", line.text)
    return line


def battery_too_weak(paper: Draft, chance: Random) -> Line | None:
    """A battery that delivers less than the rig draws."""
    rig = a_rig(paper, chance, "battery")
    if rig is None:
        return None
    drawn = paper.reach(rig, "draw_most")[0]
    battery = the(paper, rig, "battery")
    paper.alone(rig, battery).set("delivers", f"{drawn * chance.uniform(0.3, 0.99):.2f} W")
    return paper.at(battery.where)


def other_voltage(paper: Draft, chance: Random) -> Line | None:
    """A voltage below or above all that the camera runs on."""
    rig = a_rig(paper, chance, "battery", "camera")
    power = the(paper, rig, "camera").part.power if rig else None
    if rig is None or power is None:
        return None
    battery = the(paper, rig, "battery")
    voltage = chance.choice([power.low * chance.uniform(0.4, 0.98), power.high * chance.uniform(1.02, 2)])
    paper.alone(rig, battery).set("voltage", f"{voltage:.2f} V")
    return paper.at(battery.where)


def other_plate(paper: Draft, chance: Random) -> Line | None:
    found = _battery(paper, chance)
    if found is None:
        return None
    line, entry = found
    entry.set("sits on", f"battery {chance.choice(['slot', 'screw', 'small V'])}")
    return line


def cold_site(paper: Draft, chance: Random) -> Line | None:
    """Colder than the house trusts batteries."""
    rig = a_rig(paper, chance, "battery")
    if rig is None:
        return None
    coldest = chance.uniform(-25, -0.1)
    return paper.entry(rig.where).set("site temperature", f"{coldest:.1f} to {coldest + chance.uniform(0, 30):.1f} °C")


def battery_of_nothing(paper: Draft, chance: Random) -> Line | None:
    rig = a_rig(paper, chance, "battery")
    if rig is None:
        return None
    entry = paper.alone(rig, the(paper, rig, "battery"))
    return entry.set(*chance.choice([("energy", "0 Wh"), ("voltage", "0 V"), ("delivers", "0 W")]))


def day_too_long(paper: Draft, chance: Random) -> Line | None:
    """A day of more hours than it has, said by the list or by a rig."""
    rig = a_rig(paper, chance, "camera")
    if rig is None:
        return None
    return paper.entry(rig.where).set("day", f"{chance.uniform(24.1, 99):.1f} h")
