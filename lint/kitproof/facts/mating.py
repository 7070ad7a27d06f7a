"""Mating: whether each part's seat finds a port of its family and size on what it stands on."""

from __future__ import annotations

from collections import deque
from collections.abc import Sequence
from itertools import pairwise
from typing import ClassVar

from kitproof.facts.build import Standing
from kitproof.facts.fact import fact
from kitproof.facts.part import PartSubject, part_named
from kitproof.facts.rig import RigSubject
from kitproof.facts.subject import Subject
from kitproof.facts.values import TRUTH, Truth, Verdict, Words, text, thing
from kitproof.model.parts import Part, Seat
from kitproof.reading.document import Where
from kitproof.words.kinds import FAMILIES

PLUGGED = ("rods", "battery")
"""Families by which parts are mounted that stand in no chain."""

JOINERS = ("adapter", "riser")


class JointSubject(Subject):
    """One part of a rig on what it stands on: the support from the ground up, and the lens on the camera."""

    about: ClassVar[str] = "joint"

    def __init__(self, rig: RigSubject, upper: Standing, lower: Standing) -> None:
        super().__init__(rig.setting)
        self.rig, self.upper, self.lower = rig, upper, lower

    @property
    def label(self) -> str:
        return f"{self.rig.label}, {self.upper.part.label} on {self.lower.part.label}"

    @property
    def within(self) -> tuple[str, ...]:
        return (self.rig.rig.label, part_named(self.upper.part))

    def place(self, field: str) -> Where:
        return self.upper.where

    @property
    def lacks(self) -> tuple[str, ...]:
        """What is missing to judge the joint: what the upper sits on, what the lower takes."""
        return _unknown(self.upper.part, "sits_on") + _unknown(self.lower.part, "takes")

    @property
    def pair(self) -> tuple[Seat | None, Seat | None]:
        """The seat and the port to speak of: those that mate, else two of one family, else the first of each."""
        pairs = [(seat, port) for seat in self.upper.part.sits_on for port in self.lower.part.takes]
        for alike in (_same, _related):
            for seat, port in pairs:
                if alike(seat, port):
                    return seat, port
        upper, lower = self.upper.part.sits_on, self.lower.part.takes
        return (upper[0] if upper else None, lower[0] if lower else None)


def _unknown(part: Part, field: str) -> tuple[str, ...]:
    written = getattr(part, field)
    return () if written and field not in part.unread else (part.lacks(field),)


def _same(seat: Seat, port: Seat) -> bool:
    return (seat.family, seat.size) == (port.family, port.size)


def _related(seat: Seat, port: Seat) -> bool:
    return seat.family == port.family


def joints(rig: RigSubject) -> list[JointSubject]:
    """Every joint from the ground to the lens."""
    chain = rig.build.chain
    found = [JointSubject(rig, upper, lower) for lower, upper in pairwise(chain)]
    camera = rig.build.first("camera")
    if camera is not None:
        lenses = [each for each in rig.build.standing if each.line.slot == "lens" and not each.line.on]
        found += [JointSubject(rig, lens, camera) for lens in lenses]
    return [*found, *_by_family(rig)]


def _by_family(rig: RigSubject) -> list[JointSubject]:
    """What is mounted by rods or a battery plate, each on what offers such a port: one of its size before another."""
    found = []
    for upper in (each.standing for each in rig.carried):
        for family in PLUGGED:
            seats = [seat for seat in upper.part.sits_on if seat.family == family]
            ports = [
                (port, each.standing)
                for each in rig.carried
                for port in each.standing.part.takes
                if each.standing is not upper and port.family == family
            ]
            if seats and ports:
                fitting = [lower for port, lower in ports if any(_same(seat, port) for seat in seats)]
                found.append(JointSubject(rig, upper, (fitting or [ports[0][1]])[0]))
    return found


@fact("upper", "joint", thing("part"), "the part that sits on the other")
def upper(joint: JointSubject) -> PartSubject | None:
    return joint.rig.part(joint.upper)


@fact("lower", "joint", thing("part"), "the part on which the other sits")
def lower(joint: JointSubject) -> PartSubject | None:
    return joint.rig.part(joint.lower)


@fact("rig", "joint", thing("rig"), "the rig that it is in")
def rig_of(joint: JointSubject) -> RigSubject:
    return joint.rig


def _words(joint: JointSubject, which: int, attribute: str) -> Words:
    seat = joint.pair[which]
    if seat is None:
        return Words(None, joint.lacks)
    return Words(getattr(seat, attribute))


@fact("family", "joint", text(), f"the family of interface that the upper part sits on: {', '.join(FAMILIES)}")
def family(joint: JointSubject) -> Words:
    return _words(joint, 0, "family")


@fact("upper_size", "joint", text(), "the size of what the upper part sits on")
def upper_size(joint: JointSubject) -> Words:
    return _words(joint, 0, "size")


@fact("lower_family", "joint", text(), "the family of interface that the lower part takes")
def lower_family(joint: JointSubject) -> Words:
    return _words(joint, 1, "family")


@fact("lower_size", "joint", text(), "the size of what the lower part takes")
def lower_size(joint: JointSubject) -> Words:
    return _words(joint, 1, "size")


def _interface(joint: JointSubject, which: int) -> Words:
    seat = joint.pair[which]
    return Words(None, joint.lacks) if seat is None else Words(seat.words)


@fact("upper_interface", "joint", text(), "the interface that the upper part sits on, family and size")
def upper_interface(joint: JointSubject) -> Words:
    return _interface(joint, 0)


@fact("lower_interface", "joint", text(), "the interface that the lower part takes, family and size")
def lower_interface(joint: JointSubject) -> Words:
    return _interface(joint, 1)


def _found(joint: JointSubject, alike: bool) -> Verdict:
    """True where a pair is there; else missing where more may be there than is written, else false."""
    if alike:
        return Verdict(Truth.TRUE)
    return Verdict(Truth.MISSING, joint.lacks) if joint.lacks else Verdict(Truth.FALSE)


@fact("mates", "joint", TRUTH, "whether family and size of a seat and a port agree")
def mates(joint: JointSubject) -> Verdict:
    seat, port = joint.pair
    return _found(joint, seat is not None and port is not None and _same(seat, port))


@fact("same_family", "joint", TRUTH, "whether the lower part takes anything of the family that the upper sits on")
def same_family(joint: JointSubject) -> Verdict:
    seat, port = joint.pair
    return _found(joint, seat is not None and port is not None and _related(seat, port))


@fact(
    "bridge",
    "joint",
    text(),
    "the shortest run of adapters in the parts books that would join them, in words",
    certain=True,
)
def bridge(joint: JointSubject) -> Words:
    """Empty where none is in the books, or where they mate as they are."""
    if joint.lacks or mates.compute(joint) == Verdict(Truth.TRUE):
        return Words("")
    run = shortest_bridge(joint.lower.part.takes, joint.upper.part.sits_on, tuple(joint.setting.kitlist.parts.values()))
    return Words("with " + " and ".join(f'"{part.name}"' for part in run) + " between" if run else "")


def shortest_bridge(ports: Sequence[Seat], seats: Sequence[Seat], books: Sequence[Part]) -> tuple[Part, ...]:
    """The shortest run of adapters or risers, from the lower part up, that leads from a port to a seat; breadth first.

    Of several as short the one whose parts come first in the books. Empty where there is none.
    """
    joiners = [part for part in books if part.kind in JOINERS and part.sits_on and part.takes]
    waiting: deque[tuple[tuple[Part, ...], tuple[Seat, ...]]] = deque([((), tuple(ports))])
    used: set[str] = set()
    while waiting:
        run, offered = waiting.popleft()
        if run and any(_same(seat, port) for seat in seats for port in offered):
            return run
        for part in joiners:
            if part.name not in used and any(_same(seat, port) for seat in part.sits_on for port in offered):
                used.add(part.name)
                waiting.append(((*run, part), part.takes))
    return ()
