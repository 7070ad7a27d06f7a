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


class Placed(Struct, frozen=True):
    """A thing of a build: where its seat is, where its centre of gravity is, its mass, and what is missing of each.

    `group` is "carried" (above the plate), "below" (the chain up to the head), "hung" (on the head or the sticks) or
    "ground". `moves` is True for what moves with the slide. `root` is the support part that it rests on in the end,
    itself for a support part, None where that is not known. `on` is what it stands or hangs on, and `ahead` how far
    ahead of that one's seat its own is; None and not known for what stands first, or on nothing known.
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
    """Where a part's seat is, whether it moves with the slide, what is missing to know it, and its root."""

    spot: Spot
    group: str
    moves: bool
    missing: tuple[str, ...] = ()
    root: int | None = None

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
        self.owners: dict[int, tuple[int, Range]] = {}
        """What each is on, and how far ahead of that one's seat it sits."""

    def all(self) -> tuple[Placed, ...]:
        self.seat_chain()
        for number, each in enumerate(self.standing):
            if each.line.slot not in ("sticks", "spreader"):
                self.seat(number)
        return tuple(self.placed(number) for number in sorted(self.seats))

    def seat_chain(self) -> None:
        """The support slots: each stands on the one before. Above the plate heights add up from 0."""
        numbers = {id(each): number for number, each in enumerate(self.standing)}
        above = {id(each) for each in self.build.above}
        here = _Seated(Spot(), "carried", False)
        below: int | None = None
        for each in self.build.chain:
            number = numbers[id(each)]
            port = None if below is None else self.chain_port(number, below)
            if id(each) in above:
                here = self.stand(number, here, port)
                if below is not None:
                    self.owners[number] = below, self.ahead(number, port)
            elif each.line.slot != "sticks":
                self.seats[number] = _Seated(UNKNOWN_SPOT, "below", False, root=number)
            below = number

    def chain_port(self, number: int, below: int) -> Spot | None:
        """The place of the port that a support part takes up on the one below it, if it has one; it is then used."""
        index = port_for(self.standing[number].part, self.standing[below].part)
        if index is None:
            return None
        self.used.add((below, index))
        return self.standing[below].part.takes[index].at

    def placed(self, number: int) -> Placed:
        standing, seated = self.standing[number], self.seats[number]
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

    def ahead(self, number: int, port: Spot | None) -> Range:
        """How far ahead of the seat below it a support part sits, a slide at its mark."""
        line = self.standing[number].line
        if line.slot != "slide" and (line.at is not None or not line.at_known):
            return (line.at or UNKNOWN_SPOT).forward
        return port.forward if port is not None else Spot().forward

    def hang(self, number: int, owner: int, offset: Spot, lacking: tuple[str, ...] = ()) -> _Seated:
        self.owners[number] = owner, offset.forward
        return self.seat(owner).at(offset, lacking)

    def stand(self, number: int, here: _Seated, port: Spot | None) -> _Seated:
        """Seats a support part above the plate; gives where the next one stands.

        Forward and left it stands where its line says, else at the port's place; up the heights count. A slide's `at`
        is its position on its travel, and everything is placed with the slide at its mark.
        """
        line, part = self.standing[number].line, self.standing[number].part
        slide = line.slot == "slide"
        if not slide and (line.at is not None or not line.at_known):
            here = here.at(line.at or UNKNOWN_SPOT, () if line.at_known else self.nowhere(number))
        elif port is not None:
            here = here.at(Spot(forward=port.forward, left=port.left))
        here = replace(here, root=number)
        self.seats[number] = replace(here, moves=here.moves or (slide and part.slides_itself))
        height, lacking = height_of(part)
        return replace(here.at(Spot(up=height), lacking), moves=here.moves or slide)

    def nowhere(self, number: int) -> tuple[str, ...]:
        """What is missing where a part's place on the rig is not known."""
        part = self.standing[number].part
        return (f"{part.label}: its place on the rig" if part.described else part.lacks("cog"),)

    def seat(self, number: int) -> _Seated:
        """What hangs on something: at its `at`, else in the first free port of its family, else within an outline.

        A thing that in the end hangs on itself is nowhere: its place is not known.
        """
        if number in self.seats:
            return self.seats[number]
        nowhere = self.nowhere(number)
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

    def carries(self, owner: int) -> bool:
        return self.group_of(owner) == "carried"

    def group_of(self, owner: int) -> str:
        """The group of what a thing is on; the sticks and the spreader, which have no seat here, count as hung from."""
        slot = self.standing[owner].line.slot
        return "hung" if slot in ("sticks", "spreader", "head") else self.seat(owner).group

    def root_of(self, owner: int) -> int | None:
        """The support part that a thing's owner rests on in the end."""
        return self.seats[owner].root if owner in self.seats else owner

    def on_the_support(self, number: int, owner: int | None, nowhere: tuple[str, ...]) -> _Seated:
        """What hangs on the head or the sticks, or stands on the ground; what is on nothing known is carried."""
        line = self.standing[number].line
        if (line.on == "ground" and not line.on_is_name) or (owner is not None and self.group_of(owner) == "ground"):
            return _Seated(UNKNOWN_SPOT, "ground", False, nowhere)
        if owner is None:
            hung = line.on in ("head", "sticks") and not line.on_is_name
            group = "hung" if hung or line.slot in OFF_THE_PLATE else "carried"
            return _Seated(UNKNOWN_SPOT, group, False, nowhere)
        root = self.root_of(owner)
        if line.at is None or self.standing[owner].line.slot != "head":
            return _Seated(UNKNOWN_SPOT, "hung", False, nowhere, root)
        (low, high), lacking = height_of(self.standing[owner].part)
        lost = () if line.at_known else nowhere
        return _Seated(Spot(up=(-high, -low)), "hung", False, lacking, root).at(line.at, lost)

    def on_a_part(self, number: int, owner: int, nowhere: tuple[str, ...]) -> _Seated:
        line = self.standing[number].line
        if line.at is not None or not line.at_known:
            known = line.at_known and line.at is not None
            return self.hang(number, owner, line.at or UNKNOWN_SPOT, () if known else nowhere)
        port = self.free_port(number, owner)
        if port is not None:
            self.used.add(port)
            owner, at = port[0], self.standing[port[0]].part.takes[port[1]].at
            if at is not None:
                return self.hang(number, owner, at)
        box = outline(self.standing[owner].part)
        lost = ANYWHERE in (box.forward, box.up, box.left)
        return self.hang(number, owner, box, nowhere if lost else ())

    def free_port(self, number: int, owner: int) -> tuple[int, int] | None:
        """The first free port of the family by which a part is mounted: on what it is on, else on anything carried.

        A port of another size is taken too: what does not fit stands there all the same, and mating speaks of it.
        """
        families = {seat.family for seat in self.standing[number].part.sits_on}
        said = self.standing[number].line.on
        others = [] if said else [other for other in sorted(self.seats) if other not in (owner, number)]
        for candidate in (owner, *others):
            if candidate not in self.seats or self.seats[candidate].group != "carried":
                continue
            for index, port in enumerate(self.standing[candidate].part.takes):
                if port.family in families and (candidate, index) not in self.used:
                    return candidate, index
        return None
