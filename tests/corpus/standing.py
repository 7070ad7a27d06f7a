"""Faults of the groups standing and scope: slopes, winds, ballast, legs, floors; rigs that do not stand at all."""

from __future__ import annotations

import math
from random import Random

from kitproof.model.rigs import Rig
from tests.corpus.draft import Draft, Line, a_rig, the
from tests.corpus.place import G, kg

PRESSURE = 0.5 * 1.2 * 1.28
"""½ρC_d in kg/m³, a little less than what counts, so that a wind worked out from it is more than enough."""

BEYOND = ("vehicle", "crane", "jib", "moving dolly", "gimbal", "hung", "over people")


def slope_too_steep(paper: Draft, chance: Random) -> Line | None:
    """The ground slopes more than the rig stands on with its head level."""
    rig = a_rig(paper, chance, "sticks")
    if rig is None:
        return None
    tips = math.degrees(paper.reach(rig, "tip_angle_level")[1])
    if not 0 < tips < 50:
        return None
    paper.entry(rig.where).set("ground slope", f"up to {tips * chance.uniform(1.02, 1.7):.2f}°")
    return paper.at(the(paper, rig, "sticks").where)


def slope_too_steep_when_tilted(paper: Draft, chance: Random) -> Line | None:
    """The ground slopes more than the rig stands on at its worst tilt, and less than with its head level."""
    rig = a_rig(paper, chance, "sticks")
    if rig is None or rig.tilts is None:
        return None
    least, most = paper.reach(rig, "tip_angle_tilted")[1], paper.reach(rig, "tip_angle_level")[0]
    if not 0 < 1.01 * least < 0.99 * most:
        return None
    slope = math.degrees(chance.uniform(1.01 * least, 0.99 * most))
    paper.entry(rig.where).set("ground slope", f"up to {slope:.2f}°")
    return paper.at(the(paper, rig, "sticks").where)


def feet_too_narrow(paper: Draft, chance: Random) -> Line | None:
    """The sticks' feet stand on so small a circle that it tips at its worst tilt on ground said to be level."""
    rig = a_rig(paper, chance, "sticks")
    if rig is None or rig.tilts is None:
        return None
    sticks = the(paper, rig, "sticks")
    legs = sticks.line.legs or sticks.part.legs
    if legs is None:
        return None
    # Half the radius is the edge; it tips at less than 5° where that is less than tan 5° times the least height.
    radius = 2 * math.tan(math.radians(5)) * paper.reach(rig, "standing_cog_up")[0] * chance.uniform(0.6, 0.97)
    points = [f"{1000 * radius:.1f} mm at {1000 * height:.1f} mm" for height in {legs.low, legs.high}]
    paper.alone(rig, sticks).set("feet", ", ".join(points))
    return paper.at(sticks.where)


def _windy(paper: Draft) -> list[Rig]:
    return [rig for rig in paper.rigs_with("sticks", "camera") if rig.site.wind is not None]


def _overturning(paper: Draft, rig: Rig) -> tuple[float, float]:
    """A moment in N·m that is sure to overturn it, and a height in m below that of all that is carried."""
    sticks, head = the(paper, rig, "sticks"), the(paper, rig, "head")
    legs = sticks.line.legs or sticks.part.legs
    weight, radius = G * paper.reach(rig, "standing")[1], paper.reach(rig, "foot_radius")[1]
    height = head.part.height.low if head.part.height else 0.0
    return weight * radius / 2, (legs.high if legs else 0.0) + height


def push_too_hard(paper: Draft, chance: Random) -> Line | None:
    """In a wind, and pushed at the pan bar harder than its weight can keep it standing."""
    rigs = _windy(paper)
    if not rigs:
        return None
    rig = chance.choice(rigs)
    moment, height = _overturning(paper, rig)
    paper.entry(rig.where).set("push", f"{moment / height * chance.uniform(1.03, 2):.1f} N")
    return paper.at(the(paper, rig, "sticks").where)


def wind_too_strong_to_stand(paper: Draft, chance: Random) -> Line | None:
    rig = a_rig(paper, chance, "sticks", "camera", "head")
    size = the(paper, rig, "camera").part.size if rig else ()
    if rig is None or len(size) != 3:
        return None
    moment, height = _overturning(paper, rig)
    area = max(size[0].low, size[1].low) * size[2].low
    wind = math.sqrt(moment / (PRESSURE * area * height)) * chance.uniform(1.1, 1.5)
    paper.entry(rig.where).set("wind", f"{wind:.1f} m/s")
    return paper.at(the(paper, rig, "sticks").where)


def wind_over_limit(paper: Draft, chance: Random) -> Line | None:
    rig = a_rig(paper, chance, "sticks")
    if rig is None:
        return None
    return paper.entry(rig.where).set("wind", f"{10.7 + chance.uniform(0.1, 15):.2f} m/s")


def ballast_taken(paper: Draft, chance: Random) -> Line | None:
    """Less hangs from the sticks than is needed."""
    rigs = [rig for rig in paper.rigs_with("sticks", "ballast") if paper.reach(rig, "ballast_needed")[0] > 1]
    rigs = [rig for rig in rigs if rig.left_standing or rig.site.wind is not None]
    if not rigs:
        return None
    rig = chance.choice(rigs)
    lines = [paper.at(each.where) for each in paper.standing(rig, "ballast")]
    hung = paper.standing(rig, "ballast")[0].line.hung
    if hung is None:
        return None
    for line in lines[1:]:
        paper.drop(line)
    least = paper.reach(rig, "ballast_needed")[0] * chance.uniform(0.1, 0.95)
    lines[0].text = f'  ballast "water bag", {kg(least)}, hung at {1000 * hung.low:.0f} mm'
    return paper.at(the(paper, rig, "sticks").where)


def left_alone(paper: Draft, chance: Random) -> Line | None:
    """Left standing with torque left over about its tilt axis."""
    rigs = [rig for rig in paper.rigs_with("head") if rig.tilts and not rig.left_standing]
    rigs = [rig for rig in rigs if paper.reach(rig, "torque_left")[0] > 1.02]
    if not rigs:
        return None
    return paper.entry(chance.choice(rigs).where).set("left standing")


def left_with_a_weak_spring(paper: Draft, chance: Random) -> Line | None:
    """Left standing on a head whose spring is far too weak."""
    rigs = [rig for rig in paper.rigs_with("head") if rig.tilts]
    if not rigs:
        return None
    rig = chance.choice(rigs)
    assert rig.tilts is not None
    steep = math.sin(max(abs(rig.tilts.low), abs(rig.tilts.high)))
    needed = paper.reach(rig, "counterbalance_needed")[0]
    if needed * steep < 1.2:
        return None
    most = (needed - 1.1 / steep) * chance.uniform(0.1, 0.95)
    entry = paper.alone(rig, the(paper, rig, "head"))
    entry.set("counterbalance", f"{most / 8:.4f} to {most:.4f} N·m, 8 steps")
    return paper.entry(rig.where).set("left standing")


def legs_too_high(paper: Draft, chance: Random) -> Line | None:
    """The legs are to stand higher or lower than they go."""
    rigs = [rig for rig in paper.rigs_with("sticks") if the(paper, rig, "sticks").part.legs]
    if not rigs:
        return None
    rig = chance.choice(rigs)
    sticks = the(paper, rig, "sticks")
    legs = sticks.part.legs
    assert legs is not None
    low, high = 1000 * legs.low, 1000 * legs.high
    wanted = chance.choice([high + chance.uniform(1, 900), low - chance.uniform(1, 0.6 * low)])
    line = paper.at(sticks.where)
    line.text = f'  sticks "{sticks.part.name}", legs at {wanted:.1f} mm'
    return line


def feet_on_a_hard_floor(paper: Draft, chance: Random) -> Line | None:
    """On a hard floor with no spreader and no mat."""
    rigs = [rig for rig in paper.rigs_with("sticks") if paper.reach(rig, "feet_friction")[0] > 0.405]
    rigs = [rig for rig in rigs if not rig.site.floor or rig.site.floor == ("hard",)]
    if not rigs:
        return None
    rig = chance.choice(rigs)
    for each in paper.standing(rig, "spreader"):
        paper.drop(paper.at(each.where))
    paper.entry(rig.where).set("floor", "hard")
    return paper.at(the(paper, rig, "sticks").where)


def camera_can_fall(paper: Draft, chance: Random) -> Line | None:
    """A spring so weak, and tilts so wide, that a falling camera brings more than it takes to tip the sticks."""
    rigs = [rig for rig in paper.rigs_with("sticks", "head") if the(paper, rig, "head").part.tilt]
    for rig in chance.sample(rigs, len(rigs)):
        tilt = the(paper, rig, "head").part.tilt
        assert tilt is not None
        low = chance.uniform(math.radians(55), -tilt.low)
        needed = paper.reach(rig, "counterbalance_needed")[0]
        most = needed * chance.uniform(0.02, 0.3)
        if (needed - most) * (1 - math.cos(low)) < 1.1 * _to_tip(paper, rig):
            continue
        paper.entry(rig.where).set("tilts", f"-{math.degrees(low):.2f}° to 10°")
        entry = paper.alone(rig, the(paper, rig, "head"))
        entry.set("counterbalance", f"{most / 10:.4f} to {most:.4f} N·m, 8 steps")
        return paper.at(the(paper, rig, "sticks").where)
    return None


def _to_tip(paper: Draft, rig: Rig) -> float:
    """The most energy in J that it takes to bring the rig over the edge between two feet."""
    weight, radius = G * paper.reach(rig, "standing")[1], paper.reach(rig, "foot_radius")[1]
    up = paper.reach(rig, "standing_cog_up")[0]
    return weight * (math.hypot(radius / 2, up) - up)


def not_on_the_ground(paper: Draft, chance: Random) -> Line | None:
    rig = a_rig(paper, chance, "head")
    return paper.entry(rig.where).set("mounted on", chance.choice(BEYOND)) if rig else None
