"""Where everything in a build is.

Places above the head are measured from the top face of its plate (`up`), over the tilt axis (`forward`, `left`), with
the slide at its mark. A place that is not known is anywhere, and says so.
"""

from __future__ import annotations

from dataclasses import dataclass

from kitproof.facts.build import OFF_THE_PLATE, Build, Standing
from kitproof.facts.means import Term
from kitproof.facts.outlines import centre_of, height_of, mass_of, outline
from kitproof.model.quantities import ANYWHERE, UNKNOWN_SPOT, Range, Spot


@dataclass(frozen=True, slots=True)
class Placed:
    """A thing of a build: where its seat is, where its centre of gravity is, its mass, and what is missing of each.

    `group` is "carried" (above the plate), "below" (the chain up to the head), "hung" (on the head or the sticks) or
    "ground". `moves` is True for what moves with the slide.
    """

    standing: Standing
    group: str
    moves: bool
    seat: Spot
    centre: Spot
    mass: Range
    no_mass: tuple[str, ...]
    no_place: tuple[str, ...]

    def term(self, axis: str) -> Term:
        low, high = getattr(self.centre, axis)
        return Term(self.mass[0], self.mass[1], low, high)

    def no_axis(self, axis: str) -> tuple[str, ...]:
        """What is missing of its place along one axis: nothing, where that axis is known all the same."""
        return self.no_place if getattr(self.centre, axis) == ANYWHERE else ()


@dataclass(frozen=True, slots=True)
class _Seated:
    """Where a part's seat is, whether it moves with the slide, and what is missing to know it."""

    spot: Spot
    group: str
    moves: bool
    missing: tuple[str, ...] = ()

    def at(self, offset: Spot, lacking: tuple[str, ...] = ()) -> _Seated:
        return _Seated(self.spot.plus(offset), self.group, self.moves, (*self.missing, *lacking))


def placed(build: Build) -> tuple[Placed, ...]:
    """Everything in a build but the sticks and the spreader, in its place."""
    return _Placing(build).all()


class _Placing:
    """The state of placing one build; it lives no longer than that."""

    def __init__(self, build: Build) -> None:
        self.build = build
        self.standing = build.standing
        self.seats: dict[int, _Seated] = {}
        self.used: set[tuple[int, int]] = set()
        self.waiting: set[int] = set()

    def all(self) -> tuple[Placed, ...]:
        self.seat_chain()
        for number, each in enumerate(self.standing):
            if each.line.slot not in ("sticks", "spreader"):
                self.seat(number)
        return tuple(_placed(self.standing[number], self.seats[number]) for number in sorted(self.seats))

    def seat_chain(self) -> None:
        """The support slots: each stands on the one before. Above the plate heights add up from 0."""
        numbers = {id(each): number for number, each in enumerate(self.standing)}
        above = {id(each) for each in self.build.above}
        here = _Seated(Spot(), "carried", False)
        for each in self.build.chain:
            number = numbers[id(each)]
            slide = each.line.slot == "slide"
            if id(each) in above:
                offset = each.line.at if each.line.at is not None and not slide else Spot()
                itself = here.moves or (slide and each.part.slides_itself)
                self.seats[number] = _Seated(here.spot.plus(offset), "carried", itself, here.missing)
                height, lacking = height_of(each.part)
                here = _Seated(
                    here.spot.plus(Spot(up=height)), "carried", here.moves or slide, (*here.missing, *lacking)
                )
            elif each.line.slot != "sticks":
                self.seats[number] = _Seated(UNKNOWN_SPOT, "below", False)

    def seat(self, number: int) -> _Seated:
        """What hangs on something: at its `at`, else in the first free port of its family, else within an outline.

        A thing that in the end hangs on itself is nowhere: its place is not known.
        """
        if number in self.seats:
            return self.seats[number]
        part = self.standing[number].part
        nowhere = (f"{part.label}: its place on the rig" if part.described else part.lacks("cog"),)
        if number in self.waiting:
            return _Seated(UNKNOWN_SPOT, "carried", False, nowhere)
        self.waiting.add(number)
        owner = self.named(number)
        if owner is not None and self.carries(owner):
            found = self.on_a_part(number, owner, nowhere)
        else:
            found = self.on_the_support(number, owner, nowhere)
        self.seats[number] = found
        return found

    def named(self, number: int) -> int | None:
        """Which part of the build a thing is on: what the line says, else the camera, or the head for a pan bar."""
        line = self.standing[number].line
        on = line.on or ("head" if line.slot in OFF_THE_PLATE else "camera")
        for other, candidate in enumerate(self.standing):
            name = candidate.part.name if line.on_is_name else candidate.line.slot
            if other != number and name == on:
                return other
        return None

    def carries(self, owner: int) -> bool:
        slot = self.standing[owner].line.slot
        return slot not in ("sticks", "spreader", "head") and self.seat(owner).group == "carried"

    def on_the_support(self, number: int, owner: int | None, nowhere: tuple[str, ...]) -> _Seated:
        """What is on the head, the sticks or the ground. On the head its place is known where `at` is written."""
        line = self.standing[number].line
        if line.on == "ground":
            return _Seated(UNKNOWN_SPOT, "ground", False, nowhere)
        if owner is None and line.slot not in OFF_THE_PLATE:
            return _Seated(UNKNOWN_SPOT, "carried", False, nowhere)
        if line.at is None or owner is None or self.standing[owner].line.slot != "head":
            return _Seated(UNKNOWN_SPOT, "hung", False, nowhere)
        (low, high), lacking = height_of(self.standing[owner].part)
        return _Seated(Spot(up=(-high, -low)), "hung", False, lacking).at(line.at)

    def on_a_part(self, number: int, owner: int, nowhere: tuple[str, ...]) -> _Seated:
        line = self.standing[number].line
        seat = self.seat(owner)
        if line.at is not None or not line.at_known:
            known = line.at_known and line.at is not None
            return seat.at(line.at or UNKNOWN_SPOT, () if known else nowhere)
        port = self.free_port(number, owner)
        if port is not None:
            self.used.add(port)
            owner, at = port[0], self.standing[port[0]].part.takes[port[1]].at
            if at is not None:
                return self.seat(owner).at(at)
        box = outline(self.standing[owner].part)
        lost = ANYWHERE in (box.forward, box.up, box.left)
        return self.seat(owner).at(box, nowhere if lost else ())

    def free_port(self, number: int, owner: int) -> tuple[int, int] | None:
        """The first free port of the family by which a part is mounted: on what it is on, else on anything carried.

        A port of another size is taken too: what does not fit stands there all the same, and mating speaks of it.
        """
        families = {seat.family for seat in self.standing[number].part.sits_on}
        said = self.standing[number].line.on
        others = [] if said else [other for other in sorted(self.seats) if other not in (owner, number)]
        for candidate in (owner, *others):
            if self.seats[candidate].group != "carried":
                continue
            for index, port in enumerate(self.standing[candidate].part.takes):
                if port.family in families and (candidate, index) not in self.used:
                    return candidate, index
        return None


def _placed(standing: Standing, seated: _Seated) -> Placed:
    mass, no_mass = mass_of(standing.part)
    centre, no_centre = centre_of(standing.part)
    return Placed(
        standing,
        seated.group,
        seated.moves,
        seated.spot,
        seated.spot.plus(centre),
        mass,
        no_mass,
        tuple(dict.fromkeys((*seated.missing, *no_centre))),
    )
