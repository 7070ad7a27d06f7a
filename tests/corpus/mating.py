"""Faults of the groups mating and lens: seats that find no port, clamps and pictures too small, lenses unsupported."""

from __future__ import annotations

import math
import re
from random import Random

from kitproof.facts.mating import JointSubject, joints
from kitproof.model.rigs import Rig
from tests.corpus.draft import Draft, Entry, Line, a_rig, the
from tests.corpus.place import mm

SIZES = {
    "bowl": ("60 mm", "75 mm", "100 mm", "120 mm", "150 mm"),
    "screw": ("1/4-20", "3/8-16"),
    "slide": ("wide", "narrow"),
    "rods": ("15/60", "15/100", "19/104"),
    "lens": ("PL", "short", "wide"),
    "wedge": ("38 mm", "60 mm", "70 mm"),
}
PLAIN = ("flat", "shoe", "wedge 45 mm", "bowl 65 mm", "screw 1/4-20", "slide narrow")


def _all_joints(paper: Draft) -> list[tuple[Rig, JointSubject]]:
    found = []
    for rig in paper.before.rigs:
        for subject in paper.subjects(rig):
            found += [(rig, joint) for joint in joints(subject)]
    return found


def _resized(family: str, paper: Draft, chance: Random) -> Line | None:
    """The seat of a part, or the port that it sits in, is of another size of its family."""
    found = [each for each in _all_joints(paper) if each[1].pair[0] and each[1].pair[0].family == family]
    if not found:
        return None
    rig, joint = chance.choice(found)
    seat = joint.pair[0]
    assert seat is not None
    sizes = [each for each in SIZES[family] if each != seat.size]
    if chance.random() < 0.5:
        paper.alone(rig, joint.upper).set(f"sits on {family}", "").text = f"  sits on {family} {chance.choice(sizes)}"
    else:
        port = paper.alone(rig, joint.lower).field(f"takes {family}")
        assert port is not None
        port.text = re.sub(rf"{family} \S+( mm)?", f"{family} {chance.choice(sizes)}", port.text)
    return paper.at(joint.upper.where)


def other_bowl(paper: Draft, chance: Random) -> Line | None:
    return _resized("bowl", paper, chance)


def other_screw(paper: Draft, chance: Random) -> Line | None:
    return _resized("screw", paper, chance)


def other_slide(paper: Draft, chance: Random) -> Line | None:
    return _resized("slide", paper, chance)


def other_rods(paper: Draft, chance: Random) -> Line | None:
    return _resized("rods", paper, chance)


def other_mount(paper: Draft, chance: Random) -> Line | None:
    """A lens mount or a wedge of another size."""
    return _resized(chance.choice(["lens", "wedge"]), paper, chance)


def other_family(paper: Draft, chance: Random) -> Line | None:
    """A part of the stack sits on an interface of a family that what is below it does not take."""
    stack = ("head", "riser", "adapter", "slide", "base", "camera")
    found = [each for each in _all_joints(paper) if each[1].upper.line.slot in stack]
    if not found:
        return None
    rig, joint = chance.choice(found)
    taken = {port.family for port in joint.lower.part.takes}
    kinds = [each for each in PLAIN if each.split()[0] not in taken]
    paper.alone(rig, joint.upper).set("sits on", chance.choice(kinds))
    return paper.at(joint.upper.where)


def other_front(paper: Draft, chance: Random) -> Line | None:
    """A clamp that is too large or too small for the front of the lens."""
    clamps = ("matte box", "lens support", "follow focus")
    found = [(rig, slot) for slot in clamps for rig in paper.rigs_with(slot, "lens")]
    if not found:
        return None
    rig, slot = chance.choice(found)
    clamp = the(paper, rig, slot)
    fronts = [each.part.front for each in paper.standing(rig, "lens") if each.part.front is not None]
    least, most = min(each.low for each in fronts), max(each.high for each in fronts)
    small = chance.uniform(0.3, 0.95) * least
    large = chance.uniform(1.05, 1.6) * most
    ends = (0.7 * small, small) if chance.random() < 0.5 else (large, 1.3 * large)
    paper.alone(rig, clamp).set("front", f"{1000 * ends[0]:.1f}..{1000 * ends[1]:.1f} mm")
    return paper.at(clamp.where)


def small_picture(paper: Draft, chance: Random) -> Line | None:
    """The image of a lens ends inside the sensor."""
    rig = a_rig(paper, chance, "lens", "camera")
    if rig is None:
        return None
    lens, sensor = chance.choice(paper.standing(rig, "lens")), the(paper, rig, "camera").part.sensor
    diagonal = math.hypot(*(side.low for side in sensor))
    paper.alone(rig, lens).set("image circle", mm(diagonal * chance.uniform(0.3, 0.98)))
    return paper.at(lens.where)


def safety_by_hand(paper: Draft, chance: Random) -> Line | None:
    rigs = [r for r in paper.rigs_with("head") if "safety catch" not in the(paper, r, "head").part.quick_release]
    if not rigs:
        return None
    rig = chance.choice(rigs)
    head = the(paper, rig, "head")
    kinds = ["manual lock", "safety catch", "manual lock, safety catch"]
    paper.alone(rig, head).set("quick release", chance.choice(kinds))
    return paper.at(head.where)


def lens_on_its_mount(paper: Draft, chance: Random) -> Line | None:
    """A lens that asks for a support has none, or a mount that bears no such lens has it."""
    held = paper.rigs_with("lens", "camera", "lens support")
    if held and chance.random() < 0.5:
        rig = chance.choice(held)
        lens = paper.at(the(paper, rig, "lens").where)
        paper.drop(paper.at(the(paper, rig, "lens support").where))
        return lens
    free = [rig for rig in paper.rigs_with("lens", "camera") if not paper.standing(rig, "lens support")]
    if not free:
        return None
    rig = chance.choice(free)
    if chance.random() < 0.5:
        lenses = paper.standing(rig, "lens")
        one = chance.choice(lenses)
        paper.alone(rig, one).add("needs support")
        return paper.at(one.where)
    torque = paper.reach(rig, "lens_torque")[0] * chance.uniform(0.2, 0.97)
    paper.alone(rig, the(paper, rig, "camera")).set("lens moment", f"{torque:.3f} N·m")
    return paper.at(the(paper, rig, "lens").where)


def thin_rods(paper: Draft, chance: Random) -> Line | None:
    """Rods so much thinner that their ends go down further than the house lets pass."""
    rigs = [rig for rig in paper.rigs_with("rods") if paper.reach(rig, "rod_sag")[0] > 0]
    if not rigs:
        return None
    rig = chance.choice(rigs)
    rods = the(paper, rig, "rods")
    diameter, wall = rods.part.diameter, rods.part.wall
    if diameter is None or wall is None:
        return None
    # All of a section made smaller by k bends k⁻⁴ times as far.
    share = (1000 * paper.reach(rig, "rod_sag")[0] / chance.uniform(1.05, 6)) ** 0.25
    entry: Entry = paper.alone(rig, rods)
    entry.set("diameter", mm(diameter.low * share))
    entry.set("wall", mm(wall.low * share))
    return paper.at(rods.where)
