"""How far forward and left of the middle of the feet everything stands that does not tilt.

A written place counts: the `at` of sticks, risers, adapters and the head, each on the one before; the place of the port
that one takes up where its line says none; the `at` of what hangs on them; and a written `cog`. Sticks that are `at` a
place stand so far off the middle of their own feet. What nothing is written of is over the middle of what it is on:
common practice, no source. `?` is not known, and takes no stand-in. Ballast hangs plumb under its hook, so that its own
`cog` makes no difference.
"""

from __future__ import annotations

from collections.abc import Container
from typing import NamedTuple

from msgspec import Struct

from kitproof.facts.build import Standing
from kitproof.facts.geometry import port_for
from kitproof.facts.outlines import centre_of, mass_of
from kitproof.facts.rig import RigSubject
from kitproof.facts.values import joined
from kitproof.mechanics.means import Term
from kitproof.model.parts import Part
from kitproof.model.quantities import ANYWHERE, UNKNOWN_SPOT, Spot


class Aside(Struct, frozen=True):
    """A place seen from above, in m from the middle of the feet (its `up` says nothing), and what is missing of it."""

    place: Spot = Spot()
    missing: tuple[str, ...] = ()

    def moved(self, other: Aside) -> Aside:
        return Aside(self.place.plus(other.place), joined(self.missing, other.missing))


class Resting(NamedTuple):
    """What does not tilt, as terms forward and left of the middle of the feet; the head's place; what is missing."""

    forward: list[Term]
    left: list[Term]
    head: Spot
    missing: tuple[str, ...]


def resting_aside(rig: RigSubject, leaving_out: Container[int]) -> Resting:
    """Everything that does not tilt, seen from above. `leaving_out` holds the ids of what does not count."""
    seats, head = _chain(rig)
    for each in rig.build.standing:
        if each.line.slot == "spreader":
            seats[id(each)] = _said(each) or Aside()
    hung = [thing.standing for thing in rig.group("hung", "ground") if thing.on_sticks]
    _hang(rig, hung, seats)
    forward, left, missing = [], [], head.missing
    for each in rig.build.standing:
        if id(each) not in seats or id(each) in leaving_out:
            continue
        mass, _ = mass_of(each.part)
        centre = seats[id(each)] if each.line.slot == "ballast" else seats[id(each)].moved(_own(each.part))
        forward.append(Term(*mass, *centre.place.forward))
        left.append(Term(*mass, *centre.place.left))
        missing = joined(missing, centre.missing)
    return Resting(forward, left, head.place, missing)


def _chain(rig: RigSubject) -> tuple[dict[int, Aside], Aside]:
    """The seats of what stands below the plate, by id, and the place of the last of them, mostly the head."""
    seats: dict[int, Aside] = {}
    here, below = Aside(), None
    for each in rig.build.chain:
        if each in rig.build.above:
            break
        here = here.moved(_said(each) or _port(each, below))
        seats[id(each)] = here
        below = each
    return seats, here


def _said(each: Standing) -> Aside | None:
    """What its line says of its place; None where it says nothing."""
    if not each.line.at_known:
        return _nowhere(each.part)
    return None if each.line.at is None else _at(each.part, each.line.at)


def _port(each: Standing, below: Standing | None) -> Aside:
    index = None if below is None else port_for(each.part, below.part)
    at = below.part.takes[index].at if below is not None and index is not None else None
    return Aside() if at is None else _at(each.part, at)


def _at(part: Part, spot: Spot) -> Aside:
    """A place, of which a direction may be `?`."""
    return Aside(spot, _nowhere(part).missing if ANYWHERE in (spot.forward, spot.left) else ())


def _hang(rig: RigSubject, hung: list[Standing], seats: dict[int, Aside]) -> None:
    """Adds the seats of what hangs; what is on nothing known, or in the end on itself, is nowhere known."""
    waiting = list(hung)
    while waiting:
        ready = [each for each in waiting if (owner := _owner(rig, each)) is not None and id(owner) in seats]
        for each in ready:
            owner = _owner(rig, each)
            assert owner is not None, "only what has an owner is ready"
            seats[id(each)] = seats[id(owner)].moved(_said(each) or Aside())
        waiting = [each for each in waiting if id(each) not in seats]
        if not ready:
            seats |= {id(each): _nowhere(each.part) for each in waiting}
            return


def _owner(rig: RigSubject, thing: Standing) -> Standing | None:
    """What it hangs on: what its line says, else the sticks for ballast and the head for all else."""
    wanted = thing.line.on or ("sticks" if thing.line.slot == "ballast" else "head")
    for each in rig.build.standing:
        name = each.part.name if thing.line.on_is_name else each.line.slot
        if each is not thing and name == wanted:
            return each
    return None


def _nowhere(part: Part) -> Aside:
    return Aside(UNKNOWN_SPOT, (part.lacks("its place on the rig"),))


def _own(part: Part) -> Aside:
    """Its centre of gravity from its own seat, as far as anything is written of it."""
    written = part.cog is not None or not part.cog_known
    centre, missing = centre_of(part)
    ahead = written or part.weighed is not None or part.blank("weighed")
    place = Spot(forward=centre.forward if ahead else Spot().forward, left=centre.left if written else Spot().left)
    lost = ANYWHERE in (place.forward, place.left)
    return Aside(place, missing if lost else ())
