"""Where everything in a build is.

Places above the head are measured from the top face of its plate (`up`), over the tilt axis (`forward`, `left`), with
the slide at its mark. A place that is not known is anywhere, and says so.
"""

from __future__ import annotations

from msgspec import Struct
from msgspec.structs import replace

from kitproof.facts.build import OFF_THE_PLATE, Build, Standing
from kitproof.facts.outlines import centre_of, height_of, mass_of, outline
from kitproof.mechanics.means import Term
from kitproof.model.parts import Part
from kitproof.model.quantities import ANYWHERE, UNKNOWN_SPOT, Range, Spot
from kitproof.words.kinds import SUPPORT


class Placed(Struct, frozen=True):
    """A thing of a build: where its seat is, where its centre of gravity is, its mass, and what is missing of each.

    `group` is "carried" (above the plate), "below" (the chain up to the head), "hung" (on the head or the sticks) or
    "ground". `moves` is True for what moves with the slide. `root` is the support part that it rests on in the end,
    itself for a support part, None where that is not known. `on` is what it stands or hangs on, and `ahead` how far
    ahead of that one's seat its own is; None where that is not known, and for what stands first.
    """

    standing: Standing
    group: str
    moves: bool
    seat: Spot
    centre: Spot
    mass: Range
    no_mass: tuple[str, ...]
    no_place: tuple[str, ...]
    root: Standing | None
    on: Standing | None = None
    ahead: Range = ANYWHERE

    def term(self, axis: str) -> Term:
        low, high = getattr(self.centre, axis)
        return Term(self.mass[0], self.mass[1], low, high)

    def no_axis(self, axis: str) -> tuple[str, ...]:
        """What is missing of its place along one axis: nothing, where that axis is known all the same."""
        return self.no_place if getattr(self.centre, axis) == ANYWHERE else ()

    @property
    def on_sticks(self) -> bool:
        """Whether the sticks bear it: not what stands on the ground beside them, but ballast that is tied to them."""
        return self.group != "ground" or self.standing.line.slot == "ballast"


class _Seated(Struct, frozen=True):
    """Where a part's seat is, what is missing to know it, its root, and whether it moves with the slide."""

    spot: Spot
    group: str
    missing: tuple[str, ...] = ()
    root: int | None = None
    moves: bool = False

    def at(self, offset: Spot, lacking: tuple[str, ...] = ()) -> _Seated:
        return replace(self, spot=self.spot.plus(offset), missing=(*self.missing, *lacking))


def placed(build: Build) -> tuple[Placed, ...]:
    """Everything in a build but the sticks and the spreader, in its place."""
    return _Placing(build).all()


def port_for(part: Part, below: Part) -> int | None:
    """Which port a support part takes up on the one below it: the first of its family and size, else of its family."""
    sizes = {(seat.family, seat.size) for seat in part.sits_on}
    families = {seat.family for seat in part.sits_on}
    fitting = [index for index, port in enumerate(below.takes) if (port.family, port.size) in sizes]
    related = [index for index, port in enumerate(below.takes) if port.family in families]
    return next(iter(fitting or related), None)


class _Placing:
    """The state of placing one build; it lives no longer than that."""

    def __init__(self, build: Build) -> None:
        self.build = build
        self.standing = build.standing
        self.seats: dict[int, _Seated] = {}
        self.used: set[tuple[int, int]] = set()
        self.waiting: set[int] = set()
        self.owners: dict[int, tuple[int | None, Range]] = {}
        """What each is on, and how far ahead of that one's seat it sits."""

    def all(self) -> tuple[Placed, ...]:
        self.seat_support()
        return tuple(
            self.placed(number)
            for number, each in enumerate(self.standing)
            if each.line.slot not in ("sticks", "spreader")
        )

    def seat_support(self) -> None:
        """The support slots: each stands on the one before. Above the plate heights add up from 0."""
        above = {id(each) for each in self.build.above}
        here = _Seated(Spot(), "carried")
        below: int | None = None
        for number, each in enumerate(self.standing):
            slot = each.line.slot
            if id(each) in above:
                here = self.stand(number, here, below)
            elif slot in SUPPORT:
                self.seats[number] = _Seated(UNKNOWN_SPOT, "below", root=number)
            if slot in SUPPORT and slot != "spreader":
                below = number

    def placed(self, number: int) -> Placed:
        standing, seated = self.standing[number], self.seat(number)
        mass, no_mass = mass_of(standing.part)
        centre, no_centre = centre_of(standing.part)
        owner, ahead = self.owners.get(number, (None, ANYWHERE))
        return Placed(
            standing,
            seated.group,
            seated.moves,
            seated.spot,
            seated.spot.plus(centre),
            mass,
            no_mass,
            tuple(dict.fromkeys((*seated.missing, *no_centre))),
            None if seated.root is None else self.standing[seated.root],
            None if owner is None else self.standing[owner],
            ahead,
        )

    def hang(self, number: int, owner: int, offset: Spot) -> _Seated:
        self.owners[number] = owner, offset.forward
        return self.seat(owner).at(offset, self.lacking(number, offset))

    def stand(self, number: int, here: _Seated, below: int | None) -> _Seated:
        """Seats a support part above the plate; gives where the next one stands: as much higher as this one is high."""
        part = self.standing[number].part
        slide = self.standing[number].line.slot == "slide"
        offset = self.offset(number, below)
        self.owners[number] = below, offset.forward
        here = replace(here.at(offset, self.lacking(number, offset)), root=number)
        self.seats[number] = replace(here, moves=here.moves or part.slides_itself)
        height, no_height = height_of(part)
        return replace(here.at(Spot(up=height), no_height), moves=here.moves or slide)

    def offset(self, number: int, below: int | None) -> Spot:
        """Where a support part stands on the top of the one below it.

        Where its line says, else forward and left at the port's place. A slide's `at` is its position on its travel,
        and everything is placed with the slide at its mark.
        """
        port = None if below is None else self.chain_port(number, below)
        said = None if self.standing[number].line.slot == "slide" else self.said(number)
        if said is not None:
            return said
        return Spot() if port is None else Spot(forward=port.forward, left=port.left)

    def chain_port(self, number: int, below: int) -> Spot | None:
        """The place of the port that a support part takes up on the one below it, if it has one; it is then used."""
        index = port_for(self.standing[number].part, self.standing[below].part)
        if index is None:
            return None
        self.used.add((below, index))
        return self.standing[below].part.takes[index].at

    def said(self, number: int) -> Spot | None:
        """Where the line of a part says that it is, anywhere where it could not be read; None where it does not say."""
        line = self.standing[number].line
        return line.at or (None if line.at_known else UNKNOWN_SPOT)

    def lacking(self, number: int, offset: Spot) -> tuple[str, ...]:
        """What is missing of a place of which a direction may be `?`."""
        return self.nowhere(number) if ANYWHERE in (offset.forward, offset.up, offset.left) else ()

    def nowhere(self, number: int) -> tuple[str, ...]:
        """What is missing where a part's place on the rig is not known."""
        return (self.standing[number].part.lacks("its place on the rig"),)

    def seat(self, number: int) -> _Seated:
        """What hangs on something: at its `at`, else in the first free port of its family, else within an outline.

        A thing that in the end hangs on itself is nowhere: its place is not known.
        """
        if number in self.seats:
            return self.seats[number]
        if number in self.waiting:
            return _Seated(UNKNOWN_SPOT, "carried", self.nowhere(number))
        self.waiting.add(number)
        owner = self.named(number)
        if owner is not None and self.seat(owner).group == "carried":
            found = self.on_a_part(number, owner)
        else:
            found = self.on_the_support(number, owner)
        self.seats[number] = found
        return found

    def named(self, number: int) -> int | None:
        """Which part of the build a thing is on: what the line says, else the camera, or the head for a pan bar.

        Ballast hangs from the sticks: what stands between them and the head does not bear it.
        """
        line = self.standing[number].line
        usual = "sticks" if line.slot == "ballast" else "head" if line.slot in OFF_THE_PLATE else "camera"
        on = line.on or usual
        for other, candidate in enumerate(self.standing):
            name = candidate.part.name if line.on_is_name else candidate.line.slot
            if other != number and name == on:
                return other
        return None

    def on_the_support(self, number: int, owner: int | None) -> _Seated:
        """What hangs on the head or the sticks, or stands on the ground; what is on nothing known is carried."""
        line, nowhere = self.standing[number].line, self.nowhere(number)
        if owner is None:
            on = "" if line.on_is_name else line.on
            if on == "ground":
                return _Seated(UNKNOWN_SPOT, "ground", nowhere)
            hung = on in ("head", "sticks") or line.slot in OFF_THE_PLATE
            return _Seated(UNKNOWN_SPOT, "hung" if hung else "carried", nowhere)
        below = self.seat(owner)
        if below.group == "ground":
            return _Seated(UNKNOWN_SPOT, "ground", nowhere)
        said = self.said(number)
        if said is None or self.standing[owner].line.slot != "head":
            return _Seated(UNKNOWN_SPOT, "hung", nowhere, below.root)
        (low, high), lacking = height_of(self.standing[owner].part)
        return _Seated(Spot(up=(-high, -low)), "hung", lacking, below.root).at(said, self.lacking(number, said))

    def on_a_part(self, number: int, owner: int) -> _Seated:
        said = self.said(number)
        if said is not None:
            return self.hang(number, owner, said)
        port = self.free_port(number, owner)
        if port is not None:
            self.used.add(port)
            owner, at = port[0], self.standing[port[0]].part.takes[port[1]].at
            if at is not None:
                return self.hang(number, owner, at)
        return self.hang(number, owner, outline(self.standing[owner].part))

    def free_port(self, number: int, owner: int) -> tuple[int, int] | None:
        """The first free port of the family by which a part is mounted: on what it is on, else on anything carried.

        A port of another size is taken too: what does not fit stands there all the same, and mating speaks of it.
        """
        families = {seat.family for seat in self.standing[number].part.sits_on}
        said = self.standing[number].line.on
        others = [] if said else [other for other in sorted(self.seats) if self.seats[other].group == "carried"]
        for candidate in (owner, *others):
            for index, port in enumerate(self.standing[candidate].part.takes):
                if port.family in families and (candidate, index) not in self.used:
                    return candidate, index
        return None
