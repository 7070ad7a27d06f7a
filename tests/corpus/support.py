"""Faults of the groups support and balance: heads, sticks and slides too small, springs and drags that do not suit.

Each planter writes one fault into a draft, at a random place and by a random amount, and gives the line at which it is
to be found; None where this list has no place for it. The amounts go past the number that the rig has before the fault.
"""

from __future__ import annotations

import math
from random import Random

from kitproof.model.rigs import Rig
from tests.corpus.draft import Draft, Line, a_rig, rated, the
from tests.corpus.place import hang, kg, mm


def chart_too_low(paper: Draft, chance: Random) -> Line | None:
    """The head's chart is that of a smaller one."""
    rig = a_rig(paper, chance, "head")
    if rig is None:
        return None
    head = the(paper, rig, "head")
    most = paper.reach(rig, "carried")[0] * chance.uniform(0.3, 0.98)
    entry = paper.alone(rig, head)
    entry.drop("rated")
    entry.set("chart", f"{kg(most)} at 250 mm, {kg(0.6 * most)} at 400 mm")
    return paper.at(head.where)


def head_too_small(paper: Draft, chance: Random) -> Line | None:
    """A smaller head of the book in place of the one listed."""
    rig = a_rig(paper, chance, "head")
    if rig is None:
        return None
    low = paper.reach(rig, "carried")[0]
    small = [part for part in paper.before.parts.values() if part.kind == "head" and rated(part) < 0.99 * low]
    if not small:
        return None
    return paper.put(the(paper, rig, "head").where, f'"{chance.choice(small).name}"')


def load_too_heavy(paper: Draft, chance: Random) -> Line | None:
    """So much more on the camera that no figure of the head's reaches it."""
    rig = a_rig(paper, chance, "head", "camera")
    if rig is None:
        return None
    head = the(paper, rig, "head")
    wanted = rated(head.part) * chance.uniform(1.02, 1.3) - paper.reach(rig, "carried")[0]
    number = math.ceil(wanted / 5.5)
    for count in range(number):
        hang(paper, rig, f"load {count + 1}", wanted / number, up=chance.uniform(0, 200))
    return paper.at(head.where)


def no_chart(paper: Draft, chance: Random) -> Line | None:
    """The head has a rating with no height, and the build takes more of it than may be counted on."""
    rig = a_rig(paper, chance, "head")
    if rig is None:
        return None
    head = the(paper, rig, "head")
    low, high = paper.reach(rig, "carried")
    least, most = 1.01 * high, 0.99 * low / 0.7
    if least >= most:
        return None
    entry = paper.alone(rig, head)
    entry.drop("chart")
    entry.set("rated", kg(chance.uniform(least, most)))
    return paper.at(head.where)


def chart_turned(paper: Draft, chance: Random) -> Line | None:
    """Two figures of a chart exchanged."""
    rigs = [rig for rig in paper.rigs_with("head") if len(the(paper, rig, "head").part.chart) > 1]
    if not rigs:
        return None
    rig = chance.choice(rigs)
    head = the(paper, rig, "head")
    points = [(point.value.low, point.at.low) for point in head.part.chart if point.at]
    one = chance.randrange(len(points) - 1)
    masses = [mass for mass, _ in points]
    masses[one], masses[one + 1] = masses[one + 1], masses[one]
    wrote = ", ".join(f"{kg(mass)} at {mm(at)}" for mass, (_, at) in zip(masses, points, strict=True))
    return paper.alone(rig, head).set("chart", wrote)


def chart_too_short(paper: Draft, chance: Random) -> Line | None:
    """The chart ends below the centre of gravity."""
    rig = a_rig(paper, chance, "head")
    if rig is None:
        return None
    head = the(paper, rig, "head")
    top = paper.reach(rig, "cog_up")[0] * chance.uniform(0.3, 0.98)
    entry = paper.alone(rig, head)
    entry.drop("rated")
    most = 2 * paper.reach(rig, "carried")[1]
    entry.set("chart", f"{kg(most)} at {mm(top / 2)}, {kg(most * chance.uniform(0.6, 1))} at {mm(top)}")
    return paper.at(head.where)


def sticks_too_weak(paper: Draft, chance: Random) -> Line | None:
    rig = a_rig(paper, chance, "sticks")
    if rig is None:
        return None
    sticks = the(paper, rig, "sticks")
    paper.alone(rig, sticks).set("rated", kg(paper.reach(rig, "sticks_bear")[0] * chance.uniform(0.2, 0.98)))
    return paper.at(sticks.where)


def stack_too_weak(paper: Draft, chance: Random) -> Line | None:
    """Something between sticks and camera is rated for less than what stands on it."""
    rig = a_rig(paper, chance, "slide", "camera")
    if rig is None:
        return None
    slots = [slot for slot in ("riser", "slide", "base") if rig in paper.rigs_with(slot)]
    weak = the(paper, rig, chance.choice(slots))
    camera = the(paper, rig, "camera").part.mass
    if camera is None:
        return None
    # All of them bear the camera, whatever else.
    paper.alone(rig, weak).set("rated", kg(camera.low * chance.uniform(0.2, 0.98)))
    return paper.at(weak.where)


def spring_too_weak(paper: Draft, chance: Random) -> Line | None:
    rig = a_rig(paper, chance, "head")
    if rig is None:
        return None
    head = the(paper, rig, "head")
    most = paper.reach(rig, "counterbalance_needed")[0] * chance.uniform(0.2, 0.98)
    paper.alone(rig, head).set("counterbalance", f"{most / 10:.3f} to {most:.3f} N·m, {chance.randint(4, 12)} steps")
    return paper.at(head.where)


def spring_too_strong(paper: Draft, chance: Random) -> Line | None:
    rig = a_rig(paper, chance, "head")
    if rig is None:
        return None
    head = the(paper, rig, "head")
    least = paper.reach(rig, "counterbalance_needed")[1] + chance.uniform(0.52, 20)
    steps = chance.choice(["stepless", "6 steps"])
    paper.alone(rig, head).set("counterbalance", f"{least:.3f} to {2 * least:.3f} N·m, {steps}")
    return paper.at(head.where)


def drag_too_light(paper: Draft, chance: Random) -> Line | None:
    """Two steps of counterbalance far apart, neither near what is needed, and a drag too light for the rest."""
    rigs = [rig for rig in paper.rigs_with("head") if rig.tilts is not None]
    if not rigs:
        return None
    rig = chance.choice(rigs)
    head = the(paper, rig, "head")
    low, high = paper.reach(rig, "counterbalance_needed")
    drag = 0.5 * low * math.sin(_steepest(rig)) * chance.uniform(0.05, 0.7)
    entry = paper.alone(rig, head)
    entry.set("counterbalance", f"{0.4 * low:.3f} to {1.9 * high:.3f} N·m, 2 steps")
    entry.set("drag", f"0.001 to {drag:.4f} N·m")
    return paper.at(head.where)


def _steepest(rig: Rig) -> float:
    return max(abs(rig.tilts.low), abs(rig.tilts.high)) if rig.tilts else 0.0


def drag_asked_too_high(paper: Draft, chance: Random) -> Line | None:
    rigs = [rig for rig in paper.rigs_with("head") if the(paper, rig, "head").part.drag]
    if not rigs:
        return None
    rig = chance.choice(rigs)
    drag = the(paper, rig, "head").part.drag
    assert drag is not None
    return paper.entry(rig.where).set("drag", f"{drag.high * chance.uniform(1.02, 3):.3f} N·m")


def tilt_too_far(paper: Draft, chance: Random) -> Line | None:
    """The rig is tilted further, up or down, than its head goes."""
    rig = a_rig(paper, chance, "head")
    head = the(paper, rig, "head").part if rig else None
    if rig is None or head is None or head.tilt is None:
        return None
    down, up = math.degrees(head.tilt.low), math.degrees(head.tilt.high)
    if up < 89 and chance.random() < 0.4:
        return paper.entry(rig.where).set("tilts", f"-10° to {chance.uniform(up + 0.2, 90):.1f}°")
    return paper.entry(rig.where).set("tilts", f"{chance.uniform(-90, down - 0.2):.1f}° to 10°")


def heavy_on_one_side(paper: Draft, chance: Random) -> Line | None:
    rig = a_rig(paper, chance, "head", "camera")
    if rig is None:
        return None
    carried = paper.reach(rig, "carried")[1]
    now = max(map(abs, paper.reach(rig, "cog_left")))
    mass = chance.uniform(1.5, 5.5)
    out = (0.01 * (carried + mass) + carried * now) / mass * chance.uniform(1.1, 2.5)
    hang(paper, rig, "side bag", mass, **{chance.choice(["left", "right"]): 1000 * out + 30})
    return paper.at(the(paper, rig, "camera").where)


def no_slide(paper: Draft, chance: Random) -> Line | None:
    rig = a_rig(paper, chance, "slide", "camera", "head")
    if rig is None:
        return None
    camera = paper.at(the(paper, rig, "camera").where)
    paper.drop(paper.at(the(paper, rig, "slide").where))
    return camera


def slide_too_short(paper: Draft, chance: Random) -> Line | None:
    """The travel ends before the place at which it balances, in front or behind."""
    rig = a_rig(paper, chance, "slide")
    if rig is None:
        return None
    slide = the(paper, rig, "slide")
    low, high = (1000 * each for each in paper.reach(rig, "slide_needed"))
    far = chance.uniform(5, 90)
    near = chance.uniform(1, 60)
    ends = (high + near, high + near + far) if chance.random() < 0.5 else (low - near - far, low - near)
    paper.alone(rig, slide).set("travel", _travel(*ends))
    return paper.at(slide.where)


def _travel(back: float, forward: float) -> str:
    """The two ends of a travel in mm, counted forward."""
    said = [f"{abs(end):.2f} mm {'back' if end < 0 else 'forward'}" for end in (back, forward)]
    return " to ".join(said)


def load_too_far_out(paper: Draft, chance: Random) -> Line | None:
    """A weight so far out in front or behind that the slide cannot make up for it."""
    rig = a_rig(paper, chance, "slide", "camera")
    slide = the(paper, rig, "slide") if rig else None
    if rig is None or slide is None or slide.part.travel is None:
        return None
    mass, carried = chance.uniform(2, 5.5), paper.reach(rig, "carried")[1]
    low, high = paper.reach(rig, "slide_needed")
    travel = slide.part.travel
    if chance.random() < 0.5:
        out = (carried * (high - travel.low) - mass * travel.low) / mass
        way = "forward"
    else:
        out = (carried * (travel.high - low) + mass * travel.high) / mass
        way = "back"
    hang(paper, rig, "far load", mass, **{way: 1000 * (out + 0.03) * chance.uniform(1.05, 1.5) + 150})
    return paper.at(slide.where)


def slide_at_its_end(paper: Draft, chance: Random) -> Line | None:
    """Less than the house's 5 mm of travel are left."""
    rig = a_rig(paper, chance, "slide")
    if rig is None:
        return None
    slide = the(paper, rig, "slide")
    amounts = [paper.amount(each, "slide_needed") for each in paper.subjects(rig)]
    worst = max(amounts, key=lambda each: each.high)
    width = 1000 * (worst.high - worst.low)
    if width > 4.5:
        return None
    end = 1000 * worst.high + chance.uniform(0.1, 4.9 - width)
    paper.alone(rig, slide).set("travel", _travel(-300, end))
    return paper.at(slide.where)


def stage_too_far_out(paper: Draft, chance: Random) -> Line | None:
    """A weight goes on in front at once, and its counterweight behind only at the end."""
    rigs = [rig for rig in paper.rigs_with("slide", "camera") if paper.entry(rig.where).field("camera")]
    if not rigs:
        return None
    rig = chance.choice(rigs)
    travel = the(paper, rig, "slide").part.travel
    if travel is None:
        return None
    mass, carried = chance.uniform(4, 5.8), paper.reach(rig, "carried")[1]
    out = 1000 * (0.06 * carried - travel.low * (carried + mass)) / mass * chance.uniform(1.1, 1.4)
    first = hang(paper, rig, "front load", mass, forward=out, up=60)
    hang(paper, rig, "counterweight", mass, back=out, up=60)
    paper.drop(first)
    paper.own.insert(paper.own.index(paper.at(the(paper, rig, "camera").where)) + 1, first)
    return first
